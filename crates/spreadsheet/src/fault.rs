//! Why a file cannot be read at all. The words for it are in `wording`.

use std::error::Error;
use std::fmt::{self, Display, Formatter};

/// Why a file cannot be read at all.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FileFault {
    /// Nothing is in it.
    Empty,
    /// It is larger than what is read, packed or unpacked, in bytes.
    TooLarge {
        /// The greatest size.
        most: usize,
    },
    /// It has more cells than are read.
    TooManyCells {
        /// The most cells.
        most: usize,
    },
    /// A sheet has more columns than are read.
    TooManyColumns {
        /// The sheet.
        sheet: String,
        /// The most columns.
        most: usize,
    },
    /// A workbook with a password.
    Locked,
    /// A workbook of the old binary form (`.xls`).
    OldWorkbook,
    /// A packed file that is no workbook.
    NotAWorkbook,
    /// A workbook that is cut off or broken.
    Damaged {
        /// The part of it, or the sheet.
        part: String,
        /// In the words of the one who read it.
        words: String,
    },
    /// No text: signs that no text holds stand in it.
    NotText {
        /// The line of the first, from 1.
        line: usize,
    },
    /// Text in UTF-16 that is cut off or broken.
    BrokenEncoding {
        /// What it was read as.
        encoding: &'static str,
        /// The line of the first sign that is none, from 1.
        line: usize,
    },
    /// A separated text whose quotes do not close.
    QuoteOpen {
        /// The line where it is opened, from 1.
        line: usize,
    },
}

/// For logs; what a person reads is put into words elsewhere.
impl Display for FileFault {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("nothing in the file: choose another"),
            Self::TooLarge { most } => write!(f, "more than {most} bytes: split it"),
            Self::TooManyCells { most } => write!(f, "more than {most} cells: split it"),
            Self::TooManyColumns { sheet, most } => write!(f, "sheet `{sheet}` has more than {most} columns: split it"),
            Self::Locked => f.write_str("a password locks it: save it without one"),
            Self::OldWorkbook => f.write_str("an old binary workbook: save it as .xlsx, .ods or .csv"),
            Self::NotAWorkbook => f.write_str("a packed file that is no workbook: save it as .xlsx, .ods or .csv"),
            Self::Damaged { part, words } => write!(f, "damaged at `{part}` ({words}): save it once more"),
            Self::NotText { line } => write!(f, "line {line} is no text: save it as .xlsx, .ods or .csv"),
            Self::BrokenEncoding { encoding, line } => write!(f, "line {line} is no {encoding}: save it as UTF-8"),
            Self::QuoteOpen { line } => write!(f, "the quote opened on line {line} does not close: close it"),
        }
    }
}

impl Error for FileFault {}
