//! How settings are solved, parts chosen and costs added up, in words; and what spoke against other values.

use super::formula_text::FormulaText;
use crate::{Words, capital};
use explain::Reasoning;
use fit::trace::{Against, Trial};
use fit::{Bound, Check};
use quantity::{Amount, Dimension};

const PRACTICE: &str = "Common practice, no published source.";

/// A flow.
pub const SET_FLOW: FormulaText = FormulaText {
    line: "Q_set = Q_rated, else Q_least, in whole steps; less until every upper limit holds; up to a third more until Q_least and the least power arrive; less \
           again, down to Q_least, until the functions have theirs",
    symbols: "Q_rated, Q_least: the attachment's; upper limits: its greatest flow, the rotor's greatest speed, the pressures that outlet \
              and housing allow",
    holds: "Each value is tried on the machine with all changes made that come before it, in the worst corner.",
    source: PRACTICE,
};

/// A relief.
pub const SET_PRESSURE: FormulaText = FormulaText {
    line: "p_set = p_asked where the attachment's maker names it; else the least step with Δp_left ≥ 1.1·Δp_work",
    symbols: "p_asked: the setting that he asks for; Δp_left: pressure left for the motor in the worst corner; Δp_work: its need at work",
    holds: "Within what can be set, and below what the attachment allows by the tolerance of setting; as much more as keeps pressure settings \
            apart. What hoses, couplings and other tools are rated for is checked afterwards.",
    source: PRACTICE,
};

/// An engine speed.
pub const SET_SPEED: FormulaText = FormulaText {
    line: "n = n_today + k·step, the least at which Q_least arrives",
    symbols: "n_today: speed at work as it is; k: a whole number; Q_least: the attachment's least flow",
    holds: "Within what the machine's maker allows; flow and limiter of the pumps go with the speed.",
    source: PRACTICE,
};

/// The oil's temperature before full speed.
pub const SET_WARMTH: FormulaText = FormulaText {
    line: "T = the lowest at which every check holds that cold oil can fail",
    symbols: "T: temperature of the oil before full speed is asked",
    holds: "Flow, pressure, power, back pressure and case pressure in the worst corner; and a hot motor on a case drain that is cold still.",
    source: PRACTICE,
};

/// A relief on another tool's side.
pub const SET_TOOL_RELIEF: FormulaText = FormulaText {
    line: "p_set = min( p_rated )",
    symbols: "p_rated: what each other tool on the valve is rated for",
    holds: "With all flow over it no more than the weakest of them is rated for.",
    source: PRACTICE,
};

/// A relief in the return.
pub const SET_RETURN_RELIEF: FormulaText = FormulaText {
    line: "p_opens ≤ p_outlet",
    symbols: "p_outlet: what the attachment's outlet allows",
    holds: "With all flow over it no more than that.",
    source: PRACTICE,
};

/// The pins of a kit.
pub const PINS_BRIDGED: FormulaText = FormulaText {
    line: "d_kit = d_attachment",
    symbols: "d_attachment: diameter of the attachment's pins",
    holds: "Bushes, shims or a bracket bridge the machine's pins to them.",
    source: PRACTICE,
};

/// A part.
pub const CHEAPEST_PART: FormulaText = FormulaText {
    line: "the cheapest set of the shop's parts with which every check holds",
    symbols: "cheapest: parts and labour where all of it is priced, else workshop time",
    holds: "Each set is made on the machine, its settings solved, and every check judged again.",
    source: "Sizes of the table's parts; without them whole hose sizes and typical parts: common practice, no published source.",
};

/// A share of the pumps' oil.
pub const SHARE_OF_PUMPS: FormulaText = FormulaText {
    line: "s = Q_head/Q_pumps",
    symbols: "Q_head: flow to the attachment; Q_pumps: flow of all pumps that share with it",
    holds: "At likely figures, oil at work: a result that is felt, not a setting.",
    source: "Continuity (textbook).",
};

/// A change's cost.
pub const CHANGE_COST: FormulaText = FormulaText {
    line: "K = K_part + t·k",
    symbols: "K_part: price of the part; t: time in the workshop; k: what an hour there costs",
    holds: "A hundredth that is begun counts. Where something has no price, the time alone is given.",
    source: "Arithmetic; prices and rate are the table's.",
};

/// The cost of a set.
pub const SET_COST: FormulaText = FormulaText {
    line: "K = Σ K_change, t = Σ t_change",
    symbols: "K_change, t_change: what each change takes; each opens in the list of changes",
    holds: "First start and hand-over come besides. Where a change has no price, the sum is “from”.",
    source: "Arithmetic.",
};

impl Words<'_> {
    /// What spoke against other values, a sentence each.
    pub(super) fn tried(&self, why: &Reasoning) -> Vec<String> {
        let Some(taken) = why.result.likely else { return Vec::new() };
        why.tried.iter().map(|trial| self.value_tried(trial, taken)).collect()
    }

    fn value_tried(&self, trial: &Trial, taken: Amount) -> String {
        let told = |amount: Amount| match amount.dimension() {
            Dimension::Length => self.bore(amount),
            _ => self.set_to(amount),
        };
        let (value, own) = (told(trial.value), told(taken));
        let against: Vec<_> = trial.against.iter().map(|against| self.against(against)).collect();
        let against = against.join("; ");
        match trial.value.si().total_cmp(&taken.si()) {
            _ if trial.value == taken => format!("Even at {value}: {against}."),
            std::cmp::Ordering::Less if value == own => format!("Just below it: {against}."),
            std::cmp::Ordering::Less => format!("Lower, at {value}: {against}."),
            _ if value == own => format!("Just above it: {against}."),
            _ => format!("Higher, at {value}: {against}."),
        }
    }

    fn against(&self, Against { check, spare }: &Against) -> String {
        let title = self.check_title(check.id).to_lowercase();
        let Some(figures) = self.held_to(check) else { return format!("{title} {}", self.outcome(check.outcome)) };
        // What is asked and what is left may be the same figure, but for a decimal.
        let percent = |share: f64, decimals| self.numbers.decimal(share * 100.0, decimals);
        match check.margin.filter(|margin| *spare > 0.0 && *margin >= 0.0) {
            Some(margin) => {
                format!("{title} {figures}, exactly {} %, where {} % are asked", percent(margin, 1), percent(*spare, 0))
            }
            None => format!("{title} {figures}"),
        }
    }

    /// The checks that a setting is held against on the finished machine.
    pub(super) fn held(&self, checks: &[Check]) -> Vec<String> {
        let line = |check: &Check| {
            let figures = self.held_to(check).unwrap_or_else(|| self.outcome(check.outcome).to_owned());
            format!("{}: {figures}", capital(self.check_title(check.id)))
        };
        checks.iter().map(line).collect()
    }

    /// `203 bar (at least 200 bar) · 2 % to spare`, where there are such figures.
    fn held_to(&self, check: &Check) -> Option<String> {
        let ([Some(worst), Some(limit)], margin) = (self.worst_and_limit(check), self.margin_of(check)?) else {
            return None;
        };
        let allowed = if check.bound == Some(Bound::AtLeast) { "at least" } else { "at most" };
        Some(format!("{worst} ({allowed} {limit}) · {margin}"))
    }
}
