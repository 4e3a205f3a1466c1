//! Changes of a JSON text that leave all else of it as it stands, byte by byte: order of keys, blanks, what nobody knows.

use serde::de::{Deserialize, Deserializer, MapAccess, Visitor};
use serde_json::Value;
use serde_json::value::RawValue;
use std::borrow::Cow;
use std::fmt;

/// A step to a value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Step {
    /// The member of an object.
    Key(String),
    /// The item of a list; one beyond the last is put behind it.
    Item(usize),
}

impl Step {
    /// The member with this key.
    pub fn key(key: &str) -> Self {
        Self::Key(key.to_owned())
    }
}

/// A key that is only copied where it holds escapes.
#[derive(serde::Deserialize)]
struct Key<'a>(#[serde(borrow)] Cow<'a, str>);

/// The members of an object in their order.
struct Members<'a>(Vec<(Cow<'a, str>, &'a RawValue)>);

impl<'de> Deserialize<'de> for Members<'de> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Collect;
        impl<'de> Visitor<'de> for Collect {
            type Value = Members<'de>;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("an object")
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Self::Value, A::Error> {
                let mut members = Vec::new();
                while let Some((Key(key), value)) = map.next_entry()? {
                    members.push((key, value));
                }
                Ok(Members(members))
            }
        }
        deserializer.deserialize_map(Collect)
    }
}

/// What an object or a list holds: the values with their keys, and where each begins and ends in its text.
struct Inside<'a> {
    values: Vec<(Option<Cow<'a, str>>, usize, usize)>,
}

impl<'a> Inside<'a> {
    /// What is in a text; none where it is neither object nor list.
    fn of(text: &'a str) -> Option<Self> {
        let place = |raw: &RawValue| {
            let begin = raw.get().as_ptr() as usize - text.as_ptr() as usize;
            (begin, begin + raw.get().len())
        };
        let values = if text.starts_with('{') {
            let members: Members = serde_json::from_str(text).ok()?;
            members.0.into_iter().map(|(key, raw)| (Some(key), place(raw).0, place(raw).1)).collect()
        } else {
            let items: Vec<&RawValue> = serde_json::from_str(text).ok()?;
            items.into_iter().map(|raw| (None, place(raw).0, place(raw).1)).collect()
        };
        Some(Self { values })
    }

    fn find(&self, step: &Step) -> Option<usize> {
        match step {
            Step::Key(key) => self.values.iter().position(|(known, ..)| known.as_deref() == Some(key)),
            Step::Item(index) => self.values.get(*index).and_then(|(key, ..)| key.is_none().then_some(*index)),
        }
    }
}

/// The text of the value at some steps; none where none is.
pub fn get<'a>(text: &'a str, steps: &[Step]) -> Option<&'a str> {
    let Some((step, rest)) = steps.split_first() else { return Some(text) };
    let inside = Inside::of(text)?;
    let (_, begin, end) = &inside.values[inside.find(step)?];
    get(&text[*begin..*end], rest)
}

/// The texts of a list's items.
pub fn items(list: &str) -> Vec<&str> {
    let items: Vec<&RawValue> = serde_json::from_str(list).unwrap_or_default();
    items.into_iter().map(RawValue::get).collect()
}

/// The text with a value put at some steps; objects and lists on the way are made where they are not there. A value that is neither is
/// replaced.
pub fn set(text: &str, steps: &[Step], value: &Value) -> String {
    put(text, steps, &value.to_string())
}

/// The same with a value as its JSON text.
pub fn put(text: &str, steps: &[Step], value: &str) -> String {
    let Some((step, rest)) = steps.split_first() else { return value.to_owned() };
    let fits = if let Step::Key(_) = step { text.starts_with('{') } else { text.starts_with('[') };
    let Some(inside) = Inside::of(text).filter(|_| fits) else { return fresh(steps, value) };
    if let Some(at) = inside.find(step) {
        let (_, begin, end) = inside.values[at];
        return format!("{}{}{}", &text[..begin], put(&text[begin..end], rest, value), &text[end..]);
    }
    let member = match step {
        Step::Key(key) => format!("{}: {}", Value::from(key.as_str()), fresh(rest, value)),
        Step::Item(_) => fresh(rest, value),
    };
    match inside.values.last() {
        None => format!("{}{member}{}", &text[..1], &text[text.len() - 1..]),
        Some((_, _, end)) => {
            let (blank, _) = blanks(text, 1);
            let before = if blank.is_empty() && text.contains(", ") { " " } else { blank };
            // What stands on one line opens with no blank, or with one for looks.
            format!("{},{before}{member}{}", &text[..*end], &text[*end..])
        }
    }
}

/// A value with the objects and lists on the way to it.
fn fresh(steps: &[Step], value: &str) -> String {
    let inner = |rest: &[Step]| fresh(rest, value);
    match steps.split_first() {
        None => value.to_owned(),
        Some((Step::Key(key), rest)) => format!("{{{}: {}}}", Value::from(key.as_str()), inner(rest)),
        Some((Step::Item(_), rest)) => format!("[{}]", inner(rest)),
    }
}

/// The blanks that begin at a place, and where they end.
fn blanks(text: &str, at: usize) -> (&str, usize) {
    let rest = &text[at..];
    let length = rest.len() - rest.trim_start().len();
    (&rest[..length], at + length)
}

/// What is left of a text without a value.
enum Left {
    /// This text.
    Text(String),
    /// Nothing.
    Nothing,
}

/// The text without the value at some steps, and without what on the way holds nothing then: an empty list would say that there is none.
/// None where no such value is, or nothing would be left.
pub fn remove(text: &str, steps: &[Step]) -> Option<String> {
    match left_of(text, steps)? {
        Left::Text(text) => Some(text),
        Left::Nothing => None,
    }
}

fn left_of(text: &str, steps: &[Step]) -> Option<Left> {
    let Some((step, rest)) = steps.split_first() else { return Some(Left::Nothing) };
    let inside = Inside::of(text)?;
    let at = inside.find(step)?;
    let (_, begin, end) = inside.values[at];
    if let Left::Text(inner) = left_of(&text[begin..end], rest)? {
        return Some(Left::Text(format!("{}{inner}{}", &text[..begin], &text[end..])));
    }
    Some(match (at.checked_sub(1).map(|before| inside.values[before].2), inside.values.get(at + 1)) {
        (None, None) => Left::Nothing,
        // With the comma before it.
        (Some(before), _) => Left::Text(format!("{}{}", &text[..before], &text[end..])),
        // The first: with the comma behind it.
        (None, Some(_)) => {
            let begin = blanks(text, 1).1;
            let comma = blanks(text, end).1;
            Left::Text(format!("{}{}", &text[..begin], &text[blanks(text, comma + 1).1..]))
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn steps(path: &str) -> Vec<Step> {
        let step = |part: &str| part.parse().map_or_else(|_| Step::key(part), Step::Item);
        path.split('.').map(step).collect()
    }

    #[test]
    fn all_else_stays_as_it_stands() {
        let text = "{\n  \"b\" : 1,\n  \"a\": { \"x\": [1, 2 ], \"\\u0079\": \"é\" },\n  \"strange\": null\n}";
        assert_eq!(set(text, &steps("a.y"), &json!("z")), text.replace("\"é\"", "\"z\""));
        assert_eq!(set(text, &steps("a.x.1"), &json!(5)), text.replace("[1, 2 ]", "[1, 5 ]"));
        assert_eq!(set(text, &steps("a.x.7"), &json!(5)), text.replace("[1, 2 ]", "[1, 2, 5 ]"));
        assert_eq!(set(text, &steps("c.0.d"), &json!(5)), text.replace("null\n", "null,\n  \"c\": [{\"d\": 5}]\n"));
        assert_eq!(remove(text, &steps("b")).as_deref(), Some(text.replace("\"b\" : 1,\n  ", "").as_str()));
        assert_eq!(
            remove(text, &steps("strange")).as_deref(),
            Some(text.replace(",\n  \"strange\": null", "").as_str())
        );
        assert_eq!(remove(text, &steps("a.x.0")).as_deref(), Some(text.replace("[1, 2 ]", "[2 ]").as_str()));
        assert_eq!(get(text, &steps("a.y")), Some("\"é\""));
        assert_eq!((get(text, &steps("a.q")), remove(text, &steps("a.q"))), (None, None));
    }

    #[test]
    fn what_holds_nothing_any_more_goes_too() {
        assert_eq!(remove(r#"{"a": {"b": [{"c": 1}]}, "d": 2}"#, &steps("a.b.0.c")).as_deref(), Some(r#"{"d": 2}"#));
        assert_eq!(remove(r#"{"a":1}"#, &steps("a")), None);
    }

    #[test]
    fn a_value_that_holds_nothing_gives_way_to_one_that_does() {
        assert_eq!(set(r#"{"a":null}"#, &steps("a.b"), &json!(1)), r#"{"a":{"b": 1}}"#);
        assert_eq!(set("{}", &steps("a"), &json!("x")), r#"{"a": "x"}"#);
        assert_eq!(set("[]", &steps("0.a"), &json!(true)), r#"[{"a": true}]"#);
    }
}
