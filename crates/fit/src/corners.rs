//! The worst corners against the whole box: nowhere in what is known and assumed is a check worse than in the corner that it
//! is judged by.
//!
//! Which way each fact leans in each scenario, kept by this test:
//!
//! | fact | poor (least at work) | rich (most, free running) | against the return |
//! | --- | --- | --- | --- |
//! | flow, pumps, power limit | low | high, setting turned up | high |
//! | engine | working speed | high idle | high idle |
//! | leakage, override | high | low | low |
//! | relief | low | high | high |
//! | cut-off, load-sensing margin | low, high | no credit | no credit |
//! | supply: length, K, losses; bore | high; low | low; high | no credit |
//! | return: length, K, losses; bore | high; low | low; high | high; low |
//! | filter | on its bypass | clean | on its bypass |
//! | lines: oil anywhere in its span | loses the most | loses the least | loses the most |
//! | what is no line: oil | thick | thin | thick |
//! | working, free pressure difference | high | low | low |
//! | motor's leakage by the case line | no credit | no credit | no credit |

use super::corner::{Certainty, End, InSpan, Sampler};
use super::facts::{Extreme, Facts};
use super::question::{Estimate, Finding, Question, Reading};
use super::sample::{Corner, Sample};
use super::{Bound, CheckId, Conditions, FactId, checks};
use hydraulics::{Element, Motor};
use quantity::{Amount, Interval, Named, Quantity, ThermodynamicTemperature, VolumeRate};
use std::collections::HashMap;
use std::hash::{DefaultHasher, Hash, Hasher};
use table::read;

/// Every fact anywhere in its interval, and oil, engine and filter in any state, by a seed: what a corner must never be better than.
#[derive(Debug)]
struct Anywhere(u64);

impl Anywhere {
    /// A share between 0 and 1, always the same for the same key.
    fn share(&self, key: impl Hash) -> f64 {
        let mut hasher = DefaultHasher::new();
        hasher.write_u64(self.0);
        key.hash(&mut hasher);
        (hasher.finish() >> 11) as f64 / (1u64 << 53) as f64
    }
}

impl Sampler for Anywhere {
    fn place(&self, id: FactId, certainty: Certainty, low: f64, worse: End) -> InSpan {
        if certainty == Certainty::Missing {
            return InSpan::At(worse);
        }
        // The ends too: there the corners are.
        InSpan::Between((self.share((id, low.to_bits())) * 1.2 - 0.1).clamp(0.0, 1.0))
    }

    fn bounds_oil(&self) -> bool {
        false
    }

    fn temperature(&self, span: Interval<ThermodynamicTemperature>) -> ThermodynamicTemperature {
        InSpan::Between(self.share("temperature")).of(span)
    }

    fn engine(&self, runs_up_to: f64) -> f64 {
        1.0 + self.share("engine") * (runs_up_to - 1.0)
    }

    fn element(&self, worse: End) -> Element {
        match self.share("filter") {
            _ if worse == End::Low => Element::Clean,
            share if share < 0.3 => Element::Clean,
            share if share < 0.6 => Element::HalfLoaded,
            _ => Element::Blocked,
        }
    }

    fn credits_drain(&self) -> bool {
        self.share("drain") < 0.5
    }
}

/// The speed of the rotor with the circuit solved, where its check takes no credit for anything in it.
fn solved_speed(facts: &Facts, sample: &Sample, warm: ThermodynamicTemperature) -> Amount {
    let circuit = facts.circuit(sample, Extreme::MostFlow, facts.temperature(sample, warm));
    let motor = Motor {
        displacement: sample.take(&facts.displacement, End::Low),
        volumetric: sample.take(&facts.volumetric, End::High).si(),
        hydromechanical: 1.0,
        ratio: sample.take(&facts.ratio, End::High).si(),
    };
    let flow = facts.free_flow(sample, &circuit, facts.free_difference(sample), VolumeRate::from_si(0.0));
    Amount::of(motor.rotor_speed(flow))
}

/// Asks a question anywhere in the box and compares with its worst corner; how often.
fn probe(question: Question, read: impl Fn(&Sample) -> Reading, solved: impl Fn(&Sample) -> Amount, seed: u64) -> u64 {
    const SAMPLES: u64 = 120;
    let worst_sample = Sample::new(Corner::Worst);
    let corner = read(&worst_sample);
    if worst_sample.lacks() {
        return 0;
    }
    let worst = question.margin(&corner);
    for anywhere in (seed..seed + SAMPLES).map(Anywhere) {
        let sample = Sample::by(&anywhere);
        let mut readings = vec![read(&sample)];
        if question.id == CheckId::RotorSpeed {
            readings.push(Reading { value: solved(&sample), ..readings[0] });
        }
        for reading in readings {
            let margin = question.margin(&reading);
            assert!(
                margin >= worst - 2e-6 * (1.0 + worst.abs()),
                "{:?} {:?}: {margin} at {reading:?} is worse than {worst} at {corner:?}",
                question.id,
                question.bound
            );
        }
    }
    SAMPLES
}

#[test]
fn invariant_nowhere_in_what_is_known_and_assumed_is_a_check_worse_than_in_its_corner() {
    let table = read(include_str!("../../../public/table/demo.json")).table.expect("the demo table");
    let conditions = Conditions::of_table(&table);
    // `make long`, which CI runs, takes twice as many.
    let (one_of, times) = if std::env::var_os("LONG").is_some() { (3, 2) } else { (6, 1) };
    let mut pairs = 0;
    let mut taken: HashMap<(CheckId, Bound), u64> = HashMap::new();
    for (i, carrier) in table.carriers.iter().enumerate() {
        for (j, head) in table.heads.iter().enumerate() {
            for circuit in carrier.circuits.iter().filter(|_| (i + j) % one_of == 0) {
                let seed = u64::try_from(i * 1_000_000 + j * 1000).expect("small");
                let facts = Facts::gather(carrier, circuit, head, &conditions);
                let warm = facts.warm_enough;
                for finding in CheckId::ALL.iter().flat_map(|&id| checks::findings(id, &facts, warm)) {
                    let Finding::Asked(asked) = finding else { continue };
                    let solved = |sample: &Sample| solved_speed(&facts, sample, warm);
                    let samples =
                        probe(asked.question, |sample| (asked.formula)(sample, Estimate::Exact), solved, seed);
                    *taken.entry((asked.question.id, asked.question.bound)).or_default() += samples;
                }
                pairs += 1;
            }
        }
    }
    assert!(pairs > 250 * times, "{pairs}");
    let (least, most) = (Bound::AtLeast, Bound::AtMost);
    for wanted in [
        (CheckId::FlowWindow, least),
        (CheckId::FlowWindow, most),
        (CheckId::RotorSpeed, most),
        (CheckId::Pressure, least),
        (CheckId::Pressure, most),
        (CheckId::Power, least),
        (CheckId::BackPressure, most),
        (CheckId::CasePressure, most),
        (CheckId::WeightClass, least),
        (CheckId::WeightClass, most),
    ] {
        assert!(taken.get(&wanted).is_some_and(|samples| *samples >= 5_000 * times), "{wanted:?}: {taken:?}");
    }
}
