//! The circuit's relief against its neighbours: the pump's cut-off, the main relief, and a relief block of the head's own.
//!
//! The direction differs by role. A main relief opens well above the cut-off, or the pump never cuts off and all its flow
//! goes over the relief at every stop; a shock relief stands above the main relief; a work limit stands below it on purpose.
//! Two limiters within 15 bar of each other fight. All gaps are common practice, no published source; they are taken at the
//! figures as set, since one gauge sets both.

use crate::assume::{LEAST_SHARE_ABOVE_CUT_OFF, SHOCK_ABOVE_MAIN_BAR};
use crate::facts::Facts;
use crate::judge::{to_prove, yes_no};
use crate::question::{Finding, Findings, Question, Reading};
use crate::{Bound, Cause, Check, CheckId, Class, FactId, Outcome, Reason};
use quantity::{Pressure, Quantity, Ratio, Unit};
use table::{AssumptionId, PumpControl, ReliefRole};

/// The check. Each gap can be read with a gauge: what is not stated is proved at the hand-over.
pub fn check<'f>(facts: &Facts) -> Findings<'f> {
    let mut judged = Vec::new();
    let relief = facts.circuit_relief().map(|stated| stated.nominal);
    if let (Some(own), Some(valve)) = (facts.head_relief().map(|stated| stated.nominal), relief) {
        // The head's own block limits its work: it must open well before the valve's.
        judged.push(below(facts, own, valve));
    }
    let Some(relief) = relief else {
        judged.push(unknown(&[FactId::CircuitRelief]));
        return all(judged);
    };
    let (cut_offs, mut lacking) = cut_offs(facts);
    let main = facts.main_relief().map(|stated| stated.nominal);
    let role = facts.relief_role();
    if role != Some(ReliefRole::Main) && main.is_none() {
        lacking.push(FactId::MainRelief);
    }
    match role {
        Some(ReliefRole::Main) => judged.extend(cut_offs.iter().map(|cut_off| above_cut_off(facts, relief, *cut_off))),
        Some(ReliefRole::Shock) => {
            // It stands above the main relief, whatever the pumps do.
            lacking.retain(|fact| *fact == FactId::MainRelief);
            let above = |main| main + Pressure::from_si(Unit::Bar.to_si(SHOCK_ABOVE_MAIN_BAR));
            judged.extend(main.map(|main| at_least(relief, above(main))));
        }
        Some(ReliefRole::WorkLimit) => {
            judged.extend(main.iter().chain(&cut_offs).map(|other| below(facts, relief, *other)));
        }
        None => {
            // Whatever it is for: too close to a neighbour it fights it.
            let fights = |other: &Pressure| (relief - *other).si().abs() < facts.relief_gap().si();
            if main.iter().chain(&cut_offs).any(fights) {
                judged.push(unknown(&[FactId::ReliefRole]));
            }
        }
    }
    // A neighbour that is not stated may stand anywhere.
    if !lacking.is_empty() {
        judged.push(unknown(&lacking));
    }
    if judged.is_empty() {
        judged.push(yes_no(CheckId::ReliefOverlap, Class::Damage, Outcome::Met, Reason::NoNeighbour, &[]));
    }
    all(judged)
}

fn all<'f>(judged: Vec<Check>) -> Findings<'f> {
    judged.into_iter().map(Finding::from).collect()
}

/// The pressures at which the pumps of the circuit cut off, and what is missing to know them all. A constant pump has none, whatever
/// pressure it is rated for.
fn cut_offs(facts: &Facts) -> (Vec<Pressure>, Vec<FactId>) {
    let (mut known, mut lacking) = (Vec::new(), Vec::new());
    for pump in facts.pumps_of_circuit() {
        match (facts.pump_control(pump), facts.cut_off_of(pump)) {
            (Some(PumpControl::Fixed), _) => {}
            (None, _) => lacking.push(FactId::PumpControl),
            (Some(_), None) => lacking.push(FactId::PumpCutOff),
            (Some(_), Some(stated)) => known.push(stated.nominal),
        }
    }
    if facts.pumps_of_circuit().count() == 0 {
        lacking.push(facts.unstated(FactId::PumpControl));
    }
    lacking.dedup();
    (known, lacking)
}

/// Cracking at least 15 bar or 5 % above the cut-off.
fn above_cut_off(facts: &Facts, relief: Pressure, cut_off: Pressure) -> Check {
    let override_share =
        facts.practice.range::<Ratio>(AssumptionId::ReliefOverride).map_or(0.0, |range| range.nominal.si());
    at_least(relief * (1.0 - override_share), cut_off + facts.relief_gap().max(cut_off * LEAST_SHARE_ABOVE_CUT_OFF))
}

fn question(bound: Bound) -> Question {
    Question { id: CheckId::ReliefOverlap, class: Class::Damage, blocks: false, bound }
}

fn at_least(value: Pressure, limit: Pressure) -> Check {
    question(Bound::AtLeast).settled(Reading::new(value, limit, Cause::LimitersClose))
}

fn below(facts: &Facts, value: Pressure, other: Pressure) -> Check {
    let limit = other - facts.relief_gap();
    question(Bound::AtMost).settled(Reading::new(value, limit, Cause::LimitersClose))
}

fn unknown(missing: &[FactId]) -> Check {
    to_prove(CheckId::ReliefOverlap, Class::Damage, missing)
}
