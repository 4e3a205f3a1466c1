//! What is typed into the form of an entry and not yet in the table.

use crate::entry::{AtField, Entry};
use crate::splice::{self, Step};
use quantity::text::{self, TextFault};
use serde_json::json;
use spreadsheet::{Role, Target, ids};
use std::collections::HashSet;
use table::{Fault, Problem, Severity};

/// An entry with what is typed over it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Draft {
    /// The entry as it stands in the table; blank where it is a new one.
    base: Entry,
    /// What is typed, by the dotted names of the fields, in the order in which it was written first.
    changed: Vec<(String, String)>,
}

impl Draft {
    /// An entry as it stands.
    pub fn of(base: Entry) -> Self {
        Self { base, changed: Vec::new() }
    }

    /// Its list.
    pub fn role(&self) -> Role {
        self.base.role
    }

    /// The entry as it stands in the table.
    pub fn base(&self) -> &Entry {
        &self.base
    }

    /// How many fields are typed otherwise than they stand in the table.
    pub fn count(&self) -> usize {
        self.changed.len()
    }

    /// What stands in the form at a field.
    pub fn typed(&self, target: &Target) -> String {
        let name = target.name();
        let changed = self.changed.iter().find(|(known, _)| *known == name);
        changed.map_or_else(|| self.base.typed(target), |(_, text)| text.clone())
    }

    /// Types into a field.
    pub fn write(&mut self, target: &Target, text: &str) {
        let name = target.name();
        let is_as_before = text.trim() == self.base.typed(target).trim();
        match self.changed.iter().position(|(known, _)| *known == name) {
            Some(at) if is_as_before => drop(self.changed.remove(at)),
            Some(at) => text.clone_into(&mut self.changed[at].1),
            None if is_as_before => {}
            None => self.changed.push((name, text.to_owned())),
        }
    }

    /// The same typed over the entry as it stands now in the table.
    #[must_use]
    pub fn over(&self, base: Entry) -> Self {
        let mut over = Self::of(base);
        for (name, text) in &self.changed {
            if let Some(target) = Target::named(self.role(), name) {
                over.write(&target, text);
            }
        }
        over
    }

    /// The entry with what is typed. What is taken out goes last, from behind: no place in a list moves before it is written to.
    pub fn entry(&self) -> Entry {
        let mut entry = self.base.clone();
        let (mut gone, written): (Vec<_>, Vec<_>) =
            self.changed.iter().partition::<Vec<_>, _>(|(_, text)| text.trim().is_empty());
        for (name, text) in &written {
            if let Some(target) = Target::named(self.role(), name) {
                entry.write(&target, text);
            }
        }
        let places = |name: &str| Target::named(self.role(), name).map(|target| target.places).unwrap_or_default();
        gone.sort_by_key(|(name, _)| std::cmp::Reverse(places(name)));
        for (name, _) in &gone {
            if let Some(target) = Target::named(self.role(), name) {
                entry.write(&target, "");
            }
        }
        entry
    }

    /// The same with an id, where it has none yet: by its name, and none of those in the table.
    fn named(&self, table: &str) -> Entry {
        let entry = self.entry();
        if entry.id().is_some() {
            return entry;
        }
        let slug = entry.name().map(|name| ids::slug(&name)).filter(|slug| !slug.is_empty());
        let mut taken: HashSet<String> = ids_of(table, self.role()).into_iter().collect();
        let id = ids::free(&mut taken, slug.as_deref().unwrap_or(self.role().one()));
        entry.with_id(&id)
    }

    /// What is wrong or improbable with it, by field.
    pub fn problems(&self) -> Vec<AtField> {
        let entry = self.entry();
        let entry = if entry.id().is_some() { entry } else { entry.with_id("x") };
        entry.problems()
    }

    /// What a figure with a comma, or with spaces between its digits, likely means: each reading that would be taken without a word. None
    /// for one that is sound or wrong in another way.
    pub fn likely_meant(&self, target: &Target) -> Vec<String> {
        let name = target.name();
        let faults = |draft: &Self| -> Vec<Fault> {
            let at_it = |(at, _): &AtField| at.as_ref().is_some_and(|at| at.name() == name);
            draft.problems().into_iter().filter(at_it).map(|(_, problem)| problem.fault).collect()
        };
        let is_unclear = |fault: &Fault| {
            matches!(fault, Fault::Quantity { fault: TextFault::Comma | TextFault::BadNumber { .. }, .. })
        };
        if !faults(self).iter().any(is_unclear) {
            return Vec::new();
        }
        text::likely_meant(self.typed(target).trim(), |text| {
            let mut draft = self.clone();
            draft.write(target, text);
            // The unit is asked for next.
            let is_open = |fault: &Fault| matches!(fault, Fault::Quantity { fault: TextFault::NoUnit, .. });
            faults(&draft).iter().all(is_open)
        })
    }

    /// Whether it may be saved: something is typed, and nothing is wrong that was not wrong before.
    pub fn may_be_saved(&self) -> bool {
        let errors = |problems: Vec<AtField>| -> Vec<(String, Fault)> {
            let wrong = |(_, problem): &AtField| problem.severity == Severity::Error;
            problems.into_iter().filter(wrong).map(|(_, problem)| (problem.pointer, problem.fault)).collect()
        };
        let before = if self.base.id().is_some() { errors(self.base.problems()) } else { Vec::new() };
        self.count() > 0 && errors(self.problems()).iter().all(|wrong| before.contains(wrong))
    }

    /// The table's text with this entry in it, in its place or behind the others, and the entry's id. None where the entry was one of the
    /// table and is there no more.
    pub fn put_into(&self, table: &str) -> Option<(String, String)> {
        let (mark, text) = split_mark(table);
        let (draft, at) = match self.base.id() {
            Some(id) => {
                let place = place_of(text, self.role(), &id)?;
                // What another tab has written meanwhile stays.
                (self.over(entry_at(text, self.role(), place)?), Some(place))
            }
            None => (self.clone(), None),
        };
        let entry = draft.named(text);
        let id = entry.id()?;
        let list = Step::key(self.role().list());
        let count = splice::get(text, std::slice::from_ref(&list)).map_or(0, |list| splice::items(list).len());
        let steps = [list, Step::Item(at.unwrap_or(count))];
        Some((format!("{mark}{}", splice::put(text, &steps, &entry.text)), id))
    }
}

/// A mark of the order of bytes, which some editors put in front, and the rest.
fn split_mark(text: &str) -> (&str, &str) {
    text.split_at(text.len() - text.trim_start_matches('\u{feff}').len())
}

/// The ids of a list.
fn ids_of(table: &str, role: Role) -> Vec<String> {
    let list = splice::get(table, &[Step::key(role.list())]);
    let items = list.map(splice::items).unwrap_or_default();
    items.into_iter().filter_map(|text| Entry { role, text: text.to_owned() }.id()).collect()
}

/// The place of the first entry with an id in its list.
fn place_of(table: &str, role: Role, id: &str) -> Option<usize> {
    let list = splice::get(table, &[Step::key(role.list())])?;
    let written = json!(id).to_string();
    let has_it = |text: &&str| splice::get(text, &[Step::key("id")]) == Some(written.as_str());
    splice::items(list).iter().position(has_it)
}

fn entry_at(table: &str, role: Role, place: usize) -> Option<Entry> {
    let text = splice::get(table, &[Step::key(role.list()), Step::Item(place)])?.to_owned();
    text.starts_with('{').then_some(Entry { role, text })
}

/// The entry of a table with an id, also one that the table's reader leaves out; none where none has it.
pub fn of_table(table: &str, role: Role, id: &str) -> Option<Entry> {
    let (_, text) = split_mark(table);
    entry_at(text, role, place_of(text, role, id)?)
}

/// The table's text without an entry; none where none has the id.
pub fn without(table: &str, role: Role, id: &str) -> Option<String> {
    let (mark, text) = split_mark(table);
    let list = Step::key(role.list());
    let place = place_of(text, role, id)?;
    let last = splice::items(splice::get(text, std::slice::from_ref(&list))?).len() == 1;
    // The list itself must stay.
    let text =
        if last { splice::set(text, &[list], &json!([])) } else { splice::remove(text, &[list, Step::Item(place)])? };
    Some(format!("{mark}{text}"))
}

/// The entries that the reader of tables leaves out for an error in them, as far as they have an id by which they can be opened: list, id
/// and name.
pub fn left_out(table: &str, problems: &[Problem]) -> Vec<(Role, String, String)> {
    let (_, text) = split_mark(table);
    let mut found: Vec<(Role, String, String)> = Vec::new();
    for problem in problems.iter().filter(|problem| problem.severity == Severity::Error) {
        let mut steps = problem.pointer.split('/').skip(1);
        let (Some(list), Some(place)) = (steps.next(), steps.next().and_then(|place| place.parse().ok())) else {
            continue;
        };
        let role = [Role::Machines, Role::Attachments].into_iter().find(|role| role.list() == list);
        let Some(entry) = role.and_then(|role| entry_at(text, role, place)) else { continue };
        let Some(id) = entry.id().filter(|id| place_of(text, entry.role, id) == Some(place)) else { continue };
        if !found.iter().any(|(role, known, _)| *role == entry.role && *known == id) {
            let name = entry.name().unwrap_or_else(|| id.clone());
            found.push((entry.role, id, name));
        }
    }
    found
}
