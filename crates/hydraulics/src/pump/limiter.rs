//! The torque limiter: what keeps pumps from stalling their engine.
//!
//! It holds a *torque*: power is limited only because the engine's speed is. At another speed the same torque is another
//! power. Its ideal curve is Q·p = const; real two-spring regulators go along it in two straight lines.

use super::Pump;
use quantity::{Kind, Pressure, Torque};
use std::f64::consts::TAU;

/// How the pumps of one engine share its torque. Pumps that share one are a *power group*.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Limiter {
    /// Nothing limits them.
    None,
    /// Each has its own: `ε_i ≤ 2π·η_hm·T/(V_i·p_i)`.
    Individual(Torque),
    /// One acts on the sum of the pressures and strokes all alike, whatever each really displaces:
    /// `ε ≤ 2π·η_hm·T_Σ/ΣV_i·p_i`. Common on excavators with two pumps.
    PressureSum(Torque),
    /// One acts on the sum of the torques really taken: a pump that idles leaves its torque to the other. Where all want
    /// more than there is, each gets the same share of what it wants.
    TorqueSum(Torque),
}

impl Limiter {
    /// To what each pump is stroked, of what its control wants, at the pressure of each. The three lists are in the
    /// order of the pumps; what is missing in one is left out.
    ///
    /// ```
    /// use hydraulics::{Pump, pump::Limiter};
    /// use quantity::{AngularVelocity, Displacement, Kind, Pressure, Torque, Unit};
    /// let bar = |p| Pressure::from_si(Unit::Bar.to_si(p));
    /// let pump = Pump {
    ///     displacement: Displacement::from_si(63e-6), volumetric: 0.95, hydromechanical: 0.93, rated_pressure: None,
    /// };
    /// // 60 kW at 2000 rpm for two pumps at 170 bar each: 187 L/min together.
    /// let speed = AngularVelocity::from_si(Unit::RevolutionPerMinute.to_si(2000.0));
    /// let limiter = Limiter::PressureSum(Torque::from_si(60e3 / speed.si()));
    /// let strokes = limiter.strokes(&[pump, pump], &[1.0, 1.0], &[bar(170.0), bar(170.0)]);
    /// let flow = pump.flow(strokes[0], speed, bar(170.0)) + pump.flow(strokes[1], speed, bar(170.0));
    /// assert!((Unit::LitrePerMinute.of_si(flow.si()) - 187.0).abs() < 0.5);
    /// // One limit for each would leave the idle one's torque unused; a limit on the sum of torques does not.
    /// let idle = [1.0, 0.0];
    /// let alone = Limiter::TorqueSum(Torque::from_si(60e3 / speed.si())).strokes(&[pump, pump], &idle, &[bar(170.0); 2]);
    /// assert!(alone[0] > strokes[0]);
    /// ```
    pub fn strokes(&self, pumps: &[Pump], wanted: &[f64], pressures: &[Pressure]) -> Vec<f64> {
        let taken = || pumps.iter().zip(wanted).zip(pressures);
        let sum_over = |stroke: fn(f64) -> f64| -> f64 {
            taken().map(|((pump, &wish), &pressure)| pump.torque(stroke(wish), pressure).si()).sum()
        };
        match *self {
            Self::None => taken().map(|((_, &wish), _)| wish).collect(),
            Self::Individual(torque) => taken()
                .map(|((pump, &wish), &pressure)| wish.min(share_of(torque, pump.torque(1.0, pressure).si())))
                .collect(),
            Self::PressureSum(torque) => {
                let most = share_of(torque, sum_over(|_| 1.0));
                taken().map(|((_, &wish), _)| wish.min(most)).collect()
            }
            Self::TorqueSum(torque) => {
                let share = share_of(torque, sum_over(|wish| wish)).min(1.0);
                taken().map(|((_, &wish), _)| wish * share).collect()
            }
        }
    }
}

/// How much of a torque there is, as a share; without demand there is any amount.
fn share_of(torque: Torque, demand: f64) -> f64 {
    if demand > 0.0 { torque.si() / demand } else { f64::INFINITY }
}

/// The pressure from which on a limit holds a pump that is stroked out fully, `p = 2π·η_hm·T/V`: the corner of its curve.
///
/// ```
/// use hydraulics::{Pump, pump::limiter::corner};
/// use quantity::{Displacement, Kind, Torque, Unit};
/// // 100 cm³ at 1000 rpm and 20 kW, 191 N·m: 120 bar.
/// let pump = Pump {
///     displacement: Displacement::from_si(100e-6), volumetric: 1.0, hydromechanical: 1.0, rated_pressure: None,
/// };
/// let torque = Torque::from_si(20e3 / Unit::RevolutionPerMinute.to_si(1000.0));
/// assert!((Unit::Bar.of_si(corner(&pump, torque).si()) - 120.0).abs() < 1e-9);
/// ```
pub fn corner(pump: &Pump, torque: Torque) -> Pressure {
    Pressure::from_si(TAU * pump.hydromechanical * torque.si() / pump.displacement.si())
}
