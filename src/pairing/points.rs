//! Solved operating points at nominal figures, for showing.

use super::draw::{Draw, Stance};
use super::facts::{Facts, Lean};
use super::{Load, OilState, Point, Stage};
use crate::circuit::Operating;
use crate::quantity::{Amount, Kind, Named, Power, Pressure, VolumeRate};
use crate::table::HeadKind;

/// Every state of oil and load of one circuit.
pub fn points(facts: &Facts, stage: Stage) -> Vec<Point> {
    let conditions = facts.conditions;
    let mut points = Vec::new();
    for &oil in OilState::ALL {
        let temperature = match oil {
            OilState::Cold => conditions.cold,
            OilState::Working => conditions.working,
            OilState::Hot => conditions.hot,
        };
        for &load in Load::ALL {
            points.push(point(facts, stage, oil, temperature, load));
        }
    }
    points
}

fn point(
    facts: &Facts,
    stage: Stage,
    oil: OilState,
    temperature: crate::quantity::ThermodynamicTemperature,
    load: Load,
) -> Point {
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
    let idles = !matches!(facts.head.kind, HeadKind::Breaker | HeadKind::PlateCompactor);
    if load == Load::Free && !idles {
        return shown;
    }
    let draw = Draw::new(Stance::Nominal);
    let circuit = facts.circuit(&draw, Lean::Poor, temperature);
    let difference = match load {
        Load::Free => facts.free_difference(&draw),
        Load::Working => facts.working_difference(&draw, &circuit),
        Load::Stalled => Pressure::from_si(0.0),
    };
    if !draw.missing().is_empty() {
        return shown;
    }
    let solved = match load {
        Load::Stalled => circuit.stalled(),
        Load::Free | Load::Working => circuit.solve(difference).ok().or_else(|| circuit.stalled()),
    };
    let Some(operating) = solved else { return shown };
    fill(&mut shown, facts, &draw, &circuit, &operating, difference);
    shown
}

fn fill(
    shown: &mut Point,
    facts: &Facts,
    draw: &Draw,
    circuit: &crate::circuit::Circuit,
    operating: &Operating,
    difference: Pressure,
) {
    shown.flow = Some(Amount::of(operating.flow));
    shown.pump_pressure = Some(Amount::of(operating.pump));
    shown.head_inlet = Some(Amount::of(operating.inlet));
    shown.head_outlet = Some(Amount::of(operating.outlet));
    if facts.carrier.case_line.as_ref().is_some_and(|line| line.fitted) {
        let leaked = facts.case_flow(draw, operating.flow);
        shown.case_pressure = Some(Amount::of(facts.case_resistance(draw).loss(leaked, &circuit.oil)));
    }
    let shaft = match facts.nominal_motor() {
        Some(motor) => {
            shown.rotor_speed = Some(Amount::of(motor.rotor_speed(operating.flow)));
            Some(motor.shaft_power(difference, operating.flow))
        }
        // Without a displacement the shaft's power still follows from the efficiencies; without those nothing does.
        None if facts.is_impact() => None,
        None => {
            let eta = draw.take(&facts.volumetric, super::draw::Side::Low).si()
                * draw.take(&facts.hydromechanical, super::draw::Side::Low).si();
            draw.missing().is_empty().then(|| difference * operating.flow * eta)
        }
    };
    let shaft = if operating.flow > VolumeRate::from_si(0.0) { shaft } else { Some(Power::from_si(0.0)) };
    shown.shaft_power = shaft.map(Amount::of);
    shown.heat = shaft.map(|shaft| Amount::of(operating.heat(shaft)));
}
