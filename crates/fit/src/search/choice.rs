//! What is chosen of a shop's options.

use crate::changes::SLOTS;

/// A choice for every slot: an index into the slot's options, or nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Choice([u8; SLOTS.len()]);

/// Nothing chosen.
pub const NOTHING: Choice = Choice([0; SLOTS.len()]);

impl Choice {
    /// What a slot is filled with.
    pub fn of(&self, place: usize) -> Option<u8> {
        self.0[place].checked_sub(1)
    }

    /// With a slot filled, or emptied.
    #[must_use]
    pub fn with(mut self, place: usize, index: Option<u8>) -> Self {
        self.0[place] = index.map_or(0, |index| index + 1);
        self
    }

    /// The slots that are filled, each with its index.
    pub fn filled(&self) -> impl DoubleEndedIterator<Item = (usize, u8)> {
        self.0.iter().enumerate().filter_map(|(place, index)| Some((place, index.checked_sub(1)?)))
    }

    /// Of some places only.
    pub fn only(mut self, of: impl Fn(usize) -> bool) -> Self {
        for (place, index) in self.0.iter_mut().enumerate() {
            if !of(place) {
                *index = 0;
            }
        }
        self
    }
}
