//! A motor that displaces more as its load rises.

use super::Motor;
use quantity::{Displacement, Kind, Pressure, VolumeRate};

/// A variable motor with pressure control: fast and weak until a pressure, then slower and stronger. A two-speed motor is
/// one whose change takes no span.
///
/// Overspeed is judged at the least displacement, torque at the greatest. A fixed displacement inferred from one rated point says
/// nothing about either.
///
/// ```
/// use hydraulics::motor::Variable;
/// use quantity::{Displacement, Kind, Pressure, Unit};
/// let cm3 = |v| Displacement::from_si(Unit::CubicCentimetrePerRevolution.to_si(v));
/// let bar = |p| Pressure::from_si(Unit::Bar.to_si(p));
/// let motor = Variable { least: cm3(40.0), greatest: cm3(80.0), begins: bar(150.0), ends: bar(170.0) };
/// assert_eq!(motor.displacement_at(bar(100.0)), cm3(40.0));
/// assert!((motor.displacement_at(bar(160.0)).si() - cm3(60.0).si()).abs() < 1e-12);
/// assert_eq!(motor.displacement_at(bar(200.0)), cm3(80.0));
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Variable {
    /// Least displacement, V_min; above zero.
    pub least: Displacement,
    /// Greatest displacement, V_max.
    pub greatest: Displacement,
    /// Pressure difference at which it begins to swallow more.
    pub begins: Pressure,
    /// Pressure difference from which on it displaces the most; not below `begins`.
    pub ends: Pressure,
}

impl Variable {
    /// What it displaces in a revolution at a pressure difference ≥ 0.
    pub fn displacement_at(&self, difference: Pressure) -> Displacement {
        let span = (self.ends - self.begins).si();
        let above = (difference - self.begins).si();
        let share = if span > 0.0 { (above / span).clamp(0.0, 1.0) } else { f64::from(u8::from(above >= 0.0)) };
        Displacement::from_si(self.least.si() + share * (self.greatest.si() - self.least.si()))
    }

    /// The motor that it is at a pressure difference, with the other figures of a fixed one.
    pub fn at(&self, difference: Pressure, like: &Motor) -> Motor {
        Motor { displacement: self.displacement_at(difference), ..*like }
    }
}

/// Pressure difference over an idling rotor at a flow, of what it is at its rated flow: with the speed to the power of 1.5 to 2 for
/// drums, discs and fans, 0 for augers (common practice, no published source).
///
/// ```
/// use hydraulics::motor::free_running;
/// use quantity::{Kind, Pressure, VolumeRate};
/// let rated = VolumeRate::from_si(1e-3);
/// let free = free_running(Pressure::from_si(40e5), rated * 1.2, rated, 2.0);
/// assert!((free.si() - 57.6e5).abs() < 1.0);
/// ```
pub fn free_running(at_rated: Pressure, flow: VolumeRate, rated: VolumeRate, exponent: f64) -> Pressure {
    at_rated * (flow / rated).value.powf(exponent)
}
