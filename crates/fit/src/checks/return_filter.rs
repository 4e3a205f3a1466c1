//! The filter in the path that the return really takes: a return direct to the tank passes the machine's own by.

use crate::facts::Facts;
use crate::judge::{missing, usual, worst_of, yes_no};
use crate::trace::{Context, Counted, From, Given};
use crate::{Check, CheckId, Class, FactId, Outcome, Reason};
use quantity::{Interval, Kind, Ratio};
use table::AssumptionId;

const ID: CheckId = CheckId::ReturnFilter;
const CLASS: Class = Class::Damage;

/// The check.
///
/// A new head brings dirt: oil that comes back by a line of its own needs a filter there, and so does any return unless the
/// head's maker says that it needs none (common practice, no published source).
pub fn check(facts: &Facts) -> Check {
    let passes = passes_filter(facts);
    if passes.outcome != Outcome::Met || passes.reason == Reason::NoFilterDemanded {
        return passes;
    }
    worst_of(vec![passes, is_fine_enough(facts)])
}

fn result(outcome: Outcome, reason: Reason) -> Check {
    yes_no(ID, CLASS, outcome, reason, &[])
}

fn passes_filter(facts: &Facts) -> Check {
    let path = &facts.circuit.return_path;
    facts.see_context(Context::OwnFilter, path.filter.is_some());
    facts.see(FactId::ReturnFilter, path.through_filter);
    facts.see(FactId::ReturnRoute, path.route);
    let demanded = facts.see_context(Context::FilterDemanded, facts.head.demands.return_filter);
    if path.filter.is_some() {
        return result(Outcome::Met, Reason::FittedFilter);
    }
    if path.through_filter == Some(true) {
        return result(Outcome::Met, Reason::OwnFilter);
    }
    if facts.returns_direct() {
        return result(Outcome::NotMet, Reason::NoFilter);
    }
    match (demanded, path.route, path.through_filter) {
        // Through the valve past the filter is well where none is demanded; by a line of its own it is not.
        (Some(false), Some(_), _) => result(Outcome::Met, Reason::NoFilterDemanded),
        (Some(false) | None, None, Some(_)) => missing(ID, CLASS, &[FactId::ReturnRoute]),
        (Some(true), _, Some(_)) => result(Outcome::NotMet, Reason::NoFilter),
        // Usually one is demanded.
        (None, _, Some(_)) => missing(ID, CLASS, &[facts.lacks(FactId::FilterDemanded)]),
        (_, _, None) => missing(ID, CLASS, &[FactId::ReturnFilter]),
    }
}

/// The finest filter in the path against the rating that the maker demands, else the usual one.
fn is_fine_enough(facts: &Facts) -> Check {
    let path = &facts.circuit.return_path;
    let own = facts.carrier.return_filter.as_ref().filter(|_| path.through_filter == Some(true));
    let filters = path.filter.as_ref().into_iter().chain(own);
    let finest = filters.filter_map(|filter| filter.fineness_um).min();
    facts.see(FactId::FilterFineness, finest.map(|finest| Counted(usize::from(finest))));
    if let Some(demanded) = facts.head.demands.filter_fineness_um {
        facts.see_context(Context::FinenessDemanded, Counted(usize::from(demanded)));
        return match finest {
            None => missing(ID, CLASS, &[FactId::FilterFineness]),
            Some(finest) if finest > demanded => result(Outcome::NotMet, Reason::FilterTooCoarse),
            Some(_) => result(Outcome::Met, Reason::FittedFilter),
        };
    }
    let range: Interval<Ratio> = facts.practice.limit(AssumptionId::FiltrationRating);
    if finest.is_some_and(|finest| f64::from(finest) > range.high.si()) {
        return missing(ID, CLASS, &[facts.lacks(FactId::FiltrationDemanded)]);
    }
    if let Some(range) = facts.practice.stated(AssumptionId::FiltrationRating) {
        facts
            .see_context(Context::UsualFiltration, Given(range.nominal, From::Assumed(AssumptionId::FiltrationRating)));
    }
    usual(ID, CLASS, Reason::OwnFilter, AssumptionId::FiltrationRating)
}
