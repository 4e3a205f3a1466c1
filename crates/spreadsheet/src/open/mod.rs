//! A file as cells, by what stands in it: its name is only asked where the content may be two things.

mod cells;
mod encoding;
mod limits;
mod ods;
mod package;
mod separated;
mod xlsx;

use crate::{Book, FileFault};
pub use encoding::Encoding;
pub use limits::{LARGEST, LARGEST_UNPACKED, MOST_CELLS, MOST_COLUMNS};

/// What a file turns out to be.
#[derive(Clone, Debug, PartialEq)]
pub enum Opened {
    /// JSON text, which is the open table as it is.
    Json(String),
    /// Cells.
    Book(Book),
}

/// Reads a file: a workbook, a separated text, or JSON.
///
/// # Errors
/// [`FileFault`] with what is wrong.
///
/// ```
/// use spreadsheet::{Opened, open};
/// let Ok(Opened::Book(book)) = open(b"Model;Weight\nOB 36;3640 kg\n", "yard.csv") else { panic!("cells") };
/// assert_eq!(book.sheets[0].rows[1].cells[1].text(), "3640 kg");
/// ```
pub fn open(bytes: &[u8], name: &str) -> Result<Opened, FileFault> {
    if bytes.len() > LARGEST {
        return Err(FileFault::TooLarge { most: LARGEST });
    }
    if bytes.iter().all(u8::is_ascii_whitespace) {
        return Err(FileFault::Empty);
    }
    if bytes.starts_with(b"PK") {
        return package::open(bytes).map(Opened::Book);
    }
    // The container of binary workbooks, and of those that a password locks.
    if bytes.starts_with(&[0xd0, 0xcf, 0x11, 0xe0]) {
        let name: Vec<u8> = "EncryptedPackage".encode_utf16().flat_map(u16::to_le_bytes).collect();
        let locked = bytes.windows(name.len()).any(|window| window == name);
        return Err(if locked { FileFault::Locked } else { FileFault::OldWorkbook });
    }
    let text = encoding::decode(bytes)?;
    text_of_file(text, name)
}

/// Reads cells that are pasted from a spreadsheet, or JSON.
///
/// # Errors
/// [`FileFault`] with what is wrong.
pub fn paste(text: &str) -> Result<Opened, FileFault> {
    if text.len() > LARGEST {
        return Err(FileFault::TooLarge { most: LARGEST });
    }
    if text.trim().is_empty() {
        return Err(FileFault::Empty);
    }
    text_of_file(text.to_owned(), "pasted")
}

fn text_of_file(text: String, name: &str) -> Result<Opened, FileFault> {
    let begins = text.trim_start().chars().next();
    let ending = name.rsplit_once('.').map(|(_, ending)| ending.to_lowercase()).unwrap_or_default();
    let separated = matches!(ending.as_str(), "csv" | "tsv" | "txt");
    // A web page that came in the table's place is told so by the one who reads JSON.
    if ending == "json" || !separated && matches!(begins, Some('{' | '[' | '<')) {
        return Ok(Opened::Json(text));
    }
    let stem = name.rsplit(['/', '\\']).next().unwrap_or(name);
    let stem = stem.rsplit_once('.').map_or(stem, |(stem, _)| stem);
    separated::read(&text, stem).map(|sheet| Opened::Book(Book { sheets: vec![sheet] }))
}
