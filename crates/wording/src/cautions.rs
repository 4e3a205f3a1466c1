//! Cautions in words, each one or two sentences; what kills with its sign.

use super::Words;
use crate::reasons::list;
use crate::sheets::section;
use crate::{Line, SafetySign, Section};
use fit::Pairing;
use quantity::{Amount, Unit, UnitSystem};
use workshop::{self, Caution, Slow};

/// To whom everything that is said here defers, as the beginning of a sentence.
pub(super) const DEFERENCE: &str = "Makers' manuals, local codes and licensed practice";

impl Words<'_> {
    /// The cautions of a pairing besides what kills, what is left to others last.
    pub fn cautions(&self, pairing: &Pairing) -> Vec<String> {
        let all = workshop::cautions(pairing);
        all.iter().filter(|caution| !is_lethal(caution)).map(|caution| self.caution(caution)).collect()
    }

    /// What kills, for the top of a sheet or paper about one attachment or several.
    pub fn hazards(&self, pairings: &[&Pairing]) -> Option<Section> {
        self.hazard_section(&workshop::hazards(pairings))
    }

    /// The cautions besides what kills, with their signs.
    pub fn cautions_besides(&self, cautions: &[Caution]) -> Vec<Line> {
        cautions.iter().filter(|caution| !is_lethal(caution)).map(|caution| self.caution_line(caution)).collect()
    }

    /// What kills among these cautions.
    pub(super) fn hazard_section(&self, cautions: &[Caution]) -> Option<Section> {
        section(
            "Danger",
            false,
            cautions.iter().filter(|caution| is_lethal(caution)).map(|caution| self.caution_line(caution)).collect(),
        )
    }

    /// A caution with its sign, where one fits.
    pub(super) fn caution_line(&self, caution: &Caution) -> Line {
        Line { sign: sign(caution), ..Line::new(self.caution(caution), "") }
    }

    /// What kills, short enough to be sent along, and to whom all of it defers.
    pub fn hazards_to_send(&self, pairings: &[&Pairing]) -> String {
        let one = |caution: &Caution| match caution {
            Caution::ThrownObjects { distance, .. } => {
                Some(format!("nobody nearer than {} while it works", self.keep_away(*distance)))
            }
            Caution::RunsOn { about: Some(about) } => {
                Some(format!("the rotor keeps turning for about {}", self.seconds(*about)))
            }
            Caution::RunsOn { about: None } => Some("the rotor keeps turning after it is switched off".to_owned()),
            Caution::Injection => Some(format!("a jet of oil from about {} up goes through skin", self.injection())),
            _ => None,
        };
        let told: Vec<_> = workshop::hazards(pairings).iter().filter_map(one).collect();
        let told: Vec<_> = told.iter().map(String::as_str).collect();
        format!("Beware: {}. {DEFERENCE} come first.", list(&told))
    }

    /// The pressure from which a jet of oil goes through skin.
    pub(super) fn injection(&self) -> &'static str {
        self.either("7 bar", "100 psi")
    }

    /// One caution.
    #[expect(clippy::too_many_lines, reason = "a list, one entry a caution")]
    pub fn caution(&self, caution: &Caution) -> String {
        let fixed = match caution {
            Caution::ThrownObjects { distance, stated } => {
                let whose = if *stated { "its maker's figure" } else { "a typical value: its maker names none" };
                let metres = self.keep_away(*distance);
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
                return format!(
                    "Never feel for a leak: a jet of oil from about {} up goes through skin and gloves. See a doctor at once, however small \
                     the wound, and say fluid injection.",
                    self.injection()
                );
            }
            Caution::RunsOn { about } => {
                let long = about.map_or_else(
                    || "often for a minute and more (time it at the first start)".to_owned(),
                    |about| format!("for about {} (computed; time it at the first start)", self.seconds(about)),
                );
                return format!(
                    "The rotor keeps turning after it is switched off, {long}: nobody comes near until it stands, whatever the clock says."
                );
            }
            Caution::ManualsFirst => return format!("{DEFERENCE} come before this sheet."),
            Caution::ColdStart { from } => {
                return format!(
                    "Cold oil at full flow bursts seals and filters: full speed only with its oil at {} or more; every day warm it by the \
                     machine's functions, attachment off, before it is switched on.",
                    self.at_least(*from)
                );
            }
            Caution::StartsDownTo { from } => return self.starts_down_to(*from),
            Caution::AtEnd { end } => return self.at_end(*end),
            Caution::Reach { reach, over_side, hangs, allowed } => {
                let masses = hangs.zip(*allowed).map_or_else(String::new, |(hangs, allowed)| {
                    format!(
                        " Attachment, coupler and what it holds come to {} at the most; {} may hang there.",
                        self.at_least(hangs),
                        self.at_most(allowed)
                    )
                });
                return format!("{}{masses}", self.lifts_at(*reach, *over_side));
            }
            Caution::OilNoHotter { most } => {
                return format!(
                    "It was judged for oil up to {}: above that, stop and let it cool.",
                    self.at_most(*most)
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
            Caution::Protection => "Eye, ear and hand protection, for whoever works at it and whoever stands by.",
            Caution::CatchOil => "Catch spilt oil: a tray under every line before it is opened, binder at hand.",
            Caution::IsolateBattery => "Isolate the battery before anything is wired.",
            Caution::BlockRotor => {
                "Before teeth, blades or flails are touched: engine off, key out, pressure out, and the rotor blocked so that it cannot turn."
            }
            Caution::DryDebris => {
                "Dry debris on a hot machine burns: clean engine, exhaust and oil lines often, and keep an extinguisher at hand."
            }
            Caution::Silica => {
                "Dust of stone and concrete holds silica, which scars the lungs: water where it cuts, or respiratory protection, as local codes ask."
            }
            Caution::OverheadLines => {
                "Keep boom and attachment clear of power lines overhead, by the distance that whoever runs them names."
            }
            Caution::BuriedServices => "Have services below ground located before it goes into ground, road or floor.",
            Caution::Auger => "Nobody near a turning auger or chain.",
            Caution::Accumulator => {
                "Its gas accumulator keeps its charge when everything else is without pressure: only its maker's service opens it."
            }
            Caution::WaterOrDust => "It needs water, or raises dust: ask its maker how much, and protect lungs.",
            Caution::CaseLineFirst => {
                "Case drain first on and last off, and the motor's housing filled with oil before the first start."
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
                "The case drain's coupling fits a pressure line: mark it, or change it, so that they are never crossed."
            }
            Caution::LevelGround => {
                "The loader lifts to the front; its rating is for firm, level ground and slow work."
            }
        };
        fixed.to_owned()
    }

    /// How far to stay away, never nearer than it is: upwards to a round number of the reader's units.
    pub(super) fn keep_away(&self, distance: Amount) -> String {
        let (unit, fine, coarse, from) = match self.units {
            UnitSystem::Metric => (Unit::Metre, 1.0, 5.0, 20.0),
            UnitSystem::UsCustomary => (Unit::Foot, 5.0, 50.0, 100.0),
        };
        let value = unit.of_si(distance.si());
        let step = if value > from { coarse } else { fine };
        // A figure that is round by itself stays, whatever its last bit.
        let round = (value / step - 1e-9).ceil() * step;
        format!("{} {}", self.numbers.decimal(round, 0), self.unit(unit))
    }

    /// A time to wait, never less than it is: upwards to five seconds.
    pub(super) fn seconds(&self, time: Amount) -> String {
        format!("{} s", self.numbers.decimal((time.si() / 5.0).ceil() * 5.0, 0))
    }

    /// A rounded figure in the reader's units.
    pub(super) fn either(&self, metric: &'static str, us: &'static str) -> &'static str {
        match self.units {
            UnitSystem::Metric => metric,
            UnitSystem::UsCustomary => us,
        }
    }
}

/// What kills without a second chance.
fn is_lethal(caution: &Caution) -> bool {
    matches!(caution, Caution::Injection | Caution::ThrownObjects { .. } | Caution::RunsOn { .. })
}

/// The sign of ISO 7010 that fits (its register, numbers from memory).
pub(super) fn sign(caution: &Caution) -> Option<SafetySign> {
    match caution {
        // The general sign goes with its text: none of the register shows a jet of oil, or a rotor that runs on.
        Caution::Injection | Caution::RunsOn { .. } => Some(SafetySign::Warning),
        Caution::ThrownObjects { .. } => Some(SafetySign::NoThoroughfare),
        Caution::HotOil => Some(SafetySign::HotSurface),
        Caution::Protection => Some(SafetySign::EyeProtection),
        Caution::Silica => Some(SafetySign::Respirator),
        Caution::ResidualPressure | Caution::BlockRotor => Some(SafetySign::Disconnect),
        Caution::OverheadLines => Some(SafetySign::Electricity),
        Caution::ManualsFirst => Some(SafetySign::ReadManual),
        _ => None,
    }
}
