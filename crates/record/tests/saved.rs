//! A saved comparison against what comes out now.

use fit::{Conditions, Pairing, Verdict, pair};
use record::{Changed, Difference, Entries, Made, Saved, mark};
use table::{Money, Table, read};

fn demo() -> Table {
    read(include_str!("../../../public/table/demo.json")).table.expect("the demo table")
}

fn solved(table: &Table) -> Pairing {
    let (carrier, head) =
        (table.carrier("quern-q56").expect("a carrier"), table.head("thistlecut-r90").expect("a head"));
    pair(carrier, head, &Conditions::of_table(table))
}

fn saved(table: &Table) -> Saved {
    let pairing = solved(table);
    let now = "2026-11-25T10:00:00Z".to_owned();
    Saved::new("a1".to_owned(), "Terrace", now, (table, &mark("text")), &[&pairing], |_| None).expect("a record")
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

/// A difference comes with what has changed: as often as it is opened, whatever the table's title or another entry says.
#[test]
fn invariant_a_changed_table_is_told_from_the_text_of_the_table() {
    let text = include_str!("../../../public/table/demo.json");
    let table = demo();
    let pairing = solved(&table);
    let made = |text: &str| Entries::of_text(text).made(&pairing, None);
    let saved = Saved::new("a".to_owned(), "Terrace", String::new(), (&table, "m"), &[&pairing], |_| made(text));
    let kept = Saved::decode(&saved.expect("a record").encode()).expect("what was kept");
    let then = kept.heads[0].made.as_ref();
    let changed = |then: Option<&Made>, text: &str| Made::changed(then, made(text).as_ref(), false);
    let dearer = text.replacen("\"labour_rate\": \"68.00\"", "\"labour_rate\": \"69.00\"", 1);
    assert_ne!(dearer, text);
    assert_eq!(changed(then, &dearer), Changed::Entries);
    let earlier = then.map(|made| Made { judgement: made.judgement - 1, ..made.clone() });
    assert_eq!(changed(earlier.as_ref(), text), Changed::Program);
    assert_eq!(changed(earlier.as_ref(), &dearer), Changed::Both);
    assert_eq!(changed(None, text), Changed::EntriesOrProgram);
}
