//! What to fill in next, tried as a dealer would: of a complete table only brochure figures are shown, and the report's own questions are
//! answered from the rest, one after the other.
//!
//! Frozen before the report was written: how the table is drawn, what a brochure says, what an answer holds, and the bar.

mod hidden;

use explain::fill_next::{Entry, HeldUp, Question, Report};
use fit::{Class, Conditions, FactId, Judge, Pairing, Verdict, pair};
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

/// What has come of asking.
struct Told {
    /// How many pairings are decided before each question, and after the last.
    decided: Vec<usize>,
    /// How many figures and words were written down.
    written: usize,
    /// The table as it stands then.
    shown: Value,
}

/// So many questions of the report, the first of it each time, and none twice: each is answered from what is hidden.
fn asked_in_turn(whole: &Value, most: usize) -> Told {
    let mut told = Told { decided: Vec::new(), written: 0, shown: brochure(whole) };
    let mut held: Vec<Vec<Option<HeldUp>>> = vec![vec![None; hidden::SIDE]; hidden::SIDE];
    let mut asked: Vec<Question> = Vec::new();
    loop {
        let table = table(&told.shown);
        let conditions = Conditions::of_table(&table);
        let judge = Judge::new(&conditions);
        let changed = asked.last().map(|question: &Question| &question.entry);
        for (row, carrier) in table.carriers.iter().enumerate() {
            for (column, head) in table.heads.iter().enumerate() {
                let is_touched = match changed {
                    None => true,
                    Some(Entry::Carrier(id)) => *id == carrier.id,
                    Some(Entry::Head(id)) => *id == head.id,
                };
                if is_touched {
                    held[row][column] = HeldUp::of(carrier, head, &judge);
                }
            }
        }
        let report = Report::of(held.iter().flatten().flatten());
        told.decided.push(hidden::SIDE * hidden::SIDE - report.held_up);
        let next = report.entries.into_iter().map(|next| next.question).find(|next| !asked.contains(next));
        let Some(next) = next.filter(|_| asked.len() < most) else { return told };
        let (of_machine, id) = match &next.entry {
            Entry::Carrier(id) => (true, id),
            Entry::Head(id) => (false, id),
        };
        told.written += answer(&mut told.shown, whole, of_machine, id.as_str(), next.circuit.as_ref(), next.fact);
        asked.push(next);
    }
}

/// The bar: fifteen facts a machine, those of attachments counted among them, decide 80 % of all pairings, and 80 % of those that were held
/// up at the beginning.
fn holds_the_bar(seed: u64) {
    let whole = complete(seed);
    let told = asked_in_turn(&whole, 15 * hidden::SIDE);
    let all = hidden::SIDE * hidden::SIDE;
    let (first, last) = (told.decided[0], told.decided[told.decided.len() - 1]);
    let after =
        |share: usize, from: usize| told.decided.iter().position(|now| 100 * (now - from) >= share * (all - from));
    println!(
        "seed {seed}: {first} decided at first, {last} after {} facts of {} figures and words; 80 % of all after {:?}, of those \
         held up after {:?}",
        told.decided.len() - 1,
        told.written,
        after(80, 0),
        after(80, first),
    );
    assert!(after(80, 0).is_some() && after(80, first).is_some(), "seed {seed}: {:?}", told.decided);
    let otherwise = decided_otherwise(&table(&whole), &table(&told.shown));
    println!("seed {seed}: {otherwise} of {last} otherwise than by the complete table");
    assert!(100 * otherwise <= 5 * last, "seed {seed}: {otherwise}");
}

/// How many pairings are decided otherwise than by the complete table. Nothing was guessed on the way: what goes to work and should not
/// passed a check of work or damage on a range of practice that its machine is outside of, has to prove it at the hand-over, or asks for
/// something that counts as not asked for while it is not stated, as a travel speed; what is ruled out and should not lacks what a change
/// needs that its machine states to offer, as a range of its relief, which counts as not offered while it is not stated.
fn decided_otherwise(full: &Table, shown: &Table) -> usize {
    let (conditions, of_full) = (Conditions::of_table(shown), Conditions::of_table(full));
    let goes = |pairing: &Pairing| matches!(pairing.verdict, Verdict::Fits | Verdict::FitsAfterChanges);
    let mut otherwise = 0;
    for (row, column) in decided(shown) {
        let now = pair(&shown.carriers[row], &shown.heads[column], &conditions);
        let then = pair(&full.carriers[row], &full.heads[column], &of_full);
        let place = format!("{} on {}", full.heads[column].id, full.carriers[row].id);
        otherwise += usize::from(goes(&now) != goes(&then));
        if goes(&now) && !goes(&then) {
            for id in &then.unmendable {
                let check = now.check(*id).expect("the check");
                let by_practice = check.class != Class::Safety && !check.assumed.is_empty();
                assert!(by_practice || !check.blocks || check.class == Class::Work, "{place}: {check:?}");
            }
        }
    }
    otherwise
}

#[test]
fn fifteen_facts_a_machine_decide_four_fifths_of_the_pairings() {
    holds_the_bar(SEED);
}

/// The bar is no luck of its seed.
#[test]
fn so_they_do_in_tables_drawn_by_other_seeds() {
    let others = if std::env::var_os("LONG").is_some() { 1..=12 } else { 1..=1 };
    others.for_each(holds_the_bar);
}

#[test]
fn what_has_a_field_is_what_an_answer_can_be_written_to() {
    for &fact in FactId::ALL {
        assert_eq!(fact.has_field(), hidden::has_fields(fact), "{fact:?}");
    }
}

#[test]
fn a_report_ranks_by_what_is_decided_and_a_column_counts_each_entry_once() {
    let shown = table(&brochure(&complete(SEED)));
    let conditions = Conditions::of_table(&shown);
    let judge = Judge::new(&conditions);
    let pairs = shown.carriers.iter().flat_map(|carrier| shown.heads.iter().map(move |head| (carrier, head)));
    let held: Vec<_> = pairs.filter_map(|(carrier, head)| HeldUp::of(carrier, head, &judge)).collect();
    let report = Report::of(&held);
    assert_eq!(report.held_up, held.len());
    assert!(report.entries.is_sorted_by(|a, b| a.gain.weight >= b.gain.weight));
    assert!(report.columns.is_sorted_by(|a, b| a.gain.weight >= b.gain.weight));
    for column in &report.columns {
        let of_column: Vec<_> = report.entries.iter().filter(|asked| asked.question.fact == column.fact).collect();
        let entries: std::collections::BTreeSet<_> = of_column.iter().map(|asked| &asked.question.entry).collect();
        assert_eq!(column.entries, entries.len(), "{column:?}");
        let waits = held.iter().filter(|held| held.waits.iter().any(|wait| wait.question.fact == column.fact));
        assert_eq!(column.gain.holds_up, waits.count(), "{column:?}");
        assert!(column.gain.decides <= column.gain.holds_up && column.entries <= 2 * hidden::SIDE, "{column:?}");
    }
    // What a figure decides by itself is really decided once it stands there.
    assert!(report.entries[0].gain.decides > 0);
}
