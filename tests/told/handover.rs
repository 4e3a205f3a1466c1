//! The hand-over: what is to be read, on the machine of the fixture, on the installation of check values, and on pairs
//! of the demo table that go to work.

use super::fixture;
use super::yard::yard;
use fit::{Conditions, FactId, Verdict, pair};
use handover::{Circumstances, Instruments, Measurement, Planned, plan};
use quantity::{Amount, Named, Quantity, Ratio, ThermodynamicTemperature, Unit, UnitSystem};
use table::{Carrier, Head, HeadKind, MotorKind, read};
use workshop::{Found, GaugePoint, Instrument, Judged, ReadWith, Sheets};

fn plan_of(carrier: &Carrier, head: &Head, conditions: &Conditions, at: &Circumstances) -> Vec<Planned> {
    plan(&pair(carrier, head, conditions), carrier, head, conditions, at)
}

/// The fixture's plan after spoiling it.
fn fixture(at: &Circumstances, spoil: impl FnOnce(&mut Carrier, &mut Head)) -> Vec<Planned> {
    let mut table = fixture::table();
    let (mut carrier, mut head) = (table.carriers.remove(0), table.heads.remove(0));
    spoil(&mut carrier, &mut head);
    plan_of(&carrier, &head, &Conditions::default(), at)
}

fn usual() -> Circumstances {
    Circumstances::default()
}

#[allow(clippy::unnecessary_wraps)]
fn celsius(t: f64) -> Option<ThermodynamicTemperature> {
    Some(ThermodynamicTemperature::from_si(Unit::Celsius.to_si(t)))
}

#[track_caller]
fn planned(plan: &[Planned], what: Measurement) -> &Planned {
    plan.iter().find(|planned| planned.what == what).unwrap_or_else(|| panic!("{} is planned", what.name()))
}

fn shown(amount: Amount) -> f64 {
    amount.in_system(UnitSystem::Metric).0
}

/// Low, likely and high in metric units.
#[track_caller]
fn reads(plan: &[Planned], what: Measurement) -> (f64, f64, f64) {
    match &planned(plan, what).reading.found {
        Found::Expected { reads } => (shown(reads.low), shown(reads.nominal), shown(reads.high)),
        Found::NotKnown { missing } => panic!("{} is not known: {missing:?}", what.name()),
    }
}

#[test]
fn everything_on_the_fixture_is_expected_but_what_is_only_noted() {
    let plan = fixture(&usual(), |_, _| {});
    let not_known: Vec<_> = plan
        .iter()
        .filter(|planned| matches!(planned.reading.found, Found::NotKnown { .. }))
        .map(|planned| planned.what)
        .collect();
    assert_eq!(not_known, [Measurement::OilStart, Measurement::Air]);
    // Its rotor sits on the motor's shaft.
    assert!(!plan.iter().any(|planned| planned.what == Measurement::MotorWorking));
    assert_eq!(plan.len(), Measurement::ALL.len() - 1);
}

#[test]
fn a_tester_set_to_the_inlet_s_pressure_shows_the_flow_of_the_sheet() {
    let plan = fixture(&usual(), |_, _| {});
    let (low, likely, high) = reads(&plan, Measurement::FlowWorking);
    assert!((likely - 100.0).abs() < 0.1 && low < 86.0 && high > 108.0, "{low} {likely} {high}");
    let set = planned(&plan, Measurement::FlowWorking).set_to.expect("the load valve is set");
    let inlet = reads(&plan, Measurement::InletWorking).1;
    assert!((shown(set) - inlet).abs() < 1e-6);
    // 90 % of 230 bar.
    let near = planned(&plan, Measurement::FlowNearRelief).set_to.expect("the load valve is set");
    assert!((shown(near) - 207.0).abs() < 1e-6);
    assert!((reads(&plan, Measurement::Relief).1 - 230.0).abs() < 1e-6);
    assert!((reads(&plan, Measurement::EngineWorking).1 - 2000.0).abs() < 1e-6);
}

#[test]
fn what_the_sheet_says_the_plan_says() {
    let table = fixture::table();
    let (carrier, head, conditions) = (&table.carriers[0], &table.heads[0], Conditions::default());
    let pairing = pair(carrier, head, &conditions);
    let plan = plan(&pairing, carrier, head, &conditions, &usual());
    let sheets = Sheets::of(&pairing, carrier, head, &conditions);
    let mut compared = 0;
    for reading in sheets.job.expect("it goes to work").settings.readings {
        let same = plan.iter().find(|planned| planned.what.at() == reading.at && planned.what.load() == reading.load);
        let Some(planned) =
            same.filter(|planned| reading.at != GaugePoint::Flow && planned.what != Measurement::FlowBusy)
        else {
            continue;
        };
        assert_eq!(planned.reading, reading, "{}", planned.what.name());
        compared += 1;
    }
    assert!(compared >= 10, "{compared}");
}

#[test]
fn one_s_own_instrument_takes_the_place_of_the_usual() {
    let with = |pressure: f64| {
        let instruments = Instruments { pressure: Ratio::from_si(pressure), ..Instruments::default() };
        let (low, _, high) =
            reads(&fixture(&Circumstances { instruments, ..usual() }, |_, _| {}), Measurement::OutletFree);
        high - low
    };
    // From class 1.6 to class 0.6 of a gauge of 16 or 25 bar; nonsense is the usual.
    assert!(with(0.016) - with(0.006) > 0.3);
    assert!((with(f64::NAN) - with(0.016)).abs() < 1e-9 && with(1e9).is_finite());
}

#[test]
fn colder_oil_is_expected_to_lose_more() {
    let outlet = |oil| reads(&fixture(&Circumstances { oil, ..usual() }, |_, _| {}), Measurement::OutletWorking).1;
    assert!(outlet(celsius(10.0)) > outlet(celsius(60.0)));
}

#[test]
fn after_half_an_hour_the_oil_is_warmer_by_its_start_and_the_air() {
    let after = |oil, air| {
        reads(
            &fixture(&Circumstances { oil: celsius(oil), air: celsius(air), ..usual() }, |_, _| {}),
            Measurement::OilAfter,
        )
        .1
    };
    let cool = after(20.0, 10.0);
    assert!(cool > 25.0 && after(40.0, 10.0) > cool && after(20.0, 30.0) > cool, "{cool}");
    // Hot oil that a large cooler cools ends below its start.
    assert!(after(80.0, -10.0) < 80.0);
}

#[test]
fn above_a_limit_it_is_to_be_stopped_and_hot_oil_too() {
    let plan = fixture(&usual(), |_, _| {});
    let bar = |p: f64| Amount::from_si(quantity::Dimension::Pressure, p * 1e5);
    assert_eq!(planned(&plan, Measurement::CaseWorking).reading.judge(bar(3.5)), Some(Judged::Beyond));
    let hot = Amount::of(celsius(90.0).expect("a temperature"));
    assert_eq!(planned(&plan, Measurement::OilAfter).reading.judge(hot), Some(Judged::Beyond));
    assert_eq!(planned(&plan, Measurement::OilStart).reading.judge(hot), Some(Judged::Beyond));
}

#[test]
fn a_breaker_has_neither_idle_nor_rotor_nor_case() {
    let plan = fixture(&usual(), |_, head| {
        head.kind = HeadKind::Breaker;
        head.motor.as_mut().expect("a motor").kind = Some(MotorKind::Impact);
        head.outlet.needs_case_line = None;
        head.outlet.case_pressure = None;
    });
    assert!(planned(&plan, Measurement::FlowWorking).set_to.is_some());
    for planned in &plan {
        let what = planned.what.name();
        let load_free = what.ends_with("-free") && what != "engine-free";
        assert!(!load_free && !what.starts_with("case") && !what.starts_with("rotor"), "{what}");
    }
}

#[test]
fn what_is_not_stated_is_named() {
    let plan = fixture(&usual(), |carrier, _| {
        carrier.engine.working_speed = None;
        carrier.engine.high_idle = None;
        carrier.functions = None;
    });
    let missing = |what| match &planned(&plan, what).reading.found {
        Found::NotKnown { missing } => missing.clone(),
        Found::Expected { .. } => panic!("{} is expected", what.name()),
    };
    assert_eq!(missing(Measurement::EngineWorking), [FactId::WorkingSpeed]);
    assert_eq!(missing(Measurement::EngineFree), [FactId::HighIdle]);
    assert_eq!(missing(Measurement::FlowBusy), [FactId::Functions]);
}

#[test]
fn nothing_is_planned_where_nobody_goes_to_work() {
    let plan = fixture(&usual(), |_, head| head.mass = fixture::stated("5 t"));
    assert!(plan.is_empty());
}

#[test]
fn the_installation_is_read_after_its_changes() {
    let table = read(fixture::INSTALLATION).table.expect("a table");
    let plan = plan_of(&table.carriers[0], &table.heads[0], &Conditions::of_table(&table), &usual());
    // The divider is set to 106 L/min; a case line was laid; functions have their oil behind it.
    assert!(
        (reads(&plan, Measurement::FlowWorking).1 - 106.0).abs() < 0.5,
        "{:?}",
        reads(&plan, Measurement::FlowWorking)
    );
    assert!(reads(&plan, Measurement::CaseFlow).1 > 0.5);
}

#[test]
fn of_pairs_that_goes_to_work_each_figure_lies_between_its_ends_and_has_its_instrument() {
    let yard = yard();
    let at = Circumstances { oil: celsius(45.0), air: celsius(12.0), ..usual() };
    let (mut plans, mut testers) = (0, 0);
    for (place, carrier) in yard.table.carriers.iter().enumerate().step_by(2) {
        for (head, pairing) in yard.of(place).step_by(2) {
            let plan = plan(pairing, carrier, head, &yard.conditions, &at);
            let works = matches!(pairing.verdict, Verdict::Fits | Verdict::FitsAfterChanges);
            assert_eq!(works, !plan.is_empty());
            plans += usize::from(works);
            for planned in &plan {
                let name = format!("{} {} {}", carrier.id.as_str(), head.id.as_str(), planned.what.name());
                testers += usize::from(planned.what.read_with() == Some(ReadWith::Tester));
                let Found::Expected { reads } = &planned.reading.found else { continue };
                assert_eq!(reads.nominal.dimension(), planned.what.dimension(), "{name}");
                let (low, likely, high) = (shown(reads.low), shown(reads.nominal), shown(reads.high));
                assert!(low <= likely + 1e-9 && likely <= high + 1e-9, "{name}: {low} {likely} {high}");
                if let Some(Instrument::Pressure { full_scale, .. }) = planned.gauge.as_ref().map(|g| g.instrument) {
                    assert!(shown(full_scale) >= likely, "{name}");
                }
            }
        }
    }
    assert!(plans > 30 && testers > 100, "{plans} {testers}");
}
