//! What the pumps do while the head is off.
//!
//! A head that shuts the pressure port when off (closed centre: an on/off or door valve) on a pump that gives its flow
//! whatever happens (open centre) sends all of it over the relief. A head that passes oil when off (open centre) on a pump
//! that gives only what is taken (closed centre) draws its full flow all day. Both boil a tank that a comparison of two
//! numbers found right.

use quantity::{Kind, Power, Pressure, VolumeRate};
use table::Centre;

/// Where the pumps' oil goes while the head is off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Standby {
    /// It circulates through the open centre of the machine, or of the head, at what that costs.
    Circulates {
        /// How much.
        flow: VolumeRate,
        /// At which pressure.
        pressure: Pressure,
    },
    /// All of it goes over the relief.
    OverRelief {
        /// How much.
        flow: VolumeRate,
        /// Full-flow pressure of the relief.
        pressure: Pressure,
    },
    /// The pump has stroked back: nothing to speak of.
    StrokedBack,
}

impl Standby {
    /// What a circuit does with the head off, by the centre of what feeds it and of the head.
    ///
    /// `flow` is what the circuit is set to while it is switched on; `pump` the pressure at the pumps while the head passes
    /// oil (of a load-sensing pump its margin above that, of a compensated one its compensator's), `relief` the full-flow
    /// pressure of the relief.
    ///
    /// ```
    /// use hydraulics::Standby;
    /// use quantity::{Kind, Pressure, Unit, VolumeRate};
    /// use table::Centre;
    /// let bar = |p| Pressure::from_si(Unit::Bar.to_si(p));
    /// let flow = VolumeRate::from_si(Unit::LitrePerMinute.to_si(60.0));
    /// let of = |machine, head| Standby::of(machine, head, flow, bar(15.0), bar(300.0));
    /// // A closed head on a constant pump: 30 kW over the relief while nothing turns.
    /// assert!((Unit::Kilowatt.of_si(of(Centre::Open, Centre::Closed).heat().si()) - 30.0).abs() < 1e-9);
    /// assert_eq!(of(Centre::Closed, Centre::Closed), Standby::StrokedBack);
    /// ```
    pub fn of(machine: Centre, head: Centre, flow: VolumeRate, pump: Pressure, relief: Pressure) -> Self {
        match (machine, head) {
            (Centre::Open, Centre::Closed) => Self::OverRelief { flow, pressure: relief },
            (Centre::Closed, Centre::Closed) => Self::StrokedBack,
            (_, Centre::Open) => Self::Circulates { flow, pressure: pump },
        }
    }

    /// The heat that it makes all the while.
    pub fn heat(&self) -> Power {
        match *self {
            Self::Circulates { flow, pressure } | Self::OverRelief { flow, pressure } => pressure * flow,
            Self::StrokedBack => Power::from_si(0.0),
        }
    }
}
