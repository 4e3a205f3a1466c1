//! What the sheets of a book are, and what each of their columns is taken for.

use crate::answers::{Answers, ColumnAnswer};
use crate::fields::{Role, Target};
use crate::header::{self, Header, Meant};
use crate::words::folded;
use crate::{Book, Cell, Sheet};
use quantity::Unit;
use serde::Serialize;
use serde_json::Value;
use std::fmt::Write;
use table::row::Form;

/// A sheet and what it is taken for.
#[derive(Clone, Debug, Serialize)]
pub struct SheetTaken {
    /// Its name.
    pub name: String,
    /// Which list it holds; none where nothing of it is used.
    pub role: Option<Role>,
    /// The list within its entries of which it holds a row each.
    pub within: Option<&'static str>,
    /// The number of the row with the headers.
    pub header_row: usize,
    /// Its columns in their order, those without a header left out.
    pub columns: Vec<Column>,
    #[serde(skip)]
    pub(crate) first_row: usize,
}

/// A column and what it is taken for.
#[derive(Clone, Debug, Serialize)]
pub struct Column {
    /// Its number, from 1.
    pub number: usize,
    /// What stands above it.
    pub header: String,
    /// The dotted name of the field that it is taken for; none where it is not used.
    pub field: Option<String>,
    /// The unit of its figures that have none.
    pub unit: Option<Unit>,
    /// Up to three different values of it.
    pub samples: Vec<String>,
    /// Whether the format itself names it so.
    pub exact: bool,
    /// Whether it names the entry to which a row belongs.
    pub is_reference: bool,
    /// The field whose words are near, where it is taken for none.
    pub near: Option<String>,
    /// The column that is taken for the same field already, so that this one is not used.
    pub same_as: Option<usize>,
    #[serde(skip)]
    pub(crate) currency: Option<String>,
    #[serde(skip)]
    pub(crate) target: Option<Target>,
}

/// The most rows from above among which the headers are looked for.
const HEADERS_WITHIN: usize = 15;

/// A fingerprint of a book's layout: its headers in their places. Files of one layout share it, whatever stands below the headers.
pub fn fingerprint(sheets: &[SheetTaken]) -> String {
    let mut told = String::new();
    for sheet in sheets {
        // The name of a separated text is that of its file, which changes with the day.
        let _ = write!(told, "\u{1}{}", if sheets.len() > 1 { &sheet.name } else { "" });
        for column in &sheet.columns {
            let _ = write!(told, "\u{2}{}\u{3}{}", column.number, column.header.trim().to_lowercase());
        }
    }
    // FNV-1a: the same on every device and in every version.
    let hash = told
        .bytes()
        .fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x100_0000_01b3));
    format!("{hash:016x}")
}

/// The layout of a book, with what somebody has answered about it.
pub fn of(book: &Book, answers: &Answers) -> Vec<SheetTaken> {
    book.sheets.iter().map(|sheet| of_sheet(sheet, answers)).collect()
}

/// What the name of a sheet says that it is.
fn by_name(name: &str) -> Option<(Role, Option<&'static str>)> {
    let name = folded(name);
    // `yard-power-groups.csv`: the last words of a file's name.
    let words: Vec<&str> = name.split(' ').collect();
    let last = |count: usize| words.get(words.len().saturating_sub(count)..).unwrap_or_default().join(" ");
    by_folded_name(&name).or_else(|| by_folded_name(&last(2))).or_else(|| by_folded_name(&last(1)))
}

fn by_folded_name(name: &str) -> Option<(Role, Option<&'static str>)> {
    for role in Role::ALL {
        if name == role.sheet() || name == role.list() {
            return Some((role, None));
        }
        if let Some((within, _)) = role.own_sheets().iter().find(|(_, sheet)| folded(sheet) == name) {
            return Some((role, Some(within)));
        }
    }
    let named = |words: &[&str]| words.contains(&name);
    if named(&["machine", "excavators", "diggers", "loaders", "machine list", "fleet", "our machines"]) {
        Some((Role::Machines, None))
    } else if named(&["attachment", "tools", "implements", "attachment list", "our attachments"]) {
        Some((Role::Attachments, None))
    } else if named(&["part", "spares", "spare parts", "price list"]) {
        Some((Role::Parts, None))
    } else if named(&["circuit", "aux circuits"]) {
        Some((Role::Machines, Some("circuits")))
    } else {
        None
    }
}

/// How well a row of headers fits a list.
fn score(role: Role, within: Option<&str>, headers: &[Cell]) -> usize {
    // A header is a text, and no long one.
    let texts = headers.iter().filter_map(|cell| match cell {
        Cell::Text(text) if !text.trim().is_empty() && text.len() < 100 => Some(text),
        _ => None,
    });
    texts.filter(|text| header::known(role, within, &Header::of(text).words).is_some()).count()
}

fn of_sheet(sheet: &Sheet, answers: &Answers) -> SheetTaken {
    let mut taken = SheetTaken {
        name: sheet.name.clone(),
        role: None,
        within: None,
        header_row: 0,
        columns: Vec::new(),
        first_row: 0,
    };
    if answers.sheet(&sheet.name).is_none()
        && ["where to read it", "notes", "help", "readme"].contains(&folded(&sheet.name).as_str())
    {
        return taken;
    }
    let named = by_name(&sheet.name);
    let (role, within, at) = if let Some(answer) = answers.sheet(&sheet.name) {
        let Some(role) = answer.role else { return taken };
        let within = named.filter(|(named, _)| *named == role).and_then(|(_, within)| within);
        (Some(role), within, best_row(sheet, role, within).0)
    } else if let Some((role, within)) =
        named.filter(|(role, within)| *role == Role::About || best_row(sheet, *role, *within).1 > 0)
    {
        (Some(role), within, best_row(sheet, role, within).0)
    } else {
        likeliest(sheet)
    };
    taken.role = role;
    taken.within = within;
    if role == Some(Role::About) {
        return taken;
    }
    let Some(row) = sheet.rows.get(at) else { return taken };
    taken.header_row = row.number;
    taken.first_row = at + 1;
    let units = units_below(sheet, at + 1);
    taken.first_row += usize::from(units.is_some());
    for (index, cell) in row.cells.iter().enumerate().filter(|(_, cell)| !cell.is_empty()) {
        let unit = units.as_ref().and_then(|units| units.get(index).copied().flatten());
        let column = column(sheet, &taken, index + 1, &cell.text(), unit, answers);
        taken.columns.push(column);
    }
    by_cells(sheet, &mut taken, answers);
    taken
}

/// The list whose headers a sheet has, and the row with them; no list where two are as likely.
fn likeliest(sheet: &Sheet) -> (Option<Role>, Option<&'static str>, usize) {
    let roles = [Role::Machines, Role::Attachments, Role::Parts];
    let mut found: Vec<_> = roles
        .into_iter()
        .map(|role| {
            let (at, known) = best_row(sheet, role, None);
            (known + says_role(sheet, role, at), role, at)
        })
        .collect();
    found.sort_by_key(|(score, ..)| std::cmp::Reverse(*score));
    match found[..] {
        [(first, role, at), (second, ..), ..] if first >= 2 && first > second => (Some(role), None, at),
        [(.., at), ..] => (None, None, at),
        [] => (None, None, 0),
    }
}

/// What the values below class or kind say for a list: more than a header can.
fn says_role(sheet: &Sheet, role: Role, at: usize) -> usize {
    let field = match role {
        Role::Machines => "class",
        Role::Attachments => "kind",
        Role::Parts => "change",
        _ => return 0,
    };
    let Some(headers) = sheet.rows.get(at) else { return 0 };
    let column = headers.cells.iter().position(|cell| {
        matches!(header::known(role, None, &cell.text()), Some(Meant::Field { target, .. }) if target.name() == field)
    });
    let (Some(column), Some(target)) = (column, Target::named(role, field)) else { return 0 };
    let (said, cells) = agreeing(sheet, at + 1, column + 1, &target);
    if said * 2 > cells { 5 } else { 0 }
}

/// How many of the first cells of a column say what a field with a closed list may hold, and how many cells there are.
fn agreeing(sheet: &Sheet, from: usize, number: usize, target: &Target) -> (usize, usize) {
    let says = |cell: &&Cell| {
        let value = crate::cell::value(cell, target, crate::cell::Reading::default()).ok().flatten();
        value.is_some_and(|value| match (target.field.form, &value) {
            (Form::Name(names), Value::String(name)) => names.contains(&name.as_str()),
            (Form::Name(names), Value::Array(all)) => {
                all.iter().all(|one| one.as_str().is_some_and(|name| names.contains(&name)))
            }
            (Form::YesNo, value) => value.is_boolean(),
            _ => false,
        })
    };
    let is_said = |cell: &&Cell| !cell.is_empty() && !crate::cell::says_nothing(&cell.text());
    let rows = sheet.rows.iter().skip(from).take(50);
    let cells: Vec<_> = rows.filter_map(|row| row.cells.get(number - 1)).filter(is_said).collect();
    (cells.iter().filter(|cell| says(cell)).count(), cells.len())
}

/// Whether what stands in a column speaks against the field that its header means: `Type` above model names is no class.
fn speak_against(sheet: &Sheet, from: usize, number: usize, target: &Target) -> bool {
    if !matches!(target.field.form, Form::Name(_) | Form::YesNo) {
        return false;
    }
    let (said, cells) = agreeing(sheet, from, number, target);
    said * 2 < cells
}

/// Takes the column whose cells are classes of machines, or kinds of attachments, for that where no header says so.
fn by_cells(sheet: &Sheet, taken: &mut SheetTaken, answers: &Answers) {
    let field = match (taken.role, taken.within) {
        (Some(Role::Machines), None) => "class",
        (Some(Role::Attachments), None) => "kind",
        _ => return,
    };
    let Some(role) = taken.role else { return };
    let (Some(target), Some(model)) = (Target::named(role, field), Target::named(role, "model")) else { return };
    let says_type = |column: &Column| {
        let known = header::known(role, None, &column.header);
        matches!(known, Some(Meant::Field { target, .. }) if target.name() == field)
    };
    let is_unused = |column: &Column| {
        let answered = answers.column(&sheet.name, column.number).is_some_and(|answer| answer.field.is_some());
        column.target.is_none() && !column.is_reference && !answered
    };
    // `Type` is what a machine is called where no other column says that.
    if !taken.columns.iter().any(|column| column.field.as_deref() == Some("model"))
        && let Some(column) = taken.columns.iter_mut().find(|column| is_unused(column) && says_type(column))
    {
        (column.field, column.target) = (Some(model.name()), Some(model));
    }
    if taken.columns.iter().any(|column| column.field.as_deref() == Some(field)) {
        return;
    }
    let from = taken.first_row;
    let found = taken.columns.iter_mut().filter(|column| is_unused(column)).find(|column| {
        let (said, cells) = agreeing(sheet, from, column.number, &target);
        said > 1 && said * 2 > cells
    });
    if let Some(column) = found {
        (column.field, column.near) = (Some(target.name()), None);
        column.target = Some(target);
    }
}

/// The row whose headers fit a list best, and how many of them it knows.
fn best_row(sheet: &Sheet, role: Role, within: Option<&str>) -> (usize, usize) {
    let rows = sheet.rows.iter().take(HEADERS_WITHIN).enumerate();
    // Where few of many cells are known, and not several, these are no headers. Of rows that know as many the uppermost.
    let enough = |row: &crate::Row, known: usize| {
        known > 3 || known * 2 >= row.cells.iter().filter(|cell| !cell.is_empty()).count()
    };
    rows.map(|(at, row)| (at, score(role, within, &row.cells), row))
        .map(|(at, known, row)| (at, if enough(row, known) { known } else { 0 }))
        .rev()
        .max_by_key(|(_, known)| *known)
        .unwrap_or((0, 0))
}

/// The units in a row below the headers in which stands nothing else.
fn units_below(sheet: &Sheet, at: usize) -> Option<Vec<Option<Unit>>> {
    let row = sheet.rows.get(at)?;
    let filled = || row.cells.iter().filter(|cell| !cell.is_empty());
    let unit = |cell: &Cell| header::unit(cell.text().trim().trim_matches(['[', ']', '(', ')']));
    let all = filled().count() > 0
        && filled().all(|cell| {
            matches!(cell, Cell::Text(_)) && (unit(cell).is_some() || crate::cell::says_nothing(&cell.text()))
        });
    (all && filled().any(|cell| unit(cell).is_some())).then(|| row.cells.iter().map(unit).collect())
}

fn column(
    sheet: &Sheet,
    taken: &SheetTaken,
    number: usize,
    text: &str,
    below: Option<Unit>,
    answers: &Answers,
) -> Column {
    let header = Header::of(text);
    let mut column = Column {
        number,
        header: text.trim().to_owned(),
        field: None,
        unit: None,
        samples: samples(sheet, taken.first_row, number),
        exact: false,
        is_reference: false,
        near: None,
        same_as: None,
        currency: header.currency.clone(),
        target: None,
    };
    let Some(role) = taken.role else { return column };
    // `Hours` is a header and a unit: the whole of it is tried first.
    let found =
        header::known(role, taken.within, text).unwrap_or_else(|| header::meant(role, taken.within, &header.words));
    match found {
        Meant::Field { target, exact: false } if speak_against(sheet, taken.first_row, number, &target) => {}
        Meant::Field { target, exact } => (column.target, column.exact) = (Some(target), exact),
        Meant::Reference => column.is_reference = true,
        Meant::Unknown { near } => column.near = near,
    }
    let answer = answers.column(&sheet.name, number);
    if let Some(ColumnAnswer { field: Some(field), .. }) = answer {
        column.target = Target::named(role, field);
        (column.near, column.is_reference) = (None, false);
    }
    if let Some(target) = &column.target {
        let of_form = |unit: &Unit| match target.field.form {
            Form::Figure(dimension, _) | Form::Range(dimension, _) | Form::Window(dimension, _) => {
                unit.dimension() == dimension
            }
            _ => false,
        };
        let own = header.unit.or(below).or_else(|| header::unit(text)).filter(of_form);
        column.unit = answer.and_then(|answer| answer.unit).or(own).or_else(|| header::only_unit(target.field.form));
        column.field = Some(target.name());
        // Two columns of one field: the first counts until somebody says otherwise.
        column.same_as = taken
            .columns
            .iter()
            .find(|other| other.field == column.field && other.same_as.is_none())
            .map(|other| other.number);
    }
    column
}

/// Up to three different values of a column.
fn samples(sheet: &Sheet, from: usize, number: usize) -> Vec<String> {
    let mut samples: Vec<String> = Vec::new();
    for row in sheet.rows.iter().skip(from) {
        let text = row.cells.get(number - 1).map(Cell::text).unwrap_or_default();
        if !text.trim().is_empty() && !samples.contains(&text) {
            samples.push(text);
        }
        if samples.len() == 3 {
            break;
        }
    }
    samples
}
