//! Workbooks of the `.xlsx` form.

use super::cells::{Cells, damaged};
use super::limits::MOST_CELLS;
use crate::{Book, Cell, FileFault};
use calamine::{DataRef, ExcelDateTime, Reader, SheetType, Xlsx, XlsxError};
use std::io::Cursor;

/// All its sheets of cells. A cell at a time: a sheet that says it were as large as can be costs nothing.
pub fn read(bytes: &[u8]) -> Result<Book, FileFault> {
    let mut workbook = Xlsx::new(Cursor::new(bytes)).map_err(|error| fault("xl/workbook.xml", &error))?;
    let sheets: Vec<_> =
        workbook.sheets_metadata().iter().filter(|sheet| sheet.typ == SheetType::WorkSheet).cloned().collect();
    let (mut book, mut count) = (Book::default(), 0);
    for sheet in sheets {
        let mut cells = Cells::default();
        let mut reader = workbook.worksheet_cells_reader(&sheet.name).map_err(|error| fault(&sheet.name, &error))?;
        while let Some(found) = reader.next_cell().map_err(|error| fault(&sheet.name, &error))? {
            let Some(cell) = cell(found.get_value()) else { continue };
            count += 1;
            if count > MOST_CELLS {
                return Err(FileFault::TooManyCells { most: MOST_CELLS });
            }
            let (row, column) = found.get_position();
            cells.put(&sheet.name, (row as usize, column as usize), cell)?;
        }
        book.sheets.push(cells.into_sheet(sheet.name));
    }
    Ok(book)
}

fn fault(part: &str, error: &XlsxError) -> FileFault {
    if matches!(error, XlsxError::Password) { FileFault::Locked } else { damaged(part, error) }
}

/// What stands in a cell; none where it is empty.
fn cell(value: &DataRef) -> Option<Cell> {
    Some(match value {
        DataRef::Empty => return None,
        DataRef::Int(number) => Cell::Number(*number as f64),
        DataRef::Float(number) => Cell::Number(*number),
        DataRef::String(text) | DataRef::DurationIso(text) => Cell::Text(text.clone()),
        DataRef::SharedString(text) => Cell::Text((*text).to_owned()),
        DataRef::Bool(yes) => Cell::YesNo(*yes),
        DataRef::DateTime(day) => of_day(day),
        DataRef::DateTimeIso(text) => Cell::Day(text.chars().take(10).collect()),
        DataRef::Error(error) => Cell::Error(error.to_string()),
    })
}

fn of_day(day: &ExcelDateTime) -> Cell {
    // What lies beyond a calendar's days is a number that somebody formatted as a date.
    if !day.is_datetime() || !(1.0..2_958_466.0).contains(&day.as_f64()) {
        return Cell::Number(day.as_f64());
    }
    let (year, month, date, ..) = day.to_ymd_hms_milli();
    Cell::Day(format!("{year:04}-{month:02}-{date:02}"))
}
