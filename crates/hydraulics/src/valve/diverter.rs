//! How a second function of a head (door, tilt) gets its oil.

use quantity::{Kind, Pressure, VolumeRate};
use table::{ReturnRoute, Ways};

/// Where a second function is switched.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Diverter {
    /// A second two-way circuit of the machine: independent of the motor.
    SecondCircuit,
    /// A 6/2 valve in the main lines, switched electrically: either the motor runs or the cylinder moves, the direction
    /// comes from the spool. The cylinder sees full flow and full pressure unless throttled.
    InMainLines {
        /// Flow that an orifice or regulator leaves for the cylinder.
        flow: VolumeRate,
    },
    /// A 4/3 valve block on the head, fed from the supply and drained into the return: the motor runs on while the
    /// cylinder moves, and the machine needs three outputs (on/off, open, close).
    OnTheHead {
        /// Flow that a regulator takes from the supply.
        flow: VolumeRate,
        /// Pressure that the regulator needs.
        regulator: Pressure,
    },
}

/// Why a diverter cannot work on a circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CannotWork {
    /// Its direction comes from the spool, which has only one.
    OneWaySpool,
    /// The return hose is open to the tank: what would flow backwards is dumped there.
    ReturnIsDirect,
}

impl Diverter {
    /// Whether it can work on a circuit at all.
    ///
    /// # Errors
    /// [`CannotWork`] with the reason: a valve in the main lines needs a two-way spool whose lines both lead back to it.
    ///
    /// ```
    /// use hydraulics::valve::{Diverter, diverter::CannotWork};
    /// use quantity::{Kind, VolumeRate};
    /// use table::{ReturnRoute, Ways};
    /// let in_main_lines = Diverter::InMainLines { flow: VolumeRate::from_si(1e-4) };
    /// assert_eq!(in_main_lines.works_on(Ways::Two, ReturnRoute::Spool), Ok(()));
    /// assert_eq!(in_main_lines.works_on(Ways::Two, ReturnRoute::Direct), Err(CannotWork::ReturnIsDirect));
    /// ```
    pub fn works_on(&self, ways: Ways, route: ReturnRoute) -> Result<(), CannotWork> {
        match self {
            Self::InMainLines { .. } if ways == Ways::One => Err(CannotWork::OneWaySpool),
            Self::InMainLines { .. } if route == ReturnRoute::Direct => Err(CannotWork::ReturnIsDirect),
            _ => Ok(()),
        }
    }

    /// How many switched outputs of the machine it takes, with one for the rotor on and off.
    pub fn outputs(&self) -> u8 {
        match self {
            Self::SecondCircuit => 1,
            Self::InMainLines { .. } => 2,
            Self::OnTheHead { .. } => 3,
        }
    }

    /// Flow that the motor loses while the cylinder moves, of what reaches the head.
    pub fn taken_from_motor(&self, at_head: VolumeRate) -> VolumeRate {
        match *self {
            Self::SecondCircuit => VolumeRate::from_si(0.0),
            Self::InMainLines { .. } => at_head,
            Self::OnTheHead { flow, .. } => {
                if flow < at_head {
                    flow
                } else {
                    at_head
                }
            }
        }
    }

    /// Pressure at the cylinder's inlet. With a block on the head no more than the motor needs at that moment, `running`,
    /// which is little when it runs free; else up to `dead`, the pressure at which the circuit that feeds it ends.
    pub fn at_cylinder(&self, running: Pressure, dead: Pressure) -> Pressure {
        match *self {
            Self::OnTheHead { regulator, .. } => (running - regulator).max(Pressure::from_si(0.0)),
            Self::SecondCircuit | Self::InMainLines { .. } => dead,
        }
    }
}
