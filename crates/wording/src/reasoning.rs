//! Why a number is what it is, in words: the relation with its symbols and source, what went into it with where each comes from,
//! and what came out.

mod formula_text;
mod formulas;
mod inputs;
mod settings;
#[cfg(test)]
mod tests;
mod units;

pub use formula_text::FormulaText;

use super::{Words, capital};
use explain::{Conclusion, Formula, Reasoning};
use fit::Bound;
use quantity::{Amount, Dimension, UnitSystem};

/// An input in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InputText {
    /// What it is.
    pub name: String,
    /// What it says.
    pub value: String,
    /// Where that comes from.
    pub source: String,
}

/// A reasoning in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReasoningText {
    /// The relations, the one that gives the number first.
    pub formulas: Vec<FormulaText>,
    /// What went into them.
    pub inputs: Vec<InputText>,
    /// What speaks against other values, a sentence each.
    pub tried: Vec<String>,
    /// The checks of the finished machine that it is held against.
    pub held: Vec<String>,
    /// What came out, a sentence each.
    pub result: Vec<String>,
}

impl Words<'_> {
    /// A reasoning.
    pub fn reasoning(&self, why: &Reasoning) -> ReasoningText {
        let formula = |&formula: &Formula| {
            self.in_units(&match (formula, why.check) {
                (Formula::Rule, Some(check)) => FormulaText::of_rule(check),
                (formula, _) => formulas::formula(formula),
            })
        };
        ReasoningText {
            formulas: why.formulas.iter().map(formula).collect(),
            inputs: why.inputs.iter().map(|used| self.input(used, &why.own_ranges)).collect(),
            tried: self.tried(why),
            held: self.held(&why.held),
            result: self.came(&why.result, !why.held.is_empty()),
        }
    }

    /// A relation with what stands in it in the reader's units.
    fn in_units(&self, formula: &FormulaText) -> FormulaText {
        let &FormulaText { line, symbols, holds, source } = formula;
        let [line, symbols, holds] = [line, symbols, holds].map(|text| match self.units {
            UnitSystem::Metric => text,
            UnitSystem::UsCustomary => units::us(text),
        });
        FormulaText { line, symbols, holds, source }
    }

    /// The name of what opens it.
    pub fn reasoning_opens(&self) -> &'static str {
        "How this was worked out"
    }

    /// What came out, of a check or of something that is set.
    fn came(&self, came: &Conclusion, is_set: bool) -> Vec<String> {
        let figure = |amount: Amount| match amount.dimension() {
            // It is waited for, or asked of a part: at least so much.
            Dimension::Temperature | Dimension::ThermalConductance if came.limit.is_none() => self.at_least(amount),
            Dimension::Length if came.limit.is_none() => self.bore(amount),
            _ if is_set => self.set_to(amount),
            _ => self.amount(amount),
        };
        let mut told: Vec<_> = came.takes.iter().map(|total| format!("{}.", capital(&self.total(total)))).collect();
        match (came.likely, came.worst) {
            (Some(likely), Some(worst)) if likely != worst => {
                told.push(format!("Likely {}, in the worst corner {}.", self.amount(likely), self.amount(worst)));
            }
            (_, Some(one)) | (Some(one), None) => told.push(format!("{}.", capital(&figure(one)))),
            (None, None) if came.limit.is_some() => told.push("What it comes to cannot be said.".to_owned()),
            (None, None) => {}
        }
        if let Some((low, high)) = came.between {
            told.push(format!("It is set right between {} and {}.", self.amount(low), self.amount(high)));
        }
        if let (Some(limit), Some(bound)) = (came.limit, came.bound) {
            let side = match bound {
                Bound::AtLeast => "At least",
                Bound::AtMost => "At most",
            };
            let margin = came.margin.map(|margin| format!(": {}", self.margin(margin, came.bound))).unwrap_or_default();
            told.push(format!("{side} {} is asked{margin}.", self.limit(limit, came.bound)));
        }
        if let Some(because) = came.because {
            told.push(format!("What sets the worst corner: {}.", super::reasons::cause(because)));
        }
        if let Some(outcome) = came.outcome {
            told.push(format!("{}.", capital(self.outcome(outcome))));
        }
        told
    }
}
