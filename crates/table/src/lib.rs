//! The open spec table: carriers, heads and parts as their makers, plates and instruments state them.
//!
//! These types are the table after reading: every figure typed, every name from a closed list, everything that nobody
//! stated `None`. [`read()`] makes them from JSON and reports all problems at once. What a missing figure may be assumed
//! to be is no matter of this crate (see `fit`).

pub mod bounds;
mod carrier;
mod dealer;
pub mod declared;
pub mod docs;
mod forms;
mod head;
mod lists;
mod part;
mod problem;
pub mod read;
pub mod row;
mod rule;
#[cfg(not(target_arch = "wasm32"))]
pub mod schema;

pub use carrier::*;
pub use dealer::Dealer;
pub use forms::*;
pub use head::*;
pub use lists::*;
pub use part::*;
pub use problem::*;
pub use read::{Alone, LONGEST_PICTURE, Outcome, is_picture, is_unseen, read, read_carrier};

use serde::Serialize;

/// The name by which a file says that it is a spec table.
pub const FORMAT: &str = "pairwright.table";

/// The newest version of the format that this build reads and the one that it writes.
pub const VERSION: u32 = 1;

/// Maker and model as people say them; the model alone where no maker is stated.
pub fn full_name(maker: Option<&str>, model: &str) -> String {
    maker.map_or_else(|| model.to_owned(), |maker| format!("{maker} {model}"))
}

impl Carrier {
    /// Maker and model.
    pub fn full_name(&self) -> String {
        full_name(self.maker.as_deref(), &self.model)
    }
}

impl Head {
    /// Maker and model.
    pub fn full_name(&self) -> String {
        full_name(self.maker.as_deref(), &self.model)
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
    /// The dealer, as he stands on a quotation.
    pub dealer: Option<Dealer>,
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
