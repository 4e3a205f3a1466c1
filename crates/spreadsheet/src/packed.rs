//! Sheets as separated texts, packed into one file: so that whoever asks for them gets them at once.

use crate::{Book, to_csv};
use std::io::{Cursor, Write};
use zip::result::ZipError;
use zip::write::SimpleFileOptions;
use zip::{DateTime, ZipWriter};

/// The bytes of a packed file with a `.csv` for each sheet.
///
/// # Errors
/// When there are more sheets, or longer ones, than a packed file takes.
pub fn to_csv_zip(book: &Book) -> Result<Vec<u8>, ZipError> {
    let mut packed = ZipWriter::new(Cursor::new(Vec::new()));
    // The same table is the same file, whenever it is packed.
    let options = SimpleFileOptions::default().last_modified_time(DateTime::default());
    for (name, text) in to_csv(book) {
        packed.start_file(format!("{name}.csv"), options)?;
        packed.write_all(text.as_bytes())?;
    }
    Ok(packed.finish()?.into_inner())
}
