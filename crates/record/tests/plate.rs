//! A machine of one's own: what its plate takes and refuses, what becomes of it, and what is asked for.

#[path = "../../fit/tests/pairing/fixture.rs"]
#[allow(dead_code, reason = "the pairing tests need more of it")]
mod fixture;

use fit::{Check, CheckId, Conditions, FactId, Outcome, Pairing, Verdict, pair};
use fixture::stated;
use quantity::text::TextFault;
use quantity::{Dimension, Mass, Named, Power, Quantity, Unit, UnitSystem};
use record::RecordFault;
use record::plate::{Answer, BY_PINS, Figure, Plate, asked, figures};
use table::{
    CarrierClass, Centre, Cleanliness, Drive, ExtraFunction, ExtraKind, Fault, FormFault, Guard, Head, MachineEnd,
    OilKind, Severity, Table, Ways, read,
};
use wording::{PlainNumbers, Words};
const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

fn demo() -> Table {
    read(include_str!("../../../public/table/demo.json")).table.expect("the demo table")
}

fn blank(class: CarrierClass) -> Plate {
    Plate::blank("a1".to_owned(), class, "Ours".to_owned(), "2026-11-25T10:00:00Z".to_owned())
}

fn with(figures: &[(Figure, &str)]) -> Plate {
    of_class(CarrierClass::MiniExcavator, figures)
}

fn of_class(class: CarrierClass, figures: &[(Figure, &str)]) -> Plate {
    let mut plate = blank(class);
    for (figure, text) in figures {
        plate.write(*figure, text);
    }
    plate
}

/// A machine like the fixture's, with all that a plate can say of it.
const WHOLE: &[(Figure, &str)] = &[
    (Figure::OperatingMass, "8000 kg"),
    (Figure::Flow, "100 L/min"),
    (Figure::FlowSetting, "30..100 L/min"),
    (Figure::FlowLocked, "yes"),
    (Figure::Relief, "230 bar"),
    (Figure::ReliefRange, "160..260 bar"),
    (Figure::MainRelief, "280 bar"),
    (Figure::Mounting, BY_PINS),
    (Figure::Pin, "50 mm"),
    (Figure::StickWidth, "200 mm"),
    (Figure::PinCentres, "250 mm"),
    (Figure::Coupler, "yes"),
    (Figure::CouplerMass, "70 kg"),
    (Figure::CouplerCapacity, "900 kg"),
    (Figure::CouplerSecured, "yes"),
    (Figure::LiftReach, "4.5 m"),
    (Figure::LiftMass, "900 kg"),
    (Figure::TippingEdge, "1100 mm"),
    (Figure::BoomFoot, "250 mm"),
    (Figure::RatedCapacity, "900 kg"),
    (Figure::TippingAxis, "1050 mm"),
    (Figure::LoadCentre, "250 mm"),
    (Figure::EnginePower, "48 kW"),
    (Figure::WorkingSpeed, "2000 rpm"),
    (Figure::HighIdle, "2100 rpm"),
    (Figure::FedFrom, "valve"),
    (Figure::PumpControl, "load-sensing"),
    (Figure::PumpPressure, "280 bar"),
    (Figure::Ways, "one"),
    (Figure::Continuous, "yes"),
    (Figure::StopsAndStaysOff, "yes"),
    (Figure::UnloadsWhenOff, "no"),
    (Figure::OtherTool, "no"),
    (Figure::ReturnRoute, "spool"),
    (Figure::ReturnLoss, "4 bar"),
    (Figure::ReturnLossFlow, "100 L/min"),
    (Figure::ReturnShut, "no"),
    (Figure::ReturnFilter, "yes"),
    (Figure::FiltrationRating, "10"),
    (Figure::ThroughCooler, "yes"),
    (Figure::SupplyBore, "3/4 in"),
    (Figure::SupplyLength, "6 m"),
    (Figure::SupplyStandard, "4sp"),
    (Figure::ReturnBore, "1 in"),
    (Figure::ReturnLength, "6 m"),
    (Figure::CouplingStandard, "iso-16028"),
    (Figure::CouplingSize, "25 mm"),
    (Figure::CouplingRating, "350 bar"),
    (Figure::CouplingScrewed, "yes"),
    (Figure::CaseLine, "yes"),
    (Figure::CasePort, "yes"),
    (Figure::CaseBore, "3/4 in"),
    (Figure::CaseLength, "6 m"),
    (Figure::OilGrade, "vg-46"),
    (Figure::OilKind, "hm"),
    (Figure::OilCleanliness, "20/18/15"),
    (Figure::FrontGuard, "yes"),
    (Figure::ImpactWindow, "yes"),
    (Figure::Voltage, "12 V"),
    (Figure::SpareOutputs, "2"),
    (Figure::OutputCurrent, "8 A"),
    (Figure::SpareButtons, "2"),
];

fn fixture_head() -> Head {
    fixture::table().heads.remove(0)
}

/// The fixture's head, which demands all that a head can of what a plate can say.
fn demanding_head() -> Head {
    let mut head = fixture_head();
    head.centre = Some(Centre::Closed);
    head.vibrating = Some(true);
    head.demands.oil_kinds = vec![OilKind::MineralHm];
    head.demands.cleanliness = Cleanliness::new("20/18/15").ok();
    head.demands.filter_fineness_um = Some(10);
    head.extra_functions = vec![ExtraFunction {
        kind: ExtraKind::Door,
        drive: Some(Drive::Electric),
        voltage: stated("12 V"),
        current: stated("3 A"),
        greatest_pressure: None,
        flow: None,
    }];
    head
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
        Answer::Quantity(_) | Answer::Range(_) | Answer::Count | Answer::Code => WORDS.figure_example(figure),
    }
}

/// Every figure, alone with those on which it depends, reaches the carrier and is taken without a word.
#[test]
fn every_figure_reaches_the_machine() {
    for &figure in Figure::ALL {
        let class = [CarrierClass::MiniExcavator, CarrierClass::SkidSteer, CarrierClass::BackhoeLoader]
            .into_iter()
            .find(|c| figure.is_for(*c));
        let mut plate = blank(class.expect("a class that has it"));
        let mut chain = vec![figure];
        while let Some((on, _)) = chain.last().expect("one").depends_on() {
            chain.push(on);
        }
        for &on in chain.iter().skip(1).rev() {
            let answer =
                chain.iter().find_map(|f| f.depends_on().filter(|(of, _)| *of == on)).and_then(|(_, answer)| answer);
            plate.write(on, &answer.map_or_else(|| proposed(on), str::to_owned));
        }
        // A loss counts with its flow, a load with its reach.
        if let Some(other) = figure.counts_with() {
            plate.write(other, &proposed(other));
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
    // 31 × 231 in³ = 117.35 L.
    assert!((flow("31 gpm") - 117.35).abs() < 0.01);
    assert!((flow(" 117 L/min ") - 117.0).abs() < 1e-9);
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

/// Whole numbers, codes, names and yes or no: what is none of them is named and left out, and the rest is used.
#[test]
fn what_is_no_answer_to_the_question_is_named() {
    let count = Fault::WrongType { expected: "a whole number from 0 to 255" };
    let outputs = Fault::WrongType { expected: "a whole number from 0 to 20" };
    let no_unit = |expected| Fault::Quantity { expected, fault: TextFault::NoUnit };
    let cases = [
        (Figure::SpareButtons, "two", count.clone()),
        (Figure::SpareButtons, "2.5", count.clone()),
        (Figure::SpareButtons, "-1", count.clone()),
        (Figure::SpareButtons, "300", count),
        (Figure::SpareOutputs, "some", outputs.clone()),
        (Figure::SpareOutputs, "4000000000", outputs),
        (Figure::OilCleanliness, "quite clean", Fault::Form(FormFault::Cleanliness("quite clean".to_owned()))),
        (Figure::Voltage, "12", no_unit(Dimension::Voltage)),
        (Figure::CouplingSize, "20", no_unit(Dimension::Length)),
        (Figure::Continuous, "perhaps", Fault::WrongType { expected: "true or false" }),
    ];
    for (figure, text, fault) in cases {
        let mut plate = of_class(CarrierClass::MidiExcavator, WHOLE);
        plate.write(figure, text);
        let reading = plate.read();
        let named: Vec<_> = reading.problems.iter().map(|(of, problem)| (*of, problem.fault.clone())).collect();
        assert_eq!(named, [(figure, fault)], "{text}");
        assert_eq!(reading.problems[0].1.found, text);
        plate.write(figure, "");
        assert_eq!(plate.read().carrier, reading.carrier, "{figure:?} {text} is not left out");
    }
    let reading = with(&[(Figure::FedFrom, "the tap"), (Figure::Relief, "215 bar")]).read();
    assert!(
        matches!(&reading.problems[0], (Figure::FedFrom, problem) if matches!(problem.fault, Fault::UnknownName { .. }))
    );
    assert!(reading.carrier.expect("a carrier").circuits[0].relief.is_some());
}

/// Silence about one guard is no word that it is not there.
#[test]
fn guards_count_once_both_are_answered() {
    let guards = |figures: &[(Figure, &str)]| with(figures).read().carrier.expect("a carrier").guards;
    assert_eq!(guards(&[(Figure::FrontGuard, "yes")]), None);
    let both = |front, window| guards(&[(Figure::FrontGuard, front), (Figure::ImpactWindow, window)]);
    assert_eq!(both("no", "no"), Some(vec![]));
    assert_eq!(both("no", "yes"), Some(vec![Guard::ImpactWindow]));
    assert_eq!(both("yes", "yes"), Some(vec![Guard::FrontGuard, Guard::ImpactWindow]));
}

#[test]
fn no_other_tool_and_no_coupler_are_facts() {
    let plate = with(&[(Figure::OtherTool, "no"), (Figure::Coupler, "no"), (Figure::CouplerMass, "70 kg")]);
    let carrier = plate.read().carrier.expect("a carrier");
    assert_eq!(carrier.circuits[0].shared_with, Some(vec![]));
    let coupler = carrier.coupler.expect("an answer");
    assert!(!coupler.fitted && coupler.mass.is_none());
    let plate = with(&[(Figure::OtherTool, "yes"), (Figure::OtherToolPressure, "260 bar")]);
    let tools = plate.read().carrier.expect("a carrier").circuits[0].shared_with.clone().expect("an answer");
    assert_eq!((tools.len(), tools[0].own_relief), (1, None));
    assert!(tools[0].greatest_pressure.is_some());
}

/// An excavator has a lift chart, a loader a rated operating capacity.
#[test]
fn what_the_class_does_not_have_is_not_asked_of_it() {
    let chart = [Figure::LiftReach, Figure::LiftMass, Figure::TippingEdge, Figure::BoomFoot];
    let rating = [Figure::RatedCapacity, Figure::TippingAxis, Figure::LoadCentre];
    let (excavator, loader) = (blank(CarrierClass::MidiExcavator), blank(CarrierClass::WheelLoader));
    assert!(chart.iter().all(|figure| excavator.applies(*figure) && !loader.applies(*figure)));
    assert!(rating.iter().all(|figure| !excavator.applies(*figure) && loader.applies(*figure)));
    let lifting = |class| of_class(class, WHOLE).read().carrier.and_then(|carrier| carrier.lifting).expect("lifting");
    assert!(lifting(CarrierClass::MidiExcavator).rated_operating_capacity.is_none());
    assert!(lifting(CarrierClass::WheelLoader).chart.is_empty());
}

/// A backhoe loader has two ends: the plate tells which its circuit feeds, and mounting, coupler and lift are those of that end.
#[test]
fn a_machine_with_two_ends_says_which_its_circuit_feeds() {
    let of = |end| of_class(CarrierClass::BackhoeLoader, &[WHOLE, &[(Figure::End, end)]].concat()).read();
    for (end, name) in [(MachineEnd::Arm, "arm"), (MachineEnd::Loader, "loader")] {
        let reading = of(name);
        assert_eq!(reading.problems, []);
        let carrier = reading.carrier.expect("a carrier");
        assert_eq!(carrier.circuits[0].end, Some(end));
        assert_eq!(
            (carrier.mounting[0].end(), carrier.coupler.as_ref().and_then(|coupler| coupler.end)),
            (Some(end), Some(end))
        );
        let lifting = carrier.lifting.as_ref().expect("lifting");
        assert_eq!(lifting.chart.is_empty(), end == MachineEnd::Loader);
        assert_eq!(lifting.rated_operating_capacity.is_some(), end == MachineEnd::Loader);
    }
    let unsaid = of("").carrier.expect("a carrier");
    let checks = pair(&unsaid, &fixture_head(), &Conditions::default()).checks;
    for id in [CheckId::Mounting, CheckId::Lift, CheckId::Coupler] {
        let check = checks.iter().find(|check| check.id == id).expect("every check is there");
        assert!(misses(check, FactId::CircuitEnd), "{check:?}");
    }
    assert!(figures(&[(FactId::CircuitEnd, 1)]).contains(&Figure::End));
    // One with a single end is not asked.
    assert!(
        !blank(CarrierClass::MidiExcavator).applies(Figure::End)
            && blank(CarrierClass::BackhoeLoader).applies(Figure::End)
    );
}

/// The chart's farthest column, over the side, with its least figure: it holds at ground level.
#[test]
fn the_lift_of_a_plate_is_that_over_the_side_at_the_greatest_reach() {
    let carrier = of_class(CarrierClass::MidiExcavator, WHOLE).read().carrier.expect("a carrier");
    let checks = pair(&carrier, &fixture_head(), &Conditions::default()).checks;
    let lift = checks.iter().find(|check| check.id == CheckId::Lift).expect("every check is there");
    assert_eq!(lift.outcome, Outcome::Met);
}

/// Of a comma or a space between digits only the readings are proposed that a machine of the class can have.
#[test]
fn a_comma_is_asked_about_with_the_readings_that_make_sense() {
    let meant = |figure, text| with(&[(figure, text)]).likely_meant(figure);
    assert_eq!(meant(Figure::OperatingMass, "4,130 kg"), ["4130 kg"]);
    assert_eq!(meant(Figure::OperatingMass, "4 130 kg"), ["4130 kg"]);
    assert_eq!(meant(Figure::OperatingMass, "4,130"), ["4.130", "4130"], "the unit is asked for next");
    assert_eq!(meant(Figure::Flow, "62,5 L/min"), [""; 0], "nothing else can be meant");
    assert_eq!(meant(Figure::Flow, "62.5 L/min"), [""; 0]);
    assert_eq!(meant(Figure::Flow, "about 62 L/min"), [""; 0]);
}

/// A phone's keypad may offer a comma and nothing else.
#[test]
fn a_decimal_comma_is_read_and_said_and_stays_an_error_in_a_table() {
    let plate =
        with(&[(Figure::OperatingMass, "4,13 t"), (Figure::ReliefRange, "180,5..220 bar"), (Figure::Flow, "62,5")]);
    let carrier = plate.read().carrier.expect("a carrier");
    let mass = carrier.operating_mass.expect("the mass");
    assert!((mass.nominal.si() - 4130.0).abs() < 1e-6);
    assert_eq!(plate.read_as(Figure::OperatingMass).as_deref(), Some("4.13 t"));
    assert_eq!(plate.read_as(Figure::ReliefRange).as_deref(), Some("180.5..220 bar"));
    assert_eq!(plate.read_as(Figure::Flow), None, "not read without a unit");
    assert_eq!(plate.typed(Figure::OperatingMass), "4,13 t", "it stays as it was typed");
    assert_eq!(with(&[(Figure::OperatingMass, "4.13 t")]).read_as(Figure::OperatingMass), None);
    // As a table it has points, as a table must.
    assert_eq!(plate.table()["carriers"][0]["operating_mass"], "4.13 t (plate)");
    let text = plate.table().to_string().replace("4.13 t", "4,13 t");
    let problems = table::read(&text).problems;
    assert!(problems.iter().any(|problem| matches!(&problem.fault, Fault::Quantity { fault: TextFault::Comma, .. })));
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
fn invariant_a_class_alone_never_fits() {
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
    assert!(!auger.contains(&Figure::CaseLine), "an undrained motor needs no case drain");
    assert!(asked_for(&["thistlecut-r90"]).contains(&Figure::CaseLine));
    let all = pairings(&blank(CarrierClass::MiniExcavator));
    let facts: Vec<FactId> = asked(&all).into_iter().map(|(fact, _)| fact).take(3).collect();
    assert_eq!(facts, [FactId::CircuitFlow, FactId::CircuitRelief, FactId::CarrierMounting]);
    assert!(asked(&all).iter().all(|(fact, _)| fact.is_of_machine()));
    // What depends on an answer is there with its question, for when it is answered so.
    let of_all = figures(&asked(&all));
    let place = |figure| of_all.iter().position(|of| *of == figure).expect("asked for");
    for (figure, on) in of_all.iter().filter_map(|figure| Some((*figure, figure.depends_on()?.0))) {
        assert!(place(on) < place(figure), "{figure:?} comes before {on:?}");
    }
    assert!(place(Figure::Coupler) < place(Figure::CouplerSecured));
    assert!(place(Figure::OtherTool) < place(Figure::OtherToolPressure));
    assert!(place(Figure::CaseLine) < place(Figure::CaseBore));
}

/// A machine of which everything is typed fits a head that fits it, with what no plate shows left to prove.
#[test]
fn a_machine_of_ones_own_can_fit() {
    let plate = of_class(CarrierClass::MidiExcavator, WHOLE);
    let reading = plate.read();
    assert_eq!(reading.problems, []);
    let pairing = pair(&reading.carrier.expect("a carrier"), &fixture_head(), &Conditions::default());
    let open: Vec<_> = pairing.checks.iter().filter(|check| check.fails()).collect();
    assert_eq!(pairing.verdict, Verdict::Fits, "{open:#?}");
}

fn misses(check: &Check, fact: FactId) -> bool {
    check.outcome == Outcome::NotKnown && check.missing.iter().any(|missing| missing.fact == fact)
}

/// Without the figure a check is not known for want of its fact, with it no longer; what else stands on the plate is put
/// before it.
#[test]
fn each_figure_settles_its_fact() {
    type Others = &'static [(Figure, &'static str)];
    let no_coupling: Others =
        &[(Figure::CouplingStandard, ""), (Figure::CouplingSize, ""), (Figure::CouplingRating, "")];
    let nothing_coupled: Others = &[
        (Figure::CouplingStandard, ""),
        (Figure::CouplingSize, ""),
        (Figure::CouplingRating, ""),
        (Figure::CouplingScrewed, ""),
    ];
    let both_ways: Others = &[(Figure::Ways, "two"), (Figure::ReverseLocked, "no")];
    let other_tool: Others = &[(Figure::OtherTool, "yes")];
    let cases: &[(Figure, &str, CheckId, Others)] = &[
        (Figure::Coupler, "no", CheckId::Coupler, &[]),
        (Figure::CouplerMass, "70 kg", CheckId::Lift, &[]),
        (Figure::CouplerCapacity, "900 kg", CheckId::Coupler, &[]),
        (Figure::CouplerSecured, "yes", CheckId::Coupler, &[]),
        (Figure::LiftReach, "4.5 m", CheckId::Lift, &[]),
        (Figure::LiftMass, "900 kg", CheckId::Lift, &[]),
        (Figure::TippingEdge, "1100 mm", CheckId::Lift, &[]),
        (Figure::BoomFoot, "250 mm", CheckId::Lift, &[]),
        (Figure::RatedCapacity, "900 kg", CheckId::Lift, &[]),
        (Figure::TippingAxis, "1050 mm", CheckId::Lift, &[]),
        (Figure::LoadCentre, "250 mm", CheckId::Lift, &[]),
        (Figure::FedFrom, "power-beyond", CheckId::FeedOrder, &[]),
        (Figure::FedFrom, "valve", CheckId::PumpDemand, &[]),
        (Figure::PumpControl, "load-sensing", CheckId::CentreType, &[]),
        (Figure::Ways, "one", CheckId::ReverseLock, &[]),
        (Figure::Continuous, "yes", CheckId::ContinuousFlow, &[]),
        (Figure::StopsAndStaysOff, "yes", CheckId::StopAndRestart, &[]),
        (Figure::UnloadsWhenOff, "yes", CheckId::CentreType, &[(Figure::PumpControl, "fixed")]),
        (Figure::OtherTool, "no", CheckId::SharedTool, &[]),
        (Figure::OtherTool, "no", CheckId::AttachmentOff, &[]),
        (Figure::OtherToolPressure, "260 bar", CheckId::SharedTool, other_tool),
        (Figure::OtherToolPressure, "260 bar", CheckId::AttachmentOff, other_tool),
        (Figure::OtherToolRelief, "yes", CheckId::SharedTool, other_tool),
        (Figure::ReturnShut, "no", CheckId::ReturnShut, &[]),
        (Figure::FiltrationRating, "10", CheckId::ReturnFilter, &[]),
        (Figure::ThroughCooler, "yes", CheckId::Heat, &[]),
        (Figure::SupplyStandard, "4sp", CheckId::LineRating, &[]),
        (Figure::SupplyRating, "350 bar", CheckId::LineRating, &[(Figure::SupplyStandard, "")]),
        (Figure::ReturnStandard, "4sp", CheckId::LineRating, both_ways),
        (Figure::ReturnRating, "350 bar", CheckId::LineRating, both_ways),
        (Figure::CouplingStandard, "iso-16028", CheckId::Couplings, nothing_coupled),
        (Figure::CouplingSize, "20 mm", CheckId::Couplings, nothing_coupled),
        (Figure::CouplingRating, "350 bar", CheckId::Couplings, no_coupling),
        (Figure::CouplingScrewed, "yes", CheckId::Couplings, &[]),
        (Figure::OilKind, "hm", CheckId::Oil, &[]),
        (Figure::OilCleanliness, "20/18/15", CheckId::Oil, &[]),
        (Figure::FrontGuard, "yes", CheckId::Guarding, &[]),
        (Figure::ImpactWindow, "yes", CheckId::Guarding, &[]),
        (Figure::Voltage, "12 V", CheckId::Electrics, &[]),
        (Figure::SpareOutputs, "2", CheckId::Electrics, &[]),
        (Figure::SpareButtons, "2", CheckId::Electrics, &[]),
    ];
    for &(figure, answer, id, others) in cases {
        let class = [CarrierClass::MidiExcavator, CarrierClass::SkidSteer].into_iter().find(|c| figure.is_for(*c));
        let mut plate = of_class(class.expect("a class that has it"), WHOLE);
        for (other, text) in others {
            plate.write(*other, text);
        }
        plate.write(figure, "");
        let head = Head {
            ways: others.first().filter(|(f, _)| *f == Figure::Ways).map_or(Some(Ways::One), |_| Some(Ways::Two)),
            ..demanding_head()
        };
        let check_of = |plate: &Plate| {
            let carrier = plate.read().carrier.expect("a carrier");
            let checks = pair(&carrier, &head, &Conditions::default()).checks;
            checks.into_iter().find(|check| check.id == id).expect("every check is there")
        };
        let without = check_of(&plate);
        assert!(misses(&without, figure.settles()), "{figure:?}: {without:#?}");
        assert!(figures(&[(figure.settles(), 1)]).contains(&figure), "{figure:?} is not asked for");
        plate.write(figure, answer);
        let settled = check_of(&plate);
        assert!(!misses(&settled, figure.settles()), "{figure:?}: {settled:#?}");
    }
}

/// Oil both ways for a head that bears one: the lock settles it.
#[test]
fn a_locked_reverse_is_as_good_as_one_way() {
    let outcome = |locked| {
        let mut plate = of_class(CarrierClass::MidiExcavator, WHOLE);
        plate.write(Figure::Ways, "two");
        plate.write(Figure::ReverseLocked, locked);
        let pairing = pair(&plate.read().carrier.expect("a carrier"), &fixture_head(), &Conditions::default());
        pairing.checks.into_iter().find(|check| check.id == CheckId::ReverseLock).expect("the check").outcome
    };
    assert_eq!((outcome("yes"), outcome("no")), (Outcome::Met, Outcome::NotMet));
}

/// Whatever fact of a machine keeps a verdict open, a person can answer it; but for what practice assumes and no plate
/// shows, and what else a pump feeds, which only a circuit drawing says.
#[test]
fn invariant_what_a_verdict_waits_for_can_be_answered_on_a_plate() {
    let left = [
        FactId::AlsoFeeds,
        FactId::DemandSignal,
        FactId::CouplingLoss,
        FactId::FilterLoss,
        FactId::PumpLeak,
        FactId::PumpMargin,
        FactId::PumpCutOff,
        FactId::ReactionTorque,
        FactId::ReliefOverride,
        FactId::TankPressure,
    ];
    let table = demo();
    let mut heads = table.heads.clone();
    heads.push(demanding_head());
    for &class in CarrierClass::ALL {
        for plate in [
            blank(class),
            of_class(
                class,
                &[
                    (Figure::Ways, "two"),
                    (Figure::OtherTool, "yes"),
                    (Figure::Coupler, "yes"),
                    (Figure::CouplingStandard, "iso-7241-a"),
                    (Figure::ReturnFilter, "yes"),
                ],
            ),
        ] {
            let carrier = plate.read().carrier.expect("a carrier");
            for head in &heads {
                let pairing = pair(&carrier, head, &Conditions::of_table(&table));
                let blocking =
                    pairing.checks.iter().chain(&pairing.checks_after).filter(|check| check.fails() && check.blocks);
                for missing in blocking.flat_map(|check| &check.missing).filter(|missing| missing.fact.is_of_machine())
                {
                    let known = left.contains(&missing.fact) || !figures(&[(missing.fact, 1)]).is_empty();
                    assert!(known, "{}: {}", head.id, missing.fact.name());
                }
            }
        }
    }
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
        (Figure::ReturnRoute, "spool"),
        (Figure::ReturnLoss, "2.5 bar"),
        (Figure::ReturnLossFlow, "70 L/min"),
        (Figure::ReturnBore, "5/8 in"),
        (Figure::ReturnLength, "5.2 m"),
        (Figure::ReturnFilter, "yes"),
        (Figure::CaseLine, "yes"),
        (Figure::CasePort, "yes"),
        (Figure::CaseBore, "1/2 in"),
        (Figure::CaseLength, "5 m"),
        (Figure::OilGrade, "vg-46"),
        (Figure::FedFrom, "valve"),
        (Figure::Ways, "two"),
        (Figure::ReverseLocked, "no"),
        (Figure::Continuous, "yes"),
        (Figure::StopsAndStaysOff, "yes"),
        (Figure::OtherTool, "no"),
        (Figure::ReturnShut, "no"),
        (Figure::ThroughCooler, "yes"),
        (Figure::SupplyStandard, "2sn"),
        (Figure::ReturnStandard, "2sn"),
        (Figure::CouplingStandard, "iso-14541"),
        (Figure::CouplingSize, "20 mm"),
        (Figure::CouplingScrewed, "yes"),
        (Figure::Coupler, "no"),
        (Figure::LiftReach, "3.5 m"),
        (Figure::LiftMass, "620 kg"),
        (Figure::TippingEdge, "720 mm"),
        (Figure::BoomFoot, "200 mm"),
        (Figure::FrontGuard, "yes"),
        (Figure::ImpactWindow, "yes"),
    ]);
    assert_eq!(plate.read().problems, []);
    let all = pairings(&plate);
    let count = |verdict| all.iter().filter(|pairing| pairing.verdict == verdict).count();
    let works = count(Verdict::Fits) + count(Verdict::FitsAfterChanges);
    assert!(works >= 4 && count(Verdict::DoesNotFit) >= 15, "{works} work");
    let blank = pairings(&blank(CarrierClass::MiniExcavator));
    let open = |all: &[Pairing]| all.iter().filter(|pairing| pairing.verdict == Verdict::CannotSay).count();
    assert!(open(&all) * 3 < open(&blank), "{} of {} stay open", open(&all), open(&blank));
}

#[test]
fn it_downloads_as_a_table_that_reads_the_same() {
    let plate = with(&[(Figure::Flow, "31 gpm"), (Figure::Mounting, "iso-24410"), (Figure::CaseLine, "no")]);
    let text = serde_json::to_string_pretty(&plate.table()).expect("JSON");
    let outcome = read(&text);
    assert_eq!(outcome.problems, []);
    assert_eq!(outcome.table.expect("a table").carriers.first(), plate.read().carrier.as_ref());
}

#[test]
fn what_is_kept_reads_back_and_what_is_cut_does_not() {
    let mut plate = with(&[(Figure::Flow, "31 gpm \"about\" <b>")]);
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

#[test]
fn a_mass_of_another_size_is_seen_and_what_was_looked_for_stands_as_it_is_typed() {
    let now = "2026-11-25T10:00:00Z".to_owned();
    let mut plate = Plate::blank("m".to_owned(), CarrierClass::MiniExcavator, "Ours".to_owned(), now.clone());
    assert_eq!(plate.other_size(), None);
    let (mass, power) = (Mass::from_si(8050.0), Power::from_si(46_000.0));
    plate.write_sought(Some(mass), Some(power), UnitSystem::Metric);
    assert_eq!((plate.typed(Figure::OperatingMass), plate.typed(Figure::EnginePower)), ("8050 kg", "46 kW"));
    assert!(plate.read().problems.is_empty());
    assert_eq!(plate.other_size(), Some(CarrierClass::MidiExcavator));
    assert_eq!(plate.in_class(CarrierClass::MidiExcavator).other_size(), None);
    let mut loader = Plate::blank("l".to_owned(), CarrierClass::SkidSteer, "Ours".to_owned(), now);
    loader.write_sought(Some(mass), None, UnitSystem::UsCustomary);
    assert_eq!((loader.other_size(), loader.typed(Figure::OperatingMass)), (None, "17750 lb"));
    assert!(loader.read().carrier.is_some_and(|carrier| carrier.operating_mass.is_some()));
}
