//! What is wrong, by what was read: each fault's readings against those that were really taken, in the measure of how instruments and
//! sound machines scatter, over its severities, with how often it is met as a weak prior (Bayes).

use super::Measurement;
use super::finding::{Diagnosis, Finding, Read};
use super::fitting::{Fit, Taken};
use super::limits::{alarmed, too_far};
use super::next::{Case, effort};
use super::normal::{Column, Covariance};
use super::reads::Reads;
use super::seen::Seen;
use super::signature::{Faulty, Hypothesis, Signatures};
use quantity::{Named, put_in_order};
use workshop::Judged;

/// How likely a machine is sound, against all faults together (common practice, no published source): most hand-overs are.
const SOUND: f64 = 3.0;
/// From how many on a fault would have been seen.
const SEEN: f64 = 9.0;
/// Which share of what all faults weigh must have been seen before nothing is said to be wrong.
const ENOUGH: f64 = 0.6;
/// How many are looked at closely.
const CLOSELY: usize = 6;
/// Of them, how many beyond each bend.
const THOROUGHLY: usize = 3;

impl Signatures {
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
        let fit = Fit { site, spreads: &self.spreads, scales: &self.scales, suspected: None, thorough: true };
        let healthy = fit.to(taken_places);
        let mut seen: Vec<Seen> = self.faults.iter().map(|faulty| self.see(sound, faulty, &read, which)).collect();
        // The likeliest are looked at closely.
        put_in_order(&mut seen, |a, b| b.weighed().total_cmp(&a.weighed()));
        for (place, seen) in seen.iter_mut().take(CLOSELY).enumerate() {
            seen.look_closely(&Fit { thorough: place < THOROUGHLY, ..fit }, taken_places);
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
        let case = Case { sound, reads: taken, taken: taken_places, beyond, healthy: &healthy };
        // What moves none of what was read cannot be behind it, least of all a fault of what is not connected yet.
        seen.retain(|seen| seen.faulty.moves(sound, which) || alarmed(seen.faulty.fault, beyond));
        if faulty >= 0.5 || too_far(off, which.len()) {
            return self.suspects(&case, seen);
        }
        // What is beyond a limit is suspected whatever is likely.
        seen.retain(|seen| alarmed(seen.faulty.fault, beyond));
        if seen.is_empty() {
            return self.nothing_found(sound, which, &sound.covariance(&self.scales, which));
        }
        self.suspects(&case, seen)
    }

    /// Nothing is off: enough was read to say so, or not.
    fn nothing_found(&self, sound: &Hypothesis, which: &[usize], covariance: &Covariance) -> Finding {
        let shown = |faulty: &Faulty, which: &[usize], covariance: &Covariance| {
            covariance.distance(&faulty.typical().apart_from(sound, which)) >= SEEN
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
                let between = covariance.distance(&faulty.typical().apart_from(sound, taken));
                let danger = if faulty.fault.is_dangerous() { 3.0 } else { 1.0 };
                danger * faulty.fault.likelihood() * (between / SEEN).min(1.0)
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
}
