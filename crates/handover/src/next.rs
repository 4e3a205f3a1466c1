//! The suspects in their order, what speaks for and against each, and what to do next.

use super::Measurement;
use super::finding::{Finding, Next, Sign, Suspect};
use super::fitting::{Fitted, Taken};
use super::limits::{alarmed, too_far};
use super::normal::Column;
use super::reads::Reads;
use super::seen::{Seen, alike};
use super::signature::{Hypothesis, Signatures};
use quantity::{Amount, Dimension, Named, put_in_order};
use std::cmp::Ordering;
use workshop::Expected;

/// Up to how many a reading more is of no use.
const USELESS: f64 = 1.0;
/// From which share of the likelihood a dangerous fault is named first.
const PLAUSIBLE: f64 = 0.05;
/// From which share of the likelihood a fault is told at all.
const TOLD: f64 = 0.01;
/// From how many standard deviations on a reading is not explained by a fault.
const UNEXPLAINED: f64 = 4.0;
/// How many are told at the most.
const MOST: usize = 6;

/// What was read, and the sound machine that comes nearest to it.
pub(super) struct Case<'a> {
    /// The sound machine as it is computed.
    pub sound: &'a Hypothesis,
    /// The figures.
    pub reads: &'a Reads,
    /// The figures on the scales of the diagnosis.
    pub taken: Taken<'a>,
    /// Which are beyond a limit.
    pub beyond: &'a [Measurement],
    /// The sound machine fitted to them.
    pub healthy: &'a Fitted,
}

impl Signatures {
    /// The suspects, what is dangerous and plausible first.
    pub(super) fn suspects(&self, case: &Case, mut seen: Vec<Seen>) -> Finding {
        let (which, beyond) = (case.taken.which, case.beyond);
        let stop = |seen: &Seen| {
            let fault = seen.faulty.fault;
            fault.is_dangerous() && seen.share >= PLAUSIBLE || alarmed(fault, beyond)
        };
        let rank = |a: &Seen, b: &Seen| -> Ordering { stop(b).cmp(&stop(a)).then_with(|| b.share.total_cmp(&a.share)) };
        put_in_order(&mut seen, rank);
        let explained = seen.iter().any(|seen| !too_far(seen.off, which.len()));
        let told = seen.iter().filter(|seen| seen.share >= TOLD || stop(seen)).count().clamp(1, MOST).min(seen.len());
        let suspects = (0..told)
            .map(|index| {
                let own = &seen[index];
                let alike = alike(own, &seen, which);
                let (speaks_for, speaks_against) = self.signs(case, own);
                let others: Vec<&Seen> =
                    seen[..told].iter().filter(|other| other.faulty.fault != own.faulty.fault).collect();
                Suspect {
                    fault: own.faulty.fault,
                    severity: own.severity,
                    score: own.share,
                    speaks_for,
                    speaks_against,
                    alike,
                    next: self.next(case, own, &others),
                    look: own.faulty.fault.look_at(),
                    stop: stop(own),
                }
            })
            .collect();
        Finding::Suspects { suspects, explained }
    }

    /// Readings that speak for and against a fault: each by itself, or by what the others lead to expect, whichever tells more.
    fn signs(&self, case: &Case, own: &Seen) -> (Vec<Sign>, Vec<Sign>) {
        let Taken { which, places: read } = case.taken;
        let sound_off = case.healthy.deviation(case.taken);
        let sound_covariance = &case.healthy.covariance;
        let own_off: Column = read.iter().zip(&own.places).map(|(read, place)| read - place).collect();
        let (mut speaks_for, mut against) = (Vec::new(), Vec::new());
        for (place, &i) in which.iter().enumerate() {
            let alone = (
                (sound_off[place], sound_covariance.deviation_of(place)),
                (own_off[place], own.covariance.deviation_of(place)),
            );
            let beside = (sound_covariance.left_out(&sound_off, place), own.covariance.left_out(&own_off, place));
            let better =
                |((sound, by), (own, own_by)): ((f64, f64), (f64, f64))| (sound / by).powi(2) - (own / own_by).powi(2);
            let told = if better(alone).abs() >= better(beside).abs() { alone } else { beside };
            let gain = better(told);
            let ((sound_off, _), (off, by)) = told;
            let what = Measurement::ALL[i];
            let amount = |place: f64| Amount::from_si(what.dimension(), self.scales.value(i, place));
            let Some(value) = case.reads.amount(what) else { continue };
            // Where a reading falls steeply its straight line leads out of the world.
            let (least, most) = self.reach(i);
            let within = |place: f64| amount(place.clamp(least, most));
            let likely = read[place] - off;
            let sign = Sign {
                what,
                read: value,
                healthy: within(read[place] - sound_off),
                with_fault: Expected {
                    nominal: within(likely),
                    low: within(likely - 2.0 * by),
                    high: within(likely + 2.0 * by),
                },
            };
            let missed = (off / by).abs();
            if gain > 1.0 && missed < UNEXPLAINED {
                speaks_for.push((gain, sign));
            } else if gain < -1.0 && missed > 1.5 || missed >= UNEXPLAINED {
                // What a fault does not explain speaks against it, though a sound machine may explain it even less.
                against.push((missed.powi(2), sign));
            }
        }
        let sorted = |mut signs: Vec<(f64, Sign)>| -> Vec<Sign> {
            put_in_order(&mut signs, |a, b| b.0.total_cmp(&a.0));
            signs.into_iter().map(|(_, sign)| sign).collect()
        };
        (sorted(speaks_for), sorted(against))
    }

    /// Between which places a reading lies on any machine that is thought of, sound or not.
    fn reach(&self, index: usize) -> (f64, f64) {
        let held = self.faults.iter().flat_map(|faulty| faulty.at.iter().map(|(_, hypothesis)| hypothesis));
        let places =
            held.chain(&self.sound).map(|hypothesis| hypothesis.on_scale[index]).filter(|place| place.is_finite());
        let (least, most) = places.fold((f64::MAX, f64::MIN), |(least, most), at| (least.min(at), most.max(at)));
        if least > most {
            return (0.0, 0.0);
        }
        let slack = 0.05 * (most - least).max(0.2);
        // No reading is below nothing, but a temperature.
        let floor = if Measurement::ALL[index].dimension() == Dimension::Temperature { f64::MIN } else { 0.0 };
        ((least - slack).max(floor), (most + slack).max(floor))
    }

    /// What parts a fault best from the others.
    fn next(&self, case: &Case, own: &Seen, others: &[&Seen]) -> Next {
        let (sound, which) = (case.sound, case.taken.which);
        let look = Next::Look { at: own.faulty.fault.look_at() };
        let parts = |with: &[usize]| -> f64 {
            let covariance = own.nearest.covariance(&self.scales, with);
            let apart = others.iter().map(|other| {
                // More than certain is no more use.
                let between = covariance.distance(&own.nearest.apart_from(other.nearest, with)).min(25.0);
                (other.share + 0.02) * between
            });
            apart.sum()
        };
        let weight: f64 = others.iter().map(|other| other.share + 0.02).sum();
        if others.is_empty() {
            return look;
        }
        let now = parts(which);
        let best = (0..Measurement::ALL.len())
            .filter(|i| !which.contains(i) && sound.reads.get(Measurement::ALL[*i]).is_some())
            .map(|i| {
                let with: Vec<usize> = which.iter().copied().chain([i]).collect();
                (i, (parts(&with) - now) / weight)
            })
            .filter(|(_, gain)| *gain > USELESS)
            .max_by(|a, b| (a.1 / effort(a.0)).total_cmp(&(b.1 / effort(b.0))));
        best.map_or(look, |(index, _)| Next::Measure { what: Measurement::ALL[index] })
    }
}

/// How much work a measurement is, against a gauge at a tee (common practice, no published source).
pub(super) fn effort(index: usize) -> f64 {
    use super::Measurement as M;
    match Measurement::ALL[index] {
        M::OilStart | M::Air => 0.5,
        M::EngineFree | M::EngineWorking => 0.7,
        M::RotorFree | M::RotorWorking => 0.9,
        M::InletFree
        | M::InletWorking
        | M::OutletFree
        | M::OutletWorking
        | M::CaseFree
        | M::CaseWorking
        | M::PumpFree
        | M::PumpWorking => 1.0,
        M::MotorWorking | M::CaseFlow => 1.3,
        M::Relief | M::FlowFree | M::FlowWorking | M::FlowNearRelief | M::FlowBusy => 1.5,
        M::OilAfter => 2.0,
    }
}
