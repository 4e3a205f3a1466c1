//! What lost pressure does to the oil: every watt that leaves by no shaft warms it.

use crate::quantity::{Kind, MassDensity, Power, Pressure, ThermalConductance, VolumeRate};

/// Specific heat of mineral oil, J/(kg·K): textbooks give 1760 to 1900; 1880 from memory of data sheets.
pub const SPECIFIC_HEAT: f64 = 1880.0;

/// How much warmer oil is behind a valve in which it loses a pressure and does no work: ΔT = Δp/(ρ·c).
///
/// In kelvin, for a density in kg/m³ and a specific heat in J/(kg·K) above zero. 100 bar make about 6 K.
///
/// ```
/// use pairwright::circuit::heat::{SPECIFIC_HEAT, rise_over_throttle};
/// use pairwright::quantity::{Kind, MassDensity, Pressure};
/// let rise = rise_over_throttle(Pressure::from_si(100e5), MassDensity::from_si(870.0), SPECIFIC_HEAT);
/// assert!((rise - 6.1).abs() < 0.05);
/// ```
pub fn rise_over_throttle(lost: Pressure, density: MassDensity, specific_heat: f64) -> f64 {
    lost.si() / (density.si() * specific_heat)
}

/// Heat that a flow makes by losing a pressure without doing work, P = Δp·Q.
pub fn of_throttling(lost: Pressure, flow: VolumeRate) -> Power {
    lost * flow
}

/// How much warmer than the air the oil becomes in the end with a steady heat: ΔT = P/(UA), in kelvin. None when nothing
/// carries heat away: then it never ends.
pub fn steady_rise(heat: Power, carried: ThermalConductance) -> Option<f64> {
    (carried.si() > 0.0).then(|| heat.si() / carried.si())
}
