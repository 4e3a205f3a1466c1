//! The filter in the path that the return really takes: a return direct to the tank passes the machine's own by.

use crate::facts::Facts;
use crate::judge::{missing, usual, yes_no};
use crate::question::Findings;
use crate::{Check, CheckId, Class, FactId, Outcome, Reason};
use quantity::{Interval, Quantity, Ratio};
use smallvec::smallvec;
use table::AssumptionId;

const ID: CheckId = CheckId::ReturnFilter;
const CLASS: Class = Class::Damage;

/// The check.
///
/// A new head brings dirt: oil that comes back by a line of its own needs a filter there, and so does any return unless the
/// head's maker says that it needs none (common practice, no published source).
pub fn check<'f>(facts: &Facts) -> Findings<'f> {
    let passes = passes_filter(facts);
    if passes.outcome != Outcome::Met || passes.reason == Reason::NoFilterDemanded {
        return passes.into();
    }
    smallvec![passes.into(), is_fine_enough(facts).into()]
}

fn result(outcome: Outcome, reason: Reason) -> Check {
    yes_no(ID, CLASS, outcome, reason, &[])
}

fn passes_filter(facts: &Facts) -> Check {
    let (fitted, through, route) = (facts.has_own_filter(), facts.through_filter(), facts.return_route());
    let demanded = facts.filter_demanded();
    if fitted {
        return result(Outcome::Met, Reason::FittedFilter);
    }
    if through == Some(true) {
        return result(Outcome::Met, Reason::OwnFilter);
    }
    if facts.returns_direct() {
        return result(Outcome::NotMet, Reason::NoFilter);
    }
    match (demanded, route, through) {
        // Through the valve past the filter is well where none is demanded; by a line of its own it is not.
        (Some(false), Some(_), _) => result(Outcome::Met, Reason::NoFilterDemanded),
        (Some(false) | None, None, Some(_)) => missing(ID, CLASS, &[FactId::ReturnRoute]),
        (Some(true), _, Some(_)) => result(Outcome::NotMet, Reason::NoFilter),
        // Usually one is demanded.
        (None, _, Some(_)) => missing(ID, CLASS, &[facts.unstated(FactId::FilterDemanded)]),
        (_, _, None) => missing(ID, CLASS, &[FactId::ReturnFilter]),
    }
}

/// The finest filter in the path against the rating that the maker demands, else the usual one.
fn is_fine_enough(facts: &Facts) -> Check {
    let finest = facts.finest_filter();
    if let Some(demanded) = facts.filtration_demanded() {
        return match finest {
            None => missing(ID, CLASS, &[FactId::FiltrationRating]),
            Some(finest) if finest > demanded => result(Outcome::NotMet, Reason::FilterTooCoarse),
            Some(_) => result(Outcome::Met, Reason::FittedFilter),
        };
    }
    let range: Interval<Ratio> = facts.practice.limit(AssumptionId::FiltrationRating);
    if finest.is_some_and(|finest| f64::from(finest) > range.high.si()) {
        return missing(ID, CLASS, &[facts.unstated(FactId::FiltrationDemanded)]);
    }
    facts.usual(AssumptionId::FiltrationRating);
    usual(ID, CLASS, Reason::OwnFilter, AssumptionId::FiltrationRating)
}
