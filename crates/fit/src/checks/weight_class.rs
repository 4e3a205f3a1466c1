//! The carrier's operating mass against the window that the head's maker names.

use crate::facts::{Facts, limit};
use crate::judge::missing;
use crate::question::{Findings, Question, Reading};
use crate::sample::End;
use crate::{Bound, Cause, CheckId, Class, FactId};

/// The check.
pub fn check<'f>(facts: &Facts) -> Findings<'f> {
    let window = facts.carrier_mass_window();
    let mass = facts.operating_mass();
    let question = |bound| Question { id: CheckId::WeightClass, class: Class::Safety, blocks: true, bound };
    let mut findings = Findings::new();
    if let Some(least) = &window.least {
        let least = limit(FactId::CarrierMassWindow, Some(least));
        findings.push(question(Bound::AtLeast).asks(move |sample| {
            Reading::new(sample.take(&mass, End::Low), sample.take(&least, End::High), Cause::TooLight)
        }));
    }
    if let Some(greatest) = &window.greatest {
        let greatest = limit(FactId::CarrierMassWindow, Some(greatest));
        findings.push(question(Bound::AtMost).asks(move |sample| {
            Reading::new(sample.take(&mass, End::High), sample.take(&greatest, End::Low), Cause::TooHeavy)
        }));
    }
    // Without a least mass the machine may be too light to stand, without a greatest too heavy for the attachment.
    if window.least.is_none() || window.greatest.is_none() {
        findings.push(missing(CheckId::WeightClass, Class::Safety, &[FactId::CarrierMassWindow]).into());
    }
    findings
}
