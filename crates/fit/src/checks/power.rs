//! Hydraulic power that reaches the head at work, against the head's window and against the engine.

use crate::draw::{Draw, Side};
use crate::facts::{Extreme, Facts, limit};
use crate::judge::{Depth, Question, Reading, worst_of};
use crate::trace::{Context, Worked};
use crate::{Bound, Cause, Check, CheckId, Class, FactId, Outcome, Reason};
use hydraulics::power::hydraulic_power;
use quantity::{Kind, Power, ThermodynamicTemperature};

/// The check.
pub fn check(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    let mut questions = vec![least(facts, warm)];
    if facts.head.power.greatest.is_some() {
        questions.push(greatest(facts, warm));
    }
    // What the engine can spare is told only where it is the trouble.
    questions.extend(engine(facts, warm).filter(|check| check.outcome != Outcome::Met));
    worst_of(questions)
}

/// What the pumps ask of the engine at work is no more than it can spare: it also drives the machine.
fn engine(facts: &Facts, warm: ThermodynamicTemperature) -> Option<Check> {
    let (engine, share) = facts.spared_power()?;
    let efficiency = facts.pump_efficiency();
    let question = Question { id: CheckId::Power, class: Class::Work, blocks: false, bound: Bound::AtMost };
    let mut check = question.judge(facts.depth, |draw| {
        // With the head's least flow at the circuit's pressure: more is welcome, not needed, and how a pump makes it (a
        // margin above the load, a surplus over a bypass) only asks more.
        let circuit = facts.circuit(draw, Extreme::LeastFlow, facts.temperature(draw, warm));
        let least = draw.take(&Facts::least_or_rated(&facts.head.flow, FactId::HeadLeastFlow), Side::High);
        let pressure = circuit.need(least, facts.working_difference(draw, &circuit));
        draw.works_out(Worked::PressureNeeded, pressure);
        Reading {
            value: hydraulic_power(pressure, least) / draw.take(&efficiency, Side::Low),
            limit: draw.take(&engine, Side::Low) * draw.take(&share, Side::Low),
            because: Cause::PowerLimit,
        }
    });
    if check.outcome != Outcome::Met && check.reason != Reason::FactMissing {
        check.reason = Reason::EngineShared;
    }
    Some(check)
}

/// At least the power for which the head is made; where its maker names none, that of its working pressure at its least
/// flow.
pub fn least(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    let named = facts.head.power.least.or(facts.head.power.rated);
    let least_flow = Facts::least_or_rated(&facts.head.flow, FactId::HeadLeastFlow);
    let question = Question { id: CheckId::Power, class: Class::Work, blocks: false, bound: Bound::AtLeast };
    question.judge(facts.depth, |draw| {
        facts.see_context(Context::HeadPower, named);
        // Whole, the circuit is asked first, so that what is missing of it is told first.
        let whole = (facts.depth != Depth::Outcome).then(|| reaching(facts, draw, Extreme::LeastFlow, warm));
        let difference = draw.take(&facts.working, Side::High);
        let limit = match &named {
            Some(power) => power.nominal,
            None => hydraulic_power(difference, draw.take(&least_flow, Side::High)),
        };
        if let Some((value, because)) = whole {
            return Reading { value, limit, because };
        }
        if difference.si() > 0.0 {
            let reached = super::flow_window::sign_at_work(facts, draw, limit / difference, warm);
            let value = if reached.si() > 0.0 { limit } else { Power::from_si(0.0) };
            return Reading { value, limit, because: Cause::PowerLimit };
        }
        Reading { value: reaching(facts, draw, Extreme::LeastFlow, warm).0, limit, because: Cause::PowerLimit }
    })
}

/// No more than the head is made for.
fn greatest(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    let greatest = limit(FactId::HeadGreatestPower, facts.head.power.greatest.as_ref());
    let question = Question { id: CheckId::Power, class: Class::Damage, blocks: true, bound: Bound::AtMost };
    question.judge(facts.depth, |draw| Reading {
        value: reaching(facts, draw, Extreme::MostFlow, warm).0,
        limit: draw.take(&greatest, Side::Low),
        because: Cause::FlowHigh,
    })
}

/// Working pressure difference times the flow at work.
fn reaching(facts: &Facts, draw: &Draw, lean: Extreme, warm: ThermodynamicTemperature) -> (Power, Cause) {
    let (flow, because) = super::flow_window::at_work(facts, draw, lean, warm);
    let difference = draw.take(&facts.working, Side::High);
    let power = hydraulic_power(difference, flow);
    (if power.si().is_finite() { power } else { Power::from_si(0.0) }, because)
}
