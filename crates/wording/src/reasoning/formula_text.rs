//! A relation in words.

use crate::checks::words;
use fit::CheckId;

/// A relation in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FormulaText {
    /// The relation.
    pub line: &'static str,
    /// What its symbols stand for; nothing for a rule.
    pub symbols: &'static str,
    /// Where it holds, and what it leaves out.
    pub holds: &'static str,
    /// Who published it, or that nobody did.
    pub source: &'static str,
}

impl FormulaText {
    /// The rule of a check.
    pub(super) fn of_rule(check: CheckId) -> Self {
        let words = words(check);
        Self { line: words.rule, symbols: "", holds: "", source: words.source }
    }
}
