//! What readings say of the machine itself, rather than of the machine with its changes: figures to be kept as measured.

use super::{Measurement, Read};
use crate::pairing::{FactId, Pairing};
use crate::quantity::{Amount, names};
use crate::table::{ChangeId, Circuit};
use serde::Serialize;

names! {
    /// A figure of the machine that a reading gives.
    "figure learned" pub enum Learned {
        /// The flow that its circuit gives.
        Flow = "flow",
        /// The pressure at which its relief passes all of it.
        Relief = "relief",
        /// Speed of the engine at work.
        WorkingSpeed = "working-speed",
        /// Speed of the engine without load.
        HighIdle = "high-idle",
        /// Pressure where the attachment's oil comes back into the machine, at a flow.
        Return = "return",
    }
}

/// A figure to be kept on the machine.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Lesson {
    /// Which.
    pub what: Learned,
    /// How much.
    pub value: Amount,
    /// At which flow; of a pressure in the return.
    pub at: Option<Amount>,
}

impl Learned {
    /// The fact of the machine that it is.
    pub fn fact(self) -> FactId {
        match self {
            Self::Flow => FactId::CircuitFlow,
            Self::Relief => FactId::CircuitRelief,
            Self::WorkingSpeed | Self::HighIdle => FactId::HighIdle,
            Self::Return => FactId::ReturnLoss,
        }
    }

    fn of(reading: Measurement) -> Option<Self> {
        match reading {
            Measurement::FlowFree => Some(Self::Flow),
            Measurement::Relief => Some(Self::Relief),
            Measurement::EngineWorking => Some(Self::WorkingSpeed),
            Measurement::EngineFree => Some(Self::HighIdle),
            Measurement::OutletWorking => Some(Self::Return),
            _ => None,
        }
    }

    /// Whether a change makes the reading one of the change, not of the machine as it stands without it.
    fn is_changed_by(self, change: ChangeId) -> bool {
        match self {
            Self::Flow => matches!(
                change,
                ChangeId::MachineFlowSetting | ChangeId::FlowLimit | ChangeId::PriorityShare | ChangeId::EngineSpeed
            ),
            Self::Relief => {
                matches!(change, ChangeId::ReliefSetting | ChangeId::OwnRelief | ChangeId::PriorityShare)
            }
            Self::WorkingSpeed | Self::HighIdle => change == ChangeId::EngineSpeed,
            Self::Return => matches!(
                change,
                ChangeId::DirectReturn
                    | ChangeId::FilterReturn
                    | ChangeId::ReturnLine
                    | ChangeId::ReturnFilter
                    | ChangeId::Cooler
            ),
        }
    }
}

/// What the readings say of the machine as it stands without its changes; `circuit` is the one that drives the attachment.
///
/// A relief of the head's own or of another tool may end the pressure first: then the reading is not the machine's.
pub fn learned(pairing: &Pairing, circuit: &Circuit, read: &[Read]) -> Vec<Lesson> {
    let value = |what| read.iter().find(|read| read.what == what).map(|read| read.value);
    let tool_first = circuit.shared_with.iter().flatten().any(|tool| tool.own_relief != Some(false));
    let ended_elsewhere = circuit.head_relief.is_some() || circuit.divider.is_some() || tool_first;
    let mut all = Vec::new();
    for read in read {
        let Some(what) = Learned::of(read.what) else { continue };
        let changed = pairing.changes.iter().any(|change| what.is_changed_by(change.id));
        if changed || read.value.si() <= 0.0 || what == Learned::Relief && ended_elsewhere {
            continue;
        }
        let at = if what == Learned::Return { value(Measurement::FlowWorking) } else { None };
        if what != Learned::Return || at.is_some() {
            all.push(Lesson { what, value: read.value, at });
        }
    }
    all
}
