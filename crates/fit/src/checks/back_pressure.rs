//! Pressure at the motor's outlet: what the return to the tank costs, at the greatest flow, cold and at work, with the
//! filter on its bypass.

use crate::draw::{Draw, Parameter, Side};
use crate::facts::{Extreme, Facts, limit};
use crate::judge::{Estimate, Question, Reading, no_more_than, yes_no};
use crate::trace::Worked;
use crate::{Bound, Cause, Check, CheckId, Class, FactId, Outcome, Reason};
use hydraulics::balance::Compiled;
use quantity::{Kind, Pressure, ThermodynamicTemperature, VolumeRate};
use table::{AssumptionId, MotorKind};

/// The check.
pub fn check(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    let named = facts.head.outlet.back_pressure.as_ref();
    if named.is_none() && facts.motor_kind() == Some(MotorKind::GearDrained) {
        return yes_no(CheckId::BackPressure, Class::Damage, Outcome::Met, Reason::CaseDecides, &[]);
    }
    let allowed = match named {
        Some(stated) => limit(FactId::OutletLimit, Some(stated)),
        None => Parameter::or_assumed(
            FactId::OutletLimit,
            None,
            AssumptionId::OutletLimit,
            facts.practice.range(AssumptionId::OutletLimit),
        ),
    };
    let question = Question { id: CheckId::BackPressure, class: Class::Damage, blocks: true, bound: Bound::AtMost };
    question.judge(facts.depth, |draw| read(facts, draw, &allowed, warm))
}

/// The greatest pressure at the outlet against what something there is rated for.
pub fn read(
    facts: &Facts,
    draw: &Draw,
    allowed: &Parameter<Pressure>,
    warm: ThermodynamicTemperature,
) -> Reading<Pressure> {
    let limit = || draw.take(allowed, Side::Low);
    let (value, limit) = no_more_than(limit, facts.depth, |estimate| at_outlet(facts, draw, warm, estimate));
    let because = if facts.returns_direct() { Cause::ReturnLine } else { Cause::SpoolReturn };
    Reading { value, limit, because }
}

/// The greatest pressure at the motor's outlet over the oil's temperatures; of a breaker, whose return pulsates, the mean.
fn at_outlet(facts: &Facts, draw: &Draw, warm: ThermodynamicTemperature, estimate: Estimate) -> Pressure {
    let circuit = facts.circuit(draw, Extreme::MostFlowAgainstReturn, facts.temperature(draw, warm));
    if estimate == Estimate::UpperBound && !facts.is_impact() {
        let compiled = Compiled::of(&circuit);
        if let Some(most) = compiled.at_most(facts.free_difference(draw)) {
            return compiled.losses(most).1;
        }
    }
    let point = circuit.solve(facts.free_difference(draw));
    if facts.is_impact() {
        let flow = draw.works_out(Worked::FlowFree, point.map_or(VolumeRate::from_si(0.0), |point| point.flow));
        return circuit.back.pulsating_loss(circuit.returned(flow), facts.pulsation(draw), &circuit.oil);
    }
    // Where not even that turns, the return itself stalls it, with all the pressure that there is; without a pump that
    // gives anything there is none.
    let none = VolumeRate::from_si(0.0);
    let pumps = circuit.source.flow_at(Pressure::from_si(0.0)) > none;
    let dead = || circuit.stall_pressure().filter(|_| pumps).unwrap_or(circuit.outlet(none));
    if let Ok(point) = &point {
        draw.works_out(Worked::FlowFree, point.flow);
    }
    point.map_or_else(|_| dead(), |point| point.outlet)
}
