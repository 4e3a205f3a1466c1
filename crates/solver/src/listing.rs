//! A list as it is shown while it is being solved: nothing under a finger moves.

use super::{Answer, Row};
use fit::Verdict;
use std::sync::Arc;

/// A list that is being filled in: what fits from above, what does not from below, so that what stands in sight stays where it is and the room
/// between them gets smaller.
#[derive(Clone, Debug, Default)]
pub struct Listing {
    /// As they came.
    came: Vec<Arc<Row>>,
    /// The places in `came` of those above the room that is left, as they are shown.
    above: Vec<usize>,
    /// Those below it.
    below: Vec<usize>,
    /// The order that they are to have, once all are there.
    order: Option<Vec<usize>>,
    /// How many pairings are checked.
    pub checked: usize,
    /// Of how many.
    pub total: usize,
    /// What it comes to, where a sentence says it.
    pub says: String,
    /// The figures that decide most, where nothing but the class is known.
    pub decide: Vec<String>,
    /// Where nothing is left: what would be left without each of the filters.
    pub loosen: Vec<String>,
}

impl Listing {
    /// The rows above the room that is left.
    pub fn above(&self) -> impl Iterator<Item = &Arc<Row>> {
        self.above.iter().map(|&at| &self.came[at])
    }

    /// The rows below it.
    pub fn below(&self) -> impl Iterator<Item = &Arc<Row>> {
        self.below.iter().map(|&at| &self.came[at])
    }

    /// All rows as they are shown.
    pub fn rows(&self) -> impl Iterator<Item = &Arc<Row>> {
        self.above().chain(self.below())
    }

    /// For how many rows there is room between those above and those below.
    pub fn room(&self) -> usize {
        self.total - self.checked
    }

    /// Whether all are checked.
    pub fn is_complete(&self) -> bool {
        self.order.is_some()
    }

    /// Whether all are there and in their order.
    pub fn is_in_order(&self) -> bool {
        self.order.as_ref().is_some_and(|order| self.above.iter().chain(&self.below).eq(order))
    }

    /// Takes what came. What is complete is put in order unless somebody has touched it by then.
    pub fn take(&mut self, answer: Answer, is_touched: bool) {
        match answer {
            Answer::Rows { rows, checked, total } => {
                (self.checked, self.total) = (checked, total);
                for row in rows {
                    let place = self.came.len();
                    match row.verdict {
                        Verdict::Fits | Verdict::FitsAfterChanges => self.above.push(place),
                        Verdict::CannotSay | Verdict::DoesNotFit => self.below.insert(0, place),
                    }
                    self.came.push(Arc::new(row));
                }
            }
            Answer::Sorted { order, says, decide, loosen } => {
                (self.says, self.decide, self.loosen) = (says, decide, loosen);
                self.order = Some(order);
                if !is_touched {
                    self.put_in_order();
                }
            }
            Answer::Done => {
                self.order = Some(self.above.iter().chain(&self.below).copied().collect());
            }
            Answer::RunsOn { .. }
            | Answer::Questions(_)
            | Answer::Typical(_)
            | Answer::SoFar { .. }
            | Answer::FillNext(_)
            | Answer::Json(_) => {}
        }
    }

    /// Puts it in order.
    pub fn put_in_order(&mut self) {
        if let Some(order) = &self.order {
            (self.above, self.below) = (order.clone(), Vec::new());
        }
    }
}
