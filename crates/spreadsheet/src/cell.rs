//! What a cell says of a field, as the value that the table's JSON has there.

use crate::fields::Target;
use crate::header::unit;
use crate::marks::{self, Mark};
use crate::words::{NAMES, folded};
use crate::{Cell, plain_number};
use quantity::{Dimension, Named, Unit, UnitSystem};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use table::row::Form;

/// Which of two numbers of a day is the month.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DayOrder {
    /// `25.11.2026`
    DayFirst,
    /// `11/25/2026`
    MonthFirst,
}

/// How the cells of a column are read.
#[derive(Clone, Copy, Debug, Default)]
pub struct Reading {
    /// The unit of figures without one.
    pub unit: Option<Unit>,
    /// The unit that is meant where another is written.
    pub meant: Option<(Unit, Unit)>,
    /// The mark before decimals.
    pub decimal: Option<Mark>,
    /// Whether the format itself names the column: a point is decimal there unless the file shows otherwise.
    pub exact: bool,
    /// Which number of a day is the month.
    pub days: Option<DayOrder>,
    /// Whether nothing of the column is used until somebody answers.
    pub is_left_out: bool,
}

/// What keeps a cell from being read until somebody answers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Open {
    /// The unit.
    Unit,
    /// The mark before decimals.
    Marks,
    /// The order of day and month.
    Days,
}

/// What people write where they know nothing.
pub fn says_nothing(text: &str) -> bool {
    let text = text.trim().to_lowercase();
    let words = [
        "",
        "-",
        "–",
        "—",
        "--",
        "---",
        "?",
        "??",
        "n/a",
        "n.a.",
        "na",
        "#n/a",
        "tbd",
        "tba",
        "tbc",
        "unknown",
        "not known",
        "not stated",
        "n/k",
    ];
    words.contains(&text.as_str())
}

/// The value of a cell; `Ok(None)` where it says nothing.
pub fn value(cell: &Cell, target: &Target, reading: Reading) -> Result<Option<Value>, Open> {
    let text = match cell {
        _ if reading.is_left_out => return Ok(None),
        Cell::Empty => return Ok(None),
        // What a formula could not work out is told as it stands.
        Cell::Error(text) => return Ok((!says_nothing(text)).then(|| json!(text))),
        cell => cell.text(),
    };
    let text = text.trim();
    // A text in quotes is what stands in them.
    if let Some(quoted) = quoted(text) {
        return Ok(Some(quoted));
    }
    if says_nothing(text) {
        return Ok(None);
    }
    // A number of a workbook has a point and nothing else.
    let decimal = if let Cell::Number(_) = cell { Some(Mark::Point) } else { reading.decimal };
    let reading = Reading { decimal, ..reading };
    if target.is_whole_list() { list(text, target, reading) } else { one(text, target.field.form, reading) }
}

/// A JSON text that stands in a cell in its quotes.
fn quoted(text: &str) -> Option<Value> {
    let is_quoted = text.len() > 1 && text.starts_with('"') && text.ends_with('"');
    is_quoted.then(|| serde_json::from_str::<Value>(text).ok()).flatten().filter(Value::is_string)
}

/// A list in one cell.
fn list(text: &str, target: &Target, reading: Reading) -> Result<Option<Value>, Open> {
    let lower = text.to_lowercase();
    if matches!(lower.as_str(), "none" | "no" | "nothing") {
        return Ok(Some(json!([])));
    }
    if let Form::Object(_) = target.field.form {
        return Ok(Some(json!(text)));
    }
    let parts = text.split([';', ',', '|']).map(str::trim).filter(|part| !part.is_empty());
    let values: Result<Vec<_>, _> = parts.map(|part| one(part, target.field.form, reading)).collect();
    Ok(Some(values?.into_iter().flatten().collect()))
}

fn one(text: &str, form: Form, reading: Reading) -> Result<Option<Value>, Open> {
    let lower = text.to_lowercase();
    Ok(Some(match form {
        Form::Text | Form::Link | Form::Picture | Form::Cleanliness | Form::Currency => json!(one_line(text)),
        Form::Id | Form::Reference => json!(id(text)),
        Form::YesNo => match yes_no(&lower) {
            Some(yes) => json!(yes),
            None => json!(text),
        },
        Form::Count => {
            let plain = marks::plain(text, reading.decimal).ok_or(Open::Marks)?;
            plain.parse::<u64>().map_or_else(|_| json!(text), |count| json!(count))
        }
        Form::Money => json!(money(text, reading)?),
        Form::Date => json!(date(text, reading)?),
        Form::Name(names) => json!(name(text, names)),
        Form::Figure(dimension, _) | Form::Range(dimension, _) => json!(figure(text, dimension, reading)?),
        Form::Window(dimension, _) => {
            let text = figure(text, dimension, reading)?;
            match quantity::text::read_stated(&text, dimension).map(|stated| stated.spread) {
                Ok(quantity::Spread::Range { low, high }) => {
                    let written = |end: quantity::Amount, unit: Unit| {
                        format!("{} {}", plain_number(unit.of_si(end.si())), unit.name())
                    };
                    let unit = quantity::text::read_stated(&text, dimension)
                        .map_or(Unit::shown(dimension, UnitSystem::Metric), |stated| stated.unit);
                    json!({ "least": written(low, unit), "greatest": written(high, unit) })
                }
                _ => json!({ "rated": text }),
            }
        }
        Form::Object(_) => match yes_no(&lower) {
            Some(true) => json!({}),
            Some(false) => return Ok(None),
            None => json!(text),
        },
    }))
}

/// A number or mark of somebody's own as an id: in small letters, with hyphens for what no id has.
fn id(text: &str) -> String {
    let is_of_an_id = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || "-_.".contains(c);
    let small = one_line(text).to_lowercase();
    small.chars().map(|c| if is_of_an_id(c) { c } else { '-' }).collect()
}

/// A text of several lines as one.
fn one_line(text: &str) -> String {
    if text.contains(['\n', '\r', '\t']) {
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    } else {
        text.to_owned()
    }
}

fn yes_no(lower: &str) -> Option<bool> {
    match lower {
        "yes" | "y" | "true" | "1" | "✓" | "✔" | "fitted" | "required" | "needed" | "standard" => Some(true),
        "no" | "n" | "false" | "0" | "none" | "not fitted" | "not required" | "not needed" => Some(false),
        _ => None,
    }
}

/// The name of a closed list that a text means; the text itself where it means none.
fn name(text: &str, names: &'static [&'static str]) -> String {
    let plain = |text: &str| folded(text).replace(' ', "");
    let wanted = plain(text);
    let same = names.iter().find(|name| **name == text || plain(name) == wanted);
    let word = || {
        let said = folded(text);
        // `flails` is a flail.
        let meant = |word: &str| word == said || said.strip_suffix('s') == Some(word);
        let synonym = NAMES.iter().find(|(name, words)| names.contains(name) && words.iter().any(|word| meant(word)));
        let plural = || names.iter().find(|name| wanted.strip_suffix('s') == Some(plain(name).as_str()));
        synonym.map(|(name, _)| name).or_else(plural)
    };
    same.or_else(word).map_or_else(|| text.to_owned(), |name| (*name).to_owned())
}

/// The name of a closed list that stands somewhere in a text, in up to three words of it: the class in `BV 60 skid steer`.
pub fn name_within(text: &str, names: &'static [&'static str]) -> Option<&'static str> {
    let folded = folded(text);
    let words: Vec<&str> = folded.split(' ').collect();
    let known = |some: &[&str]| {
        let said = name(&some.join(" "), names);
        names.iter().find(|name| **name == said).copied()
    };
    // The longest first: a mini excavator is no excavator.
    (1..=3).rev().find_map(|count| words.windows(count).find_map(known))
}

/// Numbers in plain notation, as far as it is known how.
fn plainly(text: &str, reading: Reading) -> Result<String, Open> {
    let decided = reading.decimal.or_else(|| (reading.exact && marks::only_points(text)).then_some(Mark::Point));
    marks::plain(text, decided).ok_or(Open::Marks)
}

/// A figure with its unit.
fn figure(text: &str, dimension: Dimension, reading: Reading) -> Result<String, Open> {
    let text = plainly(text, reading)?;
    let text = text.trim();
    let read = |text: &str| quantity::text::read_stated(text, dimension);
    if let Some(swapped) = reading.meant.and_then(|(written, meant)| swapped(text, written, meant)) {
        return Ok(swapped);
    }
    match read(text) {
        Err(quantity::text::TextFault::NoUnit) => {
            let unit = reading.unit.ok_or(Open::Unit)?;
            // A tolerance or a source may stand behind the figure.
            let figure = text.find(['(', '±']).or_else(|| text.find("+/-")).unwrap_or(text.len());
            Ok(format!("{} {} {}", text[..figure].trim(), unit.name(), text[figure..].trim()).trim().to_owned())
        }
        _ => Ok(text.to_owned()),
    }
}

/// A figure that is written in one unit and meant in another.
fn swapped(text: &str, written: Unit, meant: Unit) -> Option<String> {
    let begin =
        text.char_indices().filter(|(_, c)| c.is_alphabetic() || "[\"″%".contains(*c)).map(|(at, _)| at).next()?;
    let end = text[begin..].find(['(', '±']).map_or(text.len(), |length| begin + length);
    let is_written = unit(text[begin..end].trim()) == Some(written);
    is_written.then(|| format!("{}{} {}", &text[..begin], meant.name(), &text[end..]).trim().to_owned())
}

/// An amount of money without its currency.
fn money(text: &str, reading: Reading) -> Result<String, Open> {
    let bare = text
        .trim_matches(|c: char| c.is_whitespace() || c.is_alphabetic() || "€£$".contains(c))
        .trim_end_matches(",-")
        .trim_end_matches(".-");
    let plain = plainly(bare, reading)?;
    Ok(match plain.split_once('.') {
        Some((whole, cents)) if cents.len() == 1 => format!("{whole}.{cents}0"),
        // What a spreadsheet keeps of a price that was worked out has more decimals than cents.
        Some((_, cents)) if cents.len() > 2 && cents.chars().all(|c| c.is_ascii_digit()) => {
            plain.parse::<f64>().map_or(plain.clone(), |amount| format!("{amount:.2}"))
        }
        _ => plain,
    })
}

/// The three numbers of a day that is written with points, slashes or hyphens, the year last.
fn numbers_of_day(text: &str) -> Option<[u16; 3]> {
    let parts: Vec<_> = text.split(['.', '/', '-']).map(str::parse::<u16>).collect();
    if let [Ok(first), Ok(second), Ok(year)] = parts[..] {
        (year >= 1900).then_some([first, second, year])
    } else {
        None
    }
}

/// Which order of day and month a text shows by itself.
pub fn shows_days(text: &str) -> Option<DayOrder> {
    match numbers_of_day(text.trim())? {
        [13..=31, 1..=12, _] => Some(DayOrder::DayFirst),
        [1..=12, 13..=31, _] => Some(DayOrder::MonthFirst),
        _ => None,
    }
}

fn date(text: &str, reading: Reading) -> Result<String, Open> {
    let Some([first, second, year]) = numbers_of_day(text) else { return Ok(text.to_owned()) };
    // With points the day stands first wherever they are written.
    let by_points = (text.matches('.').count() == 2).then_some(DayOrder::DayFirst);
    let same = (first == second).then_some(DayOrder::DayFirst);
    let order = shows_days(text).or(reading.days).or(by_points).or(same).ok_or(Open::Days)?;
    let (day, month) = if order == DayOrder::DayFirst { (first, second) } else { (second, first) };
    Ok(format!("{year:04}-{month:02}-{day:02}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fields::Role;

    #[track_caller]
    fn says(role: Role, field: &str, text: &str, reading: Reading, wanted: &Value) {
        let target = Target::named(role, field).expect(field);
        let value = value(&Cell::Text(text.to_owned()), &target, reading).expect("nothing is asked");
        assert_eq!(value.as_ref().unwrap_or(&Value::Null), wanted, "{field}: {text}");
    }

    #[test]
    fn a_cell_says_what_the_table_holds() {
        use Role::{Attachments, Machines, Parts};
        let plain = Reading::default();
        let litres = Reading { unit: Some(Unit::LitrePerMinute), ..plain };
        says(Machines, "circuits.flow", "62", litres, &json!("62 L/min"));
        says(Machines, "circuits.flow", "62 (plate)", litres, &json!("62 L/min (plate)"));
        says(Machines, "circuits.flow", "16 gpm", litres, &json!("16 gpm"));
        says(Machines, "circuits.flow", "55-62", litres, &json!("55-62 L/min"));
        says(Attachments, "flow", "40 - 65", litres, &json!({ "least": "40 L/min", "greatest": "65 L/min" }));
        says(Attachments, "flow", "50", litres, &json!({ "rated": "50 L/min" }));
        says(Machines, "class", "Mini excavator", plain, &json!("mini-excavator"));
        says(Machines, "class", "Skid steers", plain, &json!("skid-steer"));
        says(Machines, "class", "CTL", plain, &json!("compact-track-loader"));
        says(Machines, "class", "dumper", plain, &json!("dumper"));
        says(Machines, "case_line.fitted", "Yes", plain, &json!(true));
        says(Machines, "guards", "none", plain, &json!([]));
        says(Machines, "guards", "ROPS; front guard", plain, &json!(["rops", "front-guard"]));
        says(Parts, "price", "€ 1.240,5", plain, &json!("1240.50"));
        says(Parts, "price", "1 240,-", plain, &json!("1240"));
        says(Machines, "checked", "25.11.2026", plain, &json!("2026-11-25"));
        says(Machines, "checked", "11/25/2026", plain, &json!("2026-11-25"));
        says(Machines, "stock", "\"n/a\"", plain, &json!("n/a"));
        for nothing in ["", " ", "-", "–", "n/a", "N/A", "TBD"] {
            says(Machines, "engine.power", nothing, plain, &Value::Null);
        }
        let meant = Reading { meant: Some((Unit::Bar, Unit::Psi)), ..plain };
        says(Machines, "circuits.relief", "3000 bar (plate)", meant, &json!("3000 [psi] (plate)"));
    }

    #[test]
    fn what_may_be_read_in_two_ways_is_asked() {
        let asked = |role, field: &str, text: &str| {
            let target = Target::named(role, field).expect(field);
            value(&Cell::Text(text.to_owned()), &target, Reading::default())
        };
        assert_eq!(asked(Role::Machines, "circuits.flow", "62"), Err(Open::Unit));
        assert_eq!(asked(Role::Machines, "operating_mass", "1,234 kg"), Err(Open::Marks));
        assert_eq!(asked(Role::Machines, "operating_mass", "1.234 kg"), Err(Open::Marks));
        assert_eq!(asked(Role::Machines, "checked", "03/04/2026"), Err(Open::Days));
    }
}
