//! What a rule hands back: what is settled, and what is asked of figures, with the formula that answers it.

use crate::result::rounded;
use crate::sample::Sample;
use crate::{Bound, Cause, Check, CheckId, Class, Outcome, Reason};
use quantity::{Amount, Quantity};
use smallvec::{SmallVec, smallvec};

/// What a formula gives of one sample: the value, the limit, and what sets the value.
#[derive(Clone, Copy, Debug)]
pub struct Reading {
    /// The value.
    pub value: Amount,
    /// The limit, in the dimension of the value.
    pub limit: Amount,
    /// What sets the value of this sample.
    pub because: Cause,
}

impl Reading {
    /// A value with its limit.
    pub fn new<Q: Quantity>(value: Q, limit: Q, because: Cause) -> Self {
        Self { value: Amount::of(value), limit: Amount::of(limit), because }
    }
}

/// A question with a limit on one side.
#[derive(Clone, Copy, Debug)]
pub struct Question {
    /// The check that it belongs to.
    pub id: CheckId,
    /// What a failure puts at risk.
    pub class: Class,
    /// Whether the verdict waits for it while it is not known.
    pub blocks: bool,
    /// Which side of the limit is right.
    pub bound: Bound,
}

impl Question {
    /// Whether a value is on the right side of its limit.
    pub fn holds(self, reading: &Reading) -> bool {
        match self.bound {
            Bound::AtLeast => reading.value.si() >= reading.limit.si(),
            Bound::AtMost => reading.value.si() <= reading.limit.si(),
        }
    }

    /// How far a value is from its limit, as a share of it; negative beyond it.
    pub fn margin(self, reading: &Reading) -> f64 {
        let (value, limit) = (reading.value.si(), reading.limit.si());
        if limit <= 0.0 {
            return 0.0;
        }
        rounded(match self.bound {
            Bound::AtLeast => (value - limit) / limit,
            Bound::AtMost => (limit - value) / limit,
        })
    }

    /// The question answered by a formula of what is known, assumed or missing.
    pub fn asks<'f>(self, read: impl Fn(&Sample) -> Reading + 'f) -> Finding<'f> {
        self.asks_closely(move |sample, _| read(sample))
    }

    /// The question answered by a formula that has a quicker form, whose value is on the same side of the limit.
    pub fn asks_closely<'f>(self, formula: impl Fn(&Sample, Estimate) -> Reading + 'f) -> Finding<'f> {
        Finding::Asked(Asked { question: self, formula: Box::new(formula), told: Some })
    }

    /// The question answered by a value that may not exceed its limit, and by an upper bound of it where that is enough.
    pub fn asks_at_most<'f, Q: Quantity>(
        self,
        because: impl Fn() -> Cause + 'f,
        limit: impl Fn(&Sample) -> Q + 'f,
        value: impl Fn(&Sample, Estimate) -> Q + 'f,
    ) -> Finding<'f> {
        self.asks_closely(move |sample, estimate| {
            let (most, limit) = (value(sample, estimate), limit(sample));
            let within = estimate == Estimate::Exact || most <= limit;
            Reading::new(if within { most } else { value(sample, Estimate::Exact) }, limit, because())
        })
    }

    /// The question answered by figures in which nothing is open.
    pub fn settled(self, reading: Reading) -> Check {
        let holds = self.holds(&reading);
        Check {
            id: self.id,
            class: self.class,
            outcome: if holds { Outcome::Met } else { Outcome::NotMet },
            blocks: self.blocks,
            value: Some(reading.value),
            worst: Some(reading.value),
            limit: Some(reading.limit),
            bound: Some(self.bound),
            margin: Some(self.margin(&reading)),
            reason: if holds { Reason::Within } else { Reason::Beyond { because: reading.because } },
            missing: Vec::new(),
            assumed: Vec::new(),
        }
    }
}

/// How closely a value is worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Estimate {
    /// As its side of the limit asks, quickly; of one that may not exceed its limit an upper bound will do.
    Quick,
    /// As it is.
    Exact,
}

/// What answers a question of each sample.
type Formula<'f> = Box<dyn Fn(&Sample, Estimate) -> Reading + 'f>;

/// A question with the formula that answers it.
pub struct Asked<'f> {
    /// The question.
    pub question: Question,
    /// The formula.
    pub formula: Formula<'f>,
    /// What is told of the check that comes of it; none where it is not told.
    pub told: fn(Check) -> Option<Check>,
}

/// One thing that a rule finds.
pub enum Finding<'f> {
    /// It is settled, or known to be open.
    Settled(Check),
    /// Figures decide it.
    Asked(Asked<'f>),
}

/// What a rule finds; the worst of it stands for the check.
pub type Findings<'f> = SmallVec<[Finding<'f>; 1]>;

impl Finding<'_> {
    /// This, of whose check something else is told, or nothing.
    #[must_use]
    pub fn told(mut self, told: fn(Check) -> Option<Check>) -> Self {
        if let Self::Asked(asked) = &mut self {
            asked.told = told;
        }
        self
    }
}

impl From<Check> for Finding<'_> {
    fn from(check: Check) -> Self {
        Self::Settled(check)
    }
}

impl From<Check> for Findings<'_> {
    fn from(check: Check) -> Self {
        smallvec![Finding::Settled(check)]
    }
}

impl<'f> From<Finding<'f>> for Findings<'f> {
    fn from(finding: Finding<'f>) -> Self {
        smallvec![finding]
    }
}
