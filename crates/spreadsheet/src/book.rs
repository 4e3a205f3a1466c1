//! A file of cells, whatever program wrote it.

use serde::{Deserialize, Serialize};

/// The sheets of a file in their order.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Book {
    /// The sheets; a separated text and pasted cells are one.
    pub sheets: Vec<Sheet>,
}

/// A sheet of cells.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sheet {
    /// Its name; of a separated text the name of its file.
    pub name: String,
    /// Its rows that hold anything, from above.
    pub rows: Vec<Row>,
}

/// A row of a sheet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Row {
    /// Its number as a spreadsheet shows it, from 1.
    pub number: usize,
    /// Its cells from the first column on.
    pub cells: Vec<Cell>,
}

/// What stands in a cell.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Cell {
    /// Nothing.
    #[default]
    Empty,
    /// A text.
    Text(String),
    /// A number as a spreadsheet keeps it, without marks that somebody could read in two ways.
    Number(f64),
    /// Yes or no.
    YesNo(bool),
    /// A day, `2026-11-25`.
    Day(String),
    /// What a formula left that could not be worked out, `#REF!`.
    Error(String),
}

impl Cell {
    /// As a person sees it.
    pub fn text(&self) -> String {
        match self {
            Self::Empty => String::new(),
            Self::Text(text) | Self::Day(text) | Self::Error(text) => text.clone(),
            Self::Number(number) => plain_number(*number),
            Self::YesNo(yes) => if *yes { "yes" } else { "no" }.to_owned(),
        }
    }

    /// Whether it holds nothing that can be seen.
    pub fn is_empty(&self) -> bool {
        match self {
            Self::Empty => true,
            Self::Text(text) => text.trim().is_empty(),
            _ => false,
        }
    }
}

/// A number in the fewest digits that a spreadsheet shows: what lies behind the fourteenth is the dust of binary fractions.
pub fn plain_number(number: f64) -> String {
    let rounded: f64 = format!("{number:.13e}").parse().unwrap_or(number);
    rounded.to_string()
}

/// A cell's place.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Place {
    /// The sheet's name.
    pub sheet: String,
    /// The row's number, from 1.
    pub row: usize,
    /// The column's number, from 1; none where the whole row is meant.
    pub column: Option<usize>,
}

/// The letters of a column: 1 is `A`, 27 is `AA`.
pub fn letters(column: usize) -> String {
    let (mut rest, mut letters) = (column, Vec::new());
    while rest > 0 {
        let digit = u8::try_from((rest - 1) % 26).unwrap_or_default();
        letters.push(char::from(b'A' + digit));
        rest = (rest - 1) / 26;
    }
    letters.iter().rev().collect()
}

impl Sheet {
    /// The sheet of rows of cells; what is empty at their ends is left out.
    pub(crate) fn new(name: String, rows: impl IntoIterator<Item = (usize, Vec<Cell>)>) -> Self {
        let kept = |(number, mut cells): (usize, Vec<Cell>)| {
            let filled = cells.iter().rposition(|cell| !cell.is_empty())? + 1;
            cells.truncate(filled);
            Some(Row { number, cells })
        };
        Self { name, rows: rows.into_iter().filter_map(kept).collect() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_have_the_letters_of_a_spreadsheet() {
        let told: Vec<_> = [1, 26, 27, 52, 702, 703].map(letters).into();
        assert_eq!(told, ["A", "Z", "AA", "AZ", "ZZ", "AAA"]);
    }

    #[test]
    fn a_number_has_no_dust_of_binary_fractions() {
        assert_eq!(plain_number(0.1 + 0.2), "0.3");
        assert_eq!(plain_number(3640.0), "3640");
        assert_eq!(plain_number(21.5), "21.5");
    }
}
