//! What looks the same is said to look the same, and parted as soon as the reading is there that parts it; and whatever is typed,
//! something sensible comes of it.

use super::setups::Setup;
use super::simulation::{Dice, is_long, machine, named};
use crate::Measurement::{self as M};
use crate::{Diagnosis, Fault, Finding, LookAt, Next, Read, Suspect};
use quantity::{Amount, Dimension, Named};

const DIVIDED: usize = 0;
const SENSING: usize = 2;
const SMALL: usize = 5;
const INSTALLED: usize = 8;

/// What is read on a likely machine with a fault, of some measurements only.
fn read(setup: &Setup, fault: Fault, severity: f64, of: &[M]) -> Vec<Read> {
    let rig = fault.on(&setup.site, &setup.site.rig, severity);
    let reads = rig.reads(&setup.site.computed);
    let one = |what: M| reads.amount(what).map(|value| Read { what, value });
    of.iter().filter_map(|&what| one(what)).collect()
}

#[track_caller]
fn suspects(diagnosis: &Diagnosis) -> &[Suspect] {
    match &diagnosis.finding {
        Finding::Suspects { suspects, .. } => suspects,
        other => panic!("{other:?}"),
    }
}

fn is_alike(diagnosis: &Diagnosis, one: Fault, other: Fault) -> bool {
    let of = |fault: Fault| suspects(diagnosis).iter().find(|suspect| suspect.fault == fault);
    of(one).is_some_and(|suspect| suspect.alike.contains(&other))
        || of(other).is_some_and(|suspect| suspect.alike.contains(&one))
}

/// Two faults that look the same by some readings and not by some more.
#[track_caller]
fn look_the_same(setup: usize, (fault, severity): (Fault, f64), other: Fault, few: &[M], more: &[M]) {
    let setup = &Setup::all()[setup];
    let by_few = setup.signatures.diagnose(&read(setup, fault, severity, few));
    assert!(is_alike(&by_few, fault, other), "{} {}: {by_few:#?}", fault.name(), other.name());
    let all: Vec<M> = few.iter().chain(more).copied().collect();
    let by_all = setup.signatures.diagnose(&read(setup, fault, severity, &all));
    let first = &suspects(&by_all)[0];
    assert_eq!(
        first.fault,
        fault,
        "{:?}",
        suspects(&by_all).iter().map(|s| (s.fault.name(), s.score)).collect::<Vec<_>>()
    );
    let scores: Vec<_> = suspects(&by_all).iter().map(|s| (s.fault.name(), s.score, s.severity)).collect();
    assert!(!is_alike(&by_all, fault, other), "{} {} are still alike: {scores:?}", fault.name(), other.name());
}

#[test]
fn invariant_a_worn_pump_is_said_to_look_like_a_leaking_relief_until_flow_is_read_at_three_pressures() {
    let more = [M::FlowFree, M::FlowNearRelief, M::Relief, M::EngineFree, M::EngineWorking];
    look_the_same(SMALL, (Fault::ReliefLeaking, 0.45), Fault::WornPump, &[M::FlowWorking], &more);
}

#[test]
fn a_weak_engine_looks_like_a_low_limiter_until_its_speed_is_read() {
    // Where the limiter acts at work, on what runs free besides.
    let acts = |setup: &Setup| {
        let flow = |fault: Fault, severity| {
            let read = read(setup, fault, severity, &[M::FlowWorking]);
            read.first().map_or(0.0, |read| read.value.si())
        };
        let can = setup.signatures.faults().contains(&Fault::PowerLimitLow);
        let runs_free = !read(setup, Fault::PowerLimitLow, 1.0, &[M::FlowFree]).is_empty();
        can && runs_free && flow(Fault::PowerLimitLow, 0.75) < 0.92 * flow(Fault::PowerLimitLow, 1.0)
    };
    let setup = Setup::all().iter().position(acts).expect("one whose limiter acts at work");
    let engine = [M::EngineFree, M::EngineWorking];
    look_the_same(setup, (Fault::PowerLimitLow, 0.78), Fault::EngineWeak, &[M::FlowFree, M::FlowWorking], &engine);
}

#[test]
fn a_worn_motor_looks_like_a_leaking_check_beside_it_until_the_case_line_is_read() {
    let few = [M::FlowWorking, M::RotorWorking];
    look_the_same(SENSING, (Fault::WornMotor, 0.15), Fault::RunDownLeaking, &few, &[M::CaseFlow, M::CaseWorking]);
}

#[test]
fn a_low_relief_looks_like_a_low_cut_off_and_an_open_isolating_valve_and_is_then_looked_at() {
    let setup = &Setup::all()[SENSING];
    let diagnosis = setup.signatures.diagnose(&read(setup, Fault::ReliefLow, 0.8, &[M::Relief]));
    for other in [Fault::CutOffLow, Fault::IsolatingValveOpen] {
        assert!(is_alike(&diagnosis, Fault::ReliefLow, other), "{}: {diagnosis:#?}", other.name());
    }
    // Far below what the other tool's relief holds it is not that.
    let low = setup.signatures.diagnose(&read(setup, Fault::ReliefLow, 0.6, &[M::Relief]));
    let valve = suspects(&low).iter().find(|suspect| suspect.fault == Fault::IsolatingValveOpen);
    assert!(valve.is_none_or(|valve| valve.score < 0.05), "{low:#?}");
}

/// What resists in the return resists whatever it is: no reading at one temperature parts it, so that something is to be looked at.
#[test]
fn what_resists_in_the_return_is_looked_at() {
    for (setup, fault, severity, other, look) in [
        (INSTALLED, Fault::ChangeoverOnSpool, 1.0, Fault::ReturnHalfShut, LookAt::DirectLine),
        (SENSING, Fault::ReturnHoseSmall, 0.65, Fault::ReturnHalfShut, LookAt::HosePrint),
        (DIVIDED, Fault::FilterBlocked, 1.0, Fault::ReturnHalfShut, LookAt::FilterIndicator),
    ] {
        let setup = &Setup::all()[setup];
        let some = [M::OutletFree, M::OutletWorking, M::InletFree, M::FlowWorking, M::FlowFree, M::RotorFree];
        let diagnosis = setup.signatures.diagnose(&read(setup, fault, severity, &some));
        let own = suspects(&diagnosis).iter().find(|suspect| suspect.fault == fault);
        let own = own.unwrap_or_else(|| panic!("{} is suspected: {diagnosis:#?}", fault.name()));
        assert!(own.alike.contains(&other), "{}: {own:#?}", fault.name());
        assert_eq!(own.look, look);
        // What can hurt somebody comes first, with a stop.
        let first = &suspects(&diagnosis)[0];
        assert!(first.stop && first.fault == Fault::ReturnHalfShut, "{first:#?}");
    }
}

#[test]
fn a_changeover_on_the_spool_looks_like_a_blocked_filter() {
    let setup = &Setup::all()[INSTALLED];
    let some = [M::OutletFree, M::OutletWorking];
    let diagnosis = setup.signatures.diagnose(&read(setup, Fault::FilterBlocked, 1.4, &some));
    assert!(is_alike(&diagnosis, Fault::FilterBlocked, Fault::ChangeoverOnSpool), "{diagnosis:#?}");
}

#[test]
fn a_pinched_case_line_is_first_and_stops() {
    let setup = &Setup::all()[DIVIDED];
    let all: Vec<M> = M::ALL.to_vec();
    let diagnosis = setup.signatures.diagnose(&read(setup, Fault::CaseLinePinched, 60.0, &all));
    let first = &suspects(&diagnosis)[0];
    assert_eq!((first.fault, first.stop, first.look), (Fault::CaseLinePinched, true, LookAt::CaseLine));
    assert!(first.speaks_for.iter().any(|sign| matches!(sign.what, M::CaseFree | M::CaseWorking)), "{first:#?}");
    let sign = first.speaks_for[0];
    assert!(sign.with_fault.low.si() <= sign.read.si() && sign.read.si() <= sign.with_fault.high.si(), "{sign:?}");
}

#[test]
fn without_readings_it_is_said_what_to_read_first() {
    let setup = &Setup::all()[DIVIDED];
    let Finding::TooFew { first } = setup.signatures.diagnose(&[]).finding else { panic!("nothing was read") };
    assert!(first.len() >= 3, "{first:?}");
    // One good reading is no proof.
    let one = setup.signatures.diagnose(&read(setup, Fault::WornPump, 1.0, &[M::FlowWorking]));
    assert!(matches!(one.finding, Finding::TooFew { .. }), "{one:?}");
    // Everything read as computed is.
    let all = setup.signatures.diagnose(&read(setup, Fault::WornPump, 1.0, M::ALL));
    let Finding::NothingWrong { unseen } = &all.finding else { panic!("{all:#?}") };
    assert!(!unseen.iter().any(|fault| fault.is_dangerous()), "{unseen:?}");
}

#[test]
fn the_next_measurement_parts_the_first_from_the_rest() {
    let setup = &Setup::all()[SENSING];
    let diagnosis = setup.signatures.diagnose(&read(
        setup,
        Fault::WornMotor,
        0.15,
        &[M::FlowWorking, M::RotorWorking, M::RotorFree],
    ));
    let worn = suspects(&diagnosis).iter().find(|suspect| suspect.fault == Fault::WornMotor).expect("suspected");
    assert!(matches!(worn.next, Next::Measure { what: M::CaseFlow | M::CaseWorking | M::CaseFree }), "{worn:#?}");
}

#[test]
fn a_reading_beyond_a_limit_stops_whatever_is_likely() {
    let setup = &Setup::all()[SENSING];
    let value = Amount::from_si(Dimension::Pressure, 4e5);
    let diagnosis = setup.signatures.diagnose(&[Read { what: M::CaseWorking, value }]);
    assert_eq!(diagnosis.beyond, [M::CaseWorking]);
    let first = &suspects(&diagnosis)[0];
    assert!(first.stop && first.fault == Fault::CaseLinePinched, "{diagnosis:#?}");
}

#[test]
fn whatever_is_typed_something_comes_of_it() {
    let mut dice = Dice::new(5);
    for setup in Setup::all().iter().step_by(2) {
        for &value in &[f64::NAN, f64::INFINITY, -1.0, 0.0, 1e300, -1e300, 1e-300, 1e9] {
            for dimension in [Dimension::Pressure, Dimension::Flow, Dimension::Mass] {
                let hostile: Vec<Read> =
                    M::ALL.iter().map(|&what| Read { what, value: Amount::from_si(dimension, value) }).collect();
                let all = setup.signatures.diagnose(&hostile);
                if dimension == Dimension::Mass {
                    assert!(matches!(all.finding, Finding::TooFew { .. }) && !all.left_out.is_empty());
                }
                // Among good readings one that is mad.
                let (mut read, _) = machine(setup, &mut dice, None);
                read[3].value = Amount::from_si(read[3].what.dimension(), value);
                let one = setup.signatures.diagnose(&read);
                for suspect in named(&one) {
                    assert!(suspect.score.is_finite() && suspect.severity.is_finite(), "{suspect:?}");
                }
            }
        }
    }
}

#[test]
fn of_what_cannot_be_computed_nothing_is_made() {
    let setup = &Setup::all()[DIVIDED];
    let value = Amount::from_si(Dimension::Flow, 1e-3);
    let read = [Read { what: M::FlowBusy, value }];
    let diagnosis = setup.signatures.diagnose(&read);
    assert_eq!(diagnosis.left_out, [M::FlowBusy]);
    assert!(matches!(diagnosis.finding, Finding::TooFew { .. }));
}

/// Whatever is typed, what a sign tells is a figure that an instrument could show.
#[test]
fn signs_stay_within_the_world() {
    for setup in Setup::all() {
        let mut dice = Dice::new(5);
        for round in 0..if is_long() { 40 } else { 20 } {
            let (mut read, _) = machine(setup, &mut dice, None);
            for one in &mut read {
                // Far off, here and there.
                let factor = if dice.share() < 0.3 { 0.05 + 3.0 * dice.share() } else { 1.0 };
                one.value = Amount::from_si(one.value.dimension(), one.value.si() * factor);
            }
            let Finding::Suspects { suspects, .. } = setup.signatures.diagnose(&read).finding else { continue };
            for suspect in &suspects {
                for sign in suspect.speaks_for.iter().chain(&suspect.speaks_against) {
                    let computed = setup.plan.iter().filter(|planned| planned.what == sign.what);
                    let usual = computed.filter_map(|planned| match &planned.reading.found {
                        workshop::Found::Expected { reads } => Some(reads.high.si()),
                        workshop::Found::NotKnown { .. } => None,
                    });
                    let most = 100.0 * usual.fold(1.0e-6, f64::max).max(sign.read.si());
                    let (low, high) = (sign.with_fault.low.si(), sign.with_fault.high.si());
                    let told = format!("{} round {round}: {:?} {sign:?}", setup.name, suspect.fault);
                    assert!(low <= high && (0.0..=most).contains(&low) && high <= most, "{told}");
                    assert!((0.0..=most).contains(&sign.healthy.si()), "{told}");
                }
            }
        }
    }
}

/// With the tester in the attachment's place no fault of the attachment can be behind what was read, however wrong it was read.
#[test]
fn a_slip_with_the_tester_suspects_nothing_of_the_attachment() {
    const OF_THE_ATTACHMENT: [Fault; 6] = [
        Fault::WornMotor,
        Fault::WrongMotor,
        Fault::WrongPulley,
        Fault::BeltSlips,
        Fault::CaseLinePinched,
        Fault::RunDownLeaking,
    ];
    let mut suspected = 0;
    for setup in Setup::all() {
        let sound = setup.sound();
        for what in [M::FlowFree, M::FlowWorking, M::FlowNearRelief, M::Relief] {
            for factor in [0.1, 10.0] {
                let Some(value) = sound.amount(what) else { continue };
                let value = Amount::from_si(value.dimension(), value.si() * factor);
                let Finding::Suspects { suspects, .. } = setup.signatures.diagnose(&[Read { what, value }]).finding
                else {
                    continue;
                };
                for suspect in &suspects {
                    suspected += 1;
                    assert!(
                        !OF_THE_ATTACHMENT.contains(&suspect.fault),
                        "{}: {what:?} {:?}",
                        setup.name,
                        suspect.fault
                    );
                }
            }
        }
    }
    assert!(suspected > 20);
}
