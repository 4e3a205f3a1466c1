//! The places at a machine that changes can fill.

use table::ChangeId;

/// The places at a machine that changes can fill, at most one option each, in working order. What is set comes after what it
/// depends on.
pub const SLOTS: [Slot; 20] = [
    Slot::Mounting,
    Slot::Guarding,
    Slot::Oil,
    Slot::Case,
    Slot::Return,
    Slot::Filter,
    Slot::Cooler,
    Slot::ReturnRelief,
    Slot::Isolation,
    Slot::Supply,
    Slot::Couplings,
    Slot::Source,
    Slot::Demand,
    Slot::Unload,
    Slot::Relief,
    Slot::RunDown,
    Slot::Reverse,
    Slot::Door,
    Slot::Harness,
    Slot::WarmUp,
];

/// A place at a machine that a change can fill.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slot {
    /// How the head hangs on.
    Mounting,
    /// Guards of the operator.
    Guarding,
    /// The oil.
    Oil,
    /// The motor's drain.
    Case,
    /// The return.
    Return,
    /// The filter in it.
    Filter,
    /// A cooler in it.
    Cooler,
    /// A relief on it.
    ReturnRelief,
    /// What keeps another tool from the head's pressure.
    Isolation,
    /// The hoses to the head.
    Supply,
    /// The couplings.
    Couplings,
    /// What bounds or gives the flow.
    Source,
    /// What tells the pump.
    Demand,
    /// Where the oil goes while the head is off.
    Unload,
    /// The relief.
    Relief,
    /// What lets the rotor run down.
    RunDown,
    /// What bars the reverse.
    Reverse,
    /// What drives the head's other functions.
    Door,
    /// Wires and buttons.
    Harness,
    /// How warm the oil must be.
    WarmUp,
}

impl Slot {
    /// The slot that a change fills.
    pub fn of(change: ChangeId) -> Self {
        match change {
            ChangeId::MountingKit => Self::Mounting,
            ChangeId::Guarding => Self::Guarding,
            ChangeId::OilChange => Self::Oil,
            ChangeId::CaseLine => Self::Case,
            ChangeId::DirectReturn | ChangeId::FilterReturn | ChangeId::ReturnLine => Self::Return,
            ChangeId::ReturnFilter => Self::Filter,
            ChangeId::Cooler => Self::Cooler,
            ChangeId::ReturnRelief => Self::ReturnRelief,
            ChangeId::IsolateTool | ChangeId::ToolRelief => Self::Isolation,
            ChangeId::HoseClass | ChangeId::SupplyLine => Self::Supply,
            ChangeId::Couplings => Self::Couplings,
            ChangeId::FlowLimit
            | ChangeId::MachineFlowSetting
            | ChangeId::EngineSpeed
            | ChangeId::PriorityShare
            | ChangeId::DividerFlow => Self::Source,
            ChangeId::DemandSignal => Self::Demand,
            ChangeId::DividerVent | ChangeId::UnloadValve => Self::Unload,
            ChangeId::ReliefSetting | ChangeId::OwnRelief | ChangeId::DividerRelief => Self::Relief,
            ChangeId::MakeUpCheck => Self::RunDown,
            ChangeId::ReverseLock => Self::Reverse,
            ChangeId::DoorCircuit => Self::Door,
            ChangeId::Harness => Self::Harness,
            ChangeId::WarmUp => Self::WarmUp,
        }
    }

    /// Whether the slot stands by itself: its options leave every figure of the circuit as it is, so that the checks that it
    /// does not fix come out as before (a test proves it). The other slots are coupled by the circuit.
    pub const fn is_separable(self) -> bool {
        matches!(
            self,
            Self::Mounting
                | Self::Guarding
                | Self::ReturnRelief
                | Self::Demand
                | Self::Unload
                | Self::RunDown
                | Self::Door
                | Self::Harness
        )
    }
}
