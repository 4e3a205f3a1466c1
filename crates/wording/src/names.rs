//! Words for the closed lists.

use super::{Words, counted};
use fit::{Assumed, AssumedFrom, CheckId, Class, Load, OilState, Outcome, Pairing, Stage, Verdict};
use quantity::{Amount, UnitSystem};
use table::{AssumptionId, CarrierClass, Guard, HeadKind, MachineEnd};

impl Words<'_> {
    /// A verdict.
    pub fn verdict(&self, verdict: Verdict) -> &'static str {
        match verdict {
            Verdict::Fits => "fits as it is",
            Verdict::FitsAfterChanges => "fits after changes",
            Verdict::DoesNotFit => "does not fit",
            Verdict::CannotSay => "cannot say yet",
        }
    }

    /// The verdict of a pairing, with what must be proved before work where that can hurt people.
    pub fn verdict_of(&self, pairing: &Pairing) -> String {
        let short = pairing.verdict == Verdict::Fits && !pairing.before_work.is_empty();
        let verdict = if short { "fits" } else { self.verdict(pairing.verdict) };
        format!("{verdict}{}", self.then_before_work(pairing))
    }

    /// Checks by their titles, in a row: `pressure, power and heat`.
    pub(super) fn named_checks<'c>(&self, ids: impl IntoIterator<Item = &'c CheckId>) -> String {
        let titles: Vec<_> = ids.into_iter().map(|id| self.check_title(*id).to_lowercase()).collect();
        let titles: Vec<_> = titles.iter().map(String::as_str).collect();
        super::reasons::list(&titles)
    }

    /// What follows a verdict where points are to prove before work: `; 3 points to prove before work`.
    pub(super) fn then_before_work(&self, pairing: &Pairing) -> String {
        if pairing.before_work.is_empty() { String::new() } else { format!("; {}", self.before_work(pairing)) }
    }

    /// How many points are to prove before work: `3 points to prove before work`.
    pub fn before_work(&self, pairing: &Pairing) -> String {
        format!("{} to prove before work", counted(pairing.before_work.len(), "point", "points"))
    }

    /// An end of a machine.
    pub fn machine_end(&self, end: MachineEnd) -> &'static str {
        match end {
            MachineEnd::Arm => "digging arm",
            MachineEnd::Loader => "loader end",
        }
    }

    /// The title of a check.
    pub fn check_title(&self, check: CheckId) -> &'static str {
        super::checks::words(check).title
    }

    /// How a check came out.
    pub fn outcome(&self, outcome: Outcome) -> &'static str {
        match outcome {
            Outcome::Met => "met",
            Outcome::NotMet => "not met",
            Outcome::NotKnown => "not known",
        }
    }

    /// What a check puts at risk.
    pub fn class(&self, class: Class) -> &'static str {
        match class {
            Class::Safety => "people",
            Class::Damage => "parts",
            Class::Work => "work",
        }
    }

    /// What a head does.
    pub fn head_kind(&self, kind: HeadKind) -> &'static str {
        match kind {
            HeadKind::RotaryCutter => "rotary brush cutter",
            HeadKind::Flail => "flail mower",
            HeadKind::DrumMulcher => "drum mulcher, fixed teeth",
            HeadKind::HammerMulcher => "drum mulcher, swinging hammers",
            HeadKind::Auger => "auger",
            HeadKind::Breaker => "breaker",
            HeadKind::Trencher => "trencher",
            HeadKind::StumpGrinder => "stump grinder",
            HeadKind::PlateCompactor => "plate compactor",
            HeadKind::ColdPlaner => "cold planer",
            HeadKind::Saw => "saw",
            HeadKind::ScreeningBucket => "screening bucket",
            HeadKind::Sweeper => "sweeper",
            HeadKind::SnowBlower => "snow blower",
        }
    }

    /// A guard.
    pub fn guard(&self, guard: Guard) -> &'static str {
        match guard {
            Guard::Rops => "roll-over structure (ISO 3471)",
            Guard::RopsExcavator => "roll-over structure of excavators (ISO 12117-2)",
            Guard::Fops => "falling-object structure (ISO 3449)",
            Guard::FrontGuard => "front guard (ISO 10262)",
            Guard::TopGuard => "top guard (ISO 10262)",
            Guard::ForestryOps => "operator protection in forestry (ISO 8084)",
            Guard::ForestryFops => "falling-object structure in forestry (ISO 8083)",
            Guard::ImpactWindow => "impact-resistant window",
            Guard::ChainShot => "guard against chain shot (ISO 11837)",
        }
    }

    /// The class of a machine.
    pub fn carrier_class(&self, class: CarrierClass) -> &'static str {
        let us = self.units == UnitSystem::UsCustomary;
        match class {
            CarrierClass::MicroExcavator => "micro excavator",
            CarrierClass::MiniExcavator => "mini excavator",
            CarrierClass::MidiExcavator if us => "excavator, 13,000 to 29,000 lb",
            CarrierClass::MidiExcavator => "excavator, 6 to 13 t",
            CarrierClass::Excavator if us => "excavator, 29,000 lb and more",
            CarrierClass::Excavator => "excavator, 13 t and more",
            CarrierClass::SkidSteer => "skid-steer loader",
            CarrierClass::CompactTrackLoader => "compact track loader",
            CarrierClass::WheelLoader => "wheel loader",
            CarrierClass::BackhoeLoader => "backhoe loader",
        }
    }

    /// The class of a machine in two words, for the name of one.
    pub fn carrier_class_plain(&self, class: CarrierClass) -> &'static str {
        match class {
            CarrierClass::MidiExcavator | CarrierClass::Excavator => "excavator",
            other => self.carrier_class(other),
        }
    }

    /// The state of the oil.
    pub fn oil_state(&self, oil: OilState) -> &'static str {
        match oil {
            OilState::Cold => "cold",
            OilState::Working => "working",
            OilState::Hot => "hot",
        }
    }

    /// The state of the load.
    pub fn load(&self, load: Load) -> &'static str {
        match load {
            Load::Free => "free running",
            Load::Working => "working",
            Load::Stalled => "stalled",
        }
    }

    /// Before or after the changes.
    pub fn stage(&self, stage: Stage) -> &'static str {
        match stage {
            Stage::AsItIs => "as it is",
            Stage::AfterChanges => "after changes",
        }
    }

    /// A range that stands in for a figure: `length of the return line, 4.0 m to 9.0 m`.
    pub fn assumed(&self, assumed: &Assumed) -> String {
        let shown = |amount: Amount| self.assumed_figure(assumed.id, amount);
        let (low, high) = (shown(assumed.low), shown(assumed.high));
        let span = if low == high { low } else { format!("{low} to {high}") };
        let whose = if assumed.from == AssumedFrom::Table { " (the table's own range)" } else { "" };
        format!("{}, {span}{whose}", self.assumption(assumed.id))
    }

    /// A figure of practice. A multiple of the velocity head, a code's number and micrometres are no shares.
    pub(super) fn assumed_figure(&self, id: AssumptionId, amount: Amount) -> String {
        let plain = || self.numbers.decimal(amount.si(), 0);
        match id {
            AssumptionId::CouplingLoss => format!("{} times the velocity pressure", plain()),
            AssumptionId::OilCleanliness => plain(),
            AssumptionId::FiltrationRating => format!("{} µm", plain()),
            _ => self.amount(amount),
        }
    }

    /// A figure that practice has a range for.
    pub fn assumption(&self, assumption: AssumptionId) -> &'static str {
        match assumption {
            AssumptionId::SupplyLength => "length of the supply line",
            AssumptionId::ReturnLength => "length of the return line",
            AssumptionId::SupplyBore => "bore of the supply line",
            AssumptionId::ReturnBore => "bore of the return line",
            AssumptionId::CaseLength => "length of the case drain",
            AssumptionId::CaseBore => "bore of the case drain",
            AssumptionId::SpoolReturnLoss => "loss through the valve on the return",
            AssumptionId::DirectReturnLoss => "loss of the valves in the direct return",
            AssumptionId::FilterLoss => "loss of the return filter",
            AssumptionId::CouplingLoss => "loss of the couplings",
            AssumptionId::OperatingMass => "weight of a machine of this class",
            AssumptionId::CircuitFlow => "auxiliary flow of a machine of this class",
            AssumptionId::CircuitRelief => "auxiliary relief of a machine of this class",
            AssumptionId::EnginePower => "engine power of a machine of this class",
            AssumptionId::TankVolume => "oil in the tank of a machine of this class",
            AssumptionId::CoolerConductance => "cooler of a machine of this class",
            AssumptionId::OilViscosity => "grade of the oil",
            AssumptionId::OilCleanliness => "cleanliness of the oil (last number of ISO 4406)",
            AssumptionId::FiltrationRating => "filtration rating of return filters",
            AssumptionId::PumpLeak => "leakage of the pump",
            AssumptionId::PumpRatedPressure => "pressure for which the pump is rated",
            AssumptionId::PumpPowerShare => "share of the engine's power that the pumps get",
            AssumptionId::PumpEfficiency => "efficiency of the pump",
            AssumptionId::LoadSensingMargin => "margin of the load-sensing pump",
            AssumptionId::CutOffBand => "fall of the pump's flow before its cut-off",
            AssumptionId::FunctionsUseful => "share of the functions' power that is work",
            AssumptionId::PilotHeat => "heat of the pilot supply",
            AssumptionId::EngineDroop => "engine speed without load",
            AssumptionId::ReliefOverride => "override of the relief",
            AssumptionId::MotorVolumetric => "volumetric efficiency of the motor",
            AssumptionId::MotorHydromechanical => "hydro-mechanical efficiency of the motor",
            AssumptionId::CaseFlow => "leakage of the motor",
            AssumptionId::ReturnPulsation => "pulsation of the breaker's return",
            AssumptionId::FreeRunning => "pressure for idling",
            AssumptionId::FreeRunningShare => "pressure for idling, as a share of that at work",
            AssumptionId::TankPressure => "pressure in the tank",
            AssumptionId::OutletLimit => "pressure that the motor's outlet allows",
            AssumptionId::CaseLimit => "pressure that the shaft seal allows",
            AssumptionId::FunctionsPressure => "pressure of the machine's functions",
            AssumptionId::DividerLoss => "loss in the priority flow divider",
            AssumptionId::ReliefGap => "gap between two pressure settings",
            AssumptionId::WarmEnough => "oil temperature for full speed",
            AssumptionId::OilStop => "oil temperature at which work ends",
            AssumptionId::ReactionTorque => "torque that a machine of this class holds",
            AssumptionId::PinBridge => "difference of pins that a kit bridges",
            AssumptionId::ShimWidth => "play that shims take up",
        }
    }
}
