//! Valves that stand in one of two positions: the changeover of the return, and the isolating valve of a second tool.

use crate::line::Piece;
use quantity::{Pressure, TemperatureInterval, VolumeRate};
use uom::si::pressure::bar;
use uom::si::temperature_interval::kelvin;

/// Where a changeover valve stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Position {
    /// The head's return goes straight to the tank: the head is on.
    Direct,
    /// The line goes to the spool, as it was: bucket and second tool work both ways.
    Spool,
}

/// A valve in the return that leads it direct to the tank or back to the spool.
///
/// It must never shut the return in between (open transition): behind a shut return a motor's outlet, or a seal, sees
/// the full pressure. Where its position or a coupling can shut the return, a low-pressure relief from the motor's outlet to
/// the tank belongs to it (common practice, no published source).
///
/// ```
/// use hydraulics::valve::{Changeover, Position};
/// use quantity::{Kind, Pressure, Unit, VolumeRate};
/// let bar = |p| Pressure::from_si(Unit::Bar.to_si(p));
/// let flow = VolumeRate::from_si(Unit::LitrePerMinute.to_si(150.0));
/// let valve = Changeover { loss: bar(1.5), flow, open_transition: true, return_relief: None };
/// assert!(!valve.can_shut_the_return());
/// assert!(Changeover { open_transition: false, ..valve }.can_shut_the_return());
/// // With a relief to the tank the outlet sees no more than that.
/// let relieved = Changeover { open_transition: false, return_relief: Some(bar(8.0)), ..valve };
/// assert!(!relieved.can_shut_the_return());
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Changeover {
    /// Loss in either position at `flow`.
    pub loss: Pressure,
    /// The flow at which it was stated; above zero.
    pub flow: VolumeRate,
    /// Whether it passes oil while it is turned.
    pub open_transition: bool,
    /// Full-flow pressure of a relief from the motor's outlet to the tank.
    pub return_relief: Option<Pressure>,
}

impl Changeover {
    /// What it costs in the return.
    pub fn piece(&self) -> Piece {
        Piece::Point { loss: self.loss, flow: self.flow }
    }

    /// Whether the motor's outlet can be shut in.
    pub fn can_shut_the_return(&self) -> bool {
        !self.open_transition && self.return_relief.is_none()
    }
}

/// What another tool on the same spool is in for while the head works.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Exposed {
    /// It sees the pressure of the circuit.
    To(Pressure),
    /// It is cut off and a relief at the tool holds what its trapped oil may rise to.
    Relieved(Pressure),
    /// It is cut off with nothing to hold what its trapped oil rises to: warmth alone makes about 11 bar a kelvin.
    Trapped,
}

/// Valves that cut a second tool off its lines while the head works.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Isolating {
    /// Whether they are shut; both lines or none (better one selector that cannot be half right).
    pub shut: bool,
    /// Full-flow pressure of a relief between valves and tool.
    pub tool_relief: Option<Pressure>,
}

impl Isolating {
    /// What the tool is in for with a pressure in the circuit.
    ///
    /// ```
    /// use hydraulics::valve::{Isolating, shutoff::Exposed};
    /// use quantity::{Kind, Pressure};
    /// let circuit = Pressure::from_si(303e5);
    /// let open = Isolating { shut: false, tool_relief: None };
    /// assert_eq!(open.exposes(circuit), Exposed::To(circuit));
    /// assert_eq!(Isolating { shut: true, ..open }.exposes(circuit), Exposed::Trapped);
    /// ```
    pub fn exposes(&self, circuit: Pressure) -> Exposed {
        match (self.shut, self.tool_relief) {
            (false, Some(relief)) if relief < circuit => Exposed::Relieved(relief),
            (false, _) => Exposed::To(circuit),
            (true, Some(relief)) => Exposed::Relieved(relief),
            (true, None) => Exposed::Trapped,
        }
    }
}

/// By how much the pressure of oil that is locked in rises when it warms: about 11 bar a kelvin (90 psi per °F by a
/// published rule of thumb).
///
/// ```
/// use hydraulics::valve::shutoff::locked_in_rise;
/// use uom::si::{f64::TemperatureInterval, pressure::bar, temperature_interval::kelvin};
/// // A hose that lies in the sun and warms by 20 K: 220 bar.
/// assert!((locked_in_rise(TemperatureInterval::new::<kelvin>(20.0)).get::<bar>() - 220.0).abs() < 1e-9);
/// ```
pub fn locked_in_rise(warmer: TemperatureInterval) -> Pressure {
    Pressure::new::<bar>(11.0 * warmer.get::<kelvin>())
}
