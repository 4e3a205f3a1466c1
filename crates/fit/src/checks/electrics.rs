//! Wires, and what drives a head's functions besides its rotor.

use crate::draw::{Parameter, Side};
use crate::facts::{Facts, limit};
use crate::judge::{Question, Reading, missing, worst_of, yes_no};
use crate::trace::{Context, Counted};
use crate::{Bound, Cause, Check, CheckId, Class, FactId, Outcome, Reason};
use quantity::{ElectricCurrent, Kind, Stated};
use table::{Circuit, Drive, ExtraFunction, ExtraKind, ExtraValve, Output, OutputKind, Ways};

/// The switched outputs that head and machine need together; none when nobody says how a function is driven.
///
/// On and off is one, shared with a divider that is vented while the head is off; what moves both ways needs two from a valve
/// of its own, one from a diverter, whose direction is the spool's.
pub fn outputs_needed(facts: &Facts) -> Option<usize> {
    let extras = &facts.head.extra_functions;
    let switched = extras.iter().any(|extra| extra.kind == ExtraKind::OnOff) || facts.circuit.divider.is_some();
    let of = |extra: &ExtraFunction| match (extra.drive?, facts.circuit.extra_valve) {
        (Drive::Electric, _) | (Drive::Hydraulic, Some(ExtraValve::HeadBlock)) => Some(2),
        (Drive::Hydraulic, Some(ExtraValve::Diverter)) => Some(1),
        (Drive::Hydraulic, None) => Some(0),
    };
    let others: Option<Vec<usize>> = extras.iter().filter(|extra| extra.kind != ExtraKind::OnOff).map(of).collect();
    Some(usize::from(switched) + others?.into_iter().sum::<usize>())
}

/// The greatest current of a coil.
pub fn greatest_current(facts: &Facts) -> Option<Stated<ElectricCurrent>> {
    let currents = facts.head.extra_functions.iter().filter_map(|extra| extra.current);
    currents.max_by(|a, b| a.nominal.si().total_cmp(&b.nominal.si()))
}

/// Voltage, switched outputs that bear the coils' current, and buttons.
pub fn check(facts: &Facts) -> Check {
    let result = |outcome, reason| yes_no(CheckId::Electrics, Class::Damage, outcome, reason, &[]);
    let unknown = |fact| missing(CheckId::Electrics, Class::Damage, &[fact]);
    facts.see_context(Context::ExtraFunctions, Counted(facts.head.extra_functions.len()));
    let needed = outputs_needed(facts);
    facts.see_context(Context::OutputsNeeded, needed.map(Counted));
    let Some(needed) = needed else { return unknown(FactId::ExtraDrive) };
    if needed == 0 {
        return result(Outcome::Met, Reason::NothingElectric);
    }
    let electrics = facts.carrier.electrics.as_ref();
    let mut judged = Vec::new();
    // Coils that come with a change are ordered for the machine.
    let coils: Vec<_> = facts.head.extra_functions.iter().filter(|extra| has_coil(extra)).collect();
    if coils.iter().any(|coil| facts.see(FactId::Coils, coil.voltage).is_none()) {
        judged.push(unknown(FactId::Coils));
    }
    match facts.see(FactId::Voltage, electrics.and_then(|electrics| electrics.voltage)) {
        None => judged.push(unknown(FactId::Voltage)),
        Some(own) => {
            let differs = |coil: &&ExtraFunction| {
                let stated = coil.voltage.filter(|_| electrics.is_none_or(|e| e.converter != Some(true)));
                stated.is_some_and(|coil| (coil.nominal - own.nominal).si().abs() > 0.5)
            };
            if coils.iter().any(differs) {
                judged.push(result(Outcome::NotMet, Reason::VoltageDiffers));
            }
        }
    }
    if coils.iter().any(|coil| facts.see(FactId::Coils, coil.current).is_none()) {
        judged.push(unknown(FactId::Coils));
    }
    let outputs = electrics.and_then(|electrics| electrics.outputs.as_ref());
    let fit = |wanted: Option<bool>| {
        let current = greatest_current(facts);
        outputs
            .iter()
            .flat_map(|outputs| outputs.iter())
            .filter(|output| switches(output, current.as_ref()) == wanted)
            .count()
    };
    facts.see(FactId::Outputs, outputs.map(|outputs| Counted(outputs.len())));
    let (will_do, may_do) = (fit(Some(true)), fit(None));
    if will_do < needed {
        // What nobody describes may do.
        judged.push(if outputs.is_none() || will_do + may_do >= needed {
            unknown(FactId::Outputs)
        } else {
            result(Outcome::NotMet, Reason::OutputsLacking)
        });
    }
    let buttons = electrics.and_then(|electrics| electrics.spare_buttons);
    facts.see(FactId::SpareButtons, buttons.map(|buttons| Counted(usize::from(buttons))));
    match buttons {
        None => judged.push(unknown(FactId::SpareButtons)),
        Some(buttons) if usize::from(buttons) < needed => {
            judged.push(result(Outcome::NotMet, Reason::ButtonsLacking));
        }
        Some(_) => {}
    }
    if judged.is_empty() { result(Outcome::Met, Reason::OutputsThere) } else { worst_of(judged) }
}

fn has_coil(extra: &ExtraFunction) -> bool {
    extra.kind == ExtraKind::OnOff || extra.drive == Some(Drive::Electric)
}

/// Whether an output switches a coil of a current; none where nobody says what it is.
fn switches(output: &Output, coil: Option<&Stated<ElectricCurrent>>) -> Option<bool> {
    let kind = matches!(output.kind?, OutputKind::Switched | OutputKind::Proportional);
    // Coils that come with a change take what such outputs give.
    let bears = coil.map_or(Some(true), |coil| Some(output.current?.nominal >= coil.nominal));
    if kind { bears } else { Some(false) }
}

/// A hydraulic function besides the rotor needs oil of its own, both ways: from a second circuit that is kept below what it bears,
/// from a valve block on the head, or by a diverter, which needs a two-way circuit with its return through the valve (by a direct
/// return the reverse would run into the tank).
pub fn extra_functions(facts: &Facts) -> Check {
    let mut others = facts.head.extra_functions.iter().filter(|extra| extra.kind != ExtraKind::OnOff).peekable();
    facts.see_context(Context::ExtraFunctions, Counted(facts.head.extra_functions.len()));
    if others.peek().is_none() {
        return told(Outcome::Met, Reason::NoExtras);
    }
    let judged = others.map(|extra| {
        match (
            facts.see(FactId::ExtraDrive, extra.drive),
            facts.see_context(Context::ExtraValve, facts.circuit.extra_valve),
        ) {
            (None, _) => missing(CheckId::ExtraFunctions, Class::Damage, &[FactId::ExtraDrive]),
            (Some(Drive::Electric), _) | (_, Some(ExtraValve::HeadBlock)) => told(Outcome::Met, Reason::ExtrasServed),
            (_, Some(ExtraValve::Diverter)) => diverter(facts, extra),
            (_, None) => second_circuit(facts, extra),
        }
    });
    worst_of(judged.collect())
}

/// By a diverter it gets the dead pressure, at which no other tool's relief counts, and the spool's direction.
fn diverter(facts: &Facts, extra: &ExtraFunction) -> Check {
    let path = facts.see(FactId::ReturnRoute, facts.circuit.return_path.route);
    facts.see(FactId::CircuitWays, facts.circuit.ways);
    facts.see_context(Context::ReverseLocked, facts.circuit.reverse_locked);
    if facts.circuit.ways == Some(Ways::One) || facts.circuit.reverse_locked == Some(true) || facts.returns_direct() {
        return told(Outcome::NotMet, Reason::DiverterNeedsBothWays);
    }
    if facts.circuit.ways.is_none() {
        return missing(CheckId::ExtraFunctions, Class::Damage, &[FactId::CircuitWays]);
    }
    if path.is_none() {
        return missing(CheckId::ExtraFunctions, Class::Damage, &[FactId::ReturnRoute]);
    }
    let bears =
        Parameter { physical_limits: (0.0, 1e8), ..limit(FactId::ExtraPressure, extra.greatest_pressure.as_ref()) };
    let question = Question { id: CheckId::ExtraFunctions, class: Class::Damage, blocks: true, bound: Bound::AtMost };
    let judged = question.judge(facts.depth, |draw| Reading {
        value: draw.take(&facts.protection, Side::High),
        limit: draw.take(&bears, Side::Low),
        because: Cause::ReliefHigh,
    });
    if judged.outcome == Outcome::Met { told(Outcome::Met, Reason::ExtrasServed) } else { judged }
}

fn second_circuit(facts: &Facts, extra: &ExtraFunction) -> Check {
    // One that feeds the other end of the machine does not reach the head.
    let end = facts.end();
    let here = |circuit: &&Circuit| end.is_none() || facts.carrier.end_of(circuit).is_none_or(|at| Some(at) == end);
    let others = || facts.carrier.circuits.iter().filter(|circuit| circuit.id != facts.circuit.id).filter(here);
    facts.see_context(Context::OtherCircuits, Counted(others().count()));
    facts.see(FactId::ExtraPressure, extra.greatest_pressure);
    for circuit in others() {
        facts.see(FactId::CircuitWays, circuit.ways);
        facts.see(FactId::CircuitRelief, circuit.relief);
    }
    let kept_below = |circuit: &&Circuit| match (&extra.greatest_pressure, &circuit.relief) {
        (Some(bears), Some(relief)) => relief.interval(crate::assume::PUBLISHED_PRESSURE).high <= bears.nominal,
        _ => false,
    };
    let serving = || others().filter(|circuit| circuit.ways == Some(Ways::Two)).filter(kept_below);
    if extra.greatest_pressure.is_none() && others().any(|circuit| circuit.ways != Some(Ways::One)) {
        missing(CheckId::ExtraFunctions, Class::Damage, &[FactId::ExtraPressure])
    } else if serving().any(|circuit| end.is_some() && facts.carrier.end_of(circuit) == end) {
        told(Outcome::Met, Reason::ExtrasServed)
    } else if serving().next().is_some() {
        missing(CheckId::ExtraFunctions, Class::Damage, &[facts.lacks(FactId::CircuitEnd)])
    } else if others().any(|circuit| circuit.ways.is_none() || circuit.relief.is_none()) {
        missing(CheckId::ExtraFunctions, Class::Damage, &[FactId::CircuitWays, FactId::CircuitRelief])
    } else {
        told(Outcome::NotMet, Reason::NoSecondCircuit)
    }
}

fn told(outcome: Outcome, reason: Reason) -> Check {
    yes_no(CheckId::ExtraFunctions, Class::Damage, outcome, reason, &[])
}
