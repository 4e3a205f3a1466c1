//! A dealer's spreadsheet: given as a file or pasted, shown as what it was read, put right, and used. What it says comes from the program
//! for spreadsheets (`public/importer.js`), which is fetched when it is first needed.

mod columns;
mod part;
mod program;
mod reading;
mod screen;

pub use reading::{give, hand_out, paste};
pub use screen::ImportScreen;
