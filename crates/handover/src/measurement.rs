//! What is measured at a hand-over: where and under which load.

use fit::Load;
use quantity::{Dimension, string_enum};
use workshop::{GaugePoint, ReadWith};

string_enum! {
    /// Something that is read on the machine, in the order of work: what is there before the start, with a tester in the line, with
    /// the attachment connected. The names are kept with what a person wrote down.
    "measurement" pub enum Measurement {
        /// The oil's temperature at the start.
        OilStart = "oil-start",
        /// The air's temperature.
        Air = "air",
        /// The engine's speed with the head running free, full throttle.
        EngineFree = "engine-free",
        /// The engine's speed at work, full throttle.
        EngineWorking = "engine-working",
        /// Flow by a tester, its load valve set to the inlet's pressure running free.
        FlowFree = "flow-free",
        /// Flow by a tester, its load valve set to the inlet's pressure at work.
        FlowWorking = "flow-working",
        /// Flow by a tester, its load valve set to 90 % of the pressure at which the circuit ends.
        FlowNearRelief = "flow-near-relief",
        /// As at work, while a function of the machine works.
        FlowBusy = "flow-busy",
        /// Pressure at the inlet with the tester shut.
        Relief = "relief",
        /// Pressure at the pumps, running free.
        PumpFree = "pump-free",
        /// Pressure at the pumps, at work.
        PumpWorking = "pump-working",
        /// Pressure at the head's inlet, running free.
        InletFree = "inlet-free",
        /// Pressure at the head's inlet, at work.
        InletWorking = "inlet-working",
        /// Pressure at the head's outlet, running free.
        OutletFree = "outlet-free",
        /// Pressure at the head's outlet, at work.
        OutletWorking = "outlet-working",
        /// Pressure in the case line at the motor, running free.
        CaseFree = "case-free",
        /// Pressure in the case line at the motor, at work.
        CaseWorking = "case-working",
        /// Flow of the case line by bucket and stopwatch, at work.
        CaseFlow = "case-flow",
        /// Speed of the rotor, running free.
        RotorFree = "rotor-free",
        /// Speed of the rotor, at work.
        RotorWorking = "rotor-working",
        /// Speed of the motor's shaft at work, where a belt or gear is between it and the rotor.
        MotorWorking = "motor-working",
        /// The oil's temperature after 30 minutes at work.
        OilAfter = "oil-after",
    }
}

impl Measurement {
    /// Where it is read.
    pub fn at(self) -> GaugePoint {
        match self {
            Self::OilStart | Self::OilAfter => GaugePoint::Oil,
            Self::Air => GaugePoint::Air,
            Self::EngineFree | Self::EngineWorking => GaugePoint::Engine,
            Self::FlowFree | Self::FlowWorking | Self::FlowNearRelief | Self::FlowBusy => GaugePoint::Flow,
            Self::Relief | Self::InletFree | Self::InletWorking => GaugePoint::HeadInlet,
            Self::PumpFree | Self::PumpWorking => GaugePoint::Pump,
            Self::OutletFree | Self::OutletWorking => GaugePoint::HeadOutlet,
            Self::CaseFree | Self::CaseWorking => GaugePoint::Case,
            Self::CaseFlow => GaugePoint::CaseFlow,
            Self::RotorFree | Self::RotorWorking => GaugePoint::Rotor,
            Self::MotorWorking => GaugePoint::Motor,
        }
    }

    /// Under which load. A tester near the relief stands nearest to work; before the start there is none, and free running
    /// stands for it.
    pub fn load(self) -> Load {
        match self {
            Self::OilStart
            | Self::Air
            | Self::EngineFree
            | Self::FlowFree
            | Self::PumpFree
            | Self::InletFree
            | Self::OutletFree
            | Self::CaseFree
            | Self::RotorFree => Load::Free,
            Self::Relief => Load::Stalled,
            Self::EngineWorking
            | Self::FlowWorking
            | Self::FlowNearRelief
            | Self::FlowBusy
            | Self::PumpWorking
            | Self::InletWorking
            | Self::OutletWorking
            | Self::CaseWorking
            | Self::CaseFlow
            | Self::RotorWorking
            | Self::MotorWorking
            | Self::OilAfter => Load::Working,
        }
    }

    /// With what in the line it is read; none where that is no matter.
    pub fn read_with(self) -> Option<ReadWith> {
        match self {
            Self::FlowFree | Self::FlowWorking | Self::FlowNearRelief | Self::FlowBusy | Self::Relief => {
                Some(ReadWith::Tester)
            }
            Self::OilStart | Self::Air => None,
            _ => Some(ReadWith::Attachment),
        }
    }

    /// What kind of figure it is.
    pub fn dimension(self) -> Dimension {
        match self.at() {
            GaugePoint::Oil | GaugePoint::Air => Dimension::Temperature,
            GaugePoint::Engine | GaugePoint::Rotor | GaugePoint::Motor => Dimension::RotationalSpeed,
            GaugePoint::Flow | GaugePoint::CaseFlow => Dimension::Flow,
            _ => Dimension::Pressure,
        }
    }
}
