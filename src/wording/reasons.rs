//! Why a check came out as it did.

use super::{Words, capital};
use crate::pairing::{Because, Bound, Check, CheckId, Outcome, Reason};

impl Words<'_> {
    /// The reason of a check as a sentence with its numbers.
    pub fn reason(&self, check: &Check) -> String {
        let sentence = match &check.reason {
            Reason::Within => self.within(check),
            Reason::Beyond { because } => format!("{}: {}.", self.beyond(check), cause(*because)),
            Reason::Undecided { .. } => self.undecided(check),
            Reason::FactMissing => self.fact_missing(check),
            Reason::EngineShared => {
                let (worst, limit) = self.figures(check);
                format!("at work the pumps ask {worst} of the engine, which may spare no more than {limit} for them.")
            }
            Reason::NoRotor => "nothing in it turns fast enough to fly apart.".to_owned(),
            Reason::NoCaseLine => {
                "the motor needs a line of its own from its housing to the tank, and the machine has none.".to_owned()
            }
            Reason::CaseLineIntoReturn => {
                "the machine's case line ends in the return, and the seal would see what the return does: it needs a port of \
                 its own in the tank."
                    .to_owned()
            }
            Reason::DrainsInside => {
                "the motor drains inside to its outlet: its seal sees the back pressure, which has its own check."
                    .to_owned()
            }
            Reason::CaseDecides => {
                "the motor has a drain of its own and bears pressure at its outlet: the case pressure decides."
                    .to_owned()
            }
            Reason::OwnFilter => "the return passes the machine's own filter.".to_owned(),
            Reason::FittedFilter => "the return passes a filter of its own.".to_owned(),
            Reason::NoFilter => "the oil that comes back passes no filter on its way to the tank.".to_owned(),
            Reason::NoFilterDemanded => {
                "the return goes through the machine's valve, and the attachment demands no filter of its own."
                    .to_owned()
            }
            Reason::SameStandard => "machine and attachment are made for the same open standard.".to_owned(),
            Reason::PinsAgree => "pins and width agree.".to_owned(),
            Reason::PinsDiffer => "pins or width differ; bushes, shims or a bracket can bridge it.".to_owned(),
            Reason::MountingsDiffer => "the two mountings have nothing in common.".to_owned(),
        };
        capital(&sentence)
    }

    /// Worst value and limit in words; both are there for every check with figures.
    fn figures(&self, check: &Check) -> (String, String) {
        let shown = |amount: Option<_>| amount.map_or_else(|| "an unknown value".to_owned(), |a| self.amount(a));
        (shown(check.worst), shown(check.limit))
    }

    fn within(&self, check: &Check) -> String {
        let (worst, limit) = self.figures(check);
        match (check.id, check.bound) {
            (CheckId::FlowWindow, Some(Bound::AtMost)) => {
                format!("free running no more than {worst} flow; it takes {limit}.")
            }
            (CheckId::FlowWindow, _) => format!("at least {worst} reach it at work; it needs {limit}."),
            (CheckId::RotorSpeed, _) => format!("the rotor turns {worst} at the very most; it is made for {limit}."),
            (CheckId::Pressure, Some(Bound::AtMost)) => {
                format!("held fast it sees {worst} at the most; it bears {limit}.")
            }
            (CheckId::Pressure, _) => format!("at least {worst} are left for its motor; it works with {limit}."),
            (CheckId::Power, Some(Bound::AtMost)) => format!("no more than {worst} reach it; it takes {limit}."),
            (CheckId::Power, _) => format!("at least {worst} of hydraulic power reach it; it needs {limit}."),
            (CheckId::BackPressure, _) => format!("its outlet sees {worst} at the most; it bears {limit}."),
            (CheckId::CasePressure, _) => format!("its shaft seal sees {worst} at the most; it bears {limit}."),
            (CheckId::WeightClass, Some(Bound::AtMost)) => {
                format!("the machine weighs {worst} at the most; the attachment is made for up to {limit}.")
            }
            (CheckId::WeightClass, _) => {
                format!("the machine weighs at least {worst}; the attachment is made for {limit} and more.")
            }
            (CheckId::ReturnFilter | CheckId::Mounting, _) => "all agrees.".to_owned(),
        }
    }

    fn beyond(&self, check: &Check) -> String {
        let (worst, limit) = self.figures(check);
        match (check.id, check.bound) {
            (CheckId::FlowWindow, Some(Bound::AtMost)) => format!("up to {worst} can flow, and it takes {limit}"),
            (CheckId::FlowWindow, _) => format!("as little as {worst} may reach it at work, and it needs {limit}"),
            (CheckId::RotorSpeed, _) => format!("the rotor could turn {worst}, and it is made for {limit}"),
            (CheckId::Pressure, Some(Bound::AtMost)) => format!("held fast it could see {worst}, and it bears {limit}"),
            (CheckId::Pressure, _) => {
                format!("as little as {worst} may be left for its motor, and it works with {limit}")
            }
            (CheckId::Power, Some(Bound::AtMost)) => format!("up to {worst} could reach it, and it takes {limit}"),
            (CheckId::Power, _) => {
                format!("as little as {worst} of hydraulic power may reach it, and it needs {limit}")
            }
            (CheckId::BackPressure, _) => format!("its outlet would see {worst}, and it bears {limit}"),
            (CheckId::CasePressure, _) => format!("its shaft seal would see {worst}, and it bears {limit}"),
            (CheckId::WeightClass, Some(Bound::AtMost)) => {
                format!("the machine may weigh {worst}, and the attachment is made for up to {limit}")
            }
            (CheckId::WeightClass, _) => {
                format!("the machine may weigh as little as {worst}, and the attachment is made for {limit} and more")
            }
            (CheckId::ReturnFilter | CheckId::Mounting, _) => "it does not agree".to_owned(),
        }
    }

    fn undecided(&self, check: &Check) -> String {
        let (worst, limit) = self.figures(check);
        let must = match check.bound {
            Some(Bound::AtLeast) => "it needs at least",
            _ => "it bears at most",
        };
        // What can hurt people is not taken from usual figures, even where these are well inside.
        if check.margin.is_some_and(|margin| margin >= 0.0) {
            return format!(
                "on usual figures it would be {worst} at worst, and {must} {limit}; but somebody may get hurt, so usual \
                 figures do not do: one must be known."
            );
        }
        format!("figures that nobody states decide it: at their usual worst {worst}, and {must} {limit}.")
    }

    fn fact_missing(&self, check: &Check) -> String {
        match check.missing.as_slice() {
            [] => "a figure is missing.".to_owned(),
            [one] => format!("nobody states {}.", self.missing(one).what),
            several => {
                let named: Vec<_> = several.iter().map(|missing| self.missing(missing).what).collect();
                format!("nobody states {}.", list(&named))
            }
        }
    }

    /// A short line for a row of checks: value, limit and margin, or the outcome alone.
    pub fn check_line(&self, check: &Check) -> String {
        match (check.outcome, check.worst, check.limit, check.margin) {
            (Outcome::Met | Outcome::NotMet, Some(worst), Some(limit), Some(margin)) => {
                let allowed = if check.bound == Some(Bound::AtLeast) { "at least" } else { "at most" };
                let margin = self.margin(margin, check.bound);
                format!("{} ({allowed} {}) · {margin}", self.amount(worst), self.amount(limit))
            }
            _ => self.outcome(check.outcome).to_owned(),
        }
    }
}

/// Names in a row: `a`, `a and b`, `a, b and c`.
pub(super) fn list(named: &[&str]) -> String {
    match named {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

fn cause(because: Because) -> &'static str {
    match because {
        Because::FlowLow => "published flow less its tolerance, engine at working speed",
        Because::FlowHigh => "flow at its highest, engine without load, setting turned up",
        Because::PowerLimit => "the pumps' power is spent before the flow is reached",
        Because::Relief => "the relief opens first",
        Because::SupplyLoss => "the supply line takes too much",
        Because::SpoolReturn => "the oil goes back through the machine's valve",
        Because::ReturnLine => "the return line takes too much",
        Because::CaseLine => "the case line takes too much, oil cold and motor worn",
        Because::TooLight => "too light",
        Because::TooHeavy => "too heavy",
        Because::ReliefHigh => "the relief lets more through",
    }
}
