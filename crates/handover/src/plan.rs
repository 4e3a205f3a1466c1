//! What is to be read on the machine as it goes to work, by which instrument, and what should be found.
//!
//! Pressures, speeds and their ends are those of the fitter's sheet. A flow is read by a tester whose load valve is set to the
//! pressure that the inlet should have: what the way back loses has no part in it, and the flow over the pressure tells leak, limiter,
//! relief and setting apart.

use super::{Circumstances, Measurement};
use fit::assume::{ENGINE_SPEED, HEAT_BAND};
use fit::facts::{Extreme, Facts, known};
use fit::installation::heat_up::{HeatUp, Otherwise};
use fit::sample::{Corner, Sample};
use fit::{Conditions, FactId, Load, Pairing};
use hydraulics::oil::HOT_STOP_CELSIUS;
use hydraulics::{Circuit, Resistance};
use quantity::{
    Amount, AngularVelocity, Interval, Power, Pressure, Quantity, Ratio, Stated, ThermodynamicTemperature, Time, Unit,
    VolumeRate,
};
use serde::Serialize;
use table::{Carrier, Head};
use workshop::gauges::{BUCKET, THERMOMETER, comes, full_scale, protection};
use workshop::readings::{around, limits, readings};
use workshop::{Expected, Found, Gauge, GaugePoint, Instrument, Job, Reading};

/// At which share of the pressure where the circuit ends the last flow is read.
pub const NEAR_RELIEF: f64 = 0.9;
/// How long the oil is warmed at work before it is read again.
pub const WARMED_MINUTES: f64 = 30.0;

/// Something to be read.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Planned {
    /// What.
    pub what: Measurement,
    /// Where, under which load, and what should be found. What is only to be known before the start has nothing expected and
    /// nothing missing.
    pub reading: Reading,
    /// By which instrument; none for the engine's speed, which the display or a tachometer shows.
    pub gauge: Option<Gauge>,
    /// The pressure to which the tester's load valve is set.
    pub set_to: Option<Amount>,
}

/// What is to be read on the machine as it goes to work, changes made; nothing where the pairing does not go to work.
/// `carrier` is the machine as it is today: the same that was judged, with the same head and conditions.
pub fn plan(
    pairing: &Pairing,
    carrier: &Carrier,
    head: &Head,
    conditions: &Conditions,
    at: &Circumstances,
) -> Vec<Planned> {
    let at = at.sound();
    let Some(job) = Job::of(pairing, carrier, head, conditions) else { return Vec::new() };
    let (oil, conditions) = at.conditions(conditions);
    let facts = Facts::gather(job.after.carrier, job.after.circuit, job.head, &conditions);
    let sheet = readings(&job, oil);
    let mut all: Vec<Planned> = Vec::new();
    let planner = Planner { facts: &facts, sheet: &sheet, oil, at: &at };
    for &what in <Measurement as quantity::Named>::ALL {
        let Some((found, set_to)) = planner.found(what) else { continue };
        let (not_below, not_above) = bounds(&job, what);
        let (at, load) = (what.at(), what.load());
        let reading = Reading { at, load, found, not_below, not_above, stop: not_above, finer: None };
        all.push(Planned { what, reading, gauge: None, set_to: set_to.map(Amount::of) });
    }
    give_instruments(&job, &mut all, &at);
    all
}

/// One machine with one head, as it is read.
struct Planner<'a> {
    facts: &'a Facts<'a>,
    sheet: &'a [Reading],
    oil: ThermodynamicTemperature,
    at: &'a Circumstances,
}

impl Planner<'_> {
    /// What should be found, and to what the load valve is set; none for what there is not on this machine and head.
    fn found(&self, what: Measurement) -> Option<(Found, Option<Pressure>)> {
        use Measurement as M;
        let plain = |found: Option<Found>| found.map(|found| (found, None));
        match what {
            M::OilStart | M::Air => Some((Found::NotKnown { missing: Vec::new() }, None)),
            M::EngineFree => plain(Some(engine(self.facts.carrier.engine.high_idle.as_ref(), FactId::HighIdle))),
            M::EngineWorking => {
                plain(Some(engine(self.facts.carrier.engine.working_speed.as_ref(), FactId::WorkingSpeed)))
            }
            M::FlowFree | M::FlowWorking | M::FlowNearRelief | M::FlowBusy => self.by_tester(what),
            M::CaseFlow => {
                self.sheet(GaugePoint::Case, Load::Working)?;
                plain(Some(self.case_flow()))
            }
            M::MotorWorking => plain(self.motor()),
            M::OilAfter => plain(Some(self.oil_after())),
            _ => plain(self.sheet(what.at(), what.load()).map(|reading| reading.found.clone())),
        }
    }

    fn sheet(&self, at: GaugePoint, load: Load) -> Option<&Reading> {
        self.sheet.iter().find(|reading| reading.at == at && reading.load == load)
    }

    /// The pressure to which the tester's load valve is set.
    fn set_to(&self, what: Measurement) -> Option<Result<Pressure, Vec<FactId>>> {
        let load = match what {
            Measurement::FlowNearRelief => Load::Stalled,
            _ => what.load(),
        };
        let reading = self.sheet(GaugePoint::HeadInlet, load)?;
        Some(match &reading.found {
            Found::Expected { reads } => {
                let inlet = Pressure::from_si(reads.nominal.si());
                Ok(if load == Load::Stalled { inlet * NEAR_RELIEF } else { inlet })
            }
            Found::NotKnown { missing } => Err(missing.clone()),
        })
    }

    fn by_tester(&self, what: Measurement) -> Option<(Found, Option<Pressure>)> {
        let set = match self.set_to(what)? {
            Ok(set) => set,
            Err(missing) => return Some((Found::NotKnown { missing }, None)),
        };
        let mut facts = self.facts.clone();
        if what == Measurement::FlowBusy {
            facts.state.functions = facts.functions_at_work();
            if facts.state.functions.is_none() {
                return Some((Found::NotKnown { missing: vec![FactId::Functions] }, Some(set)));
            }
        }
        // The load valve is set by a gauge that may be off too.
        let greatest = self.sheet(GaugePoint::HeadInlet, Load::Stalled).and_then(|reading| match &reading.found {
            Found::Expected { reads } => Some(reads.high.si()),
            Found::NotKnown { .. } => None,
        });
        let off = full_scale(Pressure::from_si(greatest.unwrap_or(set.si()))) * self.at.instruments.pressure.si();
        let (nominal, worst) = (Sample::new(Corner::Likely), Sample::new(Corner::Worst));
        let flow = |sample: &Sample, lean, pressure: Pressure| {
            through_tester(&facts.circuit(sample, lean, self.oil), pressure)
        };
        let likely = flow(&nominal, Extreme::LeastFlow, set);
        if !nominal.missing().is_empty() {
            return Some((Found::NotKnown { missing: nominal.missing() }, Some(set)));
        }
        let least = flow(&worst, Extreme::LeastFlow, set + off);
        let most = flow(&worst, Extreme::MostFlow, (set - off).max(Pressure::from_si(0.0)));
        Some((Found::Expected { reads: Expected::of(around(likely, least, most)) }, Some(set)))
    }

    /// What runs off by the case line: as new at the least, worn at the most.
    fn case_flow(&self) -> Found {
        let flow = match self.by_tester(Measurement::FlowWorking) {
            Some((Found::Expected { reads }, _)) => reads,
            Some((Found::NotKnown { missing }, _)) => return Found::NotKnown { missing },
            None => return Found::NotKnown { missing: vec![FactId::CaseFlow] },
        };
        let draws = [Corner::Likely, Corner::Best, Corner::Worst].map(Sample::new);
        let leaks = |sample: &Sample, flow: Amount| self.facts.leaks(sample, VolumeRate::from_si(flow.si()), self.oil);
        let nominal = leaks(&draws[0], flow.nominal);
        if !draws[0].missing().is_empty() {
            return Found::NotKnown { missing: draws[0].missing() };
        }
        let (low, high) = (leaks(&draws[1], flow.low), leaks(&draws[2], flow.high));
        Found::Expected { reads: Expected::of(around(nominal, low, high)) }
    }

    /// The motor's shaft, where a belt or gear is between it and the rotor.
    fn motor(&self) -> Option<Found> {
        let rotor = self.sheet(GaugePoint::Rotor, Load::Working)?;
        let ratio = self.facts.ratio.fact.interval().filter(|ratio| ratio.nominal.si() > 0.0)?.nominal.si();
        if (ratio - 1.0).abs() < 1e-9 {
            return None;
        }
        Some(match &rotor.found {
            Found::Expected { reads } => {
                let shaft = |speed: Amount| AngularVelocity::from_si(speed.si() / ratio);
                let interval =
                    Interval { low: shaft(reads.low), nominal: shaft(reads.nominal), high: shaft(reads.high) };
                Found::Expected { reads: Expected::of(interval) }
            }
            Found::NotKnown { missing } => Found::NotKnown { missing: missing.clone() },
        })
    }

    fn oil_after(&self) -> Found {
        let heats = match HeatUp::of(self.facts) {
            Ok(heats) => heats,
            Err(missing) => return Found::NotKnown { missing },
        };
        let after = |times: f64| {
            let (heat, cooler) = (Ratio::from_si(times), Ratio::from_si(1.0));
            let time = Time::from_si(Unit::Minute.to_si(WARMED_MINUTES));
            heats.after(self.oil, time, Otherwise { heat, more: Power::from_si(0.0), cooler })
        };
        let interval = Interval { low: after(1.0 / HEAT_BAND), nominal: after(1.0), high: after(HEAT_BAND) };
        Found::Expected { reads: Expected::of(interval) }
    }
}

/// The flow through a tester whose load valve holds a pressure at its inlet, whatever comes behind it.
pub(super) fn through_tester(circuit: &Circuit, set: Pressure) -> VolumeRate {
    let tester = Circuit { back: Resistance::default(), drain: None, ..circuit.clone() };
    tester.solve(set).map_or(VolumeRate::from_si(0.0), |point| point.flow)
}

fn engine(stated: Option<&Stated<AngularVelocity>>, fact: FactId) -> Found {
    match known(stated, ENGINE_SPEED).and_then(|fact| fact.interval()) {
        Some(interval) => Found::Expected { reads: Expected::of(interval) },
        None => Found::NotKnown { missing: vec![fact] },
    }
}

/// What the attachment bears and asks, and the oil.
fn bounds(job: &Job, what: Measurement) -> (Option<Amount>, Option<Amount>) {
    // It was judged for oil no hotter than this; what the thermometer may be off still lies below where oil must stop.
    let most = Unit::Celsius.to_si(HOT_STOP_CELSIUS).min(job.conditions.hot.si() + THERMOMETER);
    let hottest = ThermodynamicTemperature::from_si(most);
    match what {
        Measurement::OilStart => (job.pairing.warm_up, Some(Amount::of(hottest))),
        Measurement::OilAfter => (None, Some(Amount::of(hottest))),
        // What a tester takes near the relief, or functions leave, is no head's flow.
        Measurement::FlowNearRelief | Measurement::FlowBusy => (None, limits(job, what.at(), what.load()).1),
        _ => limits(job, what.at(), what.load()),
    }
}

/// Gives each place its instrument, of a range that shows all that is read there, and widens what is expected by what it may
/// be off.
fn give_instruments(job: &Job, all: &mut [Planned], circumstances: &Circumstances) {
    let instruments = circumstances.instruments;
    for at in [
        GaugePoint::Oil,
        GaugePoint::Air,
        GaugePoint::Engine,
        GaugePoint::Flow,
        GaugePoint::Pump,
        GaugePoint::HeadInlet,
        GaugePoint::HeadOutlet,
        GaugePoint::Case,
        GaugePoint::CaseFlow,
        GaugePoint::Rotor,
        GaugePoint::Motor,
    ] {
        let here = all.iter().filter(|planned| planned.reading.at == at);
        // It must show that a limit is passed, not stand at its end there.
        let greatest = here.flat_map(|planned| {
            let reads = match &planned.reading.found {
                Found::Expected { reads } => Some(reads.high.si()),
                Found::NotKnown { .. } => None,
            };
            reads.into_iter().chain(planned.reading.not_above.map(Amount::si))
        });
        let greatest = greatest.fold(0.0, f64::max);
        let (mut fixed, mut share) = (0.0, 0.0);
        let instrument = match at {
            GaugePoint::Oil | GaugePoint::Air => {
                fixed = THERMOMETER;
                Some(Instrument::Thermometer)
            }
            GaugePoint::Engine => {
                share = instruments.speed.si();
                None
            }
            GaugePoint::Rotor | GaugePoint::Motor => {
                share = instruments.speed.si();
                Some(Instrument::Tachometer)
            }
            GaugePoint::Flow => {
                share = instruments.flow.si();
                Some(Instrument::FlowTester { takes: Amount::of(VolumeRate::from_si(greatest * (1.0 + share))) })
            }
            GaugePoint::CaseFlow => {
                share = BUCKET;
                Some(Instrument::Bucket)
            }
            _ => {
                let scale = full_scale(Pressure::from_si(greatest));
                fixed = (scale * instruments.pressure.si()).si();
                let bears = comes(job, at).filter(|comes| comes.si() > scale.si());
                Some(Instrument::Pressure { full_scale: Amount::of(scale), protection: protection(job, at), bears })
            }
        };
        for planned in all.iter_mut().filter(|planned| planned.reading.at == at) {
            planned.gauge = instrument.map(|instrument| Gauge { at, instrument });
            planned.reading.allow_for(fixed, share);
        }
    }
}
