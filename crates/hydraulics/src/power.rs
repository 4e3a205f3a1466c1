//! Hydraulic power.

use quantity::{Power, Pressure, VolumeRate};

/// Power that a flow carries at a pressure, P = p·Q.
///
/// Symbols: p gauge pressure or pressure difference, Q flow. In shop units P\[kW\] = p\[bar\]·Q\[L/min\]/600 exactly
/// (any fluid-power textbook; the factor is arithmetic). Valid for any p, Q ≥ 0.
///
/// ```
/// use hydraulics::power::hydraulic_power;
/// use quantity::{Quantity, Pressure, Unit, VolumeRate};
/// let p = Pressure::from_si(Unit::Bar.to_si(250.0));
/// let q = VolumeRate::from_si(Unit::LitrePerMinute.to_si(80.0));
/// assert!((Unit::Kilowatt.of_si(hydraulic_power(p, q).si()) - 33.3333).abs() < 1e-4);
/// ```
pub fn hydraulic_power(pressure: Pressure, flow: VolumeRate) -> Power {
    pressure * flow
}
