//! What judging a check returns.

use crate::Check;
use crate::trace::{InputRecord, What, Worked};

/// A check as it came out, with what it was judged by.
#[derive(Clone, Debug, PartialEq)]
pub struct Evaluation {
    /// The check.
    pub check: Check,
    /// What went into it, in the order in which it was asked for: facts, and among them the figures that were worked out of them.
    pub inputs: Vec<InputRecord>,
}

impl Evaluation {
    /// The figures that were worked out on the way.
    pub fn intermediate(&self) -> impl Iterator<Item = Worked> {
        self.inputs.iter().filter_map(|record| match record.what {
            What::Worked(worked) => Some(worked),
            _ => None,
        })
    }
}
