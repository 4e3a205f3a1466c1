//! How the attachment is made to turn slowly: what bounds its flow while it is bled, watched for its direction and warmed. A source
//! that holds its set flow gives all of it at low idle already: there low idle is not low speed.

use super::{Job, Place};
use serde::Serialize;
use table::{ChangeId, PumpControl};

/// What turns the flow down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Slow {
    /// The priority divider, turned to its lowest.
    Divider,
    /// The regulator that is fitted, not yet sealed.
    Regulator,
    /// The machine's own flow setting.
    Setting,
    /// The engine: its pumps give less at low idle.
    Engine,
    /// Nothing, or nobody states what.
    Cannot,
}

impl Slow {
    /// Of a circuit as it goes to work. What is not stated counts as nothing that could turn it down.
    pub(super) fn of(place: Place, makes: impl Fn(ChangeId) -> bool) -> Self {
        let circuit = place.circuit;
        if circuit.divider.is_some() {
            return Self::Divider;
        }
        if makes(ChangeId::FlowLimit) {
            return Self::Regulator;
        }
        if circuit.flow_setting.is_some() {
            return Self::Setting;
        }
        let by_engine =
            |control| matches!(control, Some(PumpControl::Fixed | PumpControl::Negative | PumpControl::Positive));
        let mut pumps = circuit.pumps.iter().map(|id| place.carrier.pumps.iter().find(|pump| pump.id == *id));
        let all = pumps.all(|pump| pump.is_some_and(|pump| by_engine(pump.control)));
        if all && !circuit.pumps.is_empty() && circuit.flow_limit.is_none() { Self::Engine } else { Self::Cannot }
    }
}

impl Job<'_> {
    /// What turns the flow down.
    pub fn slow(&self) -> Slow {
        Slow::of(self.after, |change| self.makes(change))
    }
}
