//! What is said of a fact comes out so once it is set and paired again.

use super::*;
use crate::yard::paired;
use fit::pair;
use std::collections::BTreeMap;
use table::read;

#[test]
fn invariant_the_fact_to_find_out_first_decides_as_it_is_told() {
    let table = read(include_str!("../../../../public/table/demo.json")).table.expect("the demo table");
    let conditions = Conditions::of_table(&table);
    let (mut asked, mut figures, mut answers) = (0, 0, 0);
    let mut facts: BTreeMap<FactId, (usize, usize)> = BTreeMap::new();
    for carrier in &table.carriers {
        for head in &table.heads {
            let pairing = paired(carrier, head);
            if pairing.verdict != Verdict::CannotSay {
                continue;
            }
            let settling =
                settles(carrier, head, &conditions, pairing).expect("what cannot be said waits for something");
            asked += 1;
            let entry = facts.entry(settling.fact).or_default();
            entry.0 += 1;
            entry.1 += usize::from(settling.decision.is_some());
            let place = format!("{:?} on {:?}: {settling:?}", head.id, carrier.id);
            for named in pairing.open_checks().iter().filter(|check| settling.checks.contains(&check.id)) {
                assert!(named.fails() && named.missing.iter().any(|missing| missing.fact == settling.fact), "{place}");
            }
            assert!(!settling.checks.is_empty(), "{place}");
            let unknown = pairing
                .circuit
                .is_none()
                .then(|| Carrier { circuits: vec![fit::unknown_circuit()], ..carrier.clone() });
            let carrier = unknown.as_ref().unwrap_or(carrier);
            let circuit =
                pairing.circuit.clone().or_else(|| carrier.circuits.first().map(|circuit| circuit.id.clone()));
            let machine = Machine { carrier, head, conditions: &conditions, pairing, pace: &Steadily };
            match &settling.decision {
                None => {}
                Some(Decision::At { bound, value, until, good, otherwise }) => {
                    figures += 1;
                    let circuit = circuit.expect("a figure of a circuit that is there");
                    let holds = |share: f64| {
                        let value = Amount::from_si(value.dimension(), value.si() * share);
                        machine.holds(&circuit, settling.fact, value, &settling.checks).expect("it can be set")
                    };
                    let beyond = if *bound == Bound::AtLeast { BELOW } else { ABOVE };
                    assert!(holds(1.0) && !holds(beyond), "{place}");
                    let again = |at: Amount| {
                        let (carrier, head) =
                            set::figure(carrier, head, &circuit, settling.fact, at).expect("it can be set");
                        Consequence::of(pair(&carrier, &head, &conditions))
                    };
                    // Each is paired three times more: of every third that is enough.
                    if asked % 3 > 0 {
                        continue;
                    }
                    assert_eq!(again(*value), *good, "{place}");
                    assert_eq!(again(Amount::from_si(value.dimension(), value.si() * beyond)), *otherwise, "{place}");
                    if let Some(until) = until {
                        assert_eq!(again(*until).verdict, good.verdict, "{place}");
                    }
                }
                Some(Decision::By { good_when, good, otherwise }) => {
                    answers += 1;
                    if asked % 3 > 0 {
                        continue;
                    }
                    let circuit = circuit.expect("an answer about a circuit that is there");
                    let again = |yes| {
                        let (carrier, head) =
                            set::answer(carrier, head, &circuit, settling.fact, yes).expect("it can be set");
                        Consequence::of(pair(&carrier, &head, &conditions))
                    };
                    assert_eq!((again(*good_when), again(!good_when)), (good.clone(), otherwise.clone()), "{place}");
                }
            }
        }
    }
    assert!(asked > 200 && figures > 70 && answers > 50, "{asked} {figures} {answers}: {facts:?}");
}

#[test]
fn of_a_machine_that_fits_but_for_its_relief_the_reading_from_which_it_fits_is_told() {
    let table = read(include_str!("../../../../public/table/demo.json")).table.expect("the demo table");
    let conditions = Conditions::of_table(&table);
    let mut told = 0;
    for carrier in &table.carriers {
        for head in &table.heads {
            // A few of them do, and the others cost a minute.
            if told == 3 || carrier.circuits.len() != 1 || paired(carrier, head).verdict != Verdict::Fits {
                continue;
            }
            let mut unread = carrier.clone();
            let stood = unread.circuits[0].relief.take();
            let pairing = pair(&unread, head, &conditions);
            let Some(settling) = settles(&unread, head, &conditions, &pairing) else { continue };
            assert_eq!(settling.fact, FactId::CircuitRelief, "{settling:?}");
            let Some(Decision::At { bound: Bound::AtLeast, value, good, otherwise, .. }) = settling.decision else {
                continue;
            };
            let stood = stood.map(|stated| Amount::of(stated.nominal)).expect("it fits with it");
            if good.verdict == Verdict::Fits {
                assert!(value.si() <= stood.si(), "{value:?} {stood:?}");
                assert!(settling.others.is_empty() && otherwise.verdict != Verdict::Fits);
                told += 1;
            }
        }
    }
    assert_eq!(told, 3);
}
