//! What a person keeps: saved comparisons in a versioned envelope. Where they are kept is no matter of this room.

use crate::pairing::{Pairing, Verdict};
use crate::quantity::Named;
use crate::table::Table;
use serde::{Deserialize, Serialize};

/// The name by which a kept text says what it is.
pub const FORMAT: &str = "pairwright.saved";
/// The version that is written.
pub const VERSION: u32 = 1;
/// The longest name, in characters.
pub const LONGEST_NAME: usize = 80;

/// A saved comparison.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Saved {
    /// Unique among the saved ones; part of the key under which it is kept.
    pub id: String,
    /// What the person calls it.
    pub name: String,
    /// The person's notes.
    #[serde(default)]
    pub note: String,
    /// When it was saved, ISO 8601.
    pub created: String,
    /// The table as it was then.
    pub table: TableThen,
    /// The machine.
    pub carrier: CarrierThen,
    /// The attachments with their verdicts then.
    pub heads: Vec<HeadThen>,
}

/// Which table it was.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct TableThen {
    /// Its title.
    pub title: String,
    /// Its date.
    #[serde(default)]
    pub date: Option<String>,
}

/// An id with the name that a person knows.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct CarrierThen {
    /// The id in the table.
    pub id: String,
    /// Maker and model.
    pub name: String,
}

/// An attachment with its verdict when the comparison was saved.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct HeadThen {
    /// The id in the table.
    pub id: String,
    /// Maker and model.
    pub name: String,
    /// The verdict's name then.
    pub verdict: String,
}

impl HeadThen {
    /// The verdict then, when this build knows its name.
    pub fn verdict(&self) -> Option<Verdict> {
        Verdict::from_name(&self.verdict)
    }
}

#[derive(Serialize, Deserialize)]
struct Envelope {
    format: String,
    version: u32,
    saved: serde_json::Value,
}

/// Why a kept text cannot be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RecordFault {
    /// No JSON, or cut off.
    Damaged,
    /// Something else than a saved comparison.
    Foreign,
    /// Written by a newer version of the app.
    Newer {
        /// Its version.
        found: u32,
    },
}

impl Saved {
    /// A new record of a comparison.
    pub fn new(id: String, name: &str, created: String, table: &Table, pairings: &[&Pairing]) -> Option<Self> {
        let first = pairings.first()?;
        let label = |maker: &Option<String>, model: &str| match maker {
            Some(maker) => format!("{maker} {model}"),
            None => model.to_owned(),
        };
        let name: String = name.trim().chars().filter(|c| !c.is_control()).take(LONGEST_NAME).collect();
        (!name.is_empty()).then(|| Self {
            id,
            name,
            note: String::new(),
            created,
            table: TableThen { title: table.title.clone(), date: table.date.map(|date| date.to_string()) },
            carrier: CarrierThen {
                id: first.carrier.id.to_string(),
                name: label(&first.carrier.maker, &first.carrier.model),
            },
            heads: pairings
                .iter()
                .map(|pairing| HeadThen {
                    id: pairing.head.id.to_string(),
                    name: label(&pairing.head.maker, &pairing.head.model),
                    verdict: pairing.verdict.name().to_owned(),
                })
                .collect(),
        })
    }

    /// The text to keep.
    pub fn encode(&self) -> String {
        serde_json::json!({ "format": FORMAT, "version": VERSION, "saved": self }).to_string()
    }

    /// Reads a kept text.
    ///
    /// # Errors
    /// [`RecordFault`] when it is damaged, of another kind, or newer than this build.
    pub fn decode(text: &str) -> Result<Self, RecordFault> {
        let envelope: Envelope = serde_json::from_str(text).map_err(|_| RecordFault::Damaged)?;
        if envelope.format != FORMAT {
            return Err(RecordFault::Foreign);
        }
        if envelope.version > VERSION {
            return Err(RecordFault::Newer { found: envelope.version });
        }
        serde_json::from_value(envelope.saved).map_err(|_| RecordFault::Damaged)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn saved() -> Saved {
        Saved {
            id: "a1".to_owned(),
            name: "Flood bank \"north\" <b>".to_owned(),
            note: String::new(),
            created: "2026-11-25T10:00:00Z".to_owned(),
            table: TableThen { title: "Yard".to_owned(), date: Some("2026-11-25".to_owned()) },
            carrier: CarrierThen { id: "m".to_owned(), name: "Machine".to_owned() },
            heads: vec![HeadThen { id: "h".to_owned(), name: "Head".to_owned(), verdict: "fits".to_owned() }],
        }
    }

    #[test]
    fn what_is_kept_reads_back() {
        assert_eq!(Saved::decode(&saved().encode()), Ok(saved()));
        assert_eq!(saved().heads[0].verdict(), Some(Verdict::Fits));
    }

    #[test]
    fn a_text_cut_anywhere_is_damaged_and_nothing_else() {
        let text = saved().encode();
        for end in (0..text.len()).filter(|&end| text.is_char_boundary(end)) {
            assert_eq!(Saved::decode(&text[..end]), Err(RecordFault::Damaged), "cut at {end}");
        }
    }

    #[test]
    fn foreign_and_newer_texts_are_told_apart() {
        assert_eq!(Saved::decode(r#"{"format":"other","version":1,"saved":{}}"#), Err(RecordFault::Foreign));
        assert_eq!(
            Saved::decode(r#"{"format":"pairwright.saved","version":7,"saved":{}}"#),
            Err(RecordFault::Newer { found: 7 })
        );
        assert_eq!(Saved::decode(r#"{"format":"pairwright.saved","version":1,"saved":{}}"#), Err(RecordFault::Damaged));
    }
}
