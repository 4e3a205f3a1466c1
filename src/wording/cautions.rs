//! Cautions in words, each one or two sentences.

use super::Words;
use crate::pairing::Pairing;
use crate::pairing::sheets::{self, Caution, Slow};
use crate::quantity::UnitSystem;

impl Words<'_> {
    /// The cautions of a pairing, most general first.
    pub fn cautions(&self, pairing: &Pairing) -> Vec<String> {
        sheets::cautions(pairing).iter().map(|caution| self.caution(caution)).collect()
    }

    /// One caution.
    #[expect(clippy::too_many_lines, reason = "a list, one entry a caution")]
    pub fn caution(&self, caution: &Caution) -> String {
        let fixed = match caution {
            Caution::ThrownObjects { distance, stated } => {
                let whose = if *stated { "its maker's figure" } else { "a usual figure: its maker names none" };
                let metres = self.amount(*distance);
                return format!(
                    "It throws objects: nobody nearer than {metres} while it works ({whose}), and nobody comes near until it stands."
                );
            }
            Caution::TrappedTool { tool } => {
                let gain = self.either("11 bar for each °C", "90 psi for each °F");
                return format!(
                    "The {tool} that is shut off keeps its oil, which gains about {gain} that it warms: stow or pin \
                     it, and open no line of it under pressure."
                );
            }
            Caution::Injection => {
                let from = self.either("7 bar", "100 psi");
                return format!(
                    "Never feel for a leak: a jet from about {from} up goes through skin and gloves. Whoever is hit goes to a \
                     hospital at once and says fluid injection."
                );
            }
            Caution::ColdStart { from } => {
                return format!(
                    "Cold oil at full flow bursts seals and filters: full speed only with its oil at {} or more; every day warm it by the \
                     machine's functions, attachment off, before it is switched on.",
                    self.amount(*from)
                );
            }
            Caution::StartsDownTo { from } => return self.starts_down_to(*from),
            Caution::AtEnd { end } => return self.at_end(*end),
            Caution::Reach { reach, over_side, hangs, allowed } => {
                let masses = hangs.zip(*allowed).map_or_else(String::new, |(hangs, allowed)| {
                    format!(
                        " Attachment, coupler and what it holds come to {} at the most; {} may hang there.",
                        self.amount(hangs),
                        self.amount(allowed)
                    )
                });
                return format!("{}{masses}", self.lifts_at(*reach, *over_side));
            }
            Caution::OilNoHotter { most } => {
                return format!(
                    "It was judged for oil up to {}: above that, stop and let it cool.",
                    self.amount(*most)
                );
            }
            Caution::LowIdleNotSlow { how } => {
                let by = match how {
                    Slow::Divider => "the divider",
                    Slow::Regulator => "its regulator",
                    Slow::Setting | Slow::Engine | Slow::Cannot => "the machine's flow setting",
                };
                return format!("Low idle is not low speed: its set flow comes at once. Only {by} turns it down.");
            }
            Caution::ManualsFirst => {
                "The makers' manuals of machine and attachment, local codes and licensed practice come before this sheet."
            }
            Caution::NotJudged => {
                "Not judged here: slope and ground, wear of hoses, pins and seals, the operator's training, transport by road."
            }
            Caution::NotToday => {
                "As long as the changes are not made and proved, it does not fit: nobody works with it."
            }
            Caution::ResidualPressure => {
                "Engine off, attachment on the ground, levers worked until no pressure is left, before any line is opened."
            }
            Caution::HotOil => "Hot oil and hot lines burn; oil locked in a shut-off line gains pressure as it warms.",
            Caution::RaisedBoom => {
                "Nobody under a raised boom or arm. Press the attachment on the ground to prove that its mounting is locked."
            }
            Caution::RunsOn => {
                "The rotor runs on after its oil has stopped: nobody comes near until it stands, whatever the clock says."
            }
            Caution::Auger => "Nobody near a turning auger or chain; have buried services located before digging.",
            Caution::Accumulator => {
                "Its gas accumulator keeps its charge when everything else is without pressure: only its maker's service opens it."
            }
            Caution::WaterOrDust => "It needs water, or raises dust: ask its maker how much, and protect lungs.",
            Caution::CaseLineFirst => {
                "Case line first on and last off, and the motor's housing filled with oil before the first start."
            }
            Caution::PastCooler => "The direct return goes past the machine's oil cooler: watch the oil's temperature.",
            Caution::ReturnNeverShut => {
                "The direct return must never be shut while the motor turns: changeover valve without a blocked position, its place visible and locked."
            }
            Caution::NothingSlow => {
                "Nothing is known that turns its flow down, and low idle may be full speed: its flow there is read on a tester before it is \
                 connected, and its maker says whether it may start with that."
            }
            Caution::ReliefBack => {
                "Reset the relief before another tool goes on this circuit, and prove it with a gauge."
            }
            Caution::DividerNeverCapped => {
                "With the attachment off the divider is vented or switched off, never just capped: a capped port takes the machine's functions away, or the pump's relief."
            }
            Caution::NoReverse => {
                "Oil the wrong way destroys its motor within seconds: the lock of the reverse stays on as long as it is mounted."
            }
            Caution::CaseCouplingCrosses => {
                "The case line's coupling fits a pressure line: mark it, or change it, so that they are never crossed."
            }
            Caution::LevelGround => {
                "The loader lifts to the front; its rating is for firm, level ground and slow work."
            }
        };
        fixed.to_owned()
    }

    /// A rounded figure in the reader's units.
    fn either(&self, metric: &'static str, us: &'static str) -> &'static str {
        match self.units {
            UnitSystem::Metric => metric,
            UnitSystem::UsCustomary => us,
        }
    }
}
