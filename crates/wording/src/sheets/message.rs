//! A pairing in one plain sentence to send, and a comparison as one line a pairing.

use crate::reasons::list;
use crate::{Part, Words, capital, counted};
use explain::FigureId;
use fit::Total;
use fit::{Pairing, Verdict};
use table::read;
use workshop::{MachineTotal, machine_totals};

/// The longest sentence to send, in characters: two short messages, or one that nobody has to scroll.
pub const LONGEST: usize = 400;

/// The longest name of a machine or attachment in it.
const LONGEST_NAME: usize = 60;

/// A comparison to send.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ComparisonText {
    /// One line a pairing.
    pub lines: Vec<String>,
    /// What all changes take on each machine with several that fit after changes, what these share counted once.
    pub totals: Vec<String>,
}

impl Words<'_> {
    /// Machine, attachment, verdict, the heart of the changes, time and price, in 400 characters at the most.
    pub fn to_send(&self, pairing: &Pairing) -> String {
        let who = capital(&format!("{} with {}: ", machine(pairing), attachment(pairing)));
        // As many of the changes by name as there is room for, the most work first.
        let mut weightiest: Vec<_> = pairing.changes.iter().collect();
        weightiest.sort_by_key(|change| std::cmp::Reverse(change.minutes));
        let total = self.total(&Total::of(pairing));
        for told in (0..=weightiest.len().min(3)).rev() {
            let names: Vec<_> = weightiest[..told].iter().map(|change| self.change_name(change.id)).collect();
            let sentence = format!("{who}{}", self.verdict_to_send(pairing, &names, &total));
            if sentence.chars().count() <= LONGEST {
                return sentence;
            }
        }
        clipped(&format!("{who}{}.", self.verdict_of(pairing)), LONGEST)
    }

    fn verdict_to_send(&self, pairing: &Pairing, names: &[&str], total: &str) -> String {
        let count = pairing.changes.len();
        let changes = counted(count, "change", "changes");
        let heart = match (names.len(), count - names.len()) {
            (0, _) => String::new(),
            (_, 0) => format!(" ({})", list(names)),
            (_, more) => format!(" ({} and {more} more)", names.join(", ")),
        };
        let proof = match pairing.to_prove.len() {
            0 => String::new(),
            points => format!(" {} to prove at the hand-over.", counted(points, "point", "points")),
        };
        match pairing.verdict {
            Verdict::Fits => format!("{}.{proof}", self.verdict_of(pairing)),
            Verdict::FitsAfterChanges => {
                let before = self.then_before_work(pairing);
                let find = pairing.find_out.first().zip(pairing.cost_without_doubts.as_ref());
                let find = find.filter(|_| !names.is_empty()).map_or_else(String::new, |(find, cost)| {
                    format!(" First find out {}: {}.", self.find_out(find), self.may_come_to(cost))
                });
                format!("does not fit today; fits after {changes}{heart}{before}. In all {total}.{find}{proof}")
            }
            Verdict::CannotSay if let Some(incomplete) = pairing.incomplete => {
                format!("cannot say yet: {}.", self.incomplete(incomplete))
            }
            Verdict::CannotSay => {
                let first = pairing.find_out.first();
                let find =
                    first.map_or_else(String::new, |find| format!("; to find out first: {}", self.find_out(find)));
                let certain = self.certain(pairing);
                let certain = certain.map_or_else(String::new, |certain| format!(" {certain}: {total}."));
                let either = pairing.branches.as_ref().filter(|_| !names.is_empty() || count == 0);
                let either = either.map_or_else(String::new, |all| format!(" {}", self.branches(all).join(" ")));
                format!("cannot say yet{find}.{certain}{either}")
            }
            Verdict::DoesNotFit => {
                let failing = self.named_checks(pairing.unmendable.iter().take(3));
                let fails = if failing.is_empty() { failing } else { format!(" for {failing}") };
                format!("does not fit{fails}, and no change fixes it.")
            }
        }
    }

    /// What the changes of a pairing take in all; what else there is to say where there are none, or not enough.
    pub fn takes_in_all(&self, pairing: &Pairing) -> String {
        match (pairing.verdict, pairing.changes.is_empty()) {
            (Verdict::Fits, _) => "nothing to change".to_owned(),
            (Verdict::DoesNotFit, _) => "no change fixes it".to_owned(),
            (Verdict::CannotSay, true) => "not known yet".to_owned(),
            (Verdict::CannotSay, false) => {
                format!("{} for certain; the rest is not known yet", self.total(&Total::of(pairing)))
            }
            (Verdict::FitsAfterChanges, _) => self.total(&Total::of(pairing)),
        }
    }

    /// What all changes take, in pieces: the figure opens.
    pub fn takes_in_all_parts(&self, pairing: &Pairing) -> Vec<Part> {
        let text = self.takes_in_all(pairing);
        let opens = matches!(pairing.verdict, Verdict::FitsAfterChanges | Verdict::CannotSay);
        if opens && !pairing.changes.is_empty() {
            vec![Part::Figure { text, of: FigureId::Cost }]
        } else {
            vec![Part::Text(text)]
        }
    }

    /// What is sent of one pairing or of several compared, a line each, with what kills and to whom all of it defers at its end.
    pub fn text_to_send(&self, pairings: &[&Pairing]) -> String {
        let mut lines = match pairings {
            [pairing] => vec![self.to_send(pairing)],
            several => {
                let text = self.comparison_to_send(several);
                text.lines.into_iter().chain(text.totals).collect()
            }
        };
        lines.push(self.hazards_to_send(pairings));
        lines.join("\n")
    }

    /// One line a pairing, and what all changes take.
    pub fn comparison_to_send(&self, pairings: &[&Pairing]) -> ComparisonText {
        let line = |pairing: &&Pairing| {
            let takes = match pairing.verdict {
                Verdict::FitsAfterChanges => {
                    let changes = counted(pairing.changes.len(), "change", "changes");
                    format!(" · {changes} · {}", self.total(&Total::of(pairing)))
                }
                Verdict::Fits | Verdict::CannotSay | Verdict::DoesNotFit => String::new(),
            };
            let verdict = self.verdict_of(pairing);
            capital(&format!("{} with {}: {verdict}{takes}", machine(pairing), attachment(pairing)))
        };
        let totals = machine_totals(pairings).iter().map(|machine| self.machine_total(machine)).collect();
        ComparisonText { lines: pairings.iter().map(line).collect(), totals }
    }

    /// What the changes for several attachments take together on one machine.
    fn machine_total(&self, machine: &MachineTotal) -> String {
        let MachineTotal { carrier, sets, total, shared, set_anew } = machine;
        let names = |ids: &[table::ChangeId]| {
            let names: Vec<_> = ids.iter().map(|id| self.change_name(*id)).collect();
            list(&names)
        };
        let once = if shared.is_empty() { "" } else { ", what they share counted once" };
        let anew = match set_anew.as_slice() {
            [] => String::new(),
            ids => format!(" Set anew for each attachment: {}.", names(ids)),
        };
        let name = capital(&named(carrier.maker.as_deref(), &carrier.model));
        format!("{name} made ready for all {sets}{once}: {}.{anew}", self.total(total))
    }
}

fn machine(pairing: &Pairing) -> String {
    named(pairing.carrier.maker.as_deref(), &pairing.carrier.model)
}

fn attachment(pairing: &Pairing) -> String {
    named(pairing.head.maker.as_deref(), &pairing.head.model)
}

/// Maker and model on one line, not longer than a sentence bears.
pub(super) fn named(maker: Option<&str>, model: &str) -> String {
    let seen: String =
        table::full_name(maker, model).chars().map(|c| if read::is_unseen(c) { ' ' } else { c }).collect();
    clipped(&seen, LONGEST_NAME)
}

fn clipped(text: &str, longest: usize) -> String {
    if text.chars().count() <= longest {
        return text.to_owned();
    }
    let kept: String = text.chars().take(longest - 1).collect();
    format!("{}…", kept.trim_end())
}
