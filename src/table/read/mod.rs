//! Reading a table from JSON: all problems at once, and every sound entry in spite of the others.

mod carrier;
mod head;
mod json;
mod part;

use super::{Currency, Date, FORMAT, Fault, Id, Money, Problem, Severity, Table, VERSION};
use json::{Context, Node, Object};
use std::collections::HashSet;

/// The largest text that is read, in bytes.
pub const LARGEST: usize = 16 * 1024 * 1024;

/// What reading gives: the table with every sound entry, and all problems.
#[derive(Clone, Debug)]
pub struct Outcome {
    /// The table; absent when nothing of it can be used.
    pub table: Option<Table>,
    /// All problems, in the order of the text.
    pub problems: Vec<Problem>,
}

impl Outcome {
    fn refused(pointer: &str, (line, column): (usize, usize), found: String, fault: Fault) -> Self {
        let problem =
            Problem { severity: Severity::Error, pointer: pointer.to_owned(), line, column, found, fault };
        Self { table: None, problems: vec![problem] }
    }
}

/// Reads a table.
///
/// A wrong entry is set aside and named; the rest is used. Nothing is used of a text that is too large, no JSON, no spec
/// table, or of a newer version of the format.
pub fn read(text: &str) -> Outcome {
    if text.len() > LARGEST {
        let fault = Fault::TooLarge { bytes: text.len(), most: LARGEST };
        return Outcome::refused("", (1, 1), String::new(), fault);
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let context = Context::new(text);
    let root = match Node::root(&context) {
        Ok(root) => root,
        Err(error) => {
            let place = (error.line().max(1), error.column().max(1));
            let line = text.lines().nth(place.0 - 1).unwrap_or("").trim();
            let found = line.chars().take(60).filter(|c| !c.is_control()).collect();
            return Outcome::refused("", place, found, Fault::NotJson(plain_words(&error)));
        }
    };
    let table = root.object(&context).and_then(|object| {
        let table = whole(&object);
        if table.is_some() {
            object.finish();
        }
        table
    });
    Outcome { table, problems: context.into_problems() }
}

/// The parser's words without the place, which the problem carries itself.
fn plain_words(error: &serde_json::Error) -> String {
    let words = error.to_string();
    words.split(" at line ").next().unwrap_or(&words).to_owned()
}

fn whole(object: &Object) -> Option<Table> {
    let is_table = object.get("format").and_then(|node| node.text(object.context)).is_some_and(|text| text == FORMAT);
    if !is_table {
        object.node.error(object.context, Fault::NotATable);
        return None;
    }
    let version: u32 = object.required("version").and(object.count("version"))?;
    if version != VERSION {
        if let Some(node) = object.get("version") {
            if version > VERSION {
                node.error(object.context, Fault::NewerVersion { found: u64::from(version) });
            } else {
                node.wrong(object.context, "a version from 1 on");
            }
        }
        return None;
    }
    let title = object.required_text("title").unwrap_or_default();
    let (publisher, licence) = (object.text("publisher"), object.text("licence"));
    let date = object.parsed("date", Date::new, Fault::NotADate);
    let currency = object.parsed("currency", Currency::new, Fault::NotACurrency);
    let labour_rate = object.parsed("labour_rate", Money::new, Fault::NotMoney);
    object.required("carriers");
    object.required("heads");
    Some(Table {
        format: FORMAT,
        version,
        title,
        publisher,
        licence,
        date,
        currency,
        labour_rate,
        carriers: entries(object, "carriers", carrier::carrier, |carrier| &carrier.id),
        heads: entries(object, "heads", head::head, |head| &head.id),
        parts: entries(object, "parts", part::part, |part| &part.id),
        assumptions: object.each("assumptions", part::assumption),
    })
}

/// The entries of a list: those with an error are left out, and so is the second of two with one id.
fn entries<'a, T>(
    object: &Object<'_, 'a>,
    field: &'static str,
    read: impl Fn(&Object<'_, 'a>) -> Option<T>,
    id: impl Fn(&T) -> &Id,
) -> Vec<T> {
    let mut seen = HashSet::new();
    let mut sound = Vec::new();
    for node in object.list(field) {
        let errors = object.context.errors();
        let Some(entry) = node.object(object.context) else { continue };
        let value = read(&entry);
        entry.finish();
        let Some(value) = value else { continue };
        if !seen.insert(id(&value).clone()) {
            let place = entry.get("id").unwrap_or(&entry.node);
            place.error(object.context, Fault::DuplicateId);
        }
        if object.context.errors() == errors {
            sound.push(value);
        }
    }
    sound
}
