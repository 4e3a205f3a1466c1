//! Back to the bucket, on half a page, to be laminated and kept in the cab.

use super::{Papers, form, page};
use crate::tree::{Block, Look, Slot};
use workshop::Step;

impl Papers<'_> {
    /// The card; nothing where nothing goes to work.
    pub fn for_the_cab(&self) -> Vec<Block> {
        let words = self.words;
        let Some(job) = &self.sheets.job else {
            let none = Block::says(Look::Plain, "There is no way back to describe: it does not go to work yet.");
            return vec![page(vec![self.title_block(), none])];
        };
        let serial =
            |text: &str| if text.trim().is_empty() { String::new() } else { format!(", serial {}", text.trim()) };
        let who = format!(
            "{}{} · {}{}",
            self.carrier.full_name(),
            serial(&self.given.machine_serial),
            self.head.full_name(),
            serial(&self.given.attachment_serial)
        );
        let rows = job.settings.positions.iter().map(|state| {
            let [item, on, off] = words.position_row(state);
            [Slot::says(item), Slot::says(off), Slot::says(on)]
        });
        // What is tried last is a list of its own; the press on the ground stands where it belongs.
        let off = &job.switch_back.off;
        let (order, check) =
            off.split_at(off.iter().rposition(|step| !matches!(step, Step::Try { .. })).map_or(0, |last| last + 1));
        let items = |steps: &[Step]| -> Vec<Vec<Block>> {
            let told = steps.iter().map(|step| words.step(step));
            let told = told
                .map(|line| if line.value.is_empty() { line.title } else { format!("{}: {}", line.title, line.value) });
            told.map(|text| vec![Block::says(Look::Plain, text)]).collect()
        };
        let inside = vec![
            Block::Heading { level: 2, text: "Back to the bucket".to_owned() },
            Block::says(Look::Name, who),
            form("How it stands", ["What", "Bucket on", "Attachment on"], rows.collect()),
            Block::Heading { level: 3, text: "In this order".to_owned() },
            Block::List { look: Look::Sentences, ordered: true, items: items(order) },
            Block::Heading { level: 3, text: "Then check".to_owned() },
            Block::List { look: Look::Sentences, ordered: false, items: items(check) },
            Block::says(
                Look::Quiet,
                format!(
                    "The fitter's sheet says how. {} · {} · {}",
                    self.given.made, self.given.table, self.given.mark
                ),
            ),
        ];
        vec![Block::Page { look: Look::CabCard, inside }]
    }
}
