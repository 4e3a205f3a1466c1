//! Pumps: what they give and what they ask of the engine.
//!
//! [`Pump`] is one pump by its own figures; [`limiter`] holds the pumps of one engine to its torque; [`control`] tells how a
//! pump learns that oil is wanted; [`Source`] is all of that as one circuit sees it.

pub mod control;
pub mod limiter;
mod source;

pub use control::{CutOff, NegativeControl, PositiveControl};
pub use limiter::Limiter;
pub use source::Source;

use quantity::{AngularVelocity, Displacement, Kind, Power, Pressure, Torque, VolumeRate};
use std::f64::consts::TAU;

/// A displacement pump.
///
/// `Q = ε·V·n·η_v`, `T = ε·V·p/(2π·η_hm)`, `P = T·ω` (any fluid-power textbook). ε is the share of its greatest
/// displacement to which it is stroked, 0 to 1. Its leakage grows with the pressure: with a rated pressure,
/// η_v falls linearly from 1 at no pressure to the stated η_v at that one; without one it is the same at all.
///
/// Typical efficiencies (textbook tables, from memory): external gear η_v 80–93 %, axial piston 90–98 %, overall 75–90 and
/// 85–93 %.
///
/// ```
/// use hydraulics::Pump;
/// use quantity::{AngularVelocity, Displacement, Kind, Pressure, Unit};
/// // Esposito 5.9: 100 cm³ at 1000 rpm and 70 bar takes 112 N·m in theory (the book rounds 111.4 up).
/// let pump = Pump {
///     displacement: Displacement::from_si(100e-6), volumetric: 0.9, hydromechanical: 1.0, rated_pressure: None,
/// };
/// let torque = pump.torque(1.0, Pressure::from_si(70e5));
/// assert!((torque.si() - 111.4).abs() < 0.05);
/// let flow = pump.flow(1.0, AngularVelocity::from_si(Unit::RevolutionPerMinute.to_si(1000.0)), Pressure::from_si(70e5));
/// assert!((Unit::LitrePerMinute.of_si(flow.si()) - 90.0).abs() < 1e-9);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pump {
    /// V, greatest volume per revolution; above zero.
    pub displacement: Displacement,
    /// η_v at the rated pressure, 0 to 1.
    pub volumetric: f64,
    /// η_hm, 0 to 1.
    pub hydromechanical: f64,
    /// The pressure at which `volumetric` holds. None: it holds at every pressure.
    pub rated_pressure: Option<Pressure>,
}

/// Displacement of an external gear pump from the circles of its gears: `V = π/4·(D_o² − D_i²)·L` (Esposito, chapter 5).
///
/// ```
/// use hydraulics::pump::gear_displacement;
/// use quantity::{Kind, Length, Unit};
/// let mm = |d| Length::from_si(d / 1000.0);
/// let v = gear_displacement(mm(75.0), mm(50.0), mm(25.0));
/// assert!((Unit::CubicCentimetrePerRevolution.of_si(v.si()) - 61.359).abs() < 1e-3);
/// ```
pub fn gear_displacement(outside: quantity::Length, inside: quantity::Length, width: quantity::Length) -> Displacement {
    Displacement::per_revolution((outside * outside - inside * inside) * width * (TAU / 8.0))
}

impl Pump {
    /// η_v at a pressure ≥ 0, never below zero.
    pub fn volumetric_at(&self, pressure: Pressure) -> f64 {
        match self.rated_pressure {
            Some(rated) => (1.0 - (1.0 - self.volumetric) * (pressure / rated).value).clamp(0.0, 1.0),
            None => self.volumetric,
        }
    }

    /// The flow that it would give without leakage.
    pub fn theoretical(&self, stroke: f64, speed: AngularVelocity) -> VolumeRate {
        VolumeRate::from_si(stroke * self.displacement.si() * speed.si() / TAU)
    }

    /// The flow that it gives.
    pub fn flow(&self, stroke: f64, speed: AngularVelocity, pressure: Pressure) -> VolumeRate {
        self.theoretical(stroke, speed) * self.volumetric_at(pressure)
    }

    /// The torque that it takes.
    pub fn torque(&self, stroke: f64, pressure: Pressure) -> Torque {
        Torque::from_si(stroke * self.displacement.si() * pressure.si() / (TAU * self.hydromechanical))
    }

    /// The power that it takes at its shaft.
    pub fn shaft_power(&self, stroke: f64, speed: AngularVelocity, pressure: Pressure) -> Power {
        Power::from_si(self.torque(stroke, pressure).si() * speed.si())
    }

    /// The stroke at which it gives a flow; above 1 when it cannot.
    pub fn stroke_for(&self, flow: VolumeRate, speed: AngularVelocity, pressure: Pressure) -> f64 {
        (flow / self.flow(1.0, speed, pressure)).value
    }
}
