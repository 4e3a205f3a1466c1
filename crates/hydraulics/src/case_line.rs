//! The case line: what a motor leaks into its housing flows through it to the tank, and its pressure is the seal's.

use super::{Oil, Resistance};
use quantity::{Length, Pressure, Quantity, VolumeRate};

/// Standard gravity, m/s².
const GRAVITY: f64 = 9.806_65;

/// The line from a motor's housing to the tank, by a port of its own: never into the return, never through its filter.
///
/// `p_case = p_tank + ρ·g·h + Δp_line(Q_c, ν) + Δp_coupling`. Two cold corners: *steady cold*, where cold oil leaks less in the
/// proportion of its viscosities, decides; *hot motor, cold line*, where a motor that is warm already leaks its whole
/// flow into a line that still is cold, is why a machine warms up first (common practice, no published source).
///
/// ```
/// use hydraulics::{CaseLine, OilCurve, Resistance, case_line::steady_leakage, line::{Piece, Roughness}};
/// use quantity::{Quantity, Length, Pressure, ThermodynamicTemperature, Unit, VolumeRate};
/// use table::OilGrade;
/// let at = |celsius| OilCurve::of_grade(OilGrade::Vg46).at(ThermodynamicTemperature::from_si(Unit::Celsius.to_si(celsius)));
/// let hose = Piece::Pipe { bore: Length::from_si(0.0127), length: Length::from_si(8.0), roughness: Roughness::default() };
/// let line = CaseLine {
///     line: Resistance::of([hose]), tank: Pressure::from_si(0.0), tank_above: Length::from_si(0.0),
/// };
/// // 5 L/min through 8 m of ½ in at −5 °C: 8.3 bar from a warm motor, 0.3 bar from a cold one.
/// let leaked = VolumeRate::from_si(Unit::LitrePerMinute.to_si(5.0));
/// let bar = |p: Pressure| Unit::Bar.of_si(p.si());
/// assert!((bar(line.pressure(leaked, &at(-5.0))) - 8.3).abs() < 0.1);
/// let cold = steady_leakage(leaked, &at(50.0), &at(-5.0));
/// assert!((bar(line.pressure(cold, &at(-5.0))) - 0.3).abs() < 0.05);
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct CaseLine {
    /// Hose, tube and couplings.
    pub line: Resistance,
    /// Gauge pressure in the tank.
    pub tank: Pressure,
    /// How high the oil in the tank stands above the motor; negative when the motor is higher.
    pub tank_above: Length,
}

impl CaseLine {
    /// Pressure in the housing at a flow through the line, with oil as it is in the line.
    pub fn pressure(&self, leaked: VolumeRate, oil: &Oil) -> Pressure {
        self.tank + height_of_oil(self.tank_above, oil) + self.line.loss(leaked, oil)
    }
}

/// What a motor leaks when its oil is as it is now: leakage through gaps is laminar, `Q_c·μ_work/μ`.
pub fn steady_leakage(leaked_at_work: VolumeRate, at_work: &Oil, now: &Oil) -> VolumeRate {
    leaked_at_work * (at_work.dynamic_viscosity() / now.dynamic_viscosity()).value
}

/// Pressure of a height of oil, ρ·g·h.
///
/// ```
/// use hydraulics::{Oil, case_line::height_of_oil};
/// use quantity::{Quantity, KinematicViscosity, Length, MassDensity, Unit};
/// // 4 m of oil: 0.34 bar.
/// let oil = Oil { viscosity: KinematicViscosity::from_si(46e-6), density: MassDensity::from_si(870.0) };
/// assert!((Unit::Bar.of_si(height_of_oil(Length::from_si(4.0), &oil).si()) - 0.34).abs() < 0.005);
/// ```
pub fn height_of_oil(height: Length, oil: &Oil) -> Pressure {
    Pressure::from_si(oil.density.si() * GRAVITY * height.si())
}
