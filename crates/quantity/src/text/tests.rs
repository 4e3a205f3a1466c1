use super::*;
use crate::*;
use proptest::prelude::*;

fn litres(text: &str) -> Result<f64, TextFault> {
    read::<VolumeRate>(text).map(|stated| Unit::LitrePerMinute.of_si(stated.nominal.si()))
}

fn ends<Q: Quantity>(text: &str, unit: Unit) -> (f64, f64, f64) {
    let stated: Stated<Q> = read(text).unwrap_or_else(|fault| panic!("{text}: {fault:?}"));
    let interval = stated.interval(Tolerance::NONE).map(|end| unit.of_si(end.si()));
    (interval.low, interval.nominal, interval.high)
}

fn near(found: (f64, f64, f64), wanted: (f64, f64, f64), text: &str) {
    let same = |a: f64, b: f64| (a - b).abs() < 1e-9;
    assert!(same(found.0, wanted.0) && same(found.1, wanted.1) && same(found.2, wanted.2), "{text}: {found:?}");
}

#[test]
fn people_write_figures_in_many_ways() {
    let same = |text: &str, value: f64| {
        let read = litres(text).unwrap_or_else(|fault| panic!("{text}: {fault:?}"));
        assert!((read - value).abs() < 1e-9, "{text}: {read}");
    };
    for text in ["118 L/min", "118L/min", " 118.0 l/min ", "118. lpm", "+118 ltr/min", "118\u{a0}L/min", "236/2 L/min"]
    {
        same(text, 118.0);
    }
    same("25 [gal_us]/min", 25.0 * 3.785_411_784);
    same("25gpm", 25.0 * 3.785_411_784);
    same("0 L/min", 0.0);
    same("-0 L/min", 0.0);
    assert!(litres("-0 L/min").expect("zero").is_sign_positive(), "no minus zero");
    for (text, value) in
        [("2 1/2 in", 2.5), ("3/4\"", 0.75), ("¾ in", 0.75), ("2½ inch", 2.5), ("2 ½ in", 2.5), (".5 in", 0.5)]
    {
        near(ends::<Length>(text, Unit::Inch), (value, value, value), text);
    }
    near(ends::<Length>("-2 1/2 in", Unit::Inch), (-2.5, -2.5, -2.5), "a negative fraction");
    near(ends::<ThermodynamicTemperature>("-10 °C", Unit::Celsius), (-10.0, -10.0, -10.0), "cold");
    near(ends::<ThermodynamicTemperature>("\u{2212}10 C", Unit::Celsius), (-10.0, -10.0, -10.0), "a printed minus");
    for text in ["2200 rpm", "2200 1/min", "2200 min-1", "2200 min⁻¹", "2200 {rev}/min"] {
        near(ends::<AngularVelocity>(text, Unit::RevolutionPerMinute), (2200.0, 2200.0, 2200.0), text);
    }
    near(ends::<Ratio>("0.5 1", Unit::One), (0.5, 0.5, 0.5), "the unit 1");
}

#[test]
fn a_range_may_be_written_with_points_a_dash_or_a_word() {
    for text in [
        "80..120 L/min",
        "80 .. 120 L/min",
        "80...120 L/min",
        "80…120 L/min",
        "80–120 L/min",
        "80 – 120 L/min",
        "80-120 L/min",
        "80 - 120 L/min",
        "80 to 120 L/min",
        "80 L/min..120 L/min",
        "80 L/min to 120 L/min",
        "80 L/min – 120 L/min",
        "80..120 L/min (published)",
    ] {
        near(ends::<VolumeRate>(text, Unit::LitrePerMinute), (80.0, 100.0, 120.0), text);
    }
    near(ends::<VolumeRate>("0...5 L/min", Unit::LitrePerMinute), (0.0, 2.5, 5.0), "three points are no 0.5");
    near(ends::<Length>("1/2..3/4 in", Unit::Inch), (0.5, 0.625, 0.75), "fractions");
    near(ends::<Length>("1/2-3/4 in", Unit::Inch), (0.5, 0.625, 0.75), "fractions with a hyphen");
    near(ends::<Ratio>("0.5..1 1", Unit::One), (0.5, 0.75, 1.0), "the unit 1");
    near(ends::<ThermodynamicTemperature>("-20..50 °C", Unit::Celsius), (-20.0, 15.0, 50.0), "frost");
    let range: Range<Pressure> = read_range("180..260 bar").expect("a range");
    assert_eq!(write_range(&range), "180..260 bar");
    let Range { low, high, .. } = read_span("3..6 m", Dimension::Length).expect("a range");
    assert_eq!(write_amounts(low, high, Unit::Metre), "3..6 m");
    assert_eq!(write_amounts(low, high, Unit::Millimetre), "3000..6000 mm");
}

#[test]
fn tolerance_and_source_are_kept() {
    let bar = |text, low, value, high| near(ends::<Pressure>(text, Unit::Bar), (low, value, high), text);
    for text in
        ["200 bar ±5 %", "200 bar +/- 5%", "200 bar -5/+5 %", "200 bar ±10 bar", "200 ±10 bar", "200 bar (plate) ±5 %"]
    {
        bar(text, 190.0, 200.0, 210.0);
    }
    for text in
        ["200 bar -15/+8 %", "200 bar –15/+8 %", "200 bar +8/-15 %", "200 bar -15 %/+8 %", "200 bar -30/+16 bar"]
    {
        bar(text, 170.0, 200.0, 216.0);
    }
    bar("200 bar -0/+8 %", 200.0, 200.0, 216.0);
    bar("0 bar ±0.2 bar", -0.2, 0.0, 0.2);
    bar("-10 bar ±5 %", -10.5, -10.0, -9.5);
    near(ends::<Length>("2 1/2 in ±1/16 in", Unit::Inch), (2.4375, 2.5, 2.5625), "a fraction as a tolerance");
    near(ends::<Length>("3 m ±50 mm", Unit::Metre), (2.95, 3.0, 3.05), "a smaller unit in the tolerance");
    let warm =
        |text, low, value, high| near(ends::<ThermodynamicTemperature>(text, Unit::Celsius), (low, value, high), text);
    warm("50 °C ±5 °C", 45.0, 50.0, 55.0);
    warm("50 °C ±9 °F", 45.0, 50.0, 55.0);
    warm("50 °C -5/+10 °C", 45.0, 50.0, 60.0);
    let plate: Stated<Pressure> = read("205 bar ±4 bar (Plate)").expect("a pressure");
    assert_eq!(plate.source, Source::Plate);
}

#[test]
fn every_fault_is_told_apart() {
    let fault = |text: &str| litres(text).expect_err(text);
    let owned = |text: &str| text.to_owned();
    let number = |text: &str| TextFault::BadNumber { found: owned(text) };
    let tolerance = |text: &str| TextFault::BadTolerance { found: owned(text) };
    let source = |text: &str| TextFault::UnknownSource { found: owned(text) };
    let trailing = |text: &str| TextFault::Trailing { found: owned(text) };
    assert_eq!(fault(""), TextFault::Empty);
    assert_eq!(fault(" \t"), TextFault::Empty);
    assert_eq!(fault(&"1".repeat(121)), TextFault::TooLong);
    for text in ["1,240 L/min", "1.240,5 L/min", "1, 2 L/min", ",5 L/min", "118 L/min ±2,5 %", "95..1,5 L/min"] {
        assert_eq!(fault(text), TextFault::Comma, "{text}");
    }
    assert_eq!(fault("about 90 L/min"), TextFault::NoNumber);
    assert_eq!(fault("- 90 L/min"), TextFault::NoNumber);
    assert_eq!(fault("NaN L/min"), TextFault::NoNumber);
    assert_eq!(fault("1e5 L/min"), number("1e5 L/min"));
    assert_eq!(fault("1.2.3 L/min"), number("1.2.3 L/min"));
    assert_eq!(fault("1'240 L/min"), number("1'240 L/min"));
    assert_eq!(fault("1 240 L/min"), number("1 240"));
    assert_eq!(fault("1\u{202f}240 L/min"), number("1\u{202f}240"));
    assert_eq!(fault("1/0 L/min"), number("1/0"));
    assert_eq!(fault("2 3/2 L/min"), number("2 3/2"));
    assert_eq!(fault("2.5 1/2 L/min"), number("2.5 1/2"));
    assert_eq!(fault("2-1/2 L/min"), number("2-1/2"));
    assert_eq!(fault("80....117 L/min"), TextFault::NoNumber);
    assert_eq!(fault("118"), TextFault::NoUnit);
    assert_eq!(fault("118 (plate)"), TextFault::NoUnit);
    assert_eq!(fault("118 ±5 %"), TextFault::NoUnit);
    assert_eq!(fault("118 -15/+8 %"), TextFault::NoUnit);
    assert_eq!(fault("118 L/mn"), TextFault::UnknownUnit { found: owned("L/mn"), near: Some(Unit::LitrePerMinute) });
    assert_eq!(fault("118 parsec"), TextFault::UnknownUnit { found: owned("parsec"), near: None });
    assert_eq!(fault("118 bar"), TextFault::WrongDimension { unit: Unit::Bar });
    assert_eq!(fault("80 gpm..117 L/min"), TextFault::TwoUnits);
    for text in ["±x %", "±100 %", "±-5 %", "-15 %", "+8/+15 %", "±5 kg", "±5", "-15/-8 %"] {
        assert_eq!(fault(&format!("118 L/min {text}")), tolerance(text));
    }
    assert_eq!(read::<ThermodynamicTemperature>("50 °C ±5 %"), Err(tolerance("±5 %")));
    assert_eq!(fault("118 L/min (guess)"), source("guess"));
    assert_eq!(fault("118 L/min (plate"), source("(plate"));
    assert_eq!(fault("118 L/min (plate) x"), trailing("x"));
    assert_eq!(fault("118 L/min measured"), trailing("measured"));
    assert_eq!(fault("117..80 L/min"), TextFault::RangeReversed);
    assert_eq!(fault("80..117 L/min ±5 %"), TextFault::RangeWithTolerance);
    assert_eq!(read_range::<Pressure>("180 bar"), Err(TextFault::RangeWanted));
    assert_eq!(read_range::<Pressure>("180..200 bar (plate)"), Err(TextFault::PlainRangeWanted));
    assert_eq!(read_span("3..6 m ±5 %", Dimension::Length), Err(TextFault::PlainRangeWanted));
}

#[test]
fn a_thousandth_is_no_million() {
    let unknown = |text: &str, near| Some(TextFault::UnknownUnit { found: text.to_owned(), near });
    assert_eq!(read::<Power>("5 mW").err(), unknown("mW", None));
    assert_eq!(read::<Power>("5 MW").err(), unknown("MW", None));
    assert_eq!(read::<Pressure>("5 mPa").err(), unknown("mPa", Some(Unit::Megapascal)));
    assert_eq!(read::<Pressure>("5 mbar").err(), unknown("mbar", None));
    assert_eq!(read::<Mass>("5 g").err(), unknown("g", None));
    assert_eq!(read::<Length>("5 M").err(), unknown("M", Some(Unit::Metre)));
    assert_eq!(read::<Length>("5 MM").err(), unknown("MM", Some(Unit::Millimetre)));
    assert!(read::<Pressure>("5 Mpa").is_ok() && read::<Power>("5 KW").is_ok() && read::<Mass>("5 KG").is_ok());
}

#[test]
fn every_unit_is_found_by_its_code_and_its_spoken_forms_alone() {
    for &unit in Unit::ALL {
        assert_eq!(Unit::from_text(unit.name()), Some(unit));
        for spoken in unit.spoken() {
            assert_eq!(Unit::from_text(spoken), Some(unit), "{spoken}");
            assert_eq!(*spoken, spoken.to_lowercase(), "spoken forms are matched in small letters");
        }
    }
}

#[test]
fn the_shortest_form_is_written() {
    let same = |text: &str| assert_eq!(write(&read::<VolumeRate>(text).expect(text)), text);
    for text in [
        "118 L/min",
        "118.3 L/min ±5 % (plate)",
        "80..117 L/min (measured)",
        "25 [gal_us]/min",
        "118 L/min -15/+8 %",
        "0 L/min",
        "-0.2..0.2 L/min",
        "0 L/min -0.1/+0.3 L/min",
        "0.1 L/min",
        "33.3 L/min ±0.7 %",
    ] {
        same(text);
    }
    assert_eq!(write(&read::<Length>("2 1/2\"").expect("inches")), "2.5 [in_i]");
    assert_eq!(write(&read::<ThermodynamicTemperature>("50 °C -5/+10 °C").expect("warm")), "50 Cel -5/+10 Cel");
    assert_eq!(write(&read::<ThermodynamicTemperature>("50 °F ±5 °F").expect("cool")), "45..55 [degF]");
}

/// Checks that a figure of every kind and unit reads back as it was written.
fn survives<Q: Quantity>(value: f64, minus: f64, plus: f64, form: usize) -> Result<(), TestCaseError> {
    for &unit in Unit::ALL.iter().filter(|unit| unit.dimension() == Q::DIMENSION) {
        let si = |value: f64| Q::from_si(unit.to_si(value));
        let temperature = Q::DIMENSION == Dimension::Temperature;
        let value = if temperature { value % 500.0 } else { value };
        let (low, high) = (value - value.abs() * minus, value + value.abs() * plus);
        let (nominal, spread) = match form {
            1 if !temperature && value > 0.0 => (value, Spread::Relative(Tolerance { minus, plus })),
            2 if !temperature && value > 0.0 => (value, Spread::Relative(Tolerance::both(plus))),
            3 => (low.midpoint(high), Spread::Range { low: si(low), high: si(high) }),
            4 => (value, Spread::Range { low: si(low), high: si(high) }),
            _ => (value, Spread::Unstated),
        };
        let source = Source::ALL[form % 3];
        let stated: Stated<Q> = Stated { nominal: si(nominal), spread, source, unit };
        let text = write(&stated);
        let again = read::<Q>(&text).map_err(|fault| TestCaseError::fail(format!("{text}: {fault:?}")))?;
        prop_assert_eq!(again.source, source);
        // Only a lopsided range of percents changes its unit.
        prop_assert!(again.unit == unit || (again.unit, unit, form) == (Unit::One, Unit::Percent, 4));
        let (a, b) = (again.interval(Tolerance::NONE), stated.interval(Tolerance::NONE));
        // A degree scale has an offset: near absolute zero its figures cancel, so that there the offset is the scale.
        let offset = if temperature { 273.15 } else { 0.0 };
        let scale = b.low.si().abs().max(b.high.si().abs()).max(offset);
        for (a, b) in [(a.low, b.low), (a.nominal, b.nominal), (a.high, b.high)] {
            prop_assert!((a.si() - b.si()).abs() <= 1e-12 * scale, "{text}: {a:?} for {b:?}");
        }
        let range = Range { low: si(low), high: si(high), unit };
        let again = read_range::<Q>(&write_range(&range)).map_err(|fault| TestCaseError::fail(format!("{fault:?}")))?;
        prop_assert!((again.low.si() - range.low.si()).abs() <= 1e-12 * scale);
        prop_assert!((again.high.si() - range.high.si()).abs() <= 1e-12 * scale);
    }
    Ok(())
}

proptest! {
    #[test]
    fn no_text_makes_it_panic(text in ".{0,140}") {
        let _ = read::<VolumeRate>(&text);
        let _ = read_range::<Pressure>(&text);
        let _ = read_span(&text, Dimension::Ratio);
    }

    #[test]
    fn nearly_quantities_do_not_make_it_panic(
        parts in prop::collection::vec(
            prop::sample::select(vec![
                "1", "22", "0", "3/4", "½", ".", "..", "…", "-", "–", "−", "+", "±", "+/-", "/", ",", "'", "’", "e", " ",
                "\u{a0}", "to", " to ", "bar", "psi", "L/min", "in", "%", "Cel", "(plate)", "(", ")", "1/min", "µ", "\u{0}",
            ]),
            0..12,
        ),
    ) {
        let text = parts.concat();
        let _ = read::<VolumeRate>(&text);
        let _ = read::<Ratio>(&text);
        let _ = read::<ThermodynamicTemperature>(&text);
        let _ = read::<Length>(&text);
        if let Ok(stated) = read::<Pressure>(&text) {
            let interval = stated.interval(Tolerance::NONE);
            prop_assert!(interval.low <= interval.nominal && interval.nominal <= interval.high, "{}", text);
            let again = read::<Pressure>(&write(&stated));
            prop_assert!(again.is_ok(), "{} is written {} and read {:?}", text, write(&stated), again);
        }
    }

    #[test]
    fn what_is_written_reads_back(
        value in prop_oneof![-1e6f64..1e6, 1e-6f64..1.0, Just(0.0)],
        minus in 0.0f64..0.99,
        plus in 0.0f64..0.99,
        form in 0usize..5,
    ) {
        survives::<VolumeRate>(value, minus, plus, form)?;
        survives::<Pressure>(value, minus, plus, form)?;
        survives::<Power>(value, minus, plus, form)?;
        survives::<AngularVelocity>(value, minus, plus, form)?;
        survives::<Length>(value, minus, plus, form)?;
        survives::<Mass>(value, minus, plus, form)?;
        survives::<Displacement>(value, minus, plus, form)?;
        survives::<Torque>(value, minus, plus, form)?;
        survives::<ThermodynamicTemperature>(value, minus, plus, form)?;
        survives::<KinematicViscosity>(value, minus, plus, form)?;
        survives::<Volume>(value, minus, plus, form)?;
        survives::<Time>(value, minus, plus, form)?;
        survives::<Velocity>(value, minus, plus, form)?;
        survives::<Ratio>(value, minus, plus, form)?;
    }

    #[test]
    fn a_figure_as_people_write_it_reads_back_to_the_bit(digits in 1u32..99_999, decimals in 0u32..4) {
        let figure = f64::from(digits) / 10f64.powi(i32::try_from(decimals).expect("small"));
        let text = format!("{figure} [psi]");
        let stated = read::<Pressure>(&text).expect("a pressure");
        prop_assert_eq!(write(&stated), text);
    }
}

#[test]
fn each_fault_says_value_rule_and_remedy() {
    let said = |text: &str| litres(text).map_err(|fault| fault.to_string()).expect_err(text);
    for (text, wanted) in [
        ("", "no figure: write a number with its unit"),
        ("1,5 L/min", "a comma may be read in two ways: write a point for decimals, nothing for thousands"),
        ("bar", "no number at the beginning: write it before the unit"),
        ("118", "a number without a unit: write the unit behind it"),
        ("118 furlong", "`furlong` is no unit that is read"),
        ("118 bar", "bar measures pressure: write a unit of what is asked"),
        ("118 L/min ±200 %", "`±200 %` is no tolerance: write one below 100 %"),
        ("118 L/min (guess)", "`guess` is no source: write published, plate or measured"),
        ("120..80 L/min", "the range falls: write its least first"),
        ("80..120 L/min ±5 %", "a range with a tolerance: the range is the tolerance, write one"),
    ] {
        assert_eq!(said(text), wanted, "{text}");
    }
    let long = "1".repeat(LONGEST + 1);
    assert_eq!(said(&long), "longer than 120 characters: write one figure with its unit");
    assert_eq!(
        TextFault::PlainFigureWanted.to_string(),
        "more than a figure: write one without range, tolerance and source"
    );
}
