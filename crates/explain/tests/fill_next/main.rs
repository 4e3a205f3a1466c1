//! What to fill in next, tried as a dealer would: of a complete table only brochure figures are shown, and the report's own questions are
//! answered from the rest, one after the other.
//!
//! Frozen before the report was written: how the table is drawn, what a brochure says, what an answer holds, and the bar.

mod hidden;

use fit::{Conditions, FactId, Judge, Verdict};
use hidden::{answer, brochure, complete, table};
use quantity::Named;
use serde_json::Value;
use table::Table;

/// The seed of the table that the bar is set for.
const SEED: u64 = 26;

/// How many pairings are decided, by the places of machine and attachment.
fn decided(table: &Table) -> Vec<(usize, usize)> {
    let conditions = Conditions::of_table(table);
    let judge = Judge::new(&conditions);
    let all = (0..table.carriers.len()).flat_map(|machine| (0..table.heads.len()).map(move |head| (machine, head)));
    all.filter(|&(machine, head)| judge.verdict(&table.carriers[machine], &table.heads[head]) != Verdict::CannotSay)
        .collect()
}

#[test]
fn the_drawn_table_is_complete_and_its_brochures_leave_much_open() {
    let whole = complete(SEED);
    assert_eq!(decided(&table(&whole)).len(), hidden::SIDE * hidden::SIDE);
    let shown: Value = brochure(&whole);
    let open = hidden::SIDE * hidden::SIDE - decided(&table(&shown)).len();
    assert!(open >= 40, "{open}");
    println!("{open} of 100 are held up at the beginning");
}

/// Nothing that decides is kept from whoever asks for all of it: every fact asked of every entry makes the whole table again, as far as
/// a verdict goes.
#[test]
fn all_answers_together_decide_as_the_complete_table_does() {
    let whole = complete(SEED);
    let mut shown = brochure(&whole);
    let full = table(&whole);
    for carrier in &full.carriers {
        for &fact in FactId::ALL.iter().filter(|fact| fact.is_of_machine()) {
            for circuit in &carrier.circuits {
                answer(&mut shown, &whole, true, carrier.id.as_str(), Some(&circuit.id), fact);
            }
        }
    }
    for head in &full.heads {
        for &fact in FactId::ALL.iter().filter(|fact| !fact.is_of_machine()) {
            answer(&mut shown, &whole, false, head.id.as_str(), None, fact);
        }
    }
    let said = decided(&table(&shown));
    let undecided: Vec<_> = (0..hidden::SIDE * hidden::SIDE)
        .map(|pair| (pair / hidden::SIDE, pair % hidden::SIDE))
        .filter(|pair| !said.contains(pair))
        .collect();
    assert!(undecided.is_empty(), "{undecided:?}");
}
