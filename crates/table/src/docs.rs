//! The rows of `docs/table.md`: a table of fields for each object of the format, from its declaration.
//!
//! They stand between `<!-- fields: Pump -->` and `<!-- end -->`, and around them what a person wrote. Never called by the page.

use super::read::Entry;
use super::row::{Row, Rows};
use super::{Carrier, Dealer, Head, Part};
use std::collections::BTreeMap;
use std::fmt::Write;

/// Every object of the format that is declared field by field.
pub(crate) fn objects() -> BTreeMap<&'static str, Rows> {
    let mut known: BTreeMap<&'static str, Rows> = BTreeMap::new();
    let mut open: Vec<(&'static str, Rows)> =
        vec![("Carrier", Carrier::rows), ("Head", Head::rows), ("Part", Part::rows), ("Dealer", Dealer::rows)];
    while let Some((name, rows)) = open.pop() {
        if known.insert(name, rows).is_none() {
            open.extend(rows().into_iter().filter_map(|row| row.kind.object));
        }
    }
    known
}

/// The text with the rows that belong between its marks.
///
/// # Panics
/// When an object of the format has no place in it, a mark names none, or a mark is not closed: a fault of the one who writes it.
pub fn with_rows(text: &str) -> String {
    const BEGIN: &str = "<!-- fields: ";
    const END: &str = "<!-- end -->";
    let mut objects = objects();
    let mut pieces = text.split(BEGIN);
    let mut made = pieces.next().unwrap_or_default().to_owned();
    for piece in pieces {
        let (name, rest) = piece.split_once(" -->").expect("a mark of fields is closed");
        let (_, after) = rest.split_once(END).expect("fields have an end");
        let rows = objects.remove(name).unwrap_or_else(|| panic!("there is no object {name}, or it stands twice"));
        let rows = rows();
        // Where none says where it is found, there is no such column.
        let found = rows.iter().any(|row| !row.found.is_empty());
        let last = |text: &str| if found { format!(" {text} |") } else { String::new() };
        let _ = writeln!(made, "{BEGIN}{name} -->\n| field | what | kind |{}", last("where it is found"));
        let _ = writeln!(made, "| --- | --- | --- |{}", last("---"));
        for Row { name, what, found, must_be_there, kind } in rows {
            let must = if must_be_there { "must be there; " } else { "" };
            let _ = writeln!(made, "| `{name}` | {} | {must}{} |{}", what.trim(), kind.words, last(found));
        }
        let _ = write!(made, "{END}{after}");
    }
    assert!(objects.is_empty(), "docs/table.md has no fields of {:?}", objects.keys());
    made
}
