//! Why a text is no quantity.

use crate::Unit;

/// The longest text that is read, in characters.
pub const LONGEST: usize = 120;

/// Why a text is no quantity.
#[derive(Clone, Debug, PartialEq)]
pub enum TextFault {
    /// Nothing there.
    Empty,
    /// Longer than [`LONGEST`].
    TooLong,
    /// A comma in a number.
    Comma,
    /// It does not begin with a number.
    NoNumber,
    /// Something like a number that is none.
    BadNumber {
        /// What stood there.
        found: String,
    },
    /// A number without a unit.
    NoUnit,
    /// A unit that is not in the list.
    UnknownUnit {
        /// What stood there.
        found: String,
        /// The nearest unit of the right dimension, when one is near.
        near: Option<Unit>,
    },
    /// A unit of another dimension.
    WrongDimension {
        /// The unit found.
        unit: Unit,
    },
    /// Two different units in one quantity.
    TwoUnits,
    /// A tolerance that cannot be read, or is 100 % or more.
    BadTolerance {
        /// What stood there.
        found: String,
    },
    /// Something in brackets that is no source.
    UnknownSource {
        /// What stood there.
        found: String,
    },
    /// Something left over at the end.
    Trailing {
        /// What stood there.
        found: String,
    },
    /// A range whose end lies below its beginning.
    RangeReversed,
    /// A single figure where a range is wanted.
    RangeWanted,
    /// A tolerance or source where only a range belongs.
    PlainRangeWanted,
    /// A range, a tolerance or a source where only a figure belongs.
    PlainFigureWanted,
    /// A range with a tolerance: the range is the tolerance.
    RangeWithTolerance,
}
