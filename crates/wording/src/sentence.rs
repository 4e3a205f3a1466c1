//! The one plain sentence of a pairing, and the short line of a list.

use super::parts::{Part, Stage, Telling};
use super::{Words, counted};
use explain::FigureId;
use fit::{Cause, Check, CheckId, Class, Incomplete, Outcome, Pairing, Reason, SettingId, Verdict};
use quantity::{Named, put_in_order};

/// How many failing checks a sentence tells in full: two, so that a plain no is followed by a number.
const IN_FULL: usize = 2;

impl Words<'_> {
    /// What a good salesperson would say first.
    pub fn sentence(&self, pairing: &Pairing) -> String {
        super::parts::whole(&self.sentence_parts(pairing))
    }

    /// The first sentence in pieces: each figure with the check that it belongs to.
    pub fn sentence_parts(&self, pairing: &Pairing) -> Vec<Part> {
        let mut told = Telling::default();
        match pairing.verdict {
            Verdict::Fits => self.fits(pairing, &mut told),
            Verdict::FitsAfterChanges => {
                let changes = counted(pairing.changes.len(), "change", "changes");
                // Where nothing fails and something is only not known, reading it may make the changes unnecessary.
                let fails = pairing.checks.iter().any(|check| check.outcome == Outcome::NotMet);
                let today = if fails { "Does not fit today; fits" } else { "Cannot be said today; fits for certain" };
                let before = self.then_before_work(pairing);
                told.text(&format!("{today} after {changes}{before}. "));
                self.today(pairing, IN_FULL, &mut told);
                told.text(&self.doubts(pairing).map_or_else(String::new, |doubts| format!(" {doubts}")));
                told.text(&self.left_to_prove(pairing));
            }
            Verdict::CannotSay => self.cannot_say(pairing, &mut told),
            Verdict::DoesNotFit => {
                told.text("Does not fit. ");
                self.unfixable(pairing, &mut told);
            }
        }
        told.0
    }

    /// What no change can fix, the plainest reason first.
    pub(super) fn unfixable(&self, pairing: &Pairing, told: &mut Telling) {
        if let (Some(CheckId::Functions), Some(taken)) = (pairing.unmendable.first(), self.taken(pairing)) {
            told.text(&format!("It needs {taken} of all the oil that the pumps give. "));
        }
        let failing = pairing.unmendable.first().and_then(|id| pairing.check(*id));
        told.parts(failing.map(|check| self.reason_parts(check, Stage::AsItIs)).unwrap_or_default());
    }

    /// A check that no change can mend, by name; of the weight it says which way.
    pub(super) fn failing(&self, pairing: &Pairing, id: CheckId) -> String {
        let reason = pairing.check(id).map(|check| &check.reason);
        match reason {
            Some(Reason::Beyond { because: Cause::TooLight }) => "machine too light".to_owned(),
            Some(Reason::Beyond { because: Cause::TooHeavy }) => "machine too heavy".to_owned(),
            _ if id == CheckId::Functions => match self.taken(pairing) {
                Some(taken) => format!("not enough oil for both (the attachment takes {taken})"),
                None => "not enough oil for both".to_owned(),
            },
            _ => self.check_title(id).to_lowercase(),
        }
    }

    /// What the attachment takes of the pumps' oil, from free running to work: `80 to 98 %`.
    fn taken(&self, pairing: &Pairing) -> Option<String> {
        let sharing = pairing.sharing.as_ref()?;
        let percent = |share: quantity::Amount| self.numbers.decimal(share.si() * 100.0, 0);
        let (at_work, free) = (sharing.at_work, sharing.free);
        let (low, high) = if free.si() < at_work.si() { (free, at_work) } else { (at_work, free) };
        let (low, high) = (percent(low), percent(high));
        Some(if low == high { format!("{high} %") } else { format!("{low} to {high} %") })
    }

    /// What is tightest on a machine that fits, behind what stands before it.
    pub(super) fn tightest(&self, pairing: &Pairing, before: &str, told: &mut Telling) {
        if let Some(check) = pairing.tightest.and_then(|tightest| pairing.check(tightest.check)) {
            told.text(&format!("{before}Tightest is {}: ", self.check_title(check.id).to_lowercase()));
            told.parts(lowered(self.reason_parts(check, Stage::AsItIs)));
        }
    }

    fn fits(&self, pairing: &Pairing, told: &mut Telling) {
        told.text(&format!("{}.", super::capital(&self.verdict_of(pairing))));
        self.tightest(pairing, " ", told);
        told.text(&self.left_to_prove(pairing));
    }

    /// What stands in the way today: the worst failing checks in full, as many as are asked for, the others by name.
    pub(super) fn today(&self, pairing: &Pairing, in_full: usize, sentence: &mut Telling) {
        let mut failing: Vec<_> = pairing.checks.iter().filter(|check| check.fails()).collect();
        put_in_order(&mut failing, |a, b| badness(a).total_cmp(&badness(b)));
        let (told, others) = failing.split_at(failing.len().min(in_full));
        for (place, check) in told.iter().enumerate() {
            if place > 0 {
                sentence.text(" ");
            }
            let reason = self.reason_parts(check, Stage::AsItIs);
            if check.outcome == Outcome::NotKnown {
                sentence.text(&format!("Open today is {}: ", self.check_title(check.id).to_lowercase()));
                sentence.parts(lowered(reason));
            } else {
                sentence.parts(reason);
            }
        }
        if !others.is_empty() {
            let others = self.named_checks(others.iter().map(|check| &check.id));
            sentence.text(&format!(" Also in the way: {others}."));
        }
    }

    /// What is open although it fits, by name, and how much there is to prove. What only costs work may be proved at work; what
    /// can hurt somebody or destroy a part comes before.
    fn left_to_prove(&self, pairing: &Pairing) -> String {
        let named = |class: Class| {
            let open = pairing.final_checks().iter().filter(|check| check.outcome == Outcome::NotKnown);
            let open = open.filter(|check| check.class == class);
            open.map(|check| self.check_title(check.id).to_lowercase()).collect::<Vec<_>>()
        };
        let listed = |names: &[String]| {
            let titles: Vec<_> = names.iter().map(String::as_str).collect();
            super::reasons::list(&titles)
        };
        let part = |names: &[String], text: &str| {
            if names.is_empty() { String::new() } else { format!(" {text}: {}.", listed(names)) }
        };
        let told = part(&named(Class::Safety), "Prove before any work, as people are at risk")
            + &part(&named(Class::Damage), "Prove before any work, as parts are at risk")
            + &part(&named(Class::Work), "Prove in the first half hour of work");
        match pairing.to_prove.len() {
            0 => told,
            count => format!("{told} {} to prove at the hand-over.", counted(count, "point is", "points are")),
        }
    }

    fn cannot_say(&self, pairing: &Pairing, told: &mut Telling) {
        if let Some(incomplete) = pairing.incomplete {
            told.text(&format!("Cannot say yet: {}. ", self.incomplete(incomplete)));
            self.today(pairing, IN_FULL, told);
            return;
        }
        told.text("Cannot say yet.");
        told.text(&self.certain(pairing).map_or_else(String::new, |certain| format!(" {certain}.")));
        let Some((first, others)) = pairing.find_out.split_first() else { return };
        told.text(if others.is_empty() { " One thing to find out: " } else { " To find out first: " });
        told.text(&self.find_out(first));
        let threshold = |checks: &[Check]| {
            let missing = |check: &Check| check.missing.iter().find(|missing| missing.fact == first.fact)?.holds;
            first.checks.iter().find_map(|id| Some((*id, missing(checks.iter().find(|check| check.id == *id)?)?)))
        };
        if let Some((check, holds)) = threshold(pairing.open_checks()) {
            told.text("; ");
            let stage = if pairing.checks_after.is_empty() { Stage::AsItIs } else { Stage::AfterChanges };
            let parts = self.holds_parts(holds, check, stage);
            // Of a machine that is not shown no figure opens.
            if threshold(pairing.final_checks()) == Some((check, holds)) {
                told.parts(parts);
            } else {
                told.text(&super::parts::whole(&parts));
            }
        }
        told.text(".");
        if let Some((second, more)) = others.split_first() {
            let more = if more.is_empty() { String::new() } else { format!(" and {} more", more.len()) };
            told.text(&format!(" Then {}{more}.", self.fact(second.fact)));
        }
    }

    /// What was not done that would decide.
    pub fn incomplete(&self, incomplete: Incomplete) -> &'static str {
        match incomplete {
            Incomplete::NotAllSetsTried => "not all sets of changes were tried, and none of those tried fits",
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

    /// What to do with cold oil, when there is something to do.
    pub fn warm_up(&self, pairing: &Pairing) -> Option<String> {
        Some(super::parts::whole(&self.warm_up_parts(pairing)?))
    }

    /// What to do with cold oil, in pieces.
    pub fn warm_up_parts(&self, pairing: &Pairing) -> Option<Vec<Part>> {
        pairing.warm_up?;
        let mut told = Telling::default();
        told.text("Let the machine idle until its oil reads ");
        told.parts(self.full_speed_from(pairing));
        told.text("; only then full speed.");
        Some(told.0)
    }

    /// The oil temperature from which full speed may be asked, which opens; a dash where it may be from cold on.
    pub fn full_speed_from(&self, pairing: &Pairing) -> Vec<Part> {
        let of = FigureId::Setting(None, SettingId::OilTemperature);
        let figure = |from| Part::Figure { text: self.at_least(from), of };
        vec![pairing.warm_up.map_or_else(|| Part::Text("–".to_owned()), figure)]
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

/// The pieces with a small first letter, as they follow a colon.
pub(super) fn lowered(mut parts: Vec<Part>) -> Vec<Part> {
    if let Some(Part::Text(text)) = parts.first_mut() {
        let mut letters = text.chars();
        *text = letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect());
    }
    parts
}
