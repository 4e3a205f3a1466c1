//! Pressure at the motor's shaft seal: in the case line where there is one, else that of the return.

use super::warmest_start;
use crate::facts::{Extreme, Facts, limit};
use crate::judge::{missing, yes_no};
use crate::question::{Estimate, Finding, Findings, Question};
use crate::sample::{End, Parameter, Sample};
use crate::{Bound, Cause, CheckId, Class, FactId, Outcome, Reason};
use hydraulics::balance::Compiled;
use quantity::{Pressure, Quantity, ThermodynamicTemperature, VolumeRate};
use table::{AssumptionId, MotorKind};

const ID: CheckId = CheckId::CasePressure;
const QUESTION: Question = Question { id: ID, class: Class::Damage, blocks: true, bound: Bound::AtMost };

/// The check.
pub fn check<'f>(facts: &'f Facts, warm: ThermodynamicTemperature) -> Findings<'f> {
    let not_met = |reason| yes_no(ID, Class::Damage, Outcome::NotMet, reason, &[]).into();
    let open = |fact| missing(ID, Class::Damage, &[fact]).into();
    match needs_case_line(facts) {
        None => open(FactId::NeedsCaseLine),
        Some(false) => inside(facts, warm).into(),
        Some(true) => match facts.case_drain() {
            None => open(FactId::CaseLine),
            Some(line) if !line.fitted => not_met(Reason::NoCaseLine),
            Some(line) => match facts.case_port(line) {
                // What holds is told as at work, as the states and the sheet tell it.
                Some(true) => {
                    let cold_line = hot_motor(facts, warmest_start(facts));
                    std::iter::once(in_case_line(facts, warm)).chain(cold_line).collect()
                }
                // Teed into the return its seal gets what the return does.
                Some(false) => not_met(Reason::CaseLineIntoReturn),
                None => open(FactId::CasePort),
            },
        },
    }
}

/// Whether the motor needs a line from its housing: as its maker says, else by its build where that leaves no choice.
pub fn needs_case_line(facts: &Facts) -> Option<bool> {
    facts.asks_for_case_line().or(match facts.motor_kind()? {
        MotorKind::AxialPiston | MotorKind::BentAxis | MotorKind::RadialPiston | MotorKind::GearDrained => Some(true),
        MotorKind::GearOneWay | MotorKind::Impact => Some(false),
        MotorKind::Gerotor | MotorKind::Orbital => None,
    })
}

/// Drained inside: the seal sees the pressure at the outlet. Where the maker names no pressure for the housing, the
/// check of the back pressure says it all.
fn inside<'f>(facts: &'f Facts, warm: ThermodynamicTemperature) -> Finding<'f> {
    let Some(named) = facts.head.outlet.case_pressure.as_ref() else {
        return yes_no(ID, Class::Damage, Outcome::Met, Reason::DrainsInside, &[]).into();
    };
    super::back_pressure::against(QUESTION, facts, limit(FactId::CaseLimit, Some(named)), warm)
}

/// A motor that is hot already on a line that still is cold: it leaks its whole flow into thick oil. Whether the seal is rated for
/// that with oil at a temperature in the line decides from when on full speed may be asked. What speaks against it; nothing where the
/// seal is rated for it.
pub fn hot_motor<'f>(facts: &'f Facts, in_the_line: ThermodynamicTemperature) -> Option<Finding<'f>> {
    let fitted = facts.carrier.case_line.as_ref().is_some_and(|line| line.fitted);
    if !fitted || needs_case_line(facts) != Some(true) {
        return None;
    }
    let allowed = case_limit(facts);
    let asked = QUESTION.asks_at_most(
        || Cause::CaseLine,
        move |sample| sample.take(&allowed, End::Low),
        move |sample, estimate| {
            let through = through_motor(facts, sample, facts.conditions.working, estimate);
            facts.case_line(sample).pressure(facts.case_flow(sample, through), &facts.oil_at(sample, in_the_line))
        },
    );
    Some(asked.told(|check| (check.outcome != Outcome::Met).then_some(check)))
}

/// The greatest flow through the motor with oil at a temperature: free running.
fn through_motor(
    facts: &Facts,
    sample: &Sample,
    temperature: ThermodynamicTemperature,
    estimate: Estimate,
) -> VolumeRate {
    let circuit = facts.circuit(sample, Extreme::MostFlowAgainstReturn, temperature);
    let (free, greatest) = (facts.free_difference(sample), circuit.source.greatest);
    match estimate {
        Estimate::Quick => Compiled::of(&circuit).at_most(free).unwrap_or(greatest),
        Estimate::Exact => facts.free_flow(sample, &circuit, free, greatest),
    }
}

fn case_limit(facts: &Facts) -> Parameter<Pressure> {
    Parameter::or_assumed(
        FactId::CaseLimit,
        facts.head.outlet.case_pressure.as_ref().map(|s| limit(FactId::CaseLimit, Some(s)).fact),
        AssumptionId::CaseLimit,
        facts.practice.range(AssumptionId::CaseLimit),
    )
}

/// p_case = p_tank + Δp_line(Q_c, ν) + Δp_coupling, with the motor worn. In cold oil less leaks through the motor in the
/// proportion of the viscosities (steady cold).
fn in_case_line<'f>(facts: &'f Facts, warm: ThermodynamicTemperature) -> Finding<'f> {
    let allowed = case_limit(facts);
    let greatest = move |sample: &Sample, estimate| {
        let line = facts.case_line(sample);
        // Colder than at work less leaks, warmer the line loses less: the worst is at work itself, or at the end nearest to it.
        let at_work = facts.conditions.working;
        let (from, hottest) = (facts.temperature(sample, warm), facts.conditions.hot);
        let nearest = if at_work.si() < warm.si() {
            warm
        } else if at_work.si() > hottest.si() {
            hottest
        } else {
            at_work
        };
        // Hotter than at work a little more flows through the motor, and leaks.
        let ends = [from, nearest, hottest];
        let temperatures = if sample.sampler().bounds_oil() { &ends[..] } else { &ends[..1] };
        // More than ever flows through the motor is the same at all of them.
        let quickly = (estimate == Estimate::Quick).then(|| through_motor(facts, sample, from, estimate));
        temperatures.iter().fold(Pressure::from_si(0.0), |most, &temperature| {
            let through = quickly.unwrap_or_else(|| through_motor(facts, sample, temperature, estimate));
            let leaked = facts.leaks(sample, through, temperature);
            most.max(line.pressure(leaked, &facts.oil_at(sample, temperature)))
        })
    };
    QUESTION.asks_at_most(|| Cause::CaseLine, move |sample| sample.take(&allowed, End::Low), greatest)
}
