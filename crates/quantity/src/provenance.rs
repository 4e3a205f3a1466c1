//! Who states a figure, and how far the true value may lie from it.

use crate::string_enum;

string_enum! {
    /// Who says so.
    "source" pub enum Source {
        /// From a brochure, a manual or a data sheet.
        Published = "published",
        /// Read off a plate on the machine or the head.
        Plate = "plate",
        /// Measured with an instrument.
        Measured = "measured",
    }
}

string_enum! {
    /// Where the spread about a figure comes from.
    "origin of a spread" pub enum SpreadFrom {
        /// There is none: the figure is taken as it is written.
        Exact = "exact",
        /// It is written with the figure.
        Stated = "stated",
        /// Practice adds it to figures of this kind.
        Practice = "practice",
    }
}

/// Who states a figure, and where the spread about it comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Provenance {
    /// Who states it.
    pub source: Source,
    /// Where its spread comes from.
    pub spread: SpreadFrom,
}

impl Provenance {
    /// Stated by somebody, and taken as it is written.
    pub const fn exactly(source: Source) -> Self {
        Self { source, spread: SpreadFrom::Exact }
    }
}

/// How far a true value may lie from the stated one, as shares of it (0.05 is 5 %). Both are ≥ 0.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tolerance {
    /// How far below.
    pub minus: f64,
    /// How far above.
    pub plus: f64,
}

impl Tolerance {
    /// No tolerance: a limit that a maker names.
    pub const NONE: Self = Self { minus: 0.0, plus: 0.0 };

    /// A tolerance of one share to both sides.
    pub const fn both(share: f64) -> Self {
        Self { minus: share, plus: share }
    }
}
