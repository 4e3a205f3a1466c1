//! What a question without figures can look at: everything that a table states, with the value that a reasoning shows of it.

use super::{InputRecord, Origin, Value, What};
use quantity::{Amount, Named, Provenance, Quantity, Stated};
use table::{CarrierClass, CaseLine, Cleanliness, Guard, HeadKind, Mounting, PriorityUser};

/// What a look at something gives.
#[derive(Clone, Debug, PartialEq)]
pub struct Seen {
    /// What it says.
    pub value: Value,
    /// Where that comes from.
    pub origin: Origin,
}

impl Seen {
    fn in_table(value: Value) -> Self {
        Self { value, origin: Origin::Table }
    }
}

/// Something that a question without figures can look at.
pub trait Visible {
    /// What it says.
    fn seen(&self) -> Seen;
}

impl InputRecord {
    /// Something that was looked at.
    pub fn of(what: impl Into<What>, stated: &impl Visible) -> Self {
        let Seen { value, origin } = stated.seen();
        Self { what: what.into(), value, origin }
    }
}

impl<T: Visible> Visible for Option<T> {
    fn seen(&self) -> Seen {
        self.as_ref().map_or(Seen { value: Value::NotStated, origin: Origin::Missing }, T::seen)
    }
}

impl<T: Visible + ?Sized> Visible for &T {
    fn seen(&self) -> Seen {
        (*self).seen()
    }
}

impl Visible for bool {
    fn seen(&self) -> Seen {
        Seen::in_table(if *self { Value::Yes } else { Value::No })
    }
}

impl Visible for String {
    fn seen(&self) -> Seen {
        Seen { value: Value::Text(self.clone()), origin: Origin::Chosen }
    }
}

impl<Q: Quantity> Visible for Stated<Q> {
    fn seen(&self) -> Seen {
        let amount = Amount::of(self.nominal);
        let value = Value::Figure { likely: Some(amount), worst: vec![amount], span: None };
        Seen { value, origin: Origin::Stated(Provenance::exactly(self.source)) }
    }
}

/// A figure that is a rule or a choice rather than anybody's statement.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Given(pub Amount, pub Origin);

impl Visible for Given {
    fn seen(&self) -> Seen {
        Seen { value: Value::Figure { likely: Some(self.0), worst: vec![self.0], span: None }, origin: self.1 }
    }
}

/// Values of closed lists.
macro_rules! visible {
    ($($Type:ty),+) => {$(
        impl Visible for $Type {
            fn seen(&self) -> Seen {
                Seen::in_table(Value::Named(self.name()))
            }
        }
        impl Visible for Vec<$Type> {
            fn seen(&self) -> Seen {
                Seen::in_table(Value::Names(self.iter().map(|one| one.name()).collect()))
            }
        }
        impl Visible for [$Type] {
            fn seen(&self) -> Seen {
                Seen::in_table(Value::Names(self.iter().map(|one| one.name()).collect()))
            }
        }
    )+};
}

visible!(
    table::Centre,
    table::Drive,
    table::CouplingStandard,
    table::ExtraValve,
    table::FedFrom,
    table::MachineEnd,
    table::MotorKind,
    table::OilGrade,
    table::OilKind,
    table::PumpControl,
    table::ReliefRole,
    table::ReturnRoute,
    table::Ways
);

impl Visible for HeadKind {
    fn seen(&self) -> Seen {
        Seen::in_table(Value::HeadKind(*self))
    }
}

impl Visible for CarrierClass {
    fn seen(&self) -> Seen {
        Seen::in_table(Value::CarrierClass(*self))
    }
}

impl Visible for Vec<Guard> {
    fn seen(&self) -> Seen {
        Seen::in_table(Value::Guards(self.clone()))
    }
}

/// Something of which only counts that it is stated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Counted(pub usize);

impl Visible for Counted {
    fn seen(&self) -> Seen {
        Seen::in_table(Value::Count(u32::try_from(self.0).unwrap_or(u32::MAX)))
    }
}

/// A span that a person may choose from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ends(pub Amount, pub Amount);

impl Visible for Ends {
    fn seen(&self) -> Seen {
        Seen::in_table(Value::Figure { likely: None, worst: Vec::new(), span: Some((self.0, self.1)) })
    }
}

impl Visible for [PriorityUser] {
    fn seen(&self) -> Seen {
        Seen::in_table(Value::Names(self.iter().map(|user| user.name()).collect()))
    }
}

impl Visible for Vec<Mounting> {
    fn seen(&self) -> Seen {
        Seen::in_table(Value::Mountings(self.clone()))
    }
}

impl Visible for CaseLine {
    fn seen(&self) -> Seen {
        self.fitted.seen()
    }
}

impl Visible for Cleanliness {
    fn seen(&self) -> Seen {
        Seen::in_table(Value::Text(self.text()))
    }
}
