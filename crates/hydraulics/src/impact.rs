//! Heads that strike: a breaker is no motor.

use quantity::{Frequency, Kind, Pressure, Volume, VolumeRate};
use uom::si::frequency::hertz;

/// How the flow in the return of a breaker pulsates: the mean of the square over the square of the mean, least, likeliest,
/// greatest (common practice, no published source).
pub const FORM_FACTOR: (f64, f64, f64) = (1.2, 1.5, 2.0);
/// The greatest flow in the return over the mean one, least, likeliest, greatest (common practice, no published source).
pub const PEAK_FLOW: (f64, f64, f64) = (1.5, 2.0, 3.0);

/// A piston that strikes once for each volume that it displaces.
///
/// `f = Q/V_blow`, at about its operating pressure: too little flow and it does not strike, too much and it breaks its
/// piston or tie rods; raising the relief does not raise the blow. The return pulsates, so that what goes
/// with the flow squared loses more than at its mean flow ([`Resistance::pulsating_loss`](super::Resistance::pulsating_loss)).
///
/// ```
/// use hydraulics::Impact;
/// use quantity::{Kind, Pressure, Unit, Volume, VolumeRate};
/// use uom::si::frequency::cycle_per_minute;
/// let breaker = Impact { per_blow: Volume::from_si(Unit::Litre.to_si(0.125)), operating: Pressure::from_si(140e5) };
/// // 100 L/min: 800 blows a minute.
/// let rate = breaker.blow_rate(VolumeRate::from_si(Unit::LitrePerMinute.to_si(100.0)));
/// assert!((rate.get::<cycle_per_minute>() - 800.0).abs() < 1e-6);
/// // Its relief stands 30 to 50 bar above what it works at.
/// assert!((breaker.relief().0.si() - 170e5).abs() < 1.0);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Impact {
    /// What one blow displaces; above zero.
    pub per_blow: Volume,
    /// Operating pressure.
    pub operating: Pressure,
}

impl Impact {
    /// Blows per time.
    pub fn blow_rate(&self, flow: VolumeRate) -> Frequency {
        Frequency::new::<hertz>(flow.si() / self.per_blow.si())
    }

    /// Between what its relief should stand: 30 to 50 bar above the operating pressure (common practice, no published
    /// source). It is no adjustment of force.
    pub fn relief(&self) -> (Pressure, Pressure) {
        (self.operating + Pressure::from_si(30e5), self.operating + Pressure::from_si(50e5))
    }
}
