//! In words: what to ask the makers, and what the answer rests on.

use super::{Line, Section, section};
use crate::{Words, capital};
use fit::{CheckId, Pairing};
use workshop::{Ask, Proof, RestsOn};

impl Words<'_> {
    /// What to ask the makers.
    pub fn asks(&self, asks: &[Ask]) -> Option<Section> {
        let line = |ask: &Ask| Line::new(self.question(ask.question), self.decides(&ask.decides));
        section("To ask the makers", false, asks.iter().map(line).collect())
    }

    /// What the answer rests on that nobody has read or measured.
    pub fn rests_on(&self, pairing: &Pairing, rests: &[RestsOn]) -> Option<Section> {
        section("What this rests on", false, rests.iter().map(|one| self.rests_on_line(pairing, one)).collect())
    }

    /// What decides and is not stated, each with where it is found; what the verdict waits for comes first.
    pub fn to_find_out(&self, rests: &[RestsOn]) -> Vec<Line> {
        let missing = rests.iter().filter_map(|one| match one {
            RestsOn::Missing { missing, decides, .. } => Some((missing, decides)),
            _ => None,
        });
        let line = |(missing, decides): (&fit::Missing, &Vec<CheckId>)| {
            let text = self.missing(missing);
            let holds = text.holds.map(|holds| format!(" {}.", capital(&holds))).unwrap_or_default();
            Line::new(
                capital(text.what),
                format!("{}.{holds} {}", capital(text.where_to_find), self.decides(decides)).trim().to_owned(),
            )
        };
        missing.map(line).collect()
    }

    fn decides(&self, checks: &[CheckId]) -> String {
        if checks.is_empty() { String::new() } else { format!("It decides: {}.", self.named_checks(checks)) }
    }

    fn rests_on_line(&self, pairing: &Pairing, one: &RestsOn) -> Line {
        match one {
            RestsOn::Missing { missing, decides, blocks } => {
                let text = self.missing(missing);
                let waits = if *blocks { "The verdict waits for it." } else { "To be proved before or at work." };
                Line::with(
                    capital(&format!("not stated: {}", text.what)),
                    format!("{}. {} {waits}", capital(text.where_to_find), self.decides(decides)),
                    text.holds.unwrap_or_default(),
                )
            }
            RestsOn::Assumption { assumed, settled_by, decides } => {
                let how = settled_by.map_or_else(
                    || "A limit of practice: the dealer's table may state another.".to_owned(),
                    |fact| format!("{}.", capital(self.place(fact))),
                );
                let both = self.assumed(assumed);
                let span = both.split_once(", ").map_or("", |(_, span)| span).to_owned();
                Line::with(
                    capital(&format!("assumed: {}", self.assumption(assumed.id))),
                    format!("{how} {}", self.decides(decides)),
                    span,
                )
            }
            RestsOn::ToProve { check, by } => {
                let found = pairing.final_check(*check);
                let so_far = found.map_or_else(String::new, |check| self.reason(check));
                Line::with(
                    capital(&format!("to prove: {}", self.check_title(*check).to_lowercase())),
                    so_far,
                    proof(*by),
                )
            }
        }
    }
}

/// With what a check is proved.
fn proof(by: Proof) -> &'static str {
    match by {
        Proof::Flow => "flow tester at the inlet",
        Proof::InletGauge => "gauge at the inlet",
        Proof::OutletGauge => "gauge at the outlet",
        Proof::VacuumGauge => "transmitter that shows vacuum, first stop from the lowest flow",
        Proof::BothSides => "gauges before and behind the couplings",
        Proof::CaseGauge => "gauge in the case drain",
        Proof::Tachometer => "tachometer fixed at the rotor, read from afar",
        Proof::Thermometer => "oil thermometer, half an hour of work",
        Proof::Functions => "work the machine beside it",
        Proof::TapeOrScale => "tape or scale",
        Proof::Look => "look and try",
    }
}
