//! What is left to travel, boom and slew while the head works.

use crate::draw::Corner;
use crate::facts::Facts;
use crate::installation::sharing::left_at_work;
use crate::judge::{Question, Reading, to_prove};
use crate::{Bound, Cause, Check, CheckId, Class, FactId};
use quantity::ThermodynamicTemperature;

/// The flow left to the functions against what they need at least, at likely figures: the operator feels it at once, so that what
/// is not known is tried at the hand-over.
pub fn check(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    let id = CheckId::Functions;
    let least = facts.carrier.functions.as_ref().and_then(|functions| functions.least_flow);
    let Some(least) = facts.see(FactId::Functions, least) else {
        return to_prove(id, Class::Work, &[FactId::Functions]);
    };
    let draw = facts.draw(Corner::Likely);
    let Some(left) = left_at_work(facts, &draw, warm) else {
        let missing = draw.missing();
        return to_prove(id, Class::Work, if missing.is_empty() { &[FactId::PumpFlow] } else { &missing });
    };
    let question = Question { id, class: Class::Work, blocks: false, bound: Bound::AtLeast };
    question.judge(facts.depth, |_| Reading { value: left, limit: least.nominal, because: Cause::FlowTaken })
}
