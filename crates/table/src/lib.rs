//! The open spec table: carriers, heads and parts as their makers, plates and instruments state them.
//!
//! These types are the table after reading: every figure typed, every name from a closed list, everything that nobody
//! stated `None`. [`read()`] makes them from JSON and reports all problems at once. What a missing figure may be assumed
//! to be is no matter of this room (see `pairing`).

pub mod bounds;
mod carrier;
mod head;
mod lists;
mod part;
mod problem;
pub mod read;
#[cfg(not(target_arch = "wasm32"))]
pub mod schema;

pub use carrier::*;
pub use head::*;
pub use lists::*;
pub use part::*;
pub use problem::*;
pub use read::is_unseen;
pub use read::{Alone, Outcome, read, read_carrier};

use serde::Serialize;

/// The name by which a file says that it is a spec table.
pub const FORMAT: &str = "pairwright.table";

/// The newest version of the format that this build reads and the one that it writes.
pub const VERSION: u32 = 1;

/// An identifier: unique within its list, 1 to 64 characters of `a–z`, `0–9`, `-`, `_` and `.`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(transparent)]
pub struct Id(String);

impl Id {
    /// The longest identifier, in characters.
    pub const LONGEST: usize = 64;

    /// The identifier with this text, when the text is one.
    pub fn new(text: &str) -> Option<Self> {
        let sound = (1..=Self::LONGEST).contains(&text.len())
            && text.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b"-_.".contains(&b));
        sound.then(|| Self(text.to_owned()))
    }

    /// Its text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl std::fmt::Display for Id {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

/// A calendar date, written `2026-11-25` (ISO 8601).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

impl Date {
    /// The date with this ISO 8601 text, when it is a day of the calendar between 1900 and 2199.
    pub fn new(text: &str) -> Option<Self> {
        let bytes = text.as_bytes();
        if bytes.len() != 10 || bytes[4] != b'-' || bytes[7] != b'-' {
            return None;
        }
        let digits = |range: std::ops::Range<usize>| {
            let part = text.get(range)?;
            part.bytes().all(|b| b.is_ascii_digit()).then(|| part.parse::<u16>().ok())?
        };
        let (year, month, day) = (digits(0..4)?, digits(5..7)?, digits(8..10)?);
        let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        let days = match month {
            1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
            4 | 6 | 9 | 11 => 30,
            2 if leap => 29,
            2 => 28,
            _ => return None,
        };
        ((1900..2200).contains(&year) && (1..=days).contains(&day)).then(|| Self {
            year,
            month: u8::try_from(month).unwrap_or(0),
            day: u8::try_from(day).unwrap_or(0),
        })
    }
}

impl std::fmt::Display for Date {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl Serialize for Date {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// A whole table.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Table {
    /// Always [`FORMAT`].
    pub format: &'static str,
    /// The version in which the table is held: always [`VERSION`], older ones are migrated on reading.
    pub version: u32,
    /// What the table is called.
    pub title: String,
    /// Who publishes it.
    pub publisher: Option<String>,
    /// Under which licence, best as an SPDX expression.
    pub licence: Option<String>,
    /// When it was made.
    pub date: Option<Date>,
    /// Whether its machines and attachments are invented, as in a demo: then every screen says so.
    pub invented: Option<bool>,
    /// The currency of all prices, an ISO 4217 code.
    pub currency: Option<Currency>,
    /// What an hour in the workshop costs.
    pub labour_rate: Option<Money>,
    /// The machines.
    pub carriers: Vec<Carrier>,
    /// The attachments.
    pub heads: Vec<Head>,
    /// What changes use in this dealer's shop.
    pub parts: Vec<Part>,
    /// Typical ranges to use instead of the built-in ones.
    pub assumptions: Vec<Assumption>,
}

impl Table {
    /// The carrier with this id.
    pub fn carrier(&self, id: &str) -> Option<&Carrier> {
        self.carriers.iter().find(|carrier| carrier.id.as_str() == id)
    }

    /// The head with this id.
    pub fn head(&self, id: &str) -> Option<&Head> {
        self.heads.iter().find(|head| head.id.as_str() == id)
    }

    /// The kinds of its heads, each once.
    pub fn head_kinds(&self) -> Vec<HeadKind> {
        let mut kinds: Vec<HeadKind> = self.heads.iter().map(|head| head.kind).collect();
        kinds.sort_unstable();
        kinds.dedup();
        kinds
    }
}
