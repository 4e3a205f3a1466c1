//! Lines and whatever else costs pressure on the way: hose, tube, coupling, valve, filter.

use super::valve::Check;
use super::velocity::velocity;
use super::{Element, Filter, Oil};
use quantity::{Length, Pressure, Quantity, VolumeRate};
use std::f64::consts::PI;
use uom::si::kinematic_viscosity::square_meter_per_second;
use uom::si::length::{meter, millimeter};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::volume_rate::cubic_meter_per_second;

/// Up to this Reynolds number the flow in a line is laminar (textbook value).
pub const LAMINAR_UP_TO: f64 = 2300.0;
/// From this Reynolds number on it is turbulent (textbook value).
pub const TURBULENT_FROM: f64 = 4000.0;

/// Height of the roughness of a line's wall. Hose and drawn tube: 0.0015 to 0.01 mm (common practice, no published
/// source); 0.01 mm is used, which errs to the higher loss.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Roughness(pub Length);

impl Default for Roughness {
    fn default() -> Self {
        Self(Length::new::<millimeter>(0.01))
    }
}

/// Darcy friction factor of laminar flow, f = 64/Re (exact for a round pipe; Hagen–Poiseuille).
pub fn friction_laminar(re: f64) -> f64 {
    64.0 / re
}

/// Darcy friction factor of turbulent flow by Haaland (1983):
/// `1/√f = −1.8·log10( ((ε/D)/3.7)^1.11 + 6.9/Re )`, within 2 % of Colebrook (from memory, and over the lines of the
/// reference tests).
pub fn friction_haaland(re: f64, relative_roughness: f64) -> f64 {
    (-1.8 * ((relative_roughness / 3.7).powf(1.11) + 6.9 / re).log10()).powi(-2)
}

/// Darcy friction factor by the one rule used everywhere: 64/Re up to Re 2300, Haaland from Re 4000, and between
/// them linear in Re from one to the other, so that the pressure loss is continuous and rises with the flow.
///
/// ```
/// use hydraulics::line::friction_factor;
/// assert_eq!(friction_factor(1000.0, 1e-4), 0.064);
/// ```
pub fn friction_factor(re: f64, relative_roughness: f64) -> f64 {
    if re <= LAMINAR_UP_TO {
        friction_laminar(re)
    } else if re >= TURBULENT_FROM {
        friction_haaland(re, relative_roughness)
    } else {
        let share = (re - LAMINAR_UP_TO) / (TURBULENT_FROM - LAMINAR_UP_TO);
        let laminar = friction_laminar(LAMINAR_UP_TO);
        laminar + share * (friction_haaland(TURBULENT_FROM, relative_roughness) - laminar)
    }
}

/// One thing in a line that costs pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Piece {
    /// A straight hose or tube.
    Pipe {
        /// Inner diameter.
        bore: Length,
        /// Length.
        length: Length,
        /// Of its wall.
        roughness: Roughness,
    },
    /// A straight hose or tube in oil that may be as thick and as thin as said: the most, or the least, that it may lose.
    ///
    /// A loss does not simply fall as oil warms: where the flow turns from laminar to turbulent it rises again. For one flow
    /// it is greatest in the thickest oil or just where the flow is turbulent (Re 4000), and least in the thinnest or just
    /// where it still is laminar (Re 2300).
    PipeOver {
        /// Inner diameter.
        bore: Length,
        /// Length.
        length: Length,
        /// Of its wall.
        roughness: Roughness,
        /// From the thickest to the thinnest oil.
        oil: OilSpan,
        /// Which of the two is asked.
        extreme: Extreme,
    },
    /// A fitting with a loss coefficient K on the velocity in `bore`: Δp = K·ρv²/2.
    Fitting {
        /// K, ≥ 0.
        k: f64,
        /// The bore whose velocity counts.
        bore: Length,
    },
    /// A valve, coupling or cooler known by one point: Δp scales with the square of the flow.
    Point {
        /// The loss at `flow`.
        loss: Pressure,
        /// The flow at which it was stated.
        flow: VolumeRate,
    },
    /// A filter with its element in a state.
    Filter(Filter, Element),
    /// A spring-loaded check valve, opened by the flow.
    Check(Check),
    /// A pressure that is there at any flow: the tank's breather, or a height of oil (ρgh).
    Constant(Pressure),
}

/// Oil from as thick as it may be to as thin as it may be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OilSpan {
    /// The thickest, and densest.
    pub thick: Oil,
    /// The thinnest, and lightest.
    pub thin: Oil,
}

impl OilSpan {
    /// The span with the density that makes the most, or the least, of a loss at both ends: with two of them the loss would
    /// jump where one end takes over from the other.
    pub(super) fn of_one_density(self, extreme: Extreme) -> Self {
        let density = if extreme == Extreme::Most { self.thick.density } else { self.thin.density };
        Self { thick: Oil { density, ..self.thick }, thin: Oil { density, ..self.thin } }
    }
}

/// Which end of what may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extreme {
    /// The most.
    Most,
    /// The least.
    Least,
}

/// Velocity of a flow in a bore squared times half the density: the velocity head ρv²/2, Pa.
fn velocity_head(q: f64, d: f64, rho: f64) -> f64 {
    let v = q / (PI / 4.0 * d * d);
    rho * v * v / 2.0
}

impl Piece {
    /// The piece costing so many times as much at any flow; what is there at no flow stays.
    ///
    /// ```
    /// use hydraulics::line::Piece;
    /// use quantity::{Quantity, Pressure, VolumeRate};
    /// let valve = Piece::Point { loss: Pressure::from_si(2e5), flow: VolumeRate::from_si(1e-3) };
    /// assert_eq!(valve.times(3.0), Piece::Point { loss: Pressure::from_si(6e5), flow: VolumeRate::from_si(1e-3) });
    /// ```
    #[must_use]
    pub fn times(self, by: f64) -> Self {
        match self {
            Self::Pipe { bore, length, roughness } => Self::Pipe { bore, length: length * by, roughness },
            Self::PipeOver { bore, length, roughness, oil, extreme } => {
                Self::PipeOver { bore, length: length * by, roughness, oil, extreme }
            }
            Self::Fitting { k, bore } => Self::Fitting { k: k * by, bore },
            Self::Point { loss, flow } => Self::Point { loss: loss * by, flow },
            Self::Filter(filter, element) => {
                Self::Filter(Filter { element: filter.element * by, housing: filter.housing * by, ..filter }, element)
            }
            Self::Check(check) => {
                Self::Check(Check { loss: check.cracking + (check.loss - check.cracking) * by, ..check })
            }
            Self::Constant(pressure) => Self::Constant(pressure),
        }
    }

    /// Its pressure loss at a flow ≥ 0.
    ///
    /// Pipe: Darcy–Weisbach Δp = f·(L/D)·ρv²/2 with f by [`friction_factor`] and Re = v·D/ν.
    ///
    /// ```
    /// use hydraulics::{line::Piece, OilCurve, Roughness};
    /// use quantity::{Quantity, Length, ThermodynamicTemperature, Unit, VolumeRate};
    /// use table::OilGrade;
    /// // 20 L/min of VG 46 at 40 °C in 3 m of 1/2 in hose is laminar: 0.616 bar.
    /// let oil = OilCurve::of_grade(OilGrade::Vg46).at(ThermodynamicTemperature::from_si(313.15));
    /// let hose = Piece::Pipe {
    ///     bore: Length::from_si(0.0127), length: Length::from_si(3.0), roughness: Roughness::default(),
    /// };
    /// let loss = hose.loss(VolumeRate::from_si(Unit::LitrePerMinute.to_si(20.0)), &oil);
    /// assert!((Unit::Bar.of_si(loss.si()) - 0.616).abs() < 0.001);
    /// ```
    pub fn loss(&self, flow: VolumeRate, oil: &Oil) -> Pressure {
        let q = flow.get::<cubic_meter_per_second>();
        if q <= 0.0 {
            return match self {
                Self::Constant(pressure) => *pressure,
                _ => Pressure::new::<pascal>(0.0),
            };
        }
        let rho = oil.density.get::<kilogram_per_cubic_meter>();
        let loss = match *self {
            Self::Pipe { bore, length, roughness } => {
                let d = bore.get::<meter>();
                let v = q / (PI / 4.0 * d * d);
                let re = v * d / oil.viscosity.get::<square_meter_per_second>();
                let f = friction_factor(re, roughness.0.get::<meter>() / d);
                f * length.get::<meter>() / d * rho * v * v / 2.0
            }
            Self::PipeOver { bore, length, roughness, oil, extreme } => {
                let pipe = Self::Pipe { bore, length, roughness };
                let oil = oil.of_one_density(extreme);
                let (thick, thin) = (pipe.loss(flow, &oil.thick), pipe.loss(flow, &oil.thin));
                // Between the two, just where the flow turns.
                let (turns, density) = match extreme {
                    Extreme::Most => (TURBULENT_FROM, oil.thick.density),
                    Extreme::Least => (LAMINAR_UP_TO, oil.thin.density),
                };
                let nu = oil.thick.viscosity * (reynolds(flow, bore, &oil.thick) / turns);
                let between = (nu < oil.thick.viscosity && nu > oil.thin.viscosity)
                    .then(|| pipe.loss(flow, &Oil { viscosity: nu, density }));
                return match extreme {
                    Extreme::Most => between.map_or(thick.max(thin), |between| thick.max(thin).max(between)),
                    Extreme::Least => between.map_or(thick.min(thin), |between| thick.min(thin).min(between)),
                };
            }
            Self::Fitting { k, bore } => k * velocity_head(q, bore.get::<meter>(), rho),
            Self::Point { loss, flow } => loss.get::<pascal>() * (q / flow.get::<cubic_meter_per_second>()).powi(2),
            Self::Filter(filter, element) => return filter.loss(flow, oil, element),
            Self::Check(check) => return check.loss(flow),
            Self::Constant(pressure) => return pressure,
        };
        Pressure::new::<pascal>(loss)
    }
}

impl Piece {
    /// How much of its loss goes with the flow squared rather than with the flow, 0 to 1.
    pub(super) fn turbulent_share(&self, flow: VolumeRate, oil: &Oil) -> f64 {
        match *self {
            Self::Pipe { bore, .. } | Self::PipeOver { bore, .. } => {
                let oil = if let Self::PipeOver { oil: span, .. } = self { &span.thin } else { oil };
                let re = reynolds(flow, bore, oil);
                ((re - LAMINAR_UP_TO) / (TURBULENT_FROM - LAMINAR_UP_TO)).clamp(0.0, 1.0)
            }
            Self::Fitting { .. } | Self::Point { .. } => 1.0,
            Self::Filter(filter, element) => filter.turbulent_share(flow, oil, element),
            Self::Check(check) => {
                let loss = check.loss(flow);
                if loss.si() > 0.0 { 1.0 - (check.cracking / loss).value } else { 0.0 }
            }
            Self::Constant(_) => 0.0,
        }
    }
}

/// Reynolds number of a flow in a bore, Re = v·D/ν.
pub fn reynolds(flow: VolumeRate, bore: Length, oil: &Oil) -> f64 {
    velocity(flow, bore).si() * bore.get::<meter>() / oil.viscosity.get::<square_meter_per_second>()
}
