//! JSON objects being read: they keep duplicate keys apart and know which of their fields nobody asked for.

use super::context::{Context, Ids};
use super::nearest::nearest;
use super::node::{Members, Node, Place};
use crate::{Contradiction, Fault, Id};
use quantity::{Dimension, Named, text};
use serde_json::value::RawValue;
use std::borrow::Cow;
use std::cell::RefCell;
use std::collections::HashSet;

/// The longest name, note or address, in characters.
pub const TEXT_LENGTH: usize = 400;

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
    members: Members<'a>,
    asked: RefCell<Vec<&'static str>>,
    /// Keys that were named as a misspelt field already.
    misspelt: RefCell<Vec<Cow<'a, str>>>,
}

impl<'c, 'a> Object<'c, 'a> {
    /// The object of this text; of a key that stands twice, the first value counts.
    pub fn new(context: &'c Context<'a>, raw: &'a RawValue, place: Place<'c>) -> Option<Self> {
        let mut members = match Members::of(raw) {
            Ok(members) => members,
            Err(error) => {
                context.note_syntax(raw.get(), || Node::at(context, raw, place).pointer(), &error);
                return None;
            }
        };
        let mut seen = Seen::default();
        members.0.retain(|(key, value)| {
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
        let (key, raw) = self.members.find(field)?;
        Some(Node::member(self.context, raw, &self.place, key)).filter(|node| !node.is_null())
    }

    /// The value of a field that must be there.
    pub fn required(&self, field: &'static str) -> Option<Node<'_, 'a>> {
        let node = self.get(field);
        if node.is_none() {
            let present = |(key, raw): &(Cow<'a, str>, &'a RawValue)| {
                (nearest(key, &[field]).is_some() && raw.get() != "null").then(|| (key.clone(), *raw))
            };
            match self.members.0.iter().find_map(present) {
                Some((key, raw)) => {
                    Node::member(self.context, raw, &self.place, &key).error(Fault::MisspeltField { field });
                    self.misspelt.borrow_mut().push(key);
                }
                None => self.node().error(Fault::MissingField { field }),
            }
        }
        node
    }

    /// A name out of a closed list, for looking ahead: nothing is noted when it is not there or none of them.
    pub fn ahead<T: Named>(&self, field: &str) -> Option<T> {
        T::from_name(&text_of(self.members.find(field)?.1)?)
    }

    /// A figure of an object in it, in SI, for looking ahead.
    pub fn figure_ahead(&self, object: &'static str, field: &str, dimension: Dimension) -> Option<f64> {
        let text = self.get(object)?.member_text(field)?;
        text::read_stated(&text, dimension).ok().map(|figure| figure.nominal.si())
    }

    /// The ids in a list of objects, for looking ahead.
    pub fn ids_ahead(&self, field: &str) -> Ids {
        let list = self.members.find(field).and_then(|(_, raw)| serde_json::from_str::<Vec<&RawValue>>(raw.get()).ok());
        let id = |raw| Id::new(&text_of(Members::of(raw).ok()?.find("id")?.1)?).ok();
        list.unwrap_or_default().into_iter().filter_map(id).map(|id| (id, None)).collect()
    }

    /// Warns of figures that cannot both be true, at one of them.
    pub fn warn(&self, path: &[&str], contradiction: Contradiction) {
        self.node().inside(path, &|node| node.warning(Fault::Contradiction(contradiction)));
    }

    /// Warns of every field that nobody asked for.
    pub fn warn_of_unknown_fields(&self) {
        let asked = self.asked.borrow();
        self.context.knows(&asked);
        for (key, raw) in &self.members.0 {
            if !asked.iter().any(|known| known == key) && !self.misspelt.borrow().contains(key) {
                let near = if self.context.is_full() { None } else { nearest(key, &asked) };
                Node::member(self.context, raw, &self.place, key).warning(Fault::UnknownField { near });
            }
        }
    }
}

/// Reads an object with all its fields; `read` must ask for each of them even when one is wrong.
pub fn read_whole<T>(node: Node, read: fn(&Object) -> Option<T>) -> Option<T> {
    let object = node.object()?;
    let value = read(&object);
    object.warn_of_unknown_fields();
    value
}

fn text_of(raw: &RawValue) -> Option<String> {
    serde_json::from_str(raw.get()).ok()
}

impl<'n, 'a> Node<'n, 'a> {
    /// Its members, when it is an object. A key that stands twice is an error.
    pub fn object(&self) -> Option<Object<'n, 'a>> {
        if !self.source().starts_with('{') {
            return self.refused(Fault::WrongType { expected: "an object in braces" });
        }
        Object::new(self.context, self.raw, self.place)
    }
}
