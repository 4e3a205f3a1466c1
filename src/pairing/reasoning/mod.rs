//! Why a number is what it is: the formula, the inputs that were really used with where each comes from, and what came out.
//!
//! Nothing here is listed by hand. The check, point or figure is worked out once more, for whoever asks, with a [`Recorder`] that
//! hears every fact that is taken; an ordinary answer knows nothing of it and is no slower. The words are made in `wording`.

mod formula;
mod recorder;
#[cfg(test)]
mod tests;
mod used;
mod visible;

pub use formula::Formula;
pub use recorder::Recorder;
pub use used::{Aspect, Besides, From, Used, Value, What, Worked};
pub use visible::{Counted, Ends, Given, Seen, Visible};

use super::assume::Practice;
use super::checks;
use super::draw::Stance;
use super::facts::Facts;
use super::installation::Installation;
use super::installation::states::{balanced, powers_by, temperature_of};
use super::judge::Depth;
use super::{AssumedFrom, Because, Bound, Check, CheckId, Conditions, Load, OilState, Outcome, Reason, Stage, points};
use crate::circuit::balance::Balanced;
use crate::quantity::{Amount, names};
use crate::table::{self, AssumptionId, Carrier, Head, Id};

names! {
    /// A quantity of a solved operating point.
    "figure of a point" pub enum PointFigure {
        /// Flow through the head.
        Flow = "flow",
        /// Pressure at the pump.
        PumpPressure = "pump-pressure",
        /// Pressure at the head's inlet.
        HeadInlet = "head-inlet",
        /// Pressure at the head's outlet.
        HeadOutlet = "head-outlet",
        /// Pressure in the motor's housing.
        CasePressure = "case-pressure",
        /// Rotor speed.
        RotorSpeed = "rotor-speed",
        /// Power at the motor's shaft.
        ShaftPower = "shaft-power",
        /// Power that warms the oil.
        Heat = "heat",
    }
}

names! {
    /// A figure that a brochure is compared with.
    "figure of a brochure" pub enum BrochureFigure {
        /// The flow that reaches the head at work.
        Flow = "flow",
        /// The pressure that is left for the motor.
        Pressure = "pressure",
    }
}

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
        Self { check, formulas, inputs, own_ranges, result }
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
        }
    }

    fn figure(likely: Option<Amount>) -> Self {
        Self { likely, worst: None, limit: None, bound: None, margin: None, outcome: None, because: None }
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
    let recorder = Recorder::default();
    let mut facts = Facts::gather(carrier, circuit, head, conditions);
    facts.depth = Depth::Recorded(&recorder);
    let judged = checks::check(check, &facts, checks::warm_enough(&facts));
    let practice = facts.practice;
    let inputs = recorder.behind(&judged);
    let formulas = formula::of_check(&judged, &inputs, head, carrier);
    Some(Reasoning::new(Some(check), formulas, inputs, &practice, Came::of(&judged)))
}

/// How a figure of a solved operating point was worked out.
pub fn reasoning_of_point(
    carrier: &Carrier,
    circuit: Option<&Id>,
    head: &Head,
    conditions: &Conditions,
    (oil, load): (OilState, Load),
    figure: PointFigure,
) -> Option<Reasoning> {
    let unknown = super::unknown_circuit();
    let circuit = of_name(carrier, circuit, &unknown)?;
    let recorder = Recorder::default();
    let mut facts = Facts::gather(carrier, circuit, head, conditions);
    facts.depth = Depth::Recorded(&recorder);
    let point = points::point(&facts, Stage::AsItIs, oil, load);
    let draw = facts.draw(Stance::Nominal);
    let (solved, balanced) = balanced(&facts, &draw, load, temperature_of(&facts, oil));
    if let Balanced::Turns(at) | Balanced::Stalls(at) = &balanced {
        match figure {
            PointFigure::Flow => {}
            PointFigure::PumpPressure | PointFigure::HeadInlet | PointFigure::HeadOutlet => {
                draw.works_out(Worked::FlowAtWork, at.flow);
            }
            PointFigure::CasePressure => {
                draw.works_out(Worked::LeakedFlow, at.flow - solved.returned(at.flow));
            }
            PointFigure::RotorSpeed => {
                draw.works_out(Worked::FlowAtWork, at.flow);
                facts.motor(&draw);
            }
            PointFigure::ShaftPower | PointFigure::Heat => {
                draw.works_out(Worked::FlowAtWork, at.flow);
                draw.works_out(Worked::PumpPressure, solved.source.pump_pressure(at.supply));
                powers_by(&facts, &draw, &solved, at);
            }
        }
    }
    let practice = facts.practice;
    let value = match figure {
        PointFigure::Flow => point.flow,
        PointFigure::PumpPressure => point.pump_pressure,
        PointFigure::HeadInlet => point.head_inlet,
        PointFigure::HeadOutlet => point.head_outlet,
        PointFigure::CasePressure => point.case_pressure,
        PointFigure::RotorSpeed => point.rotor_speed,
        PointFigure::ShaftPower => point.shaft_power,
        PointFigure::Heat => point.heat,
    };
    Some(Reasoning::new(None, formula::of_point(figure, load), recorder.all(), &practice, Came::figure(value)))
}

/// How what is left of a brochure's figure was worked out; none where the brochure cannot be compared.
pub fn reasoning_of_brochure(
    carrier: &Carrier,
    circuit: &Id,
    head: &Head,
    conditions: &Conditions,
    figure: BrochureFigure,
) -> Option<Reasoning> {
    let recorder = Recorder::default();
    let installation = Installation::new(carrier, circuit, head, conditions)?;
    let brochure = installation.brochure_heard(Depth::Recorded(&recorder))?;
    let practice = installation.practice();
    let gap = match figure {
        BrochureFigure::Flow => brochure.flow,
        BrochureFigure::Pressure => brochure.pressure,
    };
    let formulas = formula::of_brochure(figure);
    Some(Reasoning::new(None, formulas, recorder.all(), &practice, Came::figure(Some(gap.gives))))
}

fn of_name<'a>(carrier: &'a Carrier, circuit: Option<&Id>, unknown: &'a table::Circuit) -> Option<&'a table::Circuit> {
    match circuit {
        Some(id) => carrier.circuits.iter().find(|known| known.id == *id),
        None => Some(carrier.circuits.first().unwrap_or(unknown)),
    }
}
