//! Reading a table from JSON: all problems at once, and every sound entry in spite of the others.
//!
//! Nothing is derived: serde's derived readers stop at the first problem. `object` takes an object apart into its
//! members with their places in the text, the readers of the entries ask it for one field after another, and what is
//! wrong is noted in the `context`. A reader asks for every field before it gives up an entry, so that all problems
//! come at once and no field is called unknown.

mod brackets;
mod context;
pub(crate) mod contradictions;
mod entry;
mod nearest;
mod node;
mod object;
mod value;

use super::rule;
use super::{Assumption, Carrier, FORMAT, Fault, Problem, Severity, Table, VERSION};
pub(crate) use context::{Around, Context};
pub use context::{is_unseen, shortened};
pub(crate) use entry::entry;
pub use nearest::nearest;
pub(crate) use node::Node;
pub(crate) use object::{Object, read_whole};
use std::cell::RefCell;
use std::collections::HashSet;
use value::Seen;
pub(crate) use value::{Entry, Field, Value, must_be_there};
pub use value::{LONGEST_PICTURE, is_picture, is_picture_up_to};

/// The largest text that is read, in bytes.
pub const LARGEST: usize = 16 * 1024 * 1024;

/// The longest name, note or address, in characters.
pub const LONGEST_TEXT: usize = object::TEXT_LENGTH;

/// What reading gives: the table with every sound entry, and all problems.
#[derive(Clone, Debug)]
pub struct Outcome {
    /// The table; absent when nothing of it can be used.
    pub table: Option<Table>,
    /// The problems in the order of the text, at most the first ten thousand that were met.
    pub problems: Vec<Problem>,
    /// How many more there are.
    pub unlisted: usize,
    /// The entries that were left out because of an error, by their names or else their pointers.
    pub set_aside: Vec<String>,
}

/// Reads a table.
///
/// A wrong entry is set aside and named; the rest is used. Nothing is used of a text that is too large, no JSON, no spec
/// table, or of a newer version of the format.
pub fn read(text: &str) -> Outcome {
    if text.len() > LARGEST {
        return Outcome { table: None, problems: vec![too_large(text)], unlisted: 0, set_aside: Vec::new() };
    }
    let context = Context::new(without_mark(text));
    let table = Node::root(&context).and_then(of_any_version);
    let (table, set_aside) = table.map_or_else(|| (None, Vec::new()), |(table, set_aside)| (Some(table), set_aside));
    let (problems, unlisted) = context.into_problems();
    Outcome { table, problems, unlisted, set_aside }
}

/// What reading one machine by itself gives.
#[derive(Clone, Debug)]
pub struct Alone {
    /// The machine; absent when anything of it is wrong.
    pub carrier: Option<Carrier>,
    /// The problems in the order of the text, pointers beginning at the machine.
    pub problems: Vec<Problem>,
    /// How many more there are.
    pub unlisted: usize,
}

/// Reads a machine that stands in no table: one object as in the list `carriers`, with the same rules.
///
/// ```
/// let read = table::read_carrier(r#"{"id": "x1", "model": "X 1", "class": "skid-steer", "engine": {"power": "55"}}"#);
/// assert!(read.carrier.is_none());
/// assert_eq!(read.problems[0].place(), "error /engine/power 1:73");
/// ```
pub fn read_carrier(text: &str) -> Alone {
    if text.len() > LARGEST {
        return Alone { carrier: None, problems: vec![too_large(text)], unlisted: 0 };
    }
    let context = Context::new(without_mark(text));
    let carrier = Node::root(&context).and_then(|node| read_whole(node, Carrier::of_object));
    let carrier = carrier.filter(|_| context.noted().0 == 0);
    let (problems, unlisted) = context.into_problems();
    Alone { carrier, problems, unlisted }
}

/// The text without a byte order mark, which some editors put in front.
fn without_mark(text: &str) -> &str {
    text.strip_prefix('\u{feff}').unwrap_or(text)
}

fn too_large(text: &str) -> Problem {
    Problem {
        severity: Severity::Error,
        pointer: String::new(),
        line: 1,
        column: 1,
        found: String::new(),
        entry: None,
        left_open: None,
        fault: Fault::TooLarge { bytes: text.len(), most: LARGEST },
    }
}

/// Finds out whether this is a table and of which version. A later version reads the older ones here, by its own reader
/// for each, and migrates them.
fn of_any_version(root: Node) -> Option<(Table, Vec<String>)> {
    let object = root.object()?;
    let format = object.get("format");
    let is_table = format.and_then(|node| node.text()).is_some_and(|text| text == FORMAT);
    if !is_table {
        format.unwrap_or(root).error(Fault::NotATable);
        return None;
    }
    object.required("version")?;
    let version = object.get("version")?.count(rule::VERSION)?;
    if version != u64::from(VERSION) {
        object.get("version")?.error(Fault::NewerVersion { found: version });
        return None;
    }
    let table = version_1(&object);
    object.warn_of_unknown_fields();
    Some(table)
}

fn version_1(object: &Object) -> (Table, Vec<String>) {
    // Editors find the schema by this one.
    object.get("$schema");
    object.required("carriers");
    object.required("heads");
    let aside = RefCell::default();
    let table = Table {
        format: FORMAT,
        version: VERSION,
        title: Value::read(object, &Field::plain("title")).unwrap_or_default(),
        publisher: object.plain("publisher"),
        licence: object.plain("licence"),
        date: object.plain("date"),
        invented: object.plain("invented"),
        currency: object.plain("currency"),
        labour_rate: object.plain("labour_rate"),
        dealer: object.plain("dealer"),
        carriers: entries(object, "carriers", &aside),
        heads: entries(object, "heads", &aside),
        parts: entries(object, "parts", &aside),
        assumptions: assumptions(object),
    };
    (table, aside.into_inner())
}

/// The entries of a list: those with an error are left out, and so is the second of two with one id.
fn entries<T: Value>(object: &Object, field: &'static str, aside: &RefCell<Vec<String>>) -> Vec<T> {
    let (mut sound, mut seen) = (Vec::new(), Seen::default());
    let Some(list) = object.get(field) else { return sound };
    list.each(&mut |node| {
        let before = node.context.noted();
        let value = T::of(node, &Field::plain(field));
        let value = value.filter(|value| seen.is_first(value, node));
        if node.context.noted().0 == before.0 {
            sound.extend(value);
        }
        name_entry(node, before, aside);
    });
    sound
}

/// Remembers the name of an entry in which there are more errors and problems than before it.
fn name_entry(node: Node, (errors, problems): (usize, usize), aside: &RefCell<Vec<String>>) {
    let (errors_now, problems_now) = node.context.noted();
    // Beyond what is listed nobody reads the names either.
    if problems_now > problems && !node.context.is_full() {
        let (pointer, name) = (node.pointer(), node.name());
        if errors_now > errors {
            aside.borrow_mut().push(name.clone().unwrap_or_else(|| pointer.clone()));
        }
        if let Some(name) = name {
            node.context.names(pointer, name);
        }
    }
}

/// The ranges that the table's publisher knows better; one with an error is left out, and so is a second range for the
/// same figure, class and motor.
fn assumptions(object: &Object) -> Vec<Assumption> {
    let (mut sound, mut seen) = (Vec::new(), HashSet::new());
    let Some(list) = object.get("assumptions") else { return sound };
    list.each(&mut |node| {
        let (errors, _) = node.context.noted();
        let found = Assumption::of(node, &Field::plain("assumptions"));
        let Some(found) = found.filter(|_| node.context.noted().0 == errors) else { return };
        if seen.insert((found.id, found.class, found.motor)) {
            sound.push(found);
        } else {
            node.error(Fault::DuplicateId);
        }
    });
    sound
}
