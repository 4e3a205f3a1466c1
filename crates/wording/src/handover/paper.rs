//! The record of a hand-over as sections of a paper.

use crate::sheets::section;
use crate::{Line, Section, Words, capital};
use fit::Pairing;
use handover::{Diagnosis, FunctionCheck, Item, Measurement, Planned, Progress, Standing, Walk};
use quantity::{Amount, Named};
use record::HandOver;
use record::handover::{Entry, InstrumentKind, NOT_APPLICABLE};
use workshop::Caution;

/// What stands where something is to be written by hand.
const BLANK: &str = "__________";
/// What stands over machine, people and day of a record.
pub const ENTRIES: &str = "Which machine, who and when";
/// What stands over the readings of a record.
pub const READ: &str = "What was read";
/// What stands over its trials.
pub const TRIED: &str = "What was tried";

impl Words<'_> {
    /// The record as a paper: what kills, how it stands, who and when, what was read, what was tried, to whom all of it defers.
    pub fn hand_over(
        &self,
        pairing: &Pairing,
        record: &HandOver,
        planned: &[Planned],
        asked: &[FunctionCheck],
        standing: &Standing,
        diagnosis: Option<&Diagnosis>,
    ) -> Vec<Section> {
        let stands = self.standing_of_paper(standing, planned);
        let signed = record.is_signed_as_it_stands().map(|as_it_stands| {
            let value = if as_it_stands { "signed" } else { "changed since" };
            Line::with("Customer's signature", "On the customer's page, without what may be wrong.", value)
        });
        let entries = Entry::ALL.iter().filter(|entry| **entry != Entry::Note || !record.entry(Entry::Note).is_empty());
        let entries = entries.map(|&entry| match entry {
            Entry::Note => Line::new(self.entry_of_record(entry), record.entry(entry)),
            _ => self.entry_of_paper(record, entry),
        });
        let readings = planned.iter().map(|planned| self.reading_of_paper(record, planned));
        // What was read of a machine or table as it was then is not lost with it.
        let is_planned = |what: Measurement| planned.iter().any(|planned| planned.what == what);
        let others = Measurement::ALL.iter().filter(|&&what| !record.typed(what).is_empty() && !is_planned(what));
        let others = others.map(|&what| {
            let said = "Nothing is computed for it as machine and table stand now.";
            Line::with(self.measurement(what), said, record.typed(what))
        });
        let readings = readings.chain(others);
        let tried = asked.iter().map(|&check| {
            let without = standing.not_applicable.contains(&Item::Function(check));
            let unanswered = if without { NOT_APPLICABLE } else { "yes / no" };
            let answer = record.answer(check).map_or(unanswered, |yes| if yes { "yes" } else { "no" });
            Line::with(self.function_check(check), "", answer)
        });
        let deference = self.caution_line(&Caution::ManualsFirst);
        [
            self.hazards(&[pairing]),
            section("Record of the hand-over", false, std::iter::once(stands).chain(signed).collect()),
            section(ENTRIES, false, entries.collect()),
            section(READ, false, readings.chain(self.instruments_of_paper(record)).collect()),
            diagnosis.map(|diagnosis| self.faults_of_paper(diagnosis, standing.reads_off())),
            section(TRIED, false, tried.collect()),
            section("What comes first", false, vec![deference]),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    /// The page that a customer signs: what kills, how it stands, which machine, what was read with its limit, what was tried. What may
    /// be wrong, and what the fitter remarks, is not on it.
    pub fn hand_over_for_customer(
        &self,
        pairing: &Pairing,
        record: &HandOver,
        planned: &[Planned],
        asked: &[FunctionCheck],
        standing: &Standing,
    ) -> Vec<Section> {
        let mut stands = self.standing_of_paper(standing, planned);
        if let Some(besides) = self.to_prove_before_work(pairing) {
            stands.detail = format!("{} {besides}", stands.detail);
        }
        let entries = Entry::ALL.iter().filter(|entry| **entry != Entry::Note);
        let entries = entries.map(|&entry| self.entry_of_paper(record, entry));
        let walk = Walk::of(planned, asked, standing, &[]);
        let (mut read, mut tried) = (Vec::new(), Vec::new());
        for &(item, progress) in walk.items() {
            let row = self.row_of_item(record, planned, item, progress);
            match item {
                // What helps only to find a fault, and was not read, is none of his.
                Item::Reading(_) if progress == Progress::Extra => {}
                Item::Reading(_) => {
                    let value = if row.read.is_empty() { "not read" } else { &row.read };
                    let judged = if row.read.is_empty() { "" } else { &row.result };
                    let limit = if row.limit.is_empty() { String::new() } else { format!("Limit: {}", row.limit) };
                    let said: Vec<_> = [limit.as_str(), judged].into_iter().filter(|text| !text.is_empty()).collect();
                    let value = if progress == Progress::NotApplicable { NOT_APPLICABLE } else { value };
                    read.push(Line::with(row.name, capital(&said.join("; ")), value));
                }
                Item::Function(check) => {
                    let answer = if progress == Progress::Open { "not tried" } else { &row.result };
                    tried.push(Line::with(self.function_check(check), "", answer));
                }
            }
        }
        [
            self.hazards(&[pairing]),
            section("Hand-over", false, vec![stands]),
            section(ENTRIES, false, entries.collect()),
            section(READ, false, read),
            section(TRIED, false, tried),
            section("What comes first", false, vec![self.caution_line(&Caution::ManualsFirst)]),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    fn standing_of_paper(&self, standing: &Standing, planned: &[Planned]) -> Line {
        let state = self.state_of_hand_over(standing.state(planned));
        Line::with("How it stands", self.standing(standing, planned), state)
    }

    fn entry_of_paper(&self, record: &HandOver, entry: Entry) -> Line {
        Line::with(self.entry_of_record(entry), "", or_blank(&self.entry_told(record, entry)))
    }

    fn reading_of_paper(&self, record: &HandOver, planned: &Planned) -> Line {
        let (value, detail) = match record.amount(planned.what) {
            Ok(Some(read)) => (self.typed(read), self.reading_said(planned, Some(read))),
            Ok(None) => {
                let typed = record.typed(planned.what);
                (or_blank(typed).to_owned(), self.reading_said(planned, None))
            }
            Err(_) => {
                let said = self.reading_said(planned, None);
                (record.typed(planned.what).to_owned(), format!("{said} What was typed is no figure that can be read."))
            }
        };
        Line::with(self.measurement(planned.what), detail, value)
    }

    fn instruments_of_paper(&self, record: &HandOver) -> Option<Line> {
        let own: Vec<_> = InstrumentKind::ALL
            .iter()
            .filter_map(|&kind| {
                let off = record.off(kind).ok().flatten()?;
                Some(format!("{}: {}", self.instrument_off(kind), self.amount(Amount::of(off))))
            })
            .collect();
        (!own.is_empty()).then(|| Line::new("Instruments used", own.join("; ")))
    }
}

fn or_blank(text: &str) -> &str {
    if text.is_empty() { BLANK } else { text }
}
