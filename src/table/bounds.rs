//! What a figure can be at all, and what it usually is: outside the first it is an error, outside the second a warning.
//!
//! All bounds are common practice, no published source; they catch slipped decimals and wrong units, nothing finer.

use crate::quantity::Unit;

/// Bounds of one kind of field, in `unit`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// The unit of the figures.
    pub unit: Unit,
    /// Least and greatest possible figure.
    pub possible: (f64, f64),
    /// Least and greatest usual figure.
    pub usual: (f64, f64),
}

const fn bounds(unit: Unit, possible: (f64, f64), usual: (f64, f64)) -> Bounds {
    Bounds { unit, possible, usual }
}

/// Flow of a pump, circuit, head or part.
pub const FLOW: Bounds = bounds(Unit::LitrePerMinute, (0.1, 3000.0), (1.0, 800.0));
/// Working pressure, relief, rating.
pub const PRESSURE: Bounds = bounds(Unit::Bar, (1.0, 1000.0), (10.0, 700.0));
/// Pressure of a return, a housing, a tank, or lost in a part.
pub const LOW_PRESSURE: Bounds = bounds(Unit::Bar, (0.0, 500.0), (0.0, 250.0));
/// Power of an engine, a pump or a head.
pub const POWER: Bounds = bounds(Unit::Kilowatt, (0.1, 3000.0), (1.0, 700.0));
/// Speed of an engine or a rotor.
pub const SPEED: Bounds = bounds(Unit::RevolutionPerMinute, (1.0, 50_000.0), (10.0, 10_000.0));
/// Mass of a machine or a head.
pub const MASS: Bounds = bounds(Unit::Kilogram, (1.0, 500_000.0), (20.0, 80_000.0));
/// Inner diameter of a line, size of a coupling.
pub const BORE: Bounds = bounds(Unit::Millimetre, (1.0, 300.0), (4.0, 65.0));
/// Length of a line.
pub const LINE_LENGTH: Bounds = bounds(Unit::Metre, (0.02, 100.0), (0.2, 30.0));
/// Pins, gaps, widths, diameters, reaches, distances.
pub const DISTANCE: Bounds = bounds(Unit::Millimetre, (0.1, 1_000_000.0), (1.0, 300_000.0));
/// Pin of a mounting.
pub const PIN: Bounds = bounds(Unit::Millimetre, (5.0, 300.0), (15.0, 150.0));
/// Displacement of a pump or motor.
pub const DISPLACEMENT: Bounds = bounds(Unit::CubicCentimetrePerRevolution, (0.1, 50_000.0), (1.0, 3000.0));
/// Efficiency.
pub const EFFICIENCY: Bounds = bounds(Unit::Percent, (1.0, 100.0), (40.0, 100.0));
/// Rotor turns per motor turn.
pub const RATIO: Bounds = bounds(Unit::One, (0.001, 100.0), (0.02, 10.0));
/// System and coil voltage.
pub const VOLTAGE: Bounds = bounds(Unit::Volt, (1.0, 1000.0), (10.0, 60.0));
/// Coil and output current.
pub const CURRENT: Bounds = bounds(Unit::Ampere, (0.01, 1000.0), (0.1, 100.0));
/// Workshop time.
pub const TIME: Bounds = bounds(Unit::Minute, (0.0, 60_000.0), (1.0, 6000.0));
/// Travel speed.
pub const VELOCITY: Bounds = bounds(Unit::KilometrePerHour, (0.0, 200.0), (0.0, 60.0));
/// Oil in a tank.
pub const VOLUME: Bounds = bounds(Unit::Litre, (0.1, 20_000.0), (5.0, 1500.0));
/// Heat carried away per kelvin.
pub const CONDUCTANCE: Bounds = bounds(Unit::WattPerKelvin, (0.1, 1_000_000.0), (2.0, 10_000.0));
/// Inertia of a rotor.
pub const INERTIA: Bounds = bounds(Unit::KilogramSquareMetre, (0.0001, 100_000.0), (0.001, 1000.0));
/// Torque.
pub const TORQUE: Bounds = bounds(Unit::NewtonMetre, (0.1, 10_000_000.0), (5.0, 200_000.0));
/// Kinematic viscosity.
pub const VISCOSITY: Bounds = bounds(Unit::SquareMillimetrePerSecond, (0.5, 100_000.0), (5.0, 5000.0));
