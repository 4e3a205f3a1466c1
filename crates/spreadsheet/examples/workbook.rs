//! Prints the workbook to begin with: `cargo run -p pairwright-spreadsheet --example workbook > public/table/workbook.xlsx`.

use std::io::Write;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    std::io::stdout().write_all(&spreadsheet::starter()?)?;
    Ok(())
}
