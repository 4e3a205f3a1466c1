//! The filter in the path that the return really takes: a return direct to the tank passes the machine's own by.

use crate::pairing::facts::Facts;
use crate::pairing::judge::plain;
use crate::pairing::reasoning::{Besides, Counted};
use crate::pairing::{Check, CheckId, Class, FactId, Outcome, Reason};

/// The check.
///
/// A new head brings dirt: oil that comes back by a line of its own needs a filter there (common practice, no published
/// source), and so does any return where the head's maker demands one.
pub fn check(facts: &Facts) -> Check {
    let path = &facts.circuit.return_path;
    facts.see_besides(Besides::OwnFilter, path.filter.is_some());
    facts.see(FactId::ReturnFilter, path.through_filter);
    facts.see(FactId::ReturnRoute, path.route);
    facts.see_besides(Besides::FilterDemanded, facts.head.demands.return_filter);
    if let Some(demanded) = facts.head.demands.filter_fineness_um {
        facts.see_besides(Besides::FinenessDemanded, Counted(usize::from(demanded)));
    }
    let (outcome, reason, missing): (_, _, &[FactId]) = if path.filter.is_some() {
        (Outcome::Met, Reason::FittedFilter, &[])
    } else if path.through_filter == Some(true) {
        (Outcome::Met, Reason::OwnFilter, &[])
    } else if facts.returns_direct() {
        (Outcome::NotMet, Reason::NoFilter, &[])
    } else if path.route.is_none() && path.through_filter.is_none() {
        // It may come back by a line of its own, which would need one.
        (Outcome::NotKnown, Reason::FactMissing, &[FactId::ReturnFilter])
    } else if path.route.is_none() && facts.head.demands.return_filter != Some(true) {
        // Past the filter it goes: by the valve that is well, by a line of its own it is not.
        (Outcome::NotKnown, Reason::FactMissing, &[FactId::ReturnRoute])
    } else if facts.head.demands.return_filter != Some(true) {
        (Outcome::Met, Reason::NoFilterDemanded, &[])
    } else if path.through_filter == Some(false) {
        (Outcome::NotMet, Reason::NoFilter, &[])
    } else {
        (Outcome::NotKnown, Reason::FactMissing, &[FactId::ReturnFilter])
    };
    let check =
        |outcome, reason, missing: &[FactId]| plain(CheckId::ReturnFilter, Class::Damage, outcome, reason, missing);
    // The finest filter in the path counts.
    let own = facts.carrier.return_filter.as_ref().filter(|_| path.through_filter == Some(true));
    let filters = path.filter.as_ref().into_iter().chain(own);
    let finest = filters.filter_map(|filter| filter.fineness_um).min();
    if facts.head.demands.filter_fineness_um.is_some() {
        facts.see(FactId::FilterFineness, finest.map(|finest| Counted(usize::from(finest))));
    }
    match (outcome, facts.head.demands.filter_fineness_um, finest) {
        (Outcome::Met, Some(_), None) => check(Outcome::NotKnown, Reason::FactMissing, &[FactId::FilterFineness]),
        (Outcome::Met, Some(asked), Some(finest)) if finest > asked => {
            check(Outcome::NotMet, Reason::FilterTooCoarse, &[])
        }
        _ => check(outcome, reason, missing),
    }
}
