//! How long a rotor keeps turning after its oil is switched off.

use super::facts::Facts;
use super::{Load, OilState, Point};
use hydraulics::coast_down::{coast_down_time, drag_torque};
use quantity::{Amount, Quantity, Time};

/// How long the rotor keeps turning from free running against the least drag that is usual, s: never a leave to come nearer. None
/// where its inertia, or how fast it turns, is not stated.
pub fn coast_down(facts: &Facts, points: &[Point]) -> Option<Amount> {
    let inertia = facts.head.motor.as_ref()?.inertia?.nominal;
    let motor = facts.nominal_motor()?;
    let free = facts.free.fact.interval()?;
    let warm = |point: &&Point| point.load == Load::Free && point.oil == OilState::Working;
    let speed = points.iter().rev().find(warm)?.rotor_speed?.quantity()?;
    let drag = drag_torque(motor.displacement, free.low) / motor.ratio;
    let time: Time = coast_down_time(inertia, speed, drag);
    time.si().is_finite().then(|| Amount::of(time))
}
