//! Why a text is no quantity.

use crate::{Named, Unit};
use std::error::Error;
use std::fmt::{self, Display, Formatter};

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

/// For logs; what a person reads is put into words elsewhere.
impl Display for TextFault {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("no figure: write a number with its unit"),
            Self::TooLong => write!(f, "longer than {LONGEST} characters: write one figure with its unit"),
            Self::Comma => {
                f.write_str("a comma may be read in two ways: write a point for decimals, nothing for thousands")
            }
            Self::NoNumber => f.write_str("no number at the beginning: write it before the unit"),
            Self::BadNumber { found } => write!(f, "`{found}` is no number: write it as 118, 118.5 or 2 1/2"),
            Self::NoUnit => f.write_str("a number without a unit: write the unit behind it"),
            Self::UnknownUnit { found, near: None } => write!(f, "`{found}` is no unit that is read"),
            Self::UnknownUnit { found, near: Some(near) } => {
                write!(f, "`{found}` is no unit that is read: write {}", near.name())
            }
            Self::WrongDimension { unit } => {
                write!(f, "{} measures {}: write a unit of what is asked", unit.name(), unit.dimension().name())
            }
            Self::TwoUnits => f.write_str("two units in one quantity: write one"),
            Self::BadTolerance { found } => write!(f, "`{found}` is no tolerance: write one below 100 %"),
            Self::UnknownSource { found } => write!(f, "`{found}` is no source: write published, plate or measured"),
            Self::Trailing { found } => write!(f, "`{found}` is left over: write nothing behind the quantity"),
            Self::RangeReversed => f.write_str("the range falls: write its least first"),
            Self::RangeWanted => f.write_str("a single figure: write a range from the least to the greatest"),
            Self::PlainRangeWanted => f.write_str("a range with a tolerance or a source: write its two ends alone"),
            Self::PlainFigureWanted => f.write_str("more than a figure: write one without range, tolerance and source"),
            Self::RangeWithTolerance => f.write_str("a range with a tolerance: the range is the tolerance, write one"),
        }
    }
}

impl Error for TextFault {}
