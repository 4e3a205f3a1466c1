//! Wires, and what drives a head's functions besides its rotor.

use crate::assume::PUBLISHED_PRESSURE;
use crate::facts::{Facts, limit};
use crate::judge::{missing, yes_no};
use crate::question::{Finding, Findings, Question, Reading};
use crate::sample::{End, Parameter};
use crate::{Bound, Cause, Check, CheckId, Class, FactId, Outcome, Reason};
use quantity::{ElectricCurrent, Pressure, Quantity, Stated};
use table::{Circuit, Drive, ExtraFunction, ExtraKind, ExtraValve, Output, OutputKind, ReturnRoute, Ways};

/// Voltage, switched outputs that bear the coils' current, and buttons.
pub fn check<'f>(facts: &Facts) -> Findings<'f> {
    let result = |outcome, reason| Finding::from(yes_no(CheckId::Electrics, Class::Damage, outcome, reason, &[]));
    let unknown = |fact| Finding::from(missing(CheckId::Electrics, Class::Damage, &[fact]));
    let extras = facts.extras();
    let Some(needed) = facts.outputs_needed() else { return unknown(FactId::ExtraDrive).into() };
    if needed == 0 {
        return result(Outcome::Met, Reason::NothingElectric).into();
    }
    let electrics = facts.carrier.electrics.as_ref();
    let mut findings = Findings::new();
    // Coils that come with a change are ordered for the machine.
    let coils: Vec<_> = extras.iter().filter(|extra| has_coil(extra)).collect();
    if coils.iter().any(|coil| facts.coil_voltage(coil).is_none()) {
        findings.push(unknown(FactId::Coils));
    }
    match facts.voltage() {
        None => findings.push(unknown(FactId::Voltage)),
        Some(own) => {
            let differs = |coil: &&ExtraFunction| {
                let stated = coil.voltage.filter(|_| electrics.is_none_or(|e| e.converter != Some(true)));
                stated.is_some_and(|coil| (coil.nominal - own.nominal).si().abs() > 0.5)
            };
            if coils.iter().any(differs) {
                findings.push(result(Outcome::NotMet, Reason::VoltageDiffers));
            }
        }
    }
    if coils.iter().any(|coil| facts.coil_current(coil).is_none()) {
        findings.push(unknown(FactId::Coils));
    }
    let (outputs, current) = (facts.outputs(), facts.greatest_current());
    let fit = |wanted: Option<bool>| {
        outputs.iter().flat_map(|all| all.iter()).filter(|output| switches(output, current.as_ref()) == wanted).count()
    };
    let (will_do, may_do) = (fit(Some(true)), fit(None));
    if will_do < needed {
        // What nobody describes may do.
        findings.push(if outputs.is_none() || will_do + may_do >= needed {
            unknown(FactId::Outputs)
        } else {
            result(Outcome::NotMet, Reason::OutputsLacking)
        });
    }
    match facts.spare_buttons() {
        None => findings.push(unknown(FactId::SpareButtons)),
        Some(buttons) if buttons < needed => {
            findings.push(result(Outcome::NotMet, Reason::ButtonsLacking));
        }
        Some(_) => {}
    }
    if findings.is_empty() { result(Outcome::Met, Reason::OutputsThere).into() } else { findings }
}

fn has_coil(extra: &ExtraFunction) -> bool {
    extra.kind == ExtraKind::OnOff || extra.drive == Some(Drive::Electric)
}

/// Whether an output switches a coil of a current; none where it is not stated.
fn switches(output: &Output, coil: Option<&Stated<ElectricCurrent>>) -> Option<bool> {
    let kind = matches!(output.kind?, OutputKind::Switched | OutputKind::Proportional);
    // Coils that come with a change take what such outputs give.
    let rated = coil.map_or(Some(true), |coil| Some(output.current?.nominal >= coil.nominal));
    if kind { rated } else { Some(false) }
}

/// A hydraulic function besides the rotor needs oil of its own, both ways: from a second circuit that is kept below what it is rated for,
/// from a valve block on the head, or by a diverter, which needs a two-way circuit with its return through the valve (by a direct
/// return the reverse would run into the tank).
pub fn extra_functions<'f>(facts: &'f Facts) -> Findings<'f> {
    let mut others = facts.extras().iter().filter(|extra| extra.kind != ExtraKind::OnOff).peekable();
    if others.peek().is_none() {
        return told(Outcome::Met, Reason::NoExtras).into();
    }
    let find = |extra| match (facts.extra_drive(extra), facts.extra_valve()) {
        (None, _) => missing(CheckId::ExtraFunctions, Class::Damage, &[FactId::ExtraDrive]).into(),
        (Some(Drive::Electric), _) | (_, Some(ExtraValve::HeadBlock)) => {
            told(Outcome::Met, Reason::ExtrasServed).into()
        }
        (_, Some(ExtraValve::Diverter)) => diverter(facts, extra),
        (_, None) => second_circuit(facts, extra).into(),
    };
    others.map(find).collect()
}

/// By a diverter it gets the stall pressure, at which no other tool's relief counts, and the spool's direction.
fn diverter<'f>(facts: &'f Facts, extra: &ExtraFunction) -> Finding<'f> {
    let open = |fact| missing(CheckId::ExtraFunctions, Class::Damage, &[fact]).into();
    let (route, ways, locked) = (facts.return_route(), facts.circuit_ways(), facts.reverse_locked());
    if ways == Some(Ways::One) || locked == Some(true) || route == Some(ReturnRoute::Direct) {
        return told(Outcome::NotMet, Reason::DiverterNeedsBothWays).into();
    }
    if ways.is_none() {
        return open(FactId::CircuitWays);
    }
    if route.is_none() {
        return open(FactId::ReturnRoute);
    }
    let rated =
        Parameter { physical_limits: (0.0, 1e8), ..limit(FactId::ExtraPressure, extra.greatest_pressure.as_ref()) };
    let question = Question { id: CheckId::ExtraFunctions, class: Class::Damage, blocks: true, bound: Bound::AtMost };
    let asked = question.asks(move |sample| {
        Reading::new(sample.take(&facts.protection, End::High), sample.take(&rated, End::Low), Cause::ReliefHigh)
    });
    asked.told(|check| {
        Some(if check.outcome == Outcome::Met { told(Outcome::Met, Reason::ExtrasServed) } else { check })
    })
}

fn second_circuit(facts: &Facts, extra: &ExtraFunction) -> Check {
    // One that feeds the other end of the machine does not reach the head.
    let end = facts.end();
    let here = |circuit: &Circuit| end.is_none() || facts.carrier.end_of(circuit).is_none_or(|at| Some(at) == end);
    let others = facts.other_circuits(here);
    let rated = facts.extra_pressure(extra);
    let of =
        |circuit: &Circuit| (facts.carrier.end_of(circuit), facts.circuit_ways_of(circuit), facts.relief_of(circuit));
    let others: Vec<_> = others.into_iter().map(of).collect();
    let kept_below = |relief: Option<Stated<Pressure>>| {
        let (rated, relief) =
            (rated.map(|rated| rated.nominal), relief.map(|relief| relief.interval(PUBLISHED_PRESSURE)));
        rated.zip(relief).is_some_and(|(rated, relief)| relief.high <= rated)
    };
    let serving = || others.iter().filter(|&&(_, ways, relief)| ways == Some(Ways::Two) && kept_below(relief));
    if rated.is_none() && others.iter().any(|&(_, ways, _)| ways != Some(Ways::One)) {
        missing(CheckId::ExtraFunctions, Class::Damage, &[FactId::ExtraPressure])
    } else if serving().any(|&(at, ..)| end.is_some() && at == end) {
        told(Outcome::Met, Reason::ExtrasServed)
    } else if serving().next().is_some() {
        missing(CheckId::ExtraFunctions, Class::Damage, &[facts.unstated(FactId::CircuitEnd)])
    } else if others.iter().any(|&(_, ways, relief)| ways.is_none() || relief.is_none()) {
        missing(CheckId::ExtraFunctions, Class::Damage, &[FactId::CircuitWays, FactId::CircuitRelief])
    } else {
        told(Outcome::NotMet, Reason::NoSecondCircuit)
    }
}

fn told(outcome: Outcome, reason: Reason) -> Check {
    yes_no(CheckId::ExtraFunctions, Class::Damage, outcome, reason, &[])
}
