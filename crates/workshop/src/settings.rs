//! The setting sheet: every value to set with its tolerance and what it was, how valves stand with the attachment on and off,
//! which instruments go where and what they should read.

use super::readings::readings;
use super::value::{OffValue, Value, tolerance};
use super::{Gauge, GaugePoint, Job, Reading, State, gauges};
use fit::{Bound, ChangeReason, SettingId, Sharing};
use quantity::{Amount, Quantity, ThermodynamicTemperature};
use serde::Serialize;
use table::ChangeId;

/// What to set and what to read.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SettingSheet {
    /// What to set, in working order.
    pub values: Vec<Value>,
    /// How head and functions share the pumps' oil: a result to be felt, not a setting.
    pub sharing: Option<Sharing>,
    /// How everything stands with the attachment on and off.
    pub positions: Vec<State>,
    /// Which instruments go where.
    pub gauges: Vec<Gauge>,
    /// The oil temperature for which the readings hold.
    pub oil: Amount,
    /// The engine speed at which they hold, where the machine states it.
    pub engine: Option<Amount>,
    /// What the instruments should read.
    pub readings: Vec<Reading>,
}

impl SettingSheet {
    pub(super) fn of(job: &Job, states: &[State], oil: ThermodynamicTemperature) -> Self {
        let mut solved = readings(job, oil);
        let values = values(job);
        let gauges = gauges::gauges(job, &mut solved, &values);
        Self {
            values,
            sharing: job.pairing.sharing.filter(|_| job.after.circuit.divider.is_some()),
            positions: states.to_vec(),
            gauges,
            oil: Amount::of(oil),
            engine: job.after.carrier.engine.working_speed.map(|speed| Amount::of(speed.nominal)),
            readings: solved,
        }
    }
}

fn values(job: &Job) -> Vec<Value> {
    let mut all = Vec::new();
    for change in &job.pairing.changes {
        for setting in &change.settings {
            let Some((at, off, bound)) = how_set(job, change.id, setting.name, setting.value) else { continue };
            let on = tolerance(setting.value, bound);
            let only_if_needed = change.reason == ChangeReason::Settles;
            all.push(Value { what: setting.name, change: Some(change.id), on, bound, off, at, only_if_needed });
        }
    }
    let told = all.iter().any(|value| value.what == SettingId::OilTemperature);
    if let Some(value) = job.pairing.warm_up.filter(|_| !told) {
        let bound = Some(Bound::AtLeast);
        let on = tolerance(value, bound);
        let (what, at) = (SettingId::OilTemperature, GaugePoint::Oil);
        all.push(Value { what, change: None, on, bound, off: OffValue::Nothing, at, only_if_needed: false });
    }
    all
}

/// Where a setting is read, what it is with the attachment off, and whether it is a limit; none for sizes and ratings, which are
/// chosen rather than set.
fn how_set(
    job: &Job,
    change: ChangeId,
    setting: SettingId,
    value: Amount,
) -> Option<(GaugePoint, OffValue, Option<Bound>)> {
    let before = job.before;
    let was = |stated: Option<Amount>| stated.map_or(OffValue::ReadFirst, |value| OffValue::Was { value });
    let flow = before.circuit.flow.map(|flow| Amount::of(flow.nominal));
    let relief = before.circuit.relief.map(|relief| Amount::of(relief.nominal));
    Some(match (setting, change) {
        // A sealed regulator is a part of its own.
        // So is a divider that stood there before, and it keeps its setting: the valve never gives what it gives.
        (SettingId::Flow, ChangeId::FlowLimit | ChangeId::DividerFlow) => (GaugePoint::Flow, OffValue::Stays, None),
        // Vented, a divider takes no part: the valve gives its flow up to its relief as before.
        (SettingId::Flow, _) => (GaugePoint::Flow, was(flow), None),
        (SettingId::Relief, ChangeId::DividerRelief) | (SettingId::HeadRelief, _) => {
            (GaugePoint::HeadInlet, OffValue::Stays, None)
        }
        (SettingId::Relief, _) => (GaugePoint::HeadInlet, was(relief), None),
        (SettingId::ToolRelief, _) => (tool_relief_at(job, value), OffValue::Stays, None),
        (SettingId::ReturnRelief, _) => (GaugePoint::Return, OffValue::Stays, Some(Bound::AtMost)),
        (SettingId::EngineSpeed, _) => {
            let speed = before.carrier.engine.working_speed.map(|speed| Amount::of(speed.nominal));
            (GaugePoint::Engine, was(speed), None)
        }
        (SettingId::OilTemperature, _) => (GaugePoint::Oil, OffValue::Nothing, Some(Bound::AtLeast)),
        (
            SettingId::Bore
            | SettingId::RatedFlow
            | SettingId::Pin
            | SettingId::RatedPressure
            | SettingId::ShareAtWork
            | SettingId::ShareFree
            | SettingId::Conductance,
            _,
        ) => return None,
    })
}

/// Behind a valve whose own relief opens first, or whose relief nobody states, another cannot be set on the machine.
fn tool_relief_at(job: &Job, value: Amount) -> GaugePoint {
    let opens_later = job.before.circuit.relief.is_some_and(|relief| relief.nominal.si() > value.si());
    if opens_later { GaugePoint::Tool } else { GaugePoint::Bench }
}
