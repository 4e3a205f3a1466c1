//! What several changes take together.

use crate::{Change, Pairing, Price};
use serde::Serialize;
use table::Money;

/// What all changes take.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Total {
    /// Workshop minutes.
    pub minutes: u32,
    /// Parts and labour of what has a price; none where nothing has.
    pub price: Option<Price>,
    /// Whether something has no price, so that it is "from".
    pub from: bool,
}

impl Total {
    /// Of a pairing.
    pub fn of(pairing: &Pairing) -> Self {
        Self::of_changes(pairing.changes.iter())
    }

    /// Of some changes.
    pub fn of_changes<'c>(changes: impl Iterator<Item = &'c Change> + Clone) -> Self {
        let priced: Vec<_> = changes.clone().filter_map(|change| change.price.as_ref()).collect();
        let minor = priced.iter().map(|price| price.amount.minor()).sum();
        let price = priced.first().map(|first| Price { amount: Money::from_minor(minor), ..(*first).clone() });
        let (minutes, count) = (changes.clone().map(|change| change.minutes).sum(), changes.count());
        Self { minutes, price, from: priced.len() < count }
    }
}
