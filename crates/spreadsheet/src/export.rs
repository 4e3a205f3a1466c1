//! A table as sheets of cells, without loss: a column for each field that something states, a row for each entry.

use crate::cell::{self, Reading};
use crate::fields::{Role, Target};
use crate::{Book, Cell, Sheet};
use serde_json::Value;
use std::collections::BTreeMap;
use table::Table;
use table::row::{self, Form};

/// The most characters in a cell that every spreadsheet takes.
const LONGEST_CELL: usize = 30_000;

/// A column's place by the declarations: places of fields and of items, from the outermost on.
type Key = Vec<usize>;

/// The cells of one row by their columns.
type Cells = BTreeMap<Key, (String, Cell)>;

/// The table as sheets.
pub fn book_of(table: &Table) -> Book {
    let json = serde_json::to_value(table).unwrap_or_default();
    let mut book = Book { sheets: vec![about(&json)] };
    for role in [Role::Machines, Role::Attachments, Role::Parts, Role::Assumptions] {
        let entries = json[role.list()].as_array().map(Vec::as_slice).unwrap_or_default();
        if entries.is_empty() {
            continue;
        }
        let mut lines = Vec::new();
        let mut own: BTreeMap<&str, Vec<Cells>> = BTreeMap::new();
        for entry in entries {
            let mut walk = Walk { role, cells: Cells::new(), own: Vec::new() };
            walk.object(entry, rows(role), &mut Vec::new(), &mut Vec::new());
            lines.push(walk.cells);
            let id = entry["id"].as_str().unwrap_or_default();
            for (list, mut cells) in walk.own {
                cells.insert(Key::new(), (role.one().to_owned(), Cell::Text(id.to_owned())));
                own.entry(list).or_default().push(cells);
            }
        }
        book.sheets.push(sheet(role.sheet(), lines));
        for (list, name) in role.own_sheets() {
            book.sheets.extend(own.remove(list).map(|lines| sheet(name, lines)));
        }
    }
    book
}

/// The sheets as separated texts, in UTF-8 with commas, each with the name of its sheet.
pub fn to_csv(book: &Book) -> Vec<(String, String)> {
    let text = |sheet: &Sheet| {
        let mut writer = csv::WriterBuilder::new().flexible(true).from_writer(Vec::new());
        for row in &sheet.rows {
            // Memory takes whatever is written.
            let _ = writer.write_record(row.cells.iter().map(Cell::text));
        }
        (sheet.name.clone(), String::from_utf8(writer.into_inner().unwrap_or_default()).unwrap_or_default())
    };
    book.sheets.iter().map(text).collect()
}

fn rows(role: Role) -> Vec<row::Row> {
    match role {
        Role::Machines => table::declared::of_carrier(),
        Role::Attachments => table::declared::of_head(),
        Role::Parts => table::declared::of_part(),
        Role::Assumptions => table::declared::of_assumption(),
        Role::About => table::declared::of_table(),
    }
}

fn about(json: &Value) -> Sheet {
    let mut walk = Walk { role: Role::About, cells: Cells::new(), own: Vec::new() };
    walk.object(json, rows(Role::About), &mut Vec::new(), &mut Vec::new());
    let line = |(name, cell): (String, Cell)| {
        let text = cell.text();
        let letters: Vec<char> = text.chars().collect();
        let pieces = letters.chunks(LONGEST_CELL).map(|piece| Cell::Text(piece.iter().collect()));
        std::iter::once(Cell::Text(name)).chain(pieces).collect::<Vec<_>>()
    };
    let header = vec![Cell::Text("field".to_owned()), Cell::Text("value".to_owned())];
    let lines = std::iter::once(header).chain(walk.cells.into_values().map(line));
    Sheet::new(Role::About.sheet().to_owned(), lines.enumerate().map(|(index, cells)| (index + 1, cells)))
}

/// The rows of a sheet below their headers.
fn sheet(name: &str, lines: Vec<Cells>) -> Sheet {
    let mut columns: BTreeMap<Key, String> = BTreeMap::new();
    for (key, (name, _)) in lines.iter().flatten() {
        columns.entry(key.clone()).or_insert_with(|| name.clone());
    }
    let headers = columns.values().map(|name| Cell::Text(name.clone())).collect();
    let cells = lines.into_iter().map(|mut line| {
        columns.keys().map(|key| line.remove(key).map(|(_, cell)| cell).unwrap_or_default()).collect::<Vec<_>>()
    });
    let rows: Vec<Vec<Cell>> = std::iter::once(headers).chain(cells).collect();
    Sheet::new(name.to_owned(), rows.into_iter().enumerate().map(|(index, cells)| (index + 1, cells)))
}

/// The fields of an entry one after another.
struct Walk {
    role: Role,
    cells: Cells,
    own: Vec<(&'static str, Cells)>,
}

impl Walk {
    /// The fields of an object below a dotted name; whether any has a cell.
    fn object(&mut self, object: &Value, rows: Vec<row::Row>, key: &mut Key, name: &mut Vec<String>) -> bool {
        let mut any = false;
        for (place, row) in rows.into_iter().enumerate() {
            let Some(value) = object.get(row.name).filter(|value| !value.is_null()) else { continue };
            key.push(place);
            name.push(row.name.to_owned());
            any |= self.field(value, &row, key, name);
            key.pop();
            name.pop();
        }
        any
    }

    fn field(&mut self, value: &Value, row: &row::Row, key: &mut Key, name: &mut Vec<String>) -> bool {
        let kind = &row.kind;
        let dotted = name.join(".");
        match (kind.form, value) {
            (_, Value::Array(items)) if items.is_empty() => {
                kind.is_optional && self.put(key, format!("{dotted} []"), Cell::Text("none".to_owned()))
            }
            (Form::Object(rows), Value::Array(items)) => {
                let own = self.role.own_sheets().iter().find(|(list, _)| *list == dotted).map(|(list, _)| *list);
                if let Some(list) = own {
                    for item in items {
                        let mut walk = Self { role: self.role, cells: Cells::new(), own: Vec::new() };
                        walk.object(item, rows(), &mut Key::from([0]), &mut Vec::new());
                        self.own.push((list, walk.cells));
                    }
                    return false;
                }
                let mut any = false;
                for (index, item) in items.iter().enumerate() {
                    key.push(index);
                    if index > 0 {
                        name.push((index + 1).to_string());
                    }
                    let filled = self.object(item, rows(), key, name);
                    any |=
                        filled || self.put(key, format!("{dotted}.{} {{}}", index + 1), Cell::Text("yes".to_owned()));
                    if index > 0 {
                        name.pop();
                    }
                    key.pop();
                }
                any
            }
            (_, Value::Array(items)) => {
                let texts: Vec<_> = items.iter().filter_map(Value::as_str).collect();
                self.put(key, dotted, Cell::Text(texts.join("; ")))
            }
            (Form::Object(rows), value) => {
                let filled = self.object(value, rows(), key, name);
                filled || kind.is_optional && self.put(key, format!("{dotted} {{}}"), Cell::Text("yes".to_owned()))
            }
            (Form::Window(..), value) => {
                let mut any = false;
                for (place, end) in ["least", "rated", "greatest"].into_iter().enumerate() {
                    let Some(text) = value[end].as_str() else { continue };
                    key.push(place);
                    any |= self.put(key, format!("{dotted}.{end}"), Cell::Text(text.to_owned()));
                    key.pop();
                }
                any
            }
            // Left out it says the same.
            (Form::YesNo, Value::Bool(false)) if !row.must_be_there && !kind.is_optional => false,
            (_, Value::Bool(yes)) => self.put(key, dotted, Cell::Text(if *yes { "yes" } else { "no" }.to_owned())),
            (_, Value::Number(number)) => self.put(key, dotted, Cell::Number(number.as_f64().unwrap_or_default())),
            (form, value) => {
                let text = value.as_str().unwrap_or_default();
                self.put(key, dotted, Cell::Text(escaped(self.role, form, text)))
            }
        }
    }

    fn put(&mut self, key: &Key, name: String, cell: Cell) -> bool {
        self.cells.insert(key.clone(), (name, cell));
        true
    }
}

/// A text as it stands in a cell: in quotes where it would be read as something else, or a spreadsheet might work it out as a formula.
fn escaped(role: Role, form: Form, text: &str) -> String {
    let free = matches!(form, Form::Text | Form::Link);
    let formula = free && text.starts_with(['=', '+', '-', '@']);
    let field = role
        .fields()
        .0
        .iter()
        .find(|field| std::mem::discriminant(&field.form) == std::mem::discriminant(&form) && !field.is_list());
    let target = field.and_then(|field| Target::named(role, &field.name));
    let reading = Reading { exact: true, ..Reading::default() };
    let same = !free
        || target.is_some_and(|target| {
            cell::value(&Cell::Text(text.to_owned()), &target, reading) == Ok(Some(Value::String(text.to_owned())))
        });
    if formula || !same { Value::String(text.to_owned()).to_string() } else { text.to_owned() }
}
