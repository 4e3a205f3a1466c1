//! One figure a measurement, as far as there is one: in SI, for arithmetic over all of them.

use super::Measurement;
use quantity::{Amount, Named, Quantity};

/// How many measurements there are.
pub(super) const COUNT: usize = Measurement::ALL.len();

/// A figure for each measurement that has one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Reads([Option<f64>; COUNT]);

impl Default for Reads {
    fn default() -> Self {
        Self([None; COUNT])
    }
}

impl Reads {
    /// Puts down a figure; what is no number is none.
    pub fn put<Q: Quantity>(&mut self, what: Measurement, value: Option<Q>) {
        self.0[what as usize] = value.map(Quantity::si).filter(|value| value.is_finite());
    }

    /// Puts down what somebody read, where it measures what it should and is a number that a machine may show.
    pub fn put_amount(&mut self, what: Measurement, value: Amount) {
        let sound = value.dimension() == what.dimension() && value.si().is_finite() && value.si().abs() < 1e12;
        if sound {
            self.0[what as usize] = Some(value.si());
        }
    }

    /// The figure of a measurement.
    pub fn get(&self, what: Measurement) -> Option<f64> {
        self.0[what as usize]
    }

    /// The figure as an amount.
    pub fn amount(&self, what: Measurement) -> Option<Amount> {
        self.get(what).map(|si| Amount::from_si(what.dimension(), si))
    }
}
