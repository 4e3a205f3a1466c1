//! The parts list for the stores: everything that is taken from a shelf, to be ticked.

use super::{Papers, heading, page};
use crate::tree::{Block, Form, Look, Slot, Span};
use wording::PARTS_COLUMNS;

impl Papers<'_> {
    /// The parts list.
    pub fn for_the_stores(&self) -> Vec<Block> {
        vec![page(self.shelf())]
    }

    fn shelf(&self) -> Vec<Block> {
        let words = self.words;
        let mut blocks = vec![self.title_block()];
        let rows = words.parts_list(&self.sheets.changes);
        if rows.is_empty() {
            blocks.push(Block::says(Look::Plain, "Nothing is taken from a shelf."));
            return blocks;
        }
        if self.sheets.job.is_none() {
            blocks.push(Block::says(Look::Lead, "Not to be ordered yet: it is not said that it fits."));
        }
        blocks.push(heading("Parts"));
        let head = std::iter::once("").chain(PARTS_COLUMNS).map(str::to_owned).collect();
        let rows = rows.iter().map(|row| {
            let [part, size, standard, threads, rating, count, number, note] = row.columns();
            vec![
                Slot::Tick,
                Slot::More(vec![Span::Text(part.to_owned())], note.to_owned()),
                Slot::says(size),
                Slot::says(standard),
                Slot::or_blank(threads),
                Slot::says(rating),
                Slot::says(count),
                Slot::or_blank(number),
            ]
        });
        let mut head: Vec<String> = head;
        // The note stands below its part.
        head.pop();
        blocks.push(Block::Form(Form { name: "Parts".to_owned(), head, rows: rows.collect(), foot: Vec::new() }));
        blocks.push(Block::says(
            Look::Quiet,
            "Threads and numbers that are not stated are read off the port or the shelf and written in. Figures are rounded to the safe side.",
        ));
        blocks
    }
}
