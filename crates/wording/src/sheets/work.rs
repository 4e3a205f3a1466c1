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
                line.map_or_else(|| Line::new(self.change_name(*change), ""), |line| self.to_fit(line))
            }
        }
    }

    /// A change that is fitted: with which part, and between which points. What the part must be stands on the parts list.
    fn to_fit(&self, line: &ChangeLine) -> Line {
        let mut said = only_if_needed(line.change.reason == ChangeReason::Settles);
        if let Some(part) = &line.part {
            said += &format!("{}. ", crate::capital(&part.name));
        }
        if let Some((from, to)) = &line.between {
            said += &format!(
                "From {} to {}. Torque by the fitting maker's table for that thread; mark each fitting when it is done. ",
                self.end(from),
                self.end(to)
            );
        }
        if line.change.id == ChangeId::Harness {
            said += "Battery isolated before anything is wired. ";
        }
        Line::with(self.change_title(&line.change), said.trim(), self.duration(line.change.minutes))
            .of(FigureId::Change(line.change.id))
    }
}
