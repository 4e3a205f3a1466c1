//! A machine fitted to readings: where within its tolerances it stands if it is sound, or has a fault. Readings bend where another limit
//! takes over (relief, pump, setting), so that straight lines drawn from the likely figures do not do: they are drawn again
//! from where the machine seems to be.

use super::Measurement;
use super::fault::Fault;
use super::normal::{Column, Covariance};
use super::rig::Rig;
use super::signature::Scales;
use super::site::Site;
use super::spread::{Range, Spread};
use quantity::Named;

/// How often lines are drawn again.
const ROUNDS: usize = 3;
/// Over how many standard deviations a slope is taken: wide at first, to see what bends.
const SLOPES: [f64; 2] = [1.3, 0.4];

/// Up to which misfit for each reading they are met well: about what chance makes it.
const WELL_MET: f64 = 1.2;
/// Where readings bend, and where a machine stands on the far side: a relief that opens early, pumps that end below what is set, a
/// setting that ends below what the pumps give.
const BEYOND: [&[(Spread, f64)]; 3] = [
    &[
        (Spread::Relief, -1.0),
        (Spread::CutOff, -1.0),
        (Spread::Tester, 1.0),
        (Spread::Override, 1.0),
        (Spread::Margin, 1.0),
    ],
    &[(Spread::Pumps, -1.3), (Spread::Setting, 0.6)],
    &[(Spread::Setting, -1.3), (Spread::Pumps, 0.6)],
];

/// Readings as they were taken: which, and where on their scales.
#[derive(Clone, Copy)]
pub(super) struct Taken<'a> {
    pub which: &'a [usize],
    pub places: &'a [f64],
}

/// A machine fitted to readings.
#[derive(Clone, Debug)]
pub(super) struct Fitted {
    /// What a machine of its kind reads, by lines drawn from there.
    pub likely: Column,
    /// How readings scatter about that.
    pub covariance: Covariance,
    /// The severity of the fault that is suspected.
    pub severity: Option<f64>,
}

impl Fitted {
    /// How far the readings are off, by what they are against a machine of its kind.
    pub fn deviation(&self, taken: Taken) -> Column {
        taken.places.iter().zip(&self.likely).map(|(read, likely)| read - likely).collect()
    }

    /// The logarithm of how likely the readings are.
    pub fn log_likelihood(&self, taken: Taken) -> f64 {
        self.covariance.log_likelihood(&self.deviation(taken))
    }
}

/// A fault whose severity is fitted too.
#[derive(Clone, Copy, Debug)]
pub(super) struct Suspected {
    pub fault: Fault,
    /// From where.
    pub severity: f64,
    /// How far it may be from there: a standard deviation.
    pub step: f64,
}

impl Suspected {
    /// The severity at a stand, within those that are looked at and a little milder.
    fn at(&self, stand: f64) -> f64 {
        let held = self.fault.severities();
        let (mildest, worst) = (held[0], held[held.len() - 1]);
        let milder = mildest - 0.3 * (held.get(1).copied().unwrap_or(mildest) - mildest);
        (self.severity + stand * self.step).clamp(milder.min(worst), milder.max(worst))
    }
}

/// What a machine's tolerances are, and where each stands: in standard deviations about its mean.
pub(super) struct Fit<'a> {
    pub site: &'a Site,
    pub spreads: &'a [(Spread, Range)],
    pub scales: &'a Scales,
    /// What is wrong with it.
    pub suspected: Option<Suspected>,
    /// Whether it is looked for beyond the bends too.
    pub thorough: bool,
}

impl Fit<'_> {
    /// A rig with its tolerances so.
    fn at(&self, rig: &Rig, stand: &[f64]) -> Rig {
        let mut moved = rig.clone();
        for (&(spread, range), stand) in self.spreads.iter().zip(stand) {
            // Nothing stands beyond its tolerance, but for a little.
            let by = (range.mean() + stand * range.deviation()).clamp(1.1 * range.low, 1.1 * range.high);
            spread.shift(self.site, &mut moved, by);
        }
        match self.suspected.zip(stand.get(self.spreads.len())) {
            Some((suspected, &stand)) => suspected.fault.on(self.site, &moved, suspected.at(stand)),
            None => moved,
        }
    }

    /// Where everything is likeliest.
    fn start(&self) -> Vec<f64> {
        vec![0.0; self.spreads.len() + usize::from(self.suspected.is_some())]
    }

    fn read(&self, rig: &Rig, stand: &[f64], which: &[usize]) -> Column {
        let reads = self.at(rig, stand).reads(&self.site.computed);
        which.iter().map(|&i| self.scales.place(i, reads.get(Measurement::ALL[i]).unwrap_or(0.0))).collect()
    }

    /// What instruments scatter by where a machine reads so.
    fn scatter(&self, places: &[f64], which: &[usize]) -> Column {
        which.iter().zip(places).map(|(&i, place)| self.scales.scatter(i, self.scales.value(i, *place))).collect()
    }

    /// How badly readings are met, tolerances and instruments together.
    fn misfit(&self, taken: Taken, places: &[f64], stand: &[f64]) -> f64 {
        let own = self.scatter(places, taken.which);
        let off = taken.places.iter().zip(places).zip(own).map(|((read, place), own)| ((read - place) / own).powi(2));
        off.sum::<f64>() + stand.iter().map(|x| x * x).sum::<f64>()
    }

    /// Fits the machine to readings. Where they are not met from the likely figures on, it is tried from beyond the bends: on the near
    /// side of one nothing tells that it is there.
    pub fn to(&self, taken: Taken) -> Fitted {
        let (mut fitted, mut misfit) = self.from(self.start(), taken);
        for start in &BEYOND {
            if !self.thorough || misfit < taken.which.len() as f64 * WELL_MET {
                break;
            }
            let has = |wanted: &Spread| self.spreads.iter().any(|(spread, _)| spread == wanted);
            if !start.iter().all(|(spread, _)| has(spread) || *spread == Spread::CutOff || *spread == Spread::Margin) {
                continue;
            }
            let mut stand = self.start();
            for (stand, (spread, _)) in stand.iter_mut().zip(self.spreads) {
                *stand = start.iter().find(|(known, _)| known == spread).map_or(0.0, |(_, at)| *at);
            }
            let (other, off) = self.from(stand, taken);
            if off < misfit {
                (fitted, misfit) = (other, off);
            }
        }
        fitted
    }

    /// Gauss's and Newton's way from a start, with steps shortened that make it worse.
    fn from(&self, start: Vec<f64>, taken: Taken) -> (Fitted, f64) {
        let rig = &self.site.rig;
        let mut stand = start;
        let mut places = self.read(rig, &stand, taken.which);
        let mut misfit = self.misfit(taken, &places, &stand);
        let mut lines = self.lines(rig, &stand, &places, SLOPES[0], taken, None);
        for round in 0..ROUNDS {
            let (fitted, slopes) = &lines;
            let weights = fitted.covariance.weights(&fitted.deviation(taken));
            let aim: Vec<f64> =
                slopes.iter().map(|slope| slope.iter().zip(&weights).map(|(a, b)| a * b).sum()).collect();
            let (mut share, mut gained) = (1.0, 0.0);
            for _ in 0..4 {
                let next: Vec<f64> =
                    stand.iter().zip(&aim).map(|(x, aim): (&f64, &f64)| x + share * (aim - x)).collect();
                let there = self.read(rig, &next, taken.which);
                let off = self.misfit(taken, &there, &next);
                if off < misfit {
                    gained = misfit - off;
                    (stand, places, misfit) = (next, there, off);
                    break;
                }
                share *= 0.4;
            }
            if gained < 0.05 && round > 0 {
                break;
            }
            let bears: Vec<bool> = lines.1.iter().map(|slope| slope.iter().any(|s| s.abs() > 1e-9)).collect();
            lines = self.lines(rig, &stand, &places, SLOPES[1], taken, Some(&bears));
        }
        (lines.0, misfit)
    }

    /// Straight lines from where a machine stands. What bears on none of the readings is left out from the second time on.
    fn lines(
        &self,
        rig: &Rig,
        stand: &[f64],
        places: &Column,
        over: f64,
        taken: Taken,
        bears: Option<&[bool]>,
    ) -> Lines {
        let mut slopes: Vec<Column> = Vec::with_capacity(stand.len());
        let mut likely = places.clone();
        let mut beside = stand.to_vec();
        for index in 0..stand.len() {
            if bears.is_some_and(|bears| !bears[index]) {
                slopes.push(Column::from_elem(0.0, places.len()));
                continue;
            }
            let mut at = |by: f64| {
                beside[index] = stand[index] + by;
                let read = self.read(rig, &beside, taken.which);
                beside[index] = stand[index];
                read
            };
            // Both sides at first, then one: where the machine seems to be, it bends no more.
            let (less, span) = if bears.is_none() { (at(-over), 2.0 * over) } else { (places.clone(), over) };
            let more = at(over);
            let slope: Column = less.iter().zip(&more).map(|(less, more)| (more - less) / span).collect();
            for (likely, slope) in likely.iter_mut().zip(&slope) {
                *likely -= slope * stand[index];
            }
            slopes.push(slope);
        }
        let own = self.scatter(places, taken.which);
        let covariance = Covariance::of(&own, &slopes);
        let severity = self.suspected.zip(stand.get(self.spreads.len())).map(|(suspected, &stand)| suspected.at(stand));
        (Fitted { likely, covariance, severity }, slopes)
    }
}

/// A fitted machine with what each tolerance moves.
type Lines = (Fitted, Vec<Column>);
