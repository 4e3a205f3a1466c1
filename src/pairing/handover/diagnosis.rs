//! What is wrong, by what was read: each fault's readings against those that were really taken, in the measure of how instruments and
//! sound machines scatter, over its severities, with how often it is met as a weak prior (Bayes).

use super::fault::Fault;
use super::fit::{Fit, Fitted, Suspected, Taken};
use super::look::LookAt;
use super::normal::{Column, Covariance, log_mean};
use super::reads::Reads;
use super::signature::{Faulty, Hypothesis, Signatures};
use super::{Circumstances, Measurement};
use crate::pairing::sheets::{Expected, Judged};
use crate::pairing::{Conditions, Pairing};
use crate::quantity::{Amount, Named};
use crate::table::{Carrier, Head};
use serde::Serialize;
use std::cmp::Ordering;

/// A figure that somebody read.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Read {
    /// What.
    pub what: Measurement,
    /// How much.
    pub value: Amount,
}

/// What is made of the readings.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Diagnosis {
    /// What is found.
    pub finding: Finding,
    /// Readings beyond what head or oil bear: stop, whatever is found.
    pub beyond: Vec<Measurement>,
    /// Readings that are left out: nothing could be computed for them, or they are no figure of that kind.
    pub left_out: Vec<Measurement>,
}

/// What is found.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "finding", rename_all = "kebab-case")]
pub enum Finding {
    /// Too little was read to say anything; nothing that was read is off.
    TooFew {
        /// What to read first, what tells most first.
        first: Vec<Measurement>,
    },
    /// Nothing is wrong as far as this shows it.
    NothingWrong {
        /// Faults that these readings would not have shown.
        unseen: Vec<Fault>,
    },
    /// Something is wrong.
    Suspects {
        /// The likeliest first, but what is dangerous before all; the first [`NAMED`] are worth naming.
        suspects: Vec<Suspect>,
        /// Whether any of them explains the readings; if not, figures were misread or something else is wrong.
        explained: bool,
    },
}

/// How many suspects are worth naming.
pub const NAMED: usize = 3;

/// A fault that may be behind the readings.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Suspect {
    /// Which.
    pub fault: Fault,
    /// The severity that fits best, as [`Fault::severities`] counts it.
    pub severity: f64,
    /// Its likelihood among all faults, 0 to 1.
    pub score: f64,
    /// Readings that speak for it, the strongest first.
    pub speaks_for: Vec<Sign>,
    /// Readings that speak against it.
    pub speaks_against: Vec<Sign>,
    /// Faults that cannot be told from it by these readings.
    pub alike: Vec<Fault>,
    /// What to do next to tell.
    pub next: Next,
    /// What to look at for this fault.
    pub look: LookAt,
    /// Stop before anything else.
    pub stop: bool,
}

/// A reading that speaks for or against a fault.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Sign {
    /// What was read.
    pub what: Measurement,
    /// How much.
    pub read: Amount,
    /// What a sound machine shows: as computed, or as the other readings lead to expect of it.
    pub healthy: Amount,
    /// What it shows with the fault, and between which figures.
    pub with_fault: Expected,
}

/// What to do next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(tag = "next", rename_all = "kebab-case")]
pub enum Next {
    /// Read something more: it parts this fault best from the others.
    Measure {
        /// What.
        what: Measurement,
    },
    /// Nothing that could be read parts them: look at something.
    Look {
        /// At what.
        at: LookAt,
    },
}

/// How likely a machine is sound, against all faults together (common practice, no published source): most hand-overs are.
const SOUND: f64 = 3.0;
/// From how many standard deviations squared on two states are told apart.
const APART: f64 = 6.0;
/// From which difference of the logarithms of two likelihoods on readings tell: one in twenty.
const TELLING: f64 = 3.0;
/// From how many on a fault would have been seen.
const SEEN: f64 = 9.0;
/// Up to how many a reading more is of no use.
const USELESS: f64 = 1.0;
/// Which share of what all faults weigh must have been seen before nothing is said to be wrong.
const ENOUGH: f64 = 0.6;
/// From which share of the likelihood a dangerous fault is named first.
const PLAUSIBLE: f64 = 0.05;
/// From which share of the likelihood a fault is told at all.
const TOLD: f64 = 0.01;
/// How many are told at the most.
const MOST: usize = 6;
/// How many are looked at closely.
const CLOSELY: usize = 6;
/// Points between two severities that are looked at.
const BETWEEN: [f64; 3] = [0.0, 1.0 / 3.0, 2.0 / 3.0];

/// What is wrong, by what was read. `carrier` is the machine as it is today: the same that was judged, with the same head and conditions.
/// To ask again and again keep [`Signatures`].
pub fn diagnose(
    pairing: &Pairing,
    carrier: &Carrier,
    head: &Head,
    conditions: &Conditions,
    at: &Circumstances,
    read: &[Read],
) -> Diagnosis {
    Signatures::of(pairing, carrier, head, conditions, at).diagnose(read)
}

/// A fault as the readings see it.
struct Seen<'a> {
    faulty: &'a Faulty,
    /// The logarithm of how likely the readings are with it, over its severities.
    evidence: f64,
    /// The same at the severity that fits best.
    likelihood: f64,
    /// That severity, and what is read with it.
    severity: f64,
    places: Column,
    /// The same by lines drawn beforehand.
    held: Column,
    held_covariance: Covariance,
    /// How far that is off, in standard deviations squared.
    off: f64,
    covariance: Covariance,
    nearest: &'a Hypothesis,
    /// Its share of the likelihood of all faults.
    share: f64,
}

impl Seen<'_> {
    fn weighed(&self) -> f64 {
        self.evidence + self.faulty.fault.likelihood().ln()
    }

    /// Fits the machine with this fault, as severe as seems likeliest, to the readings; what that finds better counts for the
    /// fault as a whole.
    fn look_closely(&mut self, fit: &Fit, taken: Taken) {
        let (fault, severity) = (self.faulty.fault, self.severity);
        let held = fault.severities();
        let spans = held.windows(2).map(|pair| (pair[1] - pair[0]).abs());
        let nearest = held.iter().zip(spans).min_by(|a, b| (a.0 - severity).abs().total_cmp(&(b.0 - severity).abs()));
        let step = nearest.map_or(0.0, |(_, span)| span / 3.0);
        let before = self.likelihood;
        let fitted = Fit { suspected: Some(Suspected { fault, severity, step }), ..*fit }.to(taken);
        self.likelihood = fitted.log_likelihood(taken);
        self.evidence += self.likelihood - before;
        self.off = fitted.covariance.distance(&fitted.deviation(taken));
        self.severity = fitted.severity.unwrap_or(severity);
        (self.places, self.covariance) = (fitted.likely, fitted.covariance);
    }
}

/// Whether a dangerous fault drives a reading that is beyond its limit.
fn alarmed(fault: Fault, beyond: &[Measurement]) -> bool {
    fault.is_dangerous() && beyond.iter().any(|what| fault.drives(*what))
}

impl Signatures {
    /// Which faults these readings are looked at for.
    pub fn faults(&self) -> Vec<Fault> {
        self.faults.iter().map(|faulty| faulty.fault).collect()
    }

    /// What is wrong, by what was read. Of two figures of one measurement the later counts.
    pub fn diagnose(&self, read: &[Read]) -> Diagnosis {
        let mut taken = Reads::default();
        for one in read {
            taken.put_amount(one.what, one.value);
        }
        let computable = |what: Measurement| self.sound.as_ref().is_some_and(|sound| sound.reads.get(what).is_some());
        // What is only noted at the start is no reading to be judged.
        let noted = |what: Measurement| matches!(what, Measurement::OilStart | Measurement::Air);
        let mut left_out = Vec::new();
        for one in read {
            let usable = computable(one.what) && taken.get(one.what).is_some() || noted(one.what);
            if !usable && !left_out.contains(&one.what) {
                left_out.push(one.what);
            }
        }
        let beyond: Vec<Measurement> = self
            .plan
            .iter()
            .filter(|planned| {
                let read = taken.amount(planned.what);
                read.and_then(|read| planned.reading.judge(read)) == Some(Judged::Beyond)
            })
            .map(|planned| planned.what)
            .collect();
        let which: Vec<usize> = Measurement::ALL
            .iter()
            .filter(|&&what| computable(what) && taken.get(what).is_some() && !noted(what))
            .map(|&what| what as usize)
            .collect();
        let finding = match &self.sound {
            Some(sound) => self.find(sound, &taken, &which, &beyond),
            None => Finding::TooFew { first: Vec::new() },
        };
        Diagnosis { finding, beyond, left_out }
    }

    fn find(&self, sound: &Hypothesis, taken: &Reads, which: &[usize], beyond: &[Measurement]) -> Finding {
        if which.is_empty() {
            return Finding::TooFew { first: self.first(sound, which) };
        }
        let read: Column =
            which.iter().map(|&i| self.scales.place(i, taken.get(Measurement::ALL[i]).unwrap_or(0.0))).collect();
        let taken_places = Taken { which, places: &read };
        let Some(site) = &self.site else { return Finding::TooFew { first: Vec::new() } };
        let fit = Fit { site, spreads: &self.spreads, scales: &self.scales, suspected: None };
        let healthy = fit.to(taken_places);
        let mut seen: Vec<Seen> = self.faults.iter().map(|faulty| self.see(sound, faulty, &read, which)).collect();
        // The likeliest are looked at closely.
        seen.sort_by(|a, b| b.weighed().total_cmp(&a.weighed()));
        for seen in seen.iter_mut().take(CLOSELY) {
            seen.look_closely(&fit, taken_places);
        }
        let weights: f64 = seen.iter().map(|seen| seen.faulty.fault.likelihood()).sum();
        let sound_is = healthy.log_likelihood(taken_places);
        // Everything against the likeliest, so that nothing runs out of the numbers.
        let most = seen.iter().map(|seen| seen.evidence).fold(sound_is, f64::max);
        let weight = |seen: &Seen| seen.faulty.fault.likelihood() / weights.max(1e-9) * (seen.evidence - most).exp();
        let all: f64 = seen.iter().map(weight).sum();
        let faulty = all / (all + SOUND * (sound_is - most).exp());
        let shares: Vec<f64> = seen.iter().map(|seen| if all > 0.0 { weight(seen) / all } else { 0.0 }).collect();
        for (seen, share) in seen.iter_mut().zip(shares) {
            seen.share = share;
        }
        let off = healthy.covariance.distance(&healthy.deviation(taken_places));
        if faulty >= 0.5 || too_far(off, which.len()) {
            return self.suspects(sound, taken, which, beyond, &read, seen, &healthy);
        }
        // What is beyond a limit is suspected whatever is likely.
        seen.retain(|seen| alarmed(seen.faulty.fault, beyond));
        if seen.is_empty() {
            return self.nothing_found(sound, which, &sound.covariance(&self.scales, which));
        }
        self.suspects(sound, taken, which, beyond, &read, seen, &healthy)
    }

    /// Nothing is off: enough was read to say so, or not.
    fn nothing_found(&self, sound: &Hypothesis, which: &[usize], covariance: &Covariance) -> Finding {
        let shown = |faulty: &Faulty, which: &[usize], covariance: &Covariance| {
            let at = &faulty.at[faulty.at.len() / 2].1;
            let between: Column = which.iter().map(|&i| at.on_scale[i] - sound.on_scale[i]).collect();
            covariance.distance(&between) >= SEEN
        };
        let everything: Vec<usize> =
            (0..Measurement::ALL.len()).filter(|&i| sound.reads.get(Measurement::ALL[i]).is_some()).collect();
        let whole = sound.covariance(&self.scales, &everything);
        let (mut could, mut can) = (0.0, 0.0);
        let mut unseen = Vec::new();
        let mut danger_open = false;
        for faulty in &self.faults {
            let likelihood = faulty.fault.likelihood();
            let could_be = shown(faulty, &everything, &whole);
            let is = shown(faulty, which, covariance);
            could += if could_be { likelihood } else { 0.0 };
            can += if is { likelihood } else { 0.0 };
            danger_open |= faulty.fault.is_dangerous() && could_be && !is;
            if !is {
                unseen.push(faulty.fault);
            }
        }
        if danger_open || can < ENOUGH * could {
            return Finding::TooFew { first: self.first(sound, which) };
        }
        Finding::NothingWrong { unseen }
    }

    /// What to read first: what shows most faults that are not shown yet, one after another.
    fn first(&self, sound: &Hypothesis, which: &[usize]) -> Vec<Measurement> {
        let mut taken = which.to_vec();
        let mut first = Vec::new();
        let shown = |taken: &[usize]| -> f64 {
            if taken.is_empty() {
                return 0.0;
            }
            let covariance = sound.covariance(&self.scales, taken);
            let weighed = self.faults.iter().map(|faulty| {
                let at = &faulty.at[faulty.at.len() / 2].1;
                let between: Column = taken.iter().map(|&i| at.on_scale[i] - sound.on_scale[i]).collect();
                let danger = if faulty.fault.is_dangerous() { 3.0 } else { 1.0 };
                danger * faulty.fault.likelihood() * (covariance.distance(&between) / SEEN).min(1.0)
            });
            weighed.sum()
        };
        let mut now = shown(&taken);
        while first.len() < 4 {
            let gains = (0..Measurement::ALL.len())
                .filter(|i| !taken.contains(i) && sound.reads.get(Measurement::ALL[*i]).is_some())
                .map(|i| {
                    let with: Vec<usize> = taken.iter().copied().chain([i]).collect();
                    (i, shown(&with) - now)
                });
            let best = gains.max_by(|a, b| (a.1 / effort(a.0)).total_cmp(&(b.1 / effort(b.0))));
            let Some((index, gain)) = best.filter(|(_, gain)| *gain > 0.05) else { break };
            taken.push(index);
            now += gain;
            first.push(Measurement::ALL[index]);
        }
        first
    }

    /// A fault over its severities.
    fn see<'a>(&'a self, sound: &'a Hypothesis, faulty: &'a Faulty, read: &[f64], which: &[usize]) -> Seen<'a> {
        let mut terms = Vec::new();
        let mut best: Option<(f64, f64, Column, &Hypothesis, Covariance)> = None;
        let covariances: Vec<Covariance> =
            faulty.at.iter().map(|(_, state)| state.covariance(&self.scales, which)).collect();
        let mut look = |severity: f64, places: Column, state: &'a Hypothesis, covariance: &Covariance, weight: f64| {
            let deviation: Column = read.iter().zip(&places).map(|(read, place)| read - place).collect();
            let likelihood = covariance.log_likelihood(&deviation);
            terms.push((likelihood, weight));
            if best.as_ref().is_none_or(|best| likelihood > best.0) {
                best = Some((likelihood, severity, places, state, covariance.clone()));
            }
        };
        let mildest = &faulty.at[0];
        // Milder than the mildest: half the way from a sound machine.
        look(mildest.0, sound.towards(&mildest.1, 0.6, which), &mildest.1, &covariances[0], 1.0);
        for (index, (severity, state)) in faulty.at.iter().enumerate() {
            let Some((worse, other)) = faulty.at.get(index + 1) else {
                look(*severity, state.towards(state, 0.0, which), state, &covariances[index], 1.0);
                break;
            };
            for share in BETWEEN {
                let nearest = if share > 0.5 { index + 1 } else { index };
                let at = if share > 0.5 { other } else { state };
                look(
                    severity + share * (worse - severity),
                    state.towards(other, share, which),
                    at,
                    &covariances[nearest],
                    1.0,
                );
            }
        }
        let evidence = log_mean(&terms);
        let (likelihood, severity, places, nearest, covariance) = best.expect("each fault has a severity");
        let deviation: Column = read.iter().zip(&places).map(|(read, place)| read - place).collect();
        let off = covariance.distance(&deviation);
        let (held, held_covariance) = (places.clone(), covariance.clone());
        Seen {
            faulty,
            evidence,
            likelihood,
            severity,
            places,
            held,
            held_covariance,
            off,
            covariance,
            nearest,
            share: 0.0,
        }
    }

    #[allow(clippy::too_many_arguments)]
    fn suspects(
        &self,
        sound: &Hypothesis,
        taken: &Reads,
        which: &[usize],
        beyond: &[Measurement],
        read: &[f64],
        mut seen: Vec<Seen>,
        healthy: &Fitted,
    ) -> Finding {
        let stop = |seen: &Seen| {
            let fault = seen.faulty.fault;
            fault.is_dangerous() && seen.share >= PLAUSIBLE || alarmed(fault, beyond)
        };
        let rank = |a: &Seen, b: &Seen| -> Ordering { stop(b).cmp(&stop(a)).then_with(|| b.share.total_cmp(&a.share)) };
        seen.sort_by(rank);
        let explained = seen.iter().any(|seen| !too_far(seen.off, which.len()));
        let told = seen.iter().filter(|seen| seen.share >= TOLD || stop(seen)).count().clamp(1, MOST).min(seen.len());
        let suspects = (0..told)
            .map(|index| {
                let own = &seen[index];
                let alike = alike(own, &seen, which);
                let (speaks_for, speaks_against) = self.signs(own, taken, which, read, healthy);
                let others: Vec<&Seen> =
                    seen[..told].iter().filter(|other| other.faulty.fault != own.faulty.fault).collect();
                Suspect {
                    fault: own.faulty.fault,
                    severity: own.severity,
                    score: own.share,
                    speaks_for,
                    speaks_against,
                    alike,
                    next: self.next(sound, own, &others, which),
                    look: own.faulty.fault.look_at(),
                    stop: stop(own),
                }
            })
            .collect();
        Finding::Suspects { suspects, explained }
    }

    /// Readings that speak for and against a fault: each by itself, or by what the others lead to expect, whichever tells more.
    fn signs(
        &self,
        own: &Seen,
        taken: &Reads,
        which: &[usize],
        read: &[f64],
        healthy: &Fitted,
    ) -> (Vec<Sign>, Vec<Sign>) {
        let sound_off = healthy.deviation(Taken { which, places: read });
        let sound_covariance = &healthy.covariance;
        let own_off: Column = read.iter().zip(&own.places).map(|(read, place)| read - place).collect();
        let (mut speaks_for, mut against): (Vec<(f64, Sign)>, Vec<(f64, Sign)>) = (Vec::new(), Vec::new());
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
            let Some(value) = taken.amount(what) else { continue };
            let likely = read[place] - off;
            let sign = Sign {
                what,
                read: value,
                healthy: amount(read[place] - sound_off),
                with_fault: Expected {
                    nominal: amount(likely),
                    low: amount(likely - 2.0 * by),
                    high: amount(likely + 2.0 * by),
                },
            };
            if gain > 1.0 {
                speaks_for.push((gain, sign));
            } else if gain < -1.0 && (off / by).abs() > 1.5 {
                against.push((-gain, sign));
            }
        }
        let sorted = |mut signs: Vec<(f64, Sign)>| -> Vec<Sign> {
            signs.sort_by(|a, b| b.0.total_cmp(&a.0));
            signs.into_iter().map(|(_, sign)| sign).collect()
        };
        (sorted(speaks_for), sorted(against))
    }

    /// What parts a fault best from the others.
    fn next(&self, sound: &Hypothesis, own: &Seen, others: &[&Seen], which: &[usize]) -> Next {
        let look = Next::Look { at: own.faulty.fault.look_at() };
        let parts = |with: &[usize]| -> f64 {
            let covariance = own.nearest.covariance(&self.scales, with);
            let apart = others.iter().map(|other| {
                let between: Column =
                    with.iter().map(|&i| own.nearest.on_scale[i] - other.nearest.on_scale[i]).collect();
                // More than certain is no more use.
                (other.share + 0.02) * covariance.distance(&between).min(25.0)
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

/// Faults that cannot be told from one by these readings: somewhere among their severities they show the same.
fn alike(own: &Seen, all: &[Seen], which: &[usize]) -> Vec<Fault> {
    let near = |other: &Seen| {
        // Readings that are so much likelier with one of them tell.
        if (own.evidence - other.evidence).abs() > TELLING {
            return false;
        }
        let states = &other.faulty.at;
        let distance = |places: &Column| {
            let between: Column = own.held.iter().zip(places).map(|(a, b)| a - b).collect();
            own.held_covariance.distance(&between)
        };
        let steps = states.windows(2).flat_map(|pair| {
            BETWEEN.iter().map(|&share| distance(&pair[0].1.towards(&pair[1].1, share, which))).collect::<Vec<_>>()
        });
        let last = states.last().map(|(_, last)| distance(&last.towards(last, 0.0, which)));
        steps.chain(last).fold(f64::INFINITY, f64::min).min(distance(&other.held)) < APART
    };
    let others = all.iter().filter(|other| other.faulty.fault != own.faulty.fault);
    others.filter(|other| near(other)).map(|other| other.faulty.fault).collect()
}

/// How much work a measurement is, against a gauge at a tee (common practice, no published source).
fn effort(index: usize) -> f64 {
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

/// Whether so many readings that belong together are further off than chance takes them once in a thousand times (the distance is
/// distributed as χ²; its quantile by Wilson and Hilferty 1931).
fn too_far(distance: f64, readings: usize) -> bool {
    let n = readings as f64;
    let limit = n * (1.0 - 2.0 / (9.0 * n) + 3.09 * (2.0 / (9.0 * n)).sqrt()).powi(3);
    distance > limit
}
