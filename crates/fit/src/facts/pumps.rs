//! Pumps and engine as facts.

use super::stated::{known, of_class, share};
use crate::FactId;
use crate::assume::{PUBLISHED_FLOW, PUBLISHED_POWER, PUBLISHED_PRESSURE, Practice};
use crate::sample::Parameter;
use crate::trace::Aspect;
use quantity::{
    AngularVelocity, Fact, Interval, Power, Pressure, Provenance, Quantity, Ratio, Source as SaidBy, SpreadFrom,
    Tolerance, VolumeRate,
};
use table::{AssumptionId, Carrier, PumpControl};

/// The sum of the greatest flows of the pumps that feed a circuit; none when one of them does not say.
pub(super) fn pump_flow(carrier: &Carrier, circuit: &table::Circuit) -> Option<Parameter<VolumeRate>> {
    if circuit.pumps.is_empty() {
        return None;
    }
    let mut sum = Interval::exact(VolumeRate::from_si(0.0));
    let mut said = Provenance::exactly(SaidBy::Measured);
    for id in &circuit.pumps {
        let stated = carrier.pumps.iter().find(|pump| pump.id == *id)?.greatest_flow.as_ref()?;
        let flow = stated.interval(PUBLISHED_FLOW);
        sum = Interval { low: sum.low + flow.low, nominal: sum.nominal + flow.nominal, high: sum.high + flow.high };
        let own = stated.said(PUBLISHED_FLOW);
        said = Provenance { source: own.source.min(said.source), spread: own.spread.max(said.spread) };
    }
    Some(Parameter::new(FactId::CircuitFlow, Fact::Known(sum, said)).as_aspect(Aspect::Pumps))
}

/// No pump is rated for less than 10 bar: a leakage needs a pressure above zero.
pub fn least_rated() -> Pressure {
    Pressure::from_si(1e6)
}

/// The pressure for which a pump is rated, which is that of its leakage: as stated, else by practice.
pub fn rated_pressure_of(pump: Option<&table::Pump>, practice: &Practice) -> Parameter<Pressure> {
    let stated = known(pump.and_then(|pump| pump.pressure.as_ref()), PUBLISHED_PRESSURE);
    let assumption = AssumptionId::PumpRatedPressure;
    Parameter::or_assumed(FactId::PumpCutOff, stated, assumption, practice.range(assumption))
}

/// The rated pressure that stands for all pumps of a circuit: `p_r = ΣQ_i / Σ(Q_i/p_i)`, so that `leak·ΣQ_i·p/p_r` is what
/// all of them leak. Where one of them does not say, it is no more than assumed.
pub(super) fn rated_pressure(carrier: &Carrier, circuit: &table::Circuit, practice: &Practice) -> Parameter<Pressure> {
    let pumps: Vec<_> = carrier.pumps.iter().filter(|pump| circuit.pumps.contains(&pump.id)).collect();
    let one = |pump| rated_pressure_of(pump, practice);
    let Some(first) = pumps.first() else { return one(None) };
    let flows: Option<Vec<f64>> = pumps.iter().map(|pump| Some(pump.greatest_flow?.nominal.si())).collect();
    let weights = flows.filter(|flows| flows.iter().all(|flow| *flow > 0.0)).unwrap_or(vec![1.0; pumps.len()]);
    let all: Vec<Parameter<Pressure>> = pumps.iter().map(|pump| one(Some(pump))).collect();
    let mean = |end: fn(Interval<Pressure>) -> Pressure| {
        let of_each =
            all.iter().zip(&weights).filter_map(|(input, weight)| Some((end(input.fact.interval()?), weight)));
        let (flow, leaks) = of_each.fold((0.0, 0.0), |(flow, leaks), (rated, weight)| {
            (flow + weight, leaks + weight / rated.max(least_rated()).si())
        });
        Pressure::from_si(flow / leaks)
    };
    if pumps.len() == 1 || all.iter().any(|input| input.fact == Fact::Missing) {
        return one(Some(first));
    }
    let interval = Interval { low: mean(|i| i.low), nominal: mean(|i| i.nominal), high: mean(|i| i.high) };
    let said = all.iter().map(|input| match input.fact {
        Fact::Known(_, said) => Some(said),
        Fact::Assumed(_) | Fact::Missing => None,
    });
    let said = said.reduce(|a, b| {
        let (a, b) = (a?, b?);
        Some(Provenance { source: a.source.min(b.source), spread: a.spread.max(b.spread) })
    });
    let known = said.flatten().map(|said| Fact::Known(interval, said));
    Parameter::or_assumed(FactId::PumpCutOff, known, AssumptionId::PumpRatedPressure, Some(interval))
}

/// The greatest of the margins that the pumps of a circuit keep, else that of practice.
pub(super) fn margin(carrier: &Carrier, circuit: &table::Circuit, practice: &Practice) -> Parameter<Pressure> {
    let of = |id: &table::Id| carrier.pumps.iter().find(|pump| pump.id == *id)?.margin;
    let greatest = circuit.pumps.iter().filter_map(of).max_by(|a, b| a.nominal.si().total_cmp(&b.nominal.si()));
    let stated = known(greatest.as_ref(), PUBLISHED_PRESSURE);
    Parameter::or_assumed(
        FactId::PumpMargin,
        stated,
        AssumptionId::LoadSensingMargin,
        practice.range(AssumptionId::LoadSensingMargin),
    )
}

/// The lowest of the pressures at which the pumps of a circuit cut off: assumed where one of them does not say, or where no
/// pump is stated at all; none when all of them are fixed.
pub(super) fn cut_off(carrier: &Carrier, circuit: &table::Circuit, practice: &Practice) -> Option<Parameter<Pressure>> {
    let mut pumps = carrier.pumps.iter().filter(|pump| circuit.pumps.contains(&pump.id)).peekable();
    if pumps.peek().is_none() {
        return Some(rated_pressure_of(None, practice));
    }
    let strokes = |pump: &&table::Pump| pump.control != Some(PumpControl::Fixed);
    let cuts = pumps.filter(strokes).map(|pump| rated_pressure_of(Some(pump), practice));
    let lowest = cuts.reduce(|a, b| match (a.fact, b.fact) {
        (Fact::Missing, _) => a,
        (_, Fact::Missing) => b,
        (Fact::Known(one, _), Fact::Known(other, _)) => {
            if other.nominal < one.nominal {
                b
            } else {
                a
            }
        }
        (Fact::Known(one, _) | Fact::Assumed(one), Fact::Known(other, _) | Fact::Assumed(other)) => {
            let unstated = if a.fact.is_known() { b } else { a };
            let lowest = Interval {
                low: one.low.min(other.low),
                nominal: one.nominal.min(other.nominal),
                high: one.high.min(other.high),
            };
            Parameter { fact: Fact::Assumed(lowest), ..unstated }
        }
    })?;
    let known = lowest.fact.is_known();
    Some(if known { lowest.as_aspect(Aspect::CutOff) } else { lowest })
}

/// How the pumps of a circuit are commanded, when all say the same.
pub(super) fn commanded(carrier: &Carrier, circuit: &table::Circuit) -> Option<PumpControl> {
    let mut pumps = carrier.pumps.iter().filter(|pump| circuit.pumps.contains(&pump.id));
    let first = pumps.next()?.control;
    first.filter(|_| pumps.all(|pump| pump.control == first))
}

/// The flow to which the circuit can be turned up without tools: its greatest, whatever it is set to, unless the setting
/// can be locked.
pub(super) fn reachable(
    circuit: &table::Circuit,
    flow: Parameter<VolumeRate>,
    pumps: Option<Parameter<VolumeRate>>,
) -> Parameter<VolumeRate> {
    // Of a valve of which no flow is stated no more can come than its pumps give.
    if let (Fact::Missing, Some(pumps)) = (flow.fact, pumps) {
        return pumps;
    }
    let Some(setting) = circuit.flow_setting.as_ref().filter(|_| circuit.divider.is_none()) else { return flow };
    if setting.locked == Some(true) {
        return flow;
    }
    match flow.fact {
        Fact::Known(interval, source) if interval.nominal < setting.range.high => {
            let most = Interval::around(setting.range.high, PUBLISHED_FLOW);
            Parameter { fact: Fact::Known(most, source), ..flow }.as_aspect(Aspect::TurnedUp)
        }
        _ => flow,
    }
}

/// High idle over working speed: from both speeds, else practice.
pub(super) fn idle_ratio(carrier: &Carrier, practice: &Practice) -> Parameter<Ratio> {
    let engine = &carrier.engine;
    let known = engine.high_idle.as_ref().zip(engine.working_speed.as_ref()).map(|(idle, working)| {
        let (fast, slow) = (idle.interval(Tolerance::NONE), working.interval(Tolerance::NONE));
        let ratio = |fast: AngularVelocity, slow: AngularVelocity| share((fast / slow).si().max(1.0));
        let interval = Interval {
            low: ratio(fast.low, slow.high),
            nominal: ratio(fast.nominal, slow.nominal),
            high: ratio(fast.high, slow.low),
        };
        Fact::Known(interval, Provenance::exactly(idle.source))
    });
    let range = practice.range::<Ratio>(AssumptionId::EngineDroop).map(|droop| droop.map(|d| share(1.0 + d.si())));
    Parameter {
        physical_limits: (1.0, 1.2),
        ..Parameter::or_assumed(FactId::HighIdle, known, AssumptionId::EngineDroop, range)
    }
}

/// Hydraulic power that the pumps of a circuit may give: the sum of the limits of their groups (the other pumps of a
/// group idle), else what practice leaves of the engine.
pub(super) fn pump_power(carrier: &Carrier, circuit: &table::Circuit, practice: &Practice) -> Parameter<Power> {
    let physical_limits = (0.0, 2e6);
    let pumps: Vec<_> = carrier.pumps.iter().filter(|pump| circuit.pumps.contains(&pump.id)).collect();
    let mut sum = Some(Interval::exact(Power::from_si(0.0)));
    let mut seen = Vec::new();
    for pump in &pumps {
        let stated = match &pump.power_group {
            Some(group) if seen.contains(&group) => continue,
            Some(group) => {
                seen.push(group);
                carrier.power_groups.iter().find(|g| g.id == *group).and_then(|g| g.limit.as_ref())
            }
            None => pump.power_limit.as_ref(),
        };
        sum = sum.zip(stated).map(|(sum, stated)| {
            let own = stated.interval(PUBLISHED_POWER);
            Interval { low: sum.low + own.low, nominal: sum.nominal + own.nominal, high: sum.high + own.high }
        });
    }
    if let (Some(sum), false) = (sum, pumps.is_empty()) {
        let fact = Fact::Known(sum, Provenance { source: SaidBy::Published, spread: SpreadFrom::Practice });
        return Parameter { physical_limits, ..Parameter::new(FactId::PowerLimit, fact) };
    }
    let stated = known(carrier.engine.power.as_ref(), PUBLISHED_POWER);
    let engine = of_class(FactId::EnginePower, stated, AssumptionId::EnginePower, carrier, practice);
    let (assumption, engine) = (engine.assumption, engine.fact.interval());
    let shares: Option<Interval<Ratio>> = practice.range(AssumptionId::PumpPowerShare);
    let efficiency: Option<Interval<Ratio>> = practice.range(AssumptionId::PumpEfficiency);
    let range = engine.zip(shares).zip(efficiency).map(|((engine, share), eta)| Interval {
        low: engine.low * share.low * eta.low,
        nominal: engine.nominal * share.nominal * eta.nominal,
        high: engine.high * share.high * eta.high,
    });
    let assumption = assumption.unwrap_or(AssumptionId::PumpPowerShare);
    Parameter { physical_limits, ..Parameter::or_assumed(FactId::PowerLimit, None, assumption, range) }
}
