//! What is answered.

use drawing::Picture;
use fit::{FactId, Verdict};
use serde::{Deserialize, Serialize};
use wording::FillNextText;

/// An answer, and to what.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reply {
    /// The number of the request.
    pub id: u32,
    /// The answer, or a part of it.
    pub answer: Answer,
}

/// An answer, or a part of it. The last part of each is one that [`Answer::is_last`].
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Answer {
    /// Rows that join a list.
    Rows {
        /// The rows.
        rows: Vec<Row>,
        /// How many pairings are checked by now.
        checked: usize,
        /// Of how many.
        total: usize,
    },
    /// All of a list is checked.
    Sorted {
        /// The places of the rows, counted as they came, in their order.
        order: Vec<usize>,
        /// What it comes to, where a sentence says it.
        says: String,
        /// The figures that decide most, where nothing but the class is known.
        decide: Vec<String>,
        /// Where nothing is left: what would be left without each of the filters.
        loosen: Vec<String>,
    },
    /// On which machines an attachment runs.
    RunsOn {
        /// The id of the attachment.
        head: String,
        /// The sentence.
        says: String,
    },
    /// What attachments ask of a machine of which nothing but the class is known, each with how many ask it.
    Questions(Vec<(FactId, usize)>),
    /// A first answer, that of a machine which is typical for the class; none where the table has none like it.
    Typical(Option<Typical>),
    /// How many pairings are looked at by now.
    SoFar {
        /// So many.
        checked: usize,
        /// Of how many.
        total: usize,
    },
    /// What to fill in next in a table.
    FillNext(FillNextText),
    /// JSON for a script.
    Json(String),
    /// Nothing more comes.
    Done,
}

impl Answer {
    /// Whether nothing comes behind it.
    pub fn is_last(&self) -> bool {
        matches!(self, Self::Sorted { .. } | Self::FillNext(_) | Self::Json(_) | Self::Done)
    }
}

/// A first answer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Typical {
    /// Its id.
    pub carrier: String,
    /// The machine that it is taken from.
    pub name: String,
    /// What comes out on it.
    pub verdicts: Vec<Verdict>,
}

/// A pairing as a line of a list, in words.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Row {
    /// The machine's id.
    pub carrier: String,
    /// The attachment's id.
    pub head: String,
    /// What came out.
    pub verdict: Verdict,
    /// Attachment or machine, as the list is of.
    pub name: String,
    /// What it is: its kind, its mass.
    pub what: Vec<String>,
    /// A note on stock.
    pub stock: Option<String>,
    /// What the changes cost; empty where it has no price.
    pub price: String,
    /// Whether that is the price of changes.
    pub has_changes: bool,
    /// How long they take; may be empty.
    pub time: String,
    /// The verdict in words, with what is to prove.
    pub says: String,
    /// The tightest margin, or what fails, or what to find out; may be empty.
    pub below: String,
    /// Whether its maker does not say what is looked for.
    pub unsaid: bool,
    /// The tightest margin as a dimension line.
    pub margin: Option<Picture>,
}
