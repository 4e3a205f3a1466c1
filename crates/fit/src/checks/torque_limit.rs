//! Torque with the drive stalled: what relief and displacement make of it, against what drive and machine hold.

use crate::facts::{Facts, limit};
use crate::judge::yes_no;
use crate::question::{Finding, Findings, Question, Reading};
use crate::sample::{Corner, End, Parameter, Sample};
use crate::{Bound, Cause, CheckId, Class, FactId, Outcome, Reason};
use hydraulics::Motor;
use quantity::{Quantity, Torque};
use table::{AssumptionId, HeadKind};

/// `T = Δp·V/(2π·i)` at the relief's upper tolerance, without losses: what the drive's maker allows (auger and trencher), and what
/// slew brake or lift arm hold (saw too).
pub fn check<'f>(facts: &'f Facts) -> Findings<'f> {
    let kind = facts.head_kind();
    if !matches!(kind, HeadKind::Auger | HeadKind::Trencher | HeadKind::Saw) {
        return yes_no(CheckId::TorqueLimit, Class::Safety, Outcome::Met, Reason::NoTorque, &[]).into();
    }
    let mut findings = Findings::new();
    if kind != HeadKind::Saw {
        let motor = facts.head.motor.as_ref();
        let of_drive = limit(FactId::TorqueLimit, motor.and_then(|motor| motor.torque_limit.as_ref()));
        findings.push(question(true).asks(move |sample| read(facts, sample, &of_drive)));
    }
    findings.push(of_machine(facts));
    findings
}

/// A machine seldom states what it holds. Where even the weakest of its class surely holds the torque, it stays open without holding
/// up the verdict: it is tried at low pressure before work. Above that the verdict waits for the figure.
fn of_machine<'f>(facts: &'f Facts) -> Finding<'f> {
    let stated = facts.at_single_end_or_arm(facts.carrier.reaction_torque.as_ref());
    if stated.is_some() {
        let holds = limit(FactId::ReactionTorque, stated);
        return question(true).asks(move |sample| read(facts, sample, &holds));
    }
    let range = facts.practice.range(AssumptionId::ReactionTorque);
    let usual = Parameter::or_assumed(FactId::ReactionTorque, None, AssumptionId::ReactionTorque, range);
    let unknown = limit(FactId::ReactionTorque, None);
    question(!surely_held(facts, &usual)).asks(move |sample| {
        // Named as what the answer leans on; what a class holds is never a yes, and no certain no.
        sample.take(&usual, End::Low);
        read(facts, sample, &unknown)
    })
}

/// Whether the torque is known, and no more than every machine of the class holds.
fn surely_held(facts: &Facts, usual: &Parameter<Torque>) -> bool {
    let sample = Sample::new(Corner::Worst);
    let held = stalled(facts, &sample);
    sample.missing().is_empty() && sample.assumed().is_empty() && held <= sample.take(usual, End::Low)
}

fn question(blocks: bool) -> Question {
    Question { id: CheckId::TorqueLimit, class: Class::Safety, blocks, bound: Bound::AtMost }
}

fn read(facts: &Facts, sample: &Sample, holds: &Parameter<Torque>) -> Reading {
    Reading::new(stalled(facts, sample), sample.take(holds, End::Low), Cause::TorqueHigh)
}

/// No efficiency is credited: it can only take off.
fn stalled(facts: &Facts, sample: &Sample) -> Torque {
    let motor = Motor {
        displacement: sample.take(&facts.displacement, End::High),
        volumetric: 1.0,
        hydromechanical: 1.0,
        ratio: sample.take(&facts.ratio, End::Low).si(),
    };
    motor.starting_torque(sample.take(&facts.protection, End::High), 1.0, 1.0)
}
