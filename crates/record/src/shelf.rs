//! A table that a person loaded, kept for the next time with where it came from and when.

use super::RecordFault;
use super::envelope::Envelope;
use serde::{Deserialize, Serialize};

/// The name by which a kept text says what it is.
pub const FORMAT: &str = "pairwright.kept-table";

/// A kept table, as the text that was read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct KeptTable {
    /// Name of the file, or the address.
    pub origin: String,
    /// Whether `origin` is an address, from which a newer one may be had.
    pub is_address: bool,
    /// When it was loaded, ISO 8601.
    pub loaded: String,
    /// Its text.
    pub text: String,
}

const ENVELOPE: Envelope = Envelope { format: FORMAT, field: "table", steps: &[] };

super::envelope::encloses!(KeptTable);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_kept_reads_back_and_a_cut_text_is_damaged() {
        let kept = KeptTable {
            origin: "yard.json".to_owned(),
            is_address: false,
            loaded: "2026-11-25T10:00:00Z".to_owned(),
            text: "{\"a\": \"ä\"}".to_owned(),
        };
        let text = kept.encode();
        assert_eq!(KeptTable::decode(&text), Ok(kept));
        for end in (0..text.len()).filter(|&end| text.is_char_boundary(end)) {
            assert_eq!(KeptTable::decode(&text[..end]), Err(RecordFault::Damaged), "cut at {end}");
        }
        assert_eq!(
            KeptTable::decode(r#"{"format":"pairwright.kept-table","version":2,"table":{}}"#),
            Err(RecordFault::Newer { found: 2 })
        );
    }
}
