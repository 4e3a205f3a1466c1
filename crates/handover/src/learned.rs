//! What readings say of the machine itself, rather than of the machine with its changes: figures to be kept as measured.

use super::{Measurement, Read};
use fit::Pairing;
use quantity::{Amount, string_enum};
use serde::Serialize;
use table::{ChangeId, Circuit};

string_enum! {
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
    /// The figure of the machine.
    pub what: Learned,
    /// How much.
    pub value: Amount,
    /// At which flow; of a pressure in the return.
    pub at: Option<Amount>,
}

impl Learned {
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
                ChangeId::MachineFlowSetting
                    | ChangeId::FlowLimit
                    | ChangeId::PriorityShare
                    | ChangeId::DividerFlow
                    | ChangeId::EngineSpeed
            ),
            Self::Relief => {
                matches!(
                    change,
                    ChangeId::ReliefSetting | ChangeId::OwnRelief | ChangeId::PriorityShare | ChangeId::DividerRelief
                )
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

#[cfg(test)]
mod tests {
    use super::super::cases::case;
    use super::*;
    use quantity::{Pressure, Quantity, VolumeRate};

    fn read(what: Measurement, si: f64) -> Read {
        Read { what, value: Amount::from_si(what.dimension(), si) }
    }

    #[test]
    fn a_pairing_without_changes_teaches_of_the_machine() {
        let (flow, bar) = (50.0 / 60_000.0, 1e5);
        let all = [
            read(Measurement::FlowFree, flow),
            read(Measurement::FlowWorking, flow),
            read(Measurement::Relief, 200.0 * bar),
            read(Measurement::EngineWorking, 230.0),
            read(Measurement::OutletWorking, 6.0 * bar),
            read(Measurement::RotorFree, 100.0),
        ];
        let mut case = case("quern-q27", "wrackline-b22");
        case.pairing.changes.clear();
        let circuit = &case.carrier.circuits[0];
        let lessons = learned(&case.pairing, circuit, &all);
        let back = lessons.iter().find(|lesson| lesson.what == Learned::Return).expect("the return");
        assert_eq!(back.value.quantity::<Pressure>(), Some(Pressure::from_si(6.0 * bar)));
        assert_eq!(back.at.and_then(Amount::quantity::<VolumeRate>), Some(VolumeRate::from_si(flow)));
        assert!(lessons.iter().any(|lesson| lesson.what == Learned::Flow));
        // Without the flow a pressure in the return says nothing.
        let fewer = learned(&case.pairing, circuit, &all[4..]);
        assert!(fewer.iter().all(|lesson| lesson.what != Learned::Return));
    }

    #[test]
    fn invariant_what_a_change_makes_is_not_kept_as_a_figure_of_the_machine() {
        let case = case("quern-q56", "thistlecut-r90");
        let all = [
            read(Measurement::FlowFree, 1e-3),
            read(Measurement::FlowWorking, 1e-3),
            read(Measurement::OutletWorking, 6e5),
            read(Measurement::Relief, 2e7),
            read(Measurement::EngineWorking, 230.0),
        ];
        // Its flow and its relief are set, and its return gets a filter.
        let lessons = learned(&case.pairing, &case.carrier.circuits[0], &all);
        let names: Vec<_> = lessons.iter().map(|lesson| lesson.what).collect();
        assert_eq!(names, [Learned::WorkingSpeed]);
    }

    #[test]
    fn a_relief_that_another_may_end_first_is_not_taken_for_the_machines() {
        let case = case("quern-q27", "wrackline-b22");
        let reads = [read(Measurement::Relief, 2e7)];
        let with = |change: fn(&mut Circuit)| {
            let mut circuit = case.carrier.circuits[0].clone();
            circuit.shared_with = Some(Vec::new());
            circuit.head_relief = None;
            circuit.divider = None;
            change(&mut circuit);
            learned(&case.pairing, &circuit, &reads).len()
        };
        assert_eq!(with(|_| {}), 1);
        assert_eq!(with(|circuit| circuit.head_relief = circuit.relief), 0);
        let tool = |own_relief| table::SharedTool {
            name: "thumb".to_owned(),
            greatest_pressure: None,
            greatest_flow: None,
            own_relief,
            isolated: None,
        };
        let mut circuit = case.carrier.circuits[0].clone();
        for (own_relief, lessons) in [(Some(false), 1), (Some(true), 0), (None, 0)] {
            circuit.shared_with = Some(vec![tool(own_relief)]);
            assert_eq!(learned(&case.pairing, &circuit, &reads).len(), lessons, "{own_relief:?}");
        }
    }
}
