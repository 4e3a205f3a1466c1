//! Where the oil comes from: whether the pump learns of the head, what must have its oil first, and which pumps give it.

use crate::facts::Facts;
use crate::judge::{missing, to_prove, yes_no};
use crate::{Check, CheckId, Class, FactId, Outcome, Reason};
use table::{FedFrom, HeadKind, PumpControl};

/// A pump that gives what is asked stays near zero when a head takes its oil ahead of the valve: it must be told. A constant
/// or pressure-compensated one gives anyway, and one with negative control strokes up by itself when its centre flow falls.
pub fn pump_demand(facts: &Facts) -> Check {
    let id = CheckId::PumpDemand;
    let result = |outcome, reason| yes_no(id, Class::Damage, outcome, reason, &[]);
    match facts.fed_from() {
        None => return missing(id, Class::Damage, &[FactId::FedFrom]),
        // The machine's own spool tells its own pump; what stands behind it tells nothing (common practice, no published source).
        Some(FedFrom::Valve) => return result(Outcome::Met, Reason::PumpKnows),
        Some(FedFrom::PowerBeyond | FedFrom::PumpLine) => {}
    }
    match (facts.control(), facts.demand_signal()) {
        (None, _) => missing(id, Class::Damage, &[FactId::PumpControl]),
        (Some(PumpControl::Fixed | PumpControl::PressureCompensated | PumpControl::Negative), _) | (_, Some(true)) => {
            result(Outcome::Met, Reason::PumpKnows)
        }
        (Some(PumpControl::Positive | PumpControl::LoadSensing), Some(false)) => {
            result(Outcome::NotMet, Reason::PumpNotTold)
        }
        (Some(PumpControl::Positive | PumpControl::LoadSensing), None) => {
            missing(id, Class::Damage, &[FactId::DemandSignal])
        }
    }
}

/// Never ahead of steering, brakes or pilot supply, whatever the flow says. Behind the machine's own control valve a head
/// gets what they leave.
pub fn feed_order(facts: &Facts) -> Check {
    let id = CheckId::FeedOrder;
    let result = |outcome, reason| yes_no(id, Class::Safety, outcome, reason, &[]);
    match facts.fed_from() {
        None => return missing(id, Class::Safety, &[FactId::FedFrom]),
        Some(FedFrom::Valve | FedFrom::PowerBeyond) => return result(Outcome::Met, Reason::BehindPriority),
        Some(FedFrom::PumpLine) => {}
    }
    // One that feeds them for certain decides, whatever the others do.
    let fed = || facts.pumps_of_circuit().map(|pump| facts.also_feeds(pump));
    if fed().flatten().any(|users| !users.is_empty()) {
        result(Outcome::NotMet, Reason::AheadOfPriority)
    } else if fed().count() > 0 && fed().all(|users| users.is_some()) {
        result(Outcome::Met, Reason::PumpsFeedNoPriority)
    } else {
        missing(id, Class::Safety, &[FactId::AlsoFeeds])
    }
}

/// On most excavators with two pumps each drives one track: oil taken ahead of the valve from one alone pulls the machine to
/// one side (common practice, no published source). Behind the valve its maker has seen to it, or the first metres show it. What works
/// only while the machine stands asks nothing of its tracks.
pub fn straight_travel(facts: &Facts) -> Check {
    let id = CheckId::StraightTravel;
    let result = |outcome, reason| yes_no(id, Class::Work, outcome, reason, &[]);
    if !facts.carrier_class().is_excavator() {
        return result(Outcome::Met, Reason::TakenEvenly);
    }
    if !works_while_travelling(facts.head_kind()) {
        return result(Outcome::Met, Reason::WorksStanding);
    }
    match facts.fed_from() {
        None => to_prove(id, Class::Work, &[FactId::FedFrom]),
        Some(FedFrom::PumpLine) if facts.pumps_of_circuit().count() == 0 => {
            to_prove(id, Class::Work, &[facts.unstated(FactId::PumpFlow)])
        }
        Some(FedFrom::PumpLine) if from_one_of_several(facts) => result(Outcome::NotMet, Reason::TakenFromOne),
        Some(_) => result(Outcome::Met, Reason::TakenEvenly),
    }
}

/// Whether heads of a kind work while the machine travels, at least at times (common practice, no published source).
fn works_while_travelling(kind: HeadKind) -> bool {
    match kind {
        HeadKind::RotaryCutter
        | HeadKind::Flail
        | HeadKind::DrumMulcher
        | HeadKind::HammerMulcher
        | HeadKind::ColdPlaner
        | HeadKind::Trencher
        | HeadKind::Sweeper
        | HeadKind::SnowBlower => true,
        HeadKind::Auger
        | HeadKind::Breaker
        | HeadKind::StumpGrinder
        | HeadKind::PlateCompactor
        | HeadKind::Saw
        | HeadKind::ScreeningBucket => false,
    }
}

/// Whether the circuit is fed by one of several pumps that drive an excavator. Its gear pumps feed pilot, fan or slew, not its
/// tracks.
pub fn from_one_of_several(facts: &Facts) -> bool {
    let (tracks, taken) = facts.pumps_that_drive();
    facts.carrier_class().is_excavator() && tracks > 1 && taken == 1
}
