//! What must not break: things that an earlier build made, opened and asked again by this one. README.md in this folder says
//! what each is, which build made it, and how one is added.

mod answers;
mod kept;
mod known;
mod shape;
mod tables;

use record::Plate;
use serde_json::Value;
use std::collections::BTreeMap;

/// The demo table of the build that made what is frozen.
const TABLE: &str = include_str!("table.json");
/// What a browser kept, by its keys.
const KEPT: &str = include_str!("kept.json");

fn kept() -> BTreeMap<String, String> {
    serde_json::from_str(KEPT).expect("texts by their keys")
}

/// A machine of one's own that is kept.
fn plate(id: &str) -> Plate {
    let text = kept().remove(&format!("pairwright.machine.{id}")).unwrap_or_else(|| panic!("no plate {id}"));
    Plate::decode(&text).unwrap_or_else(|fault| panic!("{id}: {fault:?}"))
}

/// The lines of a file, each a JSON value.
fn lines(text: &str) -> impl Iterator<Item = Value> {
    text.lines().map(|line| serde_json::from_str(line).unwrap_or_else(|error| panic!("{error}: {line}")))
}
