//! What is left to travel, boom and slew while the head works.

use crate::facts::Facts;
use crate::installation::sharing::left_at_work;
use crate::judge::to_prove;
use crate::question::{Question, Reading};
use crate::sample::Corner;
use crate::{Bound, Cause, Check, CheckId, Class, FactId};
use quantity::ThermodynamicTemperature;

/// The flow left to the functions against what they need at least, at likely figures: the operator feels it at once, so that what
/// is not known is tried at the hand-over.
pub fn check(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    let id = CheckId::Functions;
    let Some(least) = facts.functions_least_flow() else {
        return to_prove(id, Class::Work, &[FactId::Functions]);
    };
    let sample = facts.sample(Corner::Likely);
    let Some(left) = left_at_work(facts, &sample, warm) else {
        let missing = sample.missing();
        return to_prove(id, Class::Work, if missing.is_empty() { &[FactId::PumpFlow] } else { &missing });
    };
    let question = Question { id, class: Class::Work, blocks: false, bound: Bound::AtLeast };
    question.settled(Reading::new(left, least.nominal, Cause::FlowTaken))
}
