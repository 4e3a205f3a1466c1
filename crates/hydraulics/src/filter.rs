//! The return filter: element, housing and bypass.

use super::Oil;
use quantity::{DynamicViscosity, KinematicViscosity, Pressure, Quantity, VolumeRate};
use uom::si::dynamic_viscosity::pascal_second;

/// The viscosity at which filter sheets state their losses, mm²/s (from memory of data sheets).
pub const REFERENCE_VISCOSITY_MM2_S: f64 = 30.0;
/// The density that goes with it, kg/m³ (from memory of data sheets).
pub const REFERENCE_DENSITY_KG_M3: f64 = 860.0;
/// What a blocked filter loses at its rated flow, as a multiple of the pressure at which its bypass opens (common
/// practice, no published source): it tells how wide the bypass is where nobody does.
pub const BYPASS_AT_RATED_FLOW: f64 = 1.5;

/// How dirty an element is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Element {
    /// As new.
    Clean,
    /// Half loaded: it loses twice as much (common practice, no published source).
    HalfLoaded,
    /// Blocked: everything goes over the bypass.
    Blocked,
}

/// A filter known by one point of its element, one of its housing, and its bypass.
///
/// Element: `Δp_e = Δp_e0 · (Q_e/Q_0) · (ρν/ρ_0ν_0) · d`, with d = 1 clean and 2 half loaded: a fine mesh is laminar, so its
/// loss is proportional to flow and dynamic viscosity. Bypass, parallel to it: `Q_b = K_b·√(p − p_by)` above p_by. The two share
/// the flow so that both lose the same. Housing, in series: `Δp_h = Δp_h0·(Q/Q_0)²·ρ/ρ_0`.
///
/// Valid for flows ≥ 0. The laws are textbook; d and K_b are common practice, no published source.
///
/// ```
/// use hydraulics::filter::{Element, Filter};
/// use hydraulics::OilCurve;
/// use quantity::{Quantity, ThermodynamicTemperature, Unit};
/// use table::OilGrade;
/// use quantity::shop::{bar, litres};
/// // 0.5 bar at 250 L/min and 30 mm²/s, bypass at 2.5 bar: 110 L/min of cold VG 46 open the bypass.
/// let filter = Filter::of_one_point(bar(0.5), litres(250.0), None, bar(2.5));
/// let oil = OilCurve::of_grade(OilGrade::Vg46).at(ThermodynamicTemperature::from_si(273.15));
/// assert!(filter.loss(litres(110.0), &oil, Element::Clean) > bar(2.5));
/// // It leaves the bypass at about 6 °C clean and 16 °C half loaded.
/// let shut = |celsius: f64, element| {
///     let oil = OilCurve::of_grade(OilGrade::Vg46).at(ThermodynamicTemperature::from_si(Unit::Celsius.to_si(celsius)));
///     filter.loss(litres(110.0), &oil, element) < bar(2.5)
/// };
/// assert!(!shut(5.0, Element::Clean) && shut(7.0, Element::Clean));
/// assert!(!shut(15.0, Element::HalfLoaded) && shut(17.0, Element::HalfLoaded));
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Filter {
    /// Loss of the clean element at `flow` and the reference viscosity, Δp_e0.
    pub element: Pressure,
    /// Loss of the housing at `flow`, Δp_h0.
    pub housing: Pressure,
    /// The flow at which both were stated, Q_0; above zero.
    pub flow: VolumeRate,
    /// Kinematic viscosity at which the element's loss was stated, ν_0.
    pub viscosity: KinematicViscosity,
    /// Pressure at which the bypass opens, p_by.
    pub bypass: Pressure,
    /// The flow that the bypass alone passes at one and a half times `bypass`; tells K_b. Above zero.
    pub bypass_flow: VolumeRate,
}

impl Filter {
    /// A filter of which one loss is stated at one flow: all of it is taken for the element's, which errs to the higher
    /// loss in cold oil. Without a stated viscosity that of filter sheets is taken, and a bypass that passes the stated
    /// flow at one and a half times its opening pressure.
    pub fn of_one_point(
        loss: Pressure,
        flow: VolumeRate,
        viscosity: Option<KinematicViscosity>,
        bypass: Pressure,
    ) -> Self {
        let viscosity = viscosity.unwrap_or(KinematicViscosity::from_si(REFERENCE_VISCOSITY_MM2_S * 1e-6));
        Self { element: loss, housing: Pressure::from_si(0.0), flow, viscosity, bypass, bypass_flow: flow }
    }

    /// Loss of the element per flow in this oil, Pa·s/m³; none when it is blocked.
    fn element_resistance(&self, dynamic: DynamicViscosity, element: Element) -> Option<f64> {
        let dirt = match element {
            Element::Clean => 1.0,
            Element::HalfLoaded => 2.0,
            Element::Blocked => return None,
        };
        let thicker = dynamic.get::<pascal_second>() / (self.viscosity.si() * REFERENCE_DENSITY_KG_M3);
        Some(self.element.si() / self.flow.si() * thicker * dirt)
    }

    /// K_b of the bypass, m³/s per √Pa.
    fn bypass_constant(&self) -> f64 {
        self.bypass_flow.si() / ((BYPASS_AT_RATED_FLOW - 1.0) * self.bypass.si()).sqrt()
    }

    /// What the filter loses at a flow ≥ 0, bypass and housing included.
    pub fn loss(&self, flow: VolumeRate, oil: &Oil, element: Element) -> Pressure {
        let (q, opens) = (flow.si().max(0.0), self.bypass.si());
        let across = match self.element_resistance(oil.dynamic_viscosity(), element) {
            Some(resistance) if resistance * q <= opens => resistance * q,
            // With y = √(p − p_by): y²/R + K·y = Q − p_by/R, of which the positive root is taken.
            Some(resistance) => {
                let k = self.bypass_constant();
                let rest = q - opens / resistance;
                let y = 2.0 * rest / (k + (k * k + 4.0 * rest / resistance).sqrt());
                opens + y * y
            }
            None if q > 0.0 => opens + (q / self.bypass_constant()).powi(2),
            None => 0.0,
        };
        let housing = self.housing.si() * (q / self.flow.si()).powi(2) * oil.density.si() / REFERENCE_DENSITY_KG_M3;
        Pressure::from_si(across + housing)
    }

    /// How much of the loss goes with the flow squared: the housing's, and that of a blocked element's bypass beyond its
    /// opening.
    pub(super) fn turbulent_share(&self, flow: VolumeRate, oil: &Oil, element: Element) -> f64 {
        let whole = self.loss(flow, oil, element).si();
        if whole <= 0.0 {
            return 0.0;
        }
        let housing = self.housing.si() * (flow / self.flow).value.powi(2) * oil.density.si() / REFERENCE_DENSITY_KG_M3;
        let beyond = if element == Element::Blocked { whole - housing - self.bypass.si() } else { 0.0 };
        (housing + beyond.max(0.0)) / whole
    }
}
