//! The head's motor: speed, torque and power, and the way from motor to rotor.

use crate::quantity::{AngularVelocity, Displacement, Kind, Power, Pressure, Torque, VolumeRate};
use std::f64::consts::TAU;

/// A hydraulic motor.
///
/// For a *motor* the flow that goes in is the theoretical flow divided by η_v (for a pump it is multiplied):
/// `n = Q·η_v/V`, `T = Δp·V·η_hm/2π`, `P = Δp·Q·η_v·η_hm` (any fluid-power textbook). Efficiencies are shares in 0..1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Motor {
    /// V, volume per revolution; above zero.
    pub displacement: Displacement,
    /// η_v.
    pub volumetric: f64,
    /// η_hm, the product of hydraulic and mechanical efficiency.
    pub hydromechanical: f64,
    /// Rotor revolutions per motor revolution.
    pub ratio: f64,
}

impl Motor {
    /// Speed of the motor's shaft at a flow.
    ///
    /// ```
    /// use pairwright::circuit::Motor;
    /// use pairwright::quantity::{Displacement, Kind, Unit, VolumeRate};
    /// // 82 cm³ at 0.0006 m³/s without losses: 439 rpm.
    /// let motor = Motor {
    ///     displacement: Displacement::from_si(82e-6), volumetric: 1.0, hydromechanical: 1.0, ratio: 1.0,
    /// };
    /// let n = motor.shaft_speed(VolumeRate::from_si(0.0006));
    /// assert!((Unit::RevolutionPerMinute.of_si(n.si()) - 439.0).abs() < 0.5);
    /// ```
    pub fn shaft_speed(&self, flow: VolumeRate) -> AngularVelocity {
        AngularVelocity::from_si(TAU * flow.si() * self.volumetric / self.displacement.si())
    }

    /// Speed of the rotor at a flow.
    pub fn rotor_speed(&self, flow: VolumeRate) -> AngularVelocity {
        self.shaft_speed(flow) * self.ratio
    }

    /// The flow at which the rotor turns at a speed.
    pub fn flow_for(&self, rotor: AngularVelocity) -> VolumeRate {
        VolumeRate::from_si(rotor.si() / self.ratio * self.displacement.si() / (TAU * self.volumetric))
    }

    /// Torque at the motor's shaft at a pressure difference.
    pub fn torque(&self, difference: Pressure) -> Torque {
        Torque::from_si(difference.si() * self.displacement.si() * self.hydromechanical / TAU)
    }

    /// Power at the motor's shaft.
    pub fn shaft_power(&self, difference: Pressure, flow: VolumeRate) -> Power {
        difference * flow * (self.volumetric * self.hydromechanical)
    }
}

/// The displacement that turns at a speed with a flow, V = Q·η_v/n: what may be *inferred* from a brochure's rated flow
/// and speed. It is the same number again: no limit of speed is ever cleared by it.
pub fn inferred_displacement(flow: VolumeRate, shaft: AngularVelocity, volumetric: f64) -> Displacement {
    Displacement::from_si(TAU * flow.si() * volumetric / shaft.si())
}
