//! The ways of the oil.

use hydraulics::Resistance;

/// The ways of the oil in one scenario and one oil temperature.
#[derive(Clone, Debug)]
pub struct Ways {
    /// From the pumps to the motor.
    pub supply: Resistance,
    /// From the motor to the tank.
    pub back: Resistance,
    /// What is no line goes by this oil.
    pub oil: hydraulics::Oil,
}
