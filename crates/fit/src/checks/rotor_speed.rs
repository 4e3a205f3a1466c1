//! Speed of the rotor at the greatest possible flow against its rated maximum: overspeed throws a rotor apart.
//!
//! The worst speed takes no credit from anything assumed: no leakage in pump or motor (η_v = 1), no load.

use crate::draw::{Corner, Side};
use crate::facts::{Extreme, Facts};
use crate::judge::{Question, Reading, yes_no};
use crate::{Bound, Cause, Check, CheckId, Class, Outcome, Reason};
use hydraulics::Motor;
use quantity::{Kind, ThermodynamicTemperature};

/// The check.
pub fn check(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    if !facts.has_rotor() {
        return yes_no(CheckId::RotorSpeed, Class::Safety, Outcome::Met, Reason::NoRotor, &[]);
    }
    let greatest = facts.rotor_limit();
    let question = Question { id: CheckId::RotorSpeed, class: Class::Safety, blocks: true, bound: Bound::AtMost };
    question.judge(facts.depth, |draw| {
        let nominal = draw.corner == Corner::Likely;
        // Anywhere in the box the circuit is solved: nothing in it must beat what takes no credit.
        #[cfg(test)]
        let (nominal, anywhere) = (nominal || draw.corner.anywhere("").is_some(), draw.corner.anywhere("").is_some());
        #[cfg(not(test))]
        let anywhere = false;
        let flow = if nominal {
            super::flow_window::greatest_flow(
                facts,
                draw,
                if anywhere { Extreme::MostFlow } else { Extreme::LeastFlow },
                warm,
            )
        } else {
            facts.unhindered_flow(draw)
        };
        let motor = Motor {
            displacement: draw.take(&facts.displacement, Side::Low),
            volumetric: if nominal { draw.take(&facts.volumetric, Side::High).si() } else { 1.0 },
            hydromechanical: 1.0,
            ratio: draw.take(&facts.ratio, Side::High).si(),
        };
        Reading { value: motor.rotor_speed(flow), limit: draw.take(&greatest, Side::Low), because: Cause::FlowHigh }
    })
}
