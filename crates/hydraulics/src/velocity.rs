//! How fast oil may flow in a line, by what the line is for, and the bore that follows.
//!
//! The velocities are common practice, no published source: what is recommended spreads from 2 to 4.6 m/s in
//! returns and from 3 to 10 m/s in pressure lines. A textbook (Esposito, chapter 10) sizes pressure lines for 20 ft/s, 6.1 m/s.

use quantity::{Kind, Length, Velocity, VolumeRate};
use std::f64::consts::PI;

/// What a line is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Service {
    /// From the tank to the pump.
    Suction,
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
    /// use quantity::Kind;
    /// let (usual, short) = Service::Return.velocities();
    /// assert_eq!((usual.si(), short.si()), (3.0, 4.0));
    /// ```
    pub fn velocities(self) -> (Velocity, Velocity) {
        let (usual, short) = match self {
            Self::Suction => (1.2, 1.5),
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

/// The bore in which a flow has a velocity, D = √(4Q/(π·v)).
///
/// ```
/// use hydraulics::velocity::bore_for;
/// use quantity::{Kind, Unit, Velocity, VolumeRate};
/// // 30 US gpm at 20 ft/s: 0.783 in (Esposito, chapter 10).
/// let flow = VolumeRate::from_si(Unit::UsGallonPerMinute.to_si(30.0));
/// let bore = bore_for(flow, Velocity::from_si(20.0 * 0.3048));
/// assert!((Unit::Inch.of_si(bore.si()) - 0.783).abs() < 5e-4);
/// ```
pub fn bore_for(flow: VolumeRate, velocity: Velocity) -> Length {
    Length::from_si((4.0 * flow.si() / (PI * velocity.si())).sqrt())
}
