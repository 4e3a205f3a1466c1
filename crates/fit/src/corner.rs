//! Where in the box of everything that is known, assumed and missing a sample lies: in one of its corners, or wherever another
//! [`Sampler`] puts it.

use crate::FactId;
use hydraulics::Element;
use quantity::{Interval, Quantity, ThermodynamicTemperature};
use std::fmt::Debug;

/// An end of what a parameter may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// The low end.
    Low,
    /// The high end.
    High,
}

impl End {
    /// The other end.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Low => Self::High,
            Self::High => Self::Low,
        }
    }
}

/// How sure a parameter is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Certainty {
    /// Somebody states it.
    Known,
    /// A range of practice stands in.
    Assumed,
    /// Nobody states it, and it may be whatever nature allows.
    Missing,
}

/// A place in the span of a parameter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum InSpan {
    /// Its likeliest value.
    Likely,
    /// One of its ends.
    At(End),
    /// This share of the way from its low end to its high one.
    Between(f64),
}

impl InSpan {
    /// The value there.
    #[inline]
    pub fn of<Q: Quantity>(self, span: Interval<Q>) -> Q {
        match self {
            Self::Likely => span.nominal,
            Self::At(End::Low) => span.low,
            Self::At(End::High) => span.high,
            Self::Between(share) => Q::from_si(span.low.si() + share * (span.high.si() - span.low.si())),
        }
    }
}

/// Says which value of every parameter, and which state of oil, engine and filter, a sample has.
pub trait Sampler: Debug {
    /// Where in its span a parameter lies when `worse` is the end that makes the answer worse; of a missing one, in what nature
    /// allows. Of several figures of a fact the low end (SI) tells which.
    fn place(&self, id: FactId, certainty: Certainty, low: f64, worse: End) -> InSpan;

    /// Whether it bounds all states of the oil from warm enough to its hottest, rather than being one of them.
    fn bounds_oil(&self) -> bool;

    /// The oil's temperature, from warm enough over that at work to its hottest.
    fn temperature(&self, span: Interval<ThermodynamicTemperature>) -> ThermodynamicTemperature;

    /// The engine's speed over its working speed where it may run up to a ratio.
    fn engine(&self, runs_up_to: f64) -> f64;

    /// The state of a filter's element when `worse` says whether high or low losses make the answer worse.
    fn element(&self, worse: End) -> Element;

    /// Whether what the motor leaks into its case line is taken from the return.
    fn credits_drain(&self) -> bool;
}

/// A corner of the box.
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
}

impl Sampler for Corner {
    #[inline]
    fn place(&self, id: FactId, certainty: Certainty, _: f64, worse: End) -> InSpan {
        let at_best = *self == Self::Best || *self == Self::OneBest(id);
        match self {
            // Nothing is likely of what is missing.
            Self::Likely if certainty != Certainty::Missing => InSpan::Likely,
            _ if at_best && certainty != Certainty::Known => InSpan::At(worse.other()),
            _ => InSpan::At(worse),
        }
    }

    fn bounds_oil(&self) -> bool {
        *self != Self::Likely
    }

    fn temperature(&self, span: Interval<ThermodynamicTemperature>) -> ThermodynamicTemperature {
        if self.bounds_oil() { span.low } else { span.nominal }
    }

    fn engine(&self, runs_up_to: f64) -> f64 {
        runs_up_to
    }

    fn element(&self, worse: End) -> Element {
        if *self != Self::Likely && worse == End::High { Element::Blocked } else { Element::Clean }
    }

    fn credits_drain(&self) -> bool {
        *self == Self::Likely
    }
}
