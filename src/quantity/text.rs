//! The one grammar of quantities, as people write them, the same in a table and in a form.
//!
//! ```text
//! quantity  = number [ unit ] [ ".." number ] unit [ tolerance ] [ source ]
//! number    = 118 | 118.5 | .5 | 2 1/2 | 3/4 | -10
//! tolerance = "±" number ( "%" | unit ) | "-" number "/+" number "%"
//! source    = "(published)" | "(plate)" | "(measured)"
//! ```
//!
//! A number without a unit is refused, and so is a comma: it means thousands to one reader and a decimal to another.

use super::{Dimension, Kind, Named, Range, Source, Spread, Stated, Tolerance, Unit};

/// The longest text that is read, in characters.
pub const LONGEST: usize = 120;

/// Why a text is no quantity.
#[derive(Clone, Debug, PartialEq)]
pub enum TextFault {
    /// Nothing there.
    Empty,
    /// Longer than [`LONGEST`].
    TooLong,
    /// A comma in a number.
    Comma,
    /// It does not begin with a number.
    NoNumber,
    /// Something like a number that is none.
    BadNumber {
        /// What stood there.
        found: String,
    },
    /// A number without a unit.
    NoUnit,
    /// A unit that is not in the list.
    UnknownUnit {
        /// What stood there.
        found: String,
        /// The nearest unit of the right dimension, when one is near.
        near: Option<Unit>,
    },
    /// A unit of another dimension.
    WrongDimension {
        /// The unit found.
        unit: Unit,
    },
    /// Two different units in one quantity.
    TwoUnits,
    /// A tolerance that cannot be read, or is 100 % or more.
    BadTolerance {
        /// What stood there.
        found: String,
    },
    /// Something in brackets that is no source.
    UnknownSource {
        /// What stood there.
        found: String,
    },
    /// Something left over at the end.
    Trailing {
        /// What stood there.
        found: String,
    },
    /// A range whose end lies below its beginning.
    RangeReversed,
    /// A single figure where a range is wanted.
    RangeWanted,
    /// A tolerance or source where only a range belongs.
    PlainRangeWanted,
    /// A range with a tolerance: the range is the tolerance.
    RangeWithTolerance,
}

/// A text taken apart, before it is typed.
struct Parsed {
    low: f64,
    high: Option<f64>,
    unit: Unit,
    spread: Option<Tolerance>,
    source: Option<Source>,
}

/// Reads a stated quantity.
///
/// # Errors
/// [`TextFault`] with what is wrong.
///
/// ```
/// use pairwright::quantity::{text, Kind, Source, Stated, Unit, VolumeRate};
/// let flow: Stated<VolumeRate> = text::read("38 gpm (plate)").unwrap();
/// assert_eq!(flow.source, Source::Plate);
/// assert!((Unit::LitrePerMinute.of_si(flow.nominal.si()) - 143.846).abs() < 0.001);
/// ```
pub fn read<Q: Kind>(text: &str) -> Result<Stated<Q>, TextFault> {
    let parsed = parse(text, Q::DIMENSION)?;
    let si = |value| Q::from_si(parsed.unit.to_si(value));
    let source = parsed.source.unwrap_or(Source::Published);
    let (nominal, spread) = match (parsed.high, parsed.spread) {
        (Some(_), Some(_)) => return Err(TextFault::RangeWithTolerance),
        (Some(high), None) => {
            let spread = Spread::Range { low: si(parsed.low), high: si(high) };
            (si(parsed.low.midpoint(high)), spread)
        }
        (None, Some(tolerance)) => (si(parsed.low), Spread::Relative(tolerance)),
        (None, None) => (si(parsed.low), Spread::Unstated),
    };
    Ok(Stated { nominal, spread, source, unit: parsed.unit })
}

/// Reads a range to choose from, `180..260 bar`.
///
/// # Errors
/// [`TextFault`] with what is wrong.
pub fn read_range<Q: Kind>(text: &str) -> Result<Range<Q>, TextFault> {
    let parsed = parse(text, Q::DIMENSION)?;
    if parsed.spread.is_some() || parsed.source.is_some() {
        return Err(TextFault::PlainRangeWanted);
    }
    let high = parsed.high.ok_or(TextFault::RangeWanted)?;
    let si = |value| Q::from_si(parsed.unit.to_si(value));
    Ok(Range { low: si(parsed.low), high: si(high), unit: parsed.unit })
}

/// Reads a range whose dimension is known only at run time: least, middle and greatest value in SI.
///
/// # Errors
/// [`TextFault`] with what is wrong.
pub fn read_range_of(text: &str, dimension: Dimension) -> Result<(f64, f64, f64), TextFault> {
    let parsed = parse(text, dimension)?;
    let high = parsed.high.ok_or(TextFault::RangeWanted)?;
    let si = |value| parsed.unit.to_si(value);
    Ok((si(parsed.low), si(parsed.low.midpoint(high)), si(high)))
}

fn parse(text: &str, wanted: Dimension) -> Result<Parsed, TextFault> {
    let mut rest = text.trim();
    if rest.is_empty() {
        return Err(TextFault::Empty);
    }
    if rest.chars().count() > LONGEST {
        return Err(TextFault::TooLong);
    }
    let low = number(&mut rest)?;
    let mut first_unit = None;
    let mut high = None;
    if !is_range(rest) && rest.contains("..") {
        first_unit = Some(unit(&mut rest, wanted)?);
    }
    if is_range(rest) {
        rest = rest.trim_start().trim_start_matches("..").trim_start_matches('–').trim_start();
        high = Some(number(&mut rest)?);
    }
    let found = unit(&mut rest, wanted)?;
    if first_unit.is_some_and(|first| first != found) {
        return Err(TextFault::TwoUnits);
    }
    if high.is_some_and(|high| high < low) {
        return Err(TextFault::RangeReversed);
    }
    let spread = tolerance(&mut rest, low, found)?;
    let source = source(&mut rest)?;
    if !rest.trim().is_empty() {
        return Err(TextFault::Trailing { found: rest.trim().to_owned() });
    }
    Ok(Parsed { low, high, unit: found, spread, source })
}

fn is_range(rest: &str) -> bool {
    let rest = rest.trim_start();
    rest.starts_with("..") || rest.starts_with('–')
}

/// Takes a number off the front: decimal, fraction, or whole number with a fraction.
fn number(rest: &mut &str) -> Result<f64, TextFault> {
    let first = decimal(rest)?;
    // `2 1/2`, `3/4`: a slash right behind a number, with a digit behind it.
    let numerator = if rest.starts_with('/') {
        Some((0.0, first))
    } else {
        let mut ahead = rest.trim_start();
        let begins = rest.len() != ahead.len() && ahead.starts_with(|c: char| c.is_ascii_digit());
        match begins.then(|| decimal(&mut ahead)) {
            Some(Ok(second)) if ahead.starts_with('/') => {
                *rest = ahead;
                Some((first, second))
            }
            _ => None,
        }
    };
    let Some((whole, numerator)) = numerator else { return Ok(first) };
    let mut ahead = rest.strip_prefix('/').unwrap_or(rest);
    if !ahead.starts_with(|c: char| c.is_ascii_digit()) {
        return Err(TextFault::BadNumber { found: format!("{numerator}/") });
    }
    let denominator = decimal(&mut ahead)?;
    *rest = ahead;
    let value = whole.abs() + numerator / denominator;
    if denominator == 0.0 || !value.is_finite() {
        return Err(TextFault::BadNumber { found: format!("{numerator}/{denominator}") });
    }
    Ok(if whole.is_sign_negative() && whole != 0.0 { -value } else { value })
}

/// Takes a decimal number off the front.
fn decimal(rest: &mut &str) -> Result<f64, TextFault> {
    let text = *rest;
    let sign = text.strip_prefix(['-', '−', '+']).map_or(0, |behind| text.len() - behind.len());
    let body = &text[sign..];
    let mut end = 0;
    let mut point = false;
    for (at, c) in body.char_indices() {
        let next_is_point = body[at + c.len_utf8()..].starts_with('.');
        match c {
            '0'..='9' => end = at + 1,
            // Two points are a range.
            '.' if !point && !next_is_point => {
                point = true;
                end = at + 1;
            }
            _ => break,
        }
    }
    let digits = &body[..end];
    if body[end..].starts_with(',') && body[end + 1..].starts_with(|c: char| c.is_ascii_digit()) {
        return Err(TextFault::Comma);
    }
    if !digits.contains(|c: char| c.is_ascii_digit()) {
        return Err(if end > 0 { TextFault::BadNumber { found: digits.to_owned() } } else { TextFault::NoNumber });
    }
    // `1e5` would else be read as a number followed by a strange unit.
    let behind = &body[end..];
    let exponent = behind.starts_with(['e', 'E']) && behind[1..].starts_with(|c: char| c.is_ascii_digit() || c == '-' || c == '+');
    let value: f64 = match digits.parse() {
        Ok(value) if !exponent => value,
        _ => return Err(TextFault::BadNumber { found: text.chars().take(20).collect() }),
    };
    *rest = behind;
    Ok(if sign > 0 && !text.starts_with('+') { -value } else { value })
}

/// Takes a unit off the front: everything up to a tolerance, a source, a range or the end.
fn unit(rest: &mut &str, wanted: Dimension) -> Result<Unit, TextFault> {
    let text = rest.trim_start();
    let stop = ["±", "+/-", "(", ".."].iter().filter_map(|mark| text.find(mark)).chain(minus_plus(text)).min();
    let (name, behind) = text.split_at(stop.unwrap_or(text.len()));
    let name = name.trim();
    if name.is_empty() {
        return Err(TextFault::NoUnit);
    }
    let Some(unit) = Unit::from_text(name) else {
        return Err(TextFault::UnknownUnit { found: name.to_owned(), near: near(name, wanted) });
    };
    if unit.dimension() != wanted {
        return Err(TextFault::WrongDimension { unit });
    }
    *rest = behind;
    Ok(unit)
}

/// Where a tolerance of the form `-15/+8 %` begins.
fn minus_plus(text: &str) -> Option<usize> {
    let slash = text.find("/+")?;
    text[..slash].rfind(['-', '−'])
}

/// The unit of the wanted dimension whose name is nearest to what was written.
fn near(found: &str, wanted: Dimension) -> Option<Unit> {
    let lower = &found.to_lowercase();
    let of_dimension = || Unit::ALL.iter().copied().filter(|unit| unit.dimension() == wanted);
    let names = |unit: Unit| unit.spoken().iter().copied().chain(std::iter::once(unit.name()));
    of_dimension()
        .flat_map(|unit| names(unit).map(move |name| (strsim::damerau_levenshtein(lower, &name.to_lowercase()), unit)))
        .min_by_key(|(distance, _)| *distance)
        .filter(|(distance, _)| *distance <= 2)
        .map(|(_, unit)| unit)
}

/// Takes a tolerance off the front, if one is there.
fn tolerance(rest: &mut &str, value: f64, unit: Unit) -> Result<Option<Tolerance>, TextFault> {
    let text = rest.trim_start();
    let end = text.find('(').unwrap_or(text.len());
    let bad = || TextFault::BadTolerance { found: text[..end].trim().to_owned() };
    let (minus, plus, mut behind) = if let Some(body) = text.strip_prefix('±').or_else(|| text.strip_prefix("+/-")) {
        let mut behind = body.trim_start();
        let both = decimal(&mut behind).map_err(|_| bad())?;
        (both, both, behind)
    } else if let Some(mut behind) = text.strip_prefix(['-', '−']) {
        let minus = decimal(&mut behind).map_err(|_| bad())?;
        let mut behind = behind.trim_start().strip_prefix("/+").ok_or_else(bad)?;
        let plus = decimal(&mut behind).map_err(|_| bad())?;
        (minus, plus, behind)
    } else {
        return Ok(None);
    };
    behind = behind.trim_start();
    let end_of_unit = behind.find('(').unwrap_or(behind.len());
    let name = behind[..end_of_unit].trim();
    let share = match Unit::from_text(name) {
        Some(Unit::Percent) => 0.01,
        // An absolute tolerance is kept as a share, which has no meaning on a scale with an offset.
        Some(same) if same == unit && unit.dimension() != Dimension::Temperature && value != 0.0 => 1.0 / value.abs(),
        _ => return Err(bad()),
    };
    let tolerance = Tolerance { minus: minus * share, plus: plus * share };
    let sound = |share: f64| (0.0..1.0).contains(&share);
    if !sound(tolerance.minus) || !sound(tolerance.plus) {
        return Err(bad());
    }
    *rest = &behind[end_of_unit..];
    Ok(Some(tolerance))
}

/// Takes a source in brackets off the front, if one is there.
fn source(rest: &mut &str) -> Result<Option<Source>, TextFault> {
    let Some(body) = rest.trim_start().strip_prefix('(') else { return Ok(None) };
    let Some((name, behind)) = body.split_once(')') else {
        return Err(TextFault::UnknownSource { found: body.trim().to_owned() });
    };
    let name = name.trim().to_lowercase();
    let source = Source::from_name(&name).ok_or(TextFault::UnknownSource { found: name })?;
    *rest = behind;
    Ok(Some(source))
}

/// Writes a figure without needless digits: twelve significant ones, trailing zeros cut.
fn figure(value: f64) -> String {
    let rounded: f64 = format!("{value:.11e}").parse().unwrap_or(value);
    format!("{rounded}")
}

/// Writes a stated quantity, with its UCUM unit; what is written reads back the same.
pub fn write<Q: Kind>(stated: &Stated<Q>) -> String {
    let shown = |q: Q| figure(stated.unit.of_si(q.si()));
    let unit = stated.unit.name();
    let percent = |share: f64| figure(share * 100.0);
    let mut text = match stated.spread {
        Spread::Unstated => format!("{} {unit}", shown(stated.nominal)),
        Spread::Relative(t) if t.minus.to_bits() == t.plus.to_bits() => {
            format!("{} {unit} ±{} %", shown(stated.nominal), percent(t.plus))
        }
        Spread::Relative(t) => {
            format!("{} {unit} -{}/+{} %", shown(stated.nominal), percent(t.minus), percent(t.plus))
        }
        Spread::Range { low, high } => format!("{}..{} {unit}", shown(low), shown(high)),
    };
    if stated.source != Source::Published {
        text.push_str(" (");
        text.push_str(stated.source.name());
        text.push(')');
    }
    text
}

/// Writes a range to choose from.
pub fn write_range<Q: Kind>(range: &Range<Q>) -> String {
    let shown = |q: Q| figure(range.unit.of_si(q.si()));
    format!("{}..{} {}", shown(range.low), shown(range.high), range.unit.name())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Displacement, Length, Power, Pressure, ThermodynamicTemperature, VolumeRate};
    use proptest::prelude::*;

    fn litres(text: &str) -> Result<f64, TextFault> {
        read::<VolumeRate>(text).map(|s| Unit::LitrePerMinute.of_si(s.nominal.si()))
    }

    #[test]
    fn people_write_quantities_in_many_ways() {
        let same = |text: &str, value: f64| {
            let read = litres(text).unwrap_or_else(|fault| panic!("{text}: {fault:?}"));
            assert!((read - value).abs() < 1e-9, "{text}: {read}");
        };
        for text in ["118 L/min", "118L/min", " 118.0 l/min ", "118 lpm", "118 L/min ±5 % (plate)", "118 L/min -15/+8 %"] {
            same(text, 118.0);
        }
        same("25 [gal_us]/min", 25.0 * 3.785_411_784);
        same("25 gpm", 25.0 * 3.785_411_784);
        same("95..145 L/min", 120.0);
        same("95 L/min..145 L/min", 120.0);
        same("95–145 L/min", 120.0);
        let inches = |text| read::<Length>(text).map(|s| Unit::Inch.of_si(s.nominal.si()));
        for (text, value) in [("2 1/2 in", 2.5), ("3/4\"", 0.75), ("1 in", 1.0)] {
            assert!((inches(text).expect(text) - value).abs() < 1e-12, "{text}");
        }
        let cold: Stated<ThermodynamicTemperature> = read("-10 °C").expect("a temperature");
        assert!((cold.nominal.si() - 263.15).abs() < 1e-9);
        assert!(read::<Displacement>("45 cm3/rev").is_ok());
        assert!(read::<Power>("38 hp").is_ok());
    }

    #[test]
    fn tolerance_and_source_are_kept() {
        let stated: Stated<Pressure> = read("205 bar ±4 bar (measured)").expect("a pressure");
        assert_eq!(stated.source, Source::Measured);
        let Spread::Relative(tolerance) = stated.spread else { panic!("{:?}", stated.spread) };
        assert!((tolerance.plus - 4.0 / 205.0).abs() < 1e-12);
        let stated: Stated<Pressure> = read("205 bar -15/+8 %").expect("a pressure");
        assert_eq!(stated.spread, Spread::Relative(Tolerance { minus: 0.15, plus: 0.08 }));
    }

    #[test]
    fn every_fault_is_told_apart() {
        let fault = |text: &str| litres(text).expect_err(text);
        let owned = |text: &str| text.to_owned();
        assert_eq!(fault(""), TextFault::Empty);
        assert_eq!(fault(&"1".repeat(121)), TextFault::TooLong);
        assert_eq!(fault("1,240 L/min"), TextFault::Comma);
        assert_eq!(fault("about 90 L/min"), TextFault::NoNumber);
        assert_eq!(fault("1e5 L/min"), TextFault::BadNumber { found: owned("1e5 L/min") });
        assert_eq!(fault("118"), TextFault::NoUnit);
        assert_eq!(
            fault("118 L/mn"),
            TextFault::UnknownUnit { found: owned("L/mn"), near: Some(Unit::LitrePerMinute) }
        );
        assert_eq!(fault("118 parsec"), TextFault::UnknownUnit { found: owned("parsec"), near: None });
        assert_eq!(fault("118 bar"), TextFault::WrongDimension { unit: Unit::Bar });
        assert_eq!(fault("95 gpm..144 L/min"), TextFault::TwoUnits);
        assert_eq!(fault("118 L/min ±x %"), TextFault::BadTolerance { found: owned("±x %") });
        assert_eq!(fault("118 L/min ±100 %"), TextFault::BadTolerance { found: owned("±100 %") });
        assert_eq!(fault("118 L/min (guess)"), TextFault::UnknownSource { found: owned("guess") });
        assert_eq!(fault("118 L/min (plate) x"), TextFault::Trailing { found: owned("x") });
        assert_eq!(fault("144..95 L/min"), TextFault::RangeReversed);
        assert_eq!(fault("95..144 L/min ±5 %"), TextFault::RangeWithTolerance);
        assert_eq!(fault("1/0 L/min"), TextFault::BadNumber { found: owned("1/0") });
        assert_eq!(read_range::<Pressure>("180 bar"), Err(TextFault::RangeWanted));
        assert_eq!(read_range::<Pressure>("180..200 bar (plate)"), Err(TextFault::PlainRangeWanted));
    }

    #[test]
    fn milliwatts_are_no_megawatts() {
        assert!(read::<Power>("5 mW").is_err());
        assert!(read::<Power>("5 MW").is_err());
    }

    proptest! {
        #[test]
        fn no_text_makes_it_panic(text in ".{0,140}") {
            let _ = read::<VolumeRate>(&text);
            let _ = read_range::<Pressure>(&text);
        }

        #[test]
        fn nearly_quantities_do_not_make_it_panic(text in "[0-9./±+%() -]{0,12}(bar|psi|L/min|in|\\(plate\\)| )?[0-9./±+%()\u{2212} -]{0,8}") {
            let _ = read::<VolumeRate>(&text);
            let _ = read::<Pressure>(&text);
            let _ = read_range::<Length>(&text);
        }

        #[test]
        fn what_is_written_reads_back(value in 0.001f64..1e5, minus in 0.0f64..0.9, plus in 0.0f64..0.9, form in 0..4, us in any::<bool>()) {
            let unit = if us { Unit::UsGallonPerMinute } else { Unit::LitrePerMinute };
            let mut stated = Stated::<VolumeRate>::published(value, unit);
            stated.spread = match form {
                0 => Spread::Unstated,
                1 => Spread::Relative(Tolerance { minus, plus }),
                2 => Spread::Relative(Tolerance::both(plus)),
                _ => Spread::Range { low: stated.nominal, high: stated.nominal * 1.5 },
            };
            if let Spread::Range { low, high } = stated.spread {
                stated.nominal = VolumeRate::from_si(low.si().midpoint(high.si()));
            }
            stated.source = Source::Measured;
            let again: Stated<VolumeRate> = read(&write(&stated)).expect("written text");
            prop_assert!((again.nominal.si() / stated.nominal.si() - 1.0).abs() < 1e-10);
            let (a, b) = (again.interval(Tolerance::NONE), stated.interval(Tolerance::NONE));
            prop_assert!((a.low.si() - b.low.si()).abs() <= 1e-10 * b.high.si());
            prop_assert!((a.high.si() - b.high.si()).abs() <= 1e-10 * b.high.si());
            prop_assert_eq!((again.source, again.unit), (stated.source, stated.unit));
        }
    }
}
