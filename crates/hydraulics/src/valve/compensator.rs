//! The pressure compensator: holds the pressure difference over a metering edge, and with it the flow.

use crate::{Oil, Orifice};
use quantity::{Kind, Pressure, VolumeRate};

/// A metering orifice with a hydrostat that holds the spring's pressure difference over it.
///
/// `Q_reg = C_d·A·√(2·Δp_spring/ρ)`: the flow follows from the opening, not from the load, as long as upstream and downstream
/// are the spring's difference apart; below that the hydrostat is wide open and the orifice alone decides (textbook;
/// springs of 5 to 15 bar, accuracy ±5 to 10 %, are common practice, no published source).
///
/// ```
/// use hydraulics::{Oil, Orifice, valve::Compensator};
/// use quantity::{Kind, KinematicViscosity, Length, MassDensity, Pressure, Unit};
/// let bar = |p| Pressure::from_si(Unit::Bar.to_si(p));
/// let oil = Oil { viscosity: KinematicViscosity::from_si(30e-6), density: MassDensity::from_si(850.0) };
/// let edge = Orifice { bore: Length::from_si(0.008), coefficient: 0.65 };
/// let valve = Compensator { edge, spring: bar(7.0) };
/// // The load may change as it likes: 100 or 240 bar less than upstream, the flow stays.
/// assert_eq!(valve.flow(bar(100.0), &oil), valve.flow(bar(240.0), &oil));
/// // With only 2 bar to spare it is short of its set flow.
/// assert!(valve.flow(bar(2.0), &oil) < valve.set(&oil));
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Compensator {
    /// The metering edge.
    pub edge: Orifice,
    /// The pressure difference that the spring holds over it, Δp_spring = F/A_spool; above zero.
    pub spring: Pressure,
}

impl Compensator {
    /// The regulated flow, Q_reg.
    pub fn set(&self, oil: &Oil) -> VolumeRate {
        self.edge.flow(self.spring, oil)
    }

    /// The flow at a pressure difference ≥ 0 from upstream of the valve to its load.
    pub fn flow(&self, difference: Pressure, oil: &Oil) -> VolumeRate {
        self.edge.flow(if difference < self.spring { difference } else { self.spring }, oil)
    }

    /// What the hydrostat throttles away: everything beyond the spring's difference.
    pub fn throttled(&self, difference: Pressure) -> Pressure {
        (difference - self.spring).max(Pressure::from_si(0.0))
    }
}
