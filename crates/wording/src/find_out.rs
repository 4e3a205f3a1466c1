//! What is found out before money is spent, what is certain without it, and what either answer comes to.

use std::iter;

use super::{Words, capital, counted};
use fit::{Bound, Branch, Branches, Cost, FactId, FindOut, FoundBy, Pairing, Verdict, When};
use table::ChangeId;

impl Words<'_> {
    /// How something is found out, and how long that takes.
    pub fn found_by(&self, by: FoundBy) -> String {
        let (how, time) = match by {
            FoundBy::Plate => ("read it off, or look", None),
            FoundBy::Tape => ("tape or scale", None),
            FoundBy::Gauge => ("gauge at a test port", None),
            FoundBy::FlowTester => ("flow tester", None),
            FoundBy::Maker => ("ask its maker", Some("a day")),
        };
        let time = time.map_or_else(|| self.duration(by.minutes()), str::to_owned);
        format!("{how}, {time}")
    }

    /// Something to find out with how: `the relief's override (gauge at a test port, 30 min)`.
    pub fn find_out(&self, find: &FindOut) -> String {
        format!("{} ({})", self.fact(find.fact), self.found_by(find.by))
    }

    /// What it comes to where finding out spares what only settles a doubt.
    pub(super) fn may_come_to(&self, cost: &Cost) -> String {
        if cost.changes == 0 {
            return "it may fit as it is".to_owned();
        }
        format!("it may come to {}", self.cost(cost))
    }

    /// Changes by their names, in a row.
    pub fn named_changes(&self, ids: &[ChangeId]) -> String {
        let names: Vec<_> = ids.iter().map(|id| self.change_name(*id)).collect();
        super::reasons::list(&names)
    }

    /// What may spare changes that only settle a doubt, and what the others cost then; none where every change is certain.
    pub fn doubts(&self, pairing: &Pairing) -> Option<String> {
        if pairing.verdict != Verdict::FitsAfterChanges || pairing.find_out.is_empty() {
            return None;
        }
        let one =
            |find: &FindOut| format!("{}; it may spare {}", self.find_out(find), self.named_changes(&find.may_spare));
        let told: Vec<_> = pairing.find_out.iter().map(one).collect();
        let then = pairing.cost_without_doubts.as_ref().map_or_else(String::new, |cost| {
            let all = if told.len() == 1 { "where it does" } else { "where all of it does" };
            let less = if cost.changes == 0 { "nothing".to_owned() } else { self.cost(cost) };
            format!(" {}: {less} instead of {}.", capital(all), self.cost(&pairing.cost))
        });
        // One that comes before the others begins the sentence; each of them is a sentence of its own.
        let (first, more) = told.split_first()?;
        let sentences: Vec<_> = iter::once(first.clone()).chain(more.iter().map(|one| capital(one))).collect();
        Some(format!("Find out first: {}.{then}", sentences.join(". ")))
    }

    /// The changes that are certain although nothing can be said yet; none where no change is.
    pub fn certain(&self, pairing: &Pairing) -> Option<String> {
        let ids: Vec<_> = pairing.changes.iter().map(|change| change.id).collect();
        let certain = pairing.verdict == Verdict::CannotSay && !ids.is_empty();
        certain.then(|| format!("It needs {}, whatever else comes out", self.named_changes(&ids)))
    }

    /// What either answer to the first question comes to, a sentence each.
    pub fn branches(&self, branches: &Branches) -> Vec<String> {
        branches
            .either
            .iter()
            .map(|branch| format!("{}: {}.", self.when(branches.fact, branch.when), self.branch(branch)))
            .collect()
    }

    /// One of both answers to what is a yes or no.
    pub(super) fn answer(&self, fact: FactId, yes: bool) -> &'static str {
        match (fact, yes) {
            (FactId::FedFrom, true) => "From a valve of the machine",
            (FactId::FedFrom, false) => "From the pumps' line, ahead of the valves",
            (_, true) => "If it is so",
            (_, false) => "If not",
        }
    }

    fn when(&self, fact: FactId, when: When) -> String {
        match when {
            When::Figure { bound: Bound::AtLeast, value, until: None } => format!("{} or more", self.at_least(value)),
            When::Figure { bound: Bound::AtMost, value, until: None } => format!("{} or less", self.at_most(value)),
            When::Figure { bound: Bound::AtLeast, value, until: Some(until) } => {
                format!("{} to {}", self.at_least(value), self.at_most(until))
            }
            When::Figure { bound: Bound::AtMost, value, until: Some(until) } => {
                format!("{} to {}", self.at_least(until), self.at_most(value))
            }
            When::Otherwise { bound: Bound::AtLeast, value } => format!("Just above {}", self.at_most(value)),
            When::Otherwise { bound: Bound::AtMost, value } => format!("Just below {}", self.at_least(value)),
            When::Is(yes) => self.answer(fact, yes).to_owned(),
        }
    }

    fn branch(&self, branch: &Branch) -> String {
        let costs = || format!("{} ({})", self.named_changes(&branch.changes), self.cost(&branch.cost));
        match branch.verdict {
            Verdict::Fits => "it fits as it is".to_owned(),
            Verdict::FitsAfterChanges => {
                format!("it fits after {}: {}", counted(branch.changes.len(), "change", "changes"), costs())
            }
            Verdict::DoesNotFit => format!("it does not fit, for {}", self.named_checks(&branch.unmendable)),
            Verdict::CannotSay => {
                let more = match branch.open.len() {
                    0 => "it cannot be said yet".to_owned(),
                    count => format!("{} to find out", counted(count, "more thing is", "more things are")),
                };
                if branch.changes.is_empty() { more } else { format!("{more}; certain by then: {}", costs()) }
            }
        }
    }
}
