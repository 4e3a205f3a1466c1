//! What the machine may carry over how far out it hangs, against what the head weighs: at likely figures.

use super::Installation;
use crate::FactId;
use crate::checks::lift;
use crate::sample::{Corner, Sample};
use quantity::{Amount, Length, Quantity, put_in_order};
use table::MachineEnd;

/// What may hang at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LiftAt {
    /// How far out: of a digging arm from the slew axis to the pin, of a loader from the coupler's face to the head's centre of
    /// gravity.
    pub reach: Amount,
    /// How high above the ground, on a digging arm's chart.
    pub height: Option<Amount>,
    /// Whether over the side rather than over the front, on a digging arm's chart.
    pub over_side: Option<bool>,
    /// What may hang there, coupler included.
    pub carries: Amount,
}

/// What the machine may carry, over reach.
#[derive(Clone, Debug, PartialEq)]
pub struct LiftOverReach {
    /// Head, what it holds, and coupler.
    pub hangs: Amount,
    /// What may hang where, the nearest first.
    pub at: Vec<LiftAt>,
    /// How far out the head's centre of gravity hangs before a loader's coupler.
    pub hangs_out: Option<Amount>,
}

impl Installation<'_> {
    /// What the machine may carry over reach.
    ///
    /// # Errors
    /// What is missing to say it.
    pub fn lift_over_reach(&self) -> Result<LiftOverReach, Vec<FactId>> {
        let facts = self.facts();
        let sample = Sample::new(Corner::Likely);
        let Some(lifting) = &self.carrier.lifting else { return Err(vec![FactId::Lifting]) };
        let hangs = lift::hangs(&facts, &sample, lift::payload(&facts).as_ref());
        let out = lift::hangs_out(&facts, &sample);
        let by_chart = facts.end().ok_or(vec![FactId::CircuitEnd])? == MachineEnd::Arm;
        let mut at: Vec<LiftAt> = if by_chart {
            let points = lifting.chart.iter().map(|point| LiftAt {
                reach: Amount::of(point.reach.nominal),
                height: Some(Amount::of(point.height.nominal)),
                over_side: Some(point.over_side),
                carries: Amount::of(lift::at_point(&sample, lifting, point, out)),
            });
            points.collect()
        } else if lifting.rated_operating_capacity.is_none() && lifting.tipping_load.is_none() {
            Vec::new()
        } else {
            // From the coupler's face to half as far again as the head hangs out.
            let far = 1.5 * out.si().max(0.4);
            let steps = (0..=12).map(|i| Length::from_si(far * f64::from(i) / 12.0)).chain([out]);
            let carries = |reach: Length| Amount::of(lift::at_distance(&facts, &sample, lifting, reach));
            let at = steps.map(|reach| LiftAt {
                reach: Amount::of(reach),
                height: None,
                over_side: None,
                carries: carries(reach),
            });
            at.collect()
        };
        let missing = sample.missing();
        if at.is_empty() || !missing.is_empty() {
            return Err(if missing.is_empty() { vec![FactId::Lifting] } else { missing });
        }
        put_in_order(&mut at, |a, b| a.reach.si().total_cmp(&b.reach.si()));
        Ok(LiftOverReach { hangs: Amount::of(hangs), at, hangs_out: (!by_chart).then_some(Amount::of(out)) })
    }
}

impl LiftOverReach {
    /// The least that may hang where it is: on a digging arm anywhere on its chart, on a loader at the head's centre of gravity.
    pub fn carries_there(&self) -> Option<Amount> {
        let here = |at: &&LiftAt| self.hangs_out.is_none_or(|out| (at.reach.si() - out.si()).abs() < 1e-9);
        self.at.iter().filter(here).map(|at| at.carries).min_by(|a, b| a.si().total_cmp(&b.si()))
    }

    /// The greatest reach up to which all that hangs may hang; none where it may not even at the nearest.
    pub fn lifts_to(&self) -> Option<Amount> {
        let first_bad = self.at.iter().position(|at| at.carries.si() < self.hangs.si());
        let bad = first_bad.map(|index| self.at[index].reach.si());
        self.at.iter().map(|at| at.reach).rfind(|reach| bad.is_none_or(|bad| reach.si() < bad - 1e-9))
    }
}
