//! JSON with places: objects keep duplicate keys, and every value knows where in the text it stands.

use crate::table::bounds::Bounds;
use crate::table::{Fault, Id, Problem, Severity};
use crate::quantity::{Kind, Named, Range, Spread, Stated, text};
use serde::Deserialize;
use serde::de::{Deserializer, MapAccess, Visitor};
use serde_json::value::RawValue;
use std::cell::RefCell;

/// The text being read and the problems found so far.
pub struct Context<'a> {
    text: &'a str,
    /// Where each line begins.
    lines: Vec<usize>,
    problems: RefCell<Vec<(usize, Problem)>>,
}

impl<'a> Context<'a> {
    /// A fresh context for a text.
    pub fn new(text: &'a str) -> Self {
        let ends = text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n').map(|(at, _)| at + 1);
        Self { text, lines: std::iter::once(0).chain(ends).collect(), problems: RefCell::default() }
    }

    /// Notes a problem at a place in the text.
    pub fn problem(&self, severity: Severity, at: usize, pointer: &str, found: &str, fault: Fault) {
        let line = self.lines.partition_point(|start| *start <= at).max(1);
        let start = self.lines[line - 1];
        let column = self.text.get(start..at).map_or(0, |before| before.chars().count()) + 1;
        let problem = Problem { severity, pointer: pointer.to_owned(), line, column, found: shortened(found), fault };
        self.problems.borrow_mut().push((at, problem));
    }

    /// How many errors have been noted.
    pub fn errors(&self) -> usize {
        self.problems.borrow().iter().filter(|(_, problem)| problem.severity == Severity::Error).count()
    }

    /// All problems in the order of the text.
    pub fn into_problems(self) -> Vec<Problem> {
        let mut problems = self.problems.into_inner();
        problems.sort_by_key(|(at, _)| *at);
        problems.into_iter().map(|(_, problem)| problem).collect()
    }

    fn offset(&self, raw: &RawValue) -> usize {
        (raw.get().as_ptr() as usize).saturating_sub(self.text.as_ptr() as usize)
    }
}

/// The longest piece of text that a problem shows, in characters.
const SHOWN: usize = 60;

/// Text for showing: on one line, without control characters, cut to a readable length.
fn shortened(text: &str) -> String {
    let mut shown: String = text
        .chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .take(SHOWN + 1)
        .collect();
    if shown.chars().count() > SHOWN {
        shown = shown.chars().take(SHOWN - 1).collect();
        shown.push('…');
    }
    shown
}

/// A value at its place.
#[derive(Clone, Debug)]
pub struct Node<'a> {
    raw: &'a RawValue,
    at: usize,
    /// Its JSON Pointer.
    pub pointer: String,
}

/// The members of an object in their order, duplicates kept.
struct Members<'a>(Vec<(String, &'a RawValue)>);

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
                while let Some(member) = map.next_entry()? {
                    members.push(member);
                }
                Ok(Members(members))
            }
        }
        deserializer.deserialize_map(Collect)
    }
}

impl<'a> Node<'a> {
    /// The whole text as one value.
    pub fn root(context: &Context<'a>) -> Result<Self, serde_json::Error> {
        let raw: &RawValue = serde_json::from_str(context.text)?;
        Ok(Self { raw, at: context.offset(raw), pointer: String::new() })
    }

    fn is_null(&self) -> bool {
        self.raw.get() == "null"
    }

    /// Notes that it is of another JSON type than expected.
    pub fn wrong(&self, context: &Context, expected: &'static str) {
        self.error(context, Fault::WrongType { expected });
    }

    /// Notes an error at this value.
    pub fn error(&self, context: &Context, fault: Fault) {
        context.problem(Severity::Error, self.at, &self.pointer, self.raw.get(), fault);
    }

    /// Notes a warning at this value.
    pub fn warning(&self, context: &Context, fault: Fault) {
        context.problem(Severity::Warning, self.at, &self.pointer, self.raw.get(), fault);
    }

    /// Its text, when it is a string.
    pub fn text(&self, context: &Context) -> Option<String> {
        if !self.raw.get().starts_with('"') {
            self.wrong(context, "a text in quotes");
            return None;
        }
        match serde_json::from_str(self.raw.get()) {
            Ok(text) => Some(text),
            // A lone surrogate, which JSON's grammar lets pass.
            Err(error) => {
                self.error(context, Fault::NotJson(error.to_string()));
                None
            }
        }
    }

    /// A name out of a closed list.
    pub fn named<T: Named>(&self, context: &Context) -> Option<T> {
        let name = self.text(context)?;
        let value = T::from_name(&name);
        if value.is_none() {
            let known: Vec<_> = T::ALL.iter().map(|value| value.name()).collect();
            let near = nearest(&name, &known);
            self.error(context, Fault::UnknownName { what: T::WHAT, known, near });
        }
        value
    }

    /// A stated quantity within bounds.
    pub fn stated<Q: Kind>(&self, context: &Context, bounds: Bounds) -> Option<Stated<Q>> {
        let stated: Stated<Q> = self.quantity::<Q, _>(context, text::read)?;
        let ends = match stated.spread {
            Spread::Range { low, high } => [low, high],
            Spread::Unstated | Spread::Relative(_) => [stated.nominal; 2],
        };
        self.within(context, ends, bounds).then_some(stated)
    }

    /// A range to choose from within bounds.
    pub fn range<Q: Kind>(&self, context: &Context, bounds: Bounds) -> Option<Range<Q>> {
        let range: Range<Q> = self.quantity::<Q, _>(context, text::read_range)?;
        self.within(context, [range.low, range.high], bounds).then_some(range)
    }

    fn quantity<Q: Kind, R>(&self, context: &Context, read: fn(&str) -> Result<R, text::TextFault>) -> Option<R> {
        // A bare JSON number is a number without a unit, which the grammar says best.
        let text = if self.raw.get().starts_with(|c: char| c.is_ascii_digit() || c == '-') {
            self.raw.get().to_owned()
        } else {
            self.text(context)?
        };
        match read(&text) {
            Ok(quantity) => Some(quantity),
            Err(fault) => {
                self.error(context, Fault::Quantity { expected: Q::DIMENSION, fault });
                None
            }
        }
    }

    fn within<Q: Kind>(&self, context: &Context, ends: [Q; 2], bounds: Bounds) -> bool {
        let outside = |(least, greatest): (f64, f64)| {
            // A billionth of slack, so that a bound itself passes in every unit.
            let slack = 1e-9 * greatest.abs();
            ends.iter().any(|end| {
                let figure = bounds.unit.of_si(end.si());
                !(figure >= least - slack && figure <= greatest + slack)
            })
        };
        if outside(bounds.possible) {
            let (least, greatest) = bounds.possible;
            self.error(context, Fault::Impossible { least, greatest, unit: bounds.unit });
            return false;
        }
        if outside(bounds.usual) {
            let (least, greatest) = bounds.usual;
            self.warning(context, Fault::Improbable { least, greatest, unit: bounds.unit });
        }
        true
    }

    /// Its values, when it is an array.
    pub fn items(&self, context: &Context<'a>) -> Vec<Node<'a>> {
        if !self.raw.get().starts_with('[') {
            self.wrong(context, "a list in square brackets");
            return Vec::new();
        }
        let items: Vec<&'a RawValue> = match serde_json::from_str(self.raw.get()) {
            Ok(items) => items,
            Err(error) => {
                self.error(context, Fault::NotJson(error.to_string()));
                return Vec::new();
            }
        };
        let node = |(index, raw): (usize, &'a RawValue)| Node {
            raw,
            at: context.offset(raw),
            pointer: format!("{}/{index}", self.pointer),
        };
        items.into_iter().enumerate().map(node).collect()
    }

    /// Its members, when it is an object. A key that stands twice is an error.
    pub fn object<'c>(&self, context: &'c Context<'a>) -> Option<Object<'c, 'a>> {
        if !self.raw.get().starts_with('{') {
            self.wrong(context, "an object in braces");
            return None;
        }
        let members: Members<'a> = match serde_json::from_str(self.raw.get()) {
            Ok(members) => members,
            Err(error) => {
                self.error(context, Fault::NotJson(error.to_string()));
                return None;
            }
        };
        let mut object = Object { context, node: self.clone(), members: Vec::new(), asked: RefCell::default() };
        for (key, raw) in members.0 {
            let escaped = key.replace('~', "~0").replace('/', "~1");
            let node = Node { raw, at: context.offset(raw), pointer: format!("{}/{escaped}", self.pointer) };
            if object.members.iter().any(|(known, _)| *known == key) {
                node.error(context, Fault::DuplicateKey);
            } else {
                object.members.push((key, node));
            }
        }
        Some(object)
    }
}

/// The nearest of some names, when one is near enough to be what was meant.
pub fn nearest(name: &str, known: &[&'static str]) -> Option<&'static str> {
    let lower = name.to_lowercase();
    known
        .iter()
        .map(|&candidate| (strsim::damerau_levenshtein(&lower, candidate), candidate))
        .min_by_key(|(distance, _)| *distance)
        .filter(|(distance, candidate)| *distance <= 2.max(candidate.len() / 4))
        .map(|(_, candidate)| candidate)
}

/// An object being read: it remembers which fields were asked for, so that the others can be named as unknown.
pub struct Object<'c, 'a> {
    /// Where problems go.
    pub context: &'c Context<'a>,
    /// The object itself.
    pub node: Node<'a>,
    members: Vec<(String, Node<'a>)>,
    asked: RefCell<Vec<&'static str>>,
}

/// The longest name, note or address, in characters.
pub const TEXT_LENGTH: usize = 400;

impl<'a> Object<'_, 'a> {
    /// The value of a field; `null` is as good as absent.
    pub fn get(&self, field: &'static str) -> Option<&Node<'a>> {
        self.asked.borrow_mut().push(field);
        self.members.iter().find(|(key, _)| key == field).map(|(_, node)| node).filter(|node| !node.is_null())
    }

    /// The value of a field that must be there.
    pub fn required(&self, field: &'static str) -> Option<&Node<'a>> {
        let node = self.get(field);
        if node.is_none() {
            self.context.problem(
                Severity::Error,
                self.node.at,
                &self.node.pointer,
                self.node.raw.get(),
                Fault::MissingField { field },
            );
        }
        node
    }

    /// A text of at least one visible character, without control characters.
    pub fn text(&self, field: &'static str) -> Option<String> {
        self.get(field).and_then(|node| self.sound_text(node))
    }

    /// A text that must be there.
    pub fn required_text(&self, field: &'static str) -> Option<String> {
        self.required(field).and_then(|node| self.sound_text(node))
    }

    fn sound_text(&self, node: &Node) -> Option<String> {
        let text = node.text(self.context)?;
        let sound = !text.trim().is_empty() && text.chars().count() <= TEXT_LENGTH && !text.chars().any(char::is_control);
        if !sound {
            node.error(self.context, Fault::BadText { most: TEXT_LENGTH });
        }
        sound.then_some(text)
    }

    /// A text of a form that `make` knows.
    pub fn parsed<T>(&self, field: &'static str, make: impl Fn(&str) -> Option<T>, fault: Fault) -> Option<T> {
        let node = self.get(field)?;
        let value = make(&node.text(self.context)?);
        if value.is_none() {
            node.error(self.context, fault);
        }
        value
    }

    /// A web address.
    pub fn link(&self, field: &'static str) -> Option<String> {
        let sound = |text: &str| {
            let web = text.starts_with("https://") || text.starts_with("http://");
            (web && text.chars().count() <= TEXT_LENGTH && !text.contains(|c: char| c.is_control() || c.is_whitespace()))
                .then(|| text.to_owned())
        };
        self.parsed(field, sound, Fault::NotALink)
    }

    /// An identifier that must be there.
    pub fn id(&self, field: &'static str) -> Option<Id> {
        let node = self.required(field)?;
        let id = Id::new(&node.text(self.context)?);
        if id.is_none() {
            node.error(self.context, Fault::NotAnId);
        }
        id
    }

    /// A reference to an identifier.
    pub fn reference(&self, field: &'static str, what: &'static str, known: &[&Id]) -> Option<Id> {
        self.get(field).and_then(|node| reference(self.context, node, what, known))
    }

    /// References to identifiers.
    pub fn references(&self, field: &'static str, what: &'static str, known: &[&Id]) -> Vec<Id> {
        self.list(field).iter().filter_map(|node| reference(self.context, node, what, known)).collect()
    }

    /// A name out of a closed list.
    pub fn named<T: Named>(&self, field: &'static str) -> Option<T> {
        self.get(field)?.named(self.context)
    }

    /// Names out of a closed list.
    pub fn names<T: Named>(&self, field: &'static str) -> Vec<T> {
        self.list(field).iter().filter_map(|node| node.named(self.context)).collect()
    }

    /// A stated quantity.
    pub fn stated<Q: Kind>(&self, field: &'static str, bounds: Bounds) -> Option<Stated<Q>> {
        self.get(field)?.stated(self.context, bounds)
    }

    /// A range to choose from.
    pub fn range<Q: Kind>(&self, field: &'static str, bounds: Bounds) -> Option<Range<Q>> {
        self.get(field)?.range(self.context, bounds)
    }

    /// Yes or no.
    pub fn flag(&self, field: &'static str) -> Option<bool> {
        let node = self.get(field)?;
        match node.raw.get() {
            "true" => Some(true),
            "false" => Some(false),
            _ => {
                node.wrong(self.context, "true or false");
                None
            }
        }
    }

    /// A whole number.
    pub fn count<T: TryFrom<u32>>(&self, field: &'static str) -> Option<T> {
        let node = self.get(field)?;
        let count = node.raw.get().parse::<u32>().ok().and_then(|count| T::try_from(count).ok());
        if count.is_none() {
            node.wrong(self.context, "a whole number");
        }
        count
    }

    /// The values of an array; none when it is absent.
    pub fn list(&self, field: &'static str) -> Vec<Node<'a>> {
        self.get(field).map_or_else(Vec::new, |node| node.items(self.context))
    }

    /// Reads a field that is an object.
    pub fn nested<T>(&self, field: &'static str, read: impl Fn(&Object<'_, 'a>) -> Option<T>) -> Option<T> {
        let object = self.get(field)?.object(self.context)?;
        let value = read(&object);
        object.finish();
        value
    }

    /// Reads a field that is a list of objects.
    pub fn each<T>(&self, field: &'static str, read: impl Fn(&Object<'_, 'a>) -> Option<T>) -> Vec<T> {
        self.list(field)
            .iter()
            .filter_map(|node| {
                let object = node.object(self.context)?;
                let value = read(&object);
                object.finish();
                value
            })
            .collect()
    }

    /// Warns of every field that nobody asked for.
    pub fn finish(&self) {
        let asked = self.asked.borrow();
        for (key, node) in &self.members {
            if !asked.iter().any(|known| known == key) {
                node.warning(self.context, Fault::UnknownField { near: nearest(key, &asked) });
            }
        }
    }

    /// Warns of the object as a whole.
    pub fn warning(&self, fault: Fault) {
        self.node.warning(self.context, fault);
    }
}

fn reference(context: &Context, node: &Node, what: &'static str, known: &[&Id]) -> Option<Id> {
    let text = node.text(context)?;
    let id = known.iter().find(|id| id.as_str() == text).map(|id| (*id).clone());
    if id.is_none() {
        node.error(context, Fault::UnknownReference { what });
    }
    id
}

