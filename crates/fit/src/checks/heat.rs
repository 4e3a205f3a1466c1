//! Where the oil's temperature ends over the head's usual day.

use crate::assume::HEAT_BAND;
use crate::facts::Facts;
use crate::installation::warmth::HeatOverTemperature;
use crate::judge::to_prove;
use crate::question::{Question, Reading};
use crate::{Bound, Cause, Check, CheckId, Class, FactId, Missing, Outcome, Reason};

/// What decides where the balance is too close: the cooler's figure where it is assumed for the class, and half an hour's run.
fn decides(facts: &Facts) -> Vec<FactId> {
    let stated = facts.carrier.cooler.as_ref().is_some_and(|cooler| cooler.conductance.is_some());
    let cooler = (!stated).then_some(FactId::CoolerConductance);
    cooler.into_iter().chain([FactId::OilSettles]).collect()
}

/// The steady temperature against the one at which work ends, with the heat as computed and a third more or less: a balance
/// of heat is no better than that (common practice, no published source). What is not known, or lies between, is proved by half an
/// hour's run.
pub fn check(facts: &Facts) -> Check {
    let id = CheckId::Heat;
    let question = Question { id, class: Class::Work, blocks: false, bound: Bound::AtMost };
    let stop = facts.oil_stop();
    facts.ambient();
    facts.head_kind();
    let balance = match HeatOverTemperature::of(facts) {
        Ok(balance) => balance,
        Err(missing) => return to_prove(id, Class::Work, &missing),
    };
    let with = |heat| question.settled(Reading::new(balance.settles(heat), stop, Cause::LittleCooling));
    let (best, likely, worst) = (with(1.0 / HEAT_BAND), with(1.0), with(HEAT_BAND));
    if worst.outcome == Outcome::Met {
        return Check { value: likely.value, ..worst };
    }
    if let Some(fact) = balance.unknown {
        // The machine's cooler takes part, by its own oil: how much is not stated.
        return to_prove(id, Class::Work, &[fact]);
    }
    if best.outcome == Outcome::NotMet {
        return likely;
    }
    Check {
        outcome: Outcome::NotKnown,
        reason: Reason::Undecided { because: Cause::LittleCooling },
        margin: None,
        missing: decides(facts).into_iter().map(|fact| Missing { fact, holds: None }).collect(),
        value: likely.value,
        ..worst
    }
}
