//! What a solver remembers: tables by their marks, and what was solved of them.

use super::Machine;
use fit::{Conditions, Pairing, pair};
use std::collections::HashMap;
use std::sync::Arc;
use table::{Carrier, Head, Table};

/// How many pairings are remembered at most; then all are forgotten. A pairing has some 20 KB.
const MOST: usize = 3000;

/// A table in use.
#[derive(Debug)]
pub struct Kept {
    /// Its mark.
    pub mark: String,
    /// Its text.
    pub text: String,
    /// The table.
    pub table: Table,
    /// The dealer's shop and the temperatures of the oil.
    pub conditions: Conditions,
}

/// A machine to be solved, with what it is remembered by: two plates with the same figures are the same machine.
#[derive(Clone, Debug)]
pub struct Solvable {
    /// The machine.
    pub carrier: Arc<Carrier>,
    key: Arc<str>,
}

impl Solvable {
    /// A machine of the table.
    pub fn of_table(carrier: &Carrier) -> Self {
        Self { key: carrier.id.as_str().into(), carrier: Arc::new(carrier.clone()) }
    }

    /// A machine of one's own; none where its plate makes none.
    pub fn own(plate: &record::Plate) -> Option<Self> {
        let carrier = plate.read().carrier?;
        let figures: Vec<_> = plate.figures.iter().map(|(name, typed)| format!("{name}\u{1}{typed}")).collect();
        Some(Self {
            key: format!("{}\u{2}{}\u{2}{}\u{2}{}", plate.id, plate.name, plate.class, figures.join("\u{2}")).into(),
            carrier: Arc::new(carrier),
        })
    }
}

/// What is remembered.
#[derive(Debug, Default)]
pub struct Memory {
    tables: HashMap<String, Arc<Kept>>,
    solved: HashMap<(Arc<str>, String), Arc<Pairing>>,
}

impl Memory {
    /// Takes a table into use; one of which nothing can be used is none.
    pub fn take(&mut self, mark: String, text: String) {
        let Some(table) = table::read(&text).table else { return };
        let conditions = Conditions::of_table(&table);
        self.tables.insert(mark.clone(), Arc::new(Kept { mark, text, table, conditions }));
    }

    /// A table.
    pub fn table(&self, mark: &str) -> Option<Arc<Kept>> {
        self.tables.get(mark).cloned()
    }

    /// What was solved already.
    pub fn known(&self, of: &Kept, machine: &Solvable, head: &Head) -> Option<Arc<Pairing>> {
        self.solved.get(&key(of, machine, head)).cloned()
    }

    /// A pairing, solved where it is not known.
    pub fn pairing(&mut self, of: &Kept, machine: &Solvable, head: &Head) -> Arc<Pairing> {
        if let Some(known) = self.known(of, machine, head) {
            return known;
        }
        if self.solved.len() >= MOST {
            self.solved.clear();
        }
        let solved = Arc::new(pair(&machine.carrier, head, &of.conditions));
        self.solved.insert(key(of, machine, head), solved.clone());
        solved
    }
}

/// Under which a pairing is remembered.
fn key(of: &Kept, machine: &Solvable, head: &Head) -> (Arc<str>, String) {
    (machine.key.clone(), format!("{}\u{1}{}", of.mark, head.id))
}

/// The machine of a request.
pub fn machine(of: &Kept, asked: &Machine) -> Option<Solvable> {
    match asked {
        Machine::OfTable(id) => of.table.carrier(id).map(Solvable::of_table),
        Machine::Own(plate) => Solvable::own(plate),
    }
}

/// The machines of one's own, then those of the table.
pub fn machines(of: &Kept, own: &[record::Plate]) -> Vec<Solvable> {
    own.iter().filter_map(Solvable::own).chain(of.table.carriers.iter().map(Solvable::of_table)).collect()
}
