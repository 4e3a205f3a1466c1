//! Guards that the head demands against those that are fitted.

use crate::facts::Facts;
use crate::judge::{missing, to_prove, yes_no};
use crate::{Check, CheckId, Class, FactId, Outcome, Reason};
use table::Guard;

/// The guards that are demanded and not fitted; none when it is not stated what is fitted.
pub fn lacking(facts: &Facts) -> Option<Vec<Guard>> {
    let demanded = facts.head.demands.guards.as_deref().unwrap_or(&[]);
    let fitted = facts.guards()?;
    Some(demanded.iter().copied().filter(|guard| !fitted.contains(guard)).collect())
}

/// The check. Protection against what falls or rolls is no window: a mulcher's window is not covered by it.
pub fn check(facts: &Facts) -> Check {
    let (id, class) = (CheckId::Guarding, Class::Safety);
    let result = |outcome, reason| yes_no(id, class, outcome, reason, &[]);
    match facts.guards_demanded() {
        // Its maker has only left it out.
        None if facts.head_kind().throws_far() => missing(id, class, &[FactId::GuardsDemanded]),
        // Nobody says, and little flies: it is asked before the hand-over.
        None => to_prove(id, class, &[FactId::GuardsDemanded]),
        Some(demanded) if demanded.is_empty() => result(Outcome::Met, Reason::NoGuardsDemanded),
        Some(_) => match lacking(facts) {
            None => missing(id, class, &[FactId::Guards]),
            Some(guards) if guards.is_empty() => result(Outcome::Met, Reason::GuardsFitted),
            Some(guards) => result(Outcome::NotMet, Reason::GuardsLacking { guards }),
        },
    }
}
