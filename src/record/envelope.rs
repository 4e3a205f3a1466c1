//! The versioned envelope around everything that is kept: `{"format", "version", FIELD}`.

use super::RecordFault;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value, json};

/// What says of a kept text what it is.
#[derive(Clone, Copy)]
pub struct Envelope {
    /// The name of the format.
    pub format: &'static str,
    /// The version that is written, and the newest that is read.
    pub version: u32,
    /// The field in which the thing itself stands.
    pub field: &'static str,
}

#[derive(Deserialize)]
struct Opened {
    format: String,
    version: u32,
    #[serde(flatten)]
    rest: Map<String, Value>,
}

impl Envelope {
    /// The text to keep.
    pub fn encode(self, thing: &impl Serialize) -> String {
        json!({ "format": self.format, "version": self.version, self.field: thing }).to_string()
    }

    /// Reads a kept text.
    ///
    /// # Errors
    /// [`RecordFault`] when it is damaged, of another kind, or newer than this build.
    pub fn decode<T: DeserializeOwned>(self, text: &str) -> Result<T, RecordFault> {
        let mut opened: Opened = serde_json::from_str(text).map_err(|_| RecordFault::Damaged)?;
        let thing = opened.rest.remove(self.field).ok_or(RecordFault::Damaged)?;
        if opened.format != self.format {
            return Err(RecordFault::Foreign);
        }
        if opened.version > self.version {
            return Err(RecordFault::Newer { found: opened.version });
        }
        serde_json::from_value(thing).map_err(|_| RecordFault::Damaged)
    }
}
