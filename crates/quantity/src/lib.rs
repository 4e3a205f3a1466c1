//! Typed quantities: what a figure measures, how sure it is, and how people write it.
//!
//! Every figure of the trade is a [`uom`] quantity (or [`Displacement`], a volume per revolution). On top of that stand
//! [`Interval`] (low, nominal, high), [`Stated`] (a figure as somebody published or measured it) and [`Fact`] (known,
//! assumed or missing). [`text`] reads and writes the one grammar of quantities. This crate knows no machine.

mod amount;
mod dimension;
mod fact;
mod halving;
mod order;
mod provenance;
#[cfg(not(target_arch = "wasm32"))]
pub mod schema;
pub mod shop;
mod stated;
mod string_enum;
pub mod text;
mod unit;

pub use amount::Amount;
pub use dimension::{Dimension, Displacement, Quantity};
pub use fact::{Fact, Interval};
pub use halving::{Until, halved, halved_where_known};
pub use order::{put_in_order, put_in_order_by};
pub use provenance::{Provenance, Source, SpreadFrom, Tolerance};
pub use stated::{Range, Spread, Stated};
pub use string_enum::Named;
#[doc(hidden)]
pub use string_enum::named_of;
pub use unit::{Unit, UnitSystem};

// For what `string_enum!` writes in other crates.
#[cfg(not(target_arch = "wasm32"))]
#[doc(hidden)]
pub use schemars;
#[doc(hidden)]
pub use serde;

pub use uom::si::f64::{
    AngularVelocity, Area, DynamicViscosity, ElectricCurrent, ElectricPotential, Energy, Force, Frequency,
    HeatCapacity, KinematicViscosity, Length, Mass, MassDensity, MomentOfInertia, Power, Pressure, Ratio,
    SpecificHeatCapacity, TemperatureInterval, ThermalConductance, ThermodynamicTemperature, Time, Torque, Velocity,
    Volume, VolumeRate,
};
