//! From what a rule finds to a judged check: the one place where a question is answered.

use super::question::{Asked, Estimate, Finding, Findings};
use super::sample::{Corner, Sample};
use super::trace::Trace;
use super::{Bound, Check, CheckId, Class, FactId, Missing, Outcome, Reason, Threshold};
use quantity::{Until, halved};
use table::AssumptionId;

/// The check that findings make, with all that people read: what it rests on, what would decide it and from which value on. A trace
/// keeps what it took.
///
/// *Met* when it holds over everything known and assumed, *not met* when it fails even with what is assumed or missing at its best,
/// else *not known* with the facts that decide. A question of safety is never met on an assumed value.
pub fn whole(findings: Findings, trace: Option<&Trace>) -> Option<Check> {
    judged(findings, |asked| match trace {
        Some(trace) => trace.question(|| asked.whole(Some(trace))),
        None => asked.whole(None),
    })
}

/// How findings come out, and no more: for the hundreds of machines that a search tries. Many times as quick.
pub fn outcome(findings: Findings) -> Option<Check> {
    judged(findings, Asked::outcome)
}

fn judged<'f>(mut findings: Findings<'f>, judge: impl Fn(&Asked<'f>) -> Check) -> Option<Check> {
    let check = |finding| match finding {
        Finding::Settled(check) => Some(check),
        Finding::Asked(asked) => (asked.told)(judge(&asked)),
    };
    if findings.len() == 1 {
        return findings.pop().and_then(check);
    }
    let checks: Vec<Check> = findings.into_iter().filter_map(check).collect();
    (!checks.is_empty()).then(|| worst_of(checks))
}

impl Asked<'_> {
    fn whole(&self, trace: Option<&Trace>) -> Check {
        let Self { question, formula, .. } = self;
        let read = |sample: &Sample| formula(sample, Estimate::Exact);
        let likely_sample = Sample::traced(Corner::Likely, trace);
        let likely = read(&likely_sample);
        let worst_sample = Sample::traced(Corner::Worst, trace);
        let worst = read(&worst_sample);
        let (assumed, missing) = (worst_sample.assumed(), worst_sample.missing());
        let best = read(&Sample::brief(Corner::Best));
        let mut check = Check {
            id: question.id,
            class: question.class,
            outcome: Outcome::Met,
            blocks: question.blocks,
            value: likely_sample.missing().is_empty().then_some(likely.value),
            worst: missing.is_empty().then_some(worst.value),
            limit: Some(worst.limit),
            bound: Some(question.bound),
            margin: missing.is_empty().then(|| question.margin(&worst)),
            reason: Reason::Within,
            missing: Vec::new(),
            assumed: Vec::new(),
        };
        let mut helped: Vec<Helped> = Vec::new();
        for &(fact, assumption) in &assumed {
            let by = helped.iter().find(|known| known.fact == fact).copied().unwrap_or_else(|| {
                let reading = read(&Sample::brief(Corner::OneBest(fact)));
                let gained = question.margin(&reading) - question.margin(&worst);
                let by = Helped { fact, alone: question.holds(&reading), gained };
                helped.push(by);
                by
            });
            // A figure that hardly moves the answer is not what it rests on.
            if by.gained.abs() > 1e-3 && !check.assumed.contains(&assumption) {
                check.assumed.push(assumption);
            }
        }
        if !question.holds(&best) {
            check.outcome = Outcome::NotMet;
            // With a fact missing the worst corner says nothing: show the best one, which fails already.
            let shown = if missing.is_empty() { worst } else { best };
            check.worst = Some(shown.value);
            check.limit = Some(shown.limit);
            check.margin = Some(question.margin(&shown));
            check.reason = Reason::Beyond { because: shown.because };
        } else if !missing.is_empty() {
            check.outcome = Outcome::NotKnown;
            check.reason = Reason::FactMissing;
            let single = missing.len() == 1;
            check.missing = missing
                .iter()
                .map(|&fact| Missing { fact, holds: if single { self.threshold(fact) } else { None } })
                .collect();
            // There is no limit to show where it is what is missing.
            check.limit = check.limit.filter(|_| !missing.iter().any(|fact| fact.is_limit()));
        } else if !question.holds(&worst) {
            check.outcome = Outcome::NotKnown;
            check.reason = Reason::Undecided { because: worst.because };
            check.missing = self.deciding(helped);
        } else if question.class == Class::Safety && !assumed.is_empty() {
            check.outcome = Outcome::NotKnown;
            check.reason = Reason::Undecided { because: worst.because };
            check.missing = assumed.iter().map(|&(fact, _)| Missing { fact, holds: None }).collect();
        }
        check
    }

    /// The worst corner mostly says it: the best one is asked only where that fails.
    fn outcome(&self) -> Check {
        let Self { question, formula, .. } = self;
        let sample = Sample::brief(Corner::Worst);
        let worst = formula(&sample, Estimate::Quick);
        let known = !sample.lacks();
        let holds = known && question.holds(&worst);
        let (outcome, reason) = if holds && (question.class != Class::Safety || !sample.assumes()) {
            (Outcome::Met, Reason::Within)
        } else if !holds && !question.holds(&formula(&Sample::brief(Corner::Best), Estimate::Quick)) {
            (Outcome::NotMet, Reason::Beyond { because: worst.because })
        } else if known {
            (Outcome::NotKnown, Reason::Undecided { because: worst.because })
        } else {
            (Outcome::NotKnown, Reason::FactMissing)
        };
        Check {
            blocks: question.blocks,
            bound: Some(question.bound),
            margin: known.then(|| question.margin(&worst)),
            ..yes_no(question.id, question.class, outcome, reason, &[])
        }
    }

    /// The assumed facts that decide: first those that alone, at their best, make the check hold; then those that help.
    fn deciding(&self, mut facts: Vec<Helped>) -> Vec<Missing> {
        facts.retain(|by| by.gained > 1e-6);
        facts.sort_by(|a, b| b.alone.cmp(&a.alone).then_with(|| b.gained.total_cmp(&a.gained)));
        // Only one that alone decides has a value from which it holds.
        let threshold = |index, by: &Helped| if index == 0 && by.alone { self.threshold(by.fact) } else { None };
        let missing = |(index, by): (usize, &Helped)| Missing { fact: by.fact, holds: threshold(index, by) };
        facts.iter().enumerate().map(missing).collect()
    }

    /// The value of a single missing fact from which the check holds, by bisection over what nature allows. None when it
    /// never or always holds, or when the fact is not one figure.
    fn threshold(&self, fact: FactId) -> Option<Threshold> {
        let (low, high, amount) = fact.scale()?;
        let sample = |value: f64| Sample::brief(Corner::OneAt(fact, value));
        let holds = |value: f64| self.question.holds(&(self.formula)(&sample(value), Estimate::Exact));
        // Far from where it turns the quick form is on the same side.
        let holds_quickly = |value: f64| self.question.holds(&(self.formula)(&sample(value), Estimate::Quick));
        let (at_low, at_high) = (holds(low), holds(high));
        if at_low == at_high {
            return None;
        }
        let ends = if at_high { (low, high) } else { (high, low) };
        let near = halved(ends, Until::Rounds(30), holds_quickly);
        let (_, good) = halved(near, Until::Rounds(30), holds);
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
