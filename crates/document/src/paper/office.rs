//! What is of no use at the machine and is filed with the rest: questions to makers, and what the answer rests on.

use super::{Papers, sections};
use crate::tree::Block;

impl Papers<'_> {
    /// Questions to makers, and what the answer rests on.
    pub(super) fn for_the_office(&self) -> Vec<Block> {
        let asks = self.words.asks(&self.sheets.asks);
        let rests = self.words.rests_on(self.pairing, &self.sheets.rests_on);
        sections(asks.into_iter().chain(rests), true)
    }
}
