//! The checks, one file each. Each answers one question of the trade about the machine as it stands.

mod back_pressure;
mod case_pressure;
mod flow_window;
mod mounting;
mod power;
mod pressure;
mod return_filter;
mod rotor_speed;
mod weight_class;

pub use case_pressure::bears_hot_motor;
pub use flow_window::{high as flow_below_greatest, low as flow_above_least};
pub use mounting::can_be_bridged;
pub use pressure::left_for_motor as pressure_left;

use super::assume::WARM_ENOUGH_CELSIUS;
use super::facts::Facts;
use super::{Check, CheckId};
use crate::quantity::{Kind, Named, ThermodynamicTemperature, Unit};

/// The oil temperature from which full speed is asked.
pub fn warm_enough() -> ThermodynamicTemperature {
    ThermodynamicTemperature::from_si(Unit::Celsius.to_si(WARM_ENOUGH_CELSIUS))
}

/// One check. `warm` is the lowest oil temperature at which it must hold at full speed.
pub fn check(id: CheckId, facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    match id {
        CheckId::FlowWindow => flow_window::check(facts, warm),
        CheckId::RotorSpeed => rotor_speed::check(facts, warm),
        CheckId::Pressure => pressure::check(facts, warm),
        CheckId::Power => power::check(facts, warm),
        CheckId::BackPressure => back_pressure::check(facts, warm),
        CheckId::CasePressure => case_pressure::check(facts, warm),
        CheckId::ReturnFilter => return_filter::check(facts),
        CheckId::WeightClass => weight_class::check(facts),
        CheckId::Mounting => mounting::check(facts),
    }
}

/// Every check, in the order of the list.
pub fn all(facts: &Facts) -> Vec<Check> {
    CheckId::ALL.iter().map(|&id| check(id, facts, warm_enough())).collect()
}
