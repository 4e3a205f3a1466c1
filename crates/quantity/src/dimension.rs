//! What a quantity measures, and the bridge between typed quantities and plain SI figures.

use super::{
    AngularVelocity, ElectricCurrent, ElectricPotential, KinematicViscosity, Length, Mass, MassDensity,
    MomentOfInertia, Power, Pressure, Ratio, ThermalConductance, ThermodynamicTemperature, Time, Torque, Velocity,
    Volume, VolumeRate, string_enum,
};
use std::marker::PhantomData;

string_enum! {
    /// What a figure measures. The name is the one used in messages.
    "dimension" pub enum Dimension {
        /// Volume per time, L/min.
        Flow = "flow",
        /// Gauge pressure or a pressure difference, bar.
        Pressure = "pressure",
        /// Power, kW.
        Power = "power",
        /// Turns per time, rev/min.
        RotationalSpeed = "rotational speed",
        /// Length, bore, diameter, mm or m.
        Length = "length",
        /// Mass, kg.
        Mass = "mass",
        /// Volume per revolution, cm³/rev.
        Displacement = "displacement",
        /// Torque, N·m.
        Torque = "torque",
        /// Temperature, °C.
        Temperature = "temperature",
        /// Kinematic viscosity, mm²/s.
        Viscosity = "viscosity",
        /// Density, kg/m³.
        Density = "density",
        /// Volume, L.
        Volume = "volume",
        /// Voltage, V.
        Voltage = "voltage",
        /// Electric current, A.
        Current = "current",
        /// Time, s, min or h.
        Time = "time",
        /// Travel speed, km/h.
        Velocity = "velocity",
        /// A share or a ratio, % or a bare number with the unit `1`.
        Ratio = "ratio",
        /// Moment of inertia, kg·m².
        Inertia = "moment of inertia",
        /// Heat carried away per kelvin, W/K.
        ThermalConductance = "thermal conductance",
    }
}

/// A typed quantity that can be read from and written to text.
///
/// `si` and `from_si` are the only places where a unit is dropped: use them for storage and arithmetic on intervals,
/// never in a formula.
pub trait Quantity: Copy + std::fmt::Debug + PartialEq + PartialOrd {
    /// What it measures.
    const DIMENSION: Dimension;
    /// The quantity with this value in coherent SI units (m³/s, Pa, W, rad/s, m, kg, m³ per revolution, K, …).
    fn from_si(value: f64) -> Self;
    /// Its value in coherent SI units.
    fn si(self) -> f64;
}

macro_rules! kinds {
    ($($Type:ty => $Dimension:ident,)+) => {$(
        impl Quantity for $Type {
            const DIMENSION: Dimension = Dimension::$Dimension;
            fn from_si(value: f64) -> Self {
                Self { dimension: PhantomData, units: PhantomData, value }
            }
            fn si(self) -> f64 {
                self.value
            }
        }
    )+};
}

kinds! {
    VolumeRate => Flow,
    Pressure => Pressure,
    Power => Power,
    AngularVelocity => RotationalSpeed,
    Length => Length,
    Mass => Mass,
    Torque => Torque,
    ThermodynamicTemperature => Temperature,
    KinematicViscosity => Viscosity,
    MassDensity => Density,
    Volume => Volume,
    ElectricPotential => Voltage,
    ElectricCurrent => Current,
    Time => Time,
    Velocity => Velocity,
    Ratio => Ratio,
    MomentOfInertia => Inertia,
    ThermalConductance => ThermalConductance,
}

/// The volume that a pump or motor moves in one revolution, cm³/rev.
///
/// `uom` has no volume per turn whose product with a speed is a flow without a stray 2π, hence this newtype.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Displacement(Volume);

impl Quantity for Displacement {
    const DIMENSION: Dimension = Dimension::Displacement;
    fn from_si(value: f64) -> Self {
        Self(Volume::from_si(value))
    }
    fn si(self) -> f64 {
        self.0.si()
    }
}
