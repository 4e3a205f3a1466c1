//! What is to be worked, and how fast the machine must creep for it.

use crate::facts::{Facts, limit};
use crate::judge::{to_prove, yes_no};
use crate::question::{Finding, Findings, Question, Reading};
use crate::sample::{End, Parameter};
use crate::{Bound, Cause, CheckId, Class, FactId, Outcome, Reason, Takes, takes};
use table::HeadKind;

/// Material and greatest diameter that somebody named against what the head's maker names. Nothing named, nothing judged.
pub fn check<'f>(facts: &'f Facts) -> Finding<'f> {
    let id = CheckId::Work;
    let result = |outcome, reason| yes_no(id, Class::Work, outcome, reason, &[]).into();
    let Some(asked) = facts.work_named() else { return result(Outcome::Met, Reason::NoWorkNamed) };
    let greatest = match takes(facts.materials(), &asked.material) {
        Takes::Unsaid => return to_prove(id, Class::Work, &[FactId::HeadWork]).into(),
        Takes::Others => return result(Outcome::NotMet, Reason::MaterialNotNamed),
        Takes::Named(greatest) => greatest,
    };
    let Some(thickness) = asked.thickness else { return result(Outcome::Met, Reason::WorkNamed) };
    let takes = Parameter { physical_limits: (0.0, 100.0), ..limit(FactId::HeadWork, greatest) };
    let question = Question { id, class: Class::Work, blocks: false, bound: Bound::AtMost };
    question.asks(move |sample| Reading::new(thickness, sample.take(&takes, End::Low), Cause::TooThick))
}

/// Heads that work while the machine creeps need its travel speed in their window at full engine speed. It hurts nobody and
/// shows in the first metres.
pub fn creep_speed<'f>(facts: &Facts) -> Findings<'f> {
    let id = CheckId::CreepSpeed;
    let window = &facts.head.creep_speed;
    let creeps = matches!(
        facts.head_kind(),
        HeadKind::Trencher | HeadKind::ColdPlaner | HeadKind::SnowBlower | HeadKind::Sweeper
    );
    // An excavator stands while it digs a trench.
    let named = facts.creep_window().is_some();
    if facts.carrier_class().is_excavator() || !creeps || !named {
        return yes_no(id, Class::Work, Outcome::Met, Reason::NoCreepAsked, &[]).into();
    }
    let Some(travel) = facts.travel_speed() else {
        return to_prove(id, Class::Work, &[FactId::TravelSpeed]).into();
    };
    let question = |bound| Question { id, class: Class::Work, blocks: false, bound };
    let because = Cause::TravelDiffers;
    let slow_enough =
        window.greatest.map(|most| question(Bound::AtMost).settled(Reading::new(travel.low, most.nominal, because)));
    let fast_enough =
        window.least.map(|least| question(Bound::AtLeast).settled(Reading::new(travel.high, least.nominal, because)));
    slow_enough.into_iter().chain(fast_enough).map(Finding::from).collect()
}
