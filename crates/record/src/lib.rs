//! What a person keeps, in versioned envelopes: saved comparisons, machines of his own as spec plates, and records of
//! hand-overs; what he sends, as a link; and everything together, as one file. Where things are kept and how they are sent is no matter of
//! this crate.

pub mod bundle;
mod envelope;
mod figure;
pub mod handover;
mod keyed;
mod layouts;
mod letterhead;
pub mod link;
mod made;
mod mark;
mod merge;
pub mod photo;
pub mod plate;
mod recent;
mod saved;
mod shelf;
pub mod stamp;

pub use handover::HandOver;
pub use keyed::Keyed;
pub use layouts::{LayoutAnswers, Layouts};
pub use letterhead::{JobMarks, LETTERHEAD, Letterhead, mark as job_mark};
pub use made::{Changed, Entries, Made, Renewed, TableChange};
pub use mark::mark;
pub use photo::Photo;
pub use plate::Plate;
pub use recent::{Recent, RecentEntry};
pub use saved::*;
pub use shelf::KeptTable;

use std::error::Error;
use std::fmt::{self, Display, Formatter};

/// What the keys of saved comparisons begin with; the id follows.
pub const SAVED_PREFIX: &str = "pairwright.saved.";
/// What the keys of one's own machines begin with; the id follows.
pub const MACHINE_PREFIX: &str = "pairwright.machine.";
/// What the keys of hand-over records begin with; the id follows.
pub const HANDOVER_PREFIX: &str = "pairwright.handover.";
/// What the keys of photos of machines' plates begin with; the machine's id follows. They are kept beside local storage.
pub const PHOTO_PREFIX: &str = "pairwright.photo.";
/// The key of the table that was loaded last.
pub const TABLE_KEY: &str = "pairwright.table";
/// What the keys of preferences begin with; the name follows.
pub const PREFERENCE_PREFIX: &str = "pairwright.preference.";
/// The key of what was opened last. It is left out of an export: it is of this browser alone.
pub const RECENT_KEY: &str = "pairwright.recent";
/// The key of what was answered about files by their layouts. It is left out of an export: it would be asked once more.
pub const LAYOUTS_KEY: &str = "pairwright.layouts";
/// What the keys of texts begin with that could not be read and were moved aside; the key they had follows, and a number.
pub const ASIDE_PREFIX: &str = "pairwright.aside.";

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
    /// Larger than what is read.
    TooLarge {
        /// The greatest size, in bytes.
        most: usize,
    },
}

/// For logs; what a person reads is put into words elsewhere.
impl Display for RecordFault {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Self::Damaged => f.write_str("damaged: a kept text is whole JSON; keep it again"),
            Self::Foreign => f.write_str("something else than what is kept here: open it where it belongs"),
            Self::Newer { found } => write!(f, "written in version {found}, newer than is read: update the app"),
            Self::TooLarge { most } => write!(f, "larger than the {most} bytes that are read"),
        }
    }
}

impl Error for RecordFault {}
