//! What a person keeps, in versioned envelopes: saved comparisons, and machines of his own as spec plates. Where they are
//! kept is no matter of this room.

mod envelope;
mod figure;
pub mod plate;
mod saved;
mod shelf;

pub use plate::Plate;
pub use saved::*;
pub use shelf::KeptTable;

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
