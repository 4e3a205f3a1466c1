//! What helps where nothing can be said yet, in words.

use super::{Words, counted, small};
use explain::deciding_fact::{Consequence, DecidingFact, Decision};
use fit::{Bound, Change, CheckId, FactId, Verdict};

/// The fact to find out first, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SettlingText {
    /// What to find out.
    pub first: String,
    /// Where it is read or measured.
    pub place: String,
    /// What is said on either side, a sentence each.
    pub turns: Vec<String>,
    /// How much else is to be found out.
    pub more: Option<String>,
    /// Each of that, with its place.
    pub others: Vec<String>,
}

impl Words<'_> {
    /// The fact to find out first.
    pub fn settling(&self, settling: &DecidingFact) -> SettlingText {
        let what = self.fact(settling.fact);
        let first = if settling.fact.is_figure() { "Read one figure first" } else { "Find out one thing first" };
        let turns = settling
            .decision
            .as_ref()
            .map(|decision| self.decision(decision, settling.fact, &settling.checks))
            .unwrap_or_default();
        let more = match settling.others.len() {
            0 => None,
            count => Some(format!("Consequence {} to find out", counted(count, "more thing is", "more things are"))),
        };
        let other = |&fact: &_| format!("{}: {}", super::capital(self.fact(fact)), self.place(fact));
        SettlingText {
            first: format!("{first}: {what} ({}).", self.found_by(settling.fact.found_by())),
            place: format!("Where: {}.", self.place(settling.fact)),
            turns,
            more,
            others: settling.others.iter().map(other).collect(),
        }
    }

    /// What stands there while it is worked out what the fact decides.
    pub fn working_it_out(&self) -> &'static str {
        "Working out what it decides …"
    }

    fn decision(&self, decision: &Decision, fact: FactId, checks: &[CheckId]) -> Vec<String> {
        let (side, good, other_side, otherwise) = match decision {
            Decision::At { bound, value, until, good, otherwise } => {
                let value = self.limit(*value, Some(*bound));
                let until = until
                    .map(|until| if *bound == Bound::AtLeast { self.at_most(until) } else { self.at_least(until) });
                let side = match (bound, until) {
                    (Bound::AtLeast, None) => format!("Read as {value} or more"),
                    (Bound::AtMost, None) => format!("Read as {value} or less"),
                    (Bound::AtLeast, Some(until)) => format!("Read as {value} to {until}"),
                    (Bound::AtMost, Some(until)) => format!("Read as {until} to {value}"),
                };
                let other = if *bound == Bound::AtLeast { "Just below that" } else { "Just above that" };
                (side, good, other, otherwise)
            }
            Decision::By { good_when, good, otherwise } => {
                let (side, other) = (self.answer(fact, *good_when), self.answer(fact, !good_when));
                (side.to_owned(), good, other, otherwise)
            }
        };
        vec![
            format!("{side}, {}.", self.consequence(good, None, checks)),
            format!("{other_side} {}.", self.consequence(otherwise, Some(good), checks)),
        ]
    }

    /// What is said on one side; `good` is the other one, where this is the worse.
    fn consequence(&self, then: &Consequence, good: Option<&Consequence>, checks: &[CheckId]) -> String {
        let (title, are) = (self.named_checks(checks), if checks.len() == 1 { "is" } else { "are" });
        let known = |change: &&Change| good.is_none_or(|good| !good.changes.iter().any(|known| known.id == change.id));
        let titles = |changes: &[&Change]| {
            let named: Vec<_> = changes.iter().map(|change| small(&self.change_title(change))).collect();
            let named: Vec<_> = named.iter().map(String::as_str).collect();
            super::reasons::list(&named)
        };
        let more: Vec<&Change> = then.changes.iter().filter(known).collect();
        match then.verdict {
            Verdict::Fits => "it fits as it is".to_owned(),
            Verdict::FitsAfterChanges => {
                let all: Vec<&Change> = then.changes.iter().collect();
                let changes = counted(all.len(), "change", "changes");
                format!("it fits after {changes} ({}): {}", self.cost(&then.cost), titles(&all))
            }
            Verdict::DoesNotFit => format!("it does not fit: {}", self.named_checks(&then.unmendable)),
            Verdict::CannotSay if let Some(incomplete) = then.incomplete => {
                format!("it cannot be said yet: {}", self.incomplete(incomplete))
            }
            Verdict::CannotSay if good.is_none() => format!("{title} {are} settled"),
            Verdict::CannotSay if !more.is_empty() => format!("it needs besides: {}", titles(&more)),
            Verdict::CannotSay => format!("not all of it is met: {title}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::PlainNumbers;
    use crate::yard::paired;
    use explain::deciding_fact::settles;
    use fit::Conditions;
    use quantity::UnitSystem;
    use table::read;

    #[test]
    fn every_fact_to_find_out_first_is_told_with_its_place_and_its_two_sides() {
        let words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };
        let table = read(include_str!("../../../public/table/demo.json")).table.expect("the demo table");
        let conditions = Conditions::of_table(&table);
        let mut told = 0;
        for carrier in &table.carriers {
            for head in table.heads.iter().step_by(16) {
                let pairing = paired(carrier, head);
                let Some(settling) = settles(carrier, head, &conditions, pairing) else { continue };
                let text = words.settling(&settling);
                assert!(text.first.contains(words.fact(settling.fact)) && text.place.len() > 10, "{text:?}");
                assert_eq!(text.turns.len(), if settling.decision.is_some() { 2 } else { 0 }, "{text:?}");
                assert_eq!(text.more.is_some(), !text.others.is_empty(), "{text:?}");
                for turn in &text.turns {
                    assert!(turn.ends_with('.') && !turn.ends_with(": ."), "{turn}");
                }
                if let Some(Decision::At { value, .. }) = settling.decision {
                    assert!(text.turns[0].contains(&words.amount(value)), "{text:?}");
                }
                told += 1;
            }
        }
        assert!(told > 5, "{told}");
    }
}
