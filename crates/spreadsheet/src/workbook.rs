//! Sheets of cells as an `.xlsx` workbook.

use crate::{Book, Cell};
use rust_xlsxwriter::{Format, Workbook, XlsxError};

/// The bytes of a workbook.
///
/// # Errors
/// When the sheets have names or sizes that no workbook has.
pub fn to_xlsx(book: &Book) -> Result<Vec<u8>, XlsxError> {
    let bold = Format::new().set_bold();
    let mut workbook = Workbook::new();
    for sheet in &book.sheets {
        let written = workbook.add_worksheet().set_name(&sheet.name)?;
        for (index, row) in sheet.rows.iter().enumerate() {
            let row_number = u32::try_from(row.number.saturating_sub(1)).unwrap_or(u32::MAX);
            for (column, cell) in row.cells.iter().enumerate() {
                let column = u16::try_from(column).unwrap_or(u16::MAX);
                match cell {
                    Cell::Empty => continue,
                    Cell::Number(number) => written.write_number(row_number, column, *number)?,
                    Cell::YesNo(yes) => written.write_boolean(row_number, column, *yes)?,
                    cell if index == 0 => {
                        let text = cell.text();
                        let width = text.chars().count().clamp(9, 40);
                        written.set_column_width(column, width as f64 + 1.0)?;
                        written.write_string_with_format(row_number, column, text, &bold)?
                    }
                    cell => written.write_string(row_number, column, cell.text())?,
                };
            }
        }
        written.set_freeze_panes(1, 0)?;
    }
    workbook.save_to_buffer()
}
