//! What a judgement went by: every fact that was taken and every figure that was worked out on the way.
//!
//! Nothing here is listed by hand. A check, point, figure or setting is worked out once more, for whoever asks, on facts that keep a
//! [`Trace`]; an ordinary answer knows nothing of it and is no slower. What comes of it is a value: its inputs go with it.

mod input;
mod tried;
mod visible;

pub use input::{Aspect, Context, InputRecord, Origin, Value, What, Worked};
pub use tried::{Against, Trial, nearest};
pub use visible::{Counted, Ends, Given, Seen, Visible};

use crate::Check;
use crate::parameter::Parameter;
use quantity::{Amount, Fact, Quantity};
use std::cell::{Cell, RefCell};

/// The section of all that belongs to no question and no setting.
const OUTSIDE: usize = 0;

/// Keeps what is taken while something is judged or solved, each in the section of its question or setting. Hardly anything is
/// traced: what notes it is kept out of the way of all the rest.
#[derive(Debug, Default, PartialEq)]
pub struct Trace {
    records: RefCell<Vec<(usize, InputRecord)>>,
    judged: RefCell<Vec<(usize, Check)>>,
    section: Cell<usize>,
    opened: Cell<usize>,
}

impl Trace {
    /// What something comes to, with a section of its own for what it takes.
    fn in_section<T>(&self, work: impl FnOnce() -> T) -> (T, usize) {
        self.opened.set(self.opened.get() + 1);
        let before = self.section.replace(self.opened.get());
        let value = work();
        (value, self.section.replace(before))
    }

    /// What something comes to, with what it took.
    pub fn section<T>(&self, work: impl FnOnce() -> T) -> (T, Vec<InputRecord>) {
        let (value, own) = self.in_section(work);
        let records = self.records.borrow();
        (value, once(records.iter().filter(|(of, _)| *of == own).map(|(_, record)| record.clone())))
    }

    /// A question as it is judged.
    pub fn question(&self, judge: impl FnOnce() -> Check) -> Check {
        let (check, own) = self.in_section(judge);
        self.judged.borrow_mut().push((own, check.clone()));
        check
    }

    /// A sample took a value from a fact.
    #[cold]
    pub fn took<Q: Quantity>(&self, parameter: &Parameter<Q>, is_likely: bool, value: Q) {
        let (span, origin) = match parameter.fact {
            Fact::Known(interval, said) => (Some(interval), Origin::Stated(said)),
            Fact::Assumed(interval) => (Some(interval), parameter.assumption.map_or(Origin::Practice, Origin::Assumed)),
            Fact::Missing => (None, Origin::Missing),
        };
        let span = span.map(|interval| (Amount::of(interval.low), Amount::of(interval.high)));
        let value = (parameter.fact != Fact::Missing).then(|| Amount::of(value));
        self.figure(What::Fact(parameter.id, parameter.aspect), origin, span, is_likely, value);
    }

    /// A figure was worked out.
    #[cold]
    pub fn worked(&self, worked: Worked, is_likely: bool, value: Amount) {
        self.figure(What::Worked(worked), Origin::Worked, None, is_likely, Some(value));
    }

    /// A question without figures looked at something.
    #[cold]
    pub fn read(&self, what: What, stated: &impl Visible) {
        let entry = (self.section.get(), InputRecord::of(what, stated));
        let mut records = self.records.borrow_mut();
        if !records.contains(&entry) {
            records.push(entry);
        }
    }

    fn figure(
        &self,
        what: What,
        origin: Origin,
        span: Option<(Amount, Amount)>,
        is_likely: bool,
        value: Option<Amount>,
    ) {
        let (likely, worst) = if is_likely { (value, None) } else { (None, value) };
        let section = self.section.get();
        let mut records = self.records.borrow_mut();
        let known = records.iter_mut().find_map(|(of, known)| match &mut known.value {
            Value::Figure { likely, worst, span: other } => {
                let same = *of == section && known.what == what && known.origin == origin && *other == span;
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
            let value = Value::Figure { likely, worst: worst.into_iter().collect(), span };
            records.push((section, InputRecord { what, value, origin }));
        }
    }

    /// Everything that was taken, once each.
    pub fn all(&self) -> Vec<InputRecord> {
        once(self.records.borrow().iter().map(|(_, record)| record.clone()))
    }

    /// What the question that stands for a check was judged by, and what was looked at outside of all questions.
    pub fn behind(&self, check: &Check) -> Vec<InputRecord> {
        let judged = self.judged.borrow();
        let same = |(_, other): &&(usize, Check)| {
            (other.bound, other.value, other.worst, other.limit) == (check.bound, check.value, check.worst, check.limit)
        };
        let like = |(_, other): &&(usize, Check)| (other.bound, other.limit) == (check.bound, check.limit);
        let told = check.bound.and_then(|_| judged.iter().find(same).or_else(|| judged.iter().find(like)));
        let question = told.map_or(OUTSIDE, |(question, _)| *question);
        let all = self.records.borrow();
        let of = |wanted: usize| all.iter().filter(move |(of, _)| *of == wanted).map(|(_, record)| record.clone());
        let mut records: Vec<InputRecord> = of(question).collect();
        records.extend(of(OUTSIDE).filter(|_| question != OUTSIDE));
        // Of several questions one stands for all, with what the others wait for; what else they assume did not make its figures.
        let told = |record: &InputRecord| match (record.what, record.origin) {
            (What::Fact(id, _), Origin::Missing | Origin::Assumed(_)) => {
                check.missing.iter().any(|missing| missing.fact == id)
            }
            _ => false,
        };
        records.extend(all.iter().map(|(_, record)| record).filter(|record| told(record)).cloned());
        if records.is_empty() {
            return self.all();
        }
        once(records)
    }
}

/// Each entry once, where it comes first.
pub fn once(records: impl IntoIterator<Item = InputRecord>) -> Vec<InputRecord> {
    let mut kept: Vec<InputRecord> = Vec::new();
    for entry in records {
        if !kept.contains(&entry) {
            kept.push(entry);
        }
    }
    kept
}
