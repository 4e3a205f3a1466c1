//! Drawing one value from every fact: nominal, at the worst, or with the assumed ones at their best.

pub use super::parameter::{Corner, Parameter, Side};

use super::FactId;
use super::trace::{Trace, Worked};
use quantity::{Amount, Fact, Interval, Kind};
use smallvec::SmallVec;
use std::cell::{Cell, RefCell};
use table::AssumptionId;

/// One draw: remembers what it assumed and what it missed; and tells a recorder, where one listens, everything that it took.
#[derive(Debug)]
pub struct Draw<'r> {
    /// How facts are drawn.
    pub stance: Corner,
    /// Whether only that something is assumed or missing counts, not what.
    brief: bool,
    assumes: Cell<bool>,
    lacks: Cell<bool>,
    assumed: RefCell<SmallVec<[(FactId, AssumptionId); 12]>>,
    missing: RefCell<SmallVec<[FactId; 8]>>,
    recorder: Option<&'r Trace>,
}

impl Draw<'static> {
    /// A fresh draw.
    pub fn new(stance: Corner) -> Self {
        Self {
            stance,
            brief: false,
            assumes: Cell::new(false),
            lacks: Cell::new(false),
            assumed: RefCell::default(),
            missing: RefCell::default(),
            recorder: None,
        }
    }

    /// A draw that remembers only whether it assumed or missed something.
    pub fn brief(stance: Corner) -> Self {
        Self { brief: true, ..Self::new(stance) }
    }
}

impl<'r> Draw<'r> {
    /// A fresh draw that a recorder may listen to.
    pub fn heard(stance: Corner, recorder: Option<&'r Trace>) -> Self {
        Draw { recorder, ..Draw::new(stance) }
    }

    /// Notes a figure that is worked out on the way.
    pub fn works_out<Q: Kind>(&self, worked: Worked, value: Q) -> Q {
        if let Some(recorder) = self.recorder {
            recorder.worked(worked, self.stance, Amount::of(value));
        }
        value
    }

    /// Whether it looks for a corner, over all states of the oil, rather than at one state.
    pub fn corner(&self) -> bool {
        #[cfg(test)]
        if matches!(self.stance, Corner::Anywhere(_)) {
            return false;
        }
        self.stance != Corner::Likely
    }

    /// The value of a fact when `worse` is the end that makes the answer worse.
    ///
    /// A missing fact is noted and drawn at the end that nature allows, so that a draw always goes on to the end: the
    /// caller looks at [`Self::missing`] before it believes the answer.
    pub fn take<Q: Kind>(&self, input: &Parameter<Q>, worse: Side) -> Q {
        let value = self.taken(input, worse);
        if let Some(recorder) = self.recorder {
            recorder.took(input, self.stance, value);
        }
        value
    }

    #[inline]
    fn taken<Q: Kind>(&self, input: &Parameter<Q>, worse: Side) -> Q {
        if let Corner::OneAt(id, value) = self.stance
            && id == input.id
            && !input.fact.is_known()
        {
            return Q::from_si(value);
        }
        let at_best = self.stance == Corner::Best || self.stance == Corner::OneBest(input.id);
        let end = |interval: Interval<Q>, side: Side| match side {
            Side::Low => interval.low,
            Side::High => interval.high,
        };
        match input.fact {
            Fact::Known(interval, _) | Fact::Assumed(interval) => {
                if let Some(assumption) = input.assumption {
                    self.note_assumed((input.id, assumption));
                }
                #[cfg(test)]
                if let Some(share) = self.stance.anywhere((input.id, interval.low.si().to_bits())) {
                    // The ends too: there the corners are.
                    let share = (share * 1.2 - 0.1).clamp(0.0, 1.0);
                    return Q::from_si(interval.low.si() + share * (interval.high.si() - interval.low.si()));
                }
                match self.stance {
                    Corner::Likely => interval.nominal,
                    _ if at_best && !input.fact.is_known() => end(interval, worse.other()),
                    _ => end(interval, worse),
                }
            }
            Fact::Missing => {
                self.note_missing(input.id);
                let side = if at_best { worse.other() } else { worse };
                Q::from_si(if side == Side::Low { input.physical_limits.0 } else { input.physical_limits.1 })
            }
        }
    }

    fn note_assumed(&self, entry: (FactId, AssumptionId)) {
        self.assumes.set(true);
        if !self.brief {
            note(&self.assumed, entry);
        }
    }

    fn note_missing(&self, id: FactId) {
        self.lacks.set(true);
        if !self.brief {
            note(&self.missing, id);
        }
    }

    /// Whether a fact was missing.
    pub fn lacks(&self) -> bool {
        self.lacks.get()
    }

    /// Whether it rests on an assumed fact.
    pub fn assumes(&self) -> bool {
        self.assumes.get()
    }

    /// Another draw of its own, of the same stance.
    pub fn own(&self) -> Draw<'static> {
        Draw { brief: self.brief, ..Draw::new(self.stance) }
    }

    /// Whether it makes what another draw makes, and the other noted all that it would: one of the same stance, or one at the worst that
    /// noted nothing in which both could differ.
    pub fn is_like(&self, other: &Draw) -> bool {
        let at_worst = other.stance == Corner::Worst;
        let alike = match self.stance {
            own if own == other.stance => true,
            Corner::Best => at_worst && !other.assumes() && !other.lacks(),
            Corner::OneBest(id) | Corner::OneAt(id, _) => at_worst && !other.notes(id),
            _ => false,
        };
        alike && (self.brief || !other.brief)
    }

    fn notes(&self, id: FactId) -> bool {
        self.missing.borrow().contains(&id) || self.assumed.borrow().iter().any(|(known, _)| *known == id)
    }

    /// Notes what another draw assumed and missed.
    pub fn like(&self, other: &Draw) {
        self.assumes.set(self.assumes() || other.assumes());
        self.lacks.set(self.lacks() || other.lacks());
        if !self.brief {
            note_all(&self.assumed, &other.assumed);
            note_all(&self.missing, &other.missing);
        }
    }

    /// The facts that were assumed, each with the practice behind it.
    pub fn assumed(&self) -> Vec<(FactId, AssumptionId)> {
        debug_assert!(!self.brief, "a brief draw does not know");
        self.assumed.borrow().to_vec()
    }

    /// The facts that were missing.
    pub fn missing(&self) -> Vec<FactId> {
        debug_assert!(!self.brief, "a brief draw does not know");
        self.missing.borrow().to_vec()
    }
}

fn note_all<A: smallvec::Array<Item: Copy + PartialEq>>(list: &RefCell<SmallVec<A>>, others: &RefCell<SmallVec<A>>) {
    let others = others.borrow();
    if list.borrow().is_empty() {
        list.borrow_mut().extend_from_slice(&others);
    } else {
        others.iter().for_each(|&entry| note(list, entry));
    }
}

fn note<A: smallvec::Array<Item: PartialEq>>(list: &RefCell<SmallVec<A>>, entry: A::Item) {
    let mut list = list.borrow_mut();
    if !list.contains(&entry) {
        list.push(entry);
    }
}
