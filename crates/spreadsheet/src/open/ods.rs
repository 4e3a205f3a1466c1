//! Workbooks of the `.ods` form (OpenDocument, ISO/IEC 26300).
//!
//! Read here rather than by `calamine`, whose reader never comes back from a sheet that is cut off, and asks for memory by what a sheet
//! says of its own size.

use super::cells::{Cells, damaged};
use super::limits::MOST_CELLS;
use crate::{Book, Cell, FileFault};
use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};
use std::io::{Cursor, Read};
use zip::ZipArchive;

const PART: &str = "content.xml";

/// All its sheets.
pub fn read(archive: &mut ZipArchive<Cursor<&[u8]>>) -> Result<Book, FileFault> {
    if part(archive, "META-INF/manifest.xml").is_ok_and(|manifest| manifest.contains("encryption-data")) {
        return Err(FileFault::Locked);
    }
    let text = part(archive, PART)?;
    let mut reader = Reader::from_str(&text);
    reader.config_mut().expand_empty_elements = true;
    let mut sheets = Sheets::default();
    loop {
        // Names that do not match at begin and end are an error of the reader.
        match reader.read_event().map_err(|error| damaged(PART, &error))? {
            Event::Start(element) => sheets.begin(&element)?,
            Event::End(element) => sheets.end(element.local_name().as_ref())?,
            Event::Text(text) => sheets.text(&text),
            Event::CData(text) => sheets.text(&text),
            Event::GeneralRef(name) => sheets.text(&resolved(&name)),
            Event::Eof => break,
            _ => {}
        }
    }
    if sheets.depth > 0 {
        return Err(damaged(PART, &"it ends before all is closed"));
    }
    Ok(sheets.book)
}

fn part(archive: &mut ZipArchive<Cursor<&[u8]>>, name: &str) -> Result<String, FileFault> {
    let mut text = String::new();
    let mut part = archive.by_name(name).map_err(|error| damaged(name, &error))?;
    part.read_to_string(&mut text).map_err(|error| damaged(name, &error))?;
    Ok(text)
}

/// The sign that a name between `&` and `;` stands for.
fn resolved(name: &str) -> String {
    let number = name.strip_prefix('#').map(|number| {
        number.strip_prefix('x').map_or_else(|| number.parse().ok(), |hex| u32::from_str_radix(hex, 16).ok())
    });
    match number {
        Some(number) => number.and_then(char::from_u32).map(String::from).unwrap_or_default(),
        None => quick_xml::escape::resolve_predefined_entity(name).unwrap_or_default().to_owned(),
    }
}

/// The sheets so far, and where in them the reader stands.
#[derive(Default)]
struct Sheets {
    book: Book,
    /// How deep within elements.
    depth: usize,
    sheet: Option<(String, Cells)>,
    /// Of the next row, from 0, and how often the present one stands.
    row: usize,
    row_repeats: usize,
    column: usize,
    cell: Option<Found>,
    /// Depth of a note beside a cell, whose text is not the cell's.
    note: Option<usize>,
    count: usize,
}

/// A cell that is being read.
#[derive(Default)]
struct Found {
    repeats: usize,
    value: Option<Cell>,
    text: String,
    paragraphs: usize,
    in_paragraph: bool,
}

fn attribute(element: &BytesStart, name: &str) -> Result<Option<String>, FileFault> {
    let found = element.try_get_attribute(name).map_err(|error| damaged(PART, &error))?;
    let text =
        found.map(|found| found.normalized_value(quick_xml::XmlVersion::Implicit1_0).map(std::borrow::Cow::into_owned));
    text.transpose().map_err(|error| damaged(PART, &error))
}

fn repeats(element: &BytesStart, name: &str) -> Result<usize, FileFault> {
    let text = attribute(element, name)?;
    // What is no number is once; what repeats beyond every sheet is cut there.
    Ok(text.and_then(|text| text.parse::<usize>().ok()).unwrap_or(1).min(1 << 20))
}

impl Sheets {
    fn begin(&mut self, element: &BytesStart) -> Result<(), FileFault> {
        self.depth += 1;
        match element.local_name().as_ref() {
            "table" => {
                let name = attribute(element, "table:name")?.unwrap_or_default();
                (self.sheet, self.row) = (Some((name, Cells::default())), 0);
            }
            "table-row" => {
                self.column = 0;
                self.row_repeats = repeats(element, "table:number-rows-repeated")?;
            }
            "table-cell" | "covered-table-cell" => {
                let repeats = repeats(element, "table:number-columns-repeated")?;
                self.cell = Some(Found { repeats, value: value(element)?, ..Found::default() });
            }
            "annotation" => self.note = self.note.or(Some(self.depth)),
            "p" if self.note.is_none() => {
                if let Some(cell) = &mut self.cell {
                    if cell.paragraphs > 0 {
                        cell.text.push(' ');
                    }
                    (cell.paragraphs, cell.in_paragraph) = (cell.paragraphs + 1, true);
                }
            }
            "s" => {
                let spaces = repeats(element, "text:c")?;
                self.text(&" ".repeat(spaces.min(100)));
            }
            "tab" | "line-break" => self.text(" "),
            _ => {}
        }
        Ok(())
    }

    fn text(&mut self, text: &str) {
        if let Some(cell) = self.cell.as_mut().filter(|cell| cell.in_paragraph && self.note.is_none()) {
            cell.text.push_str(text);
        }
    }

    fn end(&mut self, name: &str) -> Result<(), FileFault> {
        match name {
            "annotation" if self.note == Some(self.depth) => self.note = None,
            "p" if self.note.is_none() => {
                if let Some(cell) = &mut self.cell {
                    cell.in_paragraph = false;
                }
            }
            "table-cell" | "covered-table-cell" => self.end_cell()?,
            "table-row" => self.row = self.row.saturating_add(self.row_repeats),
            "table" => {
                if let Some((name, cells)) = self.sheet.take() {
                    self.book.sheets.push(cells.into_sheet(name));
                }
            }
            _ => {}
        }
        self.depth = self.depth.saturating_sub(1);
        Ok(())
    }

    fn end_cell(&mut self) -> Result<(), FileFault> {
        let Some(found) = self.cell.take() else { return Ok(()) };
        let begin = self.column;
        self.column = begin.saturating_add(found.repeats);
        let cell = match found.value {
            Some(cell) => cell,
            None if found.text.trim().is_empty() => return Ok(()),
            None => Cell::Text(found.text),
        };
        let Some((name, cells)) = &mut self.sheet else { return Ok(()) };
        self.count = self.count.saturating_add(found.repeats.saturating_mul(self.row_repeats));
        if self.count > MOST_CELLS {
            return Err(FileFault::TooManyCells { most: MOST_CELLS });
        }
        for row in self.row..self.row + self.row_repeats {
            for column in begin..begin + found.repeats {
                cells.put(name, (row, column), cell.clone())?;
            }
        }
        Ok(())
    }
}

/// The value that a cell has besides its text: a number, a day, yes or no.
fn value(element: &BytesStart) -> Result<Option<Cell>, FileFault> {
    let number = || attribute(element, "office:value").map(|text| text?.parse::<f64>().ok().filter(|n| n.is_finite()));
    Ok(match attribute(element, "office:value-type")?.as_deref() {
        Some("float" | "currency") => number()?.map(Cell::Number),
        // As a person sees it: `5 %` is kept as 0.05.
        Some("percentage") => number()?.map(|share| Cell::Text(format!("{} %", crate::plain_number(share * 100.0)))),
        Some("boolean") => attribute(element, "office:boolean-value")?.map(|text| Cell::YesNo(text == "true")),
        Some("date") => attribute(element, "office:date-value")?.map(|text| Cell::Day(text.chars().take(10).collect())),
        _ => None,
    })
}
