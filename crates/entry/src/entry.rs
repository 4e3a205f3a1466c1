//! An entry by itself, as its JSON text stands in the table.

use crate::fields::{is_asked, steps, target};
use crate::splice::{self, Step};
use crate::value::{typed, value};
use serde_json::{Value, json};
use spreadsheet::{Field, Role, Target, ids};
use std::collections::HashSet;
use table::{Fault, Problem};

/// A machine or an attachment as its text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Its list.
    pub role: Role,
    /// Its text: an object.
    pub(crate) text: String,
}

/// Whether a value holds fields of its own. Of a list of objects only that it is empty is a statement by itself.
fn holds_more(value: &Value) -> bool {
    value.is_object() || value.as_array().is_some_and(|items| items.iter().any(Value::is_object))
}

/// A field in the items at these places; the first of each list that is further on the way.
fn at_places(field: &'static Field, places: &[usize]) -> Target {
    let all: Vec<usize> = places.iter().copied().chain(std::iter::repeat(0)).take(field.lists_above()).collect();
    target(field, &all)
}

/// Something wrong or improbable, with the field at which it is told; none where no field of a form holds it.
pub type AtField = (Option<Target>, Problem);

impl Entry {
    /// An entry of a list without anything in it.
    pub fn blank(role: Role) -> Self {
        Self { role, text: "{}".to_owned() }
    }

    fn at(&self, target: &Target) -> Value {
        let text = splice::get(&self.text, &steps(target));
        text.and_then(|text| serde_json::from_str(text).ok()).unwrap_or_default()
    }

    /// What stands at a field, as it would be typed; empty where nothing is stated.
    pub fn typed(&self, target: &Target) -> String {
        let value = self.at(target);
        if holds_more(&value) { String::new() } else { typed(&value, target) }
    }

    /// Whether a field holds others, so that nothing can be typed over it.
    pub fn holds_others(&self, target: &Target) -> bool {
        holds_more(&self.at(target))
    }

    /// Writes a field; takes it out where nothing is typed. What stands there already is left exactly as it is.
    pub fn write(&mut self, target: &Target, text: &str) {
        let steps = steps(target);
        if text.trim() == self.typed(target).trim() || self.holds_others(target) {
            return;
        }
        if text.trim().is_empty() {
            self.text = splice::remove(&self.text, &steps).unwrap_or_else(|| {
                // What is not there needs no removing; what would leave nothing leaves an empty object.
                if splice::get(&self.text, &steps).is_some() { "{}".to_owned() } else { self.text.clone() }
            });
            return;
        }
        self.give_ids(&steps);
        self.text = splice::set(&self.text, &steps, &value(text, target));
    }

    /// Gives an id to an item of a list on the way that is not there yet, where the format asks for one.
    fn give_ids(&mut self, steps: &[Step]) {
        let (Some(Step::Key(list)), Some(Step::Item(place))) = (steps.first(), steps.get(1)) else { return };
        let usual = ids::OF_ITEMS.iter().find(|(known, _)| known == list && self.role == Role::Machines);
        if let Some((list, usual)) = usual.filter(|_| splice::get(&self.text, &steps[..2]).is_none()) {
            let mut taken = self.ids_in(list).into_iter().collect::<HashSet<_>>();
            let id = ids::free(&mut taken, usual);
            let at = [Step::key(list), Step::Item(*place), Step::key("id")];
            self.text = splice::set(&self.text, &at, &json!(id));
        }
    }

    /// The ids in one of its lists.
    pub fn ids_in(&self, list: &str) -> Vec<String> {
        let items = self.value()[list].as_array().cloned().unwrap_or_default();
        items.iter().filter_map(|item| item["id"].as_str().map(str::to_owned)).collect()
    }

    fn value(&self) -> Value {
        serde_json::from_str(&self.text).unwrap_or_default()
    }

    fn text_at(&self, key: &str) -> Option<String> {
        splice::get(&self.text, &[Step::key(key)]).and_then(|text| serde_json::from_str(text).ok())
    }

    /// Its id.
    pub fn id(&self) -> Option<String> {
        self.text_at("id")
    }

    /// Maker and model; none where it has no model.
    pub fn name(&self) -> Option<String> {
        Some(table::full_name(self.text_at("maker").as_deref(), &self.text_at("model")?))
    }

    /// With this id, which it has not had before.
    pub(crate) fn with_id(mut self, id: &str) -> Self {
        self.text = if self.text == "{}" {
            json!({ "id": id }).to_string()
        } else {
            // In front, as in every table.
            format!("{{\"id\": {}, {}", json!(id), &self.text[1..])
        };
        self
    }

    /// What is wrong or improbable, as the reader of tables says it, by field.
    pub fn problems(&self) -> Vec<AtField> {
        let list = self.role.list();
        let other = if list == "heads" { "carriers" } else { "heads" };
        let text = format!(
            "{{\"format\": {}, \"version\": {}, \"title\": \"x\", \"{other}\": [], \"{list}\": [{}]}}",
            json!(table::FORMAT),
            table::VERSION,
            self.text
        );
        let entry = format!("/{list}/0");
        let at = |mut problem: Problem| {
            let pointer = problem.pointer.strip_prefix(&entry)?.to_owned();
            let place = self.place_of(&pointer, &problem.fault);
            if let Some(target) = &place {
                problem.found = table::read::shortened(&self.typed(target));
            }
            problem.pointer = pointer;
            Some((place, problem))
        };
        table::read(&text).problems.into_iter().filter_map(at).collect()
    }

    /// The field at which a problem is told.
    fn place_of(&self, pointer: &str, fault: &Fault) -> Option<Target> {
        let mut parts: Vec<String> =
            pointer.split('/').skip(1).map(|step| step.replace("~1", "/").replace("~0", "~")).collect();
        if let Fault::MissingField { field } | Fault::MisspeltField { field } = fault {
            if let Fault::MisspeltField { .. } = fault {
                parts.pop();
            }
            parts.push((*field).to_owned());
        }
        let dotted: Vec<String> = parts
            .iter()
            .map(|part| part.parse::<usize>().map_or(part.clone(), |place| (place + 1).to_string()))
            .collect();
        let named = Target::named(self.role, &dotted.join("."))?;
        if is_asked(named.field) {
            // One item of a list of values is told at the whole of it.
            return Some(target(named.field, &named.places));
        }
        // At the first of its fields that is stated, else at the first.
        let within = format!("{}.", named.field.name);
        let inner = self.role.fields().0.iter().filter(|field| field.name.starts_with(&within) && is_asked(field));
        let inner: Vec<Target> = inner.map(|field| at_places(field, &named.places)).collect();
        inner.iter().find(|target| !self.typed(target).is_empty()).or(inner.first()).cloned()
    }

    /// The fields for which something is stated, in the order of the format.
    pub fn stated(&self) -> Vec<Target> {
        self.reachable(false).into_iter().filter(|target| !self.typed(target).is_empty()).collect()
    }

    /// Every field that may be written: in each item of each list, and in one more behind it.
    pub fn writable(&self) -> Vec<Target> {
        self.reachable(true)
    }

    fn reachable(&self, one_more: bool) -> Vec<Target> {
        let value = self.value();
        let mut all = Vec::new();
        for field in self.role.fields().0.iter().filter(|field| is_asked(field)) {
            let mut places = vec![(Vec::new(), Some(&value))];
            let above = field.steps.len() - 1;
            for (key, is_list) in &field.steps[..above] {
                let mut next = Vec::new();
                for (at, holder) in places {
                    let inner = holder.and_then(|holder| holder.get(key));
                    if *is_list {
                        let items: &[Value] = inner.and_then(Value::as_array).map_or(&[], Vec::as_slice);
                        // Where there is none yet, its first; else one more.
                        let last = items.len() + usize::from(one_more);
                        next.extend((0..last).map(|place| ([&at[..], &[place]].concat(), items.get(place))));
                    } else {
                        next.push((at, inner));
                    }
                }
                places = next;
            }
            all.extend(places.into_iter().map(|(at, _)| target(field, &at)));
        }
        // Item by item: what is said of one pump stands together.
        all.sort_by_key(|target| order(self.role, target));
        all
    }
}

/// By which targets stand as in a table: for each step its place among the fields, and which item of a list it is.
fn order(role: Role, target: &Target) -> Vec<usize> {
    let (mut places, mut name, mut order) = (target.places.iter(), String::new(), Vec::new());
    for (key, is_list) in &target.field.steps {
        name = if name.is_empty() { (*key).to_owned() } else { format!("{name}.{key}") };
        order.push(role.fields().place_of(&name).unwrap_or_default());
        order.extend(is_list.then(|| places.next().copied()).flatten());
    }
    order
}
