//! JSON objects being read: they keep duplicate keys apart and know which of their fields nobody asked for.

use super::context::{Context, is_unseen};
use super::nearest::nearest;
use super::node::{Node, Place, Text};
use crate::bounds::Bounds;
use crate::{Fault, Id};
use quantity::{Kind, Named, Range, Stated};
use serde::Deserialize;
use serde::de::{Deserializer, MapAccess, Visitor};
use serde_json::value::RawValue;
use std::borrow::Cow;
use std::cell::RefCell;
use std::collections::HashSet;

/// The longest name, note or address, in characters.
pub const TEXT_LENGTH: usize = 400;

/// The members of an object in their order, duplicates kept.
struct Members<'a>(Vec<(Cow<'a, str>, &'a RawValue)>);

impl<'de> Deserialize<'de> for Members<'de> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Collect;
        impl<'de> Visitor<'de> for Collect {
            type Value = Members<'de>;

            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str("an object")
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Self::Value, A::Error> {
                let mut members = Vec::new();
                while let Some((Text(key), value)) = map.next_entry()? {
                    members.push((key, value));
                }
                Ok(Members(members))
            }
        }
        deserializer.deserialize_map(Collect)
    }
}

/// No object of the format has many more fields.
const USUAL_FIELDS: usize = 32;

/// The keys that an object has had so far: compared one by one while they are few, hashed when they are many.
#[derive(Default)]
struct Seen<'a> {
    few: Vec<Cow<'a, str>>,
    many: HashSet<Cow<'a, str>>,
}

impl<'a> Seen<'a> {
    fn is_first(&mut self, key: Cow<'a, str>) -> bool {
        if self.few.contains(&key) || self.many.contains(&key) {
            return false;
        }
        if self.few.len() < USUAL_FIELDS {
            self.few.push(key);
        } else {
            self.many.insert(key);
        }
        true
    }
}

/// An object being read.
pub struct Object<'c, 'a> {
    /// Where problems go.
    pub context: &'c Context<'a>,
    raw: &'a RawValue,
    place: Place<'c>,
    members: Vec<(Cow<'a, str>, &'a RawValue)>,
    asked: RefCell<Vec<&'static str>>,
    /// Keys that were named as a misspelt field already.
    misspelt: RefCell<Vec<Cow<'a, str>>>,
}

impl<'c, 'a> Object<'c, 'a> {
    /// The object of this text; of a key that stands twice, the first value counts.
    pub fn new(context: &'c Context<'a>, raw: &'a RawValue, place: Place<'c>) -> Option<Self> {
        let mut members = match serde_json::from_str(raw.get()) {
            Ok(Members(members)) => members,
            Err(error) => {
                context.note_syntax(raw.get(), || Node::at(context, raw, place).pointer(), &error);
                return None;
            }
        };
        let mut seen = Seen::default();
        members.retain(|(key, value)| {
            let first = seen.is_first(key.clone());
            if !first {
                Node::member(context, value, &place, key).error(Fault::DuplicateKey);
            }
            first
        });
        let asked = RefCell::new(Vec::with_capacity(USUAL_FIELDS));
        Some(Self { context, raw, place, members, asked, misspelt: RefCell::default() })
    }

    /// The object as a value.
    pub fn node(&self) -> Node<'_, 'a> {
        Node::at(self.context, self.raw, self.place)
    }

    /// The value of a field; `null` is as good as absent.
    pub fn get(&self, field: &'static str) -> Option<Node<'_, 'a>> {
        self.asked.borrow_mut().push(field);
        let (key, raw) = self.members.iter().find(|(key, _)| key == field)?;
        Some(Node::member(self.context, raw, &self.place, key)).filter(|node| !node.is_null())
    }

    /// The value of a field that must be there.
    pub fn required(&self, field: &'static str) -> Option<Node<'_, 'a>> {
        let node = self.get(field);
        if node.is_none() {
            let present = |(key, raw): &(Cow<'a, str>, &'a RawValue)| {
                (nearest(key, &[field]).is_some() && raw.get() != "null").then(|| (key.clone(), *raw))
            };
            match self.members.iter().find_map(present) {
                Some((key, raw)) => {
                    Node::member(self.context, raw, &self.place, &key).error(Fault::MisspeltField { field });
                    self.misspelt.borrow_mut().push(key);
                }
                None => self.node().error(Fault::MissingField { field }),
            }
        }
        node
    }

    /// A text of at least one visible character on one line.
    pub fn text(&self, field: &'static str) -> Option<String> {
        sound_text(self.get(field)?)
    }

    /// A text that must be there.
    pub fn required_text(&self, field: &'static str) -> Option<String> {
        sound_text(self.required(field)?)
    }

    /// A text of a form that `make` knows.
    pub fn parsed<T>(&self, field: &'static str, make: impl Fn(&str) -> Option<T>, fault: Fault) -> Option<T> {
        let node = self.get(field)?;
        let value = make(&node.text()?);
        if value.is_none() {
            node.error(fault);
        }
        value
    }

    /// A web address.
    pub fn link(&self, field: &'static str) -> Option<String> {
        let sound = |text: &str| {
            let rest = text.strip_prefix("https://").or_else(|| text.strip_prefix("http://"))?;
            let host = rest.starts_with(|c: char| c.is_alphanumeric() || c == '[');
            let seen = !text.contains(|c: char| is_unseen(c) || c.is_whitespace());
            (host && seen && text.chars().count() <= TEXT_LENGTH).then(|| text.to_owned())
        };
        self.parsed(field, sound, Fault::NotALink)
    }

    /// The object's own identifier, which must be there.
    pub fn id(&self) -> Option<Id> {
        let node = self.required("id")?;
        let id = Id::new(&node.text()?);
        if id.is_none() {
            node.error(Fault::NotAnId);
        }
        id
    }

    /// A reference to an identifier.
    pub fn reference(&self, field: &'static str, what: &'static str, known: &HashSet<&str>) -> Option<Id> {
        reference(self.get(field)?, what, known)
    }

    /// References to identifiers, each once.
    pub fn references(&self, field: &'static str, what: &'static str, known: &HashSet<&str>) -> Vec<Id> {
        let mut ids = Vec::new();
        let mut seen = HashSet::new();
        self.each_node(field, |node| {
            let Some(id) = reference(node, what, known) else { return };
            if seen.insert(id.clone()) {
                ids.push(id);
            } else {
                node.warning(Fault::DuplicateId);
            }
        });
        ids
    }

    /// A name out of a closed list.
    pub fn named<T: Named>(&self, field: &'static str) -> Option<T> {
        self.get(field)?.named()
    }

    /// A name out of a closed list, which must be there.
    pub fn required_name<T: Named>(&self, field: &'static str) -> Option<T> {
        self.required(field)?.named()
    }

    /// Names out of a closed list.
    pub fn names<T: Named>(&self, field: &'static str) -> Vec<T> {
        let mut names = Vec::new();
        self.each_node(field, |node| names.extend(node.named::<T>()));
        names
    }

    /// A stated quantity.
    pub fn stated<Q: Kind>(&self, field: &'static str, bounds: Bounds) -> Option<Stated<Q>> {
        self.get(field)?.stated(bounds)
    }

    /// A stated quantity that must be there.
    pub fn required_stated<Q: Kind>(&self, field: &'static str, bounds: Bounds) -> Option<Stated<Q>> {
        self.required(field)?.stated(bounds)
    }

    /// A range to choose from.
    pub fn range<Q: Kind>(&self, field: &'static str, bounds: Bounds) -> Option<Range<Q>> {
        self.get(field)?.range(bounds)
    }

    /// Yes or no.
    pub fn flag(&self, field: &'static str) -> Option<bool> {
        self.get(field)?.flag()
    }

    /// Yes or no, which must be there.
    pub fn required_flag(&self, field: &'static str) -> Option<bool> {
        self.required(field)?.flag()
    }

    /// A whole number from `least` on; `expected` says so in words.
    pub fn count<T: TryFrom<u64>>(&self, field: &'static str, least: u64, expected: &'static str) -> Option<T> {
        let node = self.get(field)?;
        let count = node.source().parse().ok().filter(|count| *count >= least);
        let count = count.and_then(|count| T::try_from(count).ok());
        if count.is_none() {
            node.wrong(expected);
        }
        count
    }

    /// Visits the values of a list; there is nothing to visit when it is absent.
    pub fn each_node(&self, field: &'static str, visit: impl FnMut(Node<'_, 'a>)) {
        if let Some(node) = self.get(field) {
            node.each(visit);
        }
    }

    /// Reads a field that is an object; `read` may always find something or not.
    pub fn nested<T, R: Into<Option<T>>>(&self, field: &'static str, read: impl Fn(&Object<'_, 'a>) -> R) -> Option<T> {
        read_whole(self.get(field)?, read)
    }

    /// Reads a field that is a list of objects.
    pub fn each<T, R: Into<Option<T>>>(&self, field: &'static str, read: impl Fn(&Object<'_, 'a>) -> R) -> Vec<T> {
        let mut values = Vec::new();
        self.each_node(field, |node| values.extend(read_whole(node, &read)));
        values
    }

    /// Reads a field that is a list of objects with an id; the second of two with one id is set aside.
    pub fn each_with_id<T>(
        &self,
        field: &'static str,
        read: impl Fn(&Object<'_, 'a>) -> Option<T>,
        id: impl Fn(&T) -> &Id,
    ) -> Vec<T> {
        let seen = SeenIds::default();
        self.each(field, |object| read(object).filter(|value| seen.is_first(object, id(value))))
    }

    /// Warns of every field that nobody asked for.
    pub fn warn_of_unknown_fields(&self) {
        let asked = self.asked.borrow();
        self.context.knows(&asked);
        for (key, raw) in &self.members {
            if !asked.iter().any(|known| known == key) && !self.misspelt.borrow().contains(key) {
                let near = if self.context.is_full() { None } else { nearest(key, &asked) };
                Node::member(self.context, raw, &self.place, key).warning(Fault::UnknownField { near });
            }
        }
    }
}

/// The ids that a list has had so far.
#[derive(Default)]
pub struct SeenIds(RefCell<HashSet<Id>>);

impl SeenIds {
    /// Whether the object's id is the first of its name; it is an error if not.
    pub fn is_first(&self, object: &Object, id: &Id) -> bool {
        let first = self.0.borrow_mut().insert(id.clone());
        if !first && let Some(node) = object.get("id") {
            node.error(Fault::DuplicateId);
        }
        first
    }
}

/// Reads an object with all its fields; `read` must ask for each of them even when one is wrong.
pub fn read_whole<'a, T, R: Into<Option<T>>>(node: Node<'_, 'a>, read: impl Fn(&Object<'_, 'a>) -> R) -> Option<T> {
    let object = node.object()?;
    let value = read(&object).into();
    object.warn_of_unknown_fields();
    value
}

fn sound_text(node: Node) -> Option<String> {
    let text = node.text()?;
    let sound = !text.trim().is_empty() && text.chars().count() <= TEXT_LENGTH && !text.contains(is_unseen);
    if !sound {
        node.error(Fault::BadText { most: TEXT_LENGTH });
    }
    sound.then(|| text.into_owned())
}

fn reference(node: Node, what: &'static str, known: &HashSet<&str>) -> Option<Id> {
    let text = node.text()?;
    let id = known.contains(&*text).then(|| Id::new(&text)).flatten();
    if id.is_none() {
        let mut known: Vec<_> = known.iter().map(|id| (*id).to_owned()).collect();
        known.sort_unstable();
        node.error(Fault::UnknownReference { what, known });
    }
    id
}

impl<'n, 'a> Node<'n, 'a> {
    /// Its members, when it is an object. A key that stands twice is an error.
    pub fn object(&self) -> Option<Object<'n, 'a>> {
        if !self.source().starts_with('{') {
            self.wrong("an object in braces");
            return None;
        }
        Object::new(self.context, self.raw, self.place)
    }
}
