//! One entry of the table as text: its facts, and the entry without one of them.

use serde_json::Value;
use std::fmt;

/// A machine or an attachment, as the table states it.
#[derive(Clone, Copy)]
pub enum Entry<'a> {
    /// A machine.
    Carrier(&'a Value),
    /// An attachment.
    Head(&'a Value),
}

/// A step on the way to a fact.
#[derive(Clone, Debug, PartialEq)]
pub enum Step {
    /// A field.
    Field(String),
    /// An element of a list.
    Element(usize),
}

/// Where a fact stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Place(pub Vec<Step>);

/// What names an entry or says nothing of how it fits.
const NAMES: [&str; 12] =
    ["id", "maker", "model", "class", "kind", "link", "stock", "checked", "name", "serial_range", "generic", "duty"];
/// Lists of which each element is a fact by itself. Of others a shorter list is another statement: fewer pumps, a shorter line.
const OF_FACTS: [&str; 3] = ["chart", "circuits", "mounting"];

impl fmt::Display for Place {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        for (index, step) in self.0.iter().enumerate() {
            match step {
                Step::Field(name) if index == 0 => write!(formatter, "{name}")?,
                Step::Field(name) => write!(formatter, ".{name}")?,
                Step::Element(element) => write!(formatter, "[{element}]")?,
            }
        }
        Ok(())
    }
}

impl Place {
    /// The way without the numbers of elements, `circuits[].relief`.
    pub fn pattern(&self) -> String {
        let steps = self.0.iter().map(|step| match step {
            Step::Field(name) => format!(".{name}"),
            Step::Element(_) => "[]".to_owned(),
        });
        steps.collect::<String>().trim_start_matches('.').to_owned()
    }

    /// What stands there.
    pub fn of<'a>(&self, value: &'a Value) -> Option<&'a Value> {
        self.0.iter().try_fold(value, |value, step| match step {
            Step::Field(name) => value.get(name),
            Step::Element(index) => value.get(index),
        })
    }

    /// The entry with this made of what stands there; none where nothing does.
    pub fn set(&self, value: &Value, to: Value) -> Option<Value> {
        let mut changed = value.clone();
        let place = self.0.iter().try_fold(&mut changed, |value, step| match step {
            Step::Field(name) => value.get_mut(name),
            Step::Element(index) => value.get_mut(index),
        });
        *place? = to;
        Some(changed)
    }

    fn without(&self, value: &Value) -> Option<Value> {
        let (last, parents) = self.0.split_last()?;
        let mut changed = value.clone();
        let parent = parents.iter().try_fold(&mut changed, |value, step| match step {
            Step::Field(name) => value.get_mut(name),
            Step::Element(index) => value.get_mut(index),
        })?;
        match last {
            Step::Field(name) => drop(parent.as_object_mut()?.remove(name)?),
            Step::Element(index) => drop(parent.as_array_mut()?.remove(*index)),
        }
        Some(changed)
    }
}

impl Entry<'_> {
    /// The entry as the table states it.
    pub fn value(&self) -> &Value {
        match self {
            Self::Carrier(value) | Self::Head(value) => value,
        }
    }

    /// Every place at which something is stated that could be left out.
    pub fn places(&self) -> Vec<Place> {
        let mut places = Vec::new();
        walk(self.value(), &Place(Vec::new()), false, &mut places);
        places
    }
}

/// An entry without each of its facts.
pub fn without_each(entry: &Entry) -> Vec<(Place, Value)> {
    let value = entry.value();
    entry.places().into_iter().filter_map(|place| place.without(value).map(|less| (place, less))).collect()
}

fn walk(value: &Value, at: &Place, of_facts: bool, places: &mut Vec<Place>) {
    let below = |step| Place(at.0.iter().cloned().chain([step]).collect());
    match value {
        Value::Object(fields) => {
            for (name, field) in fields {
                let top = at.0.is_empty();
                // A motor, pump or door has a kind that is a fact; an entry's own kind says what it is.
                if NAMES.contains(&name.as_str()) && (top || name != "kind") {
                    continue;
                }
                let place = below(Step::Field(name.clone()));
                walk(field, &place, OF_FACTS.contains(&name.as_str()), places);
                places.push(place);
            }
        }
        Value::Array(elements) => {
            for (index, element) in elements.iter().enumerate() {
                let place = below(Step::Element(index));
                walk(element, &place, false, places);
                if of_facts {
                    places.push(place);
                }
            }
        }
        _ => {}
    }
}

/// The next of a row of numbers that look drawn (the constants of Knuth's MMIX generator).
pub fn next(state: u64) -> u64 {
    state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407)
}
