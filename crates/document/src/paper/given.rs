//! What a paper says of itself: its title block, and the running head by which a loose page finds back to its machine.

use super::Papers;
use crate::tree::{Block, Fact, Look, Span};
use wording::capital;

/// Where something is to be written by hand.
const RULE: &str = "____________";

/// What a person typed for the papers of a pairing, and when and from what they were made. What is empty is written by hand.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Given {
    /// The machine's serial or yard number.
    pub machine_serial: String,
    /// The attachment's.
    pub attachment_serial: String,
    /// The number of the job.
    pub job: String,
    /// Day and time, as the reader writes them.
    pub made: String,
    /// The table's title and day.
    pub table: String,
    /// The state of the table.
    pub mark: String,
    /// The program and its version.
    pub program: String,
}

/// What stands at the edge of every printed page, beside its number.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct RunningHead {
    /// At the top, at the beginning of a line: machine and attachment, each with its serial.
    pub start: [String; 2],
    /// At the top, at the end of a line: the job, and when it was made.
    pub end: [String; 2],
    /// At the foot: which paper, and from which state of which table.
    pub foot: String,
}

/// A text, or a rule to write on.
pub(super) fn or_rule(text: &str) -> String {
    if text.trim().is_empty() { RULE.to_owned() } else { text.trim().to_owned() }
}

impl Papers<'_> {
    /// The running head of a paper with this title.
    pub fn running_head(&self, title: &str) -> RunningHead {
        let Given { machine_serial, attachment_serial, job, made, table, mark, .. } = self.given;
        let named = |name: String, serial: &str| format!("{} · serial {}", capital(&name), or_rule(serial));
        RunningHead {
            start: [named(self.carrier.full_name(), machine_serial), named(self.head.full_name(), attachment_serial)],
            end: [format!("Job {}", or_rule(job)), made.clone()],
            foot: format!("{title} · {table} · {mark}"),
        }
    }

    /// The title block; what nobody typed has a rule to be written on.
    pub(super) fn title_block(&self) -> Block {
        let Given { machine_serial, attachment_serial, job, made, table, mark, program } = self.given;
        let fact = |name: &str, says: String| Fact::new(name, [Span::Text(says)]);
        let facts = vec![
            fact("Machine", capital(&self.carrier.full_name())),
            fact("Its serial number", or_rule(machine_serial)),
            fact("Attachment", self.head.full_name()),
            fact("Its serial number", or_rule(attachment_serial)),
            fact("Job", or_rule(job)),
            fact("Made", made.clone()),
            fact("Table", table.clone()),
            fact("State of the table; solved by", format!("{mark}; {program}")),
        ];
        Block::Facts { look: Look::TitleBlock, facts }
    }
}
