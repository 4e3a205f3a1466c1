//! A value to set, and what it is with the attachment off.

use crate::gauge_point::GaugePoint;
use crate::readings::Expected;
use fit::assume::OWN_SETTING;
use fit::{Bound, SettingId};
use quantity::Amount;
use serde::Serialize;
use table::ChangeId;

/// A value to set.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Value {
    /// What it sets.
    pub what: SettingId,
    /// By which change; none for what cold oil asks of a machine as it is.
    pub change: Option<ChangeId>,
    /// To what, with the tolerance of the setting.
    pub on: Expected,
    /// Where it may lie when the value is a limit rather than a target.
    pub bound: Option<Bound>,
    /// What it is with the attachment off.
    pub off: OffValue,
    /// Where it is read while it is set.
    pub at: GaugePoint,
    /// Whether it only settles a doubt: it is set only where what is found out first does not spare it.
    pub only_if_needed: bool,
}

/// What a value is with the attachment off.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(tag = "off", rename_all = "kebab-case")]
pub enum OffValue {
    /// As it was on the machine before the change.
    Was {
        /// The value.
        value: Amount,
    },
    /// As it was; nobody states the value, so that it is read and written down before the change.
    ReadFirst,
    /// It stays as it is set: a part that was not there before.
    Stays,
    /// Nothing is asked.
    Nothing,
}

/// As exactly as a setting can be made; a limit is the value itself.
pub fn tolerance(value: Amount, bound: Option<Bound>) -> Expected {
    let at = |share: f64| Amount::from_si(value.dimension(), value.si() * share);
    match bound {
        None => Expected { nominal: value, low: at(1.0 - OWN_SETTING.minus), high: at(1.0 + OWN_SETTING.plus) },
        Some(_) => Expected { nominal: value, low: value, high: value },
    }
}
