//! A request that is being answered.

use super::Answer;
use super::memory::Memory;

/// What a request has come to.
pub trait Task {
    /// Does one piece of the work; false when nothing is left.
    fn step(&mut self, memory: &mut Memory) -> bool;
    /// What is to be told that was not told before.
    fn tell(&mut self) -> Vec<Answer>;
}

/// An answer that was found at once.
pub struct Found(pub Vec<Answer>);

impl Task for Found {
    fn step(&mut self, _: &mut Memory) -> bool {
        false
    }

    fn tell(&mut self) -> Vec<Answer> {
        std::mem::take(&mut self.0)
    }
}
