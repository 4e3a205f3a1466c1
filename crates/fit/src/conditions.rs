//! Under which conditions a pairing is judged: oil temperatures, and the shop that makes the changes.

use quantity::shop::celsius;
use quantity::{Length, ThermodynamicTemperature};
use table::{Assumption, Currency, Money, Part, Table};

/// What a customer wants to work.
#[derive(Clone, Debug, PartialEq)]
pub struct WorkAsked {
    /// The material, by the name that tables use.
    pub material: String,
    /// Its greatest diameter or thickness, when named.
    pub thickness: Option<Length>,
}

/// Oil temperatures and the dealer's shop.
#[derive(Clone, Debug, PartialEq)]
pub struct Conditions {
    /// Oil at the start; 0 °C unless chosen.
    pub cold: ThermodynamicTemperature,
    /// The coldest day on which it is to be started, when somebody sets one.
    pub coldest_start: Option<ThermodynamicTemperature>,
    /// Oil at work; 60 °C unless chosen.
    pub working: ThermodynamicTemperature,
    /// Oil at its hottest; 80 °C unless chosen.
    pub hot: ThermodynamicTemperature,
    /// Air around the machine; 30 °C unless chosen.
    pub ambient: ThermodynamicTemperature,
    /// What is to be worked, when somebody named it.
    pub work: Option<WorkAsked>,
    /// Parts with their prices and hours.
    pub parts: Vec<Part>,
    /// What an hour in the workshop costs.
    pub labour_rate: Option<Money>,
    /// The currency of both.
    pub currency: Option<Currency>,
    /// Typical ranges that replace the built-in ones.
    pub assumptions: Vec<Assumption>,
}

impl Default for Conditions {
    fn default() -> Self {
        Self {
            cold: celsius(0.0),
            coldest_start: None,
            working: celsius(60.0),
            hot: celsius(80.0),
            ambient: celsius(30.0),
            work: None,
            parts: Vec::new(),
            labour_rate: None,
            currency: None,
            assumptions: Vec::new(),
        }
    }
}

impl Conditions {
    /// The usual temperatures with the shop of this table.
    pub fn of_table(table: &Table) -> Self {
        Self {
            parts: table.parts.clone(),
            labour_rate: table.labour_rate,
            currency: table.currency,
            assumptions: table.assumptions.clone(),
            ..Self::default()
        }
    }
}
