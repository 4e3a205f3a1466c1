//! From a value and a limit that depend on facts to a judged check.

pub use super::question::{Question, Reading};

use super::draw::{Corner, Draw};
use super::trace::Trace;
use super::{Bound, Check, CheckId, Class, FactId, Missing, Outcome, Reason, Threshold};
use quantity::{Amount, Kind};
use table::AssumptionId;

/// How much is told of a check.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Depth<'r> {
    /// How it comes out, and no more: for the hundreds of machines that a search tries.
    Outcome,
    /// Also what it rests on, what would decide it and from which value on: for what people read. It takes many times as
    /// long.
    Whole,
    /// The same, with a trace that hears which facts it was judged by.
    Recorded(&'r Trace),
}

impl<'r> Depth<'r> {
    /// Who listens.
    pub fn trace(self) -> Option<&'r Trace> {
        match self {
            Self::Recorded(trace) => Some(trace),
            Self::Outcome | Self::Whole => None,
        }
    }
}

impl Question {
    /// Judges: *met* when it holds over everything known and assumed, *not met* when it fails even with what is assumed
    /// or missing at its best, else *not known* with the facts that decide. A question of safety is never met on an
    /// assumed value.
    pub fn judge<Q: Kind>(self, depth: Depth, read: impl Fn(&Draw) -> Reading<Q>) -> Check {
        let Some(trace) = depth.trace() else { return self.judged(depth, read) };
        trace.begin();
        let check = self.judged(depth, read);
        trace.end(&check);
        check
    }

    fn judged<Q: Kind>(self, depth: Depth, read: impl Fn(&Draw) -> Reading<Q>) -> Check {
        #[cfg(test)]
        if super::corners::probes(self, &read) {
            return self.outcome(read);
        }
        if depth == Depth::Outcome {
            return self.outcome(read);
        }
        let nominal_draw = Draw::heard(Corner::Likely, depth.trace());
        let nominal = read(&nominal_draw);
        let worst_draw = Draw::heard(Corner::Worst, depth.trace());
        let worst = read(&worst_draw);
        let (assumed, missing) = (worst_draw.assumed(), worst_draw.missing());
        let best = read(&Draw::new(Corner::Best));
        let holds_at_worst = self.holds(&worst);
        let mut check = Check {
            id: self.id,
            class: self.class,
            outcome: Outcome::Met,
            blocks: self.blocks,
            value: nominal_draw.missing().is_empty().then(|| Amount::of(nominal.value)),
            worst: missing.is_empty().then(|| Amount::of(worst.value)),
            limit: Some(Amount::of(worst.limit)),
            bound: Some(self.bound),
            margin: missing.is_empty().then(|| self.margin(&worst)),
            reason: Reason::Within,
            missing: Vec::new(),
            assumed: Vec::new(),
        };
        let mut helped: Vec<Helped> = Vec::new();
        for &(fact, assumption) in &assumed {
            let by = helped.iter().find(|known| known.fact == fact).copied().unwrap_or_else(|| {
                let reading = read(&Draw::new(Corner::OneBest(fact)));
                let gained = self.margin(&reading) - self.margin(&worst);
                let by = Helped { fact, alone: self.holds(&reading), gained };
                helped.push(by);
                by
            });
            // A figure that hardly moves the answer is not what it rests on.
            if by.gained.abs() > 1e-3 && !check.assumed.contains(&assumption) {
                check.assumed.push(assumption);
            }
        }
        if !self.holds(&best) {
            check.outcome = Outcome::NotMet;
            // With a fact missing the worst corner says nothing: show the best one, which fails already.
            let shown = if missing.is_empty() { worst } else { best };
            check.worst = Some(Amount::of(shown.value));
            check.limit = Some(Amount::of(shown.limit));
            check.margin = Some(self.margin(&shown));
            check.reason = Reason::Beyond { because: shown.because };
        } else if !missing.is_empty() {
            check.outcome = Outcome::NotKnown;
            check.reason = Reason::FactMissing;
            let single = missing.len() == 1;
            check.missing = missing
                .iter()
                .map(|&fact| Missing { fact, holds: if single { self.threshold(fact, &read) } else { None } })
                .collect();
            if nominal_limit_unknown(&check, &missing) {
                check.limit = None;
            }
        } else if !holds_at_worst {
            check.outcome = Outcome::NotKnown;
            check.reason = Reason::Undecided { because: worst.because };
            check.missing = self.deciding(helped, &read);
        } else if self.class == Class::Safety && !assumed.is_empty() {
            check.outcome = Outcome::NotKnown;
            check.reason = Reason::Undecided { because: worst.because };
            check.missing = assumed.iter().map(|&(fact, _)| Missing { fact, holds: None }).collect();
        }
        check
    }

    /// How it comes out, and no more. The worst corner mostly says it: the best one is asked only where that fails.
    fn outcome<Q: Kind>(self, read: impl Fn(&Draw) -> Reading<Q>) -> Check {
        let draw = Draw::brief(Corner::Worst);
        let worst = read(&draw);
        let known = !draw.lacks();
        let holds = known && self.holds(&worst);
        let (outcome, reason) = if holds && (self.class != Class::Safety || !draw.assumes()) {
            (Outcome::Met, Reason::Within)
        } else if !holds && !self.holds(&read(&Draw::brief(Corner::Best))) {
            (Outcome::NotMet, Reason::Beyond { because: worst.because })
        } else if known {
            (Outcome::NotKnown, Reason::Undecided { because: worst.because })
        } else {
            (Outcome::NotKnown, Reason::FactMissing)
        };
        Check {
            blocks: self.blocks,
            bound: Some(self.bound),
            margin: known.then(|| self.margin(&worst)),
            ..yes_no(self.id, self.class, outcome, reason, &[])
        }
    }

    /// The assumed facts that decide: first those that alone, at their best, make the check hold; then those that help.
    fn deciding<Q: Kind>(self, mut facts: Vec<Helped>, read: &impl Fn(&Draw) -> Reading<Q>) -> Vec<Missing> {
        facts.retain(|by| by.gained > 1e-6);
        facts.sort_by(|a, b| b.alone.cmp(&a.alone).then_with(|| b.gained.total_cmp(&a.gained)));
        // Only one that alone decides has a value from which it holds.
        let threshold = |index, by: &Helped| if index == 0 && by.alone { self.threshold(by.fact, read) } else { None };
        let missing = |(index, by): (usize, &Helped)| Missing { fact: by.fact, holds: threshold(index, by) };
        facts.iter().enumerate().map(missing).collect()
    }

    /// The value of a single missing fact from which the check holds, by bisection over what nature allows. None when it
    /// never or always holds, or when the fact is not one figure.
    fn threshold<Q: Kind>(self, fact: FactId, read: &impl Fn(&Draw) -> Reading<Q>) -> Option<Threshold> {
        let (low, high, amount) = fact.scale()?;
        let holds = |value: f64| self.holds(&read(&Draw::new(Corner::OneAt(fact, value))));
        let (at_low, at_high) = (holds(low), holds(high));
        if at_low == at_high {
            return None;
        }
        let (mut bad, mut good) = if at_high { (low, high) } else { (high, low) };
        for _ in 0..60 {
            let middle = bad.midpoint(good);
            if holds(middle) {
                good = middle;
            } else {
                bad = middle;
            }
        }
        Some(Threshold { bound: if at_high { Bound::AtLeast } else { Bound::AtMost }, value: amount(good) })
    }
}

/// What an assumed fact at its best does for a check at the worst.
#[derive(Clone, Copy)]
struct Helped {
    fact: FactId,
    /// Whether the check then holds.
    alone: bool,
    /// How much its margin gains.
    gained: f64,
}

/// Whether what is missing is the limit itself, so that there is no limit to show.
fn nominal_limit_unknown(check: &Check, missing: &[FactId]) -> bool {
    check.limit.is_none() || missing.iter().any(|fact| fact.is_limit())
}

/// How closely a value is worked out that may not exceed its limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Estimate {
    /// No less than it is, and quickly.
    UpperBound,
    /// As it is.
    Exact,
}

/// A value with its limit. Where only an outcome is asked, more than it can be is enough as long as that is within the limit.
pub fn no_more_than<Q: Kind>(limit: impl FnOnce() -> Q, depth: Depth, value: impl Fn(Estimate) -> Q) -> (Q, Q) {
    if depth != Depth::Outcome {
        return (value(Estimate::Exact), limit());
    }
    let (most, limit) = (value(Estimate::UpperBound), limit());
    (if most <= limit { most } else { value(Estimate::Exact) }, limit)
}

/// A check that has no figures: yes, no, or nobody knows.
pub fn yes_no(id: CheckId, class: Class, outcome: Outcome, reason: Reason, missing: &[FactId]) -> Check {
    Check {
        id,
        class,
        outcome,
        blocks: true,
        value: None,
        worst: None,
        limit: None,
        bound: None,
        margin: None,
        reason,
        missing: missing.iter().map(|&fact| Missing { fact, holds: None }).collect(),
        assumed: Vec::new(),
    }
}

/// A check for which a fact is missing.
pub fn missing(id: CheckId, class: Class, facts: &[FactId]) -> Check {
    yes_no(id, class, Outcome::NotKnown, Reason::FactMissing, facts)
}

/// A check for which a fact is missing that shows at the hand-over: the verdict does not wait for it.
pub fn to_prove(id: CheckId, class: Class, facts: &[FactId]) -> Check {
    Check { blocks: false, ..missing(id, class, facts) }
}

/// A check without figures that is met by what is usual: marked as assumed, and so never one of safety.
pub fn usual(id: CheckId, class: Class, reason: Reason, assumption: AssumptionId) -> Check {
    debug_assert!(class != Class::Safety, "safety is never met on what is assumed");
    Check { assumed: vec![assumption], ..yes_no(id, class, Outcome::Met, reason, &[]) }
}

/// One check of several questions: the one that came out worst stands for it, with what all of them miss and assume.
///
/// # Panics
/// Never for a non-empty list; an empty one is a programming fault.
pub fn worst_of(mut checks: Vec<Check>) -> Check {
    let rank = |check: &Check| match check.outcome {
        Outcome::NotMet => 0,
        Outcome::NotKnown if check.blocks => 1,
        Outcome::NotKnown => 2,
        Outcome::Met => 3,
    };
    checks.sort_by(|a, b| {
        rank(a)
            .cmp(&rank(b))
            .then_with(|| a.margin.unwrap_or(f64::INFINITY).total_cmp(&b.margin.unwrap_or(f64::INFINITY)))
    });
    let mut all = checks.into_iter();
    let mut first = all.next().expect("a check has at least one question");
    for other in all {
        for assumption in other.assumed {
            if !first.assumed.contains(&assumption) {
                first.assumed.push(assumption);
            }
        }
        if other.outcome == Outcome::NotKnown && first.outcome == Outcome::NotKnown {
            for missing in other.missing {
                if !first.missing.iter().any(|known| known.fact == missing.fact) {
                    first.missing.push(missing);
                }
            }
        }
    }
    first
}
