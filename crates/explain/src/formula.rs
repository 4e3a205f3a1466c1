//! Which relations give a number. What each says, where it holds and who published it stands in `wording`.

use crate::whence::{BrochureFigure, OilFigure, PointFigure};
use fit::trace::Worked;
use fit::{Bound, CheckId, Evaluation, Load, SettingId};
use quantity::string_enum;
use table::{Head, MachineEnd, MotorKind};

string_enum! {
    /// A relation by which a number is worked out.
    "formula" pub enum Formula {
        /// What the pumps offer at a pressure.
        PumpFlow = "pump-flow",
        /// The most that can flow when nothing hinders.
        MostFlow = "most-flow",
        /// The one flow at which pumps and circuit agree.
        Balance = "balance",
        /// Where a relief begins to open.
        Relief = "relief",
        /// Where the whole flow ends by relief or cut-off.
        HeldFast = "held-fast",
        /// What a line, coupling, valve or filter takes.
        LineLoss = "line-loss",
        /// How the oil thins.
        Viscosity = "viscosity",
        /// Speed of the rotor.
        RotorSpeed = "rotor-speed",
        /// Pressure left for the motor.
        PressureLeft = "pressure-left",
        /// The relief that a maker asks for.
        ReliefAsked = "relief-asked",
        /// Pressure that a stalled head sees.
        DeadPressure = "dead-pressure",
        /// Hydraulic power.
        HydraulicPower = "hydraulic-power",
        /// What the engine can spare.
        EngineShare = "engine-share",
        /// Power at the motor's shaft.
        ShaftPower = "shaft-power",
        /// What of the power warms the oil.
        Heat = "heat",
        /// Pressure at the motor's outlet.
        BackPressure = "back-pressure",
        /// Pressure at the motor's outlet with a return that pulsates.
        PulsatingReturn = "pulsating-return",
        /// Pressure at the shaft seal.
        CasePressure = "case-pressure",
        /// Leakage into the housing.
        Leakage = "leakage",
        /// Pressure that hoses, couplings and tools see.
        SeesRelief = "sees-relief",
        /// Flow through a coupling.
        CouplingFlow = "coupling-flow",
        /// The distance between two limiters.
        ReliefGap = "relief-gap",
        /// Torque held fast.
        Torque = "torque",
        /// What a loader lifts.
        LoaderLift = "loader-lift",
        /// What an excavator lifts.
        ExcavatorLift = "excavator-lift",
        /// What a coupler carries.
        CouplerLoad = "coupler-load",
        /// How far an attachment swings in.
        Clearance = "clearance",
        /// The machine's mass in the window.
        MassWindow = "mass-window",
        /// Where the oil settles.
        HeatBalance = "heat-balance",
        /// Pressure at the inlet of a motor that runs down.
        RunDown = "run-down",
        /// Flow left to the functions.
        FlowLeft = "flow-left",
        /// Travel speed in its window.
        CreepWindow = "creep-window",
        /// What is to be worked against what the head takes.
        WorkWindow = "work-window",
        /// A flow that is set.
        SetFlow = "set-flow",
        /// A pressure that is set.
        SetPressure = "set-pressure",
        /// An engine speed that is chosen.
        SetSpeed = "set-speed",
        /// The oil temperature to which a machine is idled first.
        SetWarmth = "set-warmth",
        /// The relief on another tool's side.
        SetToolRelief = "set-tool-relief",
        /// A low-pressure relief in the return.
        SetReturnRelief = "set-return-relief",
        /// The pins that a kit bridges to.
        PinsBridged = "pins-bridged",
        /// A part of a size.
        CheapestPart = "cheapest-part",
        /// The share of the pumps' oil that the head gets.
        ShareOfPumps = "share-of-pumps",
        /// What a change costs.
        ChangeCost = "change-cost",
        /// What a set of changes costs.
        SetCost = "set-cost",
        /// No figure decides: a rule does.
        Rule = "rule",
    }
}

/// Of a check as it came out.
pub fn of_check(evaluation: &Evaluation, head: &Head, end: Option<MachineEnd>) -> Vec<Formula> {
    use Formula as F;
    let check = &evaluation.check;
    let circuit = [F::Balance, F::PumpFlow, F::LineLoss, F::Viscosity];
    let after = |first: &[Formula], then: &[Formula]| [first, then].concat();
    let impact = head.motor.as_ref().and_then(|motor| motor.kind) == Some(MotorKind::Impact);
    let on_the_way = |worked| evaluation.intermediate().any(|known| known == worked);
    let least = check.bound == Some(Bound::AtLeast);
    if check.bound.is_none() {
        // A figure that is missing is a figure still: the weight, the lift.
        return vec![F::Rule];
    }
    match check.id {
        CheckId::FlowWindow if least => circuit.to_vec(),
        CheckId::FlowWindow => after(&circuit, &[F::MostFlow]),
        CheckId::RotorSpeed => vec![F::RotorSpeed, F::MostFlow],
        CheckId::Pressure if !least => vec![F::DeadPressure],
        CheckId::Pressure if !on_the_way(Worked::WholeFlowUpTo) => vec![F::ReliefAsked],
        CheckId::Pressure => after(&[F::PressureLeft, F::Relief], &[F::LineLoss, F::Viscosity]),
        CheckId::Power if on_the_way(Worked::PressureNeeded) => after(&[F::EngineShare], &[F::LineLoss, F::Viscosity]),
        CheckId::Power => after(&[F::HydraulicPower], &circuit),
        CheckId::BackPressure if impact => after(&[F::PulsatingReturn], &circuit),
        CheckId::BackPressure => after(&[F::BackPressure], &circuit),
        CheckId::CasePressure => after(&[F::CasePressure, F::Leakage], &[F::LineLoss, F::Viscosity]),
        CheckId::SharedTool | CheckId::LineRating | CheckId::AttachmentOff | CheckId::ExtraFunctions => {
            vec![F::SeesRelief]
        }
        CheckId::Couplings if check.limit.is_some_and(|limit| limit.dimension() == quantity::Dimension::Flow) => {
            after(&[F::CouplingFlow], &circuit)
        }
        CheckId::Couplings => vec![F::SeesRelief],
        CheckId::ReliefOverlap => vec![F::ReliefGap],
        CheckId::RunDown => vec![F::RunDown],
        CheckId::Functions => after(&[F::FlowLeft], &circuit),
        CheckId::Heat => after(&[F::HeatBalance, F::Heat], &circuit),
        CheckId::Lift if end == Some(MachineEnd::Arm) => vec![F::ExcavatorLift],
        CheckId::Lift => vec![F::LoaderLift],
        CheckId::WeightClass => vec![F::MassWindow],
        CheckId::Coupler => vec![F::CouplerLoad],
        CheckId::Clearance => vec![F::Clearance],
        CheckId::TorqueLimit => vec![F::Torque],
        CheckId::CreepSpeed => vec![F::CreepWindow],
        CheckId::Work => vec![F::WorkWindow],
        CheckId::ReturnFilter
        | CheckId::Mounting
        | CheckId::Direction
        | CheckId::Oil
        | CheckId::Electrics
        | CheckId::Guarding
        | CheckId::PumpDemand
        | CheckId::CentreType
        | CheckId::ReverseLock
        | CheckId::FeedOrder
        | CheckId::StraightTravel
        | CheckId::ReturnShut
        | CheckId::StopAndRestart
        | CheckId::ContinuousFlow => vec![F::Rule],
    }
}

/// Of a setting.
pub fn of_setting(setting: SettingId) -> Vec<Formula> {
    use Formula as F;
    match setting {
        SettingId::Flow => vec![F::SetFlow],
        SettingId::Relief | SettingId::HeadRelief => vec![F::SetPressure, F::PressureLeft],
        SettingId::EngineSpeed => vec![F::SetSpeed],
        SettingId::OilTemperature => vec![F::SetWarmth, F::Viscosity],
        SettingId::ToolRelief => vec![F::SetToolRelief],
        SettingId::ReturnRelief => vec![F::SetReturnRelief],
        SettingId::Pin => vec![F::PinsBridged],
        SettingId::Bore | SettingId::RatedFlow | SettingId::RatedPressure | SettingId::Conductance => {
            vec![F::CheapestPart]
        }
        SettingId::ShareAtWork | SettingId::ShareFree => vec![F::ShareOfPumps, F::FlowLeft],
    }
}

/// Of a figure at a temperature of the oil.
pub fn of_oil(figure: OilFigure) -> Vec<Formula> {
    match figure {
        OilFigure::Viscosity => vec![Formula::Viscosity],
        OilFigure::Flow => of_point(PointFigure::Flow, Load::Working),
        OilFigure::Pump => of_point(PointFigure::PumpPressure, Load::Working),
        OilFigure::BackPressure => of_point(PointFigure::HeadOutlet, Load::Free),
        OilFigure::CasePressure => of_point(PointFigure::CasePressure, Load::Free),
    }
}

/// Of a figure of an operating point.
pub fn of_point(figure: PointFigure, load: Load) -> Vec<Formula> {
    use Formula as F;
    let circuit = [F::Balance, F::PumpFlow, F::LineLoss, F::Viscosity];
    let after = |first: &[Formula]| [first, &circuit].concat();
    match figure {
        PointFigure::PumpPressure | PointFigure::HeadInlet if load == Load::Stalled => vec![F::HeldFast],
        PointFigure::Flow | PointFigure::PumpPressure | PointFigure::HeadInlet => circuit.to_vec(),
        PointFigure::HeadOutlet => after(&[F::BackPressure]),
        PointFigure::CasePressure => after(&[F::CasePressure, F::Leakage]),
        PointFigure::RotorSpeed => after(&[F::RotorSpeed]),
        PointFigure::ShaftPower => after(&[F::ShaftPower]),
        PointFigure::Heat => after(&[F::Heat]),
    }
}

/// Of what is left of a brochure's figure.
pub fn of_brochure(figure: BrochureFigure) -> Vec<Formula> {
    use Formula as F;
    match figure {
        BrochureFigure::Flow => vec![F::Balance, F::PumpFlow, F::LineLoss, F::Viscosity],
        BrochureFigure::Pressure => vec![F::PressureLeft, F::Relief, F::LineLoss, F::Viscosity],
    }
}
