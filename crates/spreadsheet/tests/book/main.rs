//! Files as a dealer has them, as tables; and tables as files.

mod damaged;
mod dealer;
mod files;
mod large;
mod round_trip;
mod starter;

use spreadsheet::{Answers, Imported, import};

/// A separated text as a table.
///
/// # Panics
/// Where nothing of it can be read.
pub fn of_csv(text: &str) -> Imported {
    import(text.as_bytes(), "yard.csv", &Answers::default()).expect("cells")
}

/// Whether every case of a test is taken.
pub fn is_long() -> bool {
    std::env::var_os("LONG").is_some()
}
