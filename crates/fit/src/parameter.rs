//! Facts with their names, and how they are drawn.

use crate::FactId;
use crate::trace::Aspect;
use quantity::{Fact, Interval, Kind};
use table::AssumptionId;

/// A fact with its name, for drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parameter<Q> {
    /// Which fact.
    pub id: FactId,
    /// Which practice it rests on when assumed.
    pub assumption: Option<AssumptionId>,
    /// Which figure of the fact it is.
    pub aspect: Aspect,
    /// What is known.
    pub fact: Fact<Q>,
    /// Between which bounds it must lie by nature, whatever anybody says (in SI); used only to see whether a check
    /// would fail even at its best.
    pub physical_limits: (f64, f64),
}

impl<Q: Kind> Parameter<Q> {
    /// A fact that is known or missing, without bounds of nature but zero and a very large number.
    pub fn new(id: FactId, fact: Fact<Q>) -> Self {
        Self { id, assumption: None, aspect: Aspect::Itself, fact, physical_limits: (0.0, 1e12) }
    }

    /// A stated fact, else the range of practice, else missing.
    pub fn or_assumed(
        id: FactId,
        known: Option<Fact<Q>>,
        assumption: AssumptionId,
        range: Option<Interval<Q>>,
    ) -> Self {
        let input = match (known, range) {
            (Some(fact), _) => Self::new(id, fact),
            (None, Some(range)) => Self { assumption: Some(assumption), ..Self::new(id, Fact::Assumed(range)) },
            (None, None) => Self::new(id, Fact::Missing),
        };
        input.as_aspect(Aspect::Like(assumption))
    }

    /// This fact, named as one of several figures of it.
    #[must_use]
    pub fn as_aspect(self, aspect: Aspect) -> Self {
        Self { aspect, ..self }
    }
}

/// Which end of a fact makes a value worse.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The low end.
    Low,
    /// The high end.
    High,
}

impl Side {
    /// The other end.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Low => Self::High,
            Self::High => Self::Low,
        }
    }
}

/// How facts are drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Corner {
    /// Everything at its likeliest.
    Likely,
    /// Known and assumed facts at their worst.
    Worst,
    /// Known facts at their worst, assumed and missing ones at their best.
    Best,
    /// Like `Worst`, with one assumed or missing fact at its best.
    OneBest(FactId),
    /// Like `Worst`, with one fact at a given value (SI).
    OneAt(FactId, f64),
    /// Every fact anywhere in its interval, by a seed: what a corner must never be better than.
    #[cfg(test)]
    Anywhere(u64),
}

impl Corner {
    /// Whether a draw in it is not made again: one of many values is tried.
    pub fn is_asked_once(self) -> bool {
        match self {
            Self::OneAt(..) => true,
            #[cfg(test)]
            Self::Anywhere(_) => true,
            _ => false,
        }
    }
}

#[cfg(test)]
impl Corner {
    /// A share between 0 and 1 by the seed and a key, always the same for the same; none in other stances.
    pub fn anywhere(self, key: impl std::hash::Hash) -> Option<f64> {
        use std::hash::{DefaultHasher, Hasher};
        let Self::Anywhere(seed) = self else { return None };
        let mut hasher = DefaultHasher::new();
        hasher.write_u64(seed);
        key.hash(&mut hasher);
        Some((hasher.finish() >> 11) as f64 / (1u64 << 53) as f64)
    }
}
