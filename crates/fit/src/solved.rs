//! What solving a setting returns: its value, with what it was solved from and what spoke against the values next to it.

use crate::facts::Facts;
use crate::trace::{Against, InputRecord, Trial, nearest};
use quantity::{Amount, Quantity};
use std::cell::RefCell;

/// A solved value. What it was solved from is kept only where its facts keep a trace.
#[derive(Clone, Debug, PartialEq)]
pub struct Solved<T> {
    /// The value.
    pub value: T,
    /// What it was solved from.
    pub inputs: Vec<InputRecord>,
    /// What spoke against the values nearest to it.
    pub trials: Vec<Trial>,
}

impl<T> Solved<T> {
    /// A value that nothing was tried for.
    pub fn plain(value: T) -> Self {
        Self { value, inputs: Vec::new(), trials: Vec::new() }
    }

    /// What solving it on some facts comes to, with what that took of them.
    pub fn on(facts: &Facts, solve: impl FnOnce() -> Option<Self>) -> Option<Self> {
        let (solved, inputs) = facts.section(solve);
        solved.map(|solved| Self { inputs, ..solved })
    }

    /// Gives the value another form.
    pub fn map<R>(self, form: impl FnOnce(T) -> R) -> Solved<R> {
        Solved { value: form(self.value), inputs: self.inputs, trials: self.trials }
    }
}

/// The values that were tried; kept only where the facts keep a trace.
pub struct Tried(Option<RefCell<Vec<Trial>>>);

impl Tried {
    /// Of a setting that is solved on some facts.
    pub fn on(facts: &Facts) -> Self {
        Self(facts.trace().map(|_| RefCell::default()))
    }

    /// A value was tried; what speaks against it is worked out only where it is kept.
    pub fn with<Q: Quantity>(&self, value: Q, against: impl FnOnce() -> Vec<Against>) {
        if let Some(trials) = &self.0 {
            trials.borrow_mut().push(Trial { value: Amount::of(value), against: against() });
        }
    }

    /// The value that was taken, with what spoke against those nearest to it.
    pub fn taken<Q: Quantity>(self, value: Q) -> Solved<Q> {
        let trials = self.0.map(|trials| nearest(trials.borrow().iter(), Amount::of(value))).unwrap_or_default();
        Solved { trials, ..Solved::plain(value) }
    }
}
