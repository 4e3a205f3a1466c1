//! The facts that a verdict waits for.

use crate::{Check, CheckId, FactId, FindOut, Outcome, Pairing};
use quantity::put_in_order_by;

/// How much a fact keeps from being said.
pub struct Waits {
    /// The fact.
    pub fact: FactId,
    /// The checks that name it, in their order.
    pub checks: Vec<CheckId>,
    /// How many of them it settles by itself.
    pub settles: usize,
}

/// The facts that the verdict waits for, the one that settles the most checks first; then the one that more of them name; then
/// in the order of the checks.
pub fn facts_in_the_way(pairing: &Pairing) -> Vec<Waits> {
    let mut all: Vec<Waits> = Vec::new();
    let open = |check: &&Check| check.blocks && check.outcome == Outcome::NotKnown;
    for check in pairing.open_checks().iter().filter(open) {
        for (place, missing) in check.missing.iter().enumerate() {
            let alone = check.missing.len() == 1 || place == 0 && missing.holds.is_some();
            match all.iter_mut().find(|waits| waits.fact == missing.fact) {
                Some(waits) => {
                    waits.settles += usize::from(alone);
                    waits.checks.push(check.id);
                }
                None => {
                    all.push(Waits { fact: missing.fact, checks: vec![check.id], settles: usize::from(alone) });
                }
            }
        }
    }
    put_in_order_by(&mut all, |waits| std::cmp::Reverse((waits.settles, waits.checks.len())));
    all
}

/// What the verdict of a pairing waits for, that which decides most first.
pub fn to_find_out(pairing: &Pairing) -> Vec<FindOut> {
    let all = facts_in_the_way(pairing).into_iter();
    all.map(|waits| FindOut::new(waits.fact, waits.checks, Vec::new())).collect()
}
