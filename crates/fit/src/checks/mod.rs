//! The checks, one file each. Each answers one question of the trade about the machine as it stands.

mod back_pressure;
mod case_pressure;
mod control;
mod coupler;
mod electrics;
mod feed;
mod flow_window;
mod functions;
mod guarding;
mod heat;
pub mod lift;
mod mounting;
mod oil;
mod oil_of_the_day;
mod power;
mod pressure;
mod ratings;
mod relief_overlap;
mod return_filter;
mod rotor_speed;
mod run_down;
mod tools;
mod torque_limit;
mod warm;
mod weight_class;
mod work;

pub use case_pressure::hot_motor;
pub use electrics::{greatest_current, outputs_needed};
pub use feed::from_one_of_several;
pub use flow_window::{high as flow_below_greatest, low as flow_above_least};
pub use guarding::lacking as guards_lacking;
pub use lift::farthest as farthest_point;
pub use mounting::can_be_bridged;
pub use oil::{Taken, oils_taken};
pub use oil_of_the_day::{against as against_oil, coldest_start, is_thick as is_oil_thick, may_get_too_thin};
pub use power::least as power_above_least;
pub use pressure::left_for_motor as pressure_left;
pub use ratings::weakest_hose;
pub use warm::{warm_enough, warmest_start};

use super::facts::Facts;
use super::setup::Setup;
use super::{Check, CheckId};
use quantity::{Named, ThermodynamicTemperature};

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
        CheckId::SharedTool => tools::shared(facts),
        CheckId::ReliefOverlap => relief_overlap::check(facts),
        CheckId::LineRating => ratings::lines(facts),
        CheckId::Couplings => ratings::couplings(facts),
        CheckId::Direction => control::direction(facts),
        CheckId::RunDown => run_down::check(facts),
        CheckId::Functions => functions::check(facts, warm),
        CheckId::Heat => heat::check(facts),
        CheckId::Oil => oil::check(facts),
        CheckId::Lift => lift::check(facts),
        CheckId::Electrics => electrics::check(facts),
        CheckId::ExtraFunctions => electrics::extra_functions(facts),
        CheckId::Guarding => guarding::check(facts),
        CheckId::Work => work::check(facts),
        CheckId::PumpDemand => feed::pump_demand(facts),
        CheckId::CentreType => control::centre_type(facts),
        CheckId::ReverseLock => control::reverse_lock(facts),
        CheckId::FeedOrder => feed::feed_order(facts),
        CheckId::StraightTravel => feed::straight_travel(facts),
        CheckId::ReturnShut => control::return_shut(facts),
        CheckId::AttachmentOff => tools::off(facts),
        CheckId::StopAndRestart => control::stop_and_restart(facts),
        CheckId::Coupler => coupler::check(facts),
        CheckId::Clearance => coupler::clearance(facts),
        CheckId::TorqueLimit => torque_limit::check(facts),
        CheckId::CreepSpeed => work::creep_speed(facts),
        CheckId::ContinuousFlow => control::continuous_flow(facts),
    }
}

/// Every check for a search; the balance of heat, which takes as long as all the others, only where nothing else fails.
pub fn in_a_search(facts: &Facts) -> Vec<Check> {
    let warm = warm_enough(facts);
    let others = CheckId::ALL.iter().filter(|id| **id != CheckId::Heat);
    let mut checks: Vec<Check> = others.map(|&id| check(id, facts, warm)).collect();
    if !checks.iter().any(Check::fails) {
        checks.push(heat::check(facts));
    }
    checks
}

/// Every check, in the order of the list.
pub fn all(facts: &Facts) -> Vec<Check> {
    let warm = warm_enough(facts);
    CheckId::ALL.iter().map(|&id| check(id, facts, warm)).collect()
}

impl Setup<'_> {
    /// Every check of the machine as it is.
    pub fn checks(self) -> Vec<Check> {
        all(&self.facts())
    }
}
