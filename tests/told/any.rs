//! Any pair of any two tables that can be read has a verdict, and nothing panics: the demo's own figures, thrown together at
//! random, left out, set to the ends of what is possible, and read back.

use fit::{Conditions, Outcome, Verdict, pair};
use proptest::prelude::*;
use serde_json::{Value, json};
use table::read;

const DEMO: &str = include_str!("../../public/table/demo.json");

/// What is done to a value found by walking: a step of the walk for each number.
#[derive(Clone, Debug)]
struct Spoil {
    path: Vec<usize>,
    how: u8,
}

/// Walks to some value below, and spoils it there.
fn spoil(value: &mut Value, spoil: &Spoil, donor: &Value) {
    let (mut place, mut other) = (value, Some(donor));
    for &step in &spoil.path {
        let next = match place {
            Value::Object(fields) if !fields.is_empty() => {
                let name = fields.keys().nth(step % fields.len()).expect("a field").clone();
                // What it is called, to which class and kind it belongs must stay.
                if ["id", "class", "kind", "model", "pumps", "power_group"].contains(&name.as_str()) {
                    return;
                }
                other = other.and_then(|other| other.get(&name));
                fields.get_mut(&name)
            }
            Value::Array(list) if !list.is_empty() => {
                let index = step % list.len();
                other = other.and_then(|other| other.get(index));
                list.get_mut(index)
            }
            _ => None,
        };
        match next {
            Some(next) => place = next,
            None => return,
        }
    }
    match (spoil.how % 6, &*place) {
        (0, _) => *place = Value::Null,
        (1, Value::Bool(was)) => *place = json!(!was),
        (1, Value::Array(_)) => *place = json!([]),
        // Another machine's or head's figure.
        (2, _) => *place = other.cloned().unwrap_or(Value::Null),
        (how, Value::String(text)) => {
            // A figure made small, large, or wide.
            let Some((number, unit)) = text.split_once(' ') else { return };
            let Ok(number) = number.parse::<f64>() else { return };
            let figure = match how {
                3 => format!("{:.6} {unit}", number * 1e-3),
                4 => format!("{:.3} {unit}", number * 40.0),
                _ => format!("{:.3}..{:.3} {unit}", number * 0.2, number * 5.0),
            };
            *place = json!(figure);
        }
        _ => {}
    }
}

fn spoils() -> impl Strategy<Value = Vec<Spoil>> {
    let one = (prop::collection::vec(0..40_usize, 1..5), any::<u8>()).prop_map(|(path, how)| Spoil { path, how });
    prop::collection::vec(one, 0..30)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, max_shrink_iters: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn invariant_any_pair_of_readable_tables_has_a_verdict_that_its_checks_bear_out(
        (carrier, donor, head, other) in (0..43_usize, 0..43_usize, 0..40_usize, 0..40_usize),
        (of_carrier, of_head) in (spoils(), spoils()),
        priced in any::<bool>(),
    ) {
        let demo: Value = serde_json::from_str(DEMO).expect("the demo is JSON");
        let mut machine = demo["carriers"][carrier].clone();
        let mut attachment = demo["heads"][head].clone();
        for one in &of_carrier {
            spoil(&mut machine, one, &demo["carriers"][donor]);
        }
        for one in &of_head {
            spoil(&mut attachment, one, &demo["heads"][other]);
        }
        let mut table = json!({
            "format": "pairwright.table", "version": 1, "title": "Anything", "carriers": [machine], "heads": [attachment],
        });
        if priced {
            for field in ["parts", "currency", "labour_rate", "assumptions"] {
                table[field] = demo[field].clone();
            }
        }
        let outcome = read(&table.to_string());
        let Some(table) = outcome.table else { return Ok(()) };
        let conditions = Conditions::of_table(&table);
        for (carrier, head) in table.carriers.iter().zip(&table.heads) {
            let pairing = pair(carrier, head, &conditions);
            let failing = pairing.checks.iter().any(fit::Check::fails);
            prop_assert_eq!(pairing.checks.len(), 36);
            prop_assert_eq!(pairing.verdict == Verdict::Fits, !failing);
            if pairing.verdict == Verdict::FitsAfterChanges {
                prop_assert!(!pairing.checks_after.iter().any(fit::Check::fails));
            }
            if pairing.verdict == Verdict::DoesNotFit {
                prop_assert!(pairing.checks.iter().any(|check| check.outcome == Outcome::NotMet));
                prop_assert!(!pairing.unmendable.is_empty());
            }
            let sheets = workshop::Sheets::of(&pairing, carrier, head, &conditions);
            super::sheets::assert_whole(carrier, &pairing, &sheets);
            // Whatever comes out can be written.
            prop_assert!(serde_json::from_str::<Value>(&pairing.to_json()).is_ok());
        }
    }
}
