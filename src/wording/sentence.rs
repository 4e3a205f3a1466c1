//! The one plain sentence of a pairing, and the short line of a list.

use super::{Words, counted};
use crate::pairing::{Because, Check, CheckId, Class, Outcome, Pairing, Reason, Verdict};
use crate::quantity::Named;

impl Words<'_> {
    /// What a good salesperson would say first.
    pub fn sentence(&self, pairing: &Pairing) -> String {
        match pairing.verdict {
            Verdict::Fits => self.fits(pairing),
            Verdict::FitsAfterChanges => {
                let changes = counted(pairing.changes.len(), "change", "changes");
                // Where nothing fails and something is only not known, reading it may make the changes unnecessary.
                let fails = pairing.checks.iter().any(|check| check.outcome == Outcome::NotMet);
                let today = if fails { "Does not fit today; fits" } else { "Cannot be said today; fits for certain" };
                format!("{today} after {changes}. {}{}", self.today(pairing), self.left_to_prove(pairing))
            }
            Verdict::CannotSay => self.cannot_say(pairing),
            Verdict::DoesNotFit => {
                let failing = pairing.unmendable.first().and_then(|id| pairing.checks.iter().find(|c| c.id == *id));
                let reason = failing.map_or_else(String::new, |check| self.reason(check));
                format!("Does not fit. {reason}")
            }
        }
    }

    /// A check that no change can mend, by name; of the weight it says which way.
    fn failing(&self, pairing: &Pairing, id: CheckId) -> String {
        let reason = pairing.checks.iter().find(|check| check.id == id).map(|check| &check.reason);
        match reason {
            Some(Reason::Beyond { because: Because::TooLight }) => "machine too light".to_owned(),
            Some(Reason::Beyond { because: Because::TooHeavy }) => "machine too heavy".to_owned(),
            _ => self.check_title(id).to_lowercase(),
        }
    }

    fn fits(&self, pairing: &Pairing) -> String {
        let check = |id: CheckId| pairing.checks.iter().find(|check| check.id == id);
        let tightest = pairing.tightest.and_then(|tightest| check(tightest.check));
        let reason = tightest.map_or_else(String::new, |check| {
            format!(" Tightest is {}: {}", self.check_title(check.id).to_lowercase(), lower(&self.reason(check)))
        });
        format!("Fits as it is.{reason}{}", self.left_to_prove(pairing))
    }

    /// What stands in the way today: the worst failing check in full, the others by name.
    fn today(&self, pairing: &Pairing) -> String {
        let mut failing: Vec<_> = pairing.checks.iter().filter(|check| check.fails()).collect();
        failing.sort_by(|a, b| badness(a).total_cmp(&badness(b)));
        // Two in full, so that a plain no is followed by a number; the others by name.
        let (told, others) = failing.split_at(failing.len().min(2));
        let reason = |check: &&&Check| match check.outcome {
            Outcome::NotKnown => {
                format!("Open today is {}: {}", self.check_title(check.id).to_lowercase(), lower(&self.reason(check)))
            }
            Outcome::NotMet | Outcome::Met => self.reason(check),
        };
        let mut sentences: Vec<_> = told.iter().map(|check| reason(&check)).collect();
        let titles: Vec<_> = others.iter().map(|check| self.check_title(check.id).to_lowercase()).collect();
        let titles: Vec<_> = titles.iter().map(String::as_str).collect();
        if !titles.is_empty() {
            sentences.push(format!("Also in the way: {}.", super::reasons::list(&titles)));
        }
        sentences.join(" ")
    }

    /// What is open although it fits, by name, and how much there is to prove. What only costs work may be proved at work; what
    /// can hurt somebody or destroy a part comes before.
    fn left_to_prove(&self, pairing: &Pairing) -> String {
        let named = |of_work: bool| {
            let open = pairing.final_checks().iter().filter(|check| check.outcome == Outcome::NotKnown);
            let open = open.filter(|check| (check.class == Class::Work) == of_work);
            open.map(|check| self.check_title(check.id).to_lowercase()).collect::<Vec<_>>()
        };
        let listed = |names: &[String]| {
            let titles: Vec<_> = names.iter().map(String::as_str).collect();
            super::reasons::list(&titles)
        };
        let (before, at_work) = (named(false), named(true));
        let part = |names: &[String], text: &str| {
            if names.is_empty() { String::new() } else { format!(" {text}: {}.", listed(names)) }
        };
        let told = part(&before, "Prove before any work") + &part(&at_work, "Prove in the first half hour of work");
        match pairing.to_prove.len() {
            0 => told,
            count => format!("{told} {} to prove at the hand-over.", counted(count, "point is", "points are")),
        }
    }

    fn cannot_say(&self, pairing: &Pairing) -> String {
        let mut facts = Vec::new();
        for missing in pairing.final_checks().iter().filter(|check| check.fails()).flat_map(|check| &check.missing) {
            if !facts.iter().any(|known: &&crate::pairing::Missing| known.fact == missing.fact) {
                facts.push(missing);
            }
        }
        let Some(first) = facts.first() else { return "Cannot say yet.".to_owned() };
        let text = self.missing(first);
        let holds = text.holds.map_or_else(String::new, |holds| format!("; {holds}"));
        let with = match pairing.changes.len() {
            0 => String::new(),
            count => format!("It would need {} at least. ", counted(count, "change", "changes")),
        };
        match facts.len() {
            1 => format!("Cannot say yet. {with}One thing to find out: {}{holds}.", text.what),
            count => {
                let second = self.missing(facts[1]).what;
                let more = if count > 2 { format!(" and {} more", count - 2) } else { String::new() };
                format!("Cannot say yet. {with}To find out: {}{holds}; {second}{more}.", text.what)
            }
        }
    }

    /// How many pairings have each verdict: `fits as it is 4 · does not fit 12`.
    pub fn tally(&self, verdicts: &[Verdict]) -> String {
        let count = |wanted: Verdict| verdicts.iter().filter(|verdict| **verdict == wanted).count();
        let named = Verdict::ALL.iter().filter(|verdict| count(**verdict) > 0);
        // Kept together on a narrow screen: a count must not leave its verdict.
        let part = |verdict: &Verdict| format!("{} {}", self.verdict(*verdict), count(*verdict)).replace(' ', "\u{a0}");
        named.map(part).collect::<Vec<_>>().join(" · ")
    }

    /// A short line for a row of a list.
    pub fn row(&self, pairing: &Pairing) -> String {
        let mut parts = Vec::new();
        match pairing.verdict {
            Verdict::FitsAfterChanges => {
                parts.push(counted(pairing.changes.len(), "change", "changes"));
                parts.push(self.cost(&pairing.cost));
            }
            Verdict::DoesNotFit => {
                let named: Vec<_> = pairing.unmendable.iter().map(|id| self.failing(pairing, *id)).collect();
                let named: Vec<_> = named.iter().map(String::as_str).collect();
                return format!("fails: {}", super::reasons::list(&named));
            }
            Verdict::CannotSay => {
                let open = pairing.final_checks().iter().filter(|check| check.fails()).count();
                parts.push(format!("{} open", counted(open, "check", "checks")));
                if !pairing.changes.is_empty() {
                    parts.push(format!("{} at least", counted(pairing.changes.len(), "change", "changes")));
                }
                let first = pairing.final_checks().iter().find(|check| check.fails()).and_then(|c| c.missing.first());
                parts.extend(first.map(|missing| format!("find out first: {}", self.fact(missing.fact))));
                return parts.join(" · ");
            }
            Verdict::Fits => {}
        }
        if let Some(tightest) = pairing.tightest {
            let title = self.check_title(tightest.check).to_lowercase();
            let bound = pairing.final_checks().iter().find(|c| c.id == tightest.check).and_then(|check| check.bound);
            parts.push(format!("{title} {}", self.margin(tightest.margin, bound)));
        }
        if !pairing.to_prove.is_empty() {
            parts.push(format!("{} to prove", pairing.to_prove.len()));
        }
        parts.join(" · ")
    }

    /// What to do with cold oil, when there is something to do.
    pub fn warm_up(&self, pairing: &Pairing) -> Option<String> {
        let from = self.amount(pairing.warm_up?);
        Some(format!("Let the machine idle until its oil reads {from}; only then full speed."))
    }
}

/// How badly a check fails, worst first: what certainly fails by its margin, a plain no like one limit overrun, then what
/// is open.
fn badness(check: &Check) -> f64 {
    match (check.outcome, check.margin) {
        (Outcome::NotMet, margin) => margin.unwrap_or(-1.0) - 1000.0,
        (_, margin) => margin.unwrap_or(-1.0),
    }
}

fn lower(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}
