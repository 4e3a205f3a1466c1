//! The circuit of a pairing as a drawing: what a machine and an attachment state, before and after the changes, with flows and
//! pressures at its nodes.
//!
//! [`Schema`] says which parts there are, `symbol` how each looks, `layout` where it stands, `draft` turns that into a sheet, `label`
//! writes. Both stages of a pairing are laid out on the same grid: what stands before and after keeps its place, so that the two may
//! be looked at one over the other. Symbols follow the general rules of ISO 1219-1 as they are taught; no conformity is claimed.

mod block;
mod draft;
mod label;
mod layout;
mod legend;
mod sheet;
mod symbol;
#[cfg(test)]
mod tests;

pub use sheet::{Form, Line, Shape, Sheet, Symbol};

use fit::installation::Standing;
use fit::{Pairing, Stage};
use table::{Carrier, Head};
use wording::Words;
use workshop::schema::Schema;

/// The circuit of a pairing, before or after its changes, with what it does in one state of it.
///
/// `carrier` is the machine as it is, the same that was judged. A machine that states no circuit is drawn with what every circuit
/// has, all of it marked as not stated. Without `standing`, or where it could not be solved, no figures are written.
pub fn circuit(
    (pairing, carrier, head): (&Pairing, &Carrier, &Head),
    stage: Stage,
    standing: Option<&Standing>,
    words: &Words,
    form: Form,
) -> Sheet {
    let (before, after) = Schema::of_pairing(pairing, carrier, head);
    let shown = match (stage, &after) {
        (Stage::AfterChanges, Some(after)) => after,
        _ => &before,
    };
    let mut all = vec![&before];
    all.extend(after.as_ref());
    let writer = label::Writer::new(words, standing);
    let mut sheet = layout::lay_out(shown, &all, &writer, form, &pairing.head.model);
    let made = if stage == Stage::AfterChanges { pairing.changes.as_slice() } else { &[] };
    legend::add(&mut sheet, shown, made, words, form);
    sheet
}
