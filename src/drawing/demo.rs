//! The demo table with every pairing judged: once for all tests of drawings.

use crate::pairing::{Conditions, Pairing, pair};
use crate::table::Table;
use std::sync::LazyLock;

/// The table, and its pairings in the order of carriers and, for each, of heads.
pub static DEMO: LazyLock<(Table, Vec<Pairing>)> = LazyLock::new(|| {
    let table = crate::table::read(include_str!("../../public/table/demo.json")).table.expect("the demo table");
    let conditions = Conditions::of_table(&table);
    let pairs = table.carriers.iter().flat_map(|carrier| table.heads.iter().map(move |head| (carrier, head)));
    let judged = pairs.map(|(carrier, head)| pair(carrier, head, &conditions)).collect();
    (table, judged)
});
