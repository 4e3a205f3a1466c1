//! Quantities by the units of a workshop, for what is written by hand: a rule's constant, an example, a test.

use crate::{AngularVelocity, Length, Pressure, Quantity, ThermodynamicTemperature, Unit, VolumeRate};

/// A pressure in bar.
pub fn bar(value: f64) -> Pressure {
    Pressure::from_si(Unit::Bar.to_si(value))
}

/// A flow in litres a minute.
pub fn litres(value: f64) -> VolumeRate {
    VolumeRate::from_si(Unit::LitrePerMinute.to_si(value))
}

/// A temperature in degrees Celsius.
pub fn celsius(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::from_si(Unit::Celsius.to_si(value))
}

/// A length in millimetres.
pub fn millimetres(value: f64) -> Length {
    Length::from_si(Unit::Millimetre.to_si(value))
}

/// A speed in revolutions a minute.
pub fn rpm(value: f64) -> AngularVelocity {
    AngularVelocity::from_si(Unit::RevolutionPerMinute.to_si(value))
}
