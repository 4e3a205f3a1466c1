//! In which order the readings are taken.

use super::Measurement;
use quantity::string_enum;
use workshop::ReadWith;

string_enum! {
    /// A group of readings that are taken together, in the order of work.
    "step of a hand-over" pub enum Step {
        /// What is there before anything starts.
        Start = "start",
        /// With a tester in the line, the attachment not connected.
        Tester = "tester",
        /// With the attachment connected.
        Attachment = "attachment",
        /// After half an hour of work.
        After = "after",
    }
}

impl Step {
    /// The group of a reading.
    pub fn of(what: Measurement) -> Self {
        match (what, what.read_with()) {
            (Measurement::OilAfter, _) => Self::After,
            (_, None) => Self::Start,
            (_, Some(ReadWith::Tester)) => Self::Tester,
            (_, Some(ReadWith::Attachment)) => Self::Attachment,
        }
    }
}
