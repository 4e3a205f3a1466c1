//! What to look at for each fault, where no reading tells it from another. Common practice, no published source.

use super::Measurement;
use super::fault::Fault;
use quantity::string_enum;

string_enum! {
    /// Something to be looked at, listened to or tried.
    "look-at" pub enum LookAt {
        /// How much the pumps leak into their housings: more than a tenth of their flow is worn.
        PumpCaseFlow = "pump-case-flow",
        /// Power mode and eco switch; the engine's speed holds under load.
        PowerMode = "power-mode",
        /// The engine under load: its speed falls.
        EngineUnderLoad = "engine-under-load",
        /// Idle switch and throttle stop.
        IdleSwitch = "idle-switch",
        /// The relief's body: hot; set again with a gauge.
        ReliefBody = "relief-body",
        /// What the relief is marked with, and that it opens where it was set.
        ReliefSetting = "relief-setting",
        /// The flow once the relief's port is blocked off: it returns.
        ReliefPort = "relief-port",
        /// At stall: quiet, and no heat over the relief.
        QuietAtStall = "quiet-at-stall",
        /// At stall: a whine, and flow in the tank line.
        WhineAtStall = "whine-at-stall",
        /// The direct line to the tank: cold while the head runs.
        DirectLine = "direct-line",
        /// Couplings and valves of the return, with the engine off.
        ReturnCouplings = "return-couplings",
        /// The couplings of the supply: one is hot; the pressure before and behind it.
        SupplyCouplings = "supply-couplings",
        /// The print on the return hose; whether the pressure falls as the oil warms.
        HosePrint = "hose-print",
        /// The filter's indicator; the pressure before and behind it.
        FilterIndicator = "filter-indicator",
        /// The case line from motor to tank, with the engine off.
        CaseLine = "case-line",
        /// What runs off by the case line, against that of a new motor.
        MotorWear = "motor-wear",
        /// The valve at the head: hot.
        HeadValve = "head-valve",
        /// The flow setting; functions that are faster than computed.
        FlowSetting = "flow-setting",
        /// The head while a function is worked: it dips.
        WorkAFunction = "work-a-function",
        /// Whether the machine pulls to one side when it travels.
        TracksPull = "tracks-pull",
        /// The head while another lever is moved: better.
        AnotherLever = "another-lever",
        /// The other tool: it creeps.
        OtherTool = "other-tool",
        /// The plate of the motor.
        MotorPlate = "motor-plate",
        /// The pulleys, or the gear's plate.
        Pulleys = "pulleys",
        /// The belt: tension and glazing.
        Belt = "belt",
        /// The cooler's fins and fan, and which line is hot.
        Cooler = "cooler",
    }
}

impl Fault {
    /// What to look at for it.
    pub fn look_at(self) -> LookAt {
        match self {
            Self::WornPump => LookAt::PumpCaseFlow,
            Self::PowerLimitLow => LookAt::PowerMode,
            Self::EngineWeak => LookAt::EngineUnderLoad,
            Self::LowThrottle => LookAt::IdleSwitch,
            Self::ReliefLow => LookAt::ReliefBody,
            Self::ReliefHigh => LookAt::ReliefSetting,
            Self::ReliefLeaking => LookAt::ReliefPort,
            Self::CutOffLow => LookAt::QuietAtStall,
            Self::ReliefUnderCutOff => LookAt::WhineAtStall,
            Self::ChangeoverOnSpool => LookAt::DirectLine,
            Self::ReturnHalfShut => LookAt::ReturnCouplings,
            Self::SupplyHalfShut => LookAt::SupplyCouplings,
            Self::ReturnHoseSmall => LookAt::HosePrint,
            Self::FilterBlocked => LookAt::FilterIndicator,
            Self::CaseLinePinched => LookAt::CaseLine,
            Self::WornMotor => LookAt::MotorWear,
            Self::RunDownLeaking => LookAt::HeadValve,
            Self::SetFlowLow | Self::SetFlowHigh => LookAt::FlowSetting,
            Self::PriorityStuck => LookAt::WorkAFunction,
            Self::PumpNotJoined => LookAt::TracksPull,
            Self::NoDemandSignal => LookAt::AnotherLever,
            Self::IsolatingValveOpen => LookAt::OtherTool,
            Self::WrongMotor => LookAt::MotorPlate,
            Self::WrongPulley => LookAt::Pulleys,
            Self::BeltSlips => LookAt::Belt,
            Self::CoolerBlocked => LookAt::Cooler,
        }
    }

    /// Whether a dangerous fault drives a reading beyond its limit.
    pub(super) fn drives(self, what: Measurement) -> bool {
        use Measurement as M;
        match self {
            Self::ReturnHalfShut => matches!(what, M::OutletFree | M::OutletWorking),
            Self::CaseLinePinched => matches!(what, M::CaseFree | M::CaseWorking),
            Self::ReliefHigh => matches!(what, M::Relief | M::InletWorking | M::InletFree),
            Self::SetFlowHigh => {
                matches!(what, M::FlowFree | M::FlowWorking | M::FlowBusy | M::RotorFree | M::RotorWorking)
            }
            Self::WrongMotor | Self::WrongPulley => matches!(what, M::RotorFree | M::RotorWorking),
            _ => false,
        }
    }
}
