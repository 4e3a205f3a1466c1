//! What the relief leaves for the motor at work, and the pressure that can reach the head against what it is rated for.

use crate::assume::SETTING_SLACK;
use crate::draw::Side;
use crate::facts::{Extreme, Facts, limit};
use crate::judge::{Question, Reading, worst_of};
use crate::trace::{Context, Worked};
use crate::{Bound, Cause, Check, CheckId, Class, FactId};
use hydraulics::balance::Compiled;
use quantity::{Fact, Kind, Pressure, ThermodynamicTemperature, VolumeRate};

/// The check.
pub fn check(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    worst_of([left_for_motor(facts, warm), dead(facts)].into_iter().chain(asked(facts)).collect())
}

/// At the head's least flow the pressure at which the relief begins to open, or up to which the pumps give their whole
/// flow if that is less (a load-sensing one ends its margin before its cut-off), less all losses, is no less than the
/// motor's need at work.
pub fn left_for_motor(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    let least = Facts::least_or_rated(&facts.head.flow, FactId::HeadLeastFlow);
    let question = Question { id: CheckId::Pressure, class: Class::Work, blocks: true, bound: Bound::AtLeast };
    question.judge(facts.depth, |draw| {
        let flow: VolumeRate = draw.take(&least, Side::High);
        let circuit = facts.circuit(draw, Extreme::LeastFlow, facts.temperature(draw, warm));
        let whole = circuit.whole_flow_up_to().unwrap_or(Pressure::from_si(0.0));
        let (supply, back) = Compiled::of(&circuit).losses(flow);
        draw.works_out(Worked::WholeFlowUpTo, whole);
        draw.works_out(Worked::SupplyLoss, supply);
        draw.works_out(Worked::ReturnLoss, back);
        let because = if supply + back <= whole * 0.1 {
            Cause::Relief
        } else if supply >= back {
            Cause::SupplyLoss
        } else if facts.returns_direct() {
            Cause::ReturnLine
        } else {
            Cause::SpoolReturn
        };
        let value = (whole - supply - back).max(Pressure::from_si(0.0));
        Reading { value, limit: facts.working_difference(draw, &circuit), because }
    })
}

/// The relief stands where the head's maker asks for it, where he does: a gauge and a shop's step allow for a twentieth less.
fn asked(facts: &Facts) -> Option<Check> {
    let asked = facts.head.pressure.relief?.nominal;
    let question = Question { id: CheckId::Pressure, class: Class::Work, blocks: true, bound: Bound::AtLeast };
    Some(question.judge(facts.depth, |draw| {
        facts.see_context(Context::ReliefAsked, facts.head.pressure.relief);
        let stands = match facts.relief.fact {
            Fact::Known(interval, _) => interval.nominal,
            Fact::Assumed(_) | Fact::Missing => draw.take(&facts.relief, Side::Low),
        };
        Reading { value: stands, limit: asked * (1.0 - SETTING_SLACK), because: Cause::ReliefLow }
    }))
}

/// With the head stalled its inlet gets the relief's full-flow pressure, without losses and at the upper tolerance. Another tool's
/// relief on the same lines protects nothing but that tool.
pub fn dead(facts: &Facts) -> Check {
    let greatest = limit(FactId::HeadGreatestPressure, facts.head.pressure.greatest.as_ref());
    let question = Question { id: CheckId::Pressure, class: Class::Safety, blocks: true, bound: Bound::AtMost };
    question.judge(facts.depth, |draw| Reading {
        value: draw.take(&facts.protection, Side::High),
        limit: draw.take(&greatest, Side::Low),
        because: Cause::ReliefHigh,
    })
}
