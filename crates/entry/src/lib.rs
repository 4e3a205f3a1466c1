//! One entry of a spec table as a form: its fields as texts, what is wrong with each, and the table's text with the entry written back.
//!
//! A form takes and refuses what a file does, as the reader of tables itself reads it. What is not written to stays in the text as it
//! stands: the order of keys, blanks, fields that nobody knows.

mod draft;
mod entry;
mod fields;
mod splice;
mod value;

pub use draft::{Draft, left_out, of_table, without};
pub use entry::{AtField, Entry};
pub use fields::{asked_first, of_fact};
pub use spreadsheet::{Role, Target};
pub use table::row::Form;
pub use value::NONE;
