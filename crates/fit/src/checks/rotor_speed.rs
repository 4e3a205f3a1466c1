//! Speed of the rotor at the greatest possible flow against its rated maximum: overspeed throws a rotor apart.
//!
//! The worst speed takes no credit from anything assumed: no leakage in pump or motor (η_v = 1), no load.

use super::flow_window::greatest_flow;
use crate::facts::{Extreme, Facts};
use crate::judge::yes_no;
use crate::question::{Finding, Question, Reading};
use crate::sample::End;
use crate::{Bound, Cause, CheckId, Class, Outcome, Reason};
use hydraulics::Motor;
use quantity::{Quantity, ThermodynamicTemperature};

/// The check.
pub fn check<'f>(facts: &'f Facts, warm: ThermodynamicTemperature) -> Finding<'f> {
    if !facts.has_rotor() {
        return yes_no(CheckId::RotorSpeed, Class::Safety, Outcome::Met, Reason::NoRotor, &[]).into();
    }
    let greatest = facts.rotor_limit();
    let question = Question { id: CheckId::RotorSpeed, class: Class::Safety, blocks: true, bound: Bound::AtMost };
    question.asks(move |sample| {
        let (flow, volumetric) = if sample.is_likely() {
            let flow = greatest_flow(facts, sample, Extreme::LeastFlow, warm);
            (flow, None)
        } else {
            (facts.unhindered_flow(sample), Some(1.0))
        };
        let motor = Motor {
            displacement: sample.take(&facts.displacement, End::Low),
            volumetric: volumetric.unwrap_or_else(|| sample.take(&facts.volumetric, End::High).si()),
            hydromechanical: 1.0,
            ratio: sample.take(&facts.ratio, End::High).si(),
        };
        Reading::new(motor.rotor_speed(flow), sample.take(&greatest, End::Low), Cause::FlowHigh)
    })
}
