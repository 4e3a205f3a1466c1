//! What of an answer's JSON may not change: its fields, what kind of thing stands in them, their units and ids. What may:
//! the values, and what is added.

use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

/// The fields by which an element of a list is known again; the first that it has counts.
const KEYS: [&[&str]; 6] = [&["id"], &["fact"], &["stage", "oil", "load"], &["node"], &["name"], &["code", "line"]];

/// What an element of a list is known by; none for one that is a value by itself.
fn key(element: &Value) -> Option<Vec<&Value>> {
    KEYS.iter()
        .find(|names| element.get(names[0]).is_some())
        .map(|names| names.iter().map(|name| &element[*name]).collect())
}

fn kind(value: &Value) -> &'static str {
    match value {
        Value::Null => "null",
        Value::Bool(_) => "yes or no",
        Value::Number(_) => "number",
        Value::String(_) => "text",
        Value::Array(_) => "list",
        Value::Object(_) => "object",
    }
}

/// What of `then` is no more in `now`, or is another kind of thing, each with its place.
pub fn lost(then: &Value, now: &Value) -> Vec<String> {
    let mut faults = Vec::new();
    compare("", then, now, &mut faults);
    faults
}

fn compare(place: &str, then: &Value, now: &Value, faults: &mut Vec<String>) {
    match (then, now) {
        // What cannot be said is null, then and now.
        (Value::Null, _) | (_, Value::Null) => {}
        (Value::Object(before), Value::Object(after)) => {
            // Another reason or remark has other fields.
            if before.get("code") != after.get("code") {
                return;
            }
            if before.contains_key("value") && before.get("unit") != after.get("unit") {
                faults.push(format!("{place} was in {:?} and is in {:?}", before.get("unit"), after.get("unit")));
            }
            for (name, before) in before {
                match after.get(name) {
                    Some(after) => compare(&format!("{place}/{name}"), before, after, faults),
                    None => faults.push(format!("{place}/{name} is gone")),
                }
            }
        }
        (Value::Array(before), Value::Array(after)) => {
            for before in before {
                let Some(key) = self::key(before) else { continue };
                let Some(after) = after.iter().find(|after| self::key(after).as_ref() == Some(&key)) else { continue };
                compare(
                    &format!("{place}/{}", key.iter().map(ToString::to_string).collect::<String>()),
                    before,
                    after,
                    faults,
                );
            }
        }
        (before, after) if kind(before) == kind(after) => {}
        (before, after) => faults.push(format!("{place} was a {} and is a {}", kind(before), kind(after))),
    }
}

/// Every place of some answers with the kinds of things that stand there.
#[derive(Default)]
pub struct Places(BTreeMap<String, BTreeSet<&'static str>>);

impl Places {
    /// Adds an answer.
    pub fn add(&mut self, answer: &Value) {
        self.add_at(String::new(), answer);
    }

    fn add_at(&mut self, place: String, value: &Value) {
        match value {
            Value::Object(fields) => {
                fields.iter().for_each(|(name, value)| self.add_at(format!("{place}/{name}"), value));
            }
            Value::Array(elements) => elements.iter().for_each(|value| self.add_at(format!("{place}/*"), value)),
            _ => {}
        }
        self.0.entry(place).or_default().insert(kind(value));
    }

    /// The places that `now` has no more, or never anything of a kind that was there.
    pub fn lost_in(&self, now: &Self) -> Vec<String> {
        let missing = |(place, kinds): (&String, &BTreeSet<&'static str>)| {
            let after = now.0.get(place).cloned().unwrap_or_default();
            let gone: Vec<_> = kinds.difference(&after).filter(|kind| **kind != "null").copied().collect();
            (!gone.is_empty()).then(|| format!("{place}: no {} there any more", gone.join(", ")))
        };
        self.0.iter().filter_map(missing).collect()
    }
}

/// What of a thing that was kept is not as it was, each with its place. More may stand in it.
pub fn altered(then: &Value, now: &Value) -> Vec<String> {
    let mut faults = Vec::new();
    hold("", then, now, &mut faults);
    faults
}

fn hold(place: &str, then: &Value, now: &Value, faults: &mut Vec<String>) {
    match (then, now) {
        (Value::Object(before), Value::Object(after)) => {
            for (name, before) in before {
                hold(&format!("{place}/{name}"), before, after.get(name).unwrap_or(&Value::Null), faults);
            }
        }
        (Value::Array(before), Value::Array(after)) if before.len() == after.len() => {
            for (index, (before, after)) in before.iter().zip(after).enumerate() {
                hold(&format!("{place}/{index}"), before, after, faults);
            }
        }
        (before, after) if before == after => {}
        (before, after) => faults.push(format!("{place} was {before} and is {after}")),
    }
}

#[test]
fn what_is_lost_is_found_and_what_is_added_is_not_minded() {
    use serde_json::json;
    let then =
        json!({ "id": "a", "checks": [{ "id": "flow", "value": { "value": 1.0, "unit": "bar" } }], "price": null });
    let same = json!({
        "id": "a", "new": 1, "price": "EUR 1",
        "checks": [{ "id": "heat" }, { "id": "flow", "value": { "value": 2.0, "unit": "bar" }, "more": true }],
    });
    assert_eq!(lost(&then, &same), [""; 0]);
    let unit =
        json!({ "id": "a", "price": null, "checks": [{ "id": "flow", "value": { "value": 1.0, "unit": "Pa" } }] });
    assert_eq!(lost(&then, &unit).len(), 1);
    assert_eq!(lost(&then, &json!({ "id": 7, "checks": [{ "id": "flow" }] })).len(), 3);
    let (mut before, mut after) = (Places::default(), Places::default());
    before.add(&then);
    after.add(&json!({ "id": "a", "checks": [], "price": 1 }));
    assert_eq!(before.lost_in(&after).len(), 5, "what stood in the list");
    assert_eq!(before.lost_in(&before), [""; 0]);
    assert_eq!(altered(&json!({ "a": [1, "x"], "b": null }), &json!({ "a": [1, "x"], "c": 2 })), [""; 0]);
    assert_eq!(altered(&json!({ "a": [1, "x"], "b": 1 }), &json!({ "a": [1, "y"] })).len(), 2);
    assert_eq!(altered(&json!([1, 2]), &json!([1])).len(), 1);
}
