//! A heavy rotor after its oil has stopped: the motor is a pump now, and needs somewhere to pump to and from.

use super::case_line::height_of_oil;
use super::valve::Check;
use super::{Oil, Resistance};
use quantity::{AngularVelocity, Displacement, Length, MomentOfInertia, Pressure, Quantity, Time, Torque, VolumeRate};
use std::f64::consts::TAU;

/// The least pressure at a motor's inlet while it runs down, bar: below it the motor draws a vacuum and takes air past its
/// seal (common practice, no published source).
pub const LEAST_INLET_BAR: f64 = -0.2;

/// How long it takes to stand still against a constant torque, `t = J·ω/T`, all three of one shaft: behind a gear or belt
/// the drag at the rotor is the motor's over the ratio. What is approached before that can still
/// cut.
///
/// ```
/// use hydraulics::coast_down::{drag_torque, coast_down_time};
/// use quantity::{AngularVelocity, Displacement, Quantity, MomentOfInertia, Pressure, Unit};
/// // The same rotor on 60 cm³: 48 s against 40 bar of drag, 5.5 s against a shut outlet with a relief of 350 bar.
/// let (inertia, speed) = (MomentOfInertia::from_si(8.0), AngularVelocity::from_si(Unit::RevolutionPerMinute.to_si(2200.0)));
/// let motor = Displacement::from_si(60e-6);
/// let against = |bar: f64| coast_down_time(inertia, speed, drag_torque(motor, Pressure::from_si(bar * 1e5))).si();
/// assert!((against(40.0) - 48.0).abs() < 0.5 && (against(350.0) - 5.5).abs() < 0.05);
/// ```
pub fn coast_down_time(inertia: MomentOfInertia, speed: AngularVelocity, drag: Torque) -> Time {
    Time::from_si(inertia.si() * speed.si() / drag.si())
}

/// The torque with which a pressure difference over a motor that is driven by its rotor brakes it, `T = Δp·V/2π`.
pub fn drag_torque(displacement: Displacement, difference: Pressure) -> Torque {
    Torque::from_si(difference.si() * displacement.si() / TAU)
}

/// The way by which a motor that runs down gets its oil back.
#[derive(Clone, Debug, PartialEq)]
pub struct MakeUp {
    /// Gauge pressure in the tank.
    pub tank: Pressure,
    /// Pressure that a preload check keeps in the return.
    pub preload: Pressure,
    /// How high the motor stands above the oil in the tank.
    pub motor_above: Length,
    /// The line from tank to motor; only what leaks away must flow through it.
    pub line: Resistance,
    /// The check valve from the motor's outlet to its inlet.
    pub check: Check,
}

impl MakeUp {
    /// Pressure at the motor's inlet while it runs down:
    /// `p_in = p_tank − ρgh + p_preload − Δp_line(Q_c) − Δp_check(Q)`.
    ///
    /// ```
    /// use hydraulics::{Oil, Resistance, coast_down::{LEAST_INLET_BAR, MakeUp}, valve::Check};
    /// use quantity::{Quantity, KinematicViscosity, Length, MassDensity, VolumeRate};
    /// use quantity::shop::bar;
    /// let oil = Oil { viscosity: KinematicViscosity::from_si(30e-6), density: MassDensity::from_si(860.0) };
    /// let flow = VolumeRate::from_si(1e-3);
    /// let check = Check { cracking: bar(0.3), loss: bar(2.0), flow };
    /// let way = MakeUp {
    ///     tank: bar(0.2), preload: bar(0.0), motor_above: Length::from_si(4.0), line: Resistance::default(), check,
    /// };
    /// // Four metres above the tank a motor without preload draws a vacuum; a preload of 3 bar fills it.
    /// assert!(way.inlet(flow, flow * 0.03, &oil) < bar(LEAST_INLET_BAR));
    /// assert!(MakeUp { preload: bar(3.0), ..way }.inlet(flow, flow * 0.03, &oil) > bar(LEAST_INLET_BAR));
    /// ```
    pub fn inlet(&self, through: VolumeRate, leaked: VolumeRate, oil: &Oil) -> Pressure {
        self.tank + self.preload
            - height_of_oil(self.motor_above, oil)
            - self.line.loss(leaked, oil)
            - self.check.loss(through)
    }
}
