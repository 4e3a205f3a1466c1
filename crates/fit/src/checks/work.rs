//! What is to be worked, and how fast the machine must creep for it.

use crate::draw::{Parameter, Side};
use crate::facts::{Facts, limit};
use crate::judge::{Question, Reading, to_prove, worst_of, yes_no};
use crate::trace::{Context, Counted, Ends};
use crate::{Bound, Cause, Check, CheckId, Class, FactId, Outcome, Reason, Takes, takes};
use quantity::Amount;
use table::HeadKind;

/// Material and greatest diameter that somebody named against what the head's maker names. Nothing named, nothing judged.
pub fn check(facts: &Facts) -> Check {
    let id = CheckId::Work;
    let result = |outcome, reason| yes_no(id, Class::Work, outcome, reason, &[]);
    facts.see_context(Context::WorkNamed, facts.conditions.work.as_ref().map(|work| work.material.clone()));
    let Some(asked) = &facts.conditions.work else { return result(Outcome::Met, Reason::NoWorkNamed) };
    let materials = &facts.head.work.materials;
    facts.see(FactId::HeadWork, (!materials.is_empty()).then_some(Counted(materials.len())));
    let greatest = match takes(materials, &asked.material) {
        Takes::Unsaid => return to_prove(id, Class::Work, &[FactId::HeadWork]),
        Takes::Others => return result(Outcome::NotMet, Reason::MaterialNotNamed),
        Takes::Named(greatest) => greatest,
    };
    let Some(thickness) = asked.thickness else { return result(Outcome::Met, Reason::WorkNamed) };
    let takes = Parameter { physical_limits: (0.0, 100.0), ..limit(FactId::HeadWork, greatest) };
    let question = Question { id, class: Class::Work, blocks: false, bound: Bound::AtMost };
    question.judge(facts.depth, |draw| Reading {
        value: thickness,
        limit: draw.take(&takes, Side::Low),
        because: Cause::TooThick,
    })
}

/// Heads that work while the machine creeps need its travel speed in their window at full engine speed. It hurts nobody and
/// shows in the first metres.
pub fn creep_speed(facts: &Facts) -> Check {
    let id = CheckId::CreepSpeed;
    let window = &facts.head.creep_speed;
    let creeps = matches!(
        facts.see_context(Context::HeadKind, facts.head.kind),
        HeadKind::Trencher | HeadKind::ColdPlaner | HeadKind::SnowBlower | HeadKind::Sweeper
    );
    // An excavator stands while it digs a trench.
    let named = window.least.is_some() || window.greatest.is_some();
    facts.see_context(Context::CreepWindow, window.least.or(window.greatest));
    facts.see_context(Context::CarrierClass, facts.carrier.class);
    if !creeps || !named || facts.carrier.class.is_excavator() {
        return yes_no(id, Class::Work, Outcome::Met, Reason::NoCreepAsked, &[]);
    }
    let Some(travel) = facts.carrier.travel_speed else {
        return to_prove(id, Class::Work, &[facts.lacks(FactId::TravelSpeed)]);
    };
    facts.see(FactId::TravelSpeed, Ends(Amount::of(travel.low), Amount::of(travel.high)));
    let question = |bound| Question { id, class: Class::Work, blocks: false, bound };
    let because = Cause::TravelDiffers;
    let slow_enough = window.greatest.map(|most| {
        let reading = Reading { value: travel.low, limit: most.nominal, because };
        question(Bound::AtMost).judge(facts.depth, move |_| reading)
    });
    let fast_enough = window.least.map(|least| {
        let reading = Reading { value: travel.high, limit: least.nominal, because };
        question(Bound::AtLeast).judge(facts.depth, move |_| reading)
    });
    worst_of(slow_enough.into_iter().chain(fast_enough).collect())
}
