//! What comes of the readings of a hand-over, as plain data.

use super::Measurement;
use super::fault::Fault;
use super::look::LookAt;
use quantity::Amount;
use serde::Serialize;
use workshop::Expected;

/// A figure that somebody read.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Read {
    /// What.
    pub what: Measurement,
    /// How much.
    pub value: Amount,
}

/// What is made of the readings.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Diagnosis {
    /// What is found.
    pub finding: Finding,
    /// Readings beyond what head or oil bear: stop, whatever is found.
    pub beyond: Vec<Measurement>,
    /// Readings that are left out: nothing could be computed for them, or they are no figure of that kind.
    pub left_out: Vec<Measurement>,
}

impl Diagnosis {
    /// Whether anything is suspected.
    pub fn suspects_something(&self) -> bool {
        matches!(self.finding, Finding::Suspects { .. })
    }
}

/// What is found.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "finding", rename_all = "kebab-case")]
pub enum Finding {
    /// Too little was read to say anything; nothing that was read is off.
    TooFew {
        /// What to read first, what tells most first.
        first: Vec<Measurement>,
    },
    /// Nothing is wrong as far as this shows it.
    NothingWrong {
        /// Faults that these readings would not have shown.
        unseen: Vec<Fault>,
    },
    /// Something is wrong.
    Suspects {
        /// The likeliest first, but what is dangerous before all; the first [`NAMED`] are worth naming.
        suspects: Vec<Suspect>,
        /// Whether any of them explains the readings; if not, figures were misread or something else is wrong.
        explained: bool,
    },
}

/// How many suspects are worth naming.
pub const NAMED: usize = 3;

/// A fault that may be behind the readings.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Suspect {
    /// The fault.
    pub fault: Fault,
    /// The severity that fits best, as [`Fault::severities`] counts it.
    pub severity: f64,
    /// Its likelihood among all faults, 0 to 1.
    pub score: f64,
    /// Readings that speak for it, the strongest first.
    pub speaks_for: Vec<Sign>,
    /// Readings that speak against it.
    pub speaks_against: Vec<Sign>,
    /// Faults that cannot be told from it by these readings.
    pub alike: Vec<Fault>,
    /// What to do next to tell.
    pub next: Next,
    /// What to look at for this fault.
    pub look: LookAt,
    /// Stop before anything else.
    pub stop: bool,
}

/// A reading that speaks for or against a fault.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Sign {
    /// What was read.
    pub what: Measurement,
    /// How much.
    pub read: Amount,
    /// What a sound machine shows: as computed, or as the other readings lead to expect of it.
    pub healthy: Amount,
    /// What it shows with the fault, and between which figures.
    pub with_fault: Expected,
}

/// What to do next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(tag = "next", rename_all = "kebab-case")]
pub enum Next {
    /// Read something more: it parts this fault best from the others.
    Measure {
        /// What.
        what: Measurement,
    },
    /// Nothing that could be read parts them: look at something.
    Look {
        /// At what.
        at: LookAt,
    },
}
