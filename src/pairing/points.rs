//! Solved operating points at nominal figures, for showing.

use super::draw::{Draw, Side, Stance};
use super::facts::{Facts, Lean};
use super::{Load, OilState, Point, Stage};
use crate::circuit::Operating;
use crate::circuit::balance::Balanced;
use crate::quantity::{Amount, Kind, Named, Pressure, Ratio};
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
        Load::Stalled => circuit.stalled().map_or(Balanced::NoSuchPoint, Balanced::Stalls),
        Load::Free | Load::Working => circuit.balance(difference),
    };
    let (Balanced::Turns(operating) | Balanced::Stalls(operating)) = solved else { return shown };
    fill(&mut shown, facts, &draw, &circuit, &operating);
    shown
}

fn fill(shown: &mut Point, facts: &Facts, draw: &Draw, circuit: &crate::circuit::Circuit, operating: &Operating) {
    shown.flow = Some(Amount::of(operating.flow));
    shown.pump_pressure = Some(Amount::of(circuit.source.pump_pressure(operating.supply)));
    shown.head_inlet = Some(Amount::of(operating.inlet));
    shown.head_outlet = Some(Amount::of(operating.outlet));
    shown.case_pressure = operating.case.map(Amount::of);
    if let Some(motor) = facts.nominal_motor() {
        shown.rotor_speed = Some(Amount::of(motor.rotor_speed(operating.flow)));
    }
    // A breaker's blows are no shaft: how much of its power they are, nobody says.
    if facts.is_impact() {
        return;
    }
    let motor = facts.motor_by_its_efficiencies(draw);
    let pumps = draw.take(&facts.pump_efficiency(), Side::Low);
    if draw.missing().is_empty() {
        // Functions idle here, so that it does not matter how much of their power is work.
        let ledger = circuit.ledger(operating, &motor, pumps, Ratio::from_si(1.0));
        shown.shaft_power = Some(Amount::of(ledger.rotor));
        shown.heat = Some(Amount::of(ledger.warms()));
    }
}
