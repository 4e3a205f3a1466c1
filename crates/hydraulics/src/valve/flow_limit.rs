//! The flow limit: a sealed regulator in the supply.

use quantity::{Kind, Power, Pressure, Ratio, VolumeRate};

/// Where a regulator sends what it does not let through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ports {
    /// Two ports: nowhere. The pump must stroke back, or the rest goes over a relief.
    Two,
    /// Three ports: to the tank or to what follows, at the load's pressure.
    Three,
}

/// What kind of pump stands before a regulator.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Before {
    /// One that senses the load behind the regulator: it gives what is taken, the spring's difference above the load.
    Sensing,
    /// A pressure-compensated one: it gives what is taken, at its compensator's pressure.
    Compensated(Pressure),
    /// A fixed one with a relief (full-flow pressure): it gives its flow whatever is taken.
    Fixed {
        /// Of the relief.
        relief: Pressure,
    },
}

/// A regulator that keeps the flow at or below a set one.
///
/// A 2-port regulator is wrong on a fixed pump: the rest goes over the relief, 300 bar × 60 L/min = 30 kW of heat
/// (arithmetic). On a pressure-compensated pump it costs (p_comp − p_load)·Q. Which one belongs where is common practice, no
/// published source.
///
/// ```
/// use hydraulics::valve::{FlowLimit, Ports, flow_limit::Before};
/// use quantity::{Kind, Pressure, Ratio, Unit, VolumeRate};
/// let bar = |p| Pressure::from_si(Unit::Bar.to_si(p));
/// let litres = |q| VolumeRate::from_si(Unit::LitrePerMinute.to_si(q));
/// let valve = FlowLimit { set: litres(60.0), accuracy: Ratio::from_si(0.1), ports: Ports::Two, spring: bar(7.0) };
/// // A fixed pump of 120 L/min, load 180 bar, relief 300 bar: 30 kW over the relief and 12 kW in the regulator.
/// let heat = valve.heat(litres(120.0), bar(180.0), Before::Fixed { relief: bar(300.0) });
/// assert!((Unit::Kilowatt.of_si(heat.si()) - (30.0 + 12.0)).abs() < 1e-9);
/// // With a third port the rest leaves at the load's pressure and the regulator's spring.
/// let three = FlowLimit { ports: Ports::Three, ..valve };
/// assert!(three.heat(litres(120.0), bar(180.0), Before::Fixed { relief: bar(300.0) }) < heat);
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

    /// Heat that it and what it leaves over make, of a flow that is offered, at a load pressure behind it.
    pub fn heat(&self, offered: VolumeRate, load: Pressure, pump: Before) -> Power {
        let passed = self.passes(offered);
        let left = offered - passed;
        let over = |at: Pressure| (at - load).max(Pressure::from_si(0.0)) * passed;
        match (self.ports, pump) {
            (Ports::Three, _) => self.spring * passed + (load + self.spring) * left,
            (Ports::Two, Before::Sensing) => self.spring * passed,
            (Ports::Two, Before::Compensated(at)) => over(at),
            // A fixed pump that is not held back stands at the load; else the relief sets the pressure.
            (Ports::Two, Before::Fixed { .. }) if left.si() <= 0.0 => self.spring * passed,
            (Ports::Two, Before::Fixed { relief }) => over(relief) + relief * left,
        }
    }
}
