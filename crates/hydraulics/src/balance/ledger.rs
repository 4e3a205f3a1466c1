//! The ledger of power: what the pumps' shafts take in, and where all of it goes.
//!
//! Each entry is computed from its own pressure difference and flow, so that the sum is a proof: shaft in = rotor + functions +
//! heat, to the last digit that counts. Gauge pressures, the tank at zero.

use super::{Circuit, Functions, Operating};
use crate::Motor;
use quantity::{Power, Pressure, Quantity, Ratio, VolumeRate, string_enum};

string_enum! {
    /// Where power turns into heat.
    "place" pub enum Place {
        /// Leakage and friction in the pumps.
        Pump = "pump",
        /// The margin that a load-sensing pump keeps.
        Margin = "margin",
        /// What a pump gives beyond the set flow, gone over a bypass at the circuit's pressure.
        Bypass = "bypass",
        /// The flow divider.
        Divider = "divider",
        /// The relief.
        Relief = "relief",
        /// Lines, couplings and valves to the head.
        Supply = "supply",
        /// Leakage and friction in the motor.
        Motor = "motor",
        /// Lines, couplings, valves and filter back from the head.
        Return = "return",
        /// The case line.
        Case = "case",
        /// What the functions turn into heat rather than work.
        Functions = "functions",
    }
}

/// Where the power goes.
#[derive(Clone, Debug, PartialEq)]
pub struct Ledger {
    /// At the pumps' shafts.
    pub shaft: Power,
    /// At the motor's shaft.
    pub rotor: Power,
    /// Work of the machine's functions.
    pub functions: Power,
    /// Heat by place; only what is not zero.
    pub heat: Vec<(Place, Power)>,
}

impl Ledger {
    /// All heat that goes into the oil.
    pub fn warms(&self) -> Power {
        self.heat.iter().fold(Power::from_si(0.0), |sum, (_, power)| sum + *power)
    }
}

impl Circuit {
    /// Where the power of a solved point goes.
    ///
    /// `motor` gives the share that its shaft makes of the power over it, `pumps` the pumps' overall efficiency (above
    /// 0), `useful` the share of the functions' power that is work (0.5; 0.4 to 0.7: common practice, no published
    /// source).
    pub fn ledger(&self, at: &Operating, motor: &Motor, pumps: Ratio, useful: Ratio) -> Ledger {
        let none = Power::from_si(0.0);
        let leaked = at.flow - self.returned(at.flow);
        let case = at.case.unwrap_or(at.outlet);
        // Standing still it gives nothing, and nothing flows through it.
        let rotor = motor.shaft_power(at.inlet - at.outlet, at.flow);
        let mut heat = vec![
            (Place::Supply, (at.supply - at.inlet) * at.flow),
            (Place::Motor, at.inlet * at.flow - at.outlet * (at.flow - leaked) - case * leaked - rotor),
            (Place::Return, at.outlet * (at.flow - leaked)),
            (Place::Case, case * leaked),
        ];
        // What goes over a relief on a divider's port has gone through the divider.
        let (over, behind) = (self.over_relief(at), self.relief.map_or(Pressure::from_si(0.0), |relief| relief.behind));
        heat.push((Place::Relief, (at.supply - behind) * over));
        heat.push((Place::Divider, behind * over));
        let (hydraulic, functions) = match &self.functions {
            Some(Functions::Divided(pumps)) => {
                let legs = pumps.at(at.supply);
                let mut given = none;
                let (mut divided, mut functions) = (none, none);
                for (leg, one) in pumps.legs.iter().zip(&legs) {
                    given += one.pump * (one.head + one.functions);
                    divided += (one.pump - at.supply) * one.head + (one.pump - leg.functions) * one.functions;
                    functions += leg.functions * one.functions;
                }
                heat.push((Place::Divider, divided));
                (given, functions)
            }
            Some(Functions::Shared { pressure, .. }) => {
                let pump = self.at_pumps(at);
                let (rest, none) = (self.beside(at, *pressure), VolumeRate::from_si(0.0));
                let to_functions = self.to_functions(at).map_or(none, |(flow, _)| flow);
                // Both are throttled from the pump's pressure down to their own.
                heat.push((Place::Margin, (pump - at.supply) * at.pumped + (pump - *pressure) * to_functions));
                let over = if self.source.surplus_is_pumped { rest - to_functions } else { none };
                heat.push((Place::Bypass, pump * over));
                (pump * (at.pumped + to_functions + over), *pressure * to_functions)
            }
            None => {
                let pump = self.at_pumps(at);
                let bypass = self.source.surplus_is_pumped;
                let offered = if bypass { self.source.flow_at(at.supply) } else { at.pumped };
                heat.push((Place::Margin, (pump - at.supply) * at.pumped));
                heat.push((Place::Bypass, at.supply * (at.pumped - offered)));
                (pump * at.pumped, none)
            }
        };
        let shaft = hydraulic / pumps;
        heat.push((Place::Pump, shaft - hydraulic));
        heat.push((Place::Functions, functions * (1.0 - useful.si())));
        heat.retain(|(_, power)| power.si() != 0.0);
        Ledger { shaft, rotor, functions: functions * useful, heat }
    }
}
