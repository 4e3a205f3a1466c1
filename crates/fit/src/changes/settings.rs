//! Settings are solved, not guessed: intervals found from checks, rounded to shop steps.

use super::asked::{Asked, ENOUGH, Trials, UPPER};
use crate::assume::OWN_SETTING;
use crate::facts::Facts;
use crate::machine::Hints;
use crate::solved::Solved;
use crate::trace::Context;
use quantity::shop::bar;
use quantity::{Pressure, Quantity, Ratio, Unit, VolumeRate};
use std::cell::{Cell, RefCell};
use table::{Circuit, FlowSetting};

/// Shop step of a flow, L/min.
const FLOW_STEP: f64 = 1.0;
/// Shop step of a relief, bar.
const RELIEF_STEP: f64 = 5.0;
/// How far above what it aims at a flow is raised so that the least arrives (common practice, no published source).
const MOST_RAISED: f64 = 4.0 / 3.0;

/// The flows to which something can be set, L/min.
#[derive(Clone, Copy, Debug)]
pub struct FlowSteps {
    least: f64,
    most: f64,
    step: f64,
}

impl FlowSteps {
    /// Anything in steps of the shop.
    pub const ANY: Self = Self { least: FLOW_STEP, most: 1000.0, step: FLOW_STEP };

    /// What a machine offers.
    pub fn of(setting: &FlowSetting) -> Self {
        let litres = |flow: VolumeRate| Unit::LitrePerMinute.of_si(flow.si());
        let step = setting.step.map_or(FLOW_STEP, |step| litres(step.nominal)).max(0.1);
        Self { least: litres(setting.range.low), most: litres(setting.range.high), step }
    }

    /// Anything in steps of the shop, up to a flow.
    pub fn below(most: VolumeRate) -> Self {
        Self { most: Unit::LitrePerMinute.of_si(most.si()), ..Self::ANY }
    }

    fn width(self) -> VolumeRate {
        VolumeRate::from_si(Unit::LitrePerMinute.to_si(self.step))
    }

    fn at(self, steps: u32) -> VolumeRate {
        VolumeRate::from_si(Unit::LitrePerMinute.to_si(self.least + f64::from(steps) * self.step))
    }
}

/// The flow to set: the nearest to the head's rated flow (its least where none is rated) at which every upper limit
/// holds (greatest flow, rotor speed, pressures in return and case); then as much more, up to a third, as the head's least flow
/// asks in the lean corner, and its least power. Where the machine's functions would starve at that flow, the most below it that leaves them what they need, as
/// long as the head's least arrives. None when there is nothing to aim at.
pub fn solve_flow(
    facts: &Facts,
    of: FlowSteps,
    hints: &Hints,
    set: &impl Fn(&mut Circuit, VolumeRate),
) -> Option<Solved<VolumeRate>> {
    let aim = facts.head_rated_flow().or_else(|| facts.head_least_flow())?;
    let aim = Unit::LitrePerMinute.of_si(aim.nominal.si());
    facts.by_practice(Context::ShopStep, of.width());
    let last = steps((of.most - of.least) / of.step, f64::floor);
    let top = steps((aim - of.least) / of.step, f64::ceil).min(last);
    let place = RefCell::new(facts.circuit.clone());
    let trials = Trials::of(facts, |flow, ask| {
        set(&mut place.borrow_mut(), VolumeRate::from_si(flow));
        ask(facts.with_flow_set(&place.borrow()));
    });
    let ask = |steps: u32, asked: &[Asked]| trials.hold(of.at(steps), asked);
    let nearest = nearest_to(aim, (top, last), of, hints, &ask);
    let serves = |steps: u32| ask(steps, &[Asked::Functions]);
    if serves(nearest) {
        return Some(trials.taken(of.at(nearest)));
    }
    let least = facts.head_least_flow().map_or(aim, |least| Unit::LitrePerMinute.of_si(least.nominal.si()));
    let lowest = steps((least - of.least) / of.step, f64::floor);
    let shared =
        highest_that(lowest, nearest, &hints.functions, serves).filter(|&steps| ask(steps, &[Asked::LeastFlow]));
    // Where there is not enough for both, the nearest to the aim: the checks then say so.
    Some(trials.taken(of.at(shared.unwrap_or(nearest))))
}

/// The step nearest to an aim at which every upper limit holds, or as much above it as the head's least flow and
/// power ask.
fn nearest_to(
    aim: f64,
    (top, last): (u32, u32),
    of: FlowSteps,
    hints: &Hints,
    ask: &impl Fn(u32, &[Asked]) -> bool,
) -> u32 {
    let upper_hold = |steps: u32| ask(steps, &UPPER);
    // What was too much last mostly is again, and then so is all above it.
    let near = hints.upper.get().filter(|&step| step < top);
    if near.is_none_or(upper_hold) && upper_hold(top) {
        // A regulator that is off to the low side may leave too little: a little more then, where all else holds.
        let highest = steps((aim * MOST_RAISED - of.least) / of.step, f64::floor).min(last).max(top);
        let arrives = |steps: u32| ask(steps, &[Asked::LeastFlow]);
        let first = lowest_that(top, highest, arrives).filter(|&steps| steps == top || upper_hold(steps));
        let first = first.unwrap_or(top);
        let strong = |steps: u32| ask(steps, &[Asked::LeastPower]);
        if strong(first) {
            return first;
        }
        // So may power: as little more as gives it, where that is to be had.
        let most = highest_that(first, highest + 1, &hints.raised, upper_hold).filter(|&most| strong(most));
        return most.and_then(|most| lowest_that(first, most, strong)).unwrap_or(first);
    }
    // Where no flow keeps them all, the aim itself: the checks then say what else is wrong.
    highest_that(0, top, &hints.upper, upper_hold).unwrap_or(top)
}

/// The highest step of those from `low` on and below `bad` at which something holds that holds up to some step and no further.
fn highest_that(low: u32, bad: u32, hint: &Cell<Option<u32>>, holds: impl Fn(u32) -> bool) -> Option<u32> {
    let first_bad = lowest_below(low, bad, hint, |step| !holds(step));
    (first_bad > low).then(|| first_bad - 1)
}

/// The lowest step of those from `low` up to `high` at which something holds that holds from some step on.
pub fn lowest_that(low: u32, high: u32, holds: impl Fn(u32) -> bool) -> Option<u32> {
    // Mostly the first one does.
    if low <= high && holds(low) {
        return Some(low);
    }
    (low < high && holds(high)).then(|| lowest_below(low + 1, high, &Cell::default(), holds))
}

/// The lowest such step where it is known to hold at `good`: looked for where it was found last, farther and farther from there, then
/// by halving.
fn lowest_below(mut low: u32, mut good: u32, hint: &Cell<Option<u32>>, holds: impl Fn(u32) -> bool) -> u32 {
    let (mut near, mut stride, mut next_stride) = (hint.get(), 1, 1);
    while low < good {
        let inside = near.filter(|step| (low..good).contains(step));
        let next = inside.unwrap_or(low.midpoint(good));
        let holds = holds(next);
        if holds {
            good = next;
        } else {
            low = next + 1;
        }
        near = if holds { next.checked_sub(stride) } else { inside.map(|_| next + stride) };
        (stride, next_stride) = (next_stride, next_stride * 2);
    }
    hint.set(Some(good));
    good
}

/// The pressure to set: what the head's maker asks for, where head and range bear it; else the least, in steps of 5 bar, that
/// leaves the motor its need at work and 10 % more in the worst corner. Never more than what the head bears; which hoses, couplings
/// and tools must then be stronger, the checks say.
pub fn solve_pressure(
    facts: &Facts,
    (low, high): (Pressure, Pressure),
    hints: &Hints,
    set: &impl Fn(&mut Circuit, Pressure),
) -> Option<Solved<Pressure>> {
    facts.setting_range(low, high);
    let greatest = facts.head_greatest_pressure();
    let tolerance = facts.by_practice(Context::SettingTolerance, Ratio::from_si(OWN_SETTING.plus));
    let with_tolerance = |rated: Pressure| rated / (1.0 + tolerance.si());
    facts.by_practice(Context::ShopStep, bar(RELIEF_STEP));
    let head = greatest.map(|greatest| with_tolerance(greatest.interval(quantity::Tolerance::NONE).low));
    let top = head.filter(|head| *head < high).unwrap_or(high);
    let first = relief_steps(low, f64::ceil);
    let last = relief_steps(top, f64::floor);
    if last < first {
        return None;
    }
    let at = |step: u32| bar(f64::from(step) * RELIEF_STEP);
    let place = RefCell::new(facts.circuit.clone());
    let trials = Trials::of(facts, |pressure, ask| {
        set(&mut place.borrow_mut(), Pressure::from_si(pressure));
        ask(facts.with_relief_set(&place.borrow()));
    });
    let enough = |pressure: Pressure| trials.hold(pressure, &ENOUGH);
    let gaps = |pressure: Pressure| trials.hold(pressure, &[Asked::Gaps]);
    let asked = facts.relief_asked().map(|asked| asked.nominal);
    let asked = asked.filter(|asked| *asked >= low && *asked <= top);
    if let Some(asked) = asked.filter(|&asked| gaps(asked) && (enough(asked) || !enough(at(last)))) {
        return Some(trials.taken(asked));
    }
    // Where so much was enough last, it mostly is again, and so is the most.
    let near = hints.relief.get().filter(|step| (first..last).contains(step));
    if !near.is_some_and(|step| enough(at(step))) && !enough(at(last)) {
        // Too little, or not known: as high as may be without limiters that fight.
        let apart = (first..=last).rev().map(at).find(|&pressure| gaps(pressure));
        return Some(trials.taken(apart.unwrap_or(at(last))));
    }
    let good = lowest_below(first, last, &hints.relief, |step| enough(at(step)));
    // Limiters that would fight ask for a little more, or this is the best that there is.
    let apart = (good..=last).map(at).find(|&pressure| gaps(pressure));
    Some(trials.taken(apart.unwrap_or(at(good))))
}

/// A whole number of shop steps up to a pressure.
fn relief_steps(pressure: Pressure, round: fn(f64) -> f64) -> u32 {
    // A hair of slack, so that 250 bar are fifty steps of 5 bar in every arithmetic.
    let exact = Unit::Bar.of_si(pressure.si()) / RELIEF_STEP;
    let nearest = exact.round();
    steps(if (exact - nearest).abs() < 1e-9 { nearest } else { exact }, round)
}

/// A whole number of steps, none below zero.
pub fn steps(value: f64, round: fn(f64) -> f64) -> u32 {
    // Clamped to a small whole number just before.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let steps = round(value).clamp(0.0, 1e5) as u32;
    steps
}
