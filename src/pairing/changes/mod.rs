//! The changes: each a function from carrier to carrier. The changed carrier is gathered, solved and checked again like
//! any other; nothing here says that a change helps.

mod catalogue;
mod settings;

pub use catalogue::{Catalogue, ChangeOption};
pub use settings::{solve_flow, solve_relief};

use super::checks::can_be_bridged;
use super::facts::Facts;
use super::{Setting, SettingId};
use crate::quantity::{Amount, Kind, Length, Pressure, Source, Spread, Stated, Unit, VolumeRate};
use crate::table::{
    Carrier, CaseLine, ChangeId, Circuit, Line, Mounting, PointLoss, ReturnFilter, ReturnPath, ReturnRoute, Segment,
};

/// The places at a machine that changes can fill, at most one option each, in working order.
pub const SLOTS: [Slot; 6] = [Slot::Mounting, Slot::Case, Slot::Return, Slot::Filter, Slot::Flow, Slot::Relief];

/// A place at a machine that a change can fill.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slot {
    /// How the head hangs on.
    Mounting,
    /// The motor's drain.
    Case,
    /// The way back of the oil.
    Return,
    /// The filter in it.
    Filter,
    /// What bounds the flow.
    Flow,
    /// The relief.
    Relief,
}

impl Slot {
    /// The slot that a change fills.
    pub fn of(change: ChangeId) -> Self {
        match change {
            ChangeId::MountingKit => Self::Mounting,
            ChangeId::CaseLine => Self::Case,
            ChangeId::DirectReturn => Self::Return,
            ChangeId::ReturnFilter => Self::Filter,
            ChangeId::FlowLimit | ChangeId::MachineFlowSetting => Self::Flow,
            ChangeId::ReliefSetting => Self::Relief,
        }
    }
}

/// A figure that we set or fit ourselves, marked as measured: it is proved with an instrument at the hand-over.
pub(super) fn own<Q: Kind>(quantity: Q, unit: Unit) -> Stated<Q> {
    Stated { nominal: quantity, spread: Spread::Unstated, source: Source::Measured, unit }
}

fn exact<Q: Kind>(quantity: Q, unit: Unit) -> Stated<Q> {
    let spread = Spread::Range { low: quantity, high: quantity };
    Stated { nominal: quantity, spread, source: Source::Published, unit }
}

/// The circuit of a carrier by its id.
fn circuit_mut<'a>(carrier: &'a mut Carrier, id: &crate::table::Id) -> Option<&'a mut Circuit> {
    carrier.circuits.iter_mut().find(|circuit| circuit.id == *id)
}

/// The total length of a line, when all of it is known.
fn known_length(line: &Line) -> Option<Length> {
    let mut sum = Length::from_si(0.0);
    for segment in &line.segments {
        sum += segment.length.as_ref()?.nominal;
    }
    (!line.segments.is_empty()).then_some(sum)
}

/// Sends the return past the spool: a changeover valve and a line of its own to the tank, as long as the return was.
/// What hung on the old way is lost with it: the machine's filter and its cooler.
pub fn direct_return(carrier: &Carrier, circuit: &Circuit, option: &ChangeOption) -> Carrier {
    let mut changed = carrier.clone();
    if let Some(place) = circuit_mut(&mut changed, &circuit.id) {
        let length = known_length(&circuit.return_path.line).map(|length| own(length, Unit::Metre));
        let bore = option.bore.map(|bore| exact(bore, Unit::Millimetre));
        place.return_path = ReturnPath {
            route: Some(ReturnRoute::Direct),
            loss: Some(PointLoss {
                loss: option.loss.unwrap_or(Stated::published(2.0, Unit::Bar)),
                flow: option.rated_flow.unwrap_or(Stated::published(150.0, Unit::LitrePerMinute)),
                viscosity: None,
            }),
            line: Line { segments: vec![Segment { bore, length, standard: None, rating: None }] },
            through_filter: Some(false),
            filter: None,
            through_cooler: Some(false),
        };
    }
    changed
}

/// Puts a filter into the return as it then is.
pub fn return_filter(carrier: &Carrier, circuit: &Circuit, option: &ChangeOption) -> Carrier {
    let mut changed = carrier.clone();
    if let Some(place) = circuit_mut(&mut changed, &circuit.id) {
        let loss = option.loss.zip(option.rated_flow).map(|(loss, flow)| PointLoss { loss, flow, viscosity: None });
        place.return_path.filter =
            Some(ReturnFilter { rated_flow: option.rated_flow, loss, bypass: option.bypass, fineness_um: None });
    }
    changed
}

/// Leads the motor's drain to the tank by a line of its own.
pub fn case_line(carrier: &Carrier, option: &ChangeOption) -> Carrier {
    let bore = option.bore.map(|bore| exact(bore, Unit::Millimetre));
    let line = Line { segments: vec![Segment { bore, length: None, standard: None, rating: None }] };
    Carrier {
        case_line: Some(CaseLine { fitted: true, line, coupling: None, own_port: Some(true) }),
        ..carrier.clone()
    }
}

/// Sets the flow that the machine itself offers to set.
pub fn machine_flow_setting(carrier: &Carrier, circuit: &Circuit, flow: VolumeRate) -> Carrier {
    let mut changed = carrier.clone();
    if let Some(place) = circuit_mut(&mut changed, &circuit.id) {
        place.flow = Some(own(flow, Unit::LitrePerMinute));
    }
    changed
}

/// Fits a sealed flow regulator.
pub fn flow_limit(carrier: &Carrier, circuit: &Circuit, flow: VolumeRate) -> Carrier {
    let mut changed = carrier.clone();
    if let Some(place) = circuit_mut(&mut changed, &circuit.id) {
        place.flow_limit = Some(Stated::published(Unit::LitrePerMinute.of_si(flow.si()), Unit::LitrePerMinute));
    }
    changed
}

/// Resets the relief.
pub fn relief_setting(carrier: &Carrier, circuit: &Circuit, pressure: Pressure) -> Carrier {
    let mut changed = carrier.clone();
    if let Some(place) = circuit_mut(&mut changed, &circuit.id) {
        place.relief = Some(own(pressure, Unit::Bar));
    }
    changed
}

/// Bridges the machine's pins to those of the head.
pub fn mounting_kit(carrier: &Carrier, bridged: &Mounting) -> Carrier {
    let mut changed = carrier.clone();
    changed.mounting.push(bridged.clone());
    changed
}

/// Applies one option to a carrier, solving its setting; with the settings made. None when it cannot be applied here.
pub fn apply(facts: &Facts, option: &ChangeOption) -> Option<(Carrier, Vec<Setting>)> {
    let (carrier, circuit) = (facts.carrier, facts.circuit);
    let bore = || option.bore.map(|bore| Setting { name: SettingId::Bore, value: Amount::of(bore) });
    match option.id {
        ChangeId::DirectReturn => Some((direct_return(carrier, circuit, option), bore().into_iter().collect())),
        ChangeId::ReturnFilter => {
            let rated =
                option.rated_flow.map(|flow| Setting { name: SettingId::RatedFlow, value: Amount::of(flow.nominal) });
            circuit
                .return_path
                .filter
                .is_none()
                .then(|| (return_filter(carrier, circuit, option), rated.into_iter().collect()))
        }
        ChangeId::CaseLine => Some((case_line(carrier, option), bore().into_iter().collect())),
        ChangeId::MountingKit => {
            let bridged = can_be_bridged(facts)?;
            let pin = match bridged {
                Mounting::Pins { pin, .. } => Some(Setting { name: SettingId::Pin, value: Amount::of(pin.nominal) }),
                Mounting::Standard { .. } => None,
            };
            Some((mounting_kit(carrier, bridged), pin.into_iter().collect()))
        }
        ChangeId::MachineFlowSetting | ChangeId::FlowLimit => {
            let flow = solve_flow(facts, option.id)?;
            let changed = if option.id == ChangeId::FlowLimit {
                flow_limit(carrier, circuit, flow)
            } else {
                machine_flow_setting(carrier, circuit, flow)
            };
            Some((changed, vec![Setting { name: SettingId::Flow, value: Amount::of(flow) }]))
        }
        ChangeId::ReliefSetting => {
            let pressure = solve_relief(facts)?;
            let setting = Setting { name: SettingId::Relief, value: Amount::of(pressure) };
            Some((relief_setting(carrier, circuit, pressure), vec![setting]))
        }
    }
}
