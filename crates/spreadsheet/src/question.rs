//! What is asked of who wrote the file.

use crate::Place;
use quantity::Unit;

/// Something that only who wrote the file can know.
#[derive(Clone, Debug, PartialEq)]
pub enum Question {
    /// Which list a sheet holds. Nothing of it is used until then.
    Sheet {
        /// The sheet.
        sheet: String,
    },
    /// Whether a header means the field whose words are near. The column is not used until then.
    Field {
        /// The first cell of the column.
        place: Place,
        /// What stands above it.
        header: String,
        /// The dotted name of the field.
        near: String,
    },
    /// Which of two columns of one field counts; the first is used.
    SameField {
        /// The first cell of the second column.
        place: Place,
        /// What stands above it.
        header: String,
        /// The number of the column that is used.
        used: usize,
        /// The dotted name of the field.
        field: String,
    },
    /// In which unit a column is. Its figures without one are not used until then.
    Unit {
        /// The first cell that waits.
        place: Place,
        /// What stands above it.
        header: String,
        /// What stands in it.
        found: String,
        /// The units that it may be, the likeliest first.
        units: Vec<Unit>,
    },
    /// Whether a column is in another unit than stands with it, in which most of its figures would be usual. It is not used until then.
    OtherUnit {
        /// The first cell that is unusual.
        place: Place,
        /// What stands above it.
        header: String,
        /// What stands in that cell.
        found: String,
        /// The unit that stands with it.
        written: Unit,
        /// The unit in which the figures would be usual.
        meant: Unit,
        /// How many figures of the column are unusual.
        unusual: usize,
        /// How many figures it has.
        of: usize,
    },
    /// Whether a mark sets off thousands or decimals. Such figures are not used until then.
    Marks {
        /// The first cell that waits.
        place: Place,
        /// What stands above it.
        header: String,
        /// What stands in it.
        found: String,
    },
    /// Which number of a day is the month. Such days are not used until then.
    Days {
        /// The first cell that waits.
        place: Place,
        /// What stands above it.
        header: String,
        /// What stands in it.
        found: String,
    },
}

impl Question {
    /// The cell at which it is asked; none where it is about a whole sheet.
    pub fn place(&self) -> Option<&Place> {
        match self {
            Self::Sheet { .. } => None,
            Self::Field { place, .. }
            | Self::SameField { place, .. }
            | Self::Unit { place, .. }
            | Self::OtherUnit { place, .. }
            | Self::Marks { place, .. }
            | Self::Days { place, .. } => Some(place),
        }
    }
}
