//! What a motor's inlet is in for when the spool closes while its rotor still turns.

use super::states::balanced;
use crate::Load;
use crate::facts::Facts;
use crate::sample::{End, Sample};
use hydraulics::balance::Balanced;
use hydraulics::coast_down::MakeUp;
use hydraulics::valve::Check;
use quantity::shop::bar;
use quantity::{Length, Pressure, Quantity, ThermodynamicTemperature};
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

/// Pressure at the motor's inlet while the rotor runs down from free running, fed by a check valve; none where it does not
/// turn. What is missing the sample notes.
pub fn inlet_pressure(facts: &Facts, sample: &Sample, temperature: ThermodynamicTemperature) -> Option<Pressure> {
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
