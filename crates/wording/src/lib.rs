//! Words: typed reasons, numbers and units made into English sentences.
//!
//! The only crate with sentences in it. A reader's way of writing numbers comes in through [`Numbers`], so that the browser
//! can use its own locale. On screen a carrier is a *machine* and a head an *attachment*.

// Every word is asked of a reader, even where English needs nothing of him.
#![allow(clippy::unused_self)]

mod amounts;
mod cautions;
mod changes;
mod checks;
mod deciding_fact;
mod desk;
mod drawing;
mod drawing_text;
mod enquiry;
mod entry;
mod facts;
mod file_reading;
mod fill_next;
mod find_out;
mod handover;
mod installation;
mod link;
mod lists;
mod machine_list;
mod names;
mod parts;
mod plate;
mod problems;
mod reasoning;
mod reasons;
mod record;
mod remarks;
mod search;
mod sentence;
mod sheet;
mod sheets;
mod sign;
mod snippet;
mod spreadsheet;
mod table;
#[cfg(test)]
#[path = "../../fit/tests/pairing/yard.rs"]
mod yard;

pub use self::handover::{ENTRIES, READ, Row, TRIED};
pub use deciding_fact::SettlingText;
pub use desk::{Answer, Desk, Found, Refusal, Refused, Unknown, look_up, look_up_machine};
pub use enquiry::{Enquiry, LONGEST_MAILTO, is_mail_address};
pub use facts::MissingText;
pub use file_reading::{
    AnsweredText, CellProblemText, ChoiceText, ColumnText, FieldText, FileReading, QuestionText, SheetText, UnitText,
};
pub use fill_next::{FillNextText, NextText};
pub use lists::Filter;
pub use machine_list::{ClassFound, MachineList, MachineRow, MachinesAsked};
pub use parts::Part;
pub use problems::ProblemText;
pub use reasoning::{FormulaText, InputText, ReasoningText};
pub use search::Search;
pub use sheet::{CardText, HazardText, InTheWay, Proof, ProofText, Standing};
pub use sheets::{COLUMNS as PARTS_COLUMNS, ComparisonText, Line, PartRow, Section, ValueRow};
pub use sign::SafetySign;
pub use snippet::snippet;

use quantity::UnitSystem;

/// How a reader writes numbers.
pub trait Numbers {
    /// A number with exactly this many decimals.
    fn decimal(&self, value: f64, decimals: usize) -> String;

    /// A sum of money: its thousands stand apart from 1000 on, where other figures keep four digits together.
    fn money(&self, value: f64, decimals: usize) -> String;

    /// A day, given as year, month and day; as it was typed where it is none.
    fn day(&self, iso: &str) -> String {
        iso.to_owned()
    }
}

/// Numbers in plain notation: a point, a thin space between thousands from 10 000 on (of money from 1 000 on), a true minus sign.
#[derive(Clone, Copy, Debug, Default)]
pub struct PlainNumbers;

impl Numbers for PlainNumbers {
    fn decimal(&self, value: f64, decimals: usize) -> String {
        grouped_from(5, value, decimals)
    }

    fn money(&self, value: f64, decimals: usize) -> String {
        grouped_from(4, value, decimals)
    }
}

/// A number whose thousands stand apart where its whole part has this many digits or more.
fn grouped_from(digits: usize, value: f64, decimals: usize) -> String {
    let text = format!("{:.decimals$}", value.abs());
    let (whole, rest) = text.split_at(text.find('.').unwrap_or(text.len()));
    let mut grouped = String::new();
    for (index, digit) in whole.chars().enumerate() {
        if whole.len() >= digits && index > 0 && (whole.len() - index).is_multiple_of(3) {
            grouped.push('\u{202f}');
        }
        grouped.push(digit);
    }
    let zero = text.chars().all(|c| c == '0' || c == '.');
    format!("{}{grouped}{rest}", if value < 0.0 && !zero { "−" } else { "" })
}

/// A reader: how numbers are written and in which units.
#[derive(Clone, Copy)]
pub struct Words<'a> {
    /// How numbers are written.
    pub numbers: &'a dyn Numbers,
    /// In which units.
    pub units: UnitSystem,
}

/// The right form of a counted word.
fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// The text with a small first letter, for the middle of a sentence.
pub fn small(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// A sentence with its first letter made large.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
