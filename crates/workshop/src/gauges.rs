//! Where instruments go, of which range, and what protects them. Common practice, no published source, but where a line says
//! otherwise.

use super::gauge_point::GaugePoint;
use super::job::proves_coast_down;
use super::parts::{Parts, up};
use super::readings::{Found, Reading};
use super::{Job, Value};
use fit::facts::either_line_is_fed;
use quantity::{Amount, Pressure, Quantity, Unit, VolumeRate};
use serde::Serialize;
use table::ReturnRoute;

/// How far a gauge may be off, as a share of its full scale: class 1.6.
pub const GAUGE_CLASS: f64 = 0.016;
/// How far a flow tester may be off, as a share of its reading.
pub const FLOW_TESTER: f64 = 0.02;
/// How far a tachometer may be off, as a share of its reading.
pub const TACHOMETER: f64 = 0.005;
/// How far a flow measured by bucket and stopwatch may be off, as a share of it.
pub const BUCKET: f64 = 0.05;
/// How far a thermometer may be off, K.
pub const THERMOMETER: f64 = 2.0;
/// The greatest reading stands no higher than this on the dial: the middle third is read best.
const MOST_OF_SCALE: f64 = 2.0 / 3.0;
/// Full scales of gauges, bar: the series of EN 837-1, from memory.
const SCALES: [f64; 11] = [4.0, 6.0, 10.0, 16.0, 25.0, 40.0, 60.0, 100.0, 160.0, 250.0, 400.0];
/// The next ones.
const LARGE_SCALES: [f64; 3] = [600.0, 1000.0, 1600.0];

/// What is read with.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Instrument {
    /// A pressure gauge of class 1.6.
    Pressure {
        /// Its full scale.
        full_scale: Amount,
        /// What keeps it whole.
        protection: Protection,
        /// What can reach it at the most, where that is known to be more than it shows.
        bears: Option<Amount>,
    },
    /// A flow tester with a load valve and a burst disc.
    FlowTester {
        /// The flow that it must take.
        takes: Amount,
    },
    /// A tachometer.
    Tachometer,
    /// A bucket and a stopwatch.
    Bucket,
    /// A thermometer.
    Thermometer,
    /// A transmitter that shows vacuum and bears the inlet's pressure as well.
    Vacuum {
        /// Up to which pressure it must go.
        full_scale: Amount,
    },
}

/// What keeps a gauge whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Protection {
    /// A snubber.
    Snubber,
    /// A snubber and a cock, open only while it turns steadily: the line can see far more than the dial shows.
    SnubberAndCock,
}

/// An instrument at its place.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Gauge {
    /// Where it goes.
    pub at: GaugePoint,
    /// What it is.
    pub instrument: Instrument,
}

/// The smallest full scale that shows a pressure in its middle third, or below.
pub fn full_scale(greatest: Pressure) -> Pressure {
    let bar = Unit::Bar.of_si(greatest.si());
    let mut all = SCALES.iter().chain(&LARGE_SCALES);
    let scale = all.find(|scale| bar <= *scale * MOST_OF_SCALE).unwrap_or(&LARGE_SCALES[LARGE_SCALES.len() - 1]);
    Pressure::from_si(Unit::Bar.to_si(*scale))
}

/// The instruments for some readings as solved, each place once; the readings are widened by what their instrument may be off.
pub(super) fn gauges(job: &Job, readings: &mut [Reading], values: &[Value]) -> Vec<Gauge> {
    let places = [
        GaugePoint::Flow,
        GaugePoint::Pump,
        GaugePoint::HeadInlet,
        GaugePoint::HeadOutlet,
        GaugePoint::Case,
        GaugePoint::Rotor,
    ];
    let mut all = Vec::new();
    for at in places {
        let here = readings.iter().filter(|reading| reading.at == at);
        let found = here.clone().filter_map(|reading| match &reading.found {
            Found::Expected { reads } => Some(reads.high.si()),
            Found::NotKnown { .. } => None,
        });
        let Some(read) = found.max_by(f64::total_cmp) else { continue };
        // It must show that a limit is passed, not stand at its end there.
        let greatest = here.filter_map(|reading| reading.not_above).map(Amount::si).fold(read, f64::max);
        let share = match at {
            GaugePoint::Flow => FLOW_TESTER,
            GaugePoint::Rotor => TACHOMETER,
            _ => 0.0,
        };
        let mut fixed = Pressure::from_si(0.0);
        let instrument = match at {
            GaugePoint::Flow => {
                Instrument::FlowTester { takes: Amount::of(VolumeRate::from_si(greatest * (1.0 + FLOW_TESTER))) }
            }
            GaugePoint::Rotor => Instrument::Tachometer,
            _ => {
                let scale = full_scale(Pressure::from_si(greatest));
                fixed = GAUGE_CLASS * scale;
                let full_scale = Amount::of(scale);
                let bears = comes(job, at).filter(|comes| comes.si() > scale.si());
                Instrument::Pressure { full_scale, protection: protection(job, at), bears }
            }
        };
        for reading in readings.iter_mut().filter(|reading| reading.at == at) {
            reading.allow_for(fixed.si(), share);
        }
        all.push(Gauge { at, instrument });
    }
    // A tool's relief and one on the return are read at their own places, wherever they were set.
    for value in values {
        let at = match value.at {
            GaugePoint::Tool | GaugePoint::Bench => GaugePoint::Tool,
            GaugePoint::Return => GaugePoint::Return,
            _ => continue,
        };
        let full_scale = Amount::of(full_scale(Pressure::from_si(value.on.high.si())));
        let instrument = Instrument::Pressure { full_scale, protection: Protection::Snubber, bears: None };
        all.push(Gauge { at, instrument });
    }
    let inlet = all.iter().find(|gauge| gauge.at == GaugePoint::HeadInlet).map(|gauge| gauge.instrument);
    if let (true, Some(Instrument::Pressure { full_scale, .. })) = (proves_coast_down(job), inlet) {
        all.push(Gauge { at: GaugePoint::HeadInlet, instrument: Instrument::Vacuum { full_scale } });
    }
    all
}

/// What can reach a gauge at the attachment.
pub fn comes(job: &Job, at: GaugePoint) -> Option<Amount> {
    let parts = Parts { before: job.before.carrier, after: job.after, head: job.head, conditions: job.conditions };
    let pressure = match at {
        GaugePoint::HeadInlet => parts.on_supply(),
        GaugePoint::HeadOutlet => parts.on_return(),
        _ => return None,
    };
    pressure.ok().map(|pressure| up(pressure, Unit::Bar, 1.0))
}

/// A low-range gauge stays open to the line only where nothing can put more on it: never where the return can shut or be
/// reversed, and a spool shuts it each time that the lever is let go.
pub fn protection(job: &Job, at: GaugePoint) -> Protection {
    let path = &job.after.circuit.return_path;
    let open = path.route == Some(ReturnRoute::Direct) && path.can_be_shut == Some(false);
    match at {
        GaugePoint::HeadOutlet if !open || either_line_is_fed(job.after.circuit) => Protection::SnubberAndCock,
        GaugePoint::Case if !job.has_case_line() => Protection::SnubberAndCock,
        _ => Protection::Snubber,
    }
}
