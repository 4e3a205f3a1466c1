//! How a heavy rotor comes to rest when its oil stops: it drives its motor as a pump, which needs oil at its inlet.

use crate::facts::Facts;
use crate::installation::inlet::{inlet_pressure, vacuum};
use crate::judge::{missing, to_prove, yes_no};
use crate::sample::Corner;
use crate::{Bound, Cause, Check, CheckId, Class, FactId, Outcome, Reason};
use hydraulics::coast_down::LEAST_INLET_BAR;
use quantity::{Amount, Pressure, Quantity};

/// An anti-cavitation check valve from outlet to inlet near the motor, and oil that follows. Whether there is one must be known
/// before work; whether the motor draws air all the same shows on a gauge and by ear, and is proved at the hand-over.
pub fn check(facts: &Facts) -> Check {
    let id = CheckId::RunDown;
    if !facts.head_kind().has_heavy_rotor() {
        return yes_no(id, Class::Damage, Outcome::Met, Reason::NoHeavyRotor, &[]);
    }
    match (facts.coast_down_check(), facts.make_up_check()) {
        (Some(true), _) | (_, Some(true)) => {}
        (Some(false), _) => return yes_no(id, Class::Damage, Outcome::NotMet, Reason::CannotRunDown, &[]),
        (None, _) => return missing(id, Class::Damage, &[FactId::RunDownCheck]),
    }
    let sample = facts.sample(Corner::Likely);
    let inlet = inlet_pressure(facts, &sample, facts.conditions.working);
    let lacking = sample.missing();
    if !lacking.is_empty() {
        return to_prove(id, Class::Damage, &lacking);
    }
    let least = Pressure::from_si(LEAST_INLET_BAR * 1e5);
    // What does not turn needs no oil to come to rest.
    let Some(inlet) = inlet.filter(|inlet| *inlet < least) else {
        return yes_no(id, Class::Damage, Outcome::Met, Reason::RunsDown, &[]);
    };
    if facts.return_route().is_none() {
        // Through the valve it would be preloaded.
        return to_prove(id, Class::Damage, &[FactId::ReturnRoute]);
    }
    let shown = Some(Amount::of(inlet.max(vacuum())));
    // Nearly all of it is lost in the check valve; the tank's pressure is worth a question only where it is not stated.
    let tank = (!facts.tank_pressure.fact.is_known()).then_some(FactId::TankPressure);
    let decides: Vec<_> = [FactId::RunDownLoss].into_iter().chain(tank).collect();
    Check {
        blocks: false,
        value: shown,
        worst: shown,
        limit: Some(Amount::of(least)),
        bound: Some(Bound::AtLeast),
        ..yes_no(id, Class::Damage, Outcome::NotKnown, Reason::Undecided { because: Cause::RunsDry }, &decides)
    }
}
