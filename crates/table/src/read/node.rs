//! JSON values that know where in the text they stand.

use super::context::{Context, SHOWN};
use super::nearest::nearest;
use crate::bounds::Bounds;
use crate::{Fault, Severity};
use quantity::text::{self, TextFault};
use quantity::{Kind, Named, Range, Spread, Stated, Unit, UnitSystem};
use serde::Deserialize;
use serde::de::{Deserializer, SeqAccess, Visitor};
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

    /// Notes that it is of another JSON type than expected.
    pub fn wrong(&self, expected: &'static str) {
        self.error(Fault::WrongType { expected });
    }

    /// Its text, when it is a string.
    pub fn text(&self) -> Option<Cow<'a, str>> {
        self.text_or("a text in quotes")
    }

    fn text_or(&self, expected: &'static str) -> Option<Cow<'a, str>> {
        if !self.source().starts_with('"') {
            self.wrong(expected);
            return None;
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
        let name = self.text()?;
        let value = T::from_name(&name);
        if value.is_none() {
            let known: Vec<_> = T::ALL.iter().map(|value| value.name()).collect();
            let near = if self.context.is_full() { None } else { nearest(&name, &known) };
            self.error(Fault::UnknownName { what: T::WHAT, known, near });
        }
        value
    }

    /// A stated quantity within bounds.
    pub fn stated<Q: Kind>(&self, bounds: Bounds) -> Option<Stated<Q>> {
        let stated: Stated<Q> = self.quantity(Q::DIMENSION, text::read)?;
        let ends = match stated.spread {
            Spread::Range { low, high } => [low.si(), high.si()],
            Spread::Unstated | Spread::Relative(_) => [stated.nominal.si(); 2],
        };
        self.within(ends, bounds, Some(stated.unit)).then_some(stated)
    }

    /// A range to choose from within bounds.
    pub fn range<Q: Kind>(&self, bounds: Bounds) -> Option<Range<Q>> {
        let range: Range<Q> = self.quantity(Q::DIMENSION, text::read_range)?;
        self.within([range.low.si(), range.high.si()], bounds, None).then_some(range)
    }

    /// A quantity that `read` finds in a text.
    pub fn quantity<R>(&self, expected: quantity::Dimension, read: impl Fn(&str) -> Result<R, TextFault>) -> Option<R> {
        // A bare JSON number is a figure without a unit.
        let is_number = self.source().starts_with(|c: char| c.is_ascii_digit() || c == '-');
        let quantity =
            if is_number { Err(TextFault::NoUnit) } else { read(&self.text_or("a figure with its unit, in quotes")?) };
        quantity.map_err(|fault| self.error(Fault::Quantity { expected, fault })).ok()
    }

    /// Whether both figures, in SI, are possible; improbable ones are noted, with another unit in place of the `written` one
    /// where a single figure is usual in that.
    pub fn within(&self, ends: [f64; 2], bounds: Bounds, written: Option<Unit>) -> bool {
        let Bounds { unit, possible, usual } = bounds;
        let is_outside = |ends: [f64; 2], (least, greatest): (f64, f64)| {
            // A billionth of slack, so that a bound itself passes in every unit.
            let slack = 1e-9 * greatest.abs();
            ends.iter().map(|si| unit.of_si(*si)).any(|figure| figure < least - slack || figure > greatest + slack)
        };
        let outside = |limits| is_outside(ends, limits);
        if outside(possible) {
            self.error(Fault::Impossible { least: possible.0, greatest: possible.1, unit });
            return false;
        }
        if outside(usual) {
            let ((least, greatest), single) = (usual, ends[0].to_bits() == ends[1].to_bits());
            let other = written.filter(|_| single).and_then(|written| {
                let (figure, meant) = (written.of_si(ends[0]), other_system(written)?);
                let fault = Fault::OtherUnit { written, meant, least, greatest, unit };
                (!is_outside([meant.to_si(figure); 2], usual)).then_some(fault)
            });
            self.warning(other.unwrap_or(Fault::Improbable { least, greatest, unit }));
        }
        true
    }

    /// Yes or no.
    pub fn flag(&self) -> Option<bool> {
        match self.source() {
            "true" => Some(true),
            "false" => Some(false),
            _ => {
                self.wrong("true or false");
                None
            }
        }
    }

    /// Visits its values, when it is an array.
    pub fn each(&self, visit: impl FnMut(Node<'_, 'a>)) {
        if !self.source().starts_with('[') {
            return self.wrong("a list in square brackets");
        }
        let items = Items { context: self.context, list: &self.place, visit };
        if let Err(error) = serde_json::Deserializer::from_str(self.source()).deserialize_seq(items) {
            self.context.note_syntax(self.source(), || self.pointer(), &error);
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
        let name = match (text("maker"), model) {
            (Some(maker), Some(model)) => format!("{maker} {model}"),
            (_, Some(model)) => model,
            _ => text("id")?,
        };
        Some(super::context::shortened(&name))
    }
}

/// The unit of the other system, for a unit that people of one system write.
fn other_system(written: Unit) -> Option<Unit> {
    let [metric, us] =
        [UnitSystem::Metric, UnitSystem::UsCustomary].map(|system| Unit::shown(written.dimension(), system));
    (metric != us && written == metric).then_some(us).or((metric != us && written == us).then_some(metric))
}

/// Visits the values of an array one by one, without keeping them: a hostile array may hold millions.
struct Items<'n, 'a, F> {
    context: &'n Context<'a>,
    list: &'n Place<'n>,
    visit: F,
}

impl<'a, F: FnMut(Node<'_, 'a>)> Visitor<'a> for Items<'_, 'a, F> {
    type Value = ();

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("a list")
    }

    fn visit_seq<A: SeqAccess<'a>>(mut self, mut items: A) -> Result<(), A::Error> {
        let mut index = 0;
        while let Some(raw) = items.next_element()? {
            let place = Place { holder: Some(self.list), step: Step::Index(index) };
            (self.visit)(Node { context: self.context, raw, place });
            index += 1;
        }
        Ok(())
    }
}
