//! What to fill in next in a table: its pairings are looked at, one a step.

use super::Answer;
use super::memory::{Kept, Memory};
use super::task::Task;
use explain::fill_next::{HeldUp, Looked, Report};
use fit::Judge;
use std::sync::Arc;
use wording::Words;

/// A table that is being looked at.
pub struct FillNext {
    kept: Arc<Kept>,
    words: Words<'static>,
    most: usize,
    looked: Looked,
    checked: usize,
    told: usize,
    held_up: Vec<HeldUp>,
}

impl FillNext {
    /// All of the table; so many columns and entries are told at most.
    pub fn new(kept: Arc<Kept>, words: Words<'static>, most: usize) -> Self {
        let looked = Looked::at(&kept.table);
        Self { kept, words, most, looked, checked: 0, told: 0, held_up: Vec::new() }
    }
}

impl Task for FillNext {
    fn step(&mut self, _: &mut Memory) -> bool {
        if let Some(&(machine, head)) = self.looked.pairings.get(self.checked) {
            let table = &self.kept.table;
            let judge = Judge::new(&self.kept.conditions);
            self.held_up.extend(HeldUp::of(&table.carriers[machine], &table.heads[head], &judge));
            self.checked += 1;
        }
        self.checked < self.looked.pairings.len()
    }

    fn tell(&mut self) -> Vec<Answer> {
        let total = self.looked.pairings.len();
        if self.checked == total {
            let report = Report::of(&self.held_up);
            return vec![Answer::FillNext(self.words.fill_next(&report, &self.kept.table, &self.looked, self.most))];
        }
        if std::mem::replace(&mut self.told, self.checked) == self.checked {
            return Vec::new();
        }
        vec![Answer::SoFar { checked: self.checked, total }]
    }
}
