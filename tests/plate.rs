//! A machine of one's own: what its plate takes and refuses, what becomes of it, and what is asked for.

use pairwright::pairing::{Conditions, FactId, Pairing, Verdict, pair};
use pairwright::quantity::text::TextFault;
use pairwright::quantity::{Dimension, Kind, Named, Unit, UnitSystem};
use pairwright::record::RecordFault;
use pairwright::record::plate::{Answer, BY_PINS, Figure, Plate, asked, figures};
use pairwright::table::{CarrierClass, Fault, Severity, Table, read};
use pairwright::wording::{PlainNumbers, Words};

const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

fn demo() -> Table {
    read(include_str!("../public/table/demo.json")).table.expect("the demo table")
}

fn blank(class: CarrierClass) -> Plate {
    Plate::blank("a1".to_owned(), class, "Ours".to_owned(), "2026-11-25T10:00:00Z".to_owned())
}

fn with(figures: &[(Figure, &str)]) -> Plate {
    let mut plate = blank(CarrierClass::MiniExcavator);
    for (figure, text) in figures {
        plate.write(*figure, text);
    }
    plate
}

fn pairings(plate: &Plate) -> Vec<Pairing> {
    let table = demo();
    let carrier = plate.read().carrier.expect("a carrier");
    table.heads.iter().map(|head| pair(&carrier, head, &Conditions::of_table(&table))).collect()
}

/// An answer that the form itself proposes.
fn proposed(figure: Figure) -> String {
    match figure.answer() {
        Answer::YesNo => "yes".to_owned(),
        Answer::Choice(names) => names.into_iter().find(|name| *name != BY_PINS).expect("a name").to_owned(),
        Answer::Quantity(_) | Answer::Range(_) => {
            WORDS.figure_example(figure).split(" or ").next().expect("an example").to_owned()
        }
    }
}

/// Every figure, alone with those on which it depends, reaches the carrier and is taken without a word.
#[test]
fn every_figure_reaches_the_machine() {
    for &figure in Figure::ALL {
        let mut plate = blank(CarrierClass::MiniExcavator);
        let mut chain = vec![figure];
        while let Some((on, _)) = chain.last().expect("one").depends_on() {
            chain.push(on);
        }
        for &on in chain.iter().skip(1).rev() {
            let answer =
                chain.iter().find_map(|f| f.depends_on().filter(|(of, _)| *of == on)).and_then(|(_, answer)| answer);
            plate.write(on, &answer.map_or_else(|| proposed(on), str::to_owned));
        }
        // A loss counts with its flow.
        if figure == Figure::ReturnLoss {
            plate.write(Figure::ReturnLossFlow, "100 L/min");
        }
        let without = plate.read();
        plate.write(figure, &proposed(figure));
        let reading = plate.read();
        assert!(reading.problems.is_empty(), "{figure:?}: {:?}", reading.problems);
        assert!(plate.applies(figure), "{figure:?}");
        assert_ne!(reading.carrier, without.carrier, "{figure:?} says nothing");
    }
}

#[test]
fn gallons_and_litres_are_both_taken() {
    let flow = |text: &str| {
        let carrier = with(&[(Figure::Flow, text)]).read().carrier.expect("a carrier");
        Unit::LitrePerMinute.of_si(carrier.circuits[0].flow.expect("a flow").nominal.si())
    };
    // 38 × 231 in³ = 143.85 L.
    assert!((flow("38 gpm") - 143.85).abs() < 0.01);
    assert!((flow(" 144 L/min ") - 144.0).abs() < 1e-9);
}

#[test]
fn what_is_read_off_a_plate_says_so_unless_it_was_measured() {
    let plate = with(&[(Figure::Flow, "62 L/min"), (Figure::Relief, "215 bar (measured)")]);
    let circuit = &plate.read().carrier.expect("a carrier").circuits[0];
    assert_eq!(circuit.flow.expect("a flow").source.name(), "plate");
    assert_eq!(circuit.relief.expect("a relief").source.name(), "measured");
}

#[test]
fn nonsense_is_named_and_the_rest_is_used() {
    let plate = with(&[(Figure::Flow, "plenty"), (Figure::Relief, "215"), (Figure::OperatingMass, "3640 kg")]);
    let reading = plate.read();
    let carrier = reading.carrier.expect("a carrier");
    assert!(carrier.operating_mass.is_some() && carrier.circuits.is_empty());
    let faults: Vec<_> = reading.problems.iter().map(|(figure, problem)| (*figure, problem.fault.clone())).collect();
    let quantity = |expected, fault| Fault::Quantity { expected, fault };
    assert_eq!(
        faults,
        [
            (Figure::Flow, quantity(Dimension::Flow, TextFault::NoNumber)),
            (Figure::Relief, quantity(Dimension::Pressure, TextFault::NoUnit)),
        ]
    );
    assert_eq!(reading.problems[0].1.found, "plenty");
    assert!(reading.problems.iter().all(|(_, problem)| problem.severity == Severity::Error));
}

/// Of a comma or a space between digits only the readings are proposed that a machine of the class can have.
#[test]
fn a_comma_is_asked_about_with_the_readings_that_make_sense() {
    let meant = |figure, text| with(&[(figure, text)]).likely_meant(figure);
    assert_eq!(meant(Figure::OperatingMass, "4,13 t"), ["4.13 t"]);
    assert_eq!(meant(Figure::OperatingMass, "4,130 kg"), ["4130 kg"]);
    assert_eq!(meant(Figure::OperatingMass, "4 130 kg"), ["4130 kg"]);
    assert_eq!(meant(Figure::Flow, "62,5 L/min"), ["62.5 L/min", "625 L/min"]);
    assert_eq!(meant(Figure::Flow, "62.5 L/min"), [""; 0]);
    assert_eq!(meant(Figure::Flow, "about 62 L/min"), [""; 0]);
}

#[test]
fn a_figure_that_is_impossible_is_refused_and_an_improbable_one_is_used() {
    let reading = with(&[(Figure::Relief, "21000 bar"), (Figure::Pin, "45 mm")]).read();
    assert!(matches!(reading.problems[0].1.fault, Fault::Impossible { .. }));
    let reading = with(&[(Figure::OperatingMass, "150 t")]).read();
    assert!(matches!(reading.problems[0].1.fault, Fault::Improbable { .. }));
    assert!(reading.carrier.expect("a carrier").operating_mass.is_some());
}

#[test]
fn a_figure_counts_only_with_what_it_depends_on() {
    let plate = with(&[(Figure::Pin, "45 mm"), (Figure::CaseBore, "12.7 mm"), (Figure::ReturnLoss, "9 bar")]);
    let carrier = plate.read().carrier.expect("a carrier");
    assert!(carrier.mounting.is_empty() && carrier.case_line.is_none() && carrier.circuits.is_empty());
    assert!(!plate.applies(Figure::Pin) && !plate.applies(Figure::StickWidth));
}

/// Nothing but the class gives certain no's and never a yes.
#[test]
fn a_class_alone_never_fits() {
    for &class in CarrierClass::ALL {
        let all = pairings(&blank(class));
        let count = |verdict| all.iter().filter(|pairing| pairing.verdict == verdict).count();
        assert_eq!(count(Verdict::Fits) + count(Verdict::FitsAfterChanges), 0, "{class:?}");
        // Wheel loaders go from 1.5 to 35 t: of their class alone nothing certain can be said.
        assert!(count(Verdict::DoesNotFit) > 0 || class == CarrierClass::WheelLoader, "{class:?} has no certain no");
        assert!(count(Verdict::CannotSay) > 0, "{class:?} asks nothing");
    }
}

/// A dealer who knows his machines better puts his own ranges in place of ours.
#[test]
fn the_table_overrides_what_is_assumed_of_a_class() {
    let table = demo();
    let text = |range: &str| {
        format!(
            r#"{{"format": "pairwright.table", "version": 1, "title": "T", "carriers": [], "heads": [],
            "assumptions": [{{"id": "circuit-flow", "class": "mini-excavator", "range": "{range}"}}]}}"#
        )
    };
    let carrier = blank(CarrierClass::MiniExcavator).read().carrier.expect("a carrier");
    let head = table.head("thistlecut-r60").expect("a head");
    let verdict = |range: &str| {
        let own = read(&text(range)).table.expect("a table");
        let pairing = pair(&carrier, head, &Conditions::of_table(&own));
        let whose: Vec<_> =
            pairing.assumptions.iter().filter(|a| a.id.name() == "circuit-flow").map(|a| a.from).collect();
        assert!(whose.iter().all(|from| from.name() == "table"), "{whose:?}");
        pairing.verdict
    };
    assert_eq!(verdict("30..80 L/min"), Verdict::CannotSay);
    assert_eq!(verdict("5..8 L/min"), Verdict::DoesNotFit);
}

/// What decides most of a mini excavator comes first, and what its attachments do not need is not asked.
#[test]
fn only_what_the_chosen_attachments_need_is_asked() {
    let table = demo();
    let carrier = blank(CarrierClass::MiniExcavator).read().carrier.expect("a carrier");
    let asked_for = |ids: &[&str]| {
        let conditions = Conditions::of_table(&table);
        let all: Vec<_> = ids.iter().map(|id| pair(&carrier, table.head(id).expect("a head"), &conditions)).collect();
        figures(&asked(&all))
    };
    let auger = asked_for(&["pebblegate-a30"]);
    assert!(auger.contains(&Figure::Flow) && auger.contains(&Figure::Relief) && auger.contains(&Figure::Mounting));
    assert!(!auger.contains(&Figure::CaseLine), "an undrained motor needs no case line");
    assert!(asked_for(&["thistlecut-r90"]).contains(&Figure::CaseLine));
    let all = pairings(&blank(CarrierClass::MiniExcavator));
    let facts: Vec<FactId> = asked(&all).into_iter().map(|(fact, _)| fact).take(3).collect();
    assert_eq!(facts, [FactId::CircuitFlow, FactId::CircuitRelief, FactId::CarrierMounting]);
    assert!(asked(&all).iter().all(|(fact, _)| fact.is_of_machine()));
}

/// With the figures of a spec plate and a tape measure, an honest verdict: some fit, some need changes, some do not.
#[test]
fn a_filled_plate_settles_the_verdicts() {
    let plate = with(&[
        (Figure::OperatingMass, "3640 kg"),
        (Figure::Flow, "62 L/min"),
        (Figure::FlowSetting, "20..62 L/min"),
        (Figure::FlowLocked, "yes"),
        (Figure::Relief, "215 bar"),
        (Figure::ReliefRange, "180..240 bar"),
        (Figure::EnginePower, "21.5 kW"),
        (Figure::WorkingSpeed, "2200 rpm"),
        (Figure::HighIdle, "2350 rpm"),
        (Figure::Mounting, BY_PINS),
        (Figure::Pin, "40 mm"),
        (Figure::StickWidth, "152 mm"),
        (Figure::PinCentres, "190 mm"),
        (Figure::SupplyBore, "1/2 in"),
        (Figure::SupplyLength, "4.8 m"),
        (Figure::ReturnRoute, "direct"),
        (Figure::ReturnLoss, "2.5 bar"),
        (Figure::ReturnLossFlow, "70 L/min"),
        (Figure::ReturnBore, "5/8 in"),
        (Figure::ReturnLength, "5.2 m"),
        (Figure::ReturnFilter, "yes"),
        (Figure::CaseLine, "yes"),
        (Figure::CaseBore, "1/2 in"),
        (Figure::CaseLength, "5 m"),
        (Figure::OilGrade, "vg-46"),
    ]);
    assert_eq!(plate.read().problems, []);
    let all = pairings(&plate);
    let count = |verdict| all.iter().filter(|pairing| pairing.verdict == verdict).count();
    assert!(count(Verdict::Fits) >= 3, "{}", count(Verdict::Fits));
    assert!(count(Verdict::FitsAfterChanges) >= 3 && count(Verdict::DoesNotFit) >= 15);
    let blank = pairings(&blank(CarrierClass::MiniExcavator));
    let open = |all: &[Pairing]| all.iter().filter(|pairing| pairing.verdict == Verdict::CannotSay).count();
    assert!(open(&all) * 3 < open(&blank), "{} of {} stay open", open(&all), open(&blank));
}

#[test]
fn it_downloads_as_a_table_that_reads_the_same() {
    let plate = with(&[(Figure::Flow, "38 gpm"), (Figure::Mounting, "iso-24410"), (Figure::CaseLine, "no")]);
    let text = serde_json::to_string_pretty(&plate.table()).expect("JSON");
    let outcome = read(&text);
    assert_eq!(outcome.problems, []);
    assert_eq!(outcome.table.expect("a table").carriers.first(), plate.read().carrier.as_ref());
}

#[test]
fn what_is_kept_reads_back_and_what_is_cut_does_not() {
    let mut plate = with(&[(Figure::Flow, "38 gpm \"about\" <b>")]);
    // A later build may know more figures; they are kept.
    plate.figures.insert("later-figure".to_owned(), "1".to_owned());
    let text = plate.encode();
    assert_eq!(Plate::decode(&text), Ok(plate));
    for end in (0..text.len()).filter(|&end| text.is_char_boundary(end)) {
        assert_eq!(Plate::decode(&text[..end]), Err(RecordFault::Damaged), "cut at {end}");
    }
    let newer = text.replace("\"version\":1", "\"version\":2");
    assert_eq!(Plate::decode(&newer), Err(RecordFault::Newer { found: 2 }));
    assert_eq!(Plate::decode("{\"format\":\"x\",\"version\":1,\"machine\":{}}"), Err(RecordFault::Foreign));
}
