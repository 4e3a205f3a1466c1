//! The text being read, and the problems found so far.

use super::brackets::left_open;
use crate::bounds::{self, Bounds};
use crate::rule::{List, Rule};
use crate::{CarrierClass, Fault, HeadKind, Id, Problem, Severity};
use quantity::put_in_order_by;
use std::cell::{Cell, RefCell};
use std::collections::{HashMap, HashSet};

/// The most problems that are listed; more are only counted.
pub const MOST_LISTED: usize = 10_000;

/// The longest piece of text, and of one step of a pointer, that a problem shows, in characters.
pub const SHOWN: usize = 60;

/// The text being read and the problems found so far.
pub struct Context<'a> {
    /// The text, without a byte order mark.
    pub text: &'a str,
    listed: RefCell<Vec<(usize, Problem)>>,
    unlisted: Cell<usize>,
    noted: Cell<usize>,
    /// Every field that some reader asked for, wherever.
    fields: RefCell<HashSet<&'static str>>,
    /// The names of the entries that have problems, by pointer.
    entries: RefCell<HashMap<String, String>>,
    errors: Cell<usize>,
    /// What is known so far of the entry that is being read.
    pub around: RefCell<Around>,
}

/// What the parts of a machine or an attachment are read by.
#[derive(Default)]
pub struct Around {
    /// The machine's class.
    pub class: Option<CarrierClass>,
    /// What the attachment does.
    pub kind: Option<HeadKind>,
    /// The engine's working speed, rad/s.
    pub engine_speed: Option<f64>,
    /// The engine's power, W.
    pub engine_power: Option<f64>,
    /// The machine's power groups.
    pub power_groups: Ids,
    /// Its pumps so far, each with its greatest flow, m³/s, where stated.
    pub pumps: Ids,
}

/// Ids in a list of a machine, with a figure of each.
pub type Ids = HashMap<Id, Option<f64>>;

impl Around {
    /// The ids in a list.
    pub fn list(&self, list: List) -> &Ids {
        match list {
            List::Pumps => &self.pumps,
            List::PowerGroups => &self.power_groups,
        }
    }
}

impl<'a> Context<'a> {
    /// A fresh context for a text.
    pub fn new(text: &'a str) -> Self {
        Self {
            text,
            listed: RefCell::default(),
            unlisted: Cell::new(0),
            noted: Cell::new(0),
            fields: RefCell::default(),
            entries: RefCell::default(),
            errors: Cell::new(0),
            around: RefCell::default(),
        }
    }

    /// The bounds that a rule sets in the entry that is being read.
    pub fn bounds(&self, rule: Rule) -> Bounds {
        match rule {
            Rule::Within(bounds) => *bounds,
            Rule::OfKind => bounds::of_kind(self.around.borrow().kind),
            _ => bounds::of_class(self.around.borrow().class),
        }
    }

    /// Remembers fields that the format knows somewhere.
    pub fn knows(&self, fields: &[&'static str]) {
        self.fields.borrow_mut().extend(fields);
    }

    /// How many errors have been noted, and how many problems in all.
    pub fn noted(&self) -> (usize, usize) {
        (self.errors.get(), self.noted.get())
    }

    /// Remembers the name of an entry that has problems.
    pub fn names(&self, pointer: String, name: String) {
        self.entries.borrow_mut().insert(pointer, name);
    }

    /// Whether further problems are only counted: then nobody needs to look for the nearest name.
    pub fn is_full(&self) -> bool {
        self.listed.borrow().len() >= MOST_LISTED
    }

    /// Where in the text a piece of it begins.
    pub fn offset(&self, piece: &str) -> usize {
        (piece.as_ptr() as usize).saturating_sub(self.text.as_ptr() as usize)
    }

    /// Notes a problem at a place in the text; line and column are counted at the end, for all of them at once.
    pub fn note(&self, severity: Severity, at: usize, pointer: impl FnOnce() -> String, found: &str, fault: Fault) {
        if severity == Severity::Error {
            self.errors.set(self.errors.get() + 1);
        }
        self.noted.set(self.noted.get() + 1);
        if self.is_full() {
            self.unlisted.set(self.unlisted.get() + 1);
            return;
        }
        let problem = Problem {
            severity,
            pointer: pointer(),
            line: 0,
            column: 0,
            found: shortened(found),
            entry: None,
            left_open: None,
            fault,
        };
        self.listed.borrow_mut().push((at, problem));
    }

    /// Notes that a piece of the text is no JSON.
    pub fn note_syntax(&self, piece: &str, pointer: impl FnOnce() -> String, error: &serde_json::Error) {
        let in_piece = offset_of(piece, error.line(), error.column());
        let found = piece[in_piece..].lines().next().unwrap_or("");
        let fault = Fault::NotJson(plain_words(error));
        let at = self.offset(piece) + in_piece;
        self.note(Severity::Error, at, pointer, found, fault);
        if let Some((_, problem)) = self.listed.borrow_mut().last_mut() {
            problem.left_open = left_open(self.text);
        }
    }

    /// The problems in the order of the text, and how many more there are.
    pub fn into_problems(self) -> (Vec<Problem>, usize) {
        let mut listed = self.listed.into_inner();
        let (entries, fields) = (self.entries.into_inner(), self.fields.into_inner());
        put_in_order_by(&mut listed, |(at, _)| *at);
        let (mut passed, mut line, mut column) = (0, 1, 1);
        for (at, problem) in &mut listed {
            let between = self.text.get(passed..*at).unwrap_or("");
            if let Some(end) = between.rfind('\n') {
                line += between.bytes().filter(|byte| *byte == b'\n').count();
                column = 1 + between[end + 1..].chars().count();
            } else {
                column += between.chars().count();
            }
            passed = *at;
            (problem.line, problem.column) = (line, column);
            let entry = problem.pointer.match_indices('/').nth(2).map_or(problem.pointer.len(), |(end, _)| end);
            problem.entry = entries.get(&problem.pointer[..entry]).cloned();
            let key = problem.pointer.rsplit('/').next().unwrap_or("");
            if problem.fault == (Fault::UnknownField { near: None }) && fields.contains(key) {
                problem.fault = Fault::MisplacedField;
            }
        }
        (listed.into_iter().map(|(_, problem)| problem).collect(), self.unlisted.get())
    }
}

/// The place that the parser names by line and by column in bytes, on the boundary of a character.
fn offset_of(text: &str, line: usize, column: usize) -> usize {
    let begin = match line.saturating_sub(2) {
        _ if line < 2 => 0,
        skipped => text.match_indices('\n').nth(skipped).map_or(0, |(at, _)| at + 1),
    };
    let mut at = (begin + column.saturating_sub(1)).min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// The parser's words without the place, which the problem carries itself.
fn plain_words(error: &serde_json::Error) -> String {
    let words = error.to_string();
    words.split(" at line ").next().unwrap_or(&words).to_owned()
}

/// Whether a character shows nothing, breaks the line, or turns the direction of what stands around it.
pub fn is_unseen(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{2028}' | '\u{2029}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}')
}

/// Text for showing: on one line, without characters that mislead the eye, cut to a readable length.
pub fn shortened(text: &str) -> String {
    let mut shown: Vec<char> = text.chars().map(|c| if is_unseen(c) { ' ' } else { c }).take(SHOWN + 1).collect();
    if shown.len() > SHOWN {
        shown.truncate(SHOWN - 1);
        shown.push('…');
    }
    shown.into_iter().collect()
}
