//! How a field is read: by its type and its rule.

use super::context::is_unseen;
use super::node::Node;
use super::object::{Object, TEXT_LENGTH};
use crate::row::{self, Form};
use crate::rule::Rule;
use crate::{
    AssumptionId, CarrierClass, Centre, ChangeId, Cleanliness, Contradiction, CouplingStandard, Currency, Date, Drive,
    ExtraKind, ExtraValve, Fault, FedFrom, Guard, HeadKind, Id, LimiterSum, LineStandard, MachineEnd, Money, MotorKind,
    MountingStandard, OilGrade, OilKind, OutputKind, PortStandard, PressureBasis, PriorityUser, PumpControl, PumpKind,
    ReliefRole, ReturnRoute, Ways,
};
use quantity::{Named, Quantity, Range, Stated};
use std::collections::HashSet;

/// A field as it is declared, as far as reading goes.
#[derive(Clone, Copy)]
pub struct Field {
    /// Its name.
    pub name: &'static str,
    /// What its value must keep to.
    pub rule: Rule,
}

impl Field {
    /// A field of this type. A figure without bounds does not compile.
    pub const fn new<T: Value>(name: &'static str, rule: Rule) -> Self {
        assert!(T::IS_FIGURE == matches!(rule, Rule::Within(_) | Rule::OfClass | Rule::OfKind));
        Self { name, rule }
    }

    /// A field without a rule.
    pub const fn plain(name: &'static str) -> Self {
        Self { name, rule: Rule::None }
    }
}

/// Whether a field of this type and rule must be there.
pub fn must_be_there<T: Value>(rule: Rule) -> bool {
    T::WHEN_LEFT_OUT.is_none() && rule != Rule::NoUnlessStated
}

/// What a field can hold.
pub trait Value: Sized {
    /// Whether it is a figure, which has bounds.
    const IS_FIGURE: bool = false;
    /// What stands for it when it is left out; none when it must be there.
    const WHEN_LEFT_OUT: Option<fn() -> Self> = None;
    /// What it is, in words for the docs.
    const WORDS: &'static str = "";
    /// What it is, for a column of a spreadsheet.
    const FORM: Form = Form::Text;

    /// The value at a place; none, and a problem noted, when it is of no use.
    fn of(node: Node, field: &Field) -> Option<Self>;

    /// The value of a field; none when it must be there and is not, or is of no use.
    fn read(object: &Object, field: &Field) -> Option<Self> {
        let Some(left_out) = Self::WHEN_LEFT_OUT else { return Self::of(object.required(field.name)?, field) };
        let node = object.get(field.name);
        if node.is_none() {
            Self::lacks(object);
        }
        Some(node.and_then(|node| Self::of(node, field)).unwrap_or_else(left_out))
    }

    /// Looks at an object that does not have it.
    fn lacks(_object: &Object) {}

    /// The id that it has in its list.
    fn key(&self) -> Option<&Id> {
        None
    }

    /// Notes that it stands in its list once more.
    fn is_repeated(node: Node) {
        node.inside(&["id"], &|id| id.error(Fault::DuplicateId));
    }

    /// What it is, for the docs.
    fn kind(_: Rule) -> row::Kind {
        row::Kind::new(Self::FORM, Self::WORDS)
    }
}

/// An object of the format, declared by [`entry!`](super::entry).
pub trait Entry: Sized {
    /// Reads each of its fields, even when one is wrong.
    fn of_object(object: &Object) -> Option<Self>;

    /// Its fields, for the docs.
    fn rows() -> Vec<row::Row>;
}

impl Object<'_, '_> {
    /// The value of a field that may be left out.
    pub fn value<T: Value>(&self, field: &Field) -> Option<T> {
        T::of(self.get(field.name)?, field)
    }

    /// The value of a field without a rule, that may be left out.
    pub fn plain<T: Value>(&self, name: &'static str) -> Option<T> {
        self.value(&Field::plain(name))
    }
}

/// The ids that a list has had so far.
#[derive(Default)]
pub struct Seen(HashSet<Id>);

impl Seen {
    /// Whether a value is the first with its id; it is noted if not.
    pub fn is_first<T: Value>(&mut self, value: &T, node: Node) -> bool {
        let first = value.key().is_none_or(|id| self.0.insert(id.clone()));
        if !first {
            T::is_repeated(node);
        }
        first
    }
}

impl<T: Value> Value for Option<T> {
    const IS_FIGURE: bool = T::IS_FIGURE;
    const WHEN_LEFT_OUT: Option<fn() -> Self> = Some(|| None);

    fn of(node: Node, field: &Field) -> Option<Self> {
        T::of(node, field).map(Some)
    }

    fn lacks(object: &Object) {
        T::lacks(object);
    }

    fn kind(rule: Rule) -> row::Kind {
        row::Kind { is_optional: true, ..T::kind(rule) }
    }
}

impl<T: Value> Value for Vec<T> {
    const WHEN_LEFT_OUT: Option<fn() -> Self> = Some(Vec::new);

    fn of(node: Node, field: &Field) -> Option<Self> {
        let (mut values, mut seen) = (Vec::new(), Seen::default());
        node.each(&mut |node| values.extend(T::of(node, field).filter(|value| seen.is_first(value, node))));
        Some(values)
    }

    fn kind(rule: Rule) -> row::Kind {
        T::kind(rule).listed()
    }
}

impl<Q: Quantity> Value for Stated<Q> {
    const IS_FIGURE: bool = true;

    fn of(node: Node, field: &Field) -> Option<Self> {
        let stated = node.stated(Q::DIMENSION, node.context.bounds(field.rule))?;
        Some(stated.map(|amount| Q::from_si(amount.si())))
    }

    fn kind(rule: Rule) -> row::Kind {
        row::Kind::new(Form::Figure(Q::DIMENSION, Form::usual_unit(Q::DIMENSION, rule)), Q::DIMENSION.name())
    }
}

impl<Q: Quantity> Value for Range<Q> {
    const IS_FIGURE: bool = true;

    fn of(node: Node, field: &Field) -> Option<Self> {
        let Range { low, high, unit } = node.range(Q::DIMENSION, node.context.bounds(field.rule))?;
        Some(Range { low: Q::from_si(low.si()), high: Q::from_si(high.si()), unit })
    }

    fn kind(rule: Rule) -> row::Kind {
        let form = Form::Range(Q::DIMENSION, Form::usual_unit(Q::DIMENSION, rule));
        row::Kind::new(form, format!("{}, least to greatest", Q::DIMENSION.name()))
    }
}

impl Value for bool {
    const WORDS: &'static str = "yes or no";
    const FORM: Form = Form::YesNo;

    fn of(node: Node, _: &Field) -> Option<Self> {
        match node.source() {
            "true" => Some(true),
            "false" => Some(false),
            _ => node.refused(Fault::WrongType { expected: "true or false" }),
        }
    }

    fn read(object: &Object, field: &Field) -> Option<Self> {
        if field.rule == Rule::NoUnlessStated {
            return Some(object.value(field).unwrap_or(false));
        }
        Self::of(object.required(field.name)?, field)
    }
}

impl Value for String {
    fn of(node: Node, field: &Field) -> Option<Self> {
        let text = node.text()?;
        let short = text.chars().count() <= TEXT_LENGTH;
        match field.rule {
            Rule::Link if short && is_link(&text) => Some(text.into_owned()),
            Rule::Link => node.refused(Fault::NotALink),
            Rule::Picture if is_picture(&text) => Some(text.into_owned()),
            Rule::Picture => node.refused(Fault::NotAPicture),
            _ if short && !text.trim().is_empty() && !text.contains(is_unseen) => Some(text.into_owned()),
            _ => node.refused(Fault::BadText { most: TEXT_LENGTH }),
        }
    }

    fn kind(rule: Rule) -> row::Kind {
        match rule {
            Rule::Link => row::Kind::new(Form::Link, "web address"),
            Rule::Picture => row::Kind::new(Form::Picture, "picture"),
            _ => row::Kind::new(Form::Text, "text"),
        }
    }
}

/// The longest picture within a table or kept by itself, in characters.
pub const LONGEST_PICTURE: usize = 150_000;

/// Whether a text is a picture that a page may show: a `data:` address of an image in base64, no longer than [`LONGEST_PICTURE`].
pub fn is_picture(text: &str) -> bool {
    is_picture_up_to(text, LONGEST_PICTURE)
}

/// Whether a text is a picture that a page may show, of at most so many characters.
pub fn is_picture_up_to(text: &str, most: usize) -> bool {
    let kinds = ["data:image/png;base64,", "data:image/jpeg;base64,", "data:image/svg+xml;base64,"];
    let body = kinds.iter().find_map(|kind| text.strip_prefix(kind));
    let base64 = |byte: u8| byte.is_ascii_alphanumeric() || b"+/=".contains(&byte);
    text.len() <= most && body.is_some_and(|body| !body.is_empty() && body.bytes().all(base64))
}

/// Whether a text is a web address (http or https).
fn is_link(text: &str) -> bool {
    let rest = text.strip_prefix("https://").or_else(|| text.strip_prefix("http://"));
    let host = rest.is_some_and(|rest| rest.starts_with(|c: char| c.is_alphanumeric() || c == '['));
    let seen = !text.contains(|c: char| is_unseen(c) || c.is_whitespace());
    host && seen
}

impl Value for Id {
    /// The entry's own id, or that of one in a list beside it.
    fn of(node: Node, field: &Field) -> Option<Self> {
        let id = Id::new(&node.text()?);
        let Rule::Among(list) = field.rule else { return node.of_form(id) };
        let around = node.context.around.borrow();
        id.ok().filter(|id| around.list(list).contains_key(id)).or_else(|| {
            let mut known: Vec<_> = around.list(list).keys().map(Id::to_string).collect();
            known.sort_unstable();
            node.refused(Fault::UnknownReference { what: list.what(), known })
        })
    }

    fn key(&self) -> Option<&Id> {
        Some(self)
    }

    fn is_repeated(node: Node) {
        node.warning(Fault::DuplicateId);
    }

    fn kind(rule: Rule) -> row::Kind {
        match rule {
            Rule::Among(list) => row::Kind::new(Form::Reference, format!("{} id", list.what())),
            _ => row::Kind::new(Form::Id, "id"),
        }
    }
}

macro_rules! counts {
    ($($Type:ty),+) => {$(
        impl Value for $Type {
            const WORDS: &'static str = "whole number";
            const FORM: Form = Form::Count;

            fn of(node: Node, field: &Field) -> Option<Self> {
                node.count(field.rule).and_then(|count| count.try_into().ok())
            }
        }
    )+};
}

counts!(u8, u16);

/// Texts of a form that their types know.
macro_rules! texts {
    ($($Type:ident, $words:literal;)+) => {$(
        impl Value for $Type {
            const WORDS: &'static str = $words;
            const FORM: Form = Form::$Type;

            fn of(node: Node, _: &Field) -> Option<Self> {
                node.of_form(<$Type>::new(&node.text()?))
            }
        }
    )+};
}

texts! {
    Date, "date";
    Money, "money";
    Currency, "currency";
    Cleanliness, "cleanliness (ISO 4406)";
}

/// Names out of a closed list.
macro_rules! lists {
    ($($Type:ty),+ $(,)?) => {$(
        impl Value for $Type {
            fn of(node: Node, _: &Field) -> Option<Self> {
                node.named()
            }

            fn kind(_: Rule) -> row::Kind {
                row::Kind::new(Form::Name(Self::NAMES), Self::NAMES.join(", "))
            }
        }
    )+};
}

lists! {
    AssumptionId, CarrierClass, Centre, ChangeId, CouplingStandard, Drive, ExtraKind, ExtraValve, FedFrom, Guard, HeadKind, LimiterSum,
    LineStandard, MotorKind, MountingStandard, OilGrade, OilKind, OutputKind, PortStandard, PressureBasis, PriorityUser, PumpControl,
    PumpKind, ReliefRole, ReturnRoute, Ways,
}

impl Value for MachineEnd {
    /// Warns of an end that machines of the class do not have.
    fn of(node: Node, _: &Field) -> Option<Self> {
        let end: Self = node.named()?;
        let only = node.context.around.borrow().class.and_then(CarrierClass::only_end);
        if only.is_some_and(|only| only != end) {
            node.warning(Fault::Contradiction(Contradiction::EndOutsideClass));
        }
        Some(end)
    }

    /// Warns where a machine with two ends does not say at which of them something is.
    fn lacks(object: &Object) {
        if object.context.around.borrow().class.is_some_and(|class| class.only_end().is_none()) {
            object.node().warning(Fault::Contradiction(Contradiction::EndNotStated));
        }
    }

    fn kind(_: Rule) -> row::Kind {
        row::Kind::new(Form::Name(Self::NAMES), Self::NAMES.join(", "))
    }
}
