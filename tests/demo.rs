//! The demo table is consistent, and shows what the app can say.

use pairwright::pairing::{Conditions, Outcome, Verdict, pair};
use pairwright::quantity::{Kind, Named, Unit};
use pairwright::table::{CarrierClass, ChangeId, Table, read};
use std::collections::HashSet;

fn table() -> Table {
    let outcome = read(include_str!("../public/table/demo.json"));
    assert_eq!(outcome.problems, Vec::new());
    outcome.table.expect("the demo table")
}

#[test]
fn it_has_enough_of_everything() {
    let table = table();
    let classes: HashSet<_> = table.carriers.iter().map(|carrier| carrier.class).collect();
    let kinds: HashSet<_> = table.heads.iter().map(|head| head.kind).collect();
    assert!(table.carriers.iter().filter(|carrier| !carrier.generic).count() >= 12);
    assert!(table.heads.len() >= 14 && classes.len() >= 3 && kinds.len() >= 5);
    assert!(table.carriers.iter().any(|carrier| carrier.generic));
}

#[test]
fn machines_are_consistent() {
    for carrier in table().carriers.iter().filter(|carrier| !carrier.generic) {
        let id = &carrier.id;
        let kilograms = carrier.operating_mass.expect("a mass").nominal.si();
        let (least, greatest) = match carrier.class {
            CarrierClass::MicroExcavator => (500.0, 1500.0),
            CarrierClass::MiniExcavator => (1500.0, 6000.0),
            CarrierClass::MidiExcavator => (6000.0, 13_000.0),
            CarrierClass::Excavator => (13_000.0, 45_000.0),
            CarrierClass::SkidSteer => (1200.0, 4800.0),
            CarrierClass::CompactTrackLoader => (1500.0, 6500.0),
            CarrierClass::WheelLoader => (1500.0, 35_000.0),
            CarrierClass::BackhoeLoader => (2000.0, 11_000.0),
        };
        assert!((least..=greatest).contains(&kilograms), "{id}: {kilograms} kg");
        let engine = carrier.engine.power.expect("a power").nominal.si();
        let limits: f64 =
            carrier.power_groups.iter().filter_map(|group| group.limit).map(|limit| limit.nominal.si()).sum::<f64>()
                + carrier.pumps.iter().filter_map(|pump| pump.power_limit).map(|limit| limit.nominal.si()).sum::<f64>();
        assert!(limits <= 0.85 * engine, "{id}: {limits} of {engine} W");
        for pump in &carrier.pumps {
            let speed = carrier.engine.working_speed.expect("a speed").nominal.si() / std::f64::consts::TAU;
            if let (Some(displacement), Some(flow)) = (pump.displacement, pump.greatest_flow) {
                let efficiency = flow.nominal.si() / (displacement.nominal.si() * speed);
                assert!((0.90..=1.0).contains(&efficiency), "{id}: η_v {efficiency}");
            }
        }
    }
}

#[test]
fn rotors_turn_as_fast_as_their_motors_let_them() {
    for head in &table().heads {
        let Some(motor) = &head.motor else { continue };
        let figures = (head.flow.rated, motor.displacement, motor.ratio, motor.rotor_speed.rated);
        let (Some(flow), Some(displacement), Some(ratio), Some(speed)) = figures else { continue };
        let theoretical = flow.nominal.si() / displacement.nominal.si() * ratio.nominal.si() * 60.0;
        let stated = Unit::RevolutionPerMinute.of_si(speed.nominal.si());
        assert!((0.80..=1.0).contains(&(stated / theoretical)), "{}: {stated} of {theoretical} rpm", head.id);
        let greatest = motor.rotor_speed.greatest.expect("a greatest speed").nominal.si();
        assert!(greatest > speed.nominal.si(), "{}", head.id);
    }
}

#[test]
fn it_shows_every_verdict_and_every_change() {
    let table = table();
    let conditions = Conditions::of_table(&table);
    let (mut verdicts, mut mended) = (HashSet::new(), HashSet::new());
    for carrier in &table.carriers {
        for head in &table.heads {
            let pairing = pair(carrier, head, &conditions);
            verdicts.insert(pairing.verdict);
            mended.extend(pairing.changes.iter().filter(|change| !change.mends.is_empty()).map(|change| change.id));
            let failing = |checks: &[pairwright::pairing::Check]| checks.iter().any(pairwright::pairing::Check::fails);
            // The verdict says what the checks say.
            match pairing.verdict {
                Verdict::Fits => assert!(!failing(&pairing.checks)),
                Verdict::FitsAfterChanges => {
                    assert!(failing(&pairing.checks) && !failing(&pairing.checks_after) && !pairing.changes.is_empty());
                }
                Verdict::DoesNotFit => {
                    assert!(!pairing.unmendable.is_empty());
                    assert!(pairing.checks.iter().any(|check| check.outcome == Outcome::NotMet));
                }
                Verdict::CannotSay => {
                    let open = pairing.final_checks();
                    assert!(open.iter().any(|check| check.outcome == Outcome::NotKnown && !check.missing.is_empty()));
                    assert!(open.iter().all(|check| check.outcome != Outcome::NotMet), "{} {}", carrier.id, head.id);
                }
            }
        }
    }
    assert_eq!(verdicts.len(), Verdict::ALL.len());
    for change in ChangeId::ALL {
        assert!(mended.contains(change), "{} mends nothing", change.name());
    }
}

/// Whatever is taken away from the table, there is a verdict for every pair and no panic; and a machine of which less is
/// known never fits better: what is missing is no yes.
#[test]
fn what_is_taken_away_never_makes_it_fit() {
    let table = table();
    let conditions = Conditions::of_table(&table);
    let mut compared = 0;
    for carrier in table.carriers.iter().filter(|carrier| !carrier.generic) {
        for head in &table.heads {
            let full = pair(carrier, head, &conditions);
            if full.verdict == Verdict::DoesNotFit {
                continue;
            }
            for part in 0..10 {
                let (mut carrier, mut head) = (carrier.clone(), head.clone());
                match part {
                    0 => carrier.operating_mass = None,
                    1 => carrier.engine = pairwright::table::Engine::default(),
                    2 => carrier.circuits.iter_mut().for_each(|circuit| circuit.relief = None),
                    3 => carrier.circuits.iter_mut().for_each(|circuit| circuit.relief_range = None),
                    4 => carrier.mounting.clear(),
                    5 => head.flow = pairwright::table::Limits::default(),
                    6 => head.pressure = pairwright::table::HeadPressure::default(),
                    7 => head.carrier_mass = pairwright::table::Limits::default(),
                    8 => head.motor = None,
                    _ => head.mounting.clear(),
                }
                let less = pair(&carrier, &head, &conditions);
                let good = |verdict| matches!(verdict, Verdict::Fits | Verdict::FitsAfterChanges);
                if good(less.verdict) {
                    assert!(good(full.verdict), "{} with {} without part {part}", carrier.id, head.id);
                }
                compared += 1;
            }
        }
    }
    assert!(compared > 300, "{compared}");
}
