//! A sample: one value from every fact, at likely figures, at the worst, or with the assumed ones at their best.

pub use super::corner::{Certainty, Corner, End, InSpan, Sampler};
pub use super::parameter::Parameter;

use super::FactId;
use super::trace::{Trace, Worked};
use quantity::{Amount, Fact, Quantity};
use smallvec::SmallVec;
use std::cell::{Cell, RefCell};
use table::AssumptionId;

/// Where a sample lies.
#[derive(Clone, Copy, Debug)]
enum Place<'r> {
    Corner(Corner),
    Elsewhere(&'r dyn Sampler),
}

/// One value from every fact; remembers what it assumed and what it missed.
#[derive(Debug)]
pub struct Sample<'r> {
    place: Place<'r>,
    /// Whether only that something is assumed or missing counts: then nothing is listed.
    brief: bool,
    assumes: Cell<bool>,
    lacks: Cell<bool>,
    assumed: RefCell<SmallVec<[(FactId, AssumptionId); 12]>>,
    missing: RefCell<SmallVec<[FactId; 8]>>,
    trace: Option<&'r Trace>,
}

impl Sample<'static> {
    /// A sample in a corner.
    pub fn new(corner: Corner) -> Self {
        Self::at(Place::Corner(corner))
    }

    /// A sample in a corner that remembers only whether it assumed or missed something.
    pub fn brief(corner: Corner) -> Self {
        Self { brief: true, ..Self::new(corner) }
    }
}

impl<'r> Sample<'r> {
    fn at(place: Place<'r>) -> Self {
        Self {
            place,
            brief: false,
            assumes: Cell::new(false),
            lacks: Cell::new(false),
            assumed: RefCell::default(),
            missing: RefCell::default(),
            trace: None,
        }
    }

    /// A sample where a sampler puts it.
    pub fn by(sampler: &'r dyn Sampler) -> Self {
        Self::at(Place::Elsewhere(sampler))
    }

    /// A sample in a corner of which a trace keeps everything that is taken.
    pub(crate) fn traced(corner: Corner, trace: Option<&'r Trace>) -> Self {
        Sample { trace, ..Sample::new(corner) }
    }

    /// What says which value and which state it has.
    pub fn sampler(&self) -> &dyn Sampler {
        match &self.place {
            Place::Corner(corner) => corner,
            Place::Elsewhere(sampler) => *sampler,
        }
    }

    /// The corner that it is in; none elsewhere.
    pub fn corner(&self) -> Option<Corner> {
        match self.place {
            Place::Corner(corner) => Some(corner),
            Place::Elsewhere(_) => None,
        }
    }

    /// Whether everything is at its likeliest.
    pub fn is_likely(&self) -> bool {
        self.corner() == Some(Corner::Likely)
    }

    /// A figure that is worked out on the way, by its name.
    pub fn step<Q: Quantity>(&self, worked: Worked, value: Q) -> Q {
        if let Some(trace) = self.trace {
            trace.worked(worked, self.is_likely(), Amount::of(value));
        }
        value
    }

    /// The value of a fact when `worse` is the end that makes the answer worse.
    ///
    /// A missing fact is noted and taken at the end that nature allows, so that a sample always goes on to the end: the
    /// caller looks at [`Self::missing`] before it believes the answer.
    pub fn take<Q: Quantity>(&self, parameter: &Parameter<Q>, worse: End) -> Q {
        let value = self.taken(parameter, worse);
        if let Some(trace) = self.trace {
            trace.took(parameter, self.is_likely(), value);
        }
        value
    }

    fn taken<Q: Quantity>(&self, parameter: &Parameter<Q>, worse: End) -> Q {
        match &self.place {
            Place::Corner(Corner::OneAt(id, value)) if *id == parameter.id && !parameter.fact.is_known() => {
                Q::from_si(*value)
            }
            Place::Corner(corner) => self.taken_by(corner, parameter, worse),
            Place::Elsewhere(sampler) => self.taken_by(*sampler, parameter, worse),
        }
    }

    #[inline]
    fn taken_by<Q: Quantity, S: Sampler + ?Sized>(&self, sampler: &S, parameter: &Parameter<Q>, worse: End) -> Q {
        let id = parameter.id;
        match parameter.fact {
            Fact::Known(span, _) => sampler.place(id, Certainty::Known, span.low.si(), worse).of(span),
            Fact::Assumed(span) => {
                if let Some(assumption) = parameter.assumption {
                    self.note_assumed((id, assumption));
                }
                sampler.place(id, Certainty::Assumed, span.low.si(), worse).of(span)
            }
            Fact::Missing => {
                self.note_missing(id);
                let (low, high) = parameter.physical_limits;
                let at_low = sampler.place(id, Certainty::Missing, low, worse) == InSpan::At(End::Low);
                Q::from_si(if at_low { low } else { high })
            }
        }
    }

    fn note_assumed(&self, entry: (FactId, AssumptionId)) {
        self.assumes.set(true);
        if !self.brief {
            list_once(&self.assumed, entry);
        }
    }

    fn note_missing(&self, id: FactId) {
        self.lacks.set(true);
        if !self.brief {
            list_once(&self.missing, id);
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

    /// Another sample of its own, of the same corner, where what it makes may be asked for again; none of one of many values that are
    /// tried.
    pub fn own(&self) -> Option<Sample<'static>> {
        let corner = self.corner().filter(|corner| !matches!(corner, Corner::OneAt(..)))?;
        Some(Sample { brief: self.brief, ..Sample::new(corner) })
    }

    /// Whether it makes what another sample makes, and the other noted all that it would: one of the same corner, or one at the worst that
    /// noted nothing in which both could differ.
    pub fn is_like(&self, other: &Sample) -> bool {
        let (Some(own), Some(of_other)) = (self.corner(), other.corner()) else { return false };
        let at_worst = of_other == Corner::Worst;
        let alike = match own {
            own if own == of_other => true,
            Corner::Best => at_worst && !other.assumes() && !other.lacks(),
            Corner::OneBest(id) | Corner::OneAt(id, _) => at_worst && !other.brief && !other.notes(id),
            _ => false,
        };
        alike && (self.brief || !other.brief)
    }

    fn notes(&self, id: FactId) -> bool {
        self.missing.borrow().contains(&id) || self.assumed.borrow().iter().any(|(known, _)| *known == id)
    }

    /// Notes what another sample assumed and missed.
    pub fn like(&self, other: &Sample) {
        if self.brief {
            self.assumes.set(self.assumes() || other.assumes());
            self.lacks.set(self.lacks() || other.lacks());
            return;
        }
        other.assumed.borrow().iter().for_each(|&entry| self.note_assumed(entry));
        other.missing.borrow().iter().for_each(|&id| self.note_missing(id));
    }

    /// The facts that were assumed, each with the practice behind it.
    pub fn assumed(&self) -> Vec<(FactId, AssumptionId)> {
        debug_assert!(!self.brief, "a brief sample does not know");
        self.assumed.borrow().to_vec()
    }

    /// The facts that were missing.
    pub fn missing(&self) -> Vec<FactId> {
        debug_assert!(!self.brief, "a brief sample does not know");
        self.missing.borrow().to_vec()
    }
}

fn list_once<A: smallvec::Array<Item: PartialEq>>(list: &RefCell<SmallVec<A>>, entry: A::Item) {
    let mut list = list.borrow_mut();
    if !list.contains(&entry) {
        list.push(entry);
    }
}
