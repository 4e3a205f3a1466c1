//! The worst corners against the whole box: nowhere in what is known and assumed is a check worse than in the corner that it
//! is judged by.
//!
//! Which way each fact leans in each scenario, kept by this test:
//!
//! | fact | poor (least at work) | rich (most, free running) | against the return |
//! | --- | --- | --- | --- |
//! | flow, pumps, power limit | low | high, setting turned up | high |
//! | engine | working speed | high idle | high idle |
//! | leakage, override | high | low | low |
//! | relief | low | high | high |
//! | cut-off, load-sensing margin | low, high | no credit | no credit |
//! | supply: length, K, losses; bore | high; low | low; high | no credit |
//! | return: length, K, losses; bore | high; low | low; high | high; low |
//! | filter | on its bypass | clean | on its bypass |
//! | lines: oil anywhere in its span | loses the most | loses the least | loses the most |
//! | what is no line: oil | thick | thin | thick |
//! | working, free pressure difference | high | low | low |
//! | motor's leakage by the case line | no credit | no credit | no credit |

use super::draw::{Corner, Draw};
use super::question::{Question, Reading};
use super::{Bound, CheckId};
use quantity::Kind;
use std::cell::RefCell;
use std::collections::HashMap;

thread_local! {
    /// How many samples each question is asked for, with the first seed; and how many were taken, by question.
    static PROBE: RefCell<Option<(u64, u64)>> = const { RefCell::new(None) };
    static TAKEN: RefCell<HashMap<(CheckId, Bound), u64>> = RefCell::default();
}

/// Asks a question anywhere in the box, if the test at hand wants it, and compares with its worst corner.
pub fn probes<Q: Kind>(question: Question, read: &impl Fn(&Draw) -> Reading<Q>) -> bool {
    let Some((seed, samples)) = PROBE.with_borrow(|probe| *probe) else { return false };
    let draw = Draw::new(Corner::Worst);
    let corner = read(&draw);
    if !draw.missing().is_empty() {
        return true;
    }
    let worst = question.margin(&corner);
    for sample in 0..samples {
        let reading = read(&Draw::new(Corner::Anywhere(seed + sample)));
        let margin = question.margin(&reading);
        assert!(
            margin >= worst - 2e-6 * (1.0 + worst.abs()),
            "{:?} {:?}: {margin} at {reading:?} is worse than {worst} at {corner:?}",
            question.id,
            question.bound
        );
    }
    TAKEN.with_borrow_mut(|taken| *taken.entry((question.id, question.bound)).or_default() += samples);
    true
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Conditions;
    use crate::checks;
    use crate::facts::Facts;
    use table::read;

    #[test]
    fn invariant_nowhere_in_what_is_known_and_assumed_is_a_check_worse_than_in_its_corner() {
        let table = read(include_str!("../../../public/table/demo.json")).table.expect("the demo table");
        let conditions = Conditions::of_table(&table);

        let mut pairs = 0;
        for (i, carrier) in table.carriers.iter().enumerate() {
            for (j, head) in table.heads.iter().enumerate() {
                for circuit in carrier.circuits.iter().filter(|_| (i + j) % 3 == 0) {
                    let seed = u64::try_from(i * 1_000_000 + j * 1000).expect("small");
                    PROBE.with_borrow_mut(|probe| *probe = Some((seed, 120)));
                    checks::all(&Facts::gather(carrier, circuit, head, &conditions));
                    PROBE.with_borrow_mut(|probe| *probe = None);
                    pairs += 1;
                }
            }
        }
        let taken = TAKEN.with_borrow(Clone::clone);
        assert!(pairs > 500, "{pairs}");
        let (least, most) = (Bound::AtLeast, Bound::AtMost);
        for wanted in [
            (CheckId::FlowWindow, least),
            (CheckId::FlowWindow, most),
            (CheckId::RotorSpeed, most),
            (CheckId::Pressure, least),
            (CheckId::Pressure, most),
            (CheckId::Power, least),
            (CheckId::BackPressure, most),
            (CheckId::CasePressure, most),
            (CheckId::WeightClass, least),
            (CheckId::WeightClass, most),
        ] {
            assert!(taken.get(&wanted).is_some_and(|samples| *samples >= 10_000), "{wanted:?}: {taken:?}");
        }
    }
}
