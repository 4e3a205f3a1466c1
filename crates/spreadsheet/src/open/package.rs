//! A packed file: measured before anything of it is unpacked for good, then read by its kind.

use super::cells::damaged;
use super::limits::LARGEST_UNPACKED;
use super::{encoding, ods, separated, xlsx};
use crate::{Book, FileFault};
use std::io::{Cursor, Read};
use zip::ZipArchive;

/// A packed workbook.
pub fn open(bytes: &[u8]) -> Result<Book, FileFault> {
    let mut archive = ZipArchive::new(Cursor::new(bytes)).map_err(|error| damaged("the packed file", &error))?;
    measure(&mut archive)?;
    let has = |name: &str| archive.index_for_name(name).is_some();
    if has("xl/workbook.xml")
        || has("[Content_Types].xml") && archive.file_names().flatten().any(|name| name.starts_with("xl/"))
    {
        return xlsx::read(bytes);
    }
    if has("content.xml") {
        return ods::read(&mut archive);
    }
    let names: Vec<String> = archive.file_names().flatten().map(std::borrow::Cow::into_owned).collect();
    let is_text = |name: &String| name.to_lowercase().ends_with(".csv");
    if names.iter().any(is_text) && names.iter().all(|name| is_text(name) || name.ends_with('/')) {
        return texts(&mut archive, names.iter().filter(|name| is_text(name)));
    }
    Err(FileFault::NotAWorkbook)
}

/// Separated texts, each a sheet with the name of its file.
fn texts<'n>(
    archive: &mut ZipArchive<Cursor<&[u8]>>,
    names: impl Iterator<Item = &'n String>,
) -> Result<Book, FileFault> {
    let mut book = Book::default();
    for name in names {
        let mut bytes = Vec::new();
        let part = archive.by_name(name).map_err(|error| damaged(name, &error))?;
        part.take(LARGEST_UNPACKED as u64).read_to_end(&mut bytes).map_err(|error| damaged(name, &error))?;
        let stem = name.rsplit('/').next().unwrap_or(name);
        let stem = stem.get(..stem.len() - ".csv".len()).unwrap_or(stem);
        book.sheets.push(separated::read(&encoding::decode(&bytes)?, stem)?);
    }
    Ok(book)
}

/// Unpacks every part once and drops it again: what a part says of its own size may be a lie.
fn measure(archive: &mut ZipArchive<Cursor<&[u8]>>) -> Result<(), FileFault> {
    let mut left = LARGEST_UNPACKED as u64;
    for index in 0..archive.len() {
        let part = archive.by_index(index).map_err(|error| damaged("the packed file", &error))?;
        let name = part.name().map_or_else(|_| "a part".to_owned(), std::borrow::Cow::into_owned);
        let mut bytes = Vec::new();
        let read = part.take(left + 1).read_to_end(&mut bytes).map_err(|error| damaged(&name, &error))?;
        left = left.checked_sub(read as u64).ok_or(FileFault::TooLarge { most: LARGEST_UNPACKED })?;
        if name.starts_with("xl/worksheets/") && !has_sound_places(&bytes) {
            return Err(damaged(&name, &"a cell stands where no sheet has one"));
        }
    }
    Ok(())
}

/// Whether every place that a sheet names (`r="D7"`, `ref="A1:D7"`) may be one: the reader of workbooks does not look how long its number is.
fn has_sound_places(sheet: &[u8]) -> bool {
    const LONGEST_ROW: usize = 7;
    let begins = |at: usize| {
        [&b" r=\""[..], b" ref=\"", b" r='", b" ref='"].into_iter().find(|name| sheet[at..].starts_with(name))
    };
    let spaces = sheet.iter().enumerate().filter(|(_, byte)| byte.is_ascii_whitespace()).map(|(at, _)| at);
    spaces.filter_map(|at| begins(at).map(|name| at + name.len())).all(|at| {
        let place = sheet[at..].split(|byte| b"\"'".contains(byte)).next().unwrap_or_default();
        place.split(|byte| !byte.is_ascii_digit()).all(|number| number.len() <= LONGEST_ROW)
    })
}
