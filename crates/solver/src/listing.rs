//! A list as it is shown while it is being solved: nothing under a finger moves.

use super::{Answer, Row};
use std::sync::Arc;

/// Rows in the order in which they are shown, and the order that they are to have.
#[derive(Clone, Debug, Default)]
pub struct Listing {
    /// As they came.
    came: Vec<Arc<Row>>,
    /// The places of those in `came`, as they are shown.
    shown: Vec<usize>,
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
}

impl Listing {
    /// The rows as they are shown.
    pub fn rows(&self) -> Vec<Arc<Row>> {
        self.shown.iter().map(|&at| self.came[at].clone()).collect()
    }

    /// Whether all are checked.
    pub fn is_complete(&self) -> bool {
        self.order.is_some()
    }

    /// Whether all are there, but not in their order.
    pub fn is_out_of_order(&self) -> bool {
        self.order.as_ref().is_some_and(|order| *order != self.shown)
    }

    /// Takes what came. Rows join at the end of their verdict's group. What is complete is put in order unless somebody has touched it by
    /// then.
    pub fn take(&mut self, answer: Answer, is_touched: bool) {
        match answer {
            Answer::Rows { rows, checked, total } => {
                (self.checked, self.total) = (checked, total);
                for row in rows {
                    let end = self.shown.partition_point(|&at| self.came[at].verdict <= row.verdict);
                    self.shown.insert(end, self.came.len());
                    self.came.push(Arc::new(row));
                }
            }
            Answer::Sorted { order, says, decide } => {
                (self.says, self.decide) = (says, decide);
                self.order = Some(order);
                if !is_touched {
                    self.put_in_order();
                }
            }
            Answer::Done => self.order = Some(self.shown.clone()),
            Answer::RunsOn { .. } | Answer::Questions(_) | Answer::Typical(_) | Answer::Json(_) => {}
        }
    }

    /// Puts it in order.
    pub fn put_in_order(&mut self) {
        if let Some(order) = &self.order {
            self.shown.clone_from(order);
        }
    }
}
