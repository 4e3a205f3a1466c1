//! How fast oil may flow in a line, by what the line is for.
//!
//! The velocities are common practice, no published source: what is recommended spreads from 2 to 4.6 m/s in
//! returns and from 3 to 10 m/s in pressure lines. A textbook (Esposito, chapter 10) sizes pressure lines for 20 ft/s, 6.1 m/s.

use quantity::{Length, Quantity, Velocity, VolumeRate};
use std::f64::consts::PI;

/// What a line is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Service {
    /// From the pump or valve to the head.
    Supply,
    /// From the head to the tank.
    Return,
    /// From a motor's housing to the tank: sized for pressure in the cold, not for velocity.
    Case,
}

impl Service {
    /// The velocity for which such a line is laid out, and the one that a short piece may reach.
    ///
    /// ```
    /// use hydraulics::velocity::Service;
    /// use quantity::Quantity;
    /// let (usual, short) = Service::Return.velocities();
    /// assert_eq!((usual.si(), short.si()), (3.0, 4.0));
    /// ```
    pub fn velocities(self) -> (Velocity, Velocity) {
        let (usual, short) = match self {
            Self::Supply => (6.0, 8.0),
            Self::Return => (3.0, 4.0),
            Self::Case => (1.5, 2.0),
        };
        (Velocity::from_si(usual), Velocity::from_si(short))
    }
}

/// Mean velocity of a flow in a bore, v = Q/(π/4·D²); in shop units v\[m/s\] = 21.2207·Q\[L/min\]/d²\[mm\].
pub fn velocity(flow: VolumeRate, bore: Length) -> Velocity {
    flow / (bore * bore * (PI / 4.0))
}
