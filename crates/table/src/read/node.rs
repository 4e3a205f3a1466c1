//! JSON values that know where in the text they stand.

use super::context::{Context, SHOWN};
use super::nearest::nearest;
use crate::bounds::Bounds;
use crate::rule::Rule;
use crate::{Fault, FormFault, Severity};
use quantity::text::{self, TextFault};
use quantity::{Amount, Dimension, Named, Range, Spread, Stated, Unit, UnitSystem};
use serde::Deserialize;
use serde::de::{Deserializer, MapAccess, SeqAccess, Visitor};
use serde_json::value::RawValue;
use std::borrow::Cow;

/// A text that is only copied where it holds escapes.
#[derive(Deserialize)]
pub struct Text<'a>(#[serde(borrow)] pub Cow<'a, str>);

/// A value at its place.
#[derive(Clone, Copy)]
pub struct Node<'n, 'a> {
    pub(super) context: &'n Context<'a>,
    pub(super) raw: &'a RawValue,
    pub(super) place: Place<'n>,
}

/// Where a value stands: a chain of steps up to the root, which costs nothing until a problem asks for its pointer.
#[derive(Clone, Copy)]
pub struct Place<'n> {
    holder: Option<&'n Place<'n>>,
    step: Step<'n>,
}

/// One step of a pointer.
#[derive(Clone, Copy)]
enum Step<'n> {
    Root,
    Key(&'n str),
    Index(usize),
}

impl Place<'_> {
    /// The JSON Pointer (RFC 6901); a key too long for showing is cut.
    fn pointer(&self) -> String {
        let mut pointer = self.holder.map_or_else(String::new, Place::pointer);
        match self.step {
            Step::Root => {}
            Step::Index(index) => {
                pointer.push('/');
                pointer.push_str(&index.to_string());
            }
            Step::Key(key) => {
                pointer.push('/');
                for c in key.chars().take(SHOWN) {
                    match c {
                        '~' => pointer.push_str("~0"),
                        '/' => pointer.push_str("~1"),
                        c => pointer.push(c),
                    }
                }
                if key.chars().nth(SHOWN).is_some() {
                    pointer.push('…');
                }
            }
        }
        pointer
    }
}

impl<'n, 'a> Node<'n, 'a> {
    /// The whole text as one value; a text that is no JSON is noted.
    pub fn root(context: &'n Context<'a>) -> Option<Self> {
        match serde_json::from_str(context.text) {
            Ok(raw) => Some(Self::at(context, raw, Place { holder: None, step: Step::Root })),
            Err(error) => {
                context.note_syntax(context.text, String::new, &error);
                None
            }
        }
    }

    /// A value at a place.
    pub fn at(context: &'n Context<'a>, raw: &'a RawValue, place: Place<'n>) -> Self {
        Self { context, raw, place }
    }

    /// A value under a key of an object.
    pub fn member(context: &'n Context<'a>, raw: &'a RawValue, holder: &'n Place<'n>, key: &'n str) -> Self {
        Self { context, raw, place: Place { holder: Some(holder), step: Step::Key(key) } }
    }

    /// Its text in the file.
    pub fn source(&self) -> &'a str {
        self.raw.get()
    }

    /// Its JSON Pointer.
    pub fn pointer(&self) -> String {
        self.place.pointer()
    }

    /// Whether it is `null`.
    pub fn is_null(&self) -> bool {
        self.source() == "null"
    }

    fn note(&self, severity: Severity, fault: Fault) {
        let at = self.context.offset(self.source());
        self.context.note(severity, at, || self.pointer(), self.source(), fault);
    }

    /// Notes an error at this value.
    pub fn error(&self, fault: Fault) {
        self.note(Severity::Error, fault);
    }

    /// Notes a warning at this value.
    pub fn warning(&self, fault: Fault) {
        self.note(Severity::Warning, fault);
    }

    /// Notes an error at this value, which is of no use then.
    pub fn refused<T>(&self, fault: Fault) -> Option<T> {
        self.error(fault);
        None
    }

    /// What its text says, or an error where that is not of the form that it should have.
    pub fn of_form<T>(&self, read: Result<T, FormFault>) -> Option<T> {
        read.map_or_else(|fault| self.refused(Fault::Form(fault)), Some)
    }

    /// Its text, when it is a string.
    pub fn text(&self) -> Option<Cow<'a, str>> {
        self.text_or("a text in quotes")
    }

    fn text_or(&self, expected: &'static str) -> Option<Cow<'a, str>> {
        if !self.source().starts_with('"') {
            return self.refused(Fault::WrongType { expected });
        }
        // A lone surrogate is what JSON's grammar lets pass and a text cannot hold.
        match serde_json::from_str::<Text>(self.source()) {
            Ok(text) => Some(text.0),
            Err(error) => {
                self.context.note_syntax(self.source(), || self.pointer(), &error);
                None
            }
        }
    }

    /// A name out of a closed list.
    pub fn named<T: Named>(&self) -> Option<T> {
        let index = self.name_among(T::WHAT, T::NAMES)?;
        T::ALL.get(index).copied()
    }

    fn name_among(&self, what: &'static str, known: &[&'static str]) -> Option<usize> {
        let name = self.text()?;
        known.iter().position(|known| *known == name).or_else(|| {
            let near = if self.context.is_full() { None } else { nearest(&name, known) };
            self.refused(Fault::UnknownName { what, known: known.to_vec(), near })
        })
    }

    /// A stated quantity within bounds.
    pub fn stated(&self, dimension: Dimension, bounds: Bounds) -> Option<Stated<Amount>> {
        let stated = self.quantity(dimension, text::read_stated)?;
        self.within(ends(&stated), bounds, Some(stated.unit)).then_some(stated)
    }

    /// A range to choose from within bounds.
    pub fn range(&self, dimension: Dimension, bounds: Bounds) -> Option<Range<Amount>> {
        let range = self.quantity(dimension, text::read_span)?;
        self.within([range.low.si(), range.high.si()], bounds, None).then_some(range)
    }

    /// A quantity that `read` finds in a text.
    fn quantity<R>(&self, expected: Dimension, read: fn(&str, Dimension) -> Result<R, TextFault>) -> Option<R> {
        // A bare JSON number is a figure without a unit.
        let is_number = self.source().starts_with(|c: char| c.is_ascii_digit() || c == '-');
        let quantity = if is_number {
            Err(TextFault::NoUnit)
        } else {
            read(&self.text_or("a figure with its unit, in quotes")?, expected)
        };
        quantity.map_err(|fault| self.error(Fault::Quantity { expected, fault })).ok()
    }

    /// Whether both figures, in SI, are possible; improbable ones are noted, with another unit in place of the `written` one
    /// where a single figure is usual in that.
    fn within(&self, ends: [f64; 2], bounds: Bounds, written: Option<Unit>) -> bool {
        let Bounds { unit, possible, usual } = bounds;
        if !bounds.are_possible(ends) {
            self.error(Fault::Impossible { least: possible.0, greatest: possible.1, unit });
            return false;
        }
        if !bounds.are_usual(ends) {
            let ((least, greatest), single) = (usual, ends[0].to_bits() == ends[1].to_bits());
            let other = written.filter(|_| single).and_then(|written| {
                let (figure, meant) = (written.of_si(ends[0]), other_system(written)?);
                let fault = Fault::OtherUnit { written, meant, least, greatest, unit };
                bounds.are_usual([meant.to_si(figure); 2]).then_some(fault)
            });
            self.warning(other.unwrap_or(Fault::Improbable { least, greatest, unit }));
        }
        true
    }

    /// A whole number that its rule lets pass.
    pub fn count(&self, rule: Rule) -> Option<u64> {
        let Rule::Count { least, most, expected } = rule else { return None };
        let count = self.source().parse().ok().filter(|count| (least..=most).contains(count));
        count.or_else(|| self.refused(Fault::WrongType { expected }))
    }

    /// Visits its values, when it is an array.
    pub fn each(&self, visit: &mut dyn FnMut(Node<'_, 'a>)) {
        if !self.source().starts_with('[') {
            return self.error(Fault::WrongType { expected: "a list in square brackets" });
        }
        let items = Items { context: self.context, list: &self.place, visit };
        if let Err(error) = serde_json::Deserializer::from_str(self.source()).deserialize_seq(items) {
            self.context.note_syntax(self.source(), || self.pointer(), &error);
        }
    }

    /// Visits the value at a path below it; there is nothing to visit when it is absent.
    pub fn inside(&self, path: &[&str], visit: &dyn Fn(Node)) {
        let Some((key, rest)) = path.split_first() else { return visit(*self) };
        let members = Members::of(self.raw).unwrap_or_default();
        if let Some((key, raw)) = members.find(key).filter(|(_, raw)| raw.get() != "null") {
            Node::member(self.context, raw, &self.place, key).inside(rest, visit);
        }
    }

    /// The text under a key, for looking ahead: nothing is noted when it is not there or no text.
    pub fn member_text(&self, key: &str) -> Option<String> {
        let members: std::collections::HashMap<Cow<str>, &RawValue> = serde_json::from_str(self.source()).ok()?;
        serde_json::from_str(members.get(key)?.get()).ok()
    }

    /// The names by which people know it, when it is an entry of a list: maker and model, else its id.
    pub fn name(&self) -> Option<String> {
        // A hostile entry may be as large as the whole text.
        if self.source().len() > 200_000 {
            return None;
        }
        let text = |key| self.member_text(key).filter(|text| !text.trim().is_empty());
        let model = text("model").or_else(|| text("name"));
        let name = match model {
            Some(model) => crate::full_name(text("maker").as_deref(), &model),
            None => text("id")?,
        };
        Some(super::context::shortened(&name))
    }
}

/// The members of an object in their order, duplicates kept.
#[derive(Default)]
pub struct Members<'a>(pub Vec<(Cow<'a, str>, &'a RawValue)>);

impl<'a> Members<'a> {
    /// Those of an object.
    pub fn of(raw: &'a RawValue) -> Result<Self, serde_json::Error> {
        serde_json::from_str(raw.get())
    }

    /// The first with this key.
    pub fn find(&self, key: &str) -> Option<&(Cow<'a, str>, &'a RawValue)> {
        self.0.iter().find(|(known, _)| known == key)
    }
}

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

/// The least and the greatest value that somebody states, in SI; a tolerance is no statement of two values.
pub fn ends(stated: &Stated<Amount>) -> [f64; 2] {
    match stated.spread {
        Spread::Range { low, high } => [low.si(), high.si()],
        Spread::Unstated | Spread::Relative(_) => [stated.nominal.si(); 2],
    }
}

/// The unit of the other system, for a unit that people of one system write.
fn other_system(written: Unit) -> Option<Unit> {
    let [metric, us] =
        [UnitSystem::Metric, UnitSystem::UsCustomary].map(|system| Unit::shown(written.dimension(), system));
    (metric != us && written == metric).then_some(us).or((metric != us && written == us).then_some(metric))
}

/// Visits the values of an array one by one, without keeping them: a hostile array may hold millions.
struct Items<'n, 'a> {
    context: &'n Context<'a>,
    list: &'n Place<'n>,
    visit: &'n mut dyn FnMut(Node<'_, 'a>),
}

impl<'a> Visitor<'a> for Items<'_, 'a> {
    type Value = ();

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("a list")
    }

    fn visit_seq<A: SeqAccess<'a>>(self, mut items: A) -> Result<(), A::Error> {
        let mut index = 0;
        while let Some(raw) = items.next_element()? {
            let place = Place { holder: Some(self.list), step: Step::Index(index) };
            (self.visit)(Node { context: self.context, raw, place });
            index += 1;
        }
        Ok(())
    }
}
