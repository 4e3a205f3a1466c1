//! Cells as they are come upon, and what is said of a workbook that a reader can make nothing of.

use super::limits::MOST_COLUMNS;
use crate::{Cell, FileFault, Sheet};
use std::collections::BTreeMap;

/// Something that a reader could make nothing of.
pub fn damaged(part: &str, error: &dyn std::fmt::Display) -> FileFault {
    let words = error.to_string().chars().take(200).collect();
    FileFault::Damaged { part: part.to_owned(), words }
}

/// The cells of a sheet, put in wherever they stand.
#[derive(Default)]
pub struct Cells(BTreeMap<usize, Vec<Cell>>);

impl Cells {
    /// Puts in a cell; row and column from 0.
    pub fn put(&mut self, sheet: &str, (row, column): (usize, usize), cell: Cell) -> Result<(), FileFault> {
        if column >= MOST_COLUMNS {
            return Err(FileFault::TooManyColumns { sheet: sheet.to_owned(), most: MOST_COLUMNS });
        }
        let cells = self.0.entry(row).or_default();
        if cells.len() <= column {
            cells.resize(column + 1, Cell::Empty);
        }
        cells[column] = cell;
        Ok(())
    }

    /// The sheet.
    pub fn into_sheet(self, name: String) -> Sheet {
        Sheet::new(name, self.0.into_iter().map(|(row, cells)| (row + 1, cells)))
    }
}
