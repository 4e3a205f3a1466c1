//! A quantity whose dimension is known only at run time, for results: a number with its UCUM unit.

use super::{Dimension, Named, Quantity, Unit, UnitSystem};
use serde::{Serialize, Serializer, ser::SerializeStruct};

/// A figure of a result. It is written as `{"value": 118.0, "unit": "L/min"}` in the metric unit of its dimension.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Amount {
    dimension: Dimension,
    si: f64,
}

impl Amount {
    /// The amount of a typed quantity.
    pub fn of<Q: Quantity>(quantity: Q) -> Self {
        Self { dimension: Q::DIMENSION, si: quantity.si() }
    }

    /// The amount of a dimension that is known only at run time, from a value in coherent SI units.
    pub fn from_si(dimension: Dimension, si: f64) -> Self {
        Self { dimension, si }
    }

    /// Its value in coherent SI units.
    pub fn si(self) -> f64 {
        self.si
    }

    /// The middle between two amounts of one dimension.
    #[must_use]
    pub fn midpoint(self, other: Self) -> Self {
        Self { dimension: self.dimension, si: self.si.midpoint(other.si) }
    }

    /// What it measures.
    pub fn dimension(self) -> Dimension {
        self.dimension
    }

    /// The typed quantity again, when the dimension is that of `Q`.
    pub fn quantity<Q: Quantity>(self) -> Option<Q> {
        (self.dimension == Q::DIMENSION).then(|| Q::from_si(self.si))
    }

    /// The figure in the unit in which a reader of `system` expects it, with that unit.
    pub fn in_system(self, system: UnitSystem) -> (f64, Unit) {
        let unit = Unit::shown(self.dimension, system);
        (unit.of_si(self.si), unit)
    }
}

impl<Q: Quantity> From<Q> for Amount {
    fn from(quantity: Q) -> Self {
        Self::of(quantity)
    }
}

impl Serialize for Amount {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let (value, unit) = self.in_system(UnitSystem::Metric);
        let mut amount = serializer.serialize_struct("Amount", 2)?;
        // Twelve digits are far beyond any gauge and hide the last bit of unit conversion.
        amount.serialize_field("value", &(format!("{value:.9e}").parse::<f64>().unwrap_or(value)))?;
        amount.serialize_field("unit", unit.name())?;
        amount.end()
    }
}
