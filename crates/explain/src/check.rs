//! Why a check comes out as it does.

use crate::formula;
use crate::reasoning::{Conclusion, Reasoning};
use fit::facts::Facts;
use fit::{CheckId, Conditions, checks, unknown_circuit};
use quantity::ThermodynamicTemperature;
use table::{Carrier, Head, Id};

/// How a check of one circuit of a machine with a head was worked out; none when the machine has no circuit of that name. Of a
/// machine without any circuit the one is taken of which nothing is known, as [`pair`](fit::pair) does.
pub fn reasoning(
    carrier: &Carrier,
    circuit: Option<&Id>,
    head: &Head,
    conditions: &Conditions,
    check: CheckId,
) -> Option<Reasoning> {
    let unknown = unknown_circuit();
    let circuit = of_name(carrier, circuit, &unknown)?;
    Some(judged_from(carrier, circuit, head, conditions, check, None))
}

/// The reasoning of a check that must hold from `warm` on; without it, from the machine's own lowest oil temperature.
pub fn judged_from(
    carrier: &Carrier,
    circuit: &table::Circuit,
    head: &Head,
    conditions: &Conditions,
    check: CheckId,
    warm: Option<ThermodynamicTemperature>,
) -> Reasoning {
    let facts = Facts::gather(carrier, circuit, head, conditions);
    let warm = warm.unwrap_or(facts.warm_enough);
    let evaluation = checks::evaluate(check, &facts, warm);
    let formulas = formula::of_check(&evaluation, head, carrier.end_of(circuit));
    let conclusion = Conclusion::of(&evaluation.check);
    Reasoning::new(Some(check), formulas, evaluation.inputs, &facts.practice, conclusion)
}

pub fn of_name<'a>(
    carrier: &'a Carrier,
    circuit: Option<&Id>,
    unknown: &'a table::Circuit,
) -> Option<&'a table::Circuit> {
    match circuit {
        Some(id) => carrier.circuit(id),
        None => Some(carrier.circuits.first().unwrap_or(unknown)),
    }
}
