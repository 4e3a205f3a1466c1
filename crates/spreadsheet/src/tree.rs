//! The table's JSON as it grows from cells, each value with the cell from which it came.

use crate::Place;
use crate::fields::Target;
use serde_json::Value;
use std::collections::BTreeMap;
use std::fmt::Write;

/// A value that grows.
#[derive(Clone, Debug)]
pub enum Node {
    /// Members by their keys.
    Object(BTreeMap<&'static str, Node>),
    /// Items by their places, with gaps.
    List(BTreeMap<usize, Node>),
    /// A value out of a cell.
    Value(Value, Option<Place>),
}

impl Default for Node {
    fn default() -> Self {
        Self::Object(BTreeMap::new())
    }
}

/// Two cells that say something different of one field: the second is of no use.
#[derive(Clone, Debug, PartialEq)]
pub struct Conflict {
    /// The second cell.
    pub place: Place,
    /// What it says.
    pub second: String,
    /// What the first says.
    pub first: String,
}

impl Node {
    /// The member of an object.
    pub fn member(&self, key: &str) -> Option<&Self> {
        if let Self::Object(members) = self { members.get(key) } else { None }
    }

    /// The text under a key.
    pub fn text(&self, key: &str) -> Option<&str> {
        if let Some(Self::Value(Value::String(text), _)) = self.member(key) { Some(text) } else { None }
    }

    /// Puts a value at a field; what stands there already stays.
    pub fn put(&mut self, target: &Target, node: Self) {
        let mut places = target.places.iter();
        let mut at = self;
        for (key, is_list) in &target.field.steps {
            if !matches!(at, Self::Object(_)) {
                return;
            }
            let Self::Object(members) = at else { return };
            let place = if *is_list { places.next() } else { None };
            let empty = || if place.is_some() { Self::List(BTreeMap::new()) } else { Self::default() };
            at = members.entry(key).or_insert_with(empty);
            if let Some(place) = place {
                let Self::List(items) = at else { return };
                at = items.entry(*place).or_default();
            }
        }
        // An empty object is what was made on the way.
        let fresh = matches!(at, Self::Object(members) if members.is_empty());
        match (at, node) {
            (at, node) if fresh => *at = node,
            (Self::Object(members), Self::Object(more)) => {
                for (key, node) in more {
                    members.entry(key).or_insert(node);
                }
            }
            _ => {}
        }
    }

    /// Takes in what another row says of the same entry. Items of lists are added, but where `once` is set not those that are there already.
    pub fn merge(&mut self, other: Self, once: bool, conflicts: &mut Vec<Conflict>) {
        match (self, other) {
            (Self::Object(members), Self::Object(more)) => {
                for (key, node) in more {
                    match members.get_mut(key) {
                        Some(member) => member.merge(node, once, conflicts),
                        None => drop(members.insert(key, node)),
                    }
                }
            }
            (Self::List(items), Self::List(more)) => {
                for node in more.into_values() {
                    if !(once && items.values().any(|item| item.to_json() == node.to_json())) {
                        let next = items.last_key_value().map_or(0, |(place, _)| place + 1);
                        items.insert(next, node);
                    }
                }
            }
            (Self::Value(first, _), Self::Value(second, place)) if *first != second => {
                let shown = |value: &Value| value.as_str().map_or_else(|| value.to_string(), str::to_owned);
                conflicts.extend(place.map(|place| Conflict { place, second: shown(&second), first: shown(first) }));
            }
            _ => {}
        }
    }

    /// As JSON.
    pub fn to_json(&self) -> Value {
        match self {
            Self::Object(members) => members.iter().map(|(key, node)| ((*key).to_owned(), node.to_json())).collect(),
            Self::List(items) => items.values().map(Self::to_json).collect(),
            Self::Value(value, _) => value.clone(),
        }
    }

    /// Notes where each value came from, by its JSON Pointer.
    pub fn places(&self, pointer: &mut String, places: &mut BTreeMap<String, Place>) {
        let length = pointer.len();
        match self {
            Self::Object(members) => {
                for (key, node) in members {
                    let _ = write!(pointer, "/{key}");
                    node.places(pointer, places);
                    pointer.truncate(length);
                }
            }
            Self::List(items) => {
                for (index, node) in items.values().enumerate() {
                    let _ = write!(pointer, "/{index}");
                    node.places(pointer, places);
                    pointer.truncate(length);
                }
            }
            Self::Value(_, place) => {
                places.extend(place.clone().map(|place| (pointer.clone(), place)));
            }
        }
    }

    /// Takes away the value at a JSON Pointer; whether one was there.
    pub fn remove(&mut self, pointer: &str) -> bool {
        let Some(rest) = pointer.strip_prefix('/') else { return false };
        let (step, rest) = rest.split_once('/').map_or((rest, None), |(step, rest)| (step, Some(rest)));
        let inner = match self {
            Self::Object(members) => match rest {
                None => return members.remove(step).is_some(),
                Some(_) => members.get_mut(step),
            },
            // An item of a list is never taken out: the list would say less, or something else.
            Self::List(items) => {
                step.parse().ok().filter(|_| rest.is_some()).and_then(|index| items.values_mut().nth(index))
            }
            Self::Value(..) => None,
        };
        inner.zip(rest).is_some_and(|(inner, rest)| inner.remove(&format!("/{rest}")))
    }
}
