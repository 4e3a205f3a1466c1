//! Flow at the head against the head's window.
//!
//! The low side is judged at work, with everything leaning to little: low tolerance, working speed, leakage, power limit,
//! losses. The high side is judged free running, with everything leaning to much: high tolerance, high idle, and a setting
//! turned up as far as an operator can.

use crate::draw::{Draw, Side};
use crate::facts::{Extreme, Facts, limit};
use crate::judge::{Depth, Question, Reading, worst_of};
use crate::trace::Worked;
use crate::{Bound, Cause, Check, CheckId, Class, FactId};
use hydraulics::balance::Compiled;
use hydraulics::{Circuit, Operating};
use quantity::{Kind, ThermodynamicTemperature, VolumeRate};

/// The check.
pub fn check(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    worst_of(vec![low(facts, warm), high(facts, warm)])
}

/// At least the head's least flow arrives at work.
pub fn low(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    let least = Facts::least_or_rated(&facts.head.flow, FactId::HeadLeastFlow);
    let question = Question { id: CheckId::FlowWindow, class: Class::Work, blocks: true, bound: Bound::AtLeast };
    question.judge(facts.depth, |draw| {
        let limit = draw.take(&least, Side::High);
        if facts.depth == Depth::Outcome {
            return Reading { value: sign_at_work(facts, draw, limit, warm), limit, because: Cause::FlowLow };
        }
        let (value, because) = at_work(facts, draw, Extreme::LeastFlow, warm);
        Reading { value, limit, because }
    })
}

/// Never more than the head's greatest flow.
pub fn high(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    let greatest = limit(FactId::HeadGreatestFlow, facts.head.flow.greatest.as_ref());
    let question = Question { id: CheckId::FlowWindow, class: Class::Damage, blocks: true, bound: Bound::AtMost };
    question.judge(facts.depth, |draw| {
        let limit = draw.take(&greatest, Side::Low);
        let value = if facts.depth == Depth::Outcome {
            sign_free_running(facts, draw, limit, warm)
        } else {
            greatest_flow(facts, draw, Extreme::MostFlow, warm)
        };
        Reading { value, limit, because: Cause::FlowHigh }
    })
}

/// Whether a flow is reached at work over the oil's temperatures, by the sign of g and no root: that flow, or none.
pub fn sign_at_work(facts: &Facts, draw: &Draw, flow: VolumeRate, warm: ThermodynamicTemperature) -> VolumeRate {
    let circuit = facts.circuit(draw, Extreme::LeastFlow, facts.temperature(draw, warm));
    let reached = Compiled::of(&circuit).reaches(flow, facts.working_difference(draw, &circuit));
    if reached { flow } else { VolumeRate::from_si(0.0) }
}

/// Whether a flow is exceeded free running over the oil's temperatures, by the sign of g: that flow, or half as much again.
fn sign_free_running(facts: &Facts, draw: &Draw, flow: VolumeRate, warm: ThermodynamicTemperature) -> VolumeRate {
    let circuit = facts.circuit(draw, Extreme::MostFlow, facts.temperature(draw, warm));
    let exceeded = Compiled::of(&circuit).surplus(flow, facts.free_difference(draw)).si() > 0.0;
    if exceeded { flow * 1.5 } else { flow }
}

/// The least flow at work over the oil's temperatures, with what sets it.
pub fn at_work(facts: &Facts, draw: &Draw, lean: Extreme, warm: ThermodynamicTemperature) -> (VolumeRate, Cause) {
    let circuit = facts.circuit(draw, lean, facts.temperature(draw, warm));
    let difference = draw.works_out(Worked::Difference, facts.working_difference(draw, &circuit));
    match circuit.solve(difference) {
        Ok(point) => (draw.works_out(Worked::FlowAtWork, point.flow), what_holds_back(&circuit, &point)),
        Err(_) => (VolumeRate::from_si(0.0), Cause::Relief),
    }
}

/// The greatest flow free running over the oil's temperatures.
pub fn greatest_flow(facts: &Facts, draw: &Draw, lean: Extreme, warm: ThermodynamicTemperature) -> VolumeRate {
    let circuit = facts.circuit(draw, lean, facts.temperature(draw, warm));
    let flow = circuit.solve(facts.free_difference(draw)).map_or(VolumeRate::from_si(0.0), |point| point.flow);
    draw.works_out(Worked::FlowFree, flow)
}

/// Which part of the circuit sets the flow at a solved point.
fn what_holds_back(circuit: &Circuit, point: &Operating) -> Cause {
    if circuit.relief.is_some_and(|relief| relief.share_passed(point.supply) > 1e-6) {
        Cause::Relief
    } else if circuit.source.limited_from().is_some_and(|from| circuit.source.pump_pressure(point.supply) > from) {
        Cause::PowerLimit
    } else {
        Cause::FlowLow
    }
}
