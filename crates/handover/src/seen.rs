//! A fault as some readings see it: how likely they are with it over its severities, and which faults they cannot part.

use super::fault::Fault;
use super::fitting::{Fit, Suspected, Taken};
use super::normal::{Column, Covariance, log_mean};
use super::signature::{Faulty, Hypothesis, Signatures};

/// From how many standard deviations squared on two states are told apart.
const APART: f64 = 6.0;
/// From which difference of the logarithms of two likelihoods on readings tell: one in twenty.
const TELLING: f64 = 3.0;
/// Points between two severities that are looked at.
const BETWEEN: [f64; 3] = [0.0, 1.0 / 3.0, 2.0 / 3.0];

/// A fault as the readings see it.
pub(super) struct Seen<'a> {
    pub faulty: &'a Faulty,
    /// The logarithm of how likely the readings are with it, over its severities.
    pub evidence: f64,
    /// The logarithm of how likely the readings are at the severity that fits best.
    pub likelihood: f64,
    /// That severity, and what is read with it.
    pub severity: f64,
    pub places: Column,
    /// `places` and `covariance` as they were before the closer look: between the severities that were solved beforehand.
    pub held: Column,
    pub held_covariance: Covariance,
    /// How far that is off, in standard deviations squared.
    pub off: f64,
    pub covariance: Covariance,
    pub nearest: &'a Hypothesis,
    /// Its share of the likelihood of all faults.
    pub share: f64,
}

impl Seen<'_> {
    pub fn weighed(&self) -> f64 {
        self.evidence + self.faulty.fault.likelihood().ln()
    }

    /// Fits the machine with this fault, as severe as seems likeliest, to the readings; what that finds better counts for the
    /// fault as a whole.
    pub fn look_closely(&mut self, fit: &Fit, taken: Taken) {
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

impl Signatures {
    /// A fault over its severities.
    pub(super) fn see<'a>(
        &'a self,
        sound: &'a Hypothesis,
        faulty: &'a Faulty,
        read: &[f64],
        which: &[usize],
    ) -> Seen<'a> {
        let mut likelihoods = Vec::new();
        let mut best: Option<(f64, f64, Column, &Hypothesis, Covariance)> = None;
        let covariances: Vec<Covariance> =
            faulty.at.iter().map(|(_, state)| state.covariance(&self.scales, which)).collect();
        let mut look = |severity: f64, places: Column, state: &'a Hypothesis, covariance: &Covariance| {
            let deviation: Column = read.iter().zip(&places).map(|(read, place)| read - place).collect();
            let likelihood = covariance.log_likelihood(&deviation);
            likelihoods.push(likelihood);
            if best.as_ref().is_none_or(|best| likelihood > best.0) {
                best = Some((likelihood, severity, places, state, covariance.clone()));
            }
        };
        let mildest = &faulty.at[0];
        // Milder than the mildest: half the way from a sound machine.
        look(mildest.0, sound.towards(&mildest.1, 0.6, which), &mildest.1, &covariances[0]);
        for (index, (severity, state)) in faulty.at.iter().enumerate() {
            let Some((worse, other)) = faulty.at.get(index + 1) else {
                look(*severity, state.towards(state, 0.0, which), state, &covariances[index]);
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
                );
            }
        }
        let evidence = log_mean(&likelihoods);
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
}

/// Faults that cannot be told from one by these readings: somewhere among their severities they show the same.
pub(super) fn alike(own: &Seen, all: &[Seen], which: &[usize]) -> Vec<Fault> {
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
