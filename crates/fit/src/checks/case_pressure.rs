//! Pressure at the motor's shaft seal: in the case line where there is one, else that of the return.

use std::iter;

use crate::draw::{Draw, Parameter, Side};
use crate::facts::{Extreme, Facts, limit};
use crate::judge::{Estimate, Question, Reading, no_more_than, worst_of, yes_no};
use crate::trace::Worked;
use crate::{Bound, Cause, Check, CheckId, Class, FactId, Outcome, Reason};
use hydraulics::balance::Compiled;
use quantity::{Kind, Pressure, ThermodynamicTemperature, VolumeRate};
use table::{AssumptionId, MotorKind};

/// The check.
pub fn check(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    let no_figures =
        |outcome, reason, missing: &[FactId]| yes_no(CheckId::CasePressure, Class::Damage, outcome, reason, missing);
    match needs_case_line(facts) {
        None => no_figures(Outcome::NotKnown, Reason::FactMissing, &[FactId::NeedsCaseLine]),
        Some(false) => inside(facts, warm),
        Some(true) => match facts.see(FactId::CaseLine, facts.carrier.case_line.as_ref()) {
            None => no_figures(Outcome::NotKnown, Reason::FactMissing, &[FactId::CaseLine]),
            Some(line) if !line.fitted => no_figures(Outcome::NotMet, Reason::NoCaseLine, &[]),
            Some(line) => match facts.see(FactId::CasePort, line.own_port) {
                // What holds is told as at work, as the states and the sheet tell it.
                Some(true) => {
                    let cold_line = hot_motor(facts, super::warmest_start(facts));
                    worst_of(iter::once(in_case_line(facts, warm)).chain(cold_line).collect())
                }
                // Teed into the return its seal gets what the return does.
                Some(false) => no_figures(Outcome::NotMet, Reason::CaseLineIntoReturn, &[]),
                None => no_figures(Outcome::NotKnown, Reason::FactMissing, &[FactId::CasePort]),
            },
        },
    }
}

/// Whether the motor needs a line from its housing: as its maker says, else by its build where that leaves no choice.
pub fn needs_case_line(facts: &Facts) -> Option<bool> {
    facts.see(FactId::NeedsCaseLine, facts.head.outlet.needs_case_line).or(match facts.motor_kind()? {
        MotorKind::AxialPiston | MotorKind::BentAxis | MotorKind::RadialPiston | MotorKind::GearDrained => Some(true),
        MotorKind::GearOneWay | MotorKind::Impact => Some(false),
        MotorKind::Gerotor | MotorKind::Orbital => None,
    })
}

/// Drained inside: the seal sees the pressure at the outlet. Where the maker names no pressure for the housing, the
/// check of the back pressure says it all.
fn inside(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    let Some(named) = facts.head.outlet.case_pressure.as_ref() else {
        return yes_no(CheckId::CasePressure, Class::Damage, Outcome::Met, Reason::DrainsInside, &[]);
    };
    let allowed = limit(FactId::CaseLimit, Some(named));
    question().judge(facts.depth, |draw| super::back_pressure::read(facts, draw, &allowed, warm))
}

/// A motor that is hot already on a line that still is cold: it leaks its whole flow into thick oil. Whether the seal is rated for
/// that with oil at a temperature in the line decides from when on full speed may be asked. What speaks against it; nothing where the
/// seal is rated for it.
pub fn hot_motor(facts: &Facts, in_the_line: ThermodynamicTemperature) -> Option<Check> {
    let fitted = facts.carrier.case_line.as_ref().is_some_and(|line| line.fitted);
    if !fitted || needs_case_line(facts) != Some(true) {
        return None;
    }
    let check = hot_on_cold(facts, in_the_line);
    (check.outcome != Outcome::Met).then_some(check)
}

/// The pressure of a hot motor with oil at a temperature in its case drain.
fn hot_on_cold(facts: &Facts, in_the_line: ThermodynamicTemperature) -> Check {
    let allowed = case_limit(facts);
    question().judge(facts.depth, |draw| {
        let pressure = |estimate| {
            let through = through_motor(facts, draw, facts.conditions.working, estimate);
            facts.case_line(draw).pressure(facts.case_flow(draw, through), &facts.oil_at(draw, in_the_line))
        };
        let (value, limit) = no_more_than(|| draw.take(&allowed, Side::Low), facts.depth, pressure);
        Reading { value, limit, because: Cause::CaseLine }
    })
}

/// The greatest flow through the motor with oil at a temperature: free running.
fn through_motor(facts: &Facts, draw: &Draw, temperature: ThermodynamicTemperature, estimate: Estimate) -> VolumeRate {
    let circuit = facts.circuit(draw, Extreme::MostFlowAgainstReturn, temperature);
    let free = facts.free_difference(draw);
    let flow = match estimate {
        Estimate::UpperBound => Compiled::of(&circuit).at_most(free),
        Estimate::Exact => circuit.solve(free).ok().map(|point| point.flow),
    };
    draw.works_out(Worked::FlowFree, flow.unwrap_or(circuit.source.greatest))
}

fn case_limit(facts: &Facts) -> Parameter<Pressure> {
    Parameter::or_assumed(
        FactId::CaseLimit,
        facts.head.outlet.case_pressure.as_ref().map(|s| limit(FactId::CaseLimit, Some(s)).fact),
        AssumptionId::CaseLimit,
        facts.practice.range(AssumptionId::CaseLimit),
    )
}

fn question() -> Question {
    Question { id: CheckId::CasePressure, class: Class::Damage, blocks: true, bound: Bound::AtMost }
}

/// p_case = p_tank + Δp_line(Q_c, ν) + Δp_coupling, with the motor worn. In cold oil less leaks through the motor in the
/// proportion of the viscosities (steady cold).
fn in_case_line(facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    let allowed = case_limit(facts);
    question().judge(facts.depth, |draw| {
        let line = facts.case_line(draw);
        // Colder than at work less leaks, warmer the line loses less: the worst is at work itself, or at the end nearest to it.
        let at_work = facts.conditions.working;
        let (from, hottest) = (facts.temperature(draw, warm), facts.conditions.hot);
        let nearest = if at_work.si() < warm.si() {
            warm
        } else if at_work.si() > hottest.si() {
            hottest
        } else {
            at_work
        };
        // Hotter than at work a little more flows through the motor, and leaks.
        let ends = [from, nearest, hottest];
        let temperatures = if draw.is_at_a_corner() { &ends[..] } else { &ends[..1] };
        let greatest = |estimate| {
            temperatures.iter().fold(Pressure::from_si(0.0), |most, &temperature| {
                let leaked = facts.leaks(draw, through_motor(facts, draw, temperature, estimate), temperature);
                most.max(line.pressure(leaked, &facts.oil_at(draw, temperature)))
            })
        };
        let (value, limit) = no_more_than(|| draw.take(&allowed, Side::Low), facts.depth, greatest);
        Reading { value, limit, because: Cause::CaseLine }
    })
}
