//! Torque with the drive held fast: what relief and displacement make of it, against what drive and machine hold.

use crate::circuit::Motor;
use crate::pairing::draw::{Draw, Side};
use crate::pairing::facts::{Facts, limit};
use crate::pairing::judge::{Question, Reading, plain, together};
use crate::pairing::reasoning::Besides;
use crate::pairing::{Because, Bound, Check, CheckId, Class, FactId, Outcome, Reason};
use crate::quantity::{Kind, Torque};
use crate::table::HeadKind;

/// `T = Δp·V/(2π·i)` at the relief's upper tolerance, without losses: what the drive's maker allows, and what slew brake or
/// lift arm hold. The machine's side is seldom stated: not known, it is tried at low pressure at the hand-over.
pub fn check(facts: &Facts) -> Check {
    let id = CheckId::TorqueLimit;
    if !matches!(facts.see_besides(Besides::HeadKind, facts.head.kind), HeadKind::Auger | HeadKind::Trencher) {
        return plain(id, Class::Safety, Outcome::Met, Reason::NoTorque, &[]);
    }
    let motor = facts.head.motor.as_ref();
    let of_drive = limit(FactId::TorqueLimit, motor.and_then(|motor| motor.torque_limit.as_ref()));
    let question = |blocks| Question { id, class: Class::Safety, blocks, bound: Bound::AtMost };
    let read = |draw: &Draw, holds: &crate::pairing::draw::Input<Torque>| Reading {
        value: held_fast(facts, draw),
        limit: draw.take(holds, Side::Low),
        because: Because::TorqueHigh,
    };
    let mut judged = vec![question(true).judge(facts.depth, |draw| read(draw, &of_drive))];
    if facts.head.kind == HeadKind::Auger {
        let of_machine = limit(FactId::ReactionTorque, facts.carrier.reaction_torque.as_ref());
        judged.push(question(false).judge(facts.depth, |draw| read(draw, &of_machine)));
    }
    together(judged)
}

/// No efficiency is credited: it can only take off.
fn held_fast(facts: &Facts, draw: &Draw) -> Torque {
    let motor = Motor {
        displacement: draw.take(&facts.displacement, Side::High),
        volumetric: 1.0,
        hydromechanical: 1.0,
        ratio: draw.take(&facts.ratio, Side::Low).si(),
    };
    motor.starting_torque(draw.take(&facts.protection, Side::High), 1.0, 1.0)
}
