//! What a dealer's own script asks of a whole machine.

use super::Answer;
use super::memory::Memory;
use super::task::Task;
use fit::{Conditions, Pairing, order, pair};
use quantity::put_in_order;
use table::{Carrier, Table};

/// A machine that is being paired with every attachment of a table.
pub struct ListJson {
    carrier: Carrier,
    table: Table,
    conditions: Conditions,
    pairings: Vec<Pairing>,
}

impl ListJson {
    /// The machine with all of the table.
    pub fn new((carrier, table, conditions): (Carrier, Table, Conditions)) -> Self {
        Self { carrier, table, conditions, pairings: Vec::new() }
    }
}

impl Task for ListJson {
    fn step(&mut self, _: &mut Memory) -> bool {
        if let Some(head) = self.table.heads.get(self.pairings.len()) {
            self.pairings.push(pair(&self.carrier, head, &self.conditions));
        }
        self.pairings.len() < self.table.heads.len()
    }

    fn tell(&mut self) -> Vec<Answer> {
        if self.pairings.len() < self.table.heads.len() {
            return Vec::new();
        }
        put_in_order(&mut self.pairings, order);
        let all: Vec<_> = self.pairings.iter().map(Pairing::to_json).collect();
        vec![Answer::Json(format!("[{}]", all.join(",")))]
    }
}
