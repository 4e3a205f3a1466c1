//! How a heavy rotor comes to rest when its oil stops: it drives its motor as a pump, which needs oil at its inlet.

use crate::circuit::run_down::LEAST_INLET_BAR;
use crate::pairing::draw::{Draw, Stance};
use crate::pairing::facts::Facts;
use crate::pairing::installation::run_down::inlet_pressure;
use crate::pairing::judge::plain;
use crate::pairing::{Because, Bound, Check, CheckId, Class, FactId, Outcome, Reason};
use crate::quantity::{Amount, Kind, Pressure};
use crate::table::HeadKind;

/// Whether a rotor of a kind is heavy enough to drive its motor (common practice, no published source): the others stand at
/// once against what they work in.
pub fn is_heavy(kind: HeadKind) -> bool {
    matches!(
        kind,
        HeadKind::RotaryCutter
            | HeadKind::Flail
            | HeadKind::DrumMulcher
            | HeadKind::HammerMulcher
            | HeadKind::StumpGrinder
            | HeadKind::ColdPlaner
            | HeadKind::Saw
            | HeadKind::SnowBlower
    )
}

/// A check valve from outlet to inlet near the motor, and oil that follows. Whether it draws air shows on a gauge and by ear:
/// not known, it is proved at the hand-over.
pub fn check(facts: &Facts) -> Check {
    let id = CheckId::RunDown;
    if !is_heavy(facts.head.kind) {
        return plain(id, Class::Damage, Outcome::Met, Reason::NoHeavyRotor, &[]);
    }
    match (facts.head.run_down_check, facts.circuit.make_up_check) {
        (Some(true), _) | (_, Some(true)) => {}
        (Some(false), _) => return plain(id, Class::Damage, Outcome::NotMet, Reason::CannotRunDown, &[]),
        (None, _) => {
            let check = plain(id, Class::Damage, Outcome::NotKnown, Reason::FactMissing, &[FactId::RunDownCheck]);
            return Check { blocks: false, ..check };
        }
    }
    let draw = Draw::new(Stance::Nominal);
    let inlet = inlet_pressure(facts, &draw, facts.conditions.working);
    let missing = draw.missing();
    if !missing.is_empty() {
        let check = plain(id, Class::Damage, Outcome::NotKnown, Reason::FactMissing, &missing);
        return Check { blocks: false, ..check };
    }
    let Some(inlet) = inlet else {
        return plain(id, Class::Damage, Outcome::Met, Reason::RunsDown, &[]);
    };
    let least = Pressure::from_si(LEAST_INLET_BAR * 1e5);
    if inlet >= least {
        return plain(id, Class::Damage, Outcome::Met, Reason::RunsDown, &[]);
    }
    // No pressure is lower than an empty space.
    let shown = Some(Amount::of(inlet.max(Pressure::from_si(-1e5))));
    if facts.circuit.return_path.route.is_none() {
        // Through the valve it would be preloaded.
        let check = plain(id, Class::Damage, Outcome::NotKnown, Reason::FactMissing, &[FactId::ReturnRoute]);
        return Check { blocks: false, ..check };
    }
    let missing = [FactId::TankPressure];
    Check {
        blocks: false,
        value: shown,
        worst: shown,
        limit: Some(Amount::of(least)),
        bound: Some(Bound::AtLeast),
        ..plain(id, Class::Damage, Outcome::NotKnown, Reason::Undecided { because: Because::RunsDry }, &missing)
    }
}
