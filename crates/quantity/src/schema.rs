//! The JSON Schema of a quantity's text: its grammar as patterns.

use crate::{Dimension, Named, Quantity, Range, Source, Stated, Unit, UnitSystem, text};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use std::borrow::Cow;

/// A name for a definition, made of the words of a message: `rotational speed` → `RotationalSpeed`.
pub fn definition_name(words: &str) -> String {
    let capital = |word: &str| {
        let mut letters = word.chars();
        letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
    };
    words.split_whitespace().map(capital).collect()
}

impl<Q: Quantity> JsonSchema for Stated<Q> {
    fn schema_name() -> Cow<'static, str> {
        definition_name(Q::DIMENSION.name()).into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        quantity(Q::DIMENSION)
    }
}

impl<Q: Quantity> JsonSchema for Range<Q> {
    fn schema_name() -> Cow<'static, str> {
        format!("{}Range", definition_name(Q::DIMENSION.name())).into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let (unit, shown) = (unit_pattern(Q::DIMENSION), Unit::shown(Q::DIMENSION, UnitSystem::Metric).name());
        let pattern = format!(r"^\s*{NUMBER}(\s*{unit})?{TO}{NUMBER}\s*{unit}\s*$");
        json_schema!({ "type": "string", "pattern": pattern, "examples": [format!("10..20 {shown}")] })
    }
}

/// A number as people write it: decimal, fraction, whole number with a fraction.
pub const NUMBER: &str =
    r"[+\-−–]?([0-9]+(\.[0-9]*)?|\.[0-9]+|[0-9]+/[0-9]+|[0-9]+\s+[0-9]+/[0-9]+|([0-9]+\s*)?[½¼¾⅛⅜⅝⅞])";
/// What stands between the ends of a range.
pub const TO: &str = r"(\s*(\.\.\.?|…|–|-|−)\s*|\s+to\s+)";

/// The text of a quantity: see the grammar in `quantity::text`.
fn quantity(dimension: Dimension) -> Schema {
    let unit = unit_pattern(dimension);
    let sources: Vec<_> = Source::ALL.iter().map(|source| in_any_case(source.name())).collect();
    let source = format!(r"\(\s*({})\s*\)", sources.join("|"));
    // A share has no meaning on a scale with an offset.
    let shares = dimension != Dimension::Temperature;
    let share = if shares { format!("(%|{unit})") } else { unit.clone() };
    let tolerance = format!(r"((±|\+/-)\s*{NUMBER}\s*{share}|[+\-−–][0-9.]+\s*%?\s*/\s*[+\-−–][0-9.]+\s*{share})");
    let body = format!(
        r"({NUMBER}\s*{unit}|{NUMBER}(\s*{unit})?{TO}{NUMBER}\s*{unit}|{NUMBER}\s*(±|\+/-)\s*{NUMBER}\s*{unit})"
    );
    let pattern = format!(r"^\s*{body}(\s*{tolerance})?(\s*{source})?(\s*{tolerance})?\s*$");
    let shown = Unit::shown(dimension, UnitSystem::Metric).name();
    let examples = if shares {
        [format!("118 {shown}"), format!("118 {shown} ±5 % (plate)"), format!("80..117 {shown} (measured)")]
    } else {
        [format!("40 {shown}"), format!("40 {shown} ±5 {shown} (plate)"), format!("35..45 {shown} (measured)")]
    };
    json_schema!({
        "type": "string",
        "maxLength": text::LONGEST,
        "description": format!("A {} with its unit.", dimension.name()),
        "pattern": pattern,
        "examples": examples,
    })
}

/// All ways to write a unit of a dimension.
pub fn unit_pattern(dimension: Dimension) -> String {
    let units = Unit::ALL.iter().filter(|unit| unit.dimension() == dimension);
    let mut names: Vec<String> = units
        .flat_map(|unit| {
            let code = unit.name();
            // Case tells a thousandth from a million in the first letter only.
            let (first, rest) = code.split_at(code.chars().next().map_or(0, char::len_utf8));
            let first = if first == "m" || first == "M" { first.to_owned() } else { in_any_case(first) };
            let code = format!("{first}{}", in_any_case(rest));
            std::iter::once(code).chain(unit.spoken().iter().map(|spoken| in_any_case(spoken)))
        })
        .collect();
    names.sort();
    names.dedup();
    format!("({})", names.join("|"))
}

/// A pattern for a text with letters of any case; what has a meaning in patterns is taken as it is.
fn in_any_case(text: &str) -> String {
    let mut pattern = String::new();
    for letter in text.chars() {
        let (lower, upper) = (letter.to_lowercase().to_string(), letter.to_uppercase().to_string());
        if lower != upper && lower.chars().count() == 1 && upper.chars().count() == 1 {
            pattern.extend(["[", &lower, &upper, "]"]);
        } else {
            if "\\^$.|?*+()[]{}/-".contains(letter) {
                pattern.push('\\');
            }
            pattern.push(letter);
        }
    }
    pattern
}
