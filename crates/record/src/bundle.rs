//! Everything that is kept, as one file: gathered, and read again elsewhere.
//!
//! A file of everything holds each kept thing in the very envelope in which it is kept, and as bare text what nobody could
//! read, so that nothing is lost by moving. What becomes of each thing where others are kept already stands in `plan`;
//! to write it there is left to the page.

mod plan;
#[cfg(test)]
mod tests;

pub use plan::{Action, Kind, Step, plan};
use quantity::put_in_order;

use super::envelope::Envelope;
use super::{
    ASIDE_PREFIX, HANDOVER_PREFIX, HandOver, KeptTable, MACHINE_PREFIX, PHOTO_PREFIX, PREFERENCE_PREFIX, Photo, Plate,
    RecordFault, SAVED_PREFIX, Saved, TABLE_KEY, handover, photo, plate, saved, shelf,
};
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// The name by which a file says that it is one.
pub const FORMAT: &str = "pairwright.everything";
/// The largest file that is read, in bytes: more than browsers let a page keep in local storage, and some hundred photos.
pub const LARGEST: usize = 64 * 1024 * 1024;

const ENVELOPE: Envelope = Envelope { format: FORMAT, field: "everything", steps: &[] };

/// Everything that is kept.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Bundle {
    /// When it was made, ISO 8601; empty for a single thing that was read as a file of its own.
    pub made: String,
    /// What can be read.
    pub kept: Vec<Kept>,
    /// What cannot.
    #[serde(default)]
    pub unreadable: Vec<Unreadable>,
}

/// A kept thing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Kept {
    /// The key under which it is kept.
    pub key: String,
    /// Its envelope; of a preference its text.
    pub thing: Value,
}

/// A text that nobody could read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Unreadable {
    /// The key under which it is kept.
    pub key: String,
    /// The text.
    pub text: String,
}

#[derive(Deserialize)]
struct Named {
    format: Option<String>,
}

impl Bundle {
    /// Gathers what is kept, from keys and texts. Keys that are not the app's are passed over.
    pub fn gather(made: String, entries: impl IntoIterator<Item = (String, String)>) -> Self {
        let mut bundle = Self { made, kept: Vec::new(), unreadable: Vec::new() };
        for (key, text) in entries {
            // What a newer version wrote is whole, though not for this build.
            let whole = |read: Result<(), RecordFault>| matches!(read, Ok(()) | Err(RecordFault::Newer { .. }));
            let thing = if key.starts_with(PREFERENCE_PREFIX) {
                Some(Value::String(text.clone()))
            } else if key.starts_with(SAVED_PREFIX) {
                whole(Saved::decode(&text).map(drop)).then(|| serde_json::from_str(&text).ok()).flatten()
            } else if key.starts_with(MACHINE_PREFIX) {
                whole(Plate::decode(&text).map(drop)).then(|| serde_json::from_str(&text).ok()).flatten()
            } else if key.starts_with(HANDOVER_PREFIX) {
                whole(HandOver::decode(&text).map(drop)).then(|| serde_json::from_str(&text).ok()).flatten()
            } else if key.starts_with(PHOTO_PREFIX) {
                whole(Photo::decode(&text).map(drop)).then(|| serde_json::from_str(&text).ok()).flatten()
            } else if key == TABLE_KEY {
                whole(KeptTable::decode(&text).map(drop)).then(|| serde_json::from_str(&text).ok()).flatten()
            } else if key.starts_with(ASIDE_PREFIX) {
                None
            } else {
                continue;
            };
            match thing {
                Some(thing) => bundle.kept.push(Kept { key, thing }),
                None => bundle.unreadable.push(Unreadable { key, text }),
            }
        }
        put_in_order(&mut bundle.kept, |a, b| a.key.cmp(&b.key));
        put_in_order(&mut bundle.unreadable, |a, b| a.key.cmp(&b.key));
        bundle
    }

    /// The text of the file.
    pub fn encode(&self) -> String {
        ENVELOPE.encode(self)
    }

    /// Reads a file of everything, or of a single thing in its envelope.
    ///
    /// # Errors
    /// [`RecordFault`] when it is too large, damaged, of another kind, or newer than this build.
    pub fn decode(text: &str) -> Result<Self, RecordFault> {
        if text.len() > LARGEST {
            return Err(RecordFault::TooLarge { most: LARGEST });
        }
        let value: Value = serde_json::from_str(text).map_err(|_| RecordFault::Damaged)?;
        let named = Named::deserialize(&value).map_err(|_| RecordFault::Foreign)?;
        let key = match named.format.as_deref() {
            Some(FORMAT) => return ENVELOPE.decode(text),
            Some(saved::FORMAT) => format!("{SAVED_PREFIX}{}", Saved::decode(text)?.id),
            Some(plate::FORMAT) => format!("{MACHINE_PREFIX}{}", Plate::decode(text)?.id),
            Some(handover::FORMAT) => format!("{HANDOVER_PREFIX}{}", HandOver::decode(text)?.id),
            Some(photo::FORMAT) => Photo::decode(text)?.key(),
            Some(shelf::FORMAT) => KeptTable::decode(text).map(|_| TABLE_KEY.to_owned())?,
            _ => return Err(RecordFault::Foreign),
        };
        Ok(Self { made: String::new(), kept: vec![Kept { key, thing: value }], unreadable: Vec::new() })
    }
}
