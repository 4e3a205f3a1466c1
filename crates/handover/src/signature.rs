//! What each fault makes of all readings, solved once for the circumstances: so that only arithmetic is left when a figure is typed.

use super::fault::Fault;
use super::normal::{Column, Covariance};
use super::plan::{Planned, plan};
use super::reads::{COUNT, Reads};
use super::rig::Rig;
use super::site::Site;
use super::spread::{Range, Spread};
use super::{Circumstances, Measurement};
use fit::facts::Facts;
use fit::pace::{Pace, Steadily, at_once, step};
use fit::{Conditions, Pairing};
use quantity::{Named, Pressure, Quantity};
use table::{Carrier, Head};
use workshop::gauges::{BUCKET, THERMOMETER, full_scale};
use workshop::{Found, Instrument, Job};

/// How exactly a steady figure is read twice, as a share of it, besides what the instrument may be off (common practice, no published
/// source).
const READ_TWICE: f64 = 0.005;

/// Everything that a diagnosis of one machine with one head needs, whatever is read.
#[derive(Clone, Debug)]
pub struct Signatures {
    pub(super) plan: Vec<Planned>,
    pub(super) scales: Scales,
    /// The sound machine; none where no circuit can be solved.
    pub(super) sound: Option<Hypothesis>,
    pub(super) faults: Vec<Faulty>,
    /// The machine itself, to be fitted to readings, and how far each thing may differ.
    pub(super) site: Option<Site>,
    pub(super) spreads: Vec<(Spread, Range)>,
}

/// A fault at each severity that is looked at.
#[derive(Clone, Debug)]
pub(super) struct Faulty {
    pub fault: Fault,
    pub at: Vec<(f64, Hypothesis)>,
}

/// By how much, on the scales of the diagnosis, a fault must move a reading to be seen in it: a thousandth of what is read.
const MOVED: f64 = 1e-3;

/// A machine in one state: what is read on it, on the scales of the diagnosis, and how that may move.
#[derive(Clone, Debug)]
pub(super) struct Hypothesis {
    /// What is likely read.
    pub reads: Reads,
    /// What is likely read, on the scales of the diagnosis.
    pub on_scale: [f64; COUNT],
    /// What a standard deviation of each thing that may differ moves, on scale.
    pub moves: Vec<[f64; COUNT]>,
}

/// The scales on which readings are compared: straight near nothing, where an instrument's class counts, and logarithmic above,
/// where shares count: asinh(v/v_0).
#[derive(Clone, Debug)]
pub(super) struct Scales {
    /// v_0 of each.
    knee: [f64; COUNT],
    /// What its instrument scatters by, all of it and as a share of what it shows.
    scatter: [(f64, f64); COUNT],
}

impl Scales {
    fn of(plan: &[Planned], sound: &Reads, at: &Circumstances) -> Self {
        let (mut knee, mut scatter) = ([1.0; COUNT], [(0.0, READ_TWICE); COUNT]);
        // What may be off up to an end, anywhere as likely, scatters by that over the root of three.
        let deviation = |end: f64| end / 3.0_f64.sqrt();
        for planned in plan {
            let (fixed, share) = match planned.gauge.as_ref().map(|gauge| gauge.instrument) {
                Some(Instrument::Pressure { full_scale, .. } | Instrument::Vacuum { full_scale }) => {
                    (full_scale.si() * at.instruments.pressure.si(), 0.0)
                }
                Some(Instrument::FlowTester { .. }) => (0.0, at.instruments.flow.si()),
                Some(Instrument::Bucket) => (0.0, BUCKET),
                Some(Instrument::Thermometer) => (THERMOMETER, 0.0),
                Some(Instrument::Tachometer) | None => (0.0, at.instruments.speed.si()),
            };
            let index = planned.what as usize;
            scatter[index] = (deviation(fixed), deviation(share).hypot(READ_TWICE));
            let usual = sound.get(planned.what).unwrap_or(1.0).abs();
            knee[index] = (3.0 * scatter[index].0).max(0.03 * usual).max(1e-12);
        }
        // Temperatures are no shares of anything: straight all the way.
        for what in Measurement::ALL.iter().filter(|what| what.dimension() == quantity::Dimension::Temperature) {
            (knee[*what as usize], scatter[*what as usize].1) = (1e4, 0.0);
        }
        Self { knee, scatter }
    }

    /// How far its instrument may be off, all of it and as a share.
    #[cfg(test)]
    pub fn ends(&self, what: Measurement) -> (f64, f64) {
        let (fixed, share) = self.scatter[what as usize];
        (fixed * 3.0_f64.sqrt(), share * 3.0_f64.sqrt())
    }

    /// A figure on its scale.
    pub fn place(&self, what: usize, value: f64) -> f64 {
        (value / self.knee[what]).asinh()
    }

    /// A figure by its place.
    pub fn value(&self, what: usize, place: f64) -> f64 {
        place.clamp(-600.0, 600.0).sinh() * self.knee[what]
    }

    /// What its instrument scatters by on the scale, at a figure.
    pub fn scatter(&self, what: usize, value: f64) -> f64 {
        let (fixed, share) = self.scatter[what];
        fixed.hypot(share * value) / value.hypot(self.knee[what])
    }
}

impl Faulty {
    /// As severe as it mostly is met.
    pub fn typical(&self) -> &Hypothesis {
        &self.at[self.at.len() / 2].1
    }

    /// Whether it moves any of these measurements, however severe it is.
    pub fn moves(&self, sound: &Hypothesis, which: &[usize]) -> bool {
        self.at.iter().any(|(_, state)| state.apart_from(sound, which).iter().any(|apart| apart.abs() > MOVED))
    }
}

impl Hypothesis {
    fn of(site: &Site, rig: &Rig, spreads: &[(Spread, Range)], scales: &Scales) -> Self {
        let reads = rig.reads(&site.computed);
        let on_scale = |reads: &Reads, instead: &Reads| {
            let mut places = [0.0; COUNT];
            for &what in Measurement::ALL {
                let value = reads.get(what).or(instead.get(what)).unwrap_or(0.0);
                places[what as usize] = scales.place(what as usize, value);
            }
            places
        };
        let likely = on_scale(&reads, &reads);
        let (mut places, mut moves) = (likely, Vec::new());
        for &(spread, range) in spreads {
            let (mean, deviation) = (range.mean(), range.deviation());
            let at = |by: f64| {
                let mut moved = rig.clone();
                spread.shift(site, &mut moved, by);
                on_scale(&moved.reads(&site.computed), &reads)
            };
            let (less, more) = (at(mean - deviation), at(mean + deviation));
            // What it moves to both sides, and what it moves to one side only, as over the knee of a relief: that shifts the
            // mean and scatters too.
            let (mut straight, mut bent) = ([0.0; COUNT], [0.0; COUNT]);
            for i in 0..COUNT {
                straight[i] = (more[i] - less[i]) / 2.0;
                let shift = f64::midpoint(more[i], less[i]) - likely[i];
                places[i] += shift;
                bent[i] = shift - straight[i] * mean / deviation;
            }
            moves.push(straight);
            if bent.iter().any(|bent| bent.abs() > 1e-3) {
                moves.push(bent);
            }
        }
        Self { on_scale: places, reads, moves }
    }

    /// Part of the way to another.
    pub fn towards(&self, other: &Self, share: f64, which: &[usize]) -> Column {
        which.iter().map(|&i| self.on_scale[i] + share * (other.on_scale[i] - self.on_scale[i])).collect()
    }

    /// How far readings of some measurements are from those of another.
    pub fn apart_from(&self, other: &Self, which: &[usize]) -> Column {
        which.iter().map(|&i| self.on_scale[i] - other.on_scale[i]).collect()
    }

    /// How readings of some measurements scatter together.
    pub fn covariance(&self, scales: &Scales, which: &[usize]) -> Covariance {
        let own: Column = which.iter().map(|&i| scales.scatter(i, scales.value(i, self.on_scale[i]))).collect();
        let together: Vec<Column> =
            self.moves.iter().map(|moves| which.iter().map(|&i| moves[i]).collect::<Column>()).collect();
        Covariance::of(&own, &together)
    }
}

impl Signatures {
    /// Solves every fault that can be on a machine with a head, in its circumstances. `carrier` is the machine as it is today: the same
    /// that was judged, with the same head and conditions. Nothing is looked at where the pairing does not go to work.
    pub fn of(pairing: &Pairing, carrier: &Carrier, head: &Head, conditions: &Conditions, at: &Circumstances) -> Self {
        at_once(Self::in_stretches(pairing, carrier, head, conditions, at, &Steadily))
    }

    /// Solves every fault as [`Self::of`] does, in stretches, so that a screen can answer meanwhile.
    pub async fn in_stretches(
        pairing: &Pairing,
        carrier: &Carrier,
        head: &Head,
        conditions: &Conditions,
        at: &Circumstances,
        pace: &dyn Pace,
    ) -> Self {
        let at = at.sound();
        let plan = plan(pairing, carrier, head, conditions, &at);
        let scales = Scales::of(&plan, &Reads::default(), &at);
        let mut all = Self { plan, scales, sound: None, faults: Vec::new(), site: None, spreads: Vec::new() };
        let Some(job) = Job::of(pairing, carrier, head, conditions) else { return all };
        let (oil, conditions) = at.conditions(conditions);
        let Ok(site) = Site::of(&job, oil, &conditions) else { return all };
        let facts = Facts::gather(job.after.carrier, job.after.circuit, head, &conditions);
        all.scales = Scales::of(&all.plan, &site.rig.reads(&site.computed), &at);
        let spreads = spreads(&site, &facts, oil, &all.plan, &at);
        all.sound = Some(Hypothesis::of(&site, &site.rig, &spreads, &all.scales));
        for &fault in Fault::ALL.iter().filter(|fault| fault.can_be(&site)) {
            let mut held = Vec::new();
            for &severity in fault.severities() {
                step(pace).await;
                let rig = fault.on(&site, &site.rig, severity);
                held.push((severity, Hypothesis::of(&site, &rig, &spreads, &all.scales)));
            }
            all.faults.push(Faulty { fault, at: held });
        }
        (all.site, all.spreads) = (Some(site), spreads);
        all
    }
}

#[cfg(test)]
impl Signatures {
    /// Which faults these readings are looked at for.
    pub(super) fn faults(&self) -> Vec<Fault> {
        self.faults.iter().map(|faulty| faulty.fault).collect()
    }

    /// How far two states of one machine are apart, in standard deviations squared, all being read.
    pub(super) fn apart(&self, one: &Reads, other: &Reads) -> f64 {
        let Some(sound) = &self.sound else { return 0.0 };
        let which: Vec<usize> = (0..COUNT)
            .filter(|&i| {
                let what = Measurement::ALL[i];
                one.get(what).is_some() && other.get(what).is_some() && sound.reads.get(what).is_some()
            })
            .collect();
        let place = |reads: &Reads, i: usize| self.scales.place(i, reads.get(Measurement::ALL[i]).unwrap_or(0.0));
        let between: Column = which.iter().map(|&i| place(other, i) - place(one, i)).collect();
        sound.covariance(&self.scales, &which).distance(&between)
    }
}

/// What may differ on a sound machine, and how far.
fn spreads(
    site: &Site,
    facts: &Facts,
    oil: quantity::ThermodynamicTemperature,
    plan: &[Planned],
    at: &Circumstances,
) -> Vec<(Spread, Range)> {
    let tester = tester_gauge(plan, at);
    Spread::ALL.iter().filter_map(|&spread| Some((spread, spread.range(site, facts, oil, tester)?))).collect()
}

/// How far the gauge may be off by which the tester's load valve is set.
pub(super) fn tester_gauge(plan: &[Planned], at: &Circumstances) -> Pressure {
    let relief = plan.iter().find(|planned| planned.what == Measurement::Relief);
    let greatest = relief.and_then(|planned| match &planned.reading.found {
        Found::Expected { reads } => Some(reads.high.si()),
        Found::NotKnown { .. } => None,
    });
    greatest.map_or(Pressure::from_si(0.0), |greatest| {
        full_scale(Pressure::from_si(greatest)) * at.instruments.pressure.si()
    })
}
