//! Drawing one value from every fact: nominal, at the worst, or with the assumed ones at their best.

pub use super::parameter::{Corner, Parameter, Side};

use super::FactId;
use super::trace::{Trace, Worked};
use quantity::{Amount, Fact, Interval, Kind};
use smallvec::SmallVec;
use std::cell::RefCell;
use table::AssumptionId;

/// One draw: remembers what it assumed and what it missed; and tells a trace, where one listens, everything that it took.
#[derive(Debug)]
pub struct Draw<'r> {
    /// How facts are drawn.
    pub corner: Corner,
    /// Whether only that something is assumed or missing counts: then the first of each is noted, and no more.
    brief: bool,
    assumed: RefCell<SmallVec<[(FactId, AssumptionId); 12]>>,
    missing: RefCell<SmallVec<[FactId; 8]>>,
    trace: Option<&'r Trace>,
}

impl Draw<'static> {
    /// A fresh draw.
    pub fn new(corner: Corner) -> Self {
        Self { corner, brief: false, assumed: RefCell::default(), missing: RefCell::default(), trace: None }
    }

    /// A draw that remembers only whether it assumed or missed something.
    pub fn brief(corner: Corner) -> Self {
        Self { brief: true, ..Self::new(corner) }
    }
}

impl<'r> Draw<'r> {
    /// A fresh draw that a trace may listen to.
    pub fn heard(corner: Corner, trace: Option<&'r Trace>) -> Self {
        Draw { trace, ..Draw::new(corner) }
    }

    /// Notes a figure that is worked out on the way.
    pub fn works_out<Q: Kind>(&self, worked: Worked, value: Q) -> Q {
        if let Some(trace) = self.trace {
            trace.worked(worked, self.corner, Amount::of(value));
        }
        value
    }

    /// Whether it looks for a corner, over all states of the oil, rather than at one state.
    pub fn is_at_a_corner(&self) -> bool {
        #[cfg(test)]
        if matches!(self.corner, Corner::Anywhere(_)) {
            return false;
        }
        self.corner != Corner::Likely
    }

    /// The value of a fact when `worse` is the end that makes the answer worse.
    ///
    /// A missing fact is noted and drawn at the end that nature allows, so that a draw always goes on to the end: the
    /// caller looks at [`Self::missing`] before it believes the answer.
    pub fn take<Q: Kind>(&self, input: &Parameter<Q>, worse: Side) -> Q {
        let value = self.taken(input, worse);
        if let Some(trace) = self.trace {
            trace.took(input, self.corner, value);
        }
        value
    }

    #[inline]
    fn taken<Q: Kind>(&self, input: &Parameter<Q>, worse: Side) -> Q {
        if let Corner::OneAt(id, value) = self.corner
            && id == input.id
            && !input.fact.is_known()
        {
            return Q::from_si(value);
        }
        let at_best = self.corner == Corner::Best || self.corner == Corner::OneBest(input.id);
        let end = |interval: Interval<Q>, side: Side| match side {
            Side::Low => interval.low,
            Side::High => interval.high,
        };
        match input.fact {
            Fact::Known(interval, _) | Fact::Assumed(interval) => {
                if let Some(assumption) = input.assumption {
                    self.note(&self.assumed, (input.id, assumption));
                }
                #[cfg(test)]
                if let Some(share) = self.corner.anywhere((input.id, interval.low.si().to_bits())) {
                    // The ends too: there the corners are.
                    let share = (share * 1.2 - 0.1).clamp(0.0, 1.0);
                    return Q::from_si(interval.low.si() + share * (interval.high.si() - interval.low.si()));
                }
                match self.corner {
                    Corner::Likely => interval.nominal,
                    _ if at_best && !input.fact.is_known() => end(interval, worse.other()),
                    _ => end(interval, worse),
                }
            }
            Fact::Missing => {
                self.note(&self.missing, input.id);
                let side = if at_best { worse.other() } else { worse };
                Q::from_si(if side == Side::Low { input.physical_limits.0 } else { input.physical_limits.1 })
            }
        }
    }

    fn note<A: smallvec::Array<Item: PartialEq>>(&self, list: &RefCell<SmallVec<A>>, entry: A::Item) {
        let mut list = list.borrow_mut();
        let enough = self.brief && !list.is_empty();
        if !enough && !list.contains(&entry) {
            list.push(entry);
        }
    }

    /// Whether a fact was missing.
    pub fn lacks(&self) -> bool {
        !self.missing.borrow().is_empty()
    }

    /// Whether it rests on an assumed fact.
    pub fn assumes(&self) -> bool {
        !self.assumed.borrow().is_empty()
    }

    /// Another draw of its own, of the same corner.
    pub fn own(&self) -> Draw<'static> {
        Draw { brief: self.brief, ..Draw::new(self.corner) }
    }

    /// Whether it makes what another draw makes, and the other noted all that it would: one of the same corner, or one at the worst that
    /// noted nothing in which both could differ.
    pub fn is_like(&self, other: &Draw) -> bool {
        let at_worst = other.corner == Corner::Worst;
        let alike = match self.corner {
            own if own == other.corner => true,
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
        other.assumed.borrow().iter().for_each(|&entry| self.note(&self.assumed, entry));
        other.missing.borrow().iter().for_each(|&entry| self.note(&self.missing, entry));
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
