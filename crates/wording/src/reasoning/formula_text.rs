//! A relation in words.

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
