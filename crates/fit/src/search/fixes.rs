//! Which changes can fix which check. A search that takes one failing check and tries each of these finds the cheapest set, as
//! long as nothing is left out here; a test holds it against trying all.

use super::judgement::{Judgement, Why};
use crate::{Bound, CheckId};
use table::ChangeId;
use table::ChangeId as C;

/// What bounds a flow.
const BOUNDS_FLOW: &[ChangeId] = &[C::MachineFlowSetting, C::FlowLimit, C::PriorityShare, C::DividerFlow];
/// What loses less on the way back.
const RETURNS: &[ChangeId] = &[C::DirectReturn, C::FilterReturn, C::ReturnLine];
/// What loses less on the way to the head, and in both ways.
const SUPPLIES: &[ChangeId] = &[C::SupplyLine, C::Couplings];

/// Whether a change can fix or settle a failing check. The others leave the check's figures as they are or only make them
/// worse.
pub fn fixes(check: Judgement, change: ChangeId) -> bool {
    let among = |groups: &[&[ChangeId]]| groups.iter().any(|group| group.contains(&change));
    let too_much = check.bound == Some(Bound::AtMost);
    match check.id {
        CheckId::RotorSpeed => among(&[BOUNDS_FLOW]),
        CheckId::FlowWindow | CheckId::Power if too_much => among(&[BOUNDS_FLOW]),
        CheckId::FlowWindow | CheckId::Power => among(&[
            RETURNS,
            SUPPLIES,
            &[
                C::OilChange,
                C::MachineFlowSetting,
                C::EngineSpeed,
                C::PriorityShare,
                C::ReliefSetting,
                C::DividerRelief,
                C::IsolateTool,
                C::WarmUp,
            ],
        ]),
        CheckId::Pressure if check.why == Why::ReliefLow => {
            among(&[&[C::ReliefSetting, C::DividerRelief, C::PriorityShare, C::IsolateTool]])
        }
        CheckId::Pressure if too_much => {
            among(&[&[C::ReliefSetting, C::DividerRelief, C::OwnRelief, C::PriorityShare]])
        }
        CheckId::Pressure => among(&[
            RETURNS,
            SUPPLIES,
            &[C::ReliefSetting, C::DividerRelief, C::PriorityShare, C::IsolateTool, C::OilChange, C::WarmUp],
        ]),
        CheckId::BackPressure => among(&[RETURNS, BOUNDS_FLOW, &[C::Couplings, C::OilChange, C::WarmUp]]),
        CheckId::CasePressure => among(&[RETURNS, BOUNDS_FLOW, &[C::CaseLine, C::Couplings, C::OilChange, C::WarmUp]]),
        CheckId::SharedTool => among(&[&[C::ToolRelief, C::IsolateTool, C::ReliefSetting, C::DividerRelief]]),
        CheckId::AttachmentOff => {
            among(&[&[C::DividerVent, C::ToolRelief, C::IsolateTool, C::ReliefSetting, C::DividerRelief, C::OwnRelief]])
        }
        CheckId::ReliefOverlap => among(&[&[C::ReliefSetting, C::DividerRelief, C::PriorityShare]]),
        CheckId::TorqueLimit => among(&[&[C::ReliefSetting, C::DividerRelief, C::OwnRelief, C::PriorityShare]]),
        // A divider sends the oil one way, at the pressure of its own relief.
        CheckId::LineRating => among(&[
            RETURNS,
            &[C::HoseClass, C::SupplyLine, C::ReliefSetting, C::DividerRelief, C::ReverseLock, C::PriorityShare],
        ]),
        CheckId::Couplings => among(&[BOUNDS_FLOW, &[C::Couplings, C::ReliefSetting, C::DividerRelief]]),
        CheckId::ReturnFilter => among(&[&[C::ReturnFilter, C::FilterReturn]]),
        CheckId::Functions => among(&[RETURNS, SUPPLIES, BOUNDS_FLOW, &[C::EngineSpeed]]),
        CheckId::Heat => {
            among(&[RETURNS, SUPPLIES, BOUNDS_FLOW, &[C::Cooler, C::ReliefSetting, C::DividerRelief, C::OwnRelief]])
        }
        CheckId::Oil if check.why == Why::OilTooThin => among(&[
            RETURNS,
            SUPPLIES,
            BOUNDS_FLOW,
            &[C::OilChange, C::Cooler, C::ReliefSetting, C::DividerRelief, C::OwnRelief],
        ]),
        CheckId::Oil if check.why == Why::OilTooThick => among(&[BOUNDS_FLOW, &[C::OilChange, C::CaseLine]]),
        CheckId::Oil => change == C::OilChange,
        CheckId::Mounting => change == C::MountingKit,
        CheckId::Guarding => change == C::Guarding,
        CheckId::RunDown => change == C::MakeUpCheck,
        // Dividers ahead of the valve settle where the oil comes from, for better or worse.
        CheckId::PumpDemand => among(&[&[C::DemandSignal, C::PriorityShare]]),
        CheckId::FeedOrder | CheckId::StraightTravel => change == C::PriorityShare,
        CheckId::CentreType => among(&[&[C::PriorityShare, C::DividerVent, C::UnloadValve]]),
        CheckId::ReverseLock => among(&[&[C::ReverseLock, C::DirectReturn, C::FilterReturn, C::PriorityShare]]),
        CheckId::ReturnShut => among(&[&[C::ReturnRelief, C::DirectReturn, C::FilterReturn]]),
        CheckId::Electrics | CheckId::StopAndRestart => change == C::Harness,
        CheckId::ContinuousFlow => among(&[&[C::Harness, C::PriorityShare]]),
        CheckId::ExtraFunctions => change == C::DoorCircuit,
        CheckId::WeightClass
        | CheckId::Direction
        | CheckId::Lift
        | CheckId::Work
        | CheckId::Coupler
        | CheckId::Clearance
        | CheckId::CreepSpeed => false,
    }
}

/// Whether a change lowers the need of pressure at work, and with it the relief that is set for it; and the flow that is set above what
/// it aims at, so that the least arrives.
pub fn saves_loss(change: ChangeId) -> bool {
    let others = [C::MachineFlowSetting, C::FlowLimit, C::DividerFlow, C::OilChange, C::WarmUp];
    [RETURNS, SUPPLIES, &others].iter().any(|group| group.contains(&change))
}

/// Whether what a change fits loses pressure in the return, in a larger size less.
pub fn stands_in_return(change: ChangeId) -> bool {
    matches!(change, C::ReturnFilter | C::Cooler)
}

/// What makes a pressure or flow of the circuit known that nobody states.
pub const MAKES_KNOWN: [ChangeId; 4] =
    [ChangeId::ReliefSetting, ChangeId::MachineFlowSetting, ChangeId::PriorityShare, ChangeId::DividerRelief];

/// Whether a check waits for a figure of the circuit.
pub fn is_figure_missing(check: Judgement) -> bool {
    check.why == Why::FigureMissing && check.bound.is_some()
}

/// What sets a relief.
pub const SETS_RELIEF: [ChangeId; 4] = [C::ReliefSetting, C::OwnRelief, C::PriorityShare, C::DividerRelief];

/// What sets a flow.
pub const SETS_FLOW: [ChangeId; 4] = [C::MachineFlowSetting, C::FlowLimit, C::PriorityShare, C::DividerFlow];

/// Whether a check fails by too much flow that whoever sets the flow does not ask about.
pub fn by_flow(check: Judgement) -> bool {
    check.id == CheckId::Couplings || check.id == CheckId::Power && check.bound == Some(Bound::AtMost)
}

/// Whether a check fails by the height of the relief.
pub fn by_relief(check: Judgement) -> bool {
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

/// What no change fixes, soonest seen first.
pub const UNFIXABLE: [CheckId; 7] = [
    CheckId::WeightClass,
    CheckId::Lift,
    CheckId::Coupler,
    CheckId::Direction,
    CheckId::Work,
    CheckId::Clearance,
    CheckId::CreepSpeed,
];
