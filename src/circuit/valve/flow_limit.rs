//! The flow limit: a sealed regulator in the supply.

use crate::quantity::{Kind, Power, Pressure, Ratio, VolumeRate};

/// Where a regulator sends what it does not let through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ports {
    /// Two ports: nowhere. The pump must stroke back, or the rest goes over a relief.
    Two,
    /// Three ports: to the tank or to what follows, at the load's pressure.
    Three,
}

/// What happens to the oil that a flow limit keeps from the head.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rest {
    /// The pump gives less: nothing is left over.
    NotPumped,
    /// It leaves through the third port at the pressure at the regulator.
    AtLoadPressure,
    /// It leaves over a relief at the relief's pressure.
    OverRelief,
}

/// A regulator that keeps the flow at or below a set one.
///
/// A 2-port regulator is wrong on a fixed pump: the rest goes over the relief, 300 bar × 60 L/min = 30 kW of heat
/// (arithmetic). Which one belongs where is common practice, no published source.
///
/// ```
/// use pairwright::circuit::valve::{FlowLimit, Ports};
/// use pairwright::quantity::{Kind, Pressure, Ratio, Unit, VolumeRate};
/// let bar = |p| Pressure::from_si(Unit::Bar.to_si(p));
/// let litres = |q| VolumeRate::from_si(Unit::LitrePerMinute.to_si(q));
/// let valve = FlowLimit { set: litres(60.0), accuracy: Ratio::from_si(0.1), ports: Ports::Two, spring: bar(7.0) };
/// // A fixed pump of 120 L/min, load 180 bar, relief 300 bar: 30 kW over the relief and 12 kW in the regulator.
/// let heat = valve.heat(litres(120.0), bar(180.0), Some(bar(300.0)));
/// assert!((Unit::Kilowatt.of_si(heat.si()) - (30.0 + 12.0)).abs() < 1e-9);
/// // With a third port the rest leaves at the load's pressure and the regulator's spring.
/// let three = FlowLimit { ports: Ports::Three, ..valve };
/// assert!(three.heat(litres(120.0), bar(180.0), Some(bar(300.0))) < heat);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlowLimit {
    /// The set flow.
    pub set: VolumeRate,
    /// How far it may be off, as a share (±10 %: common practice, no published source).
    pub accuracy: Ratio,
    /// Two ports or three.
    pub ports: Ports,
    /// Pressure difference that it needs to regulate; above zero.
    pub spring: Pressure,
}

impl FlowLimit {
    /// What it lets through of a flow that is offered.
    pub fn passes(&self, offered: VolumeRate) -> VolumeRate {
        if offered < self.set { offered } else { self.set }
    }

    /// The lowest and the highest flow that it may hold when it is set.
    pub fn held(&self) -> (VolumeRate, VolumeRate) {
        let off = self.accuracy.value;
        (self.set * (1.0 - off), self.set * (1.0 + off))
    }

    /// Where the rest goes when a pump gives a flow whatever the load (`fixed`), or only what is taken.
    pub fn rest(&self, fixed: bool) -> Rest {
        match (self.ports, fixed) {
            (Ports::Three, _) => Rest::AtLoadPressure,
            (Ports::Two, true) => Rest::OverRelief,
            (Ports::Two, false) => Rest::NotPumped,
        }
    }

    /// Heat that it and what it leaves over make at a load pressure behind it. `relief` is the full-flow pressure of the
    /// relief of a fixed pump; none for a pump that gives only what is taken, which then stands at the spring's
    /// difference above the load.
    pub fn heat(&self, offered: VolumeRate, load: Pressure, relief: Option<Pressure>) -> Power {
        let passed = self.passes(offered);
        let left = offered - passed;
        match self.rest(relief.is_some()) {
            Rest::NotPumped => self.spring * passed,
            Rest::AtLoadPressure => self.spring * passed + (load + self.spring) * left,
            Rest::OverRelief => {
                // A fixed pump that is not held back stands at the load; else the relief sets the pressure.
                let pump = relief.filter(|_| left.si() > 0.0).unwrap_or(load + self.spring);
                (pump - load).max(Pressure::from_si(0.0)) * passed + pump * left
            }
        }
    }
}
