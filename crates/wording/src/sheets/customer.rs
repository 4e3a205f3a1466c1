//! For a customer: one page in plain words, without codes.

use super::{Line, Section};
use crate::reasons::list;
use crate::{Words, capital, counted};
use explain::FigureId;
use fit::{Pairing, Verdict};
use workshop::{Caution, RestsOn, Sheets};

/// The most that is told of a list on one page.
const TOLD: usize = 4;

impl Words<'_> {
    /// What kills, the verdict, what is done, price and time, what he must read off, what he must know before work.
    pub fn for_customer(&self, pairing: &Pairing, sheets: &Sheets) -> Section {
        let machine = super::message::named(pairing.carrier.maker.as_deref(), &pairing.carrier.model);
        let attachment = super::message::named(pairing.head.maker.as_deref(), &pairing.head.model);
        let kind = self.head_kind(pairing.head.kind);
        let title = format!("{attachment} ({kind}) on {machine}");
        let hazards = self.hazard_section(&sheets.cautions).into_iter().flat_map(|section| section.lines);
        let mut lines: Vec<_> = hazards.collect();
        lines.push(Line::new("Does it fit?", self.plain_verdict(pairing)));
        let done = self.plain_changes(pairing);
        let certain = pairing.verdict == Verdict::CannotSay;
        let what = if certain { "What it needs, whatever else comes out" } else { "What is done to your machine" };
        lines.extend(self.doubts(pairing).map(|doubts| Line::new("What we find out first", doubts)));
        lines.extend((!done.is_empty()).then(|| Line::new(what, done)));
        if !pairing.changes.is_empty() {
            let total = &sheets.changes.total;
            let detail = match (&total.price, total.from) {
                (None, _) => "Nothing of it has a price yet.",
                (Some(_), true) => "Not all of it has a price yet: the whole costs more.",
                (Some(_), false) => "Parts and labour.",
            };
            let of = if certain { "Price and time of that" } else { "Price and time" };
            lines.push(Line::with(of, detail, self.total(total)).of(FigureId::Cost));
        }
        lines.extend(self.question_that_decides(pairing).map(|said| Line::new("The question that decides most", said)));
        let read = self.what_to_read(sheets);
        lines.extend((!read.is_empty()).then(|| Line::new("What we need from you", read)));
        let know = self.what_to_know(sheets).join(" ");
        lines.push(Line::new("What to know before work", know));
        Section { title, in_order: false, lines, total: None }
    }

    /// The question that decides most, with what either answer makes of it; none where it can be said.
    pub fn question_that_decides(&self, pairing: &Pairing) -> Option<String> {
        let first = pairing.find_out.first().filter(|_| pairing.verdict == Verdict::CannotSay)?;
        let either = pairing.branches.as_ref().map(|branches| self.branches(branches).join(" "));
        let question = format!("{}.", capital(&self.find_out(first)));
        Some([question, either.unwrap_or_default()].join(" ").trim().to_owned())
    }

    /// What is proved with instruments or by trying it when the machine is handed over; empty where nothing is.
    pub fn what_is_proved(&self, pairing: &Pairing) -> String {
        match self.named_checks(&pairing.to_prove) {
            none if none.is_empty() => none,
            named => format!("{}.", capital(&named)),
        }
    }

    /// Whether it fits, as a customer is told.
    pub fn plain_verdict(&self, pairing: &Pairing) -> String {
        let prove = match pairing.to_prove.len() {
            0 => "",
            _ => " Part of it is proved with instruments when the machine is handed over.",
        };
        let before = match self.named_checks(&pairing.before_work) {
            none if none.is_empty() => none,
            named => format!(" Before its first work we prove what can hurt people: {named}."),
        };
        match pairing.verdict {
            Verdict::Fits => format!("Yes, as your machine is.{before}{prove}"),
            Verdict::FitsAfterChanges => format!(
                "Not today. It fits once {} made and proved; until then it must not work on this machine.{before}{prove}",
                counted(pairing.changes.len(), "change is", "changes are")
            ),
            Verdict::CannotSay if let Some(incomplete) = pairing.incomplete => {
                format!("We cannot say yet: {}.", self.incomplete(incomplete))
            }
            Verdict::CannotSay => "We cannot say yet: figures are missing that decide it.".to_owned(),
            Verdict::DoesNotFit => {
                let failing = self.named_checks(pairing.unmendable.iter().take(TOLD));
                let why = if failing.is_empty() { failing } else { format!(" What stands in the way: {failing}.") };
                format!("No, and no change makes it fit.{why}")
            }
        }
    }

    /// What is done, by its plain names: what is fitted, then what is set.
    fn plain_changes(&self, pairing: &Pairing) -> String {
        let names = |setting: bool| {
            let of = pairing.changes.iter().filter(|change| change.id.is_setting() == setting);
            of.map(|change| self.change_name(change.id)).collect::<Vec<_>>()
        };
        let (fitted, set) = (names(false), names(true));
        let mut sentences = Vec::new();
        if !fitted.is_empty() {
            sentences.push(format!("Done to it: {}.", list(&fitted)));
        }
        if !set.is_empty() {
            sentences.push(format!("{}.", capital(&list(&set))));
        }
        sentences.join(" ")
    }

    /// What decides and is not known, with where it is found; empty where nothing is.
    pub fn what_to_read(&self, sheets: &Sheets) -> String {
        let missing = sheets.rests_on.iter().filter_map(|one| match one {
            RestsOn::Missing { missing, blocks: true, .. } => Some(self.missing(missing)),
            _ => None,
        });
        let mut told: Vec<_> = missing
            .map(|text| {
                let holds = text.holds.map_or_else(String::new, |holds| format!("; {holds}"));
                format!("{} ({}{holds}).", capital(text.what), text.where_to_find)
            })
            .collect();
        let more = told.len().saturating_sub(TOLD);
        told.truncate(TOLD);
        if more > 0 {
            told.push(format!("And {more} more."));
        }
        told.join(" ")
    }

    /// What concerns whoever couples and works with it every day, what is left to others last.
    pub fn what_to_know(&self, sheets: &Sheets) -> Vec<String> {
        let for_him = |caution: &&Caution| {
            matches!(
                caution,
                Caution::ManualsFirst
                    | Caution::ResidualPressure
                    | Caution::Protection
                    | Caution::CatchOil
                    | Caution::BlockRotor
                    | Caution::DryDebris
                    | Caution::Silica
                    | Caution::OverheadLines
                    | Caution::BuriedServices
                    | Caution::Auger
                    | Caution::RaisedBoom
                    | Caution::ColdStart { .. }
                    | Caution::PastCooler
                    | Caution::LevelGround
                    | Caution::AtEnd { .. }
                    | Caution::Reach { .. }
            )
        };
        sheets.cautions.iter().filter(for_him).map(|caution| self.caution(caution)).collect()
    }
}
