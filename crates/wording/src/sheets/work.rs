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
                let line = changes.lines.iter().find(|line| line.change.id == *change);
                line.map_or_else(|| Line::new(self.change_name(*change), ""), |line| self.fitting(line))
            }
        }
    }

    /// A change that is fitted: with which part, and between which points. What the part must be stands on the parts list.
    fn fitting(&self, line: &ChangeLine) -> Line {
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
        Line::with(self.change_title(&line.change), detail.trim(), self.duration(line.change.minutes))
            .of(FigureId::Change(line.change.id))
    }
}
