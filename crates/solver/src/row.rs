//! A pairing as a line of a list.

use super::Row;
use fit::{Pairing, Verdict};
use quantity::Amount;
use record::plate::OWN;
use table::{Carrier, Head};
use wording::Words;

/// In a list of attachments.
pub fn of_head(words: &Words, pairing: &Pairing, head: &Head, unsaid: bool) -> Row {
    let what = vec![words.head_kind(head.kind).to_owned()];
    row(words, pairing, head.full_name(), what, head.stock.clone(), unsaid)
}

/// In a list of machines.
pub fn of_carrier(words: &Words, pairing: &Pairing, carrier: &Carrier) -> Row {
    let mass = carrier.operating_mass.as_ref().map(|mass| words.amount(Amount::of(mass.nominal)));
    let own = carrier.id.as_str().starts_with(OWN).then(|| "your own".to_owned());
    row(words, pairing, carrier.full_name(), mass.into_iter().collect(), own.or_else(|| carrier.stock.clone()), false)
}

fn row(words: &Words, pairing: &Pairing, name: String, what: Vec<String>, stock: Option<String>, unsaid: bool) -> Row {
    // What does not fit whatever is done has neither price nor time.
    let works = pairing.verdict != Verdict::DoesNotFit;
    Row {
        carrier: pairing.carrier.id.to_string(),
        head: pairing.head.id.to_string(),
        verdict: pairing.verdict,
        name,
        what,
        stock,
        price: if works { words.row_price(pairing) } else { String::new() },
        has_changes: !pairing.changes.is_empty(),
        time: if works { words.row_time(pairing) } else { String::new() },
        says: words.verdict_of(pairing),
        below: words.row_below(pairing),
        unsaid,
        margin: pairing.tightest_check().and_then(drawing::margin_line),
    }
}
