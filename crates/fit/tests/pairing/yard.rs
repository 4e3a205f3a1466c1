//! The demo table with every pair of it, paired once for all tests of a program, by two cores. The library's own tests use it too.
#![allow(dead_code, reason = "each program asks for a part of it")]

use fit::{Conditions, Pairing, pair};
use std::sync::LazyLock;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;
use table::{Carrier, Head, Table, read};

/// The demo table and its pairs.
pub struct Yard {
    /// The table.
    pub table: Table,
    /// Those of its yard.
    pub conditions: Conditions,
    /// In the order of machines and, for each, of attachments.
    pub pairings: Vec<Pairing>,
}

/// The demo table and its pairs: the first who asks waits for them.
pub fn yard() -> &'static Yard {
    static YARD: LazyLock<Yard> = LazyLock::new(Yard::make);
    &YARD
}

/// What came out of a machine and an attachment, both as they stand in the demo table.
///
/// # Panics
///
/// When one of them is not of the demo table.
pub fn paired(carrier: &Carrier, head: &Head) -> &'static Pairing {
    let Yard { table, pairings, .. } = yard();
    let place = table.carriers.iter().position(|known| known.id == carrier.id).expect("a machine of the table");
    let column = table.heads.iter().position(|known| known.id == head.id).expect("an attachment of the table");
    &pairings[place * table.heads.len() + column]
}

impl Yard {
    /// Every pair of the machine at this place of the table.
    pub fn of(&self, place: usize) -> impl Iterator<Item = (&Head, &Pairing)> {
        let heads = self.table.heads.len();
        self.table.heads.iter().zip(&self.pairings[place * heads..(place + 1) * heads])
    }

    fn make() -> Self {
        let outcome = read(include_str!("../../../../public/table/demo.json"));
        assert_eq!(outcome.problems, Vec::new());
        let table = outcome.table.expect("the demo table");
        let conditions = Conditions::of_table(&table);
        let next = AtomicUsize::new(0);
        let work = || {
            let mut made = Vec::new();
            while let place = next.fetch_add(1, Ordering::Relaxed)
                && let Some(carrier) = table.carriers.get(place)
            {
                made.push((place, table.heads.iter().map(|head| pair(carrier, head, &conditions)).collect()));
            }
            made
        };
        let mut all: Vec<(usize, Vec<Pairing>)> = thread::scope(|scope| {
            let other = scope.spawn(work);
            let mut all = work();
            all.extend(other.join().expect("it pairs"));
            all
        });
        all.sort_by_key(|(place, _)| *place);
        let pairings = all.into_iter().flat_map(|(_, with)| with).collect();
        Self { table, conditions, pairings }
    }
}
