//! A dealer's spreadsheet as a spec table, and a spec table as a spreadsheet.
//!
//! [`open()`] makes cells of a file, whatever program wrote it. Nothing here judges a figure: what a cell holds is handed to `table::read`, and what
//! that finds wrong is told back at the cell.

mod answers;
mod book;
mod build;
mod cell;
mod export;
mod fault;
mod fields;
mod header;
pub mod ids;
mod import;
mod layout;
mod marks;
mod open;
mod packed;
mod plausible;
mod question;
mod stage;
#[cfg(not(target_arch = "wasm32"))]
mod starter;
mod tree;
mod words;
mod workbook;

pub use answers::{Answers, ColumnAnswer, SheetAnswer};
pub use book::{Book, Cell, Place, Row, Sheet, letters, plain_number};
pub use cell::DayOrder;
pub use export::{book_of, to_csv};
pub use fault::FileFault;
pub use fields::{Field, Fields, Role, Target};
pub use import::{CellFault, CellProblem, Imported, LeftOut, fingerprint_of, import, of_opened};
pub use layout::{Column, SheetTaken};
pub use marks::Mark;
pub use open::{Encoding, LARGEST, LARGEST_UNPACKED, MOST_CELLS, MOST_COLUMNS, Opened, open, paste};
pub use packed::to_csv_zip;
pub use question::Question;
#[cfg(not(target_arch = "wasm32"))]
pub use starter::starter;
pub use workbook::to_xlsx;
