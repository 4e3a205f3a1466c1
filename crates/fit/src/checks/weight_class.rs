//! The carrier's operating mass against the window that the head's maker names.

use crate::draw::Side;
use crate::facts::{Facts, limit};
use crate::judge::{Question, Reading, worst_of, yes_no};
use crate::{Bound, Cause, Check, CheckId, Class, FactId, Outcome, Reason};

/// The check.
pub fn check(facts: &Facts) -> Check {
    let window = &facts.head.carrier_mass;
    let mass = facts.operating_mass();
    let question = |bound| Question { id: CheckId::WeightClass, class: Class::Safety, blocks: true, bound };
    let mut questions = Vec::new();
    if let Some(least) = &window.least {
        let least = limit(FactId::CarrierMassWindow, Some(least));
        questions.push(question(Bound::AtLeast).judge(facts.depth, |draw| Reading {
            value: draw.take(&mass, Side::Low),
            limit: draw.take(&least, Side::High),
            because: Cause::TooLight,
        }));
    }
    if let Some(greatest) = &window.greatest {
        let greatest = limit(FactId::CarrierMassWindow, Some(greatest));
        questions.push(question(Bound::AtMost).judge(facts.depth, |draw| Reading {
            value: draw.take(&mass, Side::High),
            limit: draw.take(&greatest, Side::Low),
            because: Cause::TooHeavy,
        }));
    }
    // Without a least mass the machine may be too light to stand, without a greatest too heavy for the attachment.
    if window.least.is_none() || window.greatest.is_none() {
        let missing = [facts.lacks(FactId::CarrierMassWindow)];
        questions.push(yes_no(CheckId::WeightClass, Class::Safety, Outcome::NotKnown, Reason::FactMissing, &missing));
    }
    worst_of(questions)
}
