//! Files read and written, for a script.

use intl::INTL;
use quantity::{Named, UnitSystem};
use spreadsheet::{Answers, FileFault, Opened, book_of, fingerprint_of, of_opened, to_csv_zip, to_xlsx};
use std::fmt::Display;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;
use wording::Words;

fn words(units: &str) -> Words<'static> {
    Words { numbers: &INTL, units: UnitSystem::from_name(units).unwrap_or(UnitSystem::Metric) }
}

/// Why a file cannot be read, in a sentence.
fn why(fault: &FileFault) -> JsValue {
    JsValue::from_str(&words("").file_fault(fault))
}

fn told(error: impl Display) -> JsValue {
    JsValue::from_str(&error.to_string())
}

/// A file that is open, to be read again with other answers.
#[wasm_bindgen]
pub struct File {
    opened: Opened,
    name: String,
    table: String,
}

#[wasm_bindgen]
impl File {
    /// Opens a file.
    ///
    /// # Errors
    /// Why it cannot be read and what helps, in a sentence.
    pub fn open(bytes: &[u8], name: String) -> Result<File, JsValue> {
        let opened = spreadsheet::open(bytes, &name).map_err(|fault| why(&fault))?;
        Ok(Self { opened, name, table: String::new() })
    }

    /// Opens pasted cells.
    ///
    /// # Errors
    /// Why they cannot be read and what helps, in a sentence.
    pub fn paste(text: &str, name: String) -> Result<File, JsValue> {
        let opened = spreadsheet::paste(text).map_err(|fault| why(&fault))?;
        Ok(Self { opened, name, table: String::new() })
    }

    /// The fingerprint of its layout, under which answers are kept.
    pub fn layout(&self) -> String {
        fingerprint_of(&self.opened)
    }

    /// Reads it with answers, JSON of [`Answers`]: JSON of a [`wording::FileReading`].
    pub fn read(&mut self, answers: &str, units: &str) -> String {
        let answers: Answers = serde_json::from_str(answers).unwrap_or_default();
        let imported = of_opened(self.opened.clone(), &answers, &self.name);
        let reading = words(units).file_reading(&imported, &answers);
        self.table = imported.json;
        serde_json::to_string(&reading).unwrap_or_default()
    }

    /// The table that it was last read as, JSON text.
    pub fn table(&self) -> String {
        self.table.clone()
    }
}

/// A table, JSON text, as a workbook, or as separated texts packed into one file.
///
/// # Errors
/// When it cannot be read or written, in words for whoever looks into it.
#[wasm_bindgen]
pub fn write(table: &str, packed: bool) -> Result<Vec<u8>, JsValue> {
    let table = table::read(table).table.ok_or_else(|| told("no table"))?;
    let book = book_of(&table);
    if packed { to_csv_zip(&book).map_err(told) } else { to_xlsx(&book).map_err(told) }
}
