//! Why a number is what it is: the formula, the inputs that were really used with where each comes from, and what came out.
//!
//! Nothing here is listed by hand. The check, point, figure or setting is worked out once more, for whoever asks, with a [`Recorder`]
//! that hears every fact that is taken and every value that is tried; an ordinary answer knows nothing of it and is no slower. The words
//! are made in `wording`.

mod cost;
mod formula;
mod point;
mod recorder;
mod setting;
#[cfg(test)]
mod tests;
mod tried;
mod used;
mod visible;
mod whence;

pub use cost::{reasoning_of_change, reasoning_of_cost};
pub use formula::Formula;
pub use point::{reasoning_of_brochure, reasoning_of_mark, reasoning_of_oil, reasoning_of_point};
pub use recorder::Recorder;
pub use setting::reasoning_of_setting;
pub use tried::{Against, Trial};
pub use used::{Aspect, Besides, From, Used, Value, What, Worked};
pub use visible::{Counted, Ends, Given, Seen, Visible};
pub use whence::{BrochureFigure, OilFigure, PointFigure, Whence, why};

use super::assume::Practice;
use super::checks;
use super::facts::Facts;
use super::judge::Depth;
use super::sheets::Total;
use super::{AssumedFrom, Because, Bound, Check, CheckId, Conditions, Outcome, Reason};
use quantity::{Amount, ThermodynamicTemperature};
use table::{AssumptionId, Carrier, Head, Id};

/// Where a number comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Reasoning {
    /// The check, where it is one.
    pub check: Option<CheckId>,
    /// The relations, the one that gives the number first.
    pub formulas: Vec<Formula>,
    /// What went into them, in the order in which it was asked for.
    pub inputs: Vec<Used>,
    /// The ranges among them that are the table's own.
    pub own_ranges: Vec<AssumptionId>,
    /// Of a setting: what spoke against the values nearest to it. Of a part: what speaks against others of the shop's.
    pub tried: Vec<Trial>,
    /// Of a setting: the checks of the finished machine that it is held against.
    pub held: Vec<Check>,
    /// What came out.
    pub result: Came,
}

impl Reasoning {
    fn new(
        check: Option<CheckId>,
        formulas: Vec<Formula>,
        inputs: Vec<Used>,
        practice: &Practice,
        result: Came,
    ) -> Self {
        let mut own_ranges = Vec::new();
        for used in &inputs {
            if let From::Assumed(id) = used.from
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
pub struct Came {
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
    pub because: Option<Because>,
    /// Between what it may lie, of a setting.
    pub between: Option<(Amount, Amount)>,
    /// What it takes, of a cost.
    pub takes: Option<Total>,
}

impl Came {
    fn of(check: &Check) -> Self {
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

    fn figure(likely: Option<Amount>) -> Self {
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

/// How a check of one circuit of a machine with a head was worked out; none when the machine has no circuit of that name. Of a
/// machine without any circuit the one is taken of which nothing is known, as [`pair`](super::pair) does.
pub fn reasoning(
    carrier: &Carrier,
    circuit: Option<&Id>,
    head: &Head,
    conditions: &Conditions,
    check: CheckId,
) -> Option<Reasoning> {
    let unknown = super::unknown_circuit();
    let circuit = of_name(carrier, circuit, &unknown)?;
    Some(judged_from(carrier, circuit, head, conditions, check, None))
}

/// The same with the lowest oil temperature at which it must hold, else that of the machine.
fn judged_from(
    carrier: &Carrier,
    circuit: &table::Circuit,
    head: &Head,
    conditions: &Conditions,
    check: CheckId,
    warm: Option<ThermodynamicTemperature>,
) -> Reasoning {
    let recorder = Recorder::default();
    let mut facts = Facts::gather(carrier, circuit, head, conditions);
    facts.depth = Depth::Recorded(&recorder);
    let warm = warm.unwrap_or_else(|| checks::warm_enough(&facts));
    let judged = checks::check(check, &facts, warm);
    let practice = facts.practice;
    let inputs = recorder.behind(&judged);
    let formulas = formula::of_check(&judged, &inputs, head, carrier.end_of(circuit));
    Reasoning::new(Some(check), formulas, inputs, &practice, Came::of(&judged))
}

fn of_name<'a>(carrier: &'a Carrier, circuit: Option<&Id>, unknown: &'a table::Circuit) -> Option<&'a table::Circuit> {
    match circuit {
        Some(id) => carrier.circuits.iter().find(|known| known.id == *id),
        None => Some(carrier.circuits.first().unwrap_or(unknown)),
    }
}
