//! What a field is, as data: for the docs, the schema, and for spreadsheets, whose columns are fields.

use crate::rule::Rule;
use quantity::{Dimension, Unit};

/// The fields of an object of the format.
pub type Rows = fn() -> Vec<Row>;

/// What a value is.
#[derive(Clone, Copy, Debug)]
pub enum Form {
    /// A text on one line.
    Text,
    /// A web address.
    Link,
    /// A picture within the file.
    Picture,
    /// The id of the entry itself.
    Id,
    /// The id of something else of the same machine.
    Reference,
    /// A day, `2026-11-25`.
    Date,
    /// Money, `1240.50`.
    Money,
    /// The code of a currency.
    Currency,
    /// A cleanliness of ISO 4406, `20/18/15`.
    Cleanliness,
    /// Yes or no.
    YesNo,
    /// A whole number.
    Count,
    /// One of these names.
    Name(&'static [&'static str]),
    /// A figure, and the unit in which such figures are usually written.
    Figure(Dimension, Unit),
    /// Two figures, least to greatest.
    Range(Dimension, Unit),
    /// An object of least, rated and greatest figure.
    Window(Dimension, Unit),
    /// An object with these fields.
    Object(Rows),
}

impl Form {
    /// The unit in which figures under a rule are usually written.
    pub(crate) fn usual_unit(dimension: Dimension, rule: Rule) -> Unit {
        match rule {
            Rule::Within(bounds) => bounds.unit,
            _ => Unit::shown(dimension, quantity::UnitSystem::Metric),
        }
    }
}

/// What a field holds, in words, and the object of the format that it holds, if any.
pub struct Kind {
    /// What it is, or each of it is where it is a list.
    pub form: Form,
    /// Whether it is a list.
    pub is_list: bool,
    /// Whether it is one thing to leave it out and another to state it empty.
    pub is_optional: bool,
    /// The words.
    pub words: String,
    /// The name of the object, and its fields.
    pub object: Option<(&'static str, Rows)>,
}

impl Kind {
    /// An object of the format, under whose name there is a section.
    pub fn object(name: &'static str, rows: Rows) -> Self {
        let words = spaced(name);
        Self {
            words: format!("[{words}](#{})", words.replace(' ', "-")),
            form: Form::Object(rows),
            is_list: false,
            is_optional: false,
            object: Some((name, rows)),
        }
    }

    /// A list of them.
    #[must_use]
    pub fn listed(self) -> Self {
        Self { words: format!("list of {}", self.words), is_list: true, ..self }
    }

    /// A value of this form, in words.
    pub fn new(form: Form, words: impl Into<String>) -> Self {
        Self { words: words.into(), form, is_list: false, is_optional: false, object: None }
    }
}

/// `FlowDivider` as `flow divider`.
fn spaced(name: &str) -> String {
    let word = |c: char| if c.is_uppercase() { format!(" {}", c.to_lowercase()) } else { c.to_string() };
    name.chars().map(word).collect::<String>().trim_start().to_owned()
}

/// A field of an object.
pub struct Row {
    /// Its name.
    pub name: &'static str,
    /// Whether it may not be left out.
    pub must_be_there: bool,
    /// What it is.
    pub what: &'static str,
    /// Where a person finds it.
    pub found: &'static str,
    /// What it holds.
    pub kind: Kind,
}

impl Row {
    /// A field that may be left out, of an object that is not declared by `entry!`.
    pub(crate) fn plain(name: &'static str, what: &'static str, form: Form) -> Self {
        Self { name, must_be_there: false, what, found: "", kind: Kind::new(form, "") }
    }
}

/// The fields of a mounting, which is read by hand: a standard, or pins.
fn of_mounting() -> Vec<Row> {
    use quantity::Named;
    let length = Form::Figure(Dimension::Length, Unit::Millimetre);
    vec![
        Row::plain(
            "standard",
            "The pattern, of a mounting by an open standard.",
            Form::Name(crate::MountingStandard::NAMES),
        ),
        Row::plain("pin", "Pin diameter, of a mounting by pins.", length),
        Row::plain("width", "Width of the stick, or of the gap between the ears.", length),
        Row::plain("centres", "Distance of the pin centres.", length),
    ]
}

/// The fields of a mounting of a machine, which may have two ends.
fn of_mounting_at_an_end() -> Vec<Row> {
    use quantity::Named;
    let end = Row::plain("end", "The end of the machine at which it is.", Form::Name(crate::MachineEnd::NAMES));
    of_mounting().into_iter().chain([end]).collect()
}

/// A mounting under a rule.
pub(crate) fn mounting(rule: Rule) -> Kind {
    let rows = if rule == Rule::AtAnEnd { of_mounting_at_an_end } else { of_mounting };
    Kind::new(Form::Object(rows), "[mounting](#mounting)")
}
