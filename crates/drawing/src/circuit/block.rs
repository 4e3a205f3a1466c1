//! A label of a few lines: how its rows fall, and how much room they take.

use super::super::text::{Face, width};

/// From one line of a label to the next.
pub const LEADING: f64 = 15.0;
/// From one line of a label to the next where a number in a circle stands in the line.
pub const LEADING_NUMBERED: f64 = 19.0;
/// Radius of such a circle.
pub const ROUND: f64 = 8.5;

/// A label: the numbers of changes, a name, figures.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Block {
    /// Numbers of changes.
    pub numbers: Vec<usize>,
    /// Its lines.
    pub lines: Vec<(String, Face)>,
}

impl Block {
    /// Whether it says nothing.
    pub fn is_empty(&self) -> bool {
        self.numbers.is_empty() && self.lines.is_empty()
    }

    /// How wide the numbers are together.
    pub fn numbers_wide(&self) -> f64 {
        2.0 * (ROUND + 1.5) * self.numbers.len() as f64
    }

    /// Its rows: whether the first begins with the numbers, and its text.
    pub fn rows(&self, most: f64) -> Vec<(bool, Option<&(String, Face)>)> {
        let mut rest = self.lines.iter();
        let mut rows = Vec::new();
        if !self.numbers.is_empty() {
            let first = self.lines.first();
            let beside = first.is_some_and(|(text, face)| self.numbers_wide() + width(text, *face) <= most);
            rows.push((true, if beside { rest.next() } else { None }));
        }
        rows.extend(rest.map(|line| (false, Some(line))));
        rows
    }

    /// Width and height where it may be as wide as `most`.
    pub fn size(&self, most: f64) -> (f64, f64) {
        let mut size = (0.0f64, 0.0);
        for (numbered, line) in self.rows(most) {
            let text = line.map_or(0.0, |(text, face)| width(text, *face));
            let wide = text + if numbered { self.numbers_wide() } else { 0.0 };
            size = (size.0.max(wide), size.1 + if numbered { LEADING_NUMBERED } else { LEADING });
        }
        size
    }
}
