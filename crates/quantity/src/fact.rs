//! Intervals, and facts that are known, assumed or missing.

use super::{Provenance, Quantity, Tolerance};

/// A value with what it may be at the least and at the most: `low ≤ nominal ≤ high`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval<Q> {
    /// The least possible value.
    pub low: Q,
    /// The likeliest value.
    pub nominal: Q,
    /// The greatest possible value.
    pub high: Q,
}

impl<Q: Quantity> Interval<Q> {
    /// A value known without spread.
    pub fn exact(value: Q) -> Self {
        Self { low: value, nominal: value, high: value }
    }

    /// A value with shares of it to both sides.
    pub fn around(nominal: Q, tolerance: Tolerance) -> Self {
        let si = nominal.si();
        Self { low: Q::from_si(si * (1.0 - tolerance.minus)), nominal, high: Q::from_si(si * (1.0 + tolerance.plus)) }
    }
}

impl<T> Interval<T> {
    /// Passes each value of the interval through a rising function.
    pub fn map<R>(self, rising: impl Fn(T) -> R) -> Interval<R> {
        Interval { low: rising(self.low), nominal: rising(self.nominal), high: rising(self.high) }
    }
}

/// Something the answer rests on: known, assumed from practice, or missing. Missing is never zero and never yes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fact<Q> {
    /// Stated by somebody.
    Known(Interval<Q>, Provenance),
    /// A typical range of practice.
    Assumed(Interval<Q>),
    /// Nobody says, and practice gives no range.
    Missing,
}

impl<Q: Quantity> Fact<Q> {
    /// The interval, when there is one.
    pub fn interval(&self) -> Option<Interval<Q>> {
        match self {
            Self::Known(interval, _) | Self::Assumed(interval) => Some(*interval),
            Self::Missing => None,
        }
    }

    /// Whether it was stated by somebody.
    pub fn is_known(&self) -> bool {
        matches!(self, Self::Known(..))
    }
}
