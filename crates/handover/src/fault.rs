//! What may be wrong with a machine at its hand-over: each fault a function from rig to rig with a severity, like a change is one
//! from carrier to carrier. The same circuit is solved with it; nothing here says what is read then.
//!
//! Faults, magnitudes and likelihoods are common practice, no published source. Not here: a coil short of voltage or badly
//! earthed, which makes a valve hunt or drop out, and air drawn in by the suction line, which makes everything read unsteadily.
//! A steady circuit has no figures for either; they are seen and heard, not computed.

use super::site::{Has, Site};
use fit::installation::heat_up::HeatUp;
use quantity::string_enum;
use table::PumpControl;

string_enum! {
    /// Something wrong with machine or head. The names are kept with what a person wrote down.
    "fault" pub enum Fault {
        /// Pumps that leak more than they should. Severity: their leakage, as a multiple.
        WornPump = "worn-pump",
        /// A power mode or limiter that takes too much off. Severity: what it leaves of the power.
        PowerLimitLow = "power-limit-low",
        /// An engine that does not hold its speed under load. Severity: what is left of the speed at work.
        EngineWeak = "engine-weak",
        /// Auto-idle, or a throttle not at its end. Severity: what is left of the speed.
        LowThrottle = "low-throttle",
        /// The relief set too low. Severity: what is left of its pressure.
        ReliefLow = "relief-low",
        /// The relief set too high. Severity: its pressure, as a share.
        ReliefHigh = "relief-high",
        /// A relief whose seat leaks. Severity: what it lets go at its pressure, as a share of the flow at work.
        ReliefLeaking = "relief-leaking",
        /// Pumps that cut off too early. Severity: where, as a share of the pressure at which the circuit ends.
        CutOffLow = "cut-off-low",
        /// A relief that opens before the pumps cut off. Severity: where, as a share of their cut-off.
        ReliefUnderCutOff = "relief-under-cut-off",
        /// The changeover valve left on the spool. Severity: what that way loses, as a multiple.
        ChangeoverOnSpool = "changeover-on-spool",
        /// A coupling or valve of the return half shut. Severity: what the coupling loses, as a multiple.
        ReturnHalfShut = "return-half-shut",
        /// A coupling of the supply half shut. Severity: what it loses, as a multiple.
        SupplyHalfShut = "supply-half-shut",
        /// A return hose of too small a bore. Severity: its bore, as a share.
        ReturnHoseSmall = "return-hose-small",
        /// The return filter blocked, on its bypass. Severity: what the bypass takes to open, as a multiple.
        FilterBlocked = "filter-blocked",
        /// The case line pinched or not open. Severity: what it loses, as a multiple.
        CaseLinePinched = "case-line-pinched",
        /// A motor that leaks more than it should. Severity: what leaks besides, as a share of the flow at work.
        WornMotor = "worn-motor",
        /// The check valve beside the motor leaking. Severity: what passes it at work, as a share of the flow.
        RunDownLeaking = "run-down-leaking",
        /// The flow set too low. Severity: what is set of it.
        SetFlowLow = "set-flow-low",
        /// A divider that gives no priority. Severity: what the functions take, as a multiple.
        PriorityStuck = "priority-stuck",
        /// One of several pumps not joined in. Severity: what it takes away, as a multiple of its share.
        PumpNotJoined = "pump-not-joined",
        /// Pumps that are not told that oil is wanted. Severity: what they still give.
        NoDemandSignal = "no-demand-signal",
        /// The valve open that should shut another tool off. Severity: where that tool's relief opens, as a share.
        IsolatingValveOpen = "isolating-valve-open",
        /// The flow set too high. Severity: what is set of it.
        SetFlowHigh = "set-flow-high",
        /// Another motor than was reckoned with, of less displacement. Severity: its displacement, as a share.
        WrongMotor = "wrong-motor",
        /// Another pulley or gear than was reckoned with. Severity: its ratio, as a share.
        WrongPulley = "wrong-pulley",
        /// A belt that slips at work. Severity: by how much, as a share.
        BeltSlips = "belt-slips",
        /// A cooler blocked, or passed by. Severity: what it still carries away.
        CoolerBlocked = "cooler-blocked",
    }
}

impl Fault {
    /// Whether it can hurt somebody or destroys the head at once: stop, whatever else is read.
    pub fn is_dangerous(self) -> bool {
        matches!(
            self,
            Self::ReturnHalfShut | Self::CaseLinePinched | Self::SetFlowHigh | Self::WrongMotor | Self::WrongPulley
        )
    }

    /// How often it is met against others (common practice, no published source): what was just changed or connected more often
    /// than what wears.
    pub(super) fn likelihood(self) -> f64 {
        match self {
            Self::ReliefLow
            | Self::SetFlowLow
            | Self::LowThrottle
            | Self::PowerLimitLow
            | Self::ReturnHalfShut
            | Self::SupplyHalfShut
            | Self::ChangeoverOnSpool
            | Self::NoDemandSignal
            | Self::CaseLinePinched => 2.0,
            Self::WornPump
            | Self::ReliefHigh
            | Self::ReturnHoseSmall
            | Self::SetFlowHigh
            | Self::PriorityStuck
            | Self::PumpNotJoined
            | Self::IsolatingValveOpen
            | Self::FilterBlocked
            | Self::CoolerBlocked
            | Self::BeltSlips
            | Self::WornMotor => 1.0,
            Self::EngineWeak
            | Self::ReliefLeaking
            | Self::CutOffLow
            | Self::ReliefUnderCutOff
            | Self::RunDownLeaking
            | Self::WrongMotor
            | Self::WrongPulley => 0.6,
        }
    }

    /// The severities that are looked at, mildest first.
    pub fn severities(self) -> &'static [f64] {
        match self {
            Self::WornPump => &[2.5, 4.0, 6.0, 8.0],
            Self::PowerLimitLow | Self::SetFlowLow => &[0.85, 0.75, 0.62, 0.5],
            Self::EngineWeak => &[0.92, 0.85, 0.78, 0.7],
            Self::LowThrottle => &[0.92, 0.85, 0.75, 0.6],
            Self::ReliefLow | Self::CutOffLow | Self::WrongMotor => &[0.9, 0.8, 0.7, 0.6],
            Self::ReliefHigh => &[1.08, 1.15, 1.25, 1.4],
            Self::ReliefLeaking => &[0.1, 0.2, 0.35, 0.5],
            Self::ReliefUnderCutOff => &[0.98, 0.95, 0.92],
            Self::ChangeoverOnSpool => &[0.7, 1.0, 1.4, 2.0],
            Self::ReturnHalfShut | Self::SupplyHalfShut => &[3.0, 8.0, 25.0, 100.0],
            Self::ReturnHoseSmall => &[0.85, 0.75, 0.65, 0.55],
            Self::FilterBlocked => &[0.8, 1.0, 1.4, 2.0],
            Self::CaseLinePinched => &[10.0, 30.0, 100.0, 300.0],
            Self::WornMotor => &[0.06, 0.1, 0.16, 0.25],
            Self::RunDownLeaking => &[0.06, 0.12, 0.2, 0.3],
            Self::PriorityStuck => &[0.7, 1.0, 1.5, 2.0],
            Self::PumpNotJoined => &[0.9, 1.0, 1.1],
            Self::NoDemandSignal => &[0.25, 0.15, 0.05],
            Self::IsolatingValveOpen => &[1.0, 0.93, 0.86],
            Self::SetFlowHigh | Self::WrongPulley => &[1.12, 1.25, 1.4, 1.6],
            Self::BeltSlips => &[0.06, 0.12, 0.2, 0.35],
            Self::CoolerBlocked => &[0.55, 0.4, 0.25, 0.1],
        }
    }

    /// Whether it can be on this machine with this head.
    pub(super) fn can_be(self, site: &Site) -> bool {
        let rig = &site.rig;
        match self {
            Self::WornPump | Self::EngineWeak | Self::LowThrottle | Self::SupplyHalfShut | Self::ReturnHalfShut => true,
            // A constant pump has no limiter that could stand wrong.
            Self::PowerLimitLow => site.has(Has::PowerLimit) && site.control != Some(PumpControl::Fixed),
            Self::ReliefLow | Self::ReliefHigh | Self::ReliefLeaking => rig.circuit.relief.is_some(),
            Self::CutOffLow => site.strokes_back(),
            Self::ReliefUnderCutOff => {
                let relief = rig.circuit.relief.map(|relief| relief.full_flow);
                site.cuts_off().zip(relief).is_some_and(|(cut_off, relief)| cut_off < relief)
            }
            Self::ChangeoverOnSpool => site.by_spool.is_some(),
            Self::ReturnHoseSmall => !rig.places.hoses_back.is_empty(),
            Self::FilterBlocked => site.has_filter(),
            Self::CaseLinePinched => rig.circuit.drain.is_some(),
            Self::WornMotor | Self::WrongMotor => site.computed.rotor,
            Self::RunDownLeaking => site.has(Has::RunDownCheck),
            Self::SetFlowLow | Self::SetFlowHigh => site.has(Has::SetFlow),
            Self::PriorityStuck => site.has(Has::Divider),
            Self::PumpNotJoined => !site.shares.is_empty(),
            Self::NoDemandSignal => site.has(Has::DemandSignal),
            Self::IsolatingValveOpen => site.tool.is_some(),
            Self::WrongPulley | Self::BeltSlips => site.computed.rotor && site.computed.belt,
            Self::CoolerBlocked => site.computed.warms.as_ref().is_some_and(HeatUp::cools),
        }
    }
}
