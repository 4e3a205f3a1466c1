//! What a motor's inlet is in for when the spool closes while its rotor still turns.

use super::Installation;
use super::states::balanced;
use crate::facts::Facts;
use crate::sample::{Corner, End, Sample};
use crate::{FactId, Load};
use hydraulics::balance::Balanced;
use hydraulics::run_down::{LEAST_INLET_BAR, MakeUp};
use hydraulics::valve::Check;
use quantity::{Amount, Kind, Length, Pressure, ThermodynamicTemperature};
use serde::Serialize;
use table::{CarrierClass, ReturnRoute};

/// What a run-down check valve of usual size costs, bar: it opens at 0.3 (no more than 0.5) and loses 1 (no more than 3) at full
/// flow (common practice, no published source).
const CHECK_BAR: (f64, f64) = (0.3, 1.0);
/// What a check in a return by the valve keeps on it, bar: 3 (0 to 6) (common practice, no published source). A return direct to
/// the tank has none.
const PRELOAD_BAR: f64 = 3.0;
/// No pressure is lower than that of an empty space, gauge.
pub fn vacuum() -> Pressure {
    Pressure::from_si(-1e5)
}

/// How a rotor comes to rest when its oil stops.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "runs", rename_all = "kebab-case")]
pub enum RunDown {
    /// No rotor, or one that stands at once.
    NoRotor,
    /// Its check valve feeds it.
    Fed {
        /// Pressure at the motor's inlet.
        inlet: Amount,
    },
    /// Its check valve is there, but the oil does not follow: the motor draws air.
    Cavitates {
        /// Pressure at the motor's inlet.
        inlet: Amount,
    },
    /// It has no path: the motor tears a vacuum at its inlet and, behind a closed spool, pumps against its outlet.
    NoPath,
    /// It does not turn in the first place.
    StandsStill,
    /// Something is missing.
    NotKnown {
        /// What.
        missing: Vec<FactId>,
    },
}

/// How high a head works above the oil in the tank at the most (common practice, no published source).
fn above_tank(class: CarrierClass) -> Length {
    Length::from_si(match class {
        CarrierClass::MiniExcavator => 2.5,
        CarrierClass::MidiExcavator => 3.0,
        CarrierClass::Excavator => 4.0,
        CarrierClass::MicroExcavator
        | CarrierClass::SkidSteer
        | CarrierClass::CompactTrackLoader
        | CarrierClass::WheelLoader
        | CarrierClass::BackhoeLoader => 1.5,
    })
}

impl Installation<'_> {
    /// How the rotor comes to rest from free running when the spool closes, with oil at a temperature.
    pub fn run_down(&self, temperature: ThermodynamicTemperature) -> RunDown {
        let facts = self.facts();
        if !facts.has_rotor() {
            return RunDown::NoRotor;
        }
        match self.circuit.make_up_check.filter(|fitted| *fitted).or(self.head.run_down_check) {
            None => return RunDown::NotKnown { missing: vec![FactId::RunDownCheck] },
            Some(false) => return RunDown::NoPath,
            Some(true) => {}
        }
        let sample = Sample::new(Corner::Likely);
        let inlet = inlet_pressure(&facts, &sample, temperature);
        let missing = sample.missing();
        if !missing.is_empty() {
            return RunDown::NotKnown { missing };
        }
        let Some(inlet) = inlet else { return RunDown::StandsStill };
        let bar = |p: f64| Pressure::from_si(p * 1e5);
        let shown = Amount::of(inlet.max(vacuum()));
        if inlet < bar(LEAST_INLET_BAR) { RunDown::Cavitates { inlet: shown } } else { RunDown::Fed { inlet: shown } }
    }
}

/// Pressure at the motor's inlet while the rotor runs down from free running, fed by a check valve; none where it does not
/// turn. What is missing the sample notes.
pub fn inlet_pressure(facts: &Facts, sample: &Sample, temperature: ThermodynamicTemperature) -> Option<Pressure> {
    let bar = |p: f64| Pressure::from_si(p * 1e5);
    let (circuit, at) = balanced(facts, sample, Load::Free, temperature);
    let Balanced::Turns(at) = at else { return None };
    // What leaks away comes back by the return line, as long as nothing in it shuts.
    let way = MakeUp {
        tank: sample.take(&facts.tank_pressure, End::Low),
        // Nobody says that it comes back through a valve: none is credited.
        preload: bar(if facts.circuit.return_path.route == Some(ReturnRoute::Spool) { PRELOAD_BAR } else { 0.0 }),
        motor_above: above_tank(facts.carrier.class),
        line: circuit.back.lines_alone(),
        check: Check { cracking: bar(CHECK_BAR.0), loss: bar(CHECK_BAR.1), flow: at.flow },
    };
    Some(way.inlet(at.flow, facts.case_flow(sample, at.flow), &circuit.oil))
}
