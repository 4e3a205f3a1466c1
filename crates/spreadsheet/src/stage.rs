//! A book read as a table under one way of reading its columns, and where its fields stand.

use crate::build::{Built, Readings, build};
use crate::layout::SheetTaken;
use crate::{Book, Cell, Place};
use std::collections::BTreeMap;
use table::Outcome;

/// Everything that is read of a book, at one stage.
pub struct Stage<'b> {
    pub book: &'b Book,
    pub sheets: &'b [SheetTaken],
    pub title: String,
}

impl Stage<'_> {
    /// Builds and reads the table, with the problems' places.
    pub fn read(&self, readings: &Readings) -> (Built, String, Outcome, BTreeMap<String, Place>) {
        let built = build(self.book, self.sheets, readings, &self.title);
        let json = built.root.to_json().to_string();
        let outcome = table::read(&json);
        let mut places = BTreeMap::new();
        built.root.places(&mut String::new(), &mut places);
        (built, json, outcome, places)
    }

    /// What stands above a cell.
    pub fn header(&self, place: &Place) -> Option<String> {
        let sheet = self.sheets.iter().find(|sheet| sheet.name == place.sheet)?;
        let column = sheet.columns.iter().find(|column| Some(column.number) == place.column)?;
        Some(column.header.clone())
    }

    /// What stands in a cell.
    pub fn text(&self, place: &Place) -> String {
        let sheet = self.book.sheets.iter().find(|sheet| sheet.name == place.sheet);
        let row = sheet.and_then(|sheet| sheet.rows.iter().find(|row| row.number == place.row));
        let cell = place.column.and_then(|column| row?.cells.get(column - 1));
        cell.map(Cell::text).unwrap_or_default()
    }
}

/// The cell at a pointer, at something within it, or around it; else the row of its entry.
pub fn place_of(pointer: &str, places: &BTreeMap<String, Place>, built: &Built) -> Option<Place> {
    let mut at = pointer;
    loop {
        if let Some(place) = places.get(at) {
            return Some(place.clone());
        }
        if let Some(row) = built.rows.get(at) {
            // An object within: the first of its cells.
            let below = format!("{pointer}/");
            let within = (at != pointer).then(|| {
                let from = places.range(below.clone()..).take_while(|(pointer, _)| pointer.starts_with(&below));
                from.map(|(_, place)| place).min()
            });
            return within.flatten().or(Some(row)).cloned();
        }
        at = &at[..at.rfind('/')?];
    }
}
