//! A file as a table, with what is wrong told at its cells, and what nobody can know but who wrote it asked.

use crate::answers::Answers;
use crate::build::{Built, Readings};
use crate::cell::{Open, Reading, shows_days};
use crate::fields::Role;
use crate::layout::{self, SheetTaken};
use crate::marks::Evidence;
use crate::stage::{Stage, place_of};
use crate::{Book, Cell, FileFault, Opened, Place, Question, plausible};
use std::collections::{BTreeMap, HashMap, HashSet};
use table::row::Form;
use table::{Fault, Outcome, Problem, Severity};

/// What a file gives.
#[derive(Clone, Debug)]
pub struct Imported {
    /// The table as JSON text.
    pub json: String,
    /// What reading that gives.
    pub outcome: Outcome,
    /// What was wrong, at its cells.
    pub problems: Vec<CellProblem>,
    /// What has to be answered before all is used.
    pub questions: Vec<Question>,
    /// The sheets and what their columns were taken for; none where the file was JSON.
    pub sheets: Vec<SheetTaken>,
    /// The layout's fingerprint, under which answers are kept; empty where the file was JSON.
    pub layout: String,
}

/// Something wrong, at its cell.
#[derive(Clone, Debug, PartialEq)]
pub struct CellProblem {
    /// The cell, or the row where `column` is none; none at all where the file was JSON.
    pub place: Option<Place>,
    /// What stands above the column.
    pub header: Option<String>,
    /// What stood in the cell.
    pub found: String,
    /// The entry by the name that people know.
    pub entry: Option<String>,
    /// How bad.
    pub severity: Severity,
    /// What is wrong.
    pub fault: CellFault,
    /// What is not used because of it.
    pub left_out: LeftOut,
}

/// What is wrong with a cell or a row.
#[derive(Clone, Debug, PartialEq)]
pub enum CellFault {
    /// What the table's own reader says.
    Table(Problem),
    /// Another row of the same entry says something else.
    Conflict {
        /// What the other row says.
        first: String,
    },
    /// A row belongs to an entry that there is not.
    NoSuchEntry,
    /// A row says one thing only: a heading, a sum.
    RowSkipped,
    /// No sheet has headers of machines, attachments or parts.
    NothingFound,
}

/// What is not used because of a problem.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeftOut {
    /// Nothing.
    Nothing,
    /// The cell: the field is not known.
    Cell,
    /// The whole row or entry.
    Entry,
}

/// Reads a file of any kind as a table.
///
/// # Errors
/// [`FileFault`] where nothing of it can be read.
pub fn import(bytes: &[u8], name: &str, answers: &Answers) -> Result<Imported, FileFault> {
    Ok(of_opened(crate::open(bytes, name)?, answers, name))
}

/// Reads what was opened or pasted as a table; its name becomes the title where the table has none.
pub fn of_opened(opened: Opened, answers: &Answers, name: &str) -> Imported {
    match opened {
        Opened::Json(json) => of_json(json),
        Opened::Book(book) => of_book(&book, answers, name),
    }
}

/// The fingerprint of a file's layout, under which answers are kept: the same whatever has been answered. Empty where the file is JSON.
pub fn fingerprint_of(opened: &Opened) -> String {
    match opened {
        Opened::Json(_) => String::new(),
        Opened::Book(book) => layout::fingerprint(&layout::of(book, &Answers::default())),
    }
}

fn of_json(json: String) -> Imported {
    let outcome = table::read(&json);
    let problems = outcome.problems.iter().map(|problem| CellProblem {
        place: None,
        header: None,
        found: problem.found.clone(),
        entry: problem.entry.clone(),
        severity: problem.severity,
        left_out: if problem.severity == Severity::Error { LeftOut::Entry } else { LeftOut::Nothing },
        fault: CellFault::Table(problem.clone()),
    });
    let problems = problems.collect();
    Imported { json, outcome, problems, questions: Vec::new(), sheets: Vec::new(), layout: String::new() }
}

fn of_book(book: &Book, answers: &Answers, name: &str) -> Imported {
    let sheets = layout::of(book, answers);
    let title = name.rsplit(['/', '\\']).next().unwrap_or(name);
    let title =
        title.rsplit_once('.').map_or(title, |(stem, _)| stem).chars().take(table::read::LONGEST_TEXT).collect();
    let stage = Stage { book, sheets: &sheets, title };
    let mut readings = readings(book, &sheets, answers);
    let mixed = plausible::mixed_up(&stage, &readings, answers);
    for (key, _) in &mixed {
        // What may be in another unit is not known.
        readings.entry(*key).or_default().is_left_out = true;
    }
    let (mut built, mut json, first, places) = stage.read(&readings);
    let mut outcome = first.clone();
    let mut removed = Vec::new();
    for _ in 0..4 {
        let wrong: Vec<_> = outcome
            .problems
            .iter()
            .filter(|problem| problem.severity == Severity::Error)
            .map(|problem| problem.pointer.clone())
            .collect();
        let taken: Vec<_> =
            wrong.into_iter().filter(|pointer| is_within_entry(pointer) && built.root.remove(pointer)).collect();
        if taken.is_empty() {
            break;
        }
        removed.extend(taken);
        json = built.root.to_json().to_string();
        outcome = table::read(&json);
    }
    let mut problems = told(&stage, &built, &first, &outcome, &places, &removed);
    problems.sort_by_key(|problem| problem.place.clone());
    let mut questions = questions(&stage, &built);
    questions.extend(mixed.into_iter().map(|(_, question)| question));
    let is_empty = outcome
        .table
        .as_ref()
        .is_none_or(|table| table.carriers.is_empty() && table.heads.is_empty() && table.parts.is_empty());
    if is_empty && problems.is_empty() && questions.is_empty() {
        problems.push(CellProblem {
            place: None,
            header: None,
            found: String::new(),
            entry: None,
            severity: Severity::Error,
            fault: CellFault::NothingFound,
            left_out: LeftOut::Entry,
        });
    }
    let layout = layout::fingerprint(&sheets);
    Imported { json, outcome, problems, questions, sheets, layout }
}

/// The pointer to the entry in which something is.
fn entry_of(pointer: &str) -> &str {
    &pointer[..pointer.match_indices('/').nth(2).map_or(pointer.len(), |(end, _)| end)]
}

/// Whether a pointer leads to something within an entry or to what the table says of itself, not to an entry.
fn is_within_entry(pointer: &str) -> bool {
    let steps = pointer.matches('/').count();
    let in_list =
        Role::ALL.iter().any(|role| !role.list().is_empty() && pointer.starts_with(&format!("/{}/", role.list())));
    if in_list { steps > 2 } else { steps > 0 && !["/format", "/version", "/carriers", "/heads"].contains(&pointer) }
}

/// How each column is read: by what somebody answered, what the column shows, what the rest of the file shows.
fn readings(book: &Book, sheets: &[SheetTaken], answers: &Answers) -> Readings {
    let (mut readings, mut shown, mut file) = (Readings::new(), HashMap::new(), Evidence::default());
    for (index, sheet) in sheets.iter().enumerate() {
        for column in sheet.columns.iter().filter(|column| column.same_as.is_none()) {
            let Some(target) = &column.target else { continue };
            let key = (index, column.number);
            let answer = answers.column(&sheet.name, column.number);
            let texts = || {
                let rows = book.sheets[index].rows.iter().skip(sheet.first_row);
                rows.filter_map(|row| match row.cells.get(column.number - 1) {
                    Some(Cell::Text(text)) => Some(text.as_str()),
                    _ => None,
                })
            };
            let mut reading = Reading { unit: column.unit, exact: column.exact, ..Reading::default() };
            match target.field.form {
                Form::Figure(..) | Form::Range(..) | Form::Window(..) | Form::Money | Form::Count => {
                    let mut evidence = Evidence::default();
                    texts().for_each(|text| evidence.look(text));
                    (file.point, file.comma) = (file.point | evidence.point, file.comma | evidence.comma);
                    shown.insert(key, evidence);
                }
                Form::Date => {
                    let orders: Vec<_> = texts().filter_map(shows_days).collect();
                    let first = orders.first().copied();
                    reading.days = first.filter(|first| orders.iter().all(|order| order == first));
                }
                _ => {}
            }
            if let Some(answer) = answer {
                reading.days = answer.days.or(reading.days);
                reading.decimal = answer.decimal;
                let cells = book.sheets[index]
                    .rows
                    .iter()
                    .skip(sheet.first_row)
                    .filter_map(|row| row.cells.get(column.number - 1));
                let written = column.unit.or_else(|| plausible::unit_of_cells(&cells.collect::<Vec<_>>()));
                reading.meant = written.zip(answer.meant).filter(|(written, meant)| written != meant);
                if let Some((_, meant)) = reading.meant.filter(|_| column.unit.is_some()) {
                    reading.unit = Some(meant);
                }
            }
            readings.insert(key, reading);
        }
    }
    for (key, evidence) in shown {
        let reading = readings.entry(key).or_default();
        // A column that shows both decides nothing, whatever the rest of the file shows.
        let of_file = || if evidence == Evidence::default() { file.decides() } else { None };
        reading.decimal = reading.decimal.or(evidence.decides()).or_else(of_file);
    }
    readings
}

fn told(
    stage: &Stage,
    built: &Built,
    first: &Outcome,
    last: &Outcome,
    places: &BTreeMap<String, Place>,
    removed: &[String],
) -> Vec<CellProblem> {
    let known: HashSet<&str> = first.problems.iter().map(|problem| problem.pointer.as_str()).collect();
    let late = last.problems.iter().filter(|problem| {
        problem.severity == Severity::Error
            && !known.contains(problem.pointer.as_str())
            && !matches!(problem.fault, Fault::MissingField { .. })
    });
    // An entry in which something is wrong after all that could be left out is set aside.
    let errors = last.problems.iter().filter(|problem| problem.severity == Severity::Error);
    let aside: HashSet<&str> = errors.map(|problem| entry_of(&problem.pointer)).collect();
    let mut told: Vec<CellProblem> = first
        .problems
        .iter()
        .chain(late)
        .map(|problem| {
            let place = place_of(&problem.pointer, places, built);
            let is_removed = removed.contains(&problem.pointer);
            CellProblem {
                header: place.as_ref().and_then(|place| stage.header(place)),
                found: place
                    .as_ref()
                    .filter(|place| place.column.is_some())
                    .map_or_else(String::new, |place| table::read::shortened(&stage.text(place))),
                place,
                entry: problem.entry.clone(),
                severity: problem.severity,
                left_out: match problem.severity {
                    Severity::Warning => LeftOut::Nothing,
                    Severity::Error if is_removed && !aside.contains(entry_of(&problem.pointer)) => LeftOut::Cell,
                    Severity::Error => LeftOut::Entry,
                },
                fault: CellFault::Table(problem.clone()),
            }
        })
        .collect();
    let own = |place: &Place, found: &str, severity, left_out, fault| CellProblem {
        header: stage.header(place),
        place: Some(place.clone()),
        found: table::read::shortened(found),
        entry: None,
        severity,
        left_out,
        fault,
    };
    told.extend(built.conflicts.iter().map(|conflict| {
        let fault = CellFault::Conflict { first: table::read::shortened(&conflict.first) };
        own(&conflict.place, &stage.text(&conflict.place), Severity::Error, LeftOut::Cell, fault)
    }));
    told.extend(
        built
            .homeless
            .iter()
            .map(|(place, name)| own(place, name, Severity::Error, LeftOut::Entry, CellFault::NoSuchEntry)),
    );
    told.extend(
        built
            .skipped
            .iter()
            .map(|(place, text)| own(place, text, Severity::Warning, LeftOut::Entry, CellFault::RowSkipped)),
    );
    told
}

fn questions(stage: &Stage, built: &Built) -> Vec<Question> {
    let mut questions = Vec::new();
    for (index, sheet) in stage.sheets.iter().enumerate() {
        // A sheet of notes has no rows of several cells.
        let looks_like_a_list = stage.book.sheets[index]
            .rows
            .iter()
            .filter(|row| row.cells.iter().filter(|cell| !cell.is_empty()).count() > 2)
            .count()
            > 1;
        if sheet.role.is_none() && looks_like_a_list && sheet.header_row > 0 {
            questions.push(Question::Sheet { sheet: sheet.name.clone() });
            continue;
        }
        for column in &sheet.columns {
            let place = Place { sheet: sheet.name.clone(), row: sheet.header_row, column: Some(column.number) };
            let header = column.header.clone();
            if let Some(near) = &column.near {
                questions.push(Question::Field { place, header, near: near.clone() });
            } else if let (Some(used), Some(field)) = (column.same_as, &column.field) {
                questions.push(Question::SameField { place, header, used, field: field.clone() });
            }
        }
    }
    for ((index, number), (open, place, found)) in &built.open {
        let column = stage.sheets[*index].columns.iter().find(|column| column.number == *number);
        let Some(column) = column else { continue };
        let (place, header, found) = (place.clone(), column.header.clone(), found.clone());
        questions.push(match open {
            Open::Unit => {
                Question::Unit { place, header, found, units: plausible::likely_units(stage, (*index, *number)) }
            }
            Open::Marks => Question::Marks { place, header, found },
            Open::Days => Question::Days { place, header, found },
        });
    }
    questions
}
