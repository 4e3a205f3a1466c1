//! A machine's two ends: a head goes with one, and only with that end's oil, mounting, coupler and lift. And what may stay open without
//! holding up the verdict, and is said with it.

use super::{beyond, fails, met, open};
use crate::fixture::{pair_of, stated, today};
use fit::{Cause, CheckId, Conditions, FactId, Outcome, Pairing, Reason, Remark, Verdict, pair};
use table::{
    Carrier, CarrierClass, Contradiction, Fault, Head, HeadKind, MachineEnd, Mounting, MountingStandard, read,
};

const ARM: Option<MachineEnd> = Some(MachineEnd::Arm);
const LOADER: Option<MachineEnd> = Some(MachineEnd::Loader);

fn plate(end: Option<MachineEnd>) -> Mounting {
    Mounting::Standard { standard: MountingStandard::Iso24410, end }
}

/// The machine of the fixture as a backhoe loader: circuit, pins, coupler and chart at its digging arm, a plate and a rated operating
/// capacity of 5 t at its loader end.
fn backhoe(spoil: impl FnOnce(&mut Carrier, &mut Head)) -> Pairing {
    pair_of(|carrier, head| {
        carrier.class = CarrierClass::BackhoeLoader;
        carrier.circuits[0].end = ARM;
        let pins = carrier.mounting.remove(0).at(ARM);
        carrier.mounting = vec![pins, plate(LOADER)];
        carrier.coupler.as_mut().expect("a coupler").end = ARM;
        let lifting = carrier.lifting.as_mut().expect("a chart");
        lifting.rated_operating_capacity = stated("5000 kg");
        (lifting.tipping_axis, lifting.load_centre) = (stated("1150 mm"), stated("600 mm"));
        spoil(carrier, head);
    })
}

/// A backhoe loader with everything at its loader end, and a head for its plate.
fn at_loader(spoil: impl FnOnce(&mut Carrier, &mut Head)) -> Pairing {
    backhoe(|carrier, head| {
        carrier.circuits[0].end = LOADER;
        carrier.coupler.as_mut().expect("a coupler").end = LOADER;
        head.mounting = vec![plate(None)];
        spoil(carrier, head);
    })
}

#[test]
fn at_either_end_it_fits_by_that_end_s_figures() {
    let arm = backhoe(|_, _| {});
    assert_eq!((arm.verdict, arm.end), (Verdict::Fits, ARM));
    assert!(arm.remarks.iter().any(|remark| matches!(remark, Remark::LiftsAt { over_side: true, .. })));
    assert!(arm.remarks.contains(&Remark::AtEnd { end: MachineEnd::Arm }));
    let loader = at_loader(|_, _| {});
    assert_eq!((loader.verdict, loader.end), (Verdict::Fits, LOADER));
    assert!(loader.remarks.contains(&Remark::LevelGround));
    // One end needs no word.
    assert!(!pair_of(|_, _| {}).remarks.iter().any(|remark| matches!(remark, Remark::AtEnd { .. })));
}

/// 900 kg of its chart and 5000 kg of its loader end: 1000 kg are too much for the one and little for the other.
#[test]
fn a_head_on_the_digging_arm_is_judged_by_the_arm_s_chart() {
    let heavy = |_: &mut Carrier, head: &mut Head| head.mass = stated("1000 kg");
    beyond(&backhoe(heavy), CheckId::Lift, Cause::HeavyHead);
    met(&at_loader(heavy), CheckId::Lift, &Reason::Within);
    let chartless = |carrier: &mut Carrier, _: &mut Head| carrier.lifting.as_mut().expect("a chart").chart.clear();
    open(&backhoe(chartless), CheckId::Lift, &[FactId::Lifting], true);
    met(&at_loader(chartless), CheckId::Lift, &Reason::Within);
    let uncertified = |carrier: &mut Carrier, _: &mut Head| {
        carrier.lifting.as_mut().expect("a rating").rated_operating_capacity = None;
    };
    met(&backhoe(uncertified), CheckId::Lift, &Reason::Within);
    open(&at_loader(uncertified), CheckId::Lift, &[FactId::Lifting], true);
}

#[test]
fn a_loader_mounted_head_does_not_fit_on_the_digging_arm_s_oil() {
    let blower = backhoe(|_, head| (head.kind, head.mounting) = (HeadKind::SnowBlower, vec![plate(None)]));
    fails(&blower, CheckId::Mounting, &Reason::MountingsDiffer);
    assert_eq!((blower.verdict, blower.end), (Verdict::DoesNotFit, ARM));
    // Nor do the arm's pins carry anything at the loader end.
    let pinned = at_loader(|_, head| {
        head.mounting = vec![Mounting::Pins {
            pin: stated("50 mm").expect("a pin"),
            width: stated("203 mm"),
            centres: stated("250 mm"),
            end: None,
        }];
    });
    fails(&pinned, CheckId::Mounting, &Reason::MountingsDiffer);
    // Where nothing is stated of an end, nothing is known of it.
    let bare = at_loader(|carrier, _| carrier.mounting.truncate(1));
    open(&bare, CheckId::Mounting, &[FactId::CarrierMounting], true);
}

#[test]
fn an_end_that_is_not_stated_is_not_known() {
    let nowhere = backhoe(|carrier, _| carrier.circuits[0].end = None);
    for check in [CheckId::Mounting, CheckId::Lift, CheckId::Coupler] {
        open(&nowhere, check, &[FactId::CircuitEnd], true);
    }
    assert_eq!((nowhere.verdict, nowhere.end), (Verdict::CannotSay, None));
    open(
        &backhoe(|carrier, _| carrier.mounting[0] = carrier.mounting[0].clone().at(None)),
        CheckId::Mounting,
        &[FactId::MountingEnd],
        true,
    );
    let of_coupler = |end| backhoe(|carrier, _| carrier.coupler.as_mut().expect("a coupler").end = end);
    open(&of_coupler(None), CheckId::Coupler, &[FactId::CouplerEnd], true);
    open(&of_coupler(LOADER), CheckId::Coupler, &[FactId::ToolCoupler], true);
    // The one at the other end stands by itself.
    let second = backhoe(|carrier, _| {
        carrier.second_coupler = carrier.coupler.clone();
        carrier.coupler.as_mut().expect("a coupler").end = LOADER;
    });
    met(&second, CheckId::Coupler, &Reason::Within);
    // Room and torque of a backhoe loader are those of its digging arm.
    open(&at_loader(|_, _| {}), CheckId::Clearance, &[FactId::CurlClearance], false);
    met(&backhoe(|_, _| {}), CheckId::Clearance, &Reason::Within);
}

/// A class with one end says by itself which it is.
#[test]
fn a_machine_with_one_end_needs_not_say_which() {
    for class in [CarrierClass::MidiExcavator, CarrierClass::Excavator] {
        let fits = pair_of(|carrier, _| carrier.class = class);
        assert_eq!((fits.end, today(&fits, CheckId::Mounting).outcome), (ARM, Outcome::Met));
    }
}

fn problems(class: &str, fields: &str) -> Vec<(String, Fault)> {
    let table = format!(
        r#"{{"format": "pairwright.table", "version": 1, "title": "Ends", "heads": [],
            "carriers": [{{"id": "m", "model": "M", "class": "{class}", {fields}}}]}}"#
    );
    let outcome = read(&table);
    assert!(outcome.table.is_some());
    outcome.problems.into_iter().map(|problem| (problem.pointer, problem.fault)).collect()
}

#[test]
fn the_reader_warns_where_an_end_is_not_stated_or_not_there() {
    let fields = |end: &str| {
        format!(
            r#""circuits": [{{"id": "c"{end}}}], "mounting": [{{"pin": "45 mm"{end}}}], "coupler": {{"fitted": false{end}}}"#
        )
    };
    let places = ["/carriers/0/circuits/0", "/carriers/0/mounting/0", "/carriers/0/coupler"];
    let not_stated = Fault::Contradiction(Contradiction::EndNotStated);
    let mut found = problems("backhoe-loader", &fields(""));
    found.sort_by(|a, b| a.0.cmp(&b.0));
    let mut wanted: Vec<_> = places.iter().map(|place| ((*place).to_owned(), not_stated.clone())).collect();
    wanted.sort_by(|a, b| a.0.cmp(&b.0));
    assert_eq!(found, wanted);
    assert_eq!(problems("backhoe-loader", &fields(r#", "end": "arm""#)), []);
    assert_eq!(problems("excavator", &fields("")), []);
    let other = problems("excavator", &fields(r#", "end": "loader""#));
    assert_eq!(other.len(), 3);
    assert!(other.iter().all(|(place, fault)| {
        place.ends_with("/end") && *fault == Fault::Contradiction(Contradiction::EndOutsideClass)
    }));
    let second = problems("excavator", r#""second_coupler": {"fitted": false}"#);
    assert_eq!(
        second.first().map(|(_, fault)| fault.clone()),
        Some(Fault::Contradiction(Contradiction::EndOutsideClass))
    );
}

/// Of the demo: 620 kg over the side are too little; with that point gone what it lifts there is not stated.
#[test]
fn without_its_point_over_the_side_a_machine_does_not_fit_better() {
    let table = read(include_str!("../../../../../public/table/demo.json")).table.expect("the demo table");
    let conditions = Conditions::of_table(&table);
    let (carrier, head) = (table.carrier("quern-q56").expect("it"), table.head("pebblegate-k70").expect("it"));
    let full = pair(carrier, head, &conditions);
    assert_eq!(full.verdict, Verdict::DoesNotFit);
    assert!(full.unmendable.contains(&CheckId::Lift));
    let mut less = carrier.clone();
    less.lifting.as_mut().expect("a chart").chart.retain(|point| !point.over_side);
    let less = pair(&less, head, &conditions);
    assert_eq!(less.verdict, Verdict::CannotSay);
    open(&less, CheckId::Lift, &[FactId::LiftChart], true);
}
