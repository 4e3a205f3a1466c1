//! Torque with the drive stalled: what relief and displacement make of it, against what drive and machine hold.

use crate::draw::{Corner, Draw, Parameter, Side};
use crate::facts::{Facts, limit};
use crate::judge::{Question, Reading, worst_of, yes_no};
use crate::trace::Context;
use crate::{Bound, Cause, Check, CheckId, Class, FactId, Outcome, Reason};
use hydraulics::Motor;
use quantity::{Kind, Torque};
use table::{AssumptionId, HeadKind};

/// `T = Δp·V/(2π·i)` at the relief's upper tolerance, without losses: what the drive's maker allows (auger and trencher), and what
/// slew brake or lift arm hold (saw too).
pub fn check(facts: &Facts) -> Check {
    let id = CheckId::TorqueLimit;
    let kind = facts.see_context(Context::HeadKind, facts.head.kind);
    if !matches!(kind, HeadKind::Auger | HeadKind::Trencher | HeadKind::Saw) {
        return yes_no(id, Class::Safety, Outcome::Met, Reason::NoTorque, &[]);
    }
    let mut judged = Vec::new();
    if kind != HeadKind::Saw {
        let motor = facts.head.motor.as_ref();
        let of_drive = limit(FactId::TorqueLimit, motor.and_then(|motor| motor.torque_limit.as_ref()));
        judged.push(question(true).judge(facts.depth, |draw| read(facts, draw, &of_drive)));
    }
    judged.push(of_machine(facts));
    worst_of(judged)
}

/// A machine seldom states what it holds. Where even the weakest of its class surely holds the torque, it stays open without holding
/// up the verdict: it is tried at low pressure before work. Above that the verdict waits for the figure.
fn of_machine(facts: &Facts) -> Check {
    let stated = facts.at_single_end_or_arm(facts.carrier.reaction_torque.as_ref());
    if stated.is_some() {
        let holds = limit(FactId::ReactionTorque, stated);
        return question(true).judge(facts.depth, |draw| read(facts, draw, &holds));
    }
    let range = facts.practice.range(AssumptionId::ReactionTorque);
    let usual = Parameter::or_assumed(FactId::ReactionTorque, None, AssumptionId::ReactionTorque, range);
    let unknown = limit(FactId::ReactionTorque, None);
    question(!surely_held(facts, &usual)).judge(facts.depth, |draw| {
        // Named as what the answer leans on; what a class holds is never a yes, and no certain no.
        draw.take(&usual, Side::Low);
        read(facts, draw, &unknown)
    })
}

/// Whether the torque is known, and no more than every machine of the class holds.
fn surely_held(facts: &Facts, usual: &Parameter<Torque>) -> bool {
    let draw = Draw::new(Corner::Worst);
    let held = stalled(facts, &draw);
    draw.missing().is_empty() && draw.assumed().is_empty() && held <= draw.take(usual, Side::Low)
}

fn question(blocks: bool) -> Question {
    Question { id: CheckId::TorqueLimit, class: Class::Safety, blocks, bound: Bound::AtMost }
}

fn read(facts: &Facts, draw: &Draw, holds: &Parameter<Torque>) -> Reading<Torque> {
    Reading { value: stalled(facts, draw), limit: draw.take(holds, Side::Low), because: Cause::TorqueHigh }
}

/// No efficiency is credited: it can only take off.
fn stalled(facts: &Facts, draw: &Draw) -> Torque {
    let motor = Motor {
        displacement: draw.take(&facts.displacement, Side::High),
        volumetric: 1.0,
        hydromechanical: 1.0,
        ratio: draw.take(&facts.ratio, Side::Low).si(),
    };
    motor.starting_torque(draw.take(&facts.protection, Side::High), 1.0, 1.0)
}
