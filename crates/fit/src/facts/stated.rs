//! Facts from what is stated, with the tolerance of practice.

use crate::FactId;
use crate::assume::Practice;
use crate::parameter::Parameter;
use quantity::{Fact, Interval, Quantity, Ratio, Stated, Tolerance};
use table::{AssumptionId, Carrier};

/// A known fact from a stated figure with its tolerance of practice.
#[inline]
pub fn known<Q: Quantity>(stated: Option<&Stated<Q>>, practice: Tolerance) -> Option<Fact<Q>> {
    stated.map(|s| Fact::Known(s.interval(practice), s.said(practice)))
}

/// A limit that a maker names: no tolerance but a stated one.
#[inline]
pub fn limit<Q: Quantity>(id: FactId, stated: Option<&Stated<Q>>) -> Parameter<Q> {
    Parameter::new(id, known(stated, Tolerance::NONE).unwrap_or(Fact::Missing))
}

/// A fact of which, when nobody states it, an entry that stands for a class assumes what machines of the class have. Of
/// a machine with a name it is missing: the machine may be unlike its class.
pub fn of_class<Q: Quantity>(
    id: FactId,
    stated: Option<Fact<Q>>,
    assumption: AssumptionId,
    carrier: &Carrier,
    practice: &Practice,
) -> Parameter<Q> {
    let range = carrier.generic.then(|| practice.range(assumption)).flatten();
    Parameter::or_assumed(id, stated, assumption, range)
}

pub fn share(value: f64) -> Ratio {
    Ratio::from_si(value)
}

pub fn at_most_one(fact: Fact<Ratio>) -> Fact<Ratio> {
    match fact {
        Fact::Known(interval, source) => Fact::Known(interval_to_one(interval), source),
        other => other,
    }
}

/// An efficiency: by nature no more than one.
pub fn interval_to_one(interval: Interval<Ratio>) -> Interval<Ratio> {
    interval.map(|ratio| if ratio > share(1.0) { share(1.0) } else { ratio })
}
