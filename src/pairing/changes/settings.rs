//! Settings are solved, not guessed: intervals found from checks, rounded to shop steps.

use super::{flow_limit, machine_flow_setting, relief_setting};
use crate::pairing::assume::{OWN_SETTING, PRESSURE_MARGIN};
use crate::pairing::checks;
use crate::pairing::draw::{Draw, Side, Stance};
use crate::pairing::facts::{Facts, Lean};
use crate::pairing::{Check, CheckId, Outcome};
use crate::quantity::{Kind, Pressure, Range, Unit, VolumeRate};
use crate::table::{Carrier, ChangeId};

/// Shop step of a flow, L/min.
const FLOW_STEP: f64 = 1.0;
/// Shop step of a relief, bar.
const RELIEF_STEP: f64 = 5.0;

/// The flow to set: the nearest to the head's rated flow (its least where none is rated) at which every upper limit
/// holds (greatest flow, rotor speed, pressures in return and case); none when there is nothing to aim at or the machine
/// offers no such setting.
pub fn solve_flow(facts: &Facts, change: ChangeId) -> Option<VolumeRate> {
    let head = &facts.head.flow;
    let aim = head.rated.or(head.least)?.nominal;
    let set = |flow: VolumeRate| match change {
        ChangeId::FlowLimit => flow_limit(facts.carrier, facts.circuit, flow),
        _ => machine_flow_setting(facts.carrier, facts.circuit, flow),
    };
    let (least, most, step) = match (change, &facts.circuit.flow_setting) {
        (ChangeId::FlowLimit, _) => (FLOW_STEP, 1000.0, FLOW_STEP),
        (_, Some(setting)) => {
            let litres = |flow: VolumeRate| Unit::LitrePerMinute.of_si(flow.si());
            let step = setting.step.map_or(FLOW_STEP, |step| litres(step.nominal)).max(0.1);
            (litres(setting.range.low), litres(setting.range.high), step)
        }
        (_, None) => return None,
    };
    let aim = Unit::LitrePerMinute.of_si(aim.si());
    let flow_at = |steps: u32| VolumeRate::from_si(Unit::LitrePerMinute.to_si(least + f64::from(steps) * step));
    let last = steps((most - least) / step, f64::floor);
    let top = steps((aim - least) / step, f64::ceil).min(last);
    let upper_hold = |steps: u32| {
        let changed = set(flow_at(steps));
        again(facts, &changed, |facts| {
            let warm = checks::warm_enough();
            // Only figures count here: a case line or a limit that is missing is no matter of the flow.
            let holds =
                |check: &Check| check.margin.is_none_or(|margin| margin >= 0.0 && check.outcome != Outcome::NotMet);
            holds(&checks::flow_below_greatest(facts, warm))
                && [CheckId::RotorSpeed, CheckId::BackPressure, CheckId::CasePressure]
                    .iter()
                    .all(|&id| holds(&checks::check(id, facts, warm)))
        })
        .unwrap_or(false)
    };
    if upper_hold(top) {
        return Some(flow_at(top));
    }
    // Upper limits hold up to some step and no further.
    let (mut good, mut bad) = (None, top);
    let mut low = 0;
    while low < bad {
        let middle = low.midpoint(bad);
        if upper_hold(middle) {
            good = Some(middle);
            low = middle + 1;
        } else {
            bad = middle;
        }
    }
    // Where no flow keeps them all, the aim itself: the checks then say what else is wrong.
    Some(flow_at(good.unwrap_or(top)))
}

/// A whole number of shop steps up to a pressure.
fn relief_steps(pressure: Pressure, round: fn(f64) -> f64) -> u32 {
    // A hair of slack, so that 250 bar are fifty steps of 5 bar in every arithmetic.
    let exact = Unit::Bar.of_si(pressure.si()) / RELIEF_STEP;
    let nearest = exact.round();
    steps(if (exact - nearest).abs() < 1e-9 { nearest } else { exact }, round)
}

/// A whole number of steps, none below zero.
fn steps(value: f64, round: fn(f64) -> f64) -> u32 {
    // Clamped to a small whole number just before.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let steps = round(value).clamp(0.0, 1e5) as u32;
    steps
}

/// Runs a question on a changed carrier's same circuit.
fn again<R>(facts: &Facts, changed: &Carrier, ask: impl FnOnce(&Facts) -> R) -> Option<R> {
    let circuit = changed.circuits.iter().find(|circuit| circuit.id == facts.circuit.id)?;
    Some(ask(&Facts::gather(changed, circuit, facts.head, facts.conditions).for_a_search()))
}

/// The full-flow pressure to set, in steps of 5 bar within what the machine allows: what the head's maker asks for, else
/// the least that leaves the motor its need at work and 10 % more in the worst corner; never more than what the head and
/// everything else on the spool bears. None when the relief may not be moved or the need is not known.
pub fn solve_relief(facts: &Facts) -> Option<Pressure> {
    let range = facts.circuit.relief_range?;
    let top = highest_allowed(facts, &range)?;
    let first = relief_steps(range.low, f64::ceil);
    let last = relief_steps(top, f64::floor);
    if last < first {
        return None;
    }
    let at = |step: u32| Pressure::from_si(Unit::Bar.to_si(f64::from(step) * RELIEF_STEP));
    let enough = |step: u32| {
        let changed = relief_setting(facts.carrier, facts.circuit, at(step));
        again(facts, &changed, leaves_enough).unwrap_or(false)
    };
    if let Some(asked) = &facts.head.pressure.relief {
        let step = relief_steps(asked.nominal, f64::floor);
        if (first..=last).contains(&step) && enough(step) {
            return Some(at(step));
        }
    }
    let (mut low, mut high) = (first, last);
    if !enough(high) {
        return Some(at(high));
    }
    while low < high {
        let middle = low.midpoint(high);
        if enough(middle) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    Some(at(high))
}

/// Whether the relief leaves the motor its need and the margin of practice, and the head its least flow.
fn leaves_enough(facts: &Facts) -> bool {
    let warm = checks::warm_enough();
    let pressure = checks::pressure_left(facts, warm);
    let with_margin =
        pressure.outcome == Outcome::Met && pressure.margin.is_some_and(|margin| margin >= PRESSURE_MARGIN);
    let least_flow = || checks::flow_above_least(facts, warm).margin.is_some_and(|margin| margin >= 0.0);
    // Where pump or power cannot give the flow at any pressure, more relief is no help: the motor's need is enough.
    with_margin && (least_flow() || !relief_takes_flow(facts))
}

/// Whether the relief takes part of the flow at the head's working point in the lean corner.
fn relief_takes_flow(facts: &Facts) -> bool {
    let draw = Draw::new(Stance::Worst);
    let circuit = facts.circuit(&draw, Lean::Poor, checks::warm_enough());
    let difference = facts.working_difference(&draw, &circuit);
    match (circuit.solve(difference), circuit.relief) {
        (Ok(point), Some(relief)) => relief.share_passed(point.supply) > 0.0,
        _ => true,
    }
}

/// The highest setting: within the machine's range, and with its tolerance no more than what the head bears, what hose
/// and coupling are rated for where that is known, and what another tool on the spool may see. None when another tool's
/// limit is not known and it has no relief of its own: then the relief stays as it is.
fn highest_allowed(facts: &Facts, range: &Range<Pressure>) -> Option<Pressure> {
    let mut top = range.high;
    let mut lower = |limit: Pressure| {
        let with_tolerance = limit / (1.0 + OWN_SETTING.plus);
        if with_tolerance < top {
            top = with_tolerance;
        }
    };
    if let Some(greatest) = &facts.head.pressure.greatest {
        lower(greatest.interval(crate::quantity::Tolerance::NONE).low);
    }
    for segment in &facts.circuit.supply.segments {
        if let Some(rating) = &segment.rating {
            lower(rating.nominal);
        }
    }
    if let Some(rating) = facts.circuit.coupling.as_ref().and_then(|coupling| coupling.rated_pressure) {
        lower(rating.nominal);
    }
    let draw = Draw::new(Stance::Nominal);
    let today = draw.take(&facts.relief, Side::High);
    for tool in facts.circuit.shared_with.iter().filter(|tool| tool.own_relief != Some(true)) {
        match &tool.greatest_pressure {
            Some(bears) => lower(bears.nominal),
            None if draw.missing().is_empty() => lower(today * (1.0 + OWN_SETTING.plus)),
            None => return None,
        }
    }
    Some(top)
}
