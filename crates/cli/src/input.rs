//! A table out of a file of any kind: JSON, a workbook, a separated text, or a folder of these.

use quantity::UnitSystem;
use spreadsheet::{Answers, Book, FileFault, Imported, Opened, of_opened, open};
use std::path::Path;
use wording::{PlainNumbers, Words};

/// All that is printed for people.
pub const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

/// Why there is nothing to work with.
#[derive(Debug)]
pub enum InputFault {
    /// The file cannot be had.
    Io(std::io::Error),
    /// Nothing of it can be read; with the file of a folder.
    File(Option<String>, FileFault),
}

impl From<std::io::Error> for InputFault {
    fn from(error: std::io::Error) -> Self {
        Self::Io(error)
    }
}

/// What a file gives; `-` is standard input, a folder the sheets of its `.csv` files.
pub fn read(file: &str, answers: &Answers) -> Result<Imported, InputFault> {
    if file == "-" {
        let mut bytes = Vec::new();
        std::io::Read::read_to_end(&mut std::io::stdin(), &mut bytes)?;
        return of_bytes(&bytes, file, answers);
    }
    if !Path::new(file).is_dir() {
        return of_bytes(&std::fs::read(file)?, file, answers);
    }
    let mut paths: Vec<_> =
        std::fs::read_dir(file)?.collect::<Result<Vec<_>, _>>()?.iter().map(std::fs::DirEntry::path).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("csv")));
    paths.sort();
    let mut book = Book::default();
    for path in paths {
        let name = path.to_string_lossy();
        match open(&std::fs::read(&path)?, &name) {
            Ok(Opened::Book(sheets)) => book.sheets.extend(sheets.sheets),
            Ok(Opened::Json(_)) => {}
            Err(fault) => return Err(InputFault::File(Some(name.into_owned()), fault)),
        }
    }
    Ok(of_opened(Opened::Book(book), answers, file.trim_end_matches('/')))
}

fn of_bytes(bytes: &[u8], file: &str, answers: &Answers) -> Result<Imported, InputFault> {
    // What is no text and no workbook is told of JSON too.
    spreadsheet::import(bytes, file, answers).map_err(|fault| InputFault::File(None, fault))
}

/// The answers in a file; none where there is no file.
pub fn answers(file: Option<&str>) -> Result<Answers, String> {
    let Some(file) = file else { return Ok(Answers::default()) };
    let text = std::fs::read_to_string(file).map_err(|error| format!("cannot read the answers {file}: {error}"))?;
    serde_json::from_str(&text).map_err(|error| format!("{file} holds no answers: {error}"))
}
