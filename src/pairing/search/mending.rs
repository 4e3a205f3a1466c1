//! Which changes can mend which check. A search that takes one failing check and tries each of these finds the cheapest set, as
//! long as nothing is left out here; a test holds it against trying all.

use crate::pairing::{Because, Bound, Check, CheckId, Reason};
use crate::table::ChangeId;

/// What bounds a flow.
const BOUNDS_FLOW: &[ChangeId] = &[ChangeId::MachineFlowSetting, ChangeId::FlowLimit, ChangeId::PriorityShare];

/// The changes that can mend or settle a failing check. The others leave the check's figures as they are or only make them
/// worse.
#[expect(clippy::too_many_lines, reason = "a list, one entry a check")]
pub fn mending(check: &Check) -> &'static [ChangeId] {
    use ChangeId as C;
    let too_much = check.bound == Some(Bound::AtMost);
    match check.id {
        CheckId::FlowWindow | CheckId::Power if too_much => BOUNDS_FLOW,
        CheckId::FlowWindow | CheckId::Power => &[
            C::MachineFlowSetting,
            C::EngineSpeed,
            C::PriorityShare,
            C::ReliefSetting,
            C::DirectReturn,
            C::FilterReturn,
            C::ReturnLine,
            C::SupplyLine,
            C::Couplings,
            C::IsolateTool,
            C::WarmUp,
        ],
        CheckId::RotorSpeed => BOUNDS_FLOW,
        CheckId::Pressure if is_because(check, Because::ReliefLow) => {
            &[C::ReliefSetting, C::PriorityShare, C::IsolateTool]
        }
        CheckId::Pressure if too_much => &[C::ReliefSetting, C::OwnRelief, C::PriorityShare, C::ToolRelief],
        CheckId::Pressure => &[
            C::ReliefSetting,
            C::DirectReturn,
            C::FilterReturn,
            C::ReturnLine,
            C::SupplyLine,
            C::Couplings,
            C::PriorityShare,
            C::IsolateTool,
            C::WarmUp,
        ],
        CheckId::BackPressure => &[
            C::DirectReturn,
            C::FilterReturn,
            C::ReturnLine,
            C::Couplings,
            C::MachineFlowSetting,
            C::FlowLimit,
            C::PriorityShare,
            C::WarmUp,
        ],
        CheckId::CasePressure => &[
            C::CaseLine,
            C::DirectReturn,
            C::FilterReturn,
            C::ReturnLine,
            C::Couplings,
            C::MachineFlowSetting,
            C::FlowLimit,
            C::PriorityShare,
            C::WarmUp,
        ],
        CheckId::SharedTool => &[C::ToolRelief, C::IsolateTool, C::ReliefSetting],
        CheckId::AttachmentOff => &[C::ToolRelief, C::IsolateTool, C::ReliefSetting, C::OwnRelief],
        CheckId::ReliefOverlap => &[C::ReliefSetting, C::PriorityShare],
        CheckId::TorqueLimit => &[C::ReliefSetting, C::OwnRelief, C::PriorityShare],
        CheckId::LineRating => {
            &[C::HoseClass, C::SupplyLine, C::ReliefSetting, C::DirectReturn, C::FilterReturn, C::ReturnLine]
        }
        CheckId::Couplings => &[C::Couplings, C::ReliefSetting, C::MachineFlowSetting, C::FlowLimit, C::PriorityShare],
        CheckId::ReturnFilter => &[C::ReturnFilter, C::FilterReturn],
        CheckId::Functions => &[
            C::MachineFlowSetting,
            C::FlowLimit,
            C::PriorityShare,
            C::EngineSpeed,
            C::SupplyLine,
            C::Couplings,
            C::DirectReturn,
            C::FilterReturn,
            C::ReturnLine,
        ],
        CheckId::Heat => &[
            C::Cooler,
            C::FilterReturn,
            C::ReturnLine,
            C::DirectReturn,
            C::SupplyLine,
            C::Couplings,
            C::MachineFlowSetting,
            C::FlowLimit,
            C::PriorityShare,
            C::ReliefSetting,
            C::OwnRelief,
        ],
        CheckId::Oil => &[C::OilChange],
        CheckId::Mounting => &[C::MountingKit],
        CheckId::Guarding => &[C::Guarding],
        CheckId::RunDown => &[C::MakeUpCheck],
        // Dividers ahead of the valve settle where the oil comes from, for better or worse.
        CheckId::PumpDemand => &[C::DemandSignal, C::PriorityShare],
        CheckId::FeedOrder | CheckId::CentreType | CheckId::StraightTravel => &[C::PriorityShare],
        CheckId::ReverseLock => &[C::ReverseLock, C::DirectReturn, C::FilterReturn, C::PriorityShare],
        CheckId::ReturnShut => &[C::ReturnRelief, C::DirectReturn, C::FilterReturn],
        CheckId::Electrics | CheckId::StopAndRestart => &[C::Harness],
        CheckId::ContinuousFlow => &[C::Harness, C::PriorityShare],
        CheckId::ExtraFunctions => &[C::DoorCircuit],
        CheckId::WeightClass
        | CheckId::Direction
        | CheckId::Lift
        | CheckId::Work
        | CheckId::Coupler
        | CheckId::Clearance
        | CheckId::CreepSpeed => &[],
    }
}

/// What lowers the need of pressure at work, and with it the relief that is set for it.
pub const SAVES_LOSS: [ChangeId; 8] = [
    ChangeId::SupplyLine,
    ChangeId::Couplings,
    ChangeId::DirectReturn,
    ChangeId::FilterReturn,
    ChangeId::ReturnLine,
    ChangeId::MachineFlowSetting,
    ChangeId::FlowLimit,
    ChangeId::WarmUp,
];

/// What makes a pressure or flow of the circuit known that nobody states.
pub const MAKES_KNOWN: [ChangeId; 3] = [ChangeId::ReliefSetting, ChangeId::MachineFlowSetting, ChangeId::PriorityShare];

/// Whether a check waits for a figure of the circuit.
pub fn is_figure_missing(check: &Check) -> bool {
    check.reason == Reason::FactMissing && check.bound.is_some()
}

/// Whether a check fails by the height of the relief.
pub fn by_relief(check: &Check) -> bool {
    match check.id {
        CheckId::TorqueLimit
        | CheckId::LineRating
        | CheckId::Couplings
        | CheckId::SharedTool
        | CheckId::AttachmentOff => true,
        CheckId::Pressure | CheckId::ReliefOverlap => check.bound == Some(Bound::AtMost),
        _ => false,
    }
}

fn is_because(check: &Check, cause: Because) -> bool {
    matches!(check.reason, Reason::Beyond { because } | Reason::Undecided { because } if because == cause)
}

/// What no change mends, soonest seen first.
pub const UNMENDABLE: [CheckId; 7] = [
    CheckId::WeightClass,
    CheckId::Lift,
    CheckId::Coupler,
    CheckId::Direction,
    CheckId::Work,
    CheckId::Clearance,
    CheckId::CreepSpeed,
];
