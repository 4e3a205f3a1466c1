//! A table in use: what was read of it, where it came from, and what keeps it away.

use fit::Conditions;
use record::{self, Entries};
use std::sync::{Arc, OnceLock};
use table::{Problem, Table};

/// Where the app's own table is.
pub const OWN_TABLE: &str = "table/demo.json";

/// The table, or what keeps it away.
#[derive(Clone)]
pub enum Loading {
    /// On its way.
    Waiting,
    /// There.
    Ready(Arc<Loaded>),
    /// Not to be had, with what to do.
    Failed(String),
}

/// A table in use.
pub struct Loaded {
    /// The table.
    pub table: Table,
    /// Its problems.
    pub problems: Vec<Problem>,
    /// How many more there are than are listed.
    pub unlisted: usize,
    /// The entries that were left out because of an error.
    pub set_aside: Vec<String>,
    /// Where it came from.
    pub origin: Origin,
    /// When it was loaded, ISO 8601.
    pub when: String,
    /// Its text, for downloading.
    pub text: String,
    /// A mark of its text.
    pub mark: String,
    /// Whether its address was asked anew at this opening and gave no answer.
    pub is_unasked: bool,
    /// The fingerprints of its entries, made when first asked for.
    entries: OnceLock<Entries>,
    /// Conditions with its shop.
    pub conditions: Conditions,
}

impl Loaded {
    /// The fingerprints of its entries.
    pub fn entries(&self) -> &Entries {
        self.entries.get_or_init(|| Entries::of_text(&self.text))
    }
}

/// What is said of a table whose address could not be asked anew.
pub const NO_ANSWER: &str = "; its address gave no answer at this opening";

/// Where a table came from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Origin {
    /// The one beside the app.
    Beside,
    /// A file of this name.
    File(String),
    /// This address.
    Address(String),
}

impl Origin {
    /// A name for a file of it, without its ending.
    pub fn stem(&self) -> &str {
        match self {
            Self::File(name) => name.rsplit_once('.').map_or(name.as_str(), |(stem, _)| stem),
            Self::Beside | Self::Address(_) => "spec-table",
        }
    }

    /// A name for its file.
    pub fn file_name(&self) -> String {
        match self {
            Self::File(_) => format!("{}.json", self.stem()),
            Self::Beside | Self::Address(_) => "spec-table.json".to_owned(),
        }
    }

    /// Its address, where it came from one.
    pub fn address(&self) -> Option<&str> {
        match self {
            Self::Address(address) => Some(address),
            Self::Beside | Self::File(_) => None,
        }
    }

    /// In words.
    pub fn words(&self) -> String {
        match self {
            Self::Beside => "the table beside this app".to_owned(),
            Self::File(name) | Self::Address(name) => name.clone(),
        }
    }
}

/// Reads a table; the problems alone when nothing of it can be used.
pub fn read(text: String, origin: Origin, when: String) -> Result<Loaded, Vec<Problem>> {
    let outcome = table::read(&text);
    match outcome.table {
        Some(table) if !table.carriers.is_empty() || !table.heads.is_empty() || outcome.problems.is_empty() => {
            let conditions = Conditions::of_table(&table);
            let mark = record::mark(&text);
            let (problems, unlisted, set_aside) = (outcome.problems, outcome.unlisted, outcome.set_aside);
            let entries = OnceLock::new();
            Ok(Loaded {
                table,
                problems,
                unlisted,
                set_aside,
                origin,
                when,
                text,
                mark,
                is_unasked: false,
                entries,
                conditions,
            })
        }
        _ => Err(outcome.problems),
    }
}
