//! What to ask the makers, and what the answer rests on that nobody has read or measured: each with what it decides and how it is
//! settled.

use fit::{Assumed, CheckId, FactId, MakerQuestion, Missing, Outcome, Pairing, Verdict, remarks};
use serde::Serialize;
use table::AssumptionId;

/// A question for a maker.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Ask {
    /// What to ask.
    pub question: MakerQuestion,
    /// Which checks the answer decides.
    pub decides: Vec<CheckId>,
}

/// Something that the answer rests on.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "rests-on", rename_all = "kebab-case")]
pub enum RestsOn {
    /// A figure that nobody states.
    Missing {
        /// Which, and from which value it holds.
        missing: Missing,
        /// What it decides.
        decides: Vec<CheckId>,
        /// Whether the verdict waits for it.
        blocks: bool,
    },
    /// A range of practice in place of a figure.
    Assumption {
        /// Which range.
        assumed: Assumed,
        /// The figure that would replace it; none for a limit of practice.
        settled_by: Option<FactId>,
        /// What it decides.
        decides: Vec<CheckId>,
    },
    /// A check to be proved with an instrument.
    ToProve {
        /// The check.
        check: CheckId,
        /// With what.
        by: Proof,
    },
}

/// With what a check is proved.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Proof {
    /// Flow tester at the attachment's inlet.
    Flow,
    /// Gauge at the attachment's inlet.
    InletGauge,
    /// Gauge at the attachment's outlet.
    OutletGauge,
    /// Vacuum gauge at the motor's inlet while it runs down.
    VacuumGauge,
    /// Gauges before and behind the couplings.
    BothSides,
    /// Gauge in the case line.
    CaseGauge,
    /// Tachometer at the rotor.
    Tachometer,
    /// Thermometer over half an hour of work.
    Thermometer,
    /// By working it beside the machine's functions.
    Functions,
    /// Tape or scale.
    TapeOrScale,
    /// By looking at it, or trying it.
    Look,
}

pub(super) fn asks(pairing: &Pairing) -> Vec<Ask> {
    let failing = pairing.open_checks().iter().filter(|check| check.fails()).map(|check| check.id);
    let checks: Vec<_> = failing.chain(pairing.unmendable.iter().copied()).collect();
    let decides = |question: MakerQuestion| {
        let mut decides: Vec<_> =
            checks.iter().copied().filter(|id| remarks::questions(&[*id], &[]).contains(&question)).collect();
        decides.sort_unstable();
        decides.dedup();
        decides
    };
    pairing.questions.iter().map(|&question| Ask { question, decides: decides(question) }).collect()
}

pub(super) fn rests_on(pairing: &Pairing) -> Vec<RestsOn> {
    let checks = pairing.open_checks();
    let mut all = Vec::new();
    let mut told: Vec<FactId> = Vec::new();
    // A no waits for nothing: only what that no rests on is told.
    let is_no = pairing.verdict == Verdict::DoesNotFit;
    // What the verdict waits for comes first.
    for blocks in [true, false].into_iter().filter(|_| !is_no) {
        let open = checks.iter().filter(|check| check.outcome == Outcome::NotKnown && check.blocks == blocks);
        for missing in open.flat_map(|check| &check.missing) {
            if told.contains(&missing.fact) {
                continue;
            }
            told.push(missing.fact);
            let lacks = |check: &&fit::Check| check.missing.iter().any(|m| m.fact == missing.fact);
            let decides = checks.iter().filter(lacks).map(|check| check.id).collect();
            all.push(RestsOn::Missing { missing: missing.clone(), decides, blocks });
        }
    }
    for assumed in &pairing.assumptions {
        let rests = |check: &&fit::Check| {
            check.assumed.contains(&assumed.id) && (!is_no || pairing.unmendable.contains(&check.id))
        };
        let decides: Vec<_> = checks.iter().filter(rests).map(|check| check.id).collect();
        // What only the machine before its changes rested on no longer matters.
        if !decides.is_empty() {
            all.push(RestsOn::Assumption { assumed: *assumed, settled_by: fact_of(assumed.id), decides });
        }
    }
    all.extend(
        pairing.to_prove.iter().filter(|_| !is_no).map(|&check| RestsOn::ToProve { check, by: proof_of(check) }),
    );
    all
}

/// With what a check is proved at the machine.
fn proof_of(check: CheckId) -> Proof {
    match check {
        CheckId::FlowWindow | CheckId::Power => Proof::Flow,
        CheckId::Pressure | CheckId::ReliefOverlap | CheckId::TorqueLimit | CheckId::SharedTool => Proof::InletGauge,
        CheckId::BackPressure => Proof::OutletGauge,
        CheckId::RunDown => Proof::VacuumGauge,
        CheckId::Couplings => Proof::BothSides,
        CheckId::CasePressure => Proof::CaseGauge,
        CheckId::RotorSpeed => Proof::Tachometer,
        CheckId::Heat => Proof::Thermometer,
        CheckId::Functions | CheckId::StraightTravel | CheckId::CreepSpeed => Proof::Functions,
        CheckId::Lift | CheckId::WeightClass | CheckId::Clearance | CheckId::Mounting => Proof::TapeOrScale,
        CheckId::LineRating
        | CheckId::Direction
        | CheckId::ReturnFilter
        | CheckId::Oil
        | CheckId::Electrics
        | CheckId::ExtraFunctions
        | CheckId::Guarding
        | CheckId::Work
        | CheckId::PumpDemand
        | CheckId::CentreType
        | CheckId::ReverseLock
        | CheckId::FeedOrder
        | CheckId::ReturnShut
        | CheckId::AttachmentOff
        | CheckId::StopAndRestart
        | CheckId::Coupler
        | CheckId::ContinuousFlow => Proof::Look,
    }
}

/// The figure that takes the place of a range; none for the limits of practice, which a dealer's table may move.
fn fact_of(assumption: AssumptionId) -> Option<FactId> {
    Some(match assumption {
        AssumptionId::SupplyLength | AssumptionId::SupplyBore => FactId::SupplyLine,
        AssumptionId::ReturnLength | AssumptionId::ReturnBore => FactId::ReturnLine,
        AssumptionId::CouplingLoss => FactId::CouplingLoss,
        AssumptionId::OilViscosity => FactId::OilGrade,
        AssumptionId::OperatingMass => FactId::OperatingMass,
        AssumptionId::CircuitFlow => FactId::CircuitFlow,
        AssumptionId::CircuitRelief => FactId::CircuitRelief,
        AssumptionId::EnginePower => FactId::EnginePower,
        AssumptionId::TankVolume => FactId::TankVolume,
        AssumptionId::CoolerConductance => FactId::CoolerConductance,
        AssumptionId::CaseBore | AssumptionId::CaseLength => FactId::CaseLineSize,
        AssumptionId::SpoolReturnLoss | AssumptionId::DirectReturnLoss => FactId::ReturnLoss,
        AssumptionId::FilterLoss => FactId::FilterLoss,
        AssumptionId::OilCleanliness => FactId::OilCleanliness,
        AssumptionId::FiltrationRating => FactId::FiltrationRating,
        AssumptionId::PumpLeak => FactId::PumpLeak,
        AssumptionId::PumpPowerShare | AssumptionId::PumpEfficiency => FactId::PowerLimit,
        AssumptionId::LoadSensingMargin => FactId::PumpMargin,
        AssumptionId::CutOffBand | AssumptionId::PumpRatedPressure => FactId::PumpCutOff,
        AssumptionId::EngineDroop => FactId::HighIdle,
        AssumptionId::ReliefOverride => FactId::ReliefOverride,
        AssumptionId::MotorVolumetric => FactId::MotorVolumetric,
        AssumptionId::MotorHydromechanical => FactId::MotorHydromechanical,
        AssumptionId::CaseFlow => FactId::CaseFlow,
        AssumptionId::ReturnPulsation => FactId::ReturnPulsation,
        AssumptionId::FreeRunning | AssumptionId::FreeRunningShare => FactId::FreeRunning,
        AssumptionId::TankPressure => FactId::TankPressure,
        AssumptionId::OutletLimit => FactId::OutletLimit,
        AssumptionId::CaseLimit => FactId::CaseLimit,
        AssumptionId::FunctionsPressure => FactId::Functions,
        AssumptionId::ReactionTorque => FactId::ReactionTorque,
        AssumptionId::FunctionsUseful
        | AssumptionId::PilotHeat
        | AssumptionId::DividerLoss
        | AssumptionId::ReliefGap
        | AssumptionId::WarmEnough
        | AssumptionId::OilStop
        | AssumptionId::PinBridge
        | AssumptionId::ShimWidth => return None,
    })
}
