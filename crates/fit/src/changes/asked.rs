//! What is asked of a machine with a setting tried on it; and what spoke against each value that was tried, for whoever asks why.

use crate::assume::PRESSURE_MARGIN;
use crate::checks;
use crate::facts::{Circuits, Extreme, Facts};
use crate::judge;
use crate::question::Findings;
use crate::sample::{Corner, Sample};
use crate::solved::{Solved, Tried};
use crate::trace::Against;
use crate::{CheckId, Outcome};
use quantity::Quantity;
use smallvec::SmallVec;
use std::cell::RefCell;

/// A question by which a setting is solved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    /// The flow stays below the head's greatest.
    MostFlow,
    /// The rotor stays below its greatest speed.
    RotorSpeed,
    /// The outlet is rated for the back pressure.
    BackPressure,
    /// The seal is rated for the pressure in the housing.
    CasePressure,
    /// The head's least flow arrives in the lean corner.
    LeastFlow,
    /// The least power reaches the head.
    LeastPower,
    /// The machine's functions keep what they need.
    Functions,
    /// The relief leaves the motor its need and the margin of practice.
    NeedAtWork,
    /// The least flow arrives, or it is not the relief that takes it: where pump or power cannot give it at any pressure, more
    /// relief is no help.
    FlowUnderRelief,
    /// There is a gap between the pressure settings.
    Gaps,
}

/// The upper limits of a flow. Only figures count here: a case line or a limit that is missing is no matter of the flow.
pub const UPPER: [Asked; 4] = [Asked::MostFlow, Asked::RotorSpeed, Asked::BackPressure, Asked::CasePressure];
/// What the height of a relief must leave.
pub const ENOUGH: [Asked; 2] = [Asked::NeedAtWork, Asked::FlowUnderRelief];

impl Asked {
    fn findings<'f>(self, facts: &'f Facts) -> Findings<'f> {
        let warm = facts.warm_enough;
        let of_check = |id| checks::findings(id, facts, warm);
        match self {
            Self::MostFlow => checks::flow_below_greatest(facts, warm).into(),
            Self::RotorSpeed => of_check(CheckId::RotorSpeed),
            Self::BackPressure => of_check(CheckId::BackPressure),
            Self::CasePressure => of_check(CheckId::CasePressure),
            Self::LeastFlow | Self::FlowUnderRelief => checks::flow_above_least(facts, warm).into(),
            Self::LeastPower => checks::power_above_least(facts, warm).into(),
            Self::Functions => of_check(CheckId::Functions),
            Self::NeedAtWork => checks::pressure_left(facts, warm).into(),
            Self::Gaps => of_check(CheckId::ReliefOverlap),
        }
    }

    /// Whether it holds up to some value of a setting, or from some value on; none where it does neither.
    fn holds_up_to(self) -> Option<bool> {
        match self {
            Self::MostFlow | Self::RotorSpeed | Self::BackPressure | Self::CasePressure | Self::Functions => Some(true),
            Self::LeastFlow | Self::LeastPower | Self::NeedAtWork | Self::FlowUnderRelief => Some(false),
            Self::Gaps => None,
        }
    }

    /// How much of a limit must be left.
    fn spare(self) -> f64 {
        if self == Self::NeedAtWork { PRESSURE_MARGIN } else { 0.0 }
    }

    fn holds(self, facts: &Facts) -> bool {
        let Some(check) = judge::outcome(self.findings(facts)) else { return true };
        match self {
            Self::MostFlow | Self::RotorSpeed | Self::BackPressure | Self::CasePressure => {
                check.margin.is_none_or(|margin| margin >= 0.0 && check.outcome != Outcome::NotMet)
            }
            Self::LeastFlow => check.margin.is_some_and(|margin| margin >= 0.0),
            Self::NeedAtWork => {
                check.outcome == Outcome::Met && check.margin.is_some_and(|margin| margin >= self.spare())
            }
            Self::FlowUnderRelief => check.margin.is_some_and(|margin| margin >= 0.0) || !relief_takes_flow(facts),
            Self::Gaps | Self::Functions | Self::LeastPower => check.outcome != Outcome::NotMet,
        }
    }
}

/// A setting while it is solved: what is known of each question by the values that were tried.
pub struct Trials<W> {
    with: W,
    /// The circuits that were drawn with each value (SI).
    drawn: RefCell<SmallVec<[(f64, Circuits); 8]>>,
    answers: RefCell<SmallVec<[(Asked, f64, bool); 16]>>,
    tried: Tried,
}

impl<W: Fn(f64, &mut dyn FnMut(Facts))> Trials<W> {
    /// On facts of which `with` gives those with a value (SI) tried.
    pub fn of(facts: &Facts, with: W) -> Self {
        Self { with, drawn: RefCell::default(), answers: RefCell::default(), tried: Tried::on(facts) }
    }

    /// Does something with what is known with a value tried.
    fn try_out(&self, value: f64, mut work: impl FnMut(&Facts)) {
        let mut drawn = self.drawn.borrow_mut();
        let known = drawn.iter().position(|(known, _)| known.to_bits() == value.to_bits());
        let known = known.unwrap_or_else(|| {
            drawn.push((value, Circuits::default()));
            drawn.len() - 1
        });
        let circuits = &drawn[known].1;
        (self.with)(value, &mut |facts| work(&facts.remembering(circuits)));
    }

    /// Whether all of this holds with a value tried.
    pub fn hold<Q: Quantity>(&self, value: Q, asked: &[Asked]) -> bool {
        let holds = self.all_hold(value.si(), asked);
        self.tried.with(value, || self.against(value.si(), asked));
        holds
    }

    /// What speaks against a value.
    fn against(&self, value: f64, asked: &[Asked]) -> Vec<Against> {
        let mut against = Vec::new();
        self.try_out(value, |tried| {
            let fail = asked.iter().filter(|question| !question.holds(tried));
            let whole = |of: &Asked| judge::whole(of.findings(tried), None);
            against.extend(fail.filter_map(|of| Some(Against { check: whole(of)?, spare: of.spare() })));
        });
        against
    }

    /// The value that was taken in the end.
    pub fn taken<Q: Quantity>(self, value: Q) -> Solved<Q> {
        self.tried.taken(value)
    }

    fn all_hold(&self, value: f64, asked: &[Asked]) -> bool {
        if asked.iter().any(|&question| self.known(question, value) == Some(false)) {
            return false;
        }
        let open = asked.iter().copied().filter(|&question| self.known(question, value).is_none());
        let mut open: SmallVec<[Asked; 4]> = open.collect();
        if open.is_empty() {
            return true;
        }
        // What failed before fails again.
        let has_failed = |question| self.answers.borrow().iter().any(|&(of, _, holds)| of == question && !holds);
        open.sort_by_key(|&question| !has_failed(question));
        let mut all = true;
        self.try_out(value, |tried| {
            all = open.iter().all(|&question| {
                let holds = question.holds(tried);
                self.answers.borrow_mut().push((question, value, holds));
                holds
            });
        });
        all
    }

    /// What an answer at another value says of a question.
    fn known(&self, question: Asked, value: f64) -> Option<bool> {
        let up_to = question.holds_up_to()?;
        let says = |&(of, at, holds): &(Asked, f64, bool)| {
            let decides = if holds == up_to { at >= value } else { at <= value };
            (of == question && decides).then_some(holds)
        };
        self.answers.borrow().iter().find_map(says)
    }
}

/// Whether the relief takes part of the flow at the head's working point in the lean corner.
fn relief_takes_flow(facts: &Facts) -> bool {
    let sample = Sample::new(Corner::Worst);
    let circuit = facts.circuit(&sample, Extreme::LeastFlow, facts.warm_enough);
    let difference = facts.working_difference(&sample, &circuit);
    match (circuit.solve(difference), circuit.relief) {
        (Ok(point), Some(relief)) => relief.share_passed(point.supply) > 0.0,
        _ => true,
    }
}
