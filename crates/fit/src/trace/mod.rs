//! What a judgement went by: every fact that was taken and every value that was tried, heard by a [`Trace`].
//!
//! Nothing here is listed by hand. A check, point, figure or setting is worked out once more, for whoever asks; an ordinary answer
//! knows nothing of it and is no slower.

mod tried;
mod used;
mod visible;

pub use tried::{Against, Trial};
pub use used::{Aspect, Context, From, Used, Value, What, Worked};
pub use visible::{Counted, Ends, Given, Seen, Visible};

use crate::parameter::{Corner, Parameter};
use crate::{Check, FactId, SettingId};
use quantity::{Amount, Fact, Kind};
use std::cell::{Cell, RefCell};

/// The question in which something was asked for; the first is all that belongs to none.
const OUTSIDE: usize = 0;

/// The place of a setting that is solved, among the questions; far behind those that are put.
fn place(setting: SettingId) -> usize {
    usize::MAX - setting as usize
}

/// Hears a check being judged. Hardly any is: what tells it is kept out of the way of those that are not.
#[derive(Debug, Default, PartialEq)]
pub struct Trace {
    used: RefCell<Vec<(usize, Used)>>,
    judged: RefCell<Vec<(usize, Check)>>,
    tried: RefCell<Vec<(usize, Trial)>>,
    question: Cell<usize>,
}

impl Trace {
    /// A question is put.
    pub fn begin(&self) {
        self.question.set(self.judged.borrow().len() + 1);
    }

    /// It came out so.
    pub fn end(&self, check: &Check) {
        self.judged.borrow_mut().push((self.question.replace(OUTSIDE), check.clone()));
    }

    /// From now on a setting is solved.
    pub fn solves(&self, setting: SettingId) {
        self.question.set(place(setting));
    }

    /// A value was tried for it.
    pub fn tried(&self, trial: Trial) {
        self.tried.borrow_mut().push((self.question.get(), trial));
    }

    /// What a setting was solved from, and what spoke against the values nearest to the one that was taken.
    pub fn solved(&self, setting: SettingId, taken: Amount) -> (Vec<Used>, Vec<Trial>) {
        let own = place(setting);
        let used = self.used.borrow();
        let used = once(used.iter().filter(|(of, _)| *of == own).map(|(_, used)| used.clone()));
        let tried = self.tried.borrow();
        let tried = tried.iter().filter(|(of, _)| *of == own).map(|(_, trial)| trial);
        (used, tried::nearest(tried, taken))
    }

    /// A draw took a value from a fact.
    #[cold]
    pub fn took<Q: Kind>(&self, input: &Parameter<Q>, corner: Corner, value: Q) {
        let (span, from) = match input.fact {
            Fact::Known(interval, said) => (Some(interval), From::Stated(said)),
            Fact::Assumed(interval) => (Some(interval), input.assumption.map_or(From::Practice, From::Assumed)),
            Fact::Missing => (None, From::Missing),
        };
        let span = span.map(|interval| (Amount::of(interval.low), Amount::of(interval.high)));
        let (likely, worst) = match (input.fact, corner) {
            (Fact::Missing, _) => (None, None),
            (_, Corner::Likely) => (Some(Amount::of(value)), None),
            _ => (None, Some(Amount::of(value))),
        };
        self.figure(What::Fact(input.id, input.aspect), from, span, likely, worst);
    }

    /// A figure was worked out.
    #[cold]
    pub fn worked(&self, worked: Worked, corner: Corner, value: Amount) {
        let (likely, worst) = if corner == Corner::Likely { (Some(value), None) } else { (None, Some(value)) };
        self.figure(What::Worked(worked), From::Worked, None, likely, worst);
    }

    /// A question without figures looked at a fact.
    #[cold]
    pub fn saw(&self, id: FactId, stated: &impl Visible) {
        self.looked_at(What::Fact(id, Aspect::Itself), stated.seen());
    }

    /// A question without figures looked at something that has no name among the facts.
    #[cold]
    pub fn saw_context(&self, besides: Context, stated: &impl Visible) {
        self.looked_at(What::Context(besides), stated.seen());
    }

    fn looked_at(&self, what: What, Seen { value, from }: Seen) {
        let entry = (self.question.get(), Used { what, value, from });
        let mut used = self.used.borrow_mut();
        if !used.contains(&entry) {
            used.push(entry);
        }
    }

    fn figure(
        &self,
        what: What,
        from: From,
        span: Option<(Amount, Amount)>,
        likely: Option<Amount>,
        worst: Option<Amount>,
    ) {
        let question = self.question.get();
        let mut used = self.used.borrow_mut();
        let known = used.iter_mut().find_map(|(of, known)| match &mut known.value {
            Value::Figure { likely, worst, span: other } => {
                let same = *of == question && known.what == what && known.from == from && *other == span;
                same.then_some((likely, worst))
            }
            _ => None,
        });
        if let Some((known_likely, known_worst)) = known {
            *known_likely = known_likely.or(likely);
            if let Some(worst) = worst.filter(|worst| !known_worst.contains(worst)) {
                known_worst.push(worst);
            }
        } else {
            used.push((
                question,
                Used { what, value: Value::Figure { likely, worst: worst.into_iter().collect(), span }, from },
            ));
        }
    }

    /// Everything that was heard, once each.
    pub fn all(&self) -> Vec<Used> {
        once(self.used.borrow().iter().map(|(_, used)| used.clone()))
    }

    /// What the question that stands for a check was judged by, and what was looked at outside of all questions.
    pub fn behind(&self, check: &Check) -> Vec<Used> {
        let judged = self.judged.borrow();
        let same = |(_, other): &&(usize, Check)| {
            (other.bound, other.value, other.worst, other.limit) == (check.bound, check.value, check.worst, check.limit)
        };
        let like = |(_, other): &&(usize, Check)| (other.bound, other.limit) == (check.bound, check.limit);
        let told = check.bound.and_then(|_| judged.iter().find(same).or_else(|| judged.iter().find(like)));
        let question = told.map_or(OUTSIDE, |(question, _)| *question);
        let all = self.used.borrow();
        let of = |wanted: usize| all.iter().filter(move |(of, _)| *of == wanted).map(|(_, used)| used.clone());
        let mut used: Vec<Used> = of(question).collect();
        used.extend(of(OUTSIDE).filter(|_| question != OUTSIDE));
        // Of several questions one stands for all, with what the others wait for; what else they assume did not make its figures.
        let told = |used: &Used| match (used.what, used.from) {
            (What::Fact(id, _), From::Missing | From::Assumed(_)) => {
                check.missing.iter().any(|missing| missing.fact == id)
            }
            _ => false,
        };
        used.extend(all.iter().map(|(_, used)| used).filter(|used| told(used)).cloned());
        if used.is_empty() {
            used = all.iter().map(|(_, used)| used.clone()).collect();
        }
        once(used)
    }
}

fn once(used: impl IntoIterator<Item = Used>) -> Vec<Used> {
    let mut kept: Vec<Used> = Vec::new();
    for entry in used {
        if !kept.contains(&entry) {
            kept.push(entry);
        }
    }
    kept
}
