//! The head's motor: speed and power, the way from motor to rotor, and how it starts.

use quantity::{AngularVelocity, Displacement, Power, Pressure, Quantity, Torque, VolumeRate};
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
    /// use hydraulics::Motor;
    /// use quantity::{Displacement, Quantity, Unit, VolumeRate};
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

    /// Power at the motor's shaft.
    pub fn shaft_power(&self, difference: Pressure, flow: VolumeRate) -> Power {
        difference * flow * (self.volumetric * self.hydromechanical)
    }

    /// Torque at the rotor from standstill, with the efficiency of starting and of the gear or belt between (shares in
    /// 0..1): what breaks a jam, or turns an auger that has bitten. `T = Δp·V·η_start·η_gear/(2π·i)` with i the rotor's turns per
    /// turn of the motor.
    ///
    /// ```
    /// use hydraulics::Motor;
    /// use quantity::{Displacement, Quantity, Pressure};
    /// // 100 cm³ behind a reduction of 6 at 200 bar: 1430 N·m of 1910.
    /// let motor = Motor {
    ///     displacement: Displacement::from_si(100e-6), volumetric: 0.9, hydromechanical: 0.9, ratio: 1.0 / 6.0,
    /// };
    /// let torque = motor.starting_torque(Pressure::from_si(200e5), 0.75, 1.0);
    /// assert!((torque.si() - 1432.4).abs() < 0.1);
    /// ```
    pub fn starting_torque(&self, difference: Pressure, starting: f64, gear: f64) -> Torque {
        Torque::from_si(difference.si() * self.displacement.si() * starting * gear / (TAU * self.ratio))
    }
}
