//! A reasoning: relations, inputs and what came out.

use crate::formula::Formula;
use fit::assume::Practice;
use fit::trace::{InputRecord, Origin, Trial};
use fit::{AssumedFrom, Bound, Cause, Check, CheckId, Outcome, Reason, Total};
use quantity::Amount;
use table::AssumptionId;

/// Where a number comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Reasoning {
    /// The check, where it is one.
    pub check: Option<CheckId>,
    /// The relations, the one that gives the number first.
    pub formulas: Vec<Formula>,
    /// What went into them, in the order in which it was asked for.
    pub inputs: Vec<InputRecord>,
    /// The ranges among them that are the table's own.
    pub own_ranges: Vec<AssumptionId>,
    /// Of a setting: what spoke against the values nearest to it. Of a part: what speaks against others of the shop's.
    pub tried: Vec<Trial>,
    /// Of a setting: the checks of the finished machine that it is held against.
    pub held: Vec<Check>,
    /// What came out.
    pub result: Conclusion,
}

impl Reasoning {
    /// A reasoning in which no other value was tried.
    pub fn new(
        check: Option<CheckId>,
        formulas: Vec<Formula>,
        inputs: Vec<InputRecord>,
        practice: &Practice,
        result: Conclusion,
    ) -> Self {
        let mut own_ranges = Vec::new();
        for input in &inputs {
            if let Origin::Assumed(id) = input.origin
                && practice.stated(id).is_some_and(|range| range.from == AssumedFrom::Table)
                && !own_ranges.contains(&id)
            {
                own_ranges.push(id);
            }
        }
        Self { check, formulas, inputs, own_ranges, tried: Vec::new(), held: Vec::new(), result }
    }
}

/// What came out. Each part is absent where there is none, or nobody can say.
#[derive(Clone, Debug, PartialEq)]
pub struct Conclusion {
    /// At likely figures.
    pub likely: Option<Amount>,
    /// In the worst corner.
    pub worst: Option<Amount>,
    /// The limit.
    pub limit: Option<Amount>,
    /// Which side of it is right.
    pub bound: Option<Bound>,
    /// How far the worst value is from it, as a share of it.
    pub margin: Option<f64>,
    /// How the check came out.
    pub outcome: Option<Outcome>,
    /// What sets the worst corner.
    pub because: Option<Cause>,
    /// Between what it may lie, of a setting.
    pub between: Option<(Amount, Amount)>,
    /// What it takes, of a cost.
    pub takes: Option<Total>,
}

impl Conclusion {
    /// What came out of a check.
    pub fn of(check: &Check) -> Self {
        let because = match check.reason {
            Reason::Beyond { because } | Reason::Undecided { because } => Some(because),
            _ => None,
        };
        Self {
            likely: check.value,
            worst: check.worst,
            limit: check.limit,
            bound: check.bound,
            margin: check.margin,
            outcome: Some(check.outcome),
            because,
            between: None,
            takes: None,
        }
    }

    /// A figure without a limit.
    pub fn figure(likely: Option<Amount>) -> Self {
        Self {
            likely,
            worst: None,
            limit: None,
            bound: None,
            margin: None,
            outcome: None,
            because: None,
            between: None,
            takes: None,
        }
    }
}
