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
pub use warm::warmest_start;

use super::evaluation::Evaluation;
use super::facts::Facts;
use super::question::Findings;
use super::setup::Setup;
use super::{Check, CheckId, judge};
use quantity::{Named, ThermodynamicTemperature};
use smallvec::smallvec;

/// What the rule of a check finds. `warm` is the lowest oil temperature at which it must hold at full speed.
pub fn findings<'f>(id: CheckId, facts: &'f Facts, warm: ThermodynamicTemperature) -> Findings<'f> {
    match id {
        CheckId::FlowWindow => smallvec![flow_window::low(facts, warm), flow_window::high(facts, warm)],
        CheckId::RotorSpeed => rotor_speed::check(facts, warm).into(),
        CheckId::Pressure => pressure::check(facts, warm),
        CheckId::Power => power::check(facts, warm),
        CheckId::BackPressure => back_pressure::check(facts, warm).into(),
        CheckId::CasePressure => case_pressure::check(facts, warm),
        CheckId::ReturnFilter => return_filter::check(facts),
        CheckId::WeightClass => weight_class::check(facts),
        CheckId::Mounting => mounting::check(facts).into(),
        CheckId::SharedTool => tools::shared(facts),
        CheckId::ReliefOverlap => relief_overlap::check(facts),
        CheckId::LineRating => ratings::lines(facts),
        CheckId::Couplings => ratings::couplings(facts),
        CheckId::Direction => control::direction(facts).into(),
        CheckId::RunDown => run_down::check(facts).into(),
        CheckId::Functions => functions::check(facts, warm).into(),
        CheckId::Heat => heat::check(facts).into(),
        CheckId::Oil => oil::check(facts),
        CheckId::Lift => lift::check(facts),
        CheckId::Electrics => electrics::check(facts),
        CheckId::ExtraFunctions => electrics::extra_functions(facts),
        CheckId::Guarding => guarding::check(facts).into(),
        CheckId::Work => work::check(facts).into(),
        CheckId::PumpDemand => feed::pump_demand(facts).into(),
        CheckId::CentreType => control::centre_type(facts).into(),
        CheckId::ReverseLock => control::reverse_lock(facts).into(),
        CheckId::FeedOrder => feed::feed_order(facts).into(),
        CheckId::StraightTravel => feed::straight_travel(facts).into(),
        CheckId::ReturnShut => control::return_shut(facts).into(),
        CheckId::AttachmentOff => tools::off(facts),
        CheckId::StopAndRestart => control::stop_and_restart(facts).into(),
        CheckId::Coupler => coupler::check(facts),
        CheckId::Clearance => coupler::clearance(facts).into(),
        CheckId::TorqueLimit => torque_limit::check(facts),
        CheckId::CreepSpeed => work::creep_speed(facts),
        CheckId::ContinuousFlow => control::continuous_flow(facts).into(),
    }
}

/// One check, with all that people read.
///
/// # Panics
/// Never: every rule finds something.
pub fn check(id: CheckId, facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    judge::whole(findings(id, facts, warm), facts.trace()).expect("every rule finds something")
}

/// How one check comes out, and no more: for the hundreds of machines that a search tries.
///
/// # Panics
/// Never: every rule finds something.
pub fn outcome(id: CheckId, facts: &Facts, warm: ThermodynamicTemperature) -> Check {
    judge::outcome(findings(id, facts, warm)).expect("every rule finds something")
}

/// One check, with what it was judged by.
pub fn evaluate(id: CheckId, facts: &Facts, warm: ThermodynamicTemperature) -> Evaluation {
    let facts = facts.traced();
    let check = check(id, &facts, warm);
    let inputs = facts.trace().map(|trace| trace.behind(&check)).unwrap_or_default();
    Evaluation { check, inputs }
}

/// What speaks against a motor that is hot already with oil at a temperature in its case drain; nothing where its seal is rated for it.
pub fn hot_motor(facts: &Facts, in_the_line: ThermodynamicTemperature) -> Option<Check> {
    judge::whole(case_pressure::hot_motor(facts, in_the_line)?.into(), facts.trace())
}

/// Whether something speaks against it.
pub fn is_hot_motor_at_risk(facts: &Facts, in_the_line: ThermodynamicTemperature) -> bool {
    case_pressure::hot_motor(facts, in_the_line).is_some_and(|asked| judge::outcome(asked.into()).is_some())
}

/// How every check comes out for a search; the balance of heat, which takes as long as all the others, only where nothing else fails.
pub fn in_a_search(facts: &Facts) -> Vec<Check> {
    let warm = facts.warm_enough;
    let others = CheckId::ALL.iter().filter(|id| **id != CheckId::Heat);
    let mut checks: Vec<Check> = others.map(|&id| outcome(id, facts, warm)).collect();
    if !checks.iter().any(Check::fails) {
        checks.push(outcome(CheckId::Heat, facts, warm));
    }
    checks
}

/// Every check, in the order of the list.
pub fn all(facts: &Facts) -> Vec<Check> {
    let warm = facts.warm_enough;
    CheckId::ALL.iter().map(|&id| check(id, facts, warm)).collect()
}

/// How every check comes out, in the order of the list.
pub fn outcomes(facts: &Facts) -> Vec<Check> {
    let warm = facts.warm_enough;
    CheckId::ALL.iter().map(|&id| outcome(id, facts, warm)).collect()
}

impl Setup<'_> {
    /// Every check of the machine as it is.
    pub fn checks(self) -> Vec<Check> {
        all(&self.facts())
    }
}
