//! The sharp-edged orifice.

use super::Oil;
use quantity::{Kind, Length, Pressure, Unit, VolumeRate};
use std::f64::consts::PI;

/// The discharge coefficient of a sharp edge in a wide pipe, C_d = π/(π+2) = 0.611 (potential flow; *Fluid Power
/// Engineering*, chapter on orifices). Textbooks give 0.60 to 0.65 for thin plates.
pub const SHARP_EDGED: f64 = PI / (PI + 2.0);

/// A hole that oil passes turbulently: Q = C_d·A·√(2Δp/ρ).
///
/// In shop units Q\[L/min\] = 21.074·C_d·d²\[mm\]·√(Δp\[bar\]/ρ\[kg/m³\]). Holds where the hole is short and the flow
/// turbulent; viscosity has no part in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Orifice {
    /// Diameter of the hole, d; above zero.
    pub bore: Length,
    /// C_d, above zero and not above one.
    pub coefficient: f64,
}

impl Orifice {
    /// C_d·A, m².
    fn effective_area(&self) -> f64 {
        self.coefficient * PI / 4.0 * self.bore.si() * self.bore.si()
    }

    /// The flow at a pressure difference ≥ 0.
    ///
    /// ```
    /// use hydraulics::{Oil, Orifice, orifice::SHARP_EDGED};
    /// use quantity::{Kind, KinematicViscosity, Length, MassDensity, Pressure, Unit};
    /// // 5 mm at 100 bar and 860 kg/m³: 109.77 L/min.
    /// let hole = Orifice { bore: Length::from_si(0.005), coefficient: SHARP_EDGED };
    /// let oil = Oil { viscosity: KinematicViscosity::from_si(46e-6), density: MassDensity::from_si(860.0) };
    /// let flow = hole.flow(Pressure::from_si(100e5), &oil);
    /// assert!((Unit::LitrePerMinute.of_si(flow.si()) - 109.774).abs() < 1e-3);
    /// ```
    pub fn flow(&self, difference: Pressure, oil: &Oil) -> VolumeRate {
        VolumeRate::from_si(self.effective_area() * (2.0 * difference.si().max(0.0) / oil.density.si()).sqrt())
    }

    /// The pressure that a flow loses in it.
    pub fn loss(&self, flow: VolumeRate, oil: &Oil) -> Pressure {
        let v = flow.si() / self.effective_area();
        Pressure::from_si(oil.density.si() * v * v / 2.0)
    }
}

/// Flow coefficient C_v of a valve from one point, `C_v = Q·√(SG/Δp)` with Q in US gallons a minute, Δp in psi and SG the
/// density over that of water (999 kg/m³): the US measure of how much a valve passes.
///
/// ```
/// use hydraulics::{Oil, orifice::flow_coefficient};
/// use quantity::{Kind, KinematicViscosity, MassDensity, Pressure, Unit, VolumeRate};
/// // Esposito 8.5: 25 gpm at 100 psi and SG .9 is C_v 2.37.
/// let oil = Oil { viscosity: KinematicViscosity::from_si(46e-6), density: MassDensity::from_si(0.9 * 999.0) };
/// let flow = VolumeRate::from_si(Unit::UsGallonPerMinute.to_si(25.0));
/// assert!((flow_coefficient(flow, Pressure::from_si(Unit::Psi.to_si(100.0)), &oil) - 2.37).abs() < 5e-3);
/// ```
pub fn flow_coefficient(flow: VolumeRate, loss: Pressure, oil: &Oil) -> f64 {
    let specific_gravity = oil.density.si() / 999.0;
    Unit::UsGallonPerMinute.of_si(flow.si()) * (specific_gravity / Unit::Psi.of_si(loss.si())).sqrt()
}
