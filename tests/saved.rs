//! A saved comparison against what comes out now.

use pairwright::pairing::{Conditions, Pairing, Verdict, pair};
use pairwright::record::{Difference, Saved, mark};
use pairwright::table::{Money, Table, read};

fn demo() -> Table {
    read(include_str!("../public/table/demo.json")).table.expect("the demo table")
}

fn solved(table: &Table) -> Pairing {
    let (carrier, head) =
        (table.carrier("quern-q56").expect("a carrier"), table.head("thistlecut-r90").expect("a head"));
    pair(carrier, head, &Conditions::of_table(table))
}

fn saved(table: &Table) -> Saved {
    let pairing = solved(table);
    let now = "2026-11-25T10:00:00Z".to_owned();
    Saved::new("a1".to_owned(), "Terrace", now, (table, &mark("text")), &[&pairing]).expect("a record")
}

#[test]
fn nothing_differs_while_nothing_has_changed() {
    let table = demo();
    let kept = Saved::decode(&saved(&table).encode()).expect("what was kept");
    assert_eq!(kept.heads[0].differences(Some(&solved(&table))), []);
    assert_eq!(kept.heads[0].differences(None), [Difference::Gone]);
}

#[test]
fn another_price_is_told_and_nothing_else() {
    let mut table = demo();
    let before = saved(&table);
    for part in &mut table.parts {
        part.price = part.price.map(|price| Money::from_minor(price.minor() + 100));
    }
    let found = before.heads[0].differences(Some(&solved(&table)));
    let [Difference::Price { then: Some(then), now: Some(now) }] = found.as_slice() else { panic!("{found:?}") };
    assert!(then.starts_with("EUR ") && now.starts_with("EUR ") && then != now);
}

#[test]
fn another_verdict_comes_with_what_no_longer_helps() {
    let mut table = demo();
    let before = saved(&table);
    assert_eq!(before.heads[0].verdict(), Some(Verdict::FitsAfterChanges));
    for carrier in &mut table.carriers {
        carrier.mounting.clear();
    }
    let found = before.heads[0].differences(Some(&solved(&table)));
    assert_eq!(found[0], Difference::Verdict { then: Verdict::FitsAfterChanges, now: Verdict::CannotSay });
}

/// What an older build kept, with the verdict alone, is compared by the verdict alone.
#[test]
fn a_record_without_figures_is_compared_by_its_verdict() {
    let table = demo();
    let mut old = saved(&table);
    old.heads[0].figures = None;
    assert_eq!(old.heads[0].differences(Some(&solved(&table))), []);
}
