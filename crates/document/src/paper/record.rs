//! The record of a hand-over: what was read against what was expected, what was set and tried, who signs; what may be wrong on a page of
//! its own, for the workshop.

use super::given::or_rule;
use super::{Papers, form, heading, line, page, sections};
use crate::tree::{Block, Fact, Look, Slot, Span};
use handover::{Diagnosis, FunctionCheck, Item, Standing, Walk};
use quantity::Named;
use record::HandOver;
use record::handover::Entry;
use wording::{ENTRIES, READ, TRIED};

impl Papers<'_> {
    /// The whole record: two pages, and a third one where it was looked for what may be wrong.
    pub fn record(
        &self,
        record: &HandOver,
        asked: &[FunctionCheck],
        standing: &Standing,
        diagnosis: Option<&Diagnosis>,
    ) -> Vec<Block> {
        let words = self.words;
        let told = words.hand_over(self.pairing, record, self.planned, asked, standing, diagnosis);
        let faults = words.what_may_be_wrong();
        let (mut front, mut back, mut workshop) = (vec![self.title_block()], Vec::new(), Vec::new());
        for section in told {
            if section.title == READ {
                front.push(heading(READ));
                front.push(self.read(record, asked, standing));
                // What was read of a machine as it was then, and with which instruments.
                let planned =
                    |name: &String| self.planned.iter().any(|planned| words.measurement(planned.what) == *name);
                let rest: Vec<_> = section.lines.into_iter().filter(|line| !planned(&line.title)).map(line).collect();
                if !rest.is_empty() {
                    front.push(Block::Lines { look: Look::Paper, ordered: false, lines: rest });
                }
                back.extend(self.set());
            } else if section.title == TRIED {
                back.push(heading(TRIED));
                let rows = section.lines.into_iter().map(|line| [Slot::says(line.title), Slot::says(line.value)]);
                back.push(form(TRIED, ["What was tried", "Answer"], rows.collect()));
            } else if section.title == faults {
                workshop.extend(sections([section], true));
                workshop.push(Block::says(Look::Quiet, "For the workshop; not for the customer."));
            } else if section.title == ENTRIES {
                front.push(self.entries(record));
            } else if back.is_empty() {
                front.extend(sections([section], true));
            } else {
                back.extend(sections([section], true));
            }
        }
        back.extend(Self::signed());
        let mut pages = vec![page(front), page(back)];
        if !workshop.is_empty() {
            pages.push(page(workshop));
        }
        pages
    }

    /// The page that a customer signs.
    pub fn record_for_customer(&self, record: &HandOver, asked: &[FunctionCheck], standing: &Standing) -> Vec<Block> {
        let told = self.words.hand_over_for_customer(self.pairing, record, self.planned, asked, standing);
        let mut blocks = vec![self.title_block()];
        blocks.extend(sections(told, true));
        blocks
    }

    fn read(&self, record: &HandOver, asked: &[FunctionCheck], standing: &Standing) -> Block {
        let words = self.words;
        let walk = Walk::of(self.planned, asked, standing, &[]);
        let rows = walk.items().iter().filter_map(|&(item, progress)| {
            let Item::Reading(what) = item else { return None };
            let planned = self.planned.iter().find(|planned| planned.what == what)?;
            let row = words.row_of_item(record, self.planned, item, progress);
            let (expected, why) = self.expected(planned);
            let limit = if row.limit.is_empty() { "–".to_owned() } else { row.limit };
            let name = Slot::More(vec![Span::Text(row.name)], why.unwrap_or_default());
            Some([name, Slot::says(expected), Slot::says(limit), Slot::or_blank(row.read), Slot::says(row.result)])
        });
        form(READ, ["Reading", "Expected", "Limit", "Read", "How it lies"], rows.collect())
    }

    /// Who and when; the machine's number stands in the title block.
    fn entries(&self, record: &HandOver) -> Block {
        let words = self.words;
        let entries = Entry::ALL.iter().filter(|entry| !matches!(entry, Entry::Serial | Entry::Note));
        let fact = |&entry: &Entry| {
            Fact::new(words.entry_of_record(entry), [Span::Text(or_rule(&words.entry_told(record, entry)))])
        };
        let mut facts: Vec<_> = entries.map(fact).collect();
        if !record.entry(Entry::Note).is_empty() {
            facts.push(Fact::new(
                words.entry_of_record(Entry::Note),
                [Span::Text(record.entry(Entry::Note).to_owned())],
            ));
        }
        Block::Facts { look: Look::TitleBlock, facts }
    }

    /// What was set, with room for what was found and set.
    fn set(&self) -> Vec<Block> {
        let values = self.sheets.job.iter().flat_map(|job| &job.settings.values);
        let rows: Vec<_> = values
            .map(|value| {
                let row = self.words.value_row(value);
                let off = format!("Off: {}.", row.off);
                let set_to = Slot::Says(vec![Span::Figure { text: row.set_to, of: row.of }]);
                [Slot::More(vec![Span::Text(row.name)], off), set_to, Slot::Blank, Slot::Blank, Slot::Blank]
            })
            .collect();
        if rows.is_empty() {
            return vec![Block::Facts {
                look: Look::Facts,
                facts: vec![Fact::new("What was set", [Span::Text("Nothing had to be set.".to_owned())])],
            }];
        }
        vec![heading("What was set"), form("What was set", ["Setting", "Set to", "Found", "Set", "By"], rows)]
    }
}
