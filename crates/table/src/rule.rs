//! What stands behind `as` in the declaration of a field: bounds by their name, and what is no matter of bounds.

pub use super::bounds::*;
pub use Rule::{AtAnEnd, Link, NoUnlessStated, OfClass, OfKind, Picture};

/// What the value of a field must keep to besides its type.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rule {
    /// Nothing.
    None,
    /// Bounds.
    Within(&'static Bounds),
    /// A pressure that machines of the class have: [`bounds::of_class`](super::bounds::of_class).
    OfClass,
    /// A pressure that attachments of the kind have: [`bounds::of_kind`](super::bounds::of_kind).
    OfKind,
    /// A web address (http or https).
    Link,
    /// A picture within the file: a `data:` address of an image in base64.
    Picture,
    /// A whole number.
    Count {
        /// The least.
        least: u64,
        /// The greatest.
        most: u64,
        /// What is expected, in words.
        expected: &'static str,
    },
    /// The id of something in a list of the same machine.
    Among(List),
    /// No when it is left out.
    NoUnlessStated,
    /// Mountings of a machine, which are at one of its ends; those of an attachment are not.
    AtAnEnd,
}

impl Rule {
    /// The rule itself, as [`Bounds::rule`] gives that of bounds: a declaration names either.
    pub const fn rule(&'static self) -> Self {
        *self
    }
}

impl Bounds {
    /// The rule of a field that holds such figures.
    pub const fn rule(&'static self) -> Rule {
        Rule::Within(self)
    }
}

/// A list of a machine to which other parts of it refer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum List {
    /// Its pumps.
    Pumps,
    /// Its power groups.
    PowerGroups,
}

impl List {
    /// What one of the list is called.
    pub fn what(self) -> &'static str {
        match self {
            Self::Pumps => "pump",
            Self::PowerGroups => "power group",
        }
    }
}

/// The id of a pump.
pub const PUMP: Rule = Rule::Among(List::Pumps);
/// The id of a power group.
pub const POWER_GROUP: Rule = Rule::Among(List::PowerGroups);
/// How fine a filter is.
pub const FILTRATION: Rule =
    Rule::Count { least: 1, most: 65535, expected: "a whole number of micrometres from 1 to 65535" };
/// For how many days an offer stands.
pub const VALID_DAYS: Rule = Rule::Count { least: 1, most: 365, expected: "a whole number of days from 1 to 365" };
/// How many there are.
pub const SPARE: Rule = Rule::Count { least: 0, most: 255, expected: "a whole number from 0 to 255" };
/// A version of the format.
pub const VERSION: Rule = Rule::Count { least: 1, most: u64::MAX, expected: "a version, a whole number from 1 on" };
