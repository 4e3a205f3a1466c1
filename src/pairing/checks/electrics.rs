//! Wires, and what drives a head's functions besides its rotor.

use crate::pairing::facts::Facts;
use crate::pairing::judge::{plain, together};
use crate::pairing::{Check, CheckId, Class, FactId, Outcome, Reason};
use crate::quantity::{ElectricCurrent, Kind, Stated};
use crate::table::{Drive, ExtraFunction, ExtraKind, ExtraValve, Output, OutputKind, Ways};

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
    let result =
        |outcome, reason, missing: &[FactId]| plain(CheckId::Electrics, Class::Damage, outcome, reason, missing);
    let unknown = |fact| result(Outcome::NotKnown, Reason::FactMissing, &[fact]);
    let Some(needed) = outputs_needed(facts) else { return unknown(FactId::ExtraDrive) };
    if needed == 0 {
        return result(Outcome::Met, Reason::NothingElectric, &[]);
    }
    let electrics = facts.carrier.electrics.as_ref();
    let mut judged = Vec::new();
    // Coils that come with a change are ordered for the machine.
    let coils: Vec<_> = facts.head.extra_functions.iter().filter(|extra| has_coil(extra)).collect();
    if coils.iter().any(|coil| coil.voltage.is_none()) {
        judged.push(unknown(FactId::Coils));
    }
    match electrics.and_then(|electrics| electrics.voltage) {
        None => judged.push(unknown(FactId::Voltage)),
        Some(own) => {
            let differs = |coil: &&ExtraFunction| {
                let stated = coil.voltage.filter(|_| electrics.is_none_or(|e| e.converter != Some(true)));
                stated.is_some_and(|coil| (coil.nominal - own.nominal).si().abs() > 0.5)
            };
            if coils.iter().any(differs) {
                judged.push(result(Outcome::NotMet, Reason::VoltageDiffers, &[]));
            }
        }
    }
    let outputs = electrics.map_or(&[][..], |electrics| &electrics.outputs);
    let will_do = outputs.iter().filter(|output| switches(output, greatest_current(facts).as_ref())).count();
    if will_do < needed {
        // An empty list is nobody's word that there are none.
        judged.push(if outputs.is_empty() {
            unknown(FactId::Outputs)
        } else {
            result(Outcome::NotMet, Reason::OutputsLacking, &[])
        });
    }
    match electrics.and_then(|electrics| electrics.spare_buttons) {
        None => judged.push(unknown(FactId::SpareButtons)),
        Some(buttons) if usize::from(buttons) < needed => {
            judged.push(result(Outcome::NotMet, Reason::ButtonsLacking, &[]));
        }
        Some(_) => {}
    }
    if judged.is_empty() { result(Outcome::Met, Reason::OutputsThere, &[]) } else { together(judged) }
}

fn has_coil(extra: &ExtraFunction) -> bool {
    extra.kind == ExtraKind::OnOff || extra.drive == Some(Drive::Electric)
}

/// Whether an output switches a coil of a current; one of unknown current switches a coil of unknown current only.
fn switches(output: &Output, coil: Option<&Stated<ElectricCurrent>>) -> bool {
    let kind = matches!(output.kind, Some(OutputKind::Switched | OutputKind::Proportional));
    let bears = coil.is_none_or(|coil| output.current.is_some_and(|own| own.nominal >= coil.nominal));
    kind && bears
}

/// A hydraulic function besides the rotor needs oil of its own, both ways: from a second circuit that is kept below what it bears,
/// from a valve block on the head, or by a diverter, which needs a two-way circuit with its return through the valve (by a direct
/// return the reverse would run into the tank).
pub fn extra_functions(facts: &Facts) -> Check {
    let result =
        |outcome, reason, missing: &[FactId]| plain(CheckId::ExtraFunctions, Class::Damage, outcome, reason, missing);
    let mut others = facts.head.extra_functions.iter().filter(|extra| extra.kind != ExtraKind::OnOff).peekable();
    if others.peek().is_none() {
        return result(Outcome::Met, Reason::NoExtras, &[]);
    }
    let judged = others.map(|extra| match (extra.drive, facts.circuit.extra_valve) {
        (None, _) => result(Outcome::NotKnown, Reason::FactMissing, &[FactId::ExtraDrive]),
        (Some(Drive::Electric), _) | (_, Some(ExtraValve::HeadBlock)) => {
            result(Outcome::Met, Reason::ExtrasServed, &[])
        }
        (_, Some(ExtraValve::Diverter)) => {
            if facts.circuit.ways == Some(Ways::Two) && !facts.returns_direct() {
                result(Outcome::Met, Reason::ExtrasServed, &[])
            } else {
                result(Outcome::NotMet, Reason::DiverterNeedsBothWays, &[])
            }
        }
        (_, None) => second_circuit(facts, extra, &result),
    });
    together(judged.collect())
}

fn second_circuit(
    facts: &Facts,
    extra: &ExtraFunction,
    result: &impl Fn(Outcome, Reason, &[FactId]) -> Check,
) -> Check {
    let others = || facts.carrier.circuits.iter().filter(|circuit| circuit.id != facts.circuit.id);
    let kept_below = |circuit: &&crate::table::Circuit| match (&extra.greatest_pressure, &circuit.relief) {
        (Some(bears), Some(relief)) => {
            relief.interval(crate::pairing::assume::PUBLISHED_PRESSURE).high <= bears.nominal
        }
        _ => false,
    };
    if others().filter(|circuit| circuit.ways == Some(Ways::Two)).any(|circuit| kept_below(&circuit)) {
        result(Outcome::Met, Reason::ExtrasServed, &[])
    } else if others().any(|circuit| circuit.ways.is_none() || circuit.relief.is_none()) {
        result(Outcome::NotKnown, Reason::FactMissing, &[FactId::CircuitWays, FactId::CircuitRelief])
    } else {
        result(Outcome::NotMet, Reason::NoSecondCircuit, &[])
    }
}
