//! What the relief leaves for the motor at work, and the pressure that can reach the head against what it is rated for.

use crate::assume::SETTING_SLACK;
use crate::facts::{Extreme, Facts, Pressures, limit};
use crate::question::{Finding, Findings, Question, Reading};
use crate::sample::End;
use crate::{Bound, Cause, CheckId, Class, FactId};
use quantity::{Fact, Pressure, Quantity, ThermodynamicTemperature};

/// The check.
pub fn check<'f>(facts: &'f Facts, warm: ThermodynamicTemperature) -> Findings<'f> {
    [left_for_motor(facts, warm), stalled(facts)].into_iter().chain(asked(facts)).collect()
}

/// At the head's least flow the pressure at which the relief begins to open, or up to which the pumps give their whole
/// flow if that is less (a load-sensing one ends its margin before its cut-off), less all losses, is no less than the
/// motor's need at work.
pub fn left_for_motor<'f>(facts: &'f Facts, warm: ThermodynamicTemperature) -> Finding<'f> {
    let least = Facts::least_or_rated(&facts.head.flow, FactId::HeadLeastFlow);
    let question = Question { id: CheckId::Pressure, class: Class::Work, blocks: true, bound: Bound::AtLeast };
    question.asks(move |sample| {
        let flow = sample.take(&least, End::High);
        let circuit = facts.circuit(sample, Extreme::LeastFlow, facts.temperature(sample, warm));
        let Pressures { whole, supply, back } = facts.pressures(sample, &circuit, flow);
        let because = if supply + back <= whole * 0.1 {
            Cause::Relief
        } else if supply >= back {
            Cause::SupplyLoss
        } else if facts.returns_direct() {
            Cause::ReturnLine
        } else {
            Cause::SpoolReturn
        };
        let left = (whole - supply - back).max(Pressure::from_si(0.0));
        Reading::new(left, facts.working_difference(sample, &circuit), because)
    })
}

/// The relief stands where the head's maker asks for it, where he does: a gauge and a shop's step allow for a twentieth less.
fn asked<'f>(facts: &'f Facts) -> Option<Finding<'f>> {
    facts.head.pressure.relief?;
    let question = Question { id: CheckId::Pressure, class: Class::Work, blocks: true, bound: Bound::AtLeast };
    Some(question.asks(move |sample| {
        let asked = facts.relief_asked().map_or(Pressure::from_si(0.0), |asked| asked.nominal);
        let stands = match facts.relief.fact {
            Fact::Known(interval, _) => interval.nominal,
            Fact::Assumed(_) | Fact::Missing => sample.take(&facts.relief, End::Low),
        };
        Reading::new(stands, asked * (1.0 - SETTING_SLACK), Cause::ReliefLow)
    }))
}

/// With the head stalled its inlet gets the relief's full-flow pressure, without losses and at the upper tolerance. Another tool's
/// relief on the same lines protects nothing but that tool.
fn stalled<'f>(facts: &'f Facts) -> Finding<'f> {
    let greatest = limit(FactId::HeadGreatestPressure, facts.head.pressure.greatest.as_ref());
    let question = Question { id: CheckId::Pressure, class: Class::Safety, blocks: true, bound: Bound::AtMost };
    question.asks(move |sample| {
        let stalled = sample.take(&facts.protection, End::High);
        Reading::new(stalled, sample.take(&greatest, End::Low), Cause::ReliefHigh)
    })
}
