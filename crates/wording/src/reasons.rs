//! Why a check came out as it did.

use super::checks::words;
use super::parts::{Part, Stage, Telling, of_template};
use super::{Words, capital};
use explain::FigureId;
use fit::{Bound, Cause, Check, CheckId, Outcome, Reason};

/// What stands for worst value and limit until they are put in.
const FIGURES: (&str, &str) = ("\u{1}", "\u{2}");

/// From which share of the limit on a likely value differs so much from the worst that both are told.
const FAR: f64 = 0.2;

impl Words<'_> {
    /// The reason of a check as a sentence with its numbers.
    pub fn reason(&self, check: &Check) -> String {
        super::parts::whole(&self.reason_parts(check, Stage::AsItIs))
    }

    /// The reason of a check in pieces: its figures belong to this check, on the machine of a stage.
    pub fn reason_parts(&self, check: &Check, stage: Stage) -> Vec<Part> {
        of_template(&self.told(check, FIGURES), FigureId::Check(check.id, stage), &self.worst_and_limit(check))
    }

    /// The reason with these words for worst value and limit.
    fn told(&self, check: &Check, figures: (&str, &str)) -> String {
        let [met, not_met] = words(check.id).met_and_not_met(check.bound);
        let sentence = match &check.reason {
            Reason::Within => with_figures(met, figures),
            Reason::Beyond { because } => {
                let worst = format!("{}{}", figures.0, self.likelier(check));
                format!("{}: {}.", with_figures(not_met, (&worst, figures.1)), cause(*because))
            }
            Reason::Undecided { .. } => undecided(check, figures),
            Reason::FactMissing => self.fact_missing(check),
            Reason::EngineShared => {
                let (worst, limit) = figures;
                format!("at work the pumps ask {worst} of the engine, which may spare no more than {limit} for them.")
            }
            Reason::OilTooThin { settles, viscosity, least } => format!(
                "the oil settles at {}, where it has only {}: it needs {} to keep moving parts apart. A thicker grade, or more cooling.",
                self.amount(*settles),
                self.amount(*viscosity),
                self.at_least(*least)
            ),
            Reason::OilTooThick { warm_up, most } => format!(
                "full speed would have to wait until the oil reads {}: beyond {} that is no warm-up but the wrong oil. A thinner grade.",
                self.at_least(*warm_up),
                self.at_most(*most)
            ),
            Reason::OilTooThickToStart { start, from } => format!(
                "at {} the oil is too thick to be started: it may be started down to {}. Below that a thinner grade, an HV oil of the \
                 same grade, or a tank heater.",
                self.amount(*start),
                self.at_least(*from)
            ),
            Reason::GuardsLacking { guards } => {
                let named: Vec<_> = guards.iter().map(|guard| self.guard(*guard)).collect();
                format!("the attachment demands what the machine lacks: {}.", list(&named))
            }
            other => plain(other).to_owned(),
        };
        capital(&sentence)
    }

    /// Of what may be as little as its worst value: what is likely, where that is far from it and too little all the same; else nothing.
    fn likelier(&self, check: &Check) -> String {
        let figures = check.value.zip(check.worst).zip(check.limit);
        match figures.filter(|_| check.bound == Some(Bound::AtLeast)) {
            Some(((likely, worst), limit))
                if likely.si() < limit.si() && likely.si() - worst.si() > FAR * limit.si() =>
            {
                format!(" ({} likely)", self.amount(likely))
            }
            _ => String::new(),
        }
    }

    fn fact_missing(&self, check: &Check) -> String {
        match check.missing.as_slice() {
            [] => "a figure is missing.".to_owned(),
            [one] => format!("not stated: {}.", self.missing(one).what),
            several => {
                let named: Vec<_> = several.iter().map(|missing| self.missing(missing).what).collect();
                format!("not stated: {}.", list(&named))
            }
        }
    }

    /// A short line for a row of checks: value, limit and margin, or the outcome alone.
    pub fn check_line(&self, check: &Check) -> String {
        super::parts::whole(&self.check_line_parts(check, Stage::AsItIs))
    }

    /// The short line of a check in pieces, on the machine of a stage: its worst value opens, else what keeps it from being met.
    pub fn check_line_parts(&self, check: &Check, stage: Stage) -> Vec<Part> {
        let of = FigureId::Check(check.id, stage);
        let mut told = Telling::default();
        let [worst, limit] = self.worst_and_limit(check);
        match (check.outcome, worst, limit, self.margin_of(check)) {
            (Outcome::Met | Outcome::NotMet, Some(worst), Some(limit), Some(margin)) => {
                let allowed = if check.bound == Some(Bound::AtLeast) { "at least" } else { "at most" };
                told.figure(worst, of);
                told.text(&format!(" ({allowed} {limit}) · {margin}"));
            }
            // Open, and no verdict waits for it: what is likely, and what it may be.
            (Outcome::NotKnown, Some(worst), Some(limit), _) if !check.blocks && check.value.is_some() => {
                let allowed = if check.bound == Some(Bound::AtLeast) { "at least" } else { "at most" };
                let likely = check.value.map(|value| self.amount(value)).unwrap_or_default();
                told.text("to prove: likely ");
                told.figure(likely, of);
                told.text(&format!(", {worst} at worst ({allowed} {limit})"));
            }
            (Outcome::Met, ..) => told.text(self.outcome(check.outcome)),
            _ => told.figure(self.outcome(check.outcome).to_owned(), of),
        }
        told.0
    }
}

fn with_figures(words: &str, (worst, limit): (&str, &str)) -> String {
    words.replace("{worst}", worst).replace("{limit}", limit)
}

fn undecided(check: &Check, (worst, limit): (&str, &str)) -> String {
    if check.id == CheckId::Heat {
        return format!(
            "a balance of heat is good to a third: the oil may settle at {worst}, and work ends at {limit}; half an hour of work \
             shows it."
        );
    }
    let must = match check.bound {
        Some(Bound::AtLeast) => "it needs at least",
        _ => "it allows at most",
    };
    // What can hurt people is not taken from usual figures, even where these are well inside.
    if check.margin.is_some_and(|margin| margin >= 0.0) {
        return format!(
            "on typical values it would be {worst} at worst, and {must} {limit}; but somebody may get hurt, so typical \
             values do not do: one must be known."
        );
    }
    format!("figures that are not stated decide it: at their typical worst {worst}, and {must} {limit}.")
}

/// Names in a row: `a`, `a and b`, `a, b and c`.
pub(super) fn list(named: &[&str]) -> String {
    match named {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

pub(super) fn cause(because: Cause) -> &'static str {
    match because {
        Cause::FlowLow => "published flow less its tolerance, engine at working speed",
        Cause::FlowHigh => "flow at its highest, engine without load, setting turned up",
        Cause::PowerLimit => "the pumps' power is spent before the flow is reached",
        Cause::Relief => "the relief opens first",
        Cause::SupplyLoss => "the supply line takes too much",
        Cause::SpoolReturn => "the oil returns through the machine's valve",
        Cause::ReturnLine => "the return line takes too much",
        Cause::CaseLine => "the case drain takes too much, oil cold and motor worn",
        Cause::TooLight => "too light",
        Cause::TooHeavy => "too heavy",
        Cause::ReliefHigh | Cause::OtherTool => "the relief lets more through",
        Cause::ReliefLow => "the relief stands lower than the attachment's maker asks",
        Cause::LimitersClose => "two pressure settings so close open together",
        Cause::HoseWeak => "the relief lets more through than the weakest hose is rated for",
        Cause::CouplingWeak => "the relief lets more through than the couplings are rated for",
        Cause::CouplingSmall => "more flows than they are rated for",
        Cause::FlowTaken => "the attachment takes the oil first",
        Cause::LittleCooling => "cooler and tank carry too little away",
        Cause::RunsDry => "the motor draws a vacuum while its rotor coasts down",
        Cause::HeavyHead => "too heavy, or hanging too far out",
        Cause::CouplerWeak => "too heavy for the coupler",
        Cause::SwingsIn => "curled in it meets boom, cab or window",
        Cause::TorqueHigh => "the relief lets the motor twist harder than drive or machine hold",
        Cause::TravelDiffers => "outside the attachment's window",
        Cause::TooThick => "too thick for it",
    }
}

/// The reasons that have no figures; nothing for the others.
#[expect(clippy::too_many_lines, reason = "a list, one entry a reason")]
fn plain(reason: &Reason) -> &'static str {
    match reason {
        Reason::NoRotor => "nothing in it turns fast enough to fly apart.",
        Reason::NoCaseLine => {
            "the motor needs a line of its own from its housing to the tank, and the machine has none."
        }
        Reason::CaseLineIntoReturn => {
            "the machine's case drain ends in the return, and the seal would get what the return does: it needs a port of \
             its own in the tank."
        }
        Reason::DrainsInside => {
            "the motor drains inside to its outlet: its seal gets the back pressure, which has its own check."
        }
        Reason::CaseDecides => {
            "the motor has a drain of its own and allows pressure at its outlet: the case pressure decides."
        }
        Reason::OwnFilter => "the return passes the machine's own filter.",
        Reason::FittedFilter => "the return passes a filter of its own.",
        Reason::NoFilter => "the oil that returns passes no filter on its way to the tank.",
        Reason::NoFilterDemanded => {
            "the return goes through the machine's valve, and the attachment demands no filter of its own."
        }
        Reason::SameStandard => "machine and attachment are made for the same open standard.",
        Reason::PinsAgree => "pins and width match.",
        Reason::PinsDiffer => "pins or width differ; bushes, shims or a bracket can bridge it.",
        Reason::MountingsDiffer => "the two mountings have nothing in common.",
        Reason::NoOtherTool => "no other tool is fed by the same valve.",
        Reason::ToolShutOff => "the other tool is shut off while the attachment works.",
        Reason::ToolRelieved => {
            "the other tool has a relief of its own; as long as it is not shut off, that limits the attachment too."
        }
        Reason::NoNeighbour => "no other pressure setting is so close that the two would open together.",
        Reason::CouplingsDiffer => "the couplings of machine and attachment do not go together.",
        Reason::CouplingMustLock => "the attachment shakes: its couplings must be screwed and lock.",
        Reason::OneWayEnough => "the attachment needs oil one way only.",
        Reason::BothWays => "oil can be sent both ways.",
        Reason::OneWayOnly => "the attachment must be turned back, and the circuit goes one way.",
        Reason::NoHeavyRotor => "nothing in it is heavy enough to drive its motor on.",
        Reason::RunsDown => "an anti-cavitation check valve feeds the motor while its rotor coasts down.",
        Reason::CannotRunDown => {
            "when the oil stops, the rotor drives its motor dry: nothing feeds it while it coasts down."
        }
        Reason::OilAgrees => "the oil is what the attachment demands.",
        Reason::NoOilDemanded => {
            "its maker states no demand on the oil, and the machine's is typical for such attachments."
        }
        Reason::OilKindDiffers => "the machine holds another kind of oil than the attachment demands.",
        Reason::OilGradeDiffers => "the machine holds another grade of oil than the attachment demands.",
        Reason::OilTooDirty => "the oil is not as clean as the attachment demands.",
        Reason::NothingElectric => "nothing is to be wired.",
        Reason::OutputsThere => "voltage, outputs and buttons are there.",
        Reason::VoltageDiffers => "the coils are for another voltage than the machine's.",
        Reason::OutputsLacking => "too few outputs switch the current of the coils.",
        Reason::ButtonsLacking => "too few buttons are spare.",
        Reason::NoExtras => "nothing but its rotor is to be driven.",
        Reason::ExtrasServed => "its other functions have what drives them.",
        Reason::NoSecondCircuit => "its other functions need oil both ways, and no second circuit gives it.",
        Reason::DiverterNeedsBothWays => {
            "a diverter needs a two-way circuit with its return through the valve: by a direct return the reverse runs into the \
             tank."
        }
        Reason::NoGuardsDemanded => "the attachment demands no guard.",
        Reason::GuardsFitted => "the guards that the attachment demands are fitted.",
        Reason::NoWorkNamed => "the work is not named yet: ask what is to be worked, and how thick it is.",
        Reason::WorkNamed => "its maker names that material.",
        Reason::MaterialNotNamed => "its maker does not name that material.",
        Reason::PumpKnows => "the pump gives oil whenever the attachment takes it.",
        Reason::PumpNotTold => "no demand signal reaches the pump: it would give next to no oil.",
        Reason::NoValveOnHead => "it has no valve of its own: the machine's valve switches it.",
        Reason::CentreAgrees => "pump and attachment match while it is off.",
        Reason::ClosedOnFixed => {
            "off, the attachment shuts the supply, and a constant pump sends all its oil over the relief."
        }
        Reason::OpenOnDemand => "off, the attachment passes oil, and the pump gives full flow all day.",
        Reason::ReverseHarmless => "it takes oil both ways.",
        Reason::ReverseBarred => "no reverse flow can reach it.",
        Reason::ReverseOpen => "it takes oil one way only, and the circuit can send it the other way.",
        Reason::BehindPriority => "steering, brakes and pilot supply have their oil first.",
        Reason::PumpsFeedNoPriority => "its pumps feed neither steering nor brakes nor pilot supply.",
        Reason::AheadOfPriority => {
            "it would take oil ahead of steering, brakes or pilot supply: that is never done, whatever the flow says."
        }
        Reason::WorksStanding => "it works while the machine stands.",
        Reason::TakenEvenly => "the oil is taken so that the machine still tracks straight.",
        Reason::TakenFromOne => "the oil is taken from one pump of two: the machine would pull to one side.",
        Reason::ReturnStaysOpen => "nothing can shut the return.",
        Reason::ReturnRelieved => "a relief to the tank guards the return.",
        Reason::ReturnThroughSpool => {
            "fed ahead of the valve, its oil cannot return through the valve's spool, which then stands shut."
        }
        Reason::ReturnCanBeShut => "something can shut the return, and its outlet would get the whole relief.",
        Reason::OffAsBefore => "with the attachment off, the machine is safe as it stands.",
        Reason::DividerCapped => {
            "a capped divider stops the machine's functions: it must be vented while the attachment is off."
        }
        Reason::DividerUnrelieved => {
            "the divider's port has no relief: a blocked attachment would stop the machine's functions."
        }
        Reason::HeldByOperator => "held by hand or foot, it stops when the operator leaves.",
        Reason::StopsAndStays => "it stops without operator or power, and stays off.",
        Reason::RunsOn => "it runs on when the operator leaves, or starts again by itself.",
        Reason::NoCoupler => "it is mounted on the machine itself, without a coupler.",
        Reason::CouplerNotSecured => "the coupler's lock does not hold by itself, or does not show that it has locked.",
        Reason::NoTorque => "it cannot twist machine or drive.",
        Reason::NoCreepAsked => "it asks for no travel speed of its own.",
        Reason::HandIsEnough => "it works in short spells: a hand or foot is enough.",
        Reason::StaysOn => "the flow stays on without a hand.",
        Reason::HeldByHand => "the flow must be held by hand or foot all day.",
        Reason::FilterTooCoarse => "the filter in the return is coarser than the attachment demands.",
        // These have figures or names to tell.
        Reason::Within
        | Reason::Beyond { .. }
        | Reason::Undecided { .. }
        | Reason::FactMissing
        | Reason::EngineShared
        | Reason::OilTooThin { .. }
        | Reason::OilTooThick { .. }
        | Reason::OilTooThickToStart { .. }
        | Reason::GuardsLacking { .. } => "",
    }
}
