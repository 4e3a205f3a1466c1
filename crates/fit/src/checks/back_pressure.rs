//! Pressure at the motor's outlet: what the return to the tank costs, at the greatest flow, cold and at work, with the
//! filter on its bypass.

use crate::facts::{Extreme, Facts, limit};
use crate::judge::yes_no;
use crate::question::{Estimate, Finding, Question};
use crate::sample::{End, Parameter, Sample};
use crate::{Bound, Cause, CheckId, Class, FactId, Outcome, Reason};
use hydraulics::balance::Compiled;
use quantity::{Pressure, Quantity, ThermodynamicTemperature, VolumeRate};
use table::{AssumptionId, MotorKind};

/// The check.
pub fn check<'f>(facts: &'f Facts, warm: ThermodynamicTemperature) -> Finding<'f> {
    let named = facts.head.outlet.back_pressure.as_ref();
    if named.is_none() && facts.motor_kind() == Some(MotorKind::GearDrained) {
        return yes_no(CheckId::BackPressure, Class::Damage, Outcome::Met, Reason::CaseDecides, &[]).into();
    }
    let allowed = match named {
        Some(stated) => limit(FactId::OutletLimit, Some(stated)),
        None => Parameter::or_assumed(
            FactId::OutletLimit,
            None,
            AssumptionId::OutletLimit,
            facts.practice.range(AssumptionId::OutletLimit),
        ),
    };
    let question = Question { id: CheckId::BackPressure, class: Class::Damage, blocks: true, bound: Bound::AtMost };
    against(question, facts, allowed, warm)
}

/// The greatest pressure at the outlet against what something there is rated for.
pub fn against<'f>(
    question: Question,
    facts: &'f Facts,
    allowed: Parameter<Pressure>,
    warm: ThermodynamicTemperature,
) -> Finding<'f> {
    question.asks_at_most(
        || if facts.returns_direct() { Cause::ReturnLine } else { Cause::SpoolReturn },
        move |sample| sample.take(&allowed, End::Low),
        move |sample, estimate| at_outlet(facts, sample, warm, estimate),
    )
}

/// The greatest pressure at the motor's outlet over the oil's temperatures; of a breaker, whose return pulsates, the mean.
fn at_outlet(facts: &Facts, sample: &Sample, warm: ThermodynamicTemperature, estimate: Estimate) -> Pressure {
    let circuit = facts.circuit(sample, Extreme::MostFlowAgainstReturn, facts.temperature(sample, warm));
    let (free, none) = (facts.free_difference(sample), VolumeRate::from_si(0.0));
    if facts.is_impact() {
        let returned = circuit.returned(facts.free_flow(sample, &circuit, free, none));
        return circuit.back.pulsating_loss(returned, facts.pulsation(sample), &circuit.oil);
    }
    if estimate == Estimate::Quick {
        let compiled = Compiled::of(&circuit);
        if let Some(most) = compiled.at_most(free) {
            return compiled.losses(most).1;
        }
    }
    // Where not even that turns, the return itself stalls it, with all the pressure that there is; without a pump that
    // gives anything there is none.
    let pumps = circuit.source.flow_at(Pressure::from_si(0.0)) > none;
    let stalled = || circuit.stall_pressure().filter(|_| pumps).unwrap_or(circuit.outlet(none));
    facts.free_point(sample, &circuit, free).map_or_else(|_| stalled(), |point| point.outlet)
}
