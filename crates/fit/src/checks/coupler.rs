//! The coupler between arm and head, and whether the head clears boom, cab and window when it is curled in.

use crate::facts::{Facts, known, limit};
use crate::judge::{missing, yes_no};
use crate::question::{Finding, Findings, Question, Reading};
use crate::sample::{End, Parameter, Sample};
use crate::{Bound, Cause, CheckId, Class, FactId, Outcome, Reason};
use quantity::{Fact, Mass, Quantity, Tolerance};

/// Capacity against the head with what it holds; and a lock that holds without its engaging force and shows that it has
/// locked (ISO 13031, secondary and from memory). A lock that only seems shut drops the tool: press it on the ground as well.
pub fn check<'f>(facts: &'f Facts) -> Findings<'f> {
    let id = CheckId::Coupler;
    let no_figures = |outcome, reason| yes_no(id, Class::Safety, outcome, reason, &[]);
    let coupler = match facts.coupler() {
        Ok(coupler) => coupler,
        Err(fact) => return missing(id, Class::Safety, &[fact]).into(),
    };
    if !coupler.fitted {
        return no_figures(Outcome::Met, Reason::NoCoupler).into();
    }
    let question = Question { id, class: Class::Safety, blocks: true, bound: Bound::AtMost };
    let carries = Parameter { physical_limits: (0.0, 1e5), ..limit(FactId::ToolCoupler, coupler.capacity.as_ref()) };
    let head = super::lift::mass(FactId::HeadMass, facts.head.mass.as_ref());
    let held = super::lift::payload(facts);
    let held = move |sample: &Sample| held.map_or(Mass::from_si(0.0), |held| sample.take(&held, End::High));
    let carried = question.asks(move |sample| {
        let hangs = sample.take(&head, End::High) + held(sample);
        Reading::new(hangs, sample.take(&carries, End::Low), Cause::CouplerWeak)
    });
    let lock = match facts.coupler_secured(coupler) {
        Some(true) => None,
        Some(false) => Some(no_figures(Outcome::NotMet, Reason::CouplerNotSecured)),
        None => Some(missing(id, Class::Safety, &[FactId::CouplerSecured])),
    };
    std::iter::once(carried).chain(lock.map(Finding::from)).collect()
}

/// Curled in, the head's farthest point against the free radius about the pin. Hardly anybody states either: a tape settles it with the
/// engine off, so that it stays open without holding up the verdict, and is proved before any work.
pub fn clearance<'f>(facts: &'f Facts) -> Finding<'f> {
    let question = Question { id: CheckId::Clearance, class: Class::Safety, blocks: false, bound: Bound::AtMost };
    let swings = known(facts.head.curl_radius.as_ref(), Tolerance::both(0.02)).unwrap_or(Fact::Missing);
    let swings = Parameter { physical_limits: (0.0, 20.0), ..Parameter::new(FactId::CurlRadius, swings) };
    let free = Parameter {
        physical_limits: (0.0, 20.0),
        ..limit(FactId::CurlClearance, facts.at_single_end_or_arm(facts.carrier.curl_clearance.as_ref()))
    };
    question.asks(move |sample| {
        Reading::new(sample.take(&swings, End::High), sample.take(&free, End::Low), Cause::SwingsIn)
    })
}
