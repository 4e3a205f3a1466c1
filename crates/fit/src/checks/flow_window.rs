//! Flow at the head against the head's window.
//!
//! The low side is judged at work, with everything leaning to little: low tolerance, working speed, leakage, power limit,
//! losses. The high side is judged free running, with everything leaning to much: high tolerance, high idle, and a setting
//! turned up as far as an operator can.

use crate::facts::{Extreme, Facts, limit};
use crate::question::{Estimate, Finding, Question, Reading};
use crate::sample::{End, Sample};
use crate::{Bound, Cause, CheckId, Class, FactId};
use hydraulics::balance::Compiled;
use hydraulics::{Circuit, Operating};
use quantity::{Quantity, ThermodynamicTemperature, VolumeRate};

/// At least the head's least flow arrives at work.
pub fn low<'f>(facts: &'f Facts, warm: ThermodynamicTemperature) -> Finding<'f> {
    let least = Facts::least_or_rated(&facts.head.flow, FactId::HeadLeastFlow);
    let question = Question { id: CheckId::FlowWindow, class: Class::Work, blocks: true, bound: Bound::AtLeast };
    question.asks_closely(move |sample, estimate| {
        let limit = sample.take(&least, End::High);
        let (flow, because) = match estimate {
            Estimate::Exact => at_work(facts, sample, Extreme::LeastFlow, warm),
            Estimate::Quick if reaches_at_work(facts, sample, limit, warm) => (limit, Cause::FlowLow),
            Estimate::Quick => (VolumeRate::from_si(0.0), Cause::FlowLow),
        };
        Reading::new(flow, limit, because)
    })
}

/// Never more than the head's greatest flow.
pub fn high<'f>(facts: &'f Facts, warm: ThermodynamicTemperature) -> Finding<'f> {
    let greatest = limit(FactId::HeadGreatestFlow, facts.head.flow.greatest.as_ref());
    let question = Question { id: CheckId::FlowWindow, class: Class::Damage, blocks: true, bound: Bound::AtMost };
    question.asks_closely(move |sample, estimate| {
        let limit = sample.take(&greatest, End::Low);
        let flow = match estimate {
            Estimate::Exact => greatest_flow(facts, sample, Extreme::MostFlow, warm),
            Estimate::Quick if exceeds_free_running(facts, sample, limit, warm) => limit * 1.5,
            Estimate::Quick => limit,
        };
        Reading::new(flow, limit, Cause::FlowHigh)
    })
}

/// Whether a flow is reached at work over the oil's temperatures: by the sign of g, and no root.
pub fn reaches_at_work(facts: &Facts, sample: &Sample, flow: VolumeRate, warm: ThermodynamicTemperature) -> bool {
    let circuit = facts.circuit(sample, Extreme::LeastFlow, facts.temperature(sample, warm));
    Compiled::of(&circuit).reaches(flow, facts.working_difference(sample, &circuit))
}

/// Whether a flow is exceeded free running over the oil's temperatures, by the sign of g.
fn exceeds_free_running(facts: &Facts, sample: &Sample, flow: VolumeRate, warm: ThermodynamicTemperature) -> bool {
    let circuit = facts.circuit(sample, Extreme::MostFlow, facts.temperature(sample, warm));
    Compiled::of(&circuit).surplus(flow, facts.free_difference(sample)).si() > 0.0
}

/// The least flow at work over the oil's temperatures, with what sets it.
pub fn at_work(facts: &Facts, sample: &Sample, lean: Extreme, warm: ThermodynamicTemperature) -> (VolumeRate, Cause) {
    let circuit = facts.circuit(sample, lean, facts.temperature(sample, warm));
    match facts.working_point(sample, &circuit) {
        Ok(point) => (point.flow, what_holds_back(&circuit, &point)),
        Err(_) => (VolumeRate::from_si(0.0), Cause::Relief),
    }
}

/// The greatest flow free running over the oil's temperatures.
pub fn greatest_flow(facts: &Facts, sample: &Sample, lean: Extreme, warm: ThermodynamicTemperature) -> VolumeRate {
    let circuit = facts.circuit(sample, lean, facts.temperature(sample, warm));
    facts.free_flow(sample, &circuit, facts.free_difference(sample), VolumeRate::from_si(0.0))
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
