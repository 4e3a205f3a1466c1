//! What instruments should read on the machine as it goes to work, with oil at one temperature: the likely figure, and between
//! which values it may lie when everything stated and assumed is at its best or worst and the instrument is off as far as it may
//! be. What cannot be solved names what is missing.

use super::Job;
use super::gauge_point::GaugePoint;
use fit::facts::{Extreme, Facts};
use fit::installation::states::{balanced, idles};
use fit::sample::{Corner, Sample};
use fit::{Conditions, FactId, Load};
use hydraulics::balance::Balanced;
use hydraulics::{Circuit, Motor};
use quantity::{Amount, Interval, Pressure, Quantity, ThermodynamicTemperature, VolumeRate};
use serde::Serialize;

/// A reading that should be found.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Expected {
    /// The likely figure.
    pub nominal: Amount,
    /// Not less than this.
    pub low: Amount,
    /// Not more than this.
    pub high: Amount,
}

impl Expected {
    /// What an interval spans.
    pub fn of<Q: Quantity>(interval: Interval<Q>) -> Self {
        let amount = |q: Q| Amount::of(q);
        Self { nominal: amount(interval.nominal), low: amount(interval.low), high: amount(interval.high) }
    }

    /// Takes as much more on both sides (SI), none below nothing.
    pub fn widen(&mut self, by: f64) {
        let dimension = self.nominal.dimension();
        self.low = Amount::from_si(dimension, (self.low.si() - by).max(0.0));
        self.high = Amount::from_si(dimension, self.high.si() + by);
    }

    /// Keeps within what the attachment's maker allows: what an instrument may be off is no leave to go beyond it. A likely figure
    /// that is beyond it stays as it is, to be seen.
    pub fn keep_within(&mut self, least: Option<Amount>, most: Option<Amount>) {
        if let Some(least) = least.filter(|least| least.si() > self.low.si() && least.si() <= self.nominal.si()) {
            self.low = least;
        }
        if let Some(most) = most.filter(|most| most.si() < self.high.si() && most.si() >= self.nominal.si()) {
            self.high = most;
        }
    }
}

/// A pressure with what its gauge may be off.
pub(super) fn widened(interval: Interval<Pressure>, off: Pressure) -> Expected {
    let mut expected = Expected::of(interval);
    expected.widen(off.si());
    expected
}

/// What is found where.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Reading {
    /// Where.
    pub at: GaugePoint,
    /// Under which load.
    pub load: Load,
    /// What.
    pub found: Found,
    /// The attachment's limit: below this it does not work.
    pub not_below: Option<Amount>,
    /// The attachment's limit: never above this.
    pub not_above: Option<Amount>,
    /// That limit as the instrument shows it, what it may be off taken off: above this, stop, whatever was expected.
    pub stop: Option<Amount>,
    /// Where what is expected lies nearer to the limit than that: the most that the instrument may be off.
    pub finer: Option<Amount>,
}

/// Which list a reading belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReadWith {
    /// A tester in the line, the attachment not connected.
    Tester,
    /// The attachment connected; never dead-ended.
    Attachment,
}

impl Reading {
    /// Whether it is read so: a tester shows what the machine gives, also dead-ended; the attachment what comes to it.
    pub fn is_read(&self, with: ReadWith) -> bool {
        let machine = matches!(self.at, GaugePoint::Flow | GaugePoint::Pump | GaugePoint::HeadInlet);
        match with {
            ReadWith::Tester => machine,
            ReadWith::Attachment => self.load != Load::Stalled && self.at != GaugePoint::Flow,
        }
    }

    /// Allows for what the instrument may be off (SI), all of it and as a share of what it shows.
    pub fn allow_for(&mut self, fixed: f64, share: f64) {
        let shows = self.not_above.map(|most| Amount::from_si(most.dimension(), (most.si() - fixed) / (1.0 + share)));
        let Found::Expected { reads } = &mut self.found else {
            self.stop = shows;
            return;
        };
        reads.widen(fixed + share * reads.high.si());
        if let Some((most, shows)) = self.not_above.zip(shows) {
            let likely = reads.nominal.si();
            let between = likely > shows.si() && likely < most.si();
            self.finer = between.then(|| Amount::from_si(most.dimension(), most.si() - likely));
            self.stop = Some(if between { Amount::from_si(most.dimension(), likely) } else { shows });
        }
        reads.keep_within(self.not_below, self.stop);
    }

    /// Whether the likely figure is beyond what the attachment's maker allows: with oil at such a temperature it must not run.
    pub fn is_beyond(&self) -> bool {
        let Found::Expected { reads } = &self.found else { return false };
        let nominal = reads.nominal.si();
        self.not_above.is_some_and(|most| nominal > most.si())
            || self.not_below.is_some_and(|least| nominal < least.si())
    }
}

/// What is found.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "is", rename_all = "kebab-case")]
pub enum Found {
    /// So much.
    Expected {
        /// The figures.
        reads: Expected,
    },
    /// It cannot be said.
    NotKnown {
        /// What is missing.
        missing: Vec<FactId>,
    },
}

/// One point with its ends.
struct Solved {
    flow: Interval<VolumeRate>,
    pump: Interval<Pressure>,
    inlet: Interval<Pressure>,
    outlet: Interval<Pressure>,
    case: Option<Interval<Pressure>>,
}

/// Every reading, solved; instruments are not counted yet.
pub fn readings(job: &Job, oil: ThermodynamicTemperature) -> Vec<Reading> {
    // The oil is what the caller says, neither colder nor hotter.
    let conditions = Conditions { hot: oil, ..job.conditions.clone() };
    let facts = Facts::gather(job.after.carrier, job.after.circuit, job.head, &conditions);
    let mut all = Vec::new();
    for &load in &[Load::Free, Load::Working, Load::Stalled] {
        if load == Load::Free && !idles(job.head.kind) {
            continue;
        }
        let solved = solved(&facts, load, oil);
        let found = |interval: &dyn Fn(&Solved) -> Option<Expected>| match &solved {
            Ok(solved) => interval(solved).map(|reads| Found::Expected { reads }),
            Err(missing) => Some(Found::NotKnown { missing: missing.clone() }),
        };
        let mut put = |at: GaugePoint, found: Option<Found>| {
            let (not_below, not_above) = limits(job, at, load);
            all.extend(found.map(|found| Reading {
                at,
                load,
                found,
                not_below,
                not_above,
                stop: not_above,
                finer: None,
            }));
        };
        if load != Load::Stalled {
            put(GaugePoint::Flow, found(&|s| Some(Expected::of(s.flow))));
        }
        put(GaugePoint::Pump, found(&|s| Some(Expected::of(s.pump))));
        put(GaugePoint::HeadInlet, found(&|s| Some(Expected::of(s.inlet))));
        if load != Load::Stalled {
            put(GaugePoint::HeadOutlet, found(&|s| Some(Expected::of(s.outlet))));
            if job.has_case_line() {
                put(GaugePoint::Case, found(&|s| s.case.map(Expected::of)));
            }
            if facts.has_rotor() {
                put(GaugePoint::Rotor, rotor(&facts, &solved));
            }
        }
    }
    all
}

/// What the attachment's maker allows at a place.
pub fn limits(job: &Job, at: GaugePoint, load: Load) -> (Option<Amount>, Option<Amount>) {
    let head = job.head;
    match at {
        GaugePoint::Flow => (
            head.flow.least.filter(|_| load == Load::Working).map(|flow| Amount::of(flow.nominal)),
            head.flow.greatest.map(|flow| Amount::of(flow.nominal)),
        ),
        GaugePoint::HeadInlet => (None, head.pressure.greatest.map(|pressure| Amount::of(pressure.nominal))),
        GaugePoint::HeadOutlet => (None, head.outlet.back_pressure.map(|pressure| Amount::of(pressure.nominal))),
        GaugePoint::Case => (None, head.outlet.case_pressure.map(|pressure| Amount::of(pressure.nominal))),
        GaugePoint::Rotor => {
            let speed = head.motor.as_ref().and_then(|motor| motor.rotor_speed.greatest);
            (None, speed.map(|speed| Amount::of(speed.nominal)))
        }
        _ => (None, None),
    }
}

/// The rotor's speed, where the motor's size is known.
fn rotor(facts: &Facts, solved: &Result<Solved, Vec<FactId>>) -> Option<Found> {
    let missing = |missing: Vec<FactId>| Some(Found::NotKnown { missing });
    let solved = match solved {
        Ok(solved) => solved,
        Err(facts) => return missing(facts.clone()),
    };
    let inputs =
        facts.displacement.fact.interval().zip(facts.volumetric.fact.interval()).zip(facts.ratio.fact.interval());
    let Some(((displacement, volumetric), ratio)) = inputs else {
        let unknown = [
            (facts.displacement.fact.interval().is_none(), facts.displacement.id),
            (facts.volumetric.fact.interval().is_none(), facts.volumetric.id),
            (facts.ratio.fact.interval().is_none(), facts.ratio.id),
        ];
        return missing(unknown.into_iter().filter(|(unknown, _)| *unknown).map(|(_, id)| id).collect());
    };
    let speed = |flow, displacement, volumetric: quantity::Ratio, ratio: quantity::Ratio| {
        Motor { displacement, volumetric: volumetric.si(), hydromechanical: 1.0, ratio: ratio.si() }.rotor_speed(flow)
    };
    let interval = Interval {
        low: speed(solved.flow.low, displacement.high, volumetric.low, ratio.low),
        nominal: speed(solved.flow.nominal, displacement.nominal, volumetric.nominal, ratio.nominal),
        high: speed(solved.flow.high, displacement.low, volumetric.high, ratio.high),
    };
    Some(Found::Expected { reads: Expected::of(interval) })
}

/// A load with everything at its likeliest, and at both ends.
fn solved(facts: &Facts, load: Load, oil: ThermodynamicTemperature) -> Result<Solved, Vec<FactId>> {
    let (nominal, worst) = (Sample::new(Corner::Likely), Sample::new(Corner::Worst));
    let (circuit, at) = balanced(facts, &nominal, load, oil);
    let (poor, rich) = (facts.circuit(&worst, Extreme::LeastFlow, oil), facts.circuit(&worst, Extreme::MostFlow, oil));
    if !nominal.missing().is_empty() {
        return Err(nominal.missing());
    }
    let at = match at {
        Balanced::Turns(at) | Balanced::Stalls(at) => at,
        Balanced::NoSuchPoint => return Err(vec![FactId::CircuitRelief]),
    };
    let (least, most) = motor_difference(facts, load, &poor, &rich);
    let none = VolumeRate::from_si(0.0);
    let flow_of = |circuit: &Circuit, motor: Pressure| circuit.solve(motor).map_or(none, |point| point.flow);
    let stalled = load == Load::Stalled;
    let (slow, fast) = if stalled { (none, none) } else { (flow_of(&poor, most), flow_of(&rich, least)) };
    // The ends of a pressure: the least flow over the least losses, the greatest over the greatest.
    let outlet = around(at.outlet, rich.back.loss(slow, &rich.oil), poor.back.loss(fast, &poor.oil));
    let dead = |circuit: &Circuit| circuit.stall_pressure().unwrap_or(at.supply);
    let inlet = if stalled {
        around(at.inlet, dead(&poor), dead(&rich))
    } else {
        around(at.inlet, outlet.low + least, outlet.high + most)
    };
    // Stalled nothing flows in the lines, and nothing is lost there; only a divider's relief passes oil through the divider.
    let supply = if stalled {
        let ends = |circuit: &Circuit| circuit.ends_at().unwrap_or(at.supply);
        around(at.supply, ends(&poor), ends(&rich))
    } else {
        let (least, most) = (rich.supply.loss(slow, &rich.oil), poor.supply.loss(fast, &poor.oil));
        around(at.supply, inlet.low + least, inlet.high + most)
    };
    // What the pumps' control keeps above the load is assumed as well.
    let above = circuit.source.pump_pressure(at.supply) - at.supply;
    let margin = facts.margin.fact.interval().filter(|_| above.si() > 0.0);
    let (less, more) = margin.map_or((none_of(), none_of()), |m| (m.nominal - m.low, m.high - m.nominal));
    let pump =
        Interval { low: supply.low + above - less, nominal: supply.nominal + above, high: supply.high + above + more };
    Ok(Solved {
        flow: around(at.flow, slow, fast),
        pump,
        inlet,
        outlet,
        case: at.case.filter(|_| !stalled).map(|case| case_ends(facts, case, &worst, oil, fast)),
    })
}

fn none_of() -> Pressure {
    Pressure::from_si(0.0)
}

/// Both ends, and the likely figure between them.
pub fn around<Q: Quantity>(nominal: Q, a: Q, b: Q) -> Interval<Q> {
    let low = if a < nominal { a } else { nominal };
    let high = if b > nominal { b } else { nominal };
    Interval { low, nominal, high }
}

/// The least and the greatest pressure difference over the motor under a load.
fn motor_difference(facts: &Facts, load: Load, poor: &Circuit, rich: &Circuit) -> (Pressure, Pressure) {
    if load == Load::Free {
        let free = facts.free.fact.interval();
        let never_more = facts.working.fact.interval().map(|working| working.nominal);
        let bounded = |pressure: Pressure| never_more.filter(|most| *most < pressure).unwrap_or(pressure);
        return free.map_or((none_of(), none_of()), |free| (bounded(free.low), bounded(free.high)));
    }
    let worst = Sample::new(Corner::Worst);
    let (a, b) = (facts.working_difference(&worst, poor), facts.working_difference(&worst, rich));
    if a < b { (a, b) } else { (b, a) }
}

/// In the case line: from a motor as new, on a line at its best, to a worn one on a line at its worst.
fn case_ends(
    facts: &Facts,
    case: Pressure,
    worst: &Sample,
    oil: ThermodynamicTemperature,
    fast: VolumeRate,
) -> Interval<Pressure> {
    let (best, nominal) = (Sample::new(Corner::Best), Sample::new(Corner::Likely));
    let thin = facts.oil_at(&nominal, oil);
    let low = facts.case_line(&best).pressure(facts.leaks(&nominal, fast, oil), &thin);
    let high = facts.case_line(worst).pressure(facts.leaks(worst, fast, oil), &facts.oil_at(worst, oil));
    around(case, low, high)
}
