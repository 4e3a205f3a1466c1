//! The work in words: what is fitted, beside the steps of the first start.

use super::{Line, only_if_needed};
use crate::Words;
use explain::FigureId;
use fit::ChangeReason;
use table::ChangeId;
use workshop::{ChangeLine, ChangeList, Task};

impl Words<'_> {
    /// A step of the work.
    pub fn task(&self, task: &Task, changes: &ChangeList) -> Line {
        match task {
            Task::Step { does } => self.first_step(does),
            Task::Fit { change } => {
                let mut lines = (1..).zip(&changes.lines);
                let found = lines.find(|(_, line)| line.change.id == *change);
                found.map_or_else(
                    || Line::new(self.change_name(*change), ""),
                    |(number, line)| self.fitting(number, line),
                )
            }
        }
    }

    /// A change that is fitted: with which part, and between which points. What the part must be stands on the parts list.
    fn fitting(&self, number: usize, line: &ChangeLine) -> Line {
        let part = line.part.as_ref().map(|part| format!("{}.", crate::capital(&part.name)));
        let between = line.between.as_ref().map(|(from, to)| {
            format!(
                "From {} to {}. Torque by the fitting maker's table for that thread; mark each fitting when it is done.",
                self.end(from),
                self.end(to)
            )
        });
        let battery =
            (line.change.id == ChangeId::Harness).then(|| "Battery isolated before anything is wired.".to_owned());
        let said: Vec<_> = part.into_iter().chain(between).chain(battery).collect();
        let detail = only_if_needed(line.change.reason == ChangeReason::Settles) + &said.join(" ");
        let title = format!("Change {number}: {}", crate::small(&self.change_title(&line.change)));
        Line::with(title, detail.trim(), self.duration(line.change.minutes)).of(FigureId::Change(line.change.id))
    }
}
