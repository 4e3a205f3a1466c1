//! What becomes of each thing of a file where others are kept already. Nothing that is here is overwritten, and the same
//! file twice changes nothing the second time.

use super::{Bundle, Kept, Unreadable};
use crate::plate::OWN;
use crate::{
    ASIDE_PREFIX, HANDOVER_PREFIX, HandOver, KeptTable, Keyed, LONGEST_NAME, MACHINE_PREFIX, PHOTO_PREFIX,
    PREFERENCE_PREFIX, Photo, Plate, RecordFault, SAVED_PREFIX, Saved, TABLE_KEY, sound_name,
};
use serde_json::Value;
use std::collections::BTreeMap;
use table::{Id, LONGEST_PICTURE};

/// What a name ends with when its thing was put beside another of the same id.
const IMPORTED: &str = " (imported)";
/// The longest key of a text that nobody could read, in bytes.
const LONGEST_KEY: usize = 200;
/// The longest preference, in bytes: a letterhead with its logo.
const LONGEST_PREFERENCE: usize = 2 * LONGEST_PICTURE;

/// What a step is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// A saved comparison.
    Comparison,
    /// A machine of one's own.
    Machine,
    /// A record of a hand-over.
    HandOver,
    /// A photo of a plate.
    Photo,
    /// The table that is kept.
    Table,
    /// A preference.
    Preference,
    /// A text that nobody could read.
    Unreadable,
    /// Something under a key that is not the app's.
    Other,
}

/// What is done with a thing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Action {
    /// This text is kept under the key, where nothing is.
    Keep {
        /// The text.
        text: String,
    },
    /// It is here already, or one's own preference stays: nothing is to do.
    Same,
    /// Another thing is here under its id: this text is kept beside it, with an id and a name of its own.
    Beside {
        /// The text.
        text: String,
    },
    /// Another table is kept here: that one stays, and this is left out.
    TableLeft,
    /// It cannot be used.
    Refused(RecordFault),
}

/// One thing of a file, and what is done with it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// The key under which it is kept here.
    pub key: String,
    /// What a person calls it, here.
    pub name: String,
    /// What it is.
    pub what: Kind,
    /// What is done.
    pub action: Action,
}

impl Step {
    /// The text that is to be kept under the key, when there is one.
    pub fn text(&self) -> Option<&str> {
        match &self.action {
            Action::Keep { text } | Action::Beside { text } => Some(text),
            Action::Same | Action::TableLeft | Action::Refused(_) => None,
        }
    }
}

/// What is kept under ids.
trait Thing: Keyed {
    const KIND: Kind;
    /// Whether its id can be part of a key, and of whatever else it is part of.
    fn has_sound_id(&self) -> bool;
}

impl Thing for Saved {
    const KIND: Kind = Kind::Comparison;
    fn has_sound_id(&self) -> bool {
        (1..=Id::LONGEST).contains(&self.id.len()) && !self.id.contains(|c: char| c.is_control())
    }
}

impl Thing for Plate {
    const KIND: Kind = Kind::Machine;
    fn has_sound_id(&self) -> bool {
        !self.id.is_empty() && Id::new(&self.carrier_id()).is_ok()
    }
}

impl Thing for HandOver {
    const KIND: Kind = Kind::HandOver;
    fn has_sound_id(&self) -> bool {
        Id::new(&self.id).is_ok()
    }
}

/// What is to be done, given all that is kept here by its keys, and a maker of ids.
pub fn plan(bundle: &Bundle, here: &BTreeMap<String, String>, fresh: &mut dyn FnMut() -> String) -> Vec<Step> {
    let mut planner = Planner { after: here.clone(), fresh, moved: BTreeMap::new(), steps: Vec::new() };
    let of = |prefix: &'static str| bundle.kept.iter().filter(move |kept| kept.key.starts_with(prefix));
    // The machines first: what stands on one must follow it to another id.
    of(MACHINE_PREFIX).for_each(|kept| planner.machine(kept));
    of(PHOTO_PREFIX).for_each(|kept| planner.photo(kept));
    of(SAVED_PREFIX).for_each(|kept| planner.comparison(kept));
    of(HANDOVER_PREFIX).for_each(|kept| planner.hand_over(kept));
    for kept in &bundle.kept {
        if kept.key == TABLE_KEY {
            planner.table(kept);
        } else if kept.key.starts_with(PREFERENCE_PREFIX) {
            planner.preference(kept);
        } else if ![MACHINE_PREFIX, PHOTO_PREFIX, SAVED_PREFIX, HANDOVER_PREFIX]
            .iter()
            .any(|prefix| kept.key.starts_with(prefix))
        {
            let refused = Action::Refused(RecordFault::Foreign);
            planner.step(kept.key.clone(), name_of(kept), Kind::Other, refused);
        }
    }
    bundle.unreadable.iter().for_each(|unreadable| planner.unreadable(unreadable));
    planner.steps
}

struct Planner<'a> {
    /// What is kept here after the steps so far.
    after: BTreeMap<String, String>,
    fresh: &'a mut dyn FnMut() -> String,
    /// The ids of carriers that came in under another id.
    moved: BTreeMap<String, String>,
    steps: Vec<Step>,
}

impl Planner<'_> {
    fn step(&mut self, key: String, name: String, what: Kind, action: Action) {
        let step = Step { key, name, what, action };
        if let Some(text) = step.text() {
            self.after.insert(step.key.clone(), text.to_owned());
        }
        self.steps.push(step);
    }

    fn machine(&mut self, kept: &Kept) {
        if let Some((then, now)) = self.read::<Plate>(kept).and_then(|plate| {
            let now = self.place(&plate, kept.thing.to_string());
            (now != plate.id).then(|| (plate.carrier_id(), format!("{OWN}{now}")))
        }) {
            self.moved.insert(then, now);
        }
    }

    /// A photo goes with its machine; one's own stays.
    fn photo(&mut self, kept: &Kept) {
        let text = kept.thing.to_string();
        let (key, name, action) = match Photo::decode(&text) {
            Err(fault) => (kept.key.clone(), name_of(kept), Action::Refused(fault)),
            Ok(photo) => {
                let moved = self.moved.get(&format!("{OWN}{}", photo.machine)).and_then(|now| now.strip_prefix(OWN));
                let photo = Photo { machine: moved.unwrap_or(&photo.machine).to_owned(), ..photo };
                let machine = self.after.get(&format!("{MACHINE_PREFIX}{}", photo.machine));
                let name = machine.and_then(|text| Plate::decode(text).ok()).map(|plate| plate.name);
                let action = match (&name, self.after.contains_key(&photo.key())) {
                    // What belongs to no machine is of no use.
                    (None, _) => Action::Refused(RecordFault::Foreign),
                    (_, true) => Action::Same,
                    (_, false) => Action::Keep { text: photo.encode() },
                };
                (photo.key(), name.unwrap_or_else(|| name_of(kept)), action)
            }
        };
        self.step(key, name, Kind::Photo, action);
    }

    fn comparison(&mut self, kept: &Kept) {
        let Some(mut saved) = self.read::<Saved>(kept) else { return };
        let mut text = kept.thing.to_string();
        let carriers = saved.heads.iter_mut().filter_map(|head| head.carrier.as_mut());
        for carrier in std::iter::once(&mut saved.carrier).chain(carriers) {
            if let Some(now) = self.moved.get(&carrier.id) {
                carrier.id.clone_from(now);
                text.clear();
            }
        }
        if text.is_empty() {
            text = saved.encode();
        }
        self.place(&saved, text);
    }

    fn hand_over(&mut self, kept: &Kept) {
        let Some(mut record) = self.read::<HandOver>(kept) else { return };
        let text = match self.moved.get(&record.carrier.id) {
            Some(now) => {
                record.carrier.id.clone_from(now);
                record.encode()
            }
            None => kept.thing.to_string(),
        };
        self.place(&record, text);
    }

    /// A thing with a sound id; else that it is refused.
    fn read<T: Thing>(&mut self, kept: &Kept) -> Option<T> {
        let read = T::decode(&kept.thing.to_string());
        match read.and_then(|thing| if thing.has_sound_id() { Ok(thing) } else { Err(RecordFault::Damaged) }) {
            Ok(thing) => Some(thing),
            Err(fault) => {
                self.step(kept.key.clone(), name_of(kept), T::KIND, Action::Refused(fault));
                None
            }
        }
    }

    /// Finds a thing its place; the id that it has there.
    fn place<T: Thing>(&mut self, thing: &T, text: String) -> String {
        let key = format!("{}{}", T::PREFIX, thing.id());
        let named = |thing: &T| thing.name().to_owned();
        let Some(there) = self.after.get(&key) else {
            self.step(key, named(thing), T::KIND, Action::Keep { text });
            return thing.id().to_owned();
        };
        let others = self.after.range(T::PREFIX.to_owned()..).take_while(|(key, _)| key.starts_with(T::PREFIX));
        let same = T::decode(there).ok().filter(|there| there == thing).or_else(|| {
            // Or it came in beside that one before, and may have been given another name since.
            let mut others = others.filter_map(|(_, text)| T::decode(text).ok());
            others.find(|other| other.id() != thing.id() && thing.called(other.id(), other.name()) == *other)
        });
        if let Some(same) = same {
            self.step(format!("{}{}", T::PREFIX, same.id()), named(&same), T::KIND, Action::Same);
            return same.id().to_owned();
        }
        let id = self.free_id(T::PREFIX);
        let beside = thing.called(&id, &imported(thing.name()));
        let key = format!("{}{id}", T::PREFIX);
        self.step(key, named(&beside), T::KIND, Action::Beside { text: beside.encode() });
        id
    }

    fn free_id(&mut self, prefix: &str) -> String {
        let fresh = (self.fresh)();
        // A maker that repeats itself is helped on by numbers.
        let mut id = fresh.clone();
        let mut number = 2;
        while self.after.contains_key(&format!("{prefix}{id}")) {
            id = format!("{fresh}-{number}");
            number += 1;
        }
        id
    }

    fn table(&mut self, kept: &Kept) {
        let text = kept.thing.to_string();
        let (name, action) = match KeptTable::decode(&text) {
            Err(fault) => (name_of(kept), Action::Refused(fault)),
            Ok(table) => {
                let action = match self.after.get(TABLE_KEY).map(|there| KeptTable::decode(there)) {
                    None => Action::Keep { text },
                    // When it was loaded makes no other table of it.
                    Some(Ok(there)) if there == (KeptTable { loaded: there.loaded.clone(), ..table.clone() }) => {
                        Action::Same
                    }
                    Some(_) => Action::TableLeft,
                };
                (table.origin, action)
            }
        };
        self.step(kept.key.clone(), name, Kind::Table, action);
    }

    fn preference(&mut self, kept: &Kept) {
        let action = match kept.thing.as_str() {
            Some(text) if text.len() <= LONGEST_PREFERENCE && kept.key.len() <= LONGEST_KEY => {
                if self.after.contains_key(&kept.key) { Action::Same } else { Action::Keep { text: text.to_owned() } }
            }
            _ => Action::Refused(RecordFault::Damaged),
        };
        let name = kept.key.strip_prefix(PREFERENCE_PREFIX).unwrap_or_default().to_owned();
        self.step(kept.key.clone(), name, Kind::Preference, action);
    }

    fn unreadable(&mut self, Unreadable { key, text }: &Unreadable) {
        let name = key.strip_prefix(ASIDE_PREFIX).unwrap_or(key).to_owned();
        if key.len() > LONGEST_KEY {
            self.step(key.clone(), name, Kind::Unreadable, Action::Refused(RecordFault::Damaged));
            return;
        }
        let first = if key.starts_with(ASIDE_PREFIX) { key.clone() } else { format!("{ASIDE_PREFIX}{key}.0") };
        let further = (1_u32..).map(|number| format!("{}.{number}", first.strip_suffix(".0").unwrap_or(&first)));
        let mut places = std::iter::once(first.clone()).chain(further);
        let place = places.find(|place| self.after.get(place).is_none_or(|there| there == text)).unwrap_or(first);
        let action = if self.after.contains_key(&place) { Action::Same } else { Action::Keep { text: text.clone() } };
        self.step(place, name, Kind::Unreadable, action);
    }
}

/// The name of something that came in beside another.
fn imported(name: &str) -> String {
    let own = name.strip_suffix(IMPORTED).unwrap_or(name);
    let room = LONGEST_NAME - IMPORTED.chars().count();
    let own: String = own.chars().take(room).collect();
    format!("{}{IMPORTED}", own.trim_end())
}

/// What a person calls a thing that may not be readable: its name, where there is one, else its key.
fn name_of(kept: &Kept) -> String {
    let found =
        ["/saved/name", "/machine/name", "/handover/name"].iter().find_map(|place| kept.thing.pointer(place)?.as_str());
    let name = found.or_else(|| kept.thing.pointer("/table/origin").and_then(Value::as_str));
    name.and_then(sound_name).or_else(|| sound_name(&kept.key)).unwrap_or_default()
}
