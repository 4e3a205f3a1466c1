//! Flow at the head against the head's window.
//!
//! The low side is judged at work, with everything leaning to little: low tolerance, working speed, leakage, power limit,
//! losses. The high side is judged free running, with everything leaning to much: high tolerance, high idle, and a setting
//! turned up as far as an operator can.

use crate::circuit::{Circuit, Operating};
use crate::pairing::draw::Draw;
use crate::pairing::facts::{Facts, Lean, limit};
use crate::pairing::judge::{Question, Reading, together};
use crate::pairing::{Because, Bound, Check, CheckId, Class, FactId};
use crate::quantity::{Kind, ThermodynamicTemperature, VolumeRate};

/// The check.
pub fn check(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    together(vec![low(facts, warm), high(facts, warm)])
}

/// At least the head's least flow arrives at work.
pub fn low(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    let least = Facts::least_or_rated(&facts.head.flow, FactId::HeadLeastFlow);
    let question = Question { id: CheckId::FlowWindow, class: Class::Work, blocks: true, bound: Bound::AtLeast };
    question.judge(facts.depth, |draw| {
        let (value, because) = at_work(facts, draw, Lean::Poor, warm);
        Reading { value, limit: draw.take(&least, crate::pairing::draw::Side::High), because }
    })
}

/// Never more than the head's greatest flow.
pub fn high(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    let greatest = limit(FactId::HeadGreatestFlow, facts.head.flow.greatest.as_ref());
    let question = Question { id: CheckId::FlowWindow, class: Class::Damage, blocks: true, bound: Bound::AtMost };
    question.judge(facts.depth, |draw| {
        let value = greatest_flow(facts, draw, Lean::Rich, warm);
        let limit = draw.take(&greatest, crate::pairing::draw::Side::Low);
        Reading { value, limit, because: Because::FlowHigh }
    })
}

/// The least flow at work over the oil's temperatures, with what sets it.
pub fn at_work(facts: &Facts, draw: &Draw, lean: Lean, warm: ThermodynamicTemperature) -> (VolumeRate, Because) {
    facts
        .temperatures(draw, warm)
        .into_iter()
        .map(|temperature| {
            let circuit = facts.circuit(draw, lean, temperature);
            match circuit.solve(facts.working_difference(draw, &circuit)) {
                Ok(point) => (point.flow, what_holds_back(&circuit, &point)),
                Err(_) => (VolumeRate::from_si(0.0), Because::Relief),
            }
        })
        .min_by(|a, b| a.0.si().total_cmp(&b.0.si()))
        .unwrap_or((VolumeRate::from_si(0.0), Because::FlowLow))
}

/// The greatest flow free running over the oil's temperatures.
pub fn greatest_flow(facts: &Facts, draw: &Draw, lean: Lean, warm: ThermodynamicTemperature) -> VolumeRate {
    let zero = VolumeRate::from_si(0.0);
    facts.temperatures(draw, warm).into_iter().fold(zero, |most, temperature| {
        let circuit = facts.circuit(draw, lean, temperature);
        let flow = circuit.solve(facts.free_difference(draw)).map_or(zero, |point| point.flow);
        most.max(flow)
    })
}

/// Which part of the circuit sets the flow at a solved point.
fn what_holds_back(circuit: &Circuit, point: &Operating) -> Because {
    if circuit.relief.is_some_and(|relief| relief.share_passed(point.supply) > 1e-6) {
        Because::Relief
    } else if circuit.source.limited_from().is_some_and(|from| circuit.source.pump_pressure(point.supply) > from) {
        Because::PowerLimit
    } else {
        Because::FlowLow
    }
}
