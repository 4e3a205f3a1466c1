//! A record of a hand-over within a link. The codes stay what they are, whatever something is called some day: links that were
//! sent hold them.

use super::text;
use crate::handover::{Entry, InstrumentKind, Written};
use handover::{FunctionCheck, Measurement};
use quantity::Named;
use std::collections::BTreeMap;
use table::is_unseen;

/// A record of a hand-over in a link.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LinkRecord {
    /// When it was begun, ISO 8601.
    pub created: String,
    /// What stands on it.
    pub written: Written,
}

/// What stands between the fields of a part.
pub const BETWEEN: char = '~';

/// The longest mark, class or time, in characters.
pub const LONGEST_WORD: usize = 64;

/// What begins the part.
const BEGINS: char = 'r';
/// The code before what this build knows by its name only; the letter of its kind follows.
const BY_NAME: char = 'z';

/// Which of a record's lists something stands in: the letter of its codes.
const KINDS: [char; 5] = ['e', 'i', 'r', 'f', 'b'];

fn list(written: &Written, kind: char) -> &BTreeMap<String, String> {
    match kind {
        'e' => &written.entries,
        'i' => &written.instruments,
        'r' => &written.readings,
        'b' => &written.beyond,
        _ => &written.functions,
    }
}

fn list_mut(written: &mut Written, kind: char) -> &mut BTreeMap<String, String> {
    match kind {
        'e' => &mut written.entries,
        'i' => &mut written.instruments,
        'r' => &mut written.readings,
        'b' => &mut written.beyond,
        _ => &mut written.functions,
    }
}

/// The letter behind that of its kind.
fn letter(kind: char, name: &str) -> Option<char> {
    codes(kind).into_iter().find(|(_, known)| *known == name).map(|(letter, _)| letter)
}

/// The names of a kind with their letters.
fn codes(kind: char) -> Vec<(char, &'static str)> {
    match kind {
        'e' => Entry::ALL.iter().map(|entry| (of_entry(*entry), entry.name())).collect(),
        'i' => InstrumentKind::ALL.iter().map(|kind| (of_instrument(*kind), kind.name())).collect(),
        'r' => Measurement::ALL.iter().map(|what| (of_measurement(*what), what.name())).collect(),
        'b' => {
            // Readings and trials in one list: the trials' letters are capitals.
            let tried = codes('f').into_iter().map(|(letter, name)| (letter.to_ascii_uppercase(), name));
            codes('r').into_iter().chain(tried).collect()
        }
        _ => FunctionCheck::ALL.iter().map(|check| (of_function(*check), check.name())).collect(),
    }
}

fn of_entry(entry: Entry) -> char {
    match entry {
        Entry::Serial => 's',
        Entry::Hours => 'h',
        Entry::Day => 'd',
        Entry::By => 'b',
        Entry::To => 't',
        Entry::Note => 'n',
    }
}

fn of_instrument(kind: InstrumentKind) -> char {
    match kind {
        InstrumentKind::Pressure => 'p',
        InstrumentKind::Flow => 'f',
        InstrumentKind::Speed => 's',
    }
}

fn of_measurement(what: Measurement) -> char {
    match what {
        Measurement::OilStart => 'a',
        Measurement::Air => 'b',
        Measurement::EngineFree => 'c',
        Measurement::EngineWorking => 'd',
        Measurement::FlowFree => 'e',
        Measurement::FlowWorking => 'f',
        Measurement::FlowNearRelief => 'g',
        Measurement::FlowBusy => 'h',
        Measurement::Relief => 'i',
        Measurement::PumpFree => 'j',
        Measurement::PumpWorking => 'k',
        Measurement::InletFree => 'l',
        Measurement::InletWorking => 'm',
        Measurement::OutletFree => 'n',
        Measurement::OutletWorking => 'o',
        Measurement::CaseFree => 'p',
        Measurement::CaseWorking => 'q',
        Measurement::CaseFlow => 'r',
        Measurement::RotorFree => 's',
        Measurement::RotorWorking => 't',
        Measurement::MotorWorking => 'u',
        Measurement::OilAfter => 'v',
    }
}

fn of_function(check: FunctionCheck) -> char {
    match check {
        FunctionCheck::Locked => 'a',
        FunctionCheck::Guards => 'b',
        FunctionCheck::HosesFree => 'c',
        FunctionCheck::NoLeaks => 'd',
        FunctionCheck::Direction => 'e',
        FunctionCheck::Stops => 'f',
        FunctionCheck::StaysOff => 'g',
        FunctionCheck::RunsDown => 'h',
        FunctionCheck::Door => 'i',
        FunctionCheck::Functions => 'j',
        FunctionCheck::SwitchedBack => 'k',
        FunctionCheck::Instructed => 'l',
    }
}

impl LinkRecord {
    /// What of it can be sent: nothing empty, nothing that misleads the eye, and a moment that is one.
    pub(super) fn bounded(&self) -> Self {
        let mut bounded = Self { created: text::clean(&self.created, LONGEST_WORD), written: self.written.clone() };
        for kind in KINDS {
            for text in list_mut(&mut bounded.written, kind).values_mut() {
                text.retain(|c| c == '\n' || !is_unseen(c));
            }
            list_mut(&mut bounded.written, kind).retain(|name, text| !name.is_empty() && !text.trim().is_empty());
        }
        bounded
    }
}

/// The part of a link.
pub(super) fn written(record: &LinkRecord) -> String {
    let mut fields = vec![text::written(&record.created)];
    for kind in KINDS {
        for (name, typed) in list(&record.written, kind) {
            fields.push(match letter(kind, name) {
                Some(letter) => format!("{kind}{letter}{}", text::written(typed)),
                None => format!("{BY_NAME}{kind}{}{BETWEEN}{}", text::written(name), text::written(typed)),
            });
        }
    }
    format!("{BEGINS}{}", fields.join("~"))
}

/// Reads what [`written`] wrote; none when it did not.
pub(super) fn read(part: &str) -> Option<LinkRecord> {
    let mut fields = part.strip_prefix(BEGINS)?.split(BETWEEN);
    let mut record = LinkRecord { created: text::read(fields.next()?)?, written: Written::default() };
    while let Some(field) = fields.next() {
        let mut letters = field.chars();
        let (first, second) = (letters.next()?, letters.next()?);
        let (kind, name, typed) = if first == BY_NAME {
            (second, text::read(letters.as_str())?, fields.next()?)
        } else {
            let name = codes(first).into_iter().find(|(letter, _)| *letter == second)?.1;
            (first, name.to_owned(), letters.as_str())
        };
        if !KINDS.contains(&kind) || list_mut(&mut record.written, kind).insert(name, text::read(typed)?).is_some() {
            return None;
        }
    }
    Some(record)
}
