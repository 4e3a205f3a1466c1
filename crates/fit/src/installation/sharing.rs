//! How head and functions share the pumps' oil: what the operator feels.

use super::states::balanced;
use crate::assume::EXCESS_BAR;
use crate::facts::{Facts, least_rated, rated_pressure_of};
use crate::sample::{Corner, End, Parameter, Sample};
use crate::{FactId, Load, Sharing};
use hydraulics::balance::{Balanced, DividedPumps, Leg};
use hydraulics::valve::Divider;
use quantity::{Amount, Fact, Power, Pressure, Quantity, Ratio, ThermodynamicTemperature, VolumeRate};
use table::{AssumptionId, LimiterSum, Pump};

/// Flows at one load.
struct Shared {
    head: VolumeRate,
    /// Of all pumps that share with the head.
    pumps: VolumeRate,
    functions: VolumeRate,
    /// What the functions have today at their pressure.
    today: VolumeRate,
}

/// A pump that shares with the head.
struct Sharer {
    /// Its flow at no pressure.
    greatest: VolumeRate,
    /// What it leaks at `leak_at`.
    leak: VolumeRate,
    /// The pressure for which it is rated.
    leak_at: Pressure,
    /// Whether it feeds the head's circuit.
    feeds: bool,
}

/// Pressure of the functions while the head works: as stated, else usual.
fn functions_pressure(facts: &Facts) -> Parameter<Pressure> {
    let stated = facts.carrier.functions.as_ref().and_then(|functions| functions.pressure);
    Parameter::or_assumed(
        FactId::Functions,
        stated.map(|stated| {
            Fact::Known(quantity::Interval::exact(stated.nominal), quantity::Provenance::exactly(stated.source))
        }),
        AssumptionId::FunctionsPressure,
        facts.practice.range(AssumptionId::FunctionsPressure),
    )
}

/// The pumps that share with the head: those of the circuit, and those in a power group with one of them.
fn sharing_pumps<'a>(facts: &'a Facts) -> Vec<(&'a Pump, bool)> {
    let feeds = |pump: &Pump| facts.circuit.pumps.contains(&pump.id);
    let groups: Vec<_> = facts.pumps_of_circuit().filter_map(|pump| pump.power_group.as_ref()).collect();
    let shares =
        |pump: &&'a Pump| feeds(pump) || pump.power_group.as_ref().is_some_and(|group| groups.contains(&group));
    facts.carrier.pumps.iter().filter(shares).map(|pump| (pump, feeds(pump))).collect()
}

fn shared(facts: &Facts, sample: &Sample, load: Load, temperature: ThermodynamicTemperature) -> Option<Shared> {
    let none = VolumeRate::from_si(0.0);
    let (circuit, at) = balanced(facts, sample, load, temperature);
    let (Balanced::Turns(at) | Balanced::Stalls(at)) = at else { return None };
    let pressure = sample.take(&functions_pressure(facts), End::High);
    let limit: Power = sample.take(&facts.power, End::Low);
    let leak: Ratio = sample.take(&facts.leak, End::High);
    let rated = |pump: &Pump| {
        let rated: Pressure = sample.take(&rated_pressure_of(Some(pump), &facts.practice), End::Low);
        rated.max(least_rated())
    };
    let one = |(pump, feeds): (&Pump, bool)| {
        let greatest = pump.greatest_flow?.nominal;
        Some(Sharer { greatest, leak: greatest * leak.si(), leak_at: rated(pump), feeds })
    };
    let pumps: Option<Vec<Sharer>> = sharing_pumps(facts).into_iter().map(one).collect();
    let pumps = pumps.filter(|pumps| !pumps.is_empty())?;
    if let Some(divider) = &facts.circuit.divider {
        let feeding = pumps.iter().filter(|pump| pump.feeds).count().max(1);
        // A count of pumps.
        #[allow(clippy::cast_precision_loss)]
        let set = divider.set_flow.nominal / feeding as f64;
        let loss =
            facts.practice.range::<Pressure>(AssumptionId::DividerLoss).map_or(Pressure::from_si(0.0), |r| r.nominal);
        let excess = Pressure::from_si(EXCESS_BAR * 1e5);
        let leg = |pump: &Sharer| Leg {
            greatest: pump.greatest,
            leak: pump.leak,
            leak_at: pump.leak_at,
            functions: pressure,
            divider: pump.feeds.then_some(Divider { set, metering: loss, excess }),
        };
        let group = facts.pumps_of_circuit().find_map(|pump| pump.power_group.as_ref());
        let sum = facts.carrier.power_groups.iter().find(|known| Some(&known.id) == group).and_then(|group| group.sum);
        let legs = pumps.iter().map(leg).collect();
        let divided = DividedPumps { legs, limit: Some(limit), sum: sum.unwrap_or(LimiterSum::PressureSum) };
        let at_head = (at.supply - loss).max(Pressure::from_si(0.0));
        let legs = divided.at(at_head);
        let head = legs.iter().fold(none, |sum, leg| sum + leg.head);
        let functions = legs.iter().fold(none, |sum, leg| sum + leg.functions);
        let today =
            divided.left(at_head).map_or(none, |left| if left.si() > 0.0 { functions / left.si() } else { none });
        let today = if today > none { today } else { whole(&pumps, limit, pressure) };
        return Some(Shared { head, pumps: head + functions, functions, today });
    }
    // Through the valve: what flow and power are left of the pumps, at the highest load that they then carry.
    let at_pump = circuit.source.pump_pressure(at.supply);
    let others = pumps.iter().any(|pump| !pump.feeds);
    let carries = if others { pressure } else { pressure.max(at_pump) };
    let flow_left = whole(&pumps, Power::from_si(f64::INFINITY), at_pump) - at.flow;
    let power_left = limit - at_pump * at.flow;
    let by_power = if carries.si() > 0.0 { power_left / carries } else { flow_left };
    let functions = if by_power < flow_left { by_power } else { flow_left }.max(none);
    let today = whole(&pumps, limit, pressure);
    Some(Shared { head: at.flow, pumps: at.flow + functions, functions, today })
}

/// All that pumps give at a pressure under a limit.
fn whole(pumps: &[Sharer], limit: Power, at: Pressure) -> VolumeRate {
    let none = VolumeRate::from_si(0.0);
    let of = |pump: &Sharer| (pump.greatest - pump.leak * (at / pump.leak_at).si()).max(none);
    let flow = pumps.iter().fold(none, |sum, pump| sum + of(pump));
    let by_power = if at.si() > 0.0 { limit / at } else { flow };
    if by_power < flow { by_power } else { flow }
}

/// Flow left to the functions at work; none when something is missing, which the sample notes, or the head does not turn.
pub fn left_at_work(facts: &Facts, sample: &Sample, temperature: ThermodynamicTemperature) -> Option<VolumeRate> {
    shared(facts, sample, Load::Working, temperature)
        .filter(|_| sample.missing().is_empty())
        .map(|shared| shared.functions)
}

/// How head and functions share at likely figures; none when something is missing.
pub fn sharing(facts: &Facts) -> Option<Sharing> {
    let sample = facts.sample(Corner::Likely);
    let at = |load| shared(facts, &sample, load, facts.conditions.working).filter(|shared| shared.pumps.si() > 0.0);
    let (work, free) = (at(Load::Working)?, at(Load::Free)?);
    if !sample.missing().is_empty() {
        return None;
    }
    let left = (work.today.si() > 0.0).then(|| Amount::of(Ratio::from_si((work.functions / work.today).si().min(1.0))));
    Some(Sharing { at_work: Amount::of(work.head / work.pumps), free: Amount::of(free.head / free.pumps), left })
}
