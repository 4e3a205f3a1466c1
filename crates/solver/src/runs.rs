//! On which machines attachments run.

use super::Answer;
use super::memory::{Kept, Memory, machines};
use super::task::Task;
use fit::{Judge, RunsOn};
use record::Plate;
use std::collections::VecDeque;
use std::sync::Arc;
use table::Carrier;
use wording::Words;

/// Asks all machines about one attachment after the other.
pub struct RunsOnTask {
    kept: Arc<Kept>,
    words: Words<'static>,
    machines: Vec<Carrier>,
    heads: VecDeque<String>,
    answers: Vec<Answer>,
}

impl RunsOnTask {
    /// About these attachments, in their order.
    pub fn new(kept: Arc<Kept>, words: Words<'static>, heads: Vec<String>, own: &[Plate]) -> Self {
        let machines = machines(&kept, own).into_iter().map(|machine| (*machine.carrier).clone()).collect();
        Self { kept, words, machines, heads: heads.into(), answers: Vec::new() }
    }
}

impl Task for RunsOnTask {
    fn step(&mut self, _: &mut Memory) -> bool {
        if let Some(head) = self.heads.pop_front()
            && let Some(of) = self.kept.table.head(&head)
        {
            let runs = RunsOn::of(&Judge::new(&self.kept.conditions), &self.machines, of);
            let smallest = runs.smallest.and_then(|(place, _)| self.machines.get(place));
            self.answers.push(Answer::RunsOn { head, says: self.words.runs_on(&runs, smallest) });
        }
        if self.heads.is_empty() {
            self.answers.push(Answer::Done);
        }
        !self.heads.is_empty()
    }

    fn tell(&mut self) -> Vec<Answer> {
        std::mem::take(&mut self.answers)
    }
}
