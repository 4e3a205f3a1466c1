//! How the oil is switched: directions, hands-free flow, stopping, and what head and pump do while the head is off.

use crate::facts::Facts;
use crate::judge::{missing, to_prove, yes_no};
use crate::{Check, CheckId, Class, FactId, Outcome, Reason};
use table::{Centre, FedFrom, HeadKind, MotorKind, PumpControl, ReturnRoute, Ways};

/// A head that must be turned back needs a two-way circuit: an auger clears itself so (common practice, no published source).
pub fn direction(facts: &Facts) -> Check {
    let id = CheckId::Direction;
    let met = |reason| yes_no(id, Class::Work, Outcome::Met, reason, &[]);
    if facts.head_kind() != HeadKind::Auger || facts.head_ways() == Some(Ways::One) {
        return met(Reason::OneWayEnough);
    }
    match facts.circuit_ways() {
        Some(Ways::Two) if facts.reverse_locked() != Some(true) => {
            match facts.return_route() {
                Some(ReturnRoute::Spool) => met(Reason::BothWays),
                // The reverse would run into the tank.
                Some(ReturnRoute::Direct) => yes_no(id, Class::Work, Outcome::NotMet, Reason::OneWayOnly, &[]),
                None => missing(id, Class::Work, &[FactId::ReturnRoute]),
            }
        }
        Some(_) => yes_no(id, Class::Work, Outcome::NotMet, Reason::OneWayOnly, &[]),
        None => missing(id, Class::Work, &[FactId::CircuitWays]),
    }
}

/// A motor that drains inside to its outlet loses its seal within seconds of reverse flow; breakers and plates break
/// (common practice, no published source). On a two-way circuit the reverse must be barred.
pub fn reverse_lock(facts: &Facts) -> Check {
    let id = CheckId::ReverseLock;
    let met = |reason| yes_no(id, Class::Safety, Outcome::Met, reason, &[]);
    if facts.circuit_ways() == Some(Ways::One) || facts.reverse_locked() == Some(true) {
        return met(Reason::ReverseBarred);
    }
    let drains_inside = matches!(facts.motor_kind(), Some(MotorKind::GearOneWay | MotorKind::Impact));
    let hurt = drains_inside || matches!(facts.head_kind(), HeadKind::Breaker | HeadKind::PlateCompactor);
    match (facts.head_ways(), facts.circuit_ways()) {
        (Some(Ways::Two), _) => met(Reason::ReverseHarmless),
        (None, _) if !hurt => missing(id, Class::Safety, &[FactId::HeadWays]),
        (_, Some(_)) => yes_no(id, Class::Safety, Outcome::NotMet, Reason::ReverseOpen, &[]),
        (_, None) => missing(id, Class::Safety, &[FactId::CircuitWays]),
    }
}

/// Whether a head of a kind works for minutes on end, so that nobody can hold a lever for it.
fn works_on(kind: HeadKind) -> bool {
    !matches!(kind, HeadKind::Auger | HeadKind::Breaker | HeadKind::PlateCompactor | HeadKind::ScreeningBucket)
}

/// The flow stays on without a hand or foot on it.
pub fn continuous_flow(facts: &Facts) -> Check {
    let id = CheckId::ContinuousFlow;
    let result = |outcome, reason| yes_no(id, Class::Work, outcome, reason, &[]);
    if !works_on(facts.head_kind()) {
        return result(Outcome::Met, Reason::HandIsEnough);
    }
    match facts.continuous() {
        Some(true) => result(Outcome::Met, Reason::StaysOn),
        Some(false) => result(Outcome::NotMet, Reason::HeldByHand),
        // It shows at the first start, and hurts nobody.
        None => to_prove(id, Class::Work, &[FactId::Continuous]),
    }
}

/// What stays on by itself must stop when the operator leaves the seat or power fails, and must not start again by
/// itself (ISO 12100 and ISO 4413, from memory). What is held by hand or foot stops with it.
pub fn stop_and_restart(facts: &Facts) -> Check {
    let id = CheckId::StopAndRestart;
    let result = |outcome, reason| yes_no(id, Class::Safety, outcome, reason, &[]);
    let by_lever = matches!(facts.fed_from(), Some(FedFrom::Valve | FedFrom::PowerBeyond));
    if facts.continuous() == Some(false) && by_lever {
        return result(Outcome::Met, Reason::HeldByOperator);
    }
    match facts.stops_and_stays_off() {
        Some(true) => result(Outcome::Met, Reason::StopsAndStays),
        Some(false) => result(Outcome::NotMet, Reason::RunsOn),
        None => missing(id, Class::Safety, &[FactId::StopsAndStaysOff]),
    }
}

/// Nothing may shut the return while oil is supplied, or the outlet sees the whole relief; where something can, a relief to
/// the tank must open first.
pub fn return_shut(facts: &Facts) -> Check {
    let id = CheckId::ReturnShut;
    if facts.fed_from() == Some(FedFrom::PumpLine) && !facts.returns_direct() {
        return yes_no(id, Class::Safety, Outcome::NotMet, Reason::ReturnThroughSpool, &[]);
    }
    match (facts.return_relief(), facts.can_be_shut()) {
        (Some(true), _) => yes_no(id, Class::Safety, Outcome::Met, Reason::ReturnRelieved, &[]),
        (_, Some(false)) => yes_no(id, Class::Safety, Outcome::Met, Reason::ReturnStaysOpen, &[]),
        (_, Some(true)) => yes_no(id, Class::Safety, Outcome::NotMet, Reason::ReturnCanBeShut, &[]),
        (_, None) => missing(id, Class::Safety, &[FactId::CanBeShut]),
    }
}

/// While the head is off. One with a valve of its own that shuts the supply sends all of a constant pump's oil over the relief, unless
/// the circuit then lets it through to the tank. One that passes oil takes full flow all day from a pump that gives what is asked, where
/// it is fed ahead of the machine's spool: behind the spool, which shuts it off, an open motor is nothing. A divider that is vented
/// while the head is off does neither. All of it common practice, no published source.
pub fn centre_type(facts: &Facts) -> Check {
    let id = CheckId::CentreType;
    let result = |outcome, reason| yes_no(id, Class::Damage, outcome, reason, &[]);
    let switched = facts.is_switched_by_valve();
    let centre = facts.head_centre();
    if centre.is_none() && switched {
        return missing(id, Class::Damage, &[FactId::HeadCentre]);
    }
    let divider = facts.circuit.divider.as_ref();
    let vented = divider.is_some_and(|divider| facts.divider_vented(divider) == Some(true));
    if centre == Some(Centre::Closed) {
        if vented {
            return result(Outcome::Met, Reason::CentreAgrees);
        }
        return match facts.control() {
            None => missing(id, Class::Damage, &[FactId::PumpControl]),
            Some(PumpControl::Fixed) => match facts.unloads_when_off() {
                Some(true) => result(Outcome::Met, Reason::CentreAgrees),
                Some(false) => result(Outcome::NotMet, Reason::ClosedOnFixed),
                None => missing(id, Class::Damage, &[FactId::UnloadsWhenOff]),
            },
            Some(_) => result(Outcome::Met, Reason::CentreAgrees),
        };
    }
    let met = || result(Outcome::Met, if centre.is_none() { Reason::NoValveOnHead } else { Reason::CentreAgrees });
    let fed_from = facts.fed_from();
    if fed_from == Some(FedFrom::Valve) || vented {
        return met();
    }
    match (facts.control(), fed_from) {
        (Some(PumpControl::Fixed | PumpControl::Negative | PumpControl::Positive), _) => met(),
        (_, None) => missing(id, Class::Damage, &[FactId::FedFrom]),
        (None, Some(_)) => missing(id, Class::Damage, &[FactId::PumpControl]),
        // A head that is not known to pass oil may have a valve that shuts it.
        (Some(_), Some(_)) if centre.is_none() => missing(id, Class::Damage, &[FactId::HeadCentre]),
        (Some(_), Some(_)) => result(Outcome::NotMet, Reason::OpenOnDemand),
    }
}
