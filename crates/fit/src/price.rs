//! Money.

use serde::Serialize;
use table::Money;

/// An amount of money with its currency.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Price {
    /// How much.
    pub amount: Money,
    /// The ISO 4217 code.
    pub currency: String,
}
