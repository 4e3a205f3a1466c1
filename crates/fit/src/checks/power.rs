//! Hydraulic power that reaches the head at work, against the head's window and against the engine.

use super::flow_window::{at_work, reaches_at_work};
use crate::facts::{Extreme, Facts, limit};
use crate::question::{Estimate, Finding, Findings, Question, Reading};
use crate::sample::{End, Sample};
use crate::{Bound, Cause, Check, CheckId, Class, FactId, Outcome, Reason};
use hydraulics::power::hydraulic_power;
use quantity::{Power, Quantity, ThermodynamicTemperature};

/// The check.
pub fn check<'f>(facts: &'f Facts, warm: ThermodynamicTemperature) -> Findings<'f> {
    let greatest = facts.head.power.greatest.is_some().then(|| greatest(facts, warm));
    std::iter::once(least(facts, warm)).chain(greatest).chain(engine(facts, warm)).collect()
}

/// What the pumps ask of the engine at work is no more than it can spare: it also drives the machine. Told only where it is the
/// trouble.
fn engine<'f>(facts: &'f Facts, warm: ThermodynamicTemperature) -> Option<Finding<'f>> {
    let (engine, share) = facts.spared_power()?;
    let efficiency = facts.pump_efficiency;
    let question = Question { id: CheckId::Power, class: Class::Work, blocks: false, bound: Bound::AtMost };
    let asked = question.asks(move |sample| {
        // With the head's least flow at the circuit's pressure: more is welcome, not needed, and how a pump makes it (a
        // margin above the load, a surplus over a bypass) only asks more.
        let circuit = facts.circuit(sample, Extreme::LeastFlow, facts.temperature(sample, warm));
        let least = sample.take(&Facts::least_or_rated(&facts.head.flow, FactId::HeadLeastFlow), End::High);
        let pressure = facts.pressure_needed(sample, &circuit, least);
        let asked = hydraulic_power(pressure, least) / sample.take(&efficiency, End::Low);
        let spared = sample.take(&engine, End::Low) * sample.take(&share, End::Low);
        Reading::new(asked, spared, Cause::PowerLimit)
    });
    Some(asked.told(|check| match (check.outcome, &check.reason) {
        (Outcome::Met, _) => None,
        (_, Reason::FactMissing) => Some(check),
        _ => Some(Check { reason: Reason::EngineShared, ..check }),
    }))
}

/// At least the power for which the head is made; where its maker names none, that of its working pressure at its least
/// flow.
pub fn least<'f>(facts: &'f Facts, warm: ThermodynamicTemperature) -> Finding<'f> {
    let least_flow = Facts::least_or_rated(&facts.head.flow, FactId::HeadLeastFlow);
    let question = Question { id: CheckId::Power, class: Class::Work, blocks: false, bound: Bound::AtLeast };
    question.asks_closely(move |sample, estimate| {
        let named = facts.head_power();
        let reaching = || reaching(facts, sample, Extreme::LeastFlow, warm);
        // The circuit is asked first, so that what is missing of it is told first.
        let exact = (estimate == Estimate::Exact).then(reaching);
        let difference = sample.take(&facts.working, End::High);
        let least = || hydraulic_power(difference, sample.take(&least_flow, End::High));
        let limit = named.map_or_else(least, |power| power.nominal);
        let (power, because) = match exact {
            Some(exact) => exact,
            None if difference.si() <= 0.0 => (reaching().0, Cause::PowerLimit),
            None if reaches_at_work(facts, sample, limit / difference, warm) => (limit, Cause::PowerLimit),
            None => (Power::from_si(0.0), Cause::PowerLimit),
        };
        Reading::new(power, limit, because)
    })
}

/// No more than the head is made for.
fn greatest<'f>(facts: &'f Facts, warm: ThermodynamicTemperature) -> Finding<'f> {
    let greatest = limit(FactId::HeadGreatestPower, facts.head.power.greatest.as_ref());
    let question = Question { id: CheckId::Power, class: Class::Damage, blocks: true, bound: Bound::AtMost };
    question.asks(move |sample| {
        let power = reaching(facts, sample, Extreme::MostFlow, warm).0;
        Reading::new(power, sample.take(&greatest, End::Low), Cause::FlowHigh)
    })
}

/// Working pressure difference times the flow at work.
fn reaching(facts: &Facts, sample: &Sample, lean: Extreme, warm: ThermodynamicTemperature) -> (Power, Cause) {
    let (flow, because) = at_work(facts, sample, lean, warm);
    let difference = sample.take(&facts.working, End::High);
    let power = hydraulic_power(difference, flow);
    (if power.si().is_finite() { power } else { Power::from_si(0.0) }, because)
}
