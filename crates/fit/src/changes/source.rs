//! What gives and bounds flow and pressure: settings that are solved.

use super::asked::{Asked, Trials};
use super::catalogue::ChangeOption;
use super::changed::{Changed, own, solved};
use super::settings::{self, lowest_that, solve_flow, solve_pressure};
use crate::SettingId;
use crate::assume::{MOST_DIVIDED, REGULATOR, WARMEST_START_CELSIUS};
use crate::checks;
use crate::facts::Facts;
use crate::machine::{Hints, Machine};
use crate::solved::{Solved, Tried};
use crate::trace::Context;
use crate::warm_up::{COLD_CHECKS, too_cold};
use quantity::{
    AngularVelocity, Pressure, Quantity, Range, Ratio, Spread, Stated, ThermodynamicTemperature, Unit, VolumeRate,
};
use table::{ChangeId, Circuit, FedFrom, FlowDivider, PumpControl, PumpKind, ReliefRole, Ways};

/// A set flow with the accuracy of a regulator.
fn as_printed(flow: VolumeRate) -> Stated<VolumeRate> {
    Stated::published(Unit::LitrePerMinute.of_si(flow.si()), Unit::LitrePerMinute)
}

/// How exactly a regulator or divider holds its flow.
fn regulator_holds(facts: &Facts) {
    facts.by_practice(Context::RegulatorHolds, Ratio::from_si(REGULATOR.plus));
}

/// The machine's own setting, or a sealed regulator.
pub fn flow<'m>(machine: Machine<'m>, facts: &Facts, change: ChangeId) -> Changed<'m> {
    let limit = change == ChangeId::FlowLimit;
    let set = |place: &mut Circuit, flow: VolumeRate| {
        if limit {
            place.flow_limit = Some(as_printed(flow));
        } else {
            place.flow = Some(own(flow, Unit::LitrePerMinute));
        }
    };
    let flow = Solved::on(facts, || {
        let steps = if limit {
            regulator_holds(facts);
            settings::FlowSteps::ANY
        } else {
            let offered = facts.circuit.flow_setting.as_ref()?;
            facts.setting_range(offered.range.low, offered.range.high);
            settings::FlowSteps::of(offered)
        };
        solve_flow(facts, steps, &machine.hints(change), &set)
    })?;
    Some((machine.with_circuit(|place| set(place, flow.value)), vec![solved(SettingId::Flow, flow)]))
}

/// A stated figure that goes with the engine's speed.
fn scaled<Q: Quantity>(stated: &mut Option<Stated<Q>>, factor: f64) {
    if let Some(stated) = stated {
        stated.nominal = Q::from_si(stated.nominal.si() * factor);
        if let Spread::Range { low, high } = stated.spread {
            stated.spread = Spread::Range { low: Q::from_si(low.si() * factor), high: Q::from_si(high.si() * factor) };
        }
    }
}

/// Works at a higher engine speed, within what the machine's maker allows: flow and limiter go with it. A flow that a
/// load-sensing spool holds stays.
fn at_speed(machine: Machine, speed: AngularVelocity, factor: f64) -> Machine {
    let sensing = |id: &table::Id| {
        let mut pumps = machine.setup.carrier.pumps.iter();
        pumps.any(|pump| pump.id == *id && pump.control == Some(PumpControl::LoadSensing))
    };
    let faster = |circuit: &mut Circuit| {
        if !circuit.pumps.iter().any(sensing) {
            scaled(&mut circuit.flow, factor);
        }
    };
    let changed = machine.with_carrier(|carrier| {
        carrier.engine.working_speed = Some(own(speed, Unit::RevolutionPerMinute));
        for pump in &mut carrier.pumps {
            scaled(&mut pump.greatest_flow, factor);
            scaled(&mut pump.power_limit, factor);
        }
        for group in &mut carrier.power_groups {
            scaled(&mut group.limit, factor);
        }
        carrier.circuits.iter_mut().for_each(faster);
    });
    changed.with_circuit(faster)
}

/// The lowest engine speed above today's, in steps of 50 rpm, at which the head's least flow arrives; else the highest allowed.
pub fn engine_speed<'m>(machine: Machine<'m>, facts: &Facts) -> Changed<'m> {
    let engine = &facts.carrier.engine;
    let (today, range) = engine.working_speed.map(|speed| speed.nominal).zip(engine.speed_range)?;
    let step = Unit::RevolutionPerMinute.to_si(50.0);
    if range.high.si() < today.si() + step {
        return None;
    }
    let last = settings::steps((range.high.si() - today.si() + 1e-9) / step, f64::floor);
    let at = |steps: u32| AngularVelocity::from_si(today.si() + f64::from(steps) * step);
    let faster = |speed: AngularVelocity| at_speed(machine, speed, speed.si() / today.si());
    let speed = Solved::on(facts, || {
        facts.read(Context::SpeedToday, engine.working_speed);
        facts.setting_range(range.low, range.high);
        facts.by_practice(Context::ShopStep, AngularVelocity::from_si(step));
        let trials = Trials::of(facts, |speed, ask| ask(faster(AngularVelocity::from_si(speed)).setup.facts()));
        let arrives = |steps: u32| trials.hold(at(steps), &[Asked::LeastFlow]);
        let lowest = lowest_that(1, last, arrives);
        Some(trials.taken(at(lowest.unwrap_or(last))))
    })?;
    Some((faster(speed.value), vec![solved(SettingId::EngineSpeed, speed)]))
}

/// The head first by dividers in the lines of all pumps alike that drive the machine, with a relief on their port: vented, not
/// capped, while the head is off. The oil no longer passes the spool on its way to the head, so that what the spool could do is gone
/// with it: its flow setting, its reverse, its demand signal, and its stop when a lever is let go.
pub fn priority_share<'m>(machine: Machine<'m>, facts: &Facts, option: &ChangeOption) -> Changed<'m> {
    let (carrier, circuit) = (facts.carrier, facts.circuit);
    let groups: Vec<_> = facts.pumps_of_circuit().filter_map(|pump| pump.power_group.clone()).collect();
    let alike = |pump: &&table::Pump| {
        circuit.pumps.contains(&pump.id)
            || pump.kind != Some(PumpKind::Gear)
                && pump.power_group.as_ref().is_some_and(|group| groups.contains(group))
    };
    let pumps: Vec<_> = carrier.pumps.iter().filter(alike).collect();
    if pumps.iter().any(|pump| pump.greatest_flow.is_none()) {
        return None;
    }
    let top = option.rated_pressure?.nominal;
    let range = Range { low: Pressure::from_si(Unit::Bar.to_si(50.0)), high: top, unit: Unit::Bar };
    let ids: Vec<_> = pumps.iter().map(|pump| pump.id.clone()).collect();
    let divide = |place: &mut Circuit, flow: VolumeRate| {
        place.fed_from = Some(FedFrom::PumpLine);
        place.divider =
            Some(FlowDivider { set_flow: as_printed(flow), port_relief: Some(true), vented_when_off: Some(true) });
        place.pumps.clone_from(&ids);
        place.flow_setting = None;
        place.flow_limit = None;
        place.relief_role = Some(ReliefRole::WorkLimit);
        place.relief_range = Some(range);
        place.ways = Some(Ways::One);
        place.continuous = Some(true);
        place.stops_and_stays_off = Some(false);
        place.demand_signal = Some(false);
    };
    // The flow is solved below a relief that does not limit it yet.
    let greatest = facts.head.pressure.greatest.map_or(top, |greatest| greatest.nominal);
    let open = machine.with_circuit(|place| {
        divide(place, VolumeRate::from_si(0.0));
        reset_relief(place, greatest.min(top));
    });
    let flow = Solved::on(facts, || {
        regulator_holds(facts);
        let open = open.setup.facts().traced_with(facts);
        solve_flow(&open, settings::FlowSteps::ANY, &machine.hints(ChangeId::PriorityShare), &set_divider)
    })?;
    // What takes nearly all leaves nothing to divide.
    let given = pumps.iter().filter_map(|pump| pump.greatest_flow).fold(0.0, |sum, flow| sum + flow.nominal.si());
    if flow.value.si() > MOST_DIVIDED * given {
        return None;
    }
    let changed = machine.with_circuit(|place| divide(place, flow.value));
    // The relief on its port, set like any other, and with the divider once for all.
    let relief = solve_relief(&changed.setup.facts().traced_with(facts), &machine.hints(ChangeId::PriorityShare));
    let changed = changed.with_circuit(|place| {
        place.relief = relief.as_ref().map(|relief| own(relief.value, Unit::Bar)).or(place.relief);
        place.relief_range = None;
    });
    let relief = relief.map(|relief| solved(SettingId::Relief, relief));
    Some((changed, std::iter::once(solved(SettingId::Flow, flow)).chain(relief).collect()))
}

/// Sets a divider.
fn set_divider(place: &mut Circuit, flow: VolumeRate) {
    if let Some(divider) = &mut place.divider {
        divider.set_flow = as_printed(flow);
    }
}

/// Turns a fitted divider down to the flow that the head needs: never up, which its spring may not allow.
pub fn divider_flow<'m>(machine: Machine<'m>, facts: &Facts) -> Changed<'m> {
    let today = facts.circuit.divider.as_ref()?.set_flow.nominal;
    let flow = Solved::on(facts, || {
        regulator_holds(facts);
        solve_flow(facts, settings::FlowSteps::below(today), &machine.hints(ChangeId::DividerFlow), &set_divider)
    })?;
    let set = || machine.with_circuit(|place| set_divider(place, flow.value));
    (flow.value < today).then(|| (set(), vec![solved(SettingId::Flow, flow.clone())]))
}

/// Fits a relief to the priority port of a fitted divider, set like any other: with the port blocked the machine keeps its functions and
/// its pumps their relief.
pub fn divider_relief<'m>(machine: Machine<'m>, facts: &Facts, option: &ChangeOption) -> Changed<'m> {
    fitted_relief(machine, facts, ChangeId::DividerRelief, option.rated_pressure?.nominal, |place, pressure| {
        reset_relief(place, pressure);
        place.relief_role = Some(ReliefRole::WorkLimit);
        place.relief_range = None;
    })
}

/// Fits a relief and sets it, from 50 bar up to a pressure. Where there is a divider it protects the divider's port too.
fn fitted_relief<'m>(
    machine: Machine<'m>,
    facts: &Facts,
    change: ChangeId,
    most: Pressure,
    fit: impl Fn(&mut Circuit, Pressure),
) -> Changed<'m> {
    let set = |place: &mut Circuit, pressure: Pressure| {
        fit(place, pressure);
        if let Some(divider) = &mut place.divider {
            divider.port_relief = Some(true);
        }
    };
    let low = Pressure::from_si(Unit::Bar.to_si(50.0));
    let pressure = Solved::on(facts, || solve_pressure(facts, (low, most), &machine.hints(change), &set))?;
    let id = if change == ChangeId::OwnRelief { SettingId::HeadRelief } else { SettingId::Relief };
    Some((machine.with_circuit(|place| set(place, pressure.value)), vec![solved(id, pressure)]))
}

/// Resets the relief.
pub fn reset_relief(place: &mut Circuit, pressure: Pressure) {
    place.relief = Some(own(pressure, Unit::Bar));
}

/// Resets the circuit's relief within what the machine's maker allows.
pub fn relief_setting<'m>(machine: Machine<'m>, facts: &Facts) -> Changed<'m> {
    let pressure = solve_relief(facts, &machine.hints(ChangeId::ReliefSetting))?;
    let changed = machine.with_circuit(|place| reset_relief(place, pressure.value));
    Some((changed, vec![solved(SettingId::Relief, pressure)]))
}

/// Fits a relief block of the head's own, where the machine's relief stands too high and stays: it opens well below that.
pub fn own_relief<'m>(machine: Machine<'m>, facts: &Facts, option: &ChangeOption) -> Changed<'m> {
    let valve = facts.circuit.relief?.nominal;
    let most = option.rated_pressure.map_or(valve, |rated| rated.nominal);
    fitted_relief(machine, facts, ChangeId::OwnRelief, most, |place, pressure| {
        place.head_relief = Some(own(pressure, Unit::Bar));
    })
}

/// Idles the oil warm at little flow: the lowest temperature, in steps of a kelvin, from which every check of the cold holds. Only
/// where the flow can be set low, so that it warms without harm: to half or less (common practice, no published source).
pub fn warm_up<'m>(machine: Machine<'m>, facts: &Facts) -> Changed<'m> {
    let circuit = facts.circuit;
    let low = circuit.flow_setting.as_ref()?.range.low;
    if circuit.divider.is_some() || low > circuit.flow?.nominal * 0.5 {
        return None;
    }
    let temperature = Solved::on(facts, || {
        let kelvin = |t: f64| ThermodynamicTemperature::from_si(Unit::Celsius.to_si(t));
        facts.by_practice(Context::WarmestStart, kelvin(WARMEST_START_CELSIUS));
        let asked = facts.untraced();
        let tried = Tried::on(facts);
        let holds = |temperature: ThermodynamicTemperature| {
            let holds = COLD_CHECKS.iter().all(|&id| !checks::outcome(id, &asked, temperature).fails());
            tried.with(temperature, || if holds { Vec::new() } else { too_cold(&asked, temperature) });
            holds
        };
        let warm = facts.by_practice(Context::WarmEnough, asked.warm_enough);
        let first = Unit::Celsius.of_si(warm.si()).floor() + 1.0;
        let at = |steps: u32| kelvin(first + f64::from(steps));
        if first > WARMEST_START_CELSIUS {
            return None;
        }
        let last = settings::steps(WARMEST_START_CELSIUS - first, f64::floor);
        let lowest = lowest_that(0, last, |steps| holds(at(steps)))?;
        Some(tried.taken(at(lowest)))
    })?;
    let changed = machine.with_circuit(|place| place.warm_up = Some(own(temperature.value, Unit::Celsius)));
    Some((changed, vec![solved(SettingId::OilTemperature, temperature)]))
}

/// The full-flow pressure to set within what the machine allows; see [`solve_pressure`]. None when the relief may not be
/// moved or the need is not known.
fn solve_relief(facts: &Facts, hints: &Hints) -> Option<Solved<Pressure>> {
    let range = facts.circuit.relief_range?;
    Solved::on(facts, || solve_pressure(facts, (range.low, range.high), hints, &reset_relief))
}
