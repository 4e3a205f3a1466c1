//! The change list: what is done in working order, what each part must be, between which points it goes, and what it takes.

use super::parts::Parts;
use super::{End, Place, Requirement};
use fit::changes::labour;
use fit::{Change, Conditions, Pairing, Price, Total};
use serde::Serialize;
use table::{Carrier, Head, Money, Part};

/// What is to be done.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChangeList {
    /// The changes, in working order.
    pub lines: Vec<ChangeLine>,
    /// What they take together.
    pub total: Total,
}

/// One change.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChangeLine {
    /// The change as judged.
    pub change: Change,
    /// The chosen part of the table's list.
    pub part: Option<Part>,
    /// What of its price is for parts; none where it has no price.
    pub parts: Option<Price>,
    /// What of its price is for labour; none where it has no price.
    pub labour: Option<Price>,
    /// What its part must be.
    pub must_be: Vec<Requirement>,
    /// Between which points it goes.
    pub between: Option<(End, End)>,
}

impl ChangeList {
    pub(super) fn of(pairing: &Pairing, carrier: &Carrier, head: &Head, conditions: &Conditions) -> Self {
        let changed = pairing.changed.as_deref().unwrap_or(carrier);
        let after = Place::of(pairing, changed).or_else(|| {
            // A machine that states no circuit is judged with one of which nothing is known.
            changed.circuits.first().map(|circuit| Place { carrier: changed, circuit })
        });
        let lines = pairing.changes.iter().map(|change| {
            let named = change.part.as_ref().and_then(|id| conditions.parts.iter().find(|part| part.id == *id));
            let (must_be, between) = after.map_or((Vec::new(), None), |after| {
                let part = Parts { before: carrier, after, head, conditions };
                (part.must_be(change), part.between(change.id))
            });
            let (parts, labour) = shared(change, conditions).unzip();
            ChangeLine { change: change.clone(), part: named.cloned(), parts, labour, must_be, between }
        });
        Self { lines: lines.collect(), total: Total::of(pairing) }
    }
}

/// What of a change's price is for parts and what for labour.
fn shared(change: &Change, conditions: &Conditions) -> Option<(Price, Price)> {
    let whole = change.price.as_ref()?;
    let labour = labour(conditions.labour_rate, change.minutes)?.min(whole.amount.minor());
    let of = |minor| Price { amount: Money::from_minor(minor), currency: whole.currency.clone() };
    Some((of(whole.amount.minor() - labour), of(labour)))
}
