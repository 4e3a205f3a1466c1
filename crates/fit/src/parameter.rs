//! Facts with their names.

use crate::FactId;
use crate::trace::Aspect;
use quantity::{Fact, Interval, Quantity};
use table::AssumptionId;

/// A fact with its name.
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

impl<Q: Quantity> Parameter<Q> {
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
