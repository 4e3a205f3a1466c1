//! Solved operating points at nominal figures, for showing: engine at working speed, functions idle, filter clean.

use super::facts::Facts;
use super::installation::states::{balanced, idles, powers, temperature_of};
use super::sample::Corner;
use super::{Load, OilState, Point, Stage};
use hydraulics::balance::Balanced;
use quantity::{Amount, Named};

/// Every state of oil and load of one circuit.
pub fn points(facts: &Facts, stage: Stage) -> Vec<Point> {
    OilState::ALL.iter().flat_map(|&oil| Load::ALL.iter().map(move |&load| point(facts, stage, oil, load))).collect()
}

/// One state of oil and load.
pub fn point(facts: &Facts, stage: Stage, oil: OilState, load: Load) -> Point {
    let temperature = temperature_of(facts, oil);
    let mut shown = Point {
        stage,
        oil,
        oil_temperature: Amount::of(temperature),
        load,
        flow: None,
        pump_pressure: None,
        head_inlet: None,
        head_outlet: None,
        case_pressure: None,
        rotor_speed: None,
        shaft_power: None,
        heat: None,
    };
    // A breaker or plate has no load without work.
    if load == Load::Free && !idles(facts.head.kind) {
        return shown;
    }
    let sample = facts.sample(Corner::Likely);
    let (circuit, solved) = balanced(facts, &sample, load, temperature);
    let (Balanced::Turns(at) | Balanced::Stalls(at), true) = (solved, sample.missing().is_empty()) else {
        return shown;
    };
    shown.flow = Some(Amount::of(at.flow));
    shown.pump_pressure = Some(Amount::of(circuit.source.pump_pressure(at.supply)));
    shown.head_inlet = Some(Amount::of(at.inlet));
    shown.head_outlet = Some(Amount::of(at.outlet));
    shown.case_pressure = at.case.map(Amount::of);
    shown.rotor_speed = facts.nominal_motor().map(|motor| Amount::of(motor.rotor_speed(at.flow)));
    if let Some((shaft, heat)) = powers(facts, &circuit, &at) {
        shown.shaft_power = Some(Amount::of(shaft));
        shown.heat = Some(Amount::of(heat));
    }
    shown
}
