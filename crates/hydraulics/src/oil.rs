//! Hydraulic oil: viscosity and density with temperature, the heat that it holds, and where it is no longer usable.

use quantity::{
    DynamicViscosity, HeatCapacity, KinematicViscosity, MassDensity, SpecificHeatCapacity, ThermodynamicTemperature,
    Volume,
};
use table::OilGrade;
use uom::si::kinematic_viscosity::square_millimeter_per_second;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::specific_heat_capacity::joule_per_kilogram_kelvin;
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};

/// Density of mineral hydraulic oil at 15 °C, kg/m³ (870–900 in textbooks; 870 from memory of data sheets).
const DENSITY_15: f64 = 870.0;
/// Thermal expansion of mineral oil, 1/K (textbook, from memory).
const EXPANSION: f64 = 7.0e-4;
/// Pairs of viscosity at 40 °C and 100 °C, mm²/s, of mineral oils with a viscosity index near 100. At 40 °C they are the grades of
/// ISO 3448, as published. At 100 °C that of VG 32 stands in a public worksheet for ASTM D341; the others are from memory of data
/// sheets (common practice, no published source).
const MINERAL: [(f64, f64); 6] = [(15.0, 3.4), (22.0, 4.3), (32.0, 5.4), (46.0, 6.8), (68.0, 8.7), (100.0, 11.4)];

/// How an oil's viscosity falls with temperature, by ASTM D341: `log10 log10(ν + 0.7) = A − B·log10 T`.
///
/// ν in mm²/s, T in kelvin. The short form, good from 2 mm²/s upwards. It holds where the oil is a homogeneous liquid:
/// below 0 °C the figures are indicative.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OilCurve {
    a: f64,
    b: f64,
}

/// Why two points make no viscosity curve.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CurveFault {
    /// A viscosity is below 0.5 mm²/s, where the short form has no meaning, or not finite.
    TooThin,
    /// The viscosity does not fall with temperature.
    NotFalling,
}

impl std::fmt::Display for CurveFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::TooThin => "a viscosity is below 0.5 mm²/s; hydraulic oil is thicker: check the unit",
            Self::NotFalling => "the viscosity must fall from the lower to the higher temperature: check the order",
        })
    }
}

impl std::error::Error for CurveFault {}

impl OilCurve {
    /// The curve through two points.
    ///
    /// # Errors
    /// [`CurveFault`] when a viscosity is too thin or the viscosity does not fall.
    ///
    /// ```
    /// use hydraulics::OilCurve;
    /// use quantity::{KinematicViscosity, ThermodynamicTemperature};
    /// use uom::si::{kinematic_viscosity::square_millimeter_per_second as mm2, thermodynamic_temperature::degree_celsius};
    /// let celsius = |t| ThermodynamicTemperature::new::<degree_celsius>(t);
    /// let nu = |v| KinematicViscosity::new::<mm2>(v);
    /// let vg32 = OilCurve::through(celsius(40.0), nu(32.0), celsius(100.0), nu(5.4))?;
    /// // A public worksheet for ASTM D341 prints 8.5 mm²/s at 80 °C.
    /// assert!((vg32.viscosity(celsius(80.0)).get::<mm2>() - 8.5).abs() < 0.05);
    /// # Ok::<(), hydraulics::oil::CurveFault>(())
    /// ```
    pub fn through(
        first: ThermodynamicTemperature,
        at_first: KinematicViscosity,
        second: ThermodynamicTemperature,
        at_second: KinematicViscosity,
    ) -> Result<Self, CurveFault> {
        let w = |viscosity: KinematicViscosity| {
            let nu = viscosity.get::<square_millimeter_per_second>();
            if nu.is_finite() && nu >= 0.5 { Ok((nu + 0.7).log10().log10()) } else { Err(CurveFault::TooThin) }
        };
        let (w1, w2) = (w(at_first)?, w(at_second)?);
        let (t1, t2) = (first.get::<kelvin>().log10(), second.get::<kelvin>().log10());
        let b = (w1 - w2) / (t2 - t1);
        if b.is_finite() && b > 0.0 { Ok(Self { a: w1 + b * t1, b }) } else { Err(CurveFault::NotFalling) }
    }

    /// The curve of an ISO 3448 grade, as a mineral oil with a viscosity index near 100.
    pub fn of_grade(grade: OilGrade) -> Self {
        let nu40 = match grade {
            OilGrade::Vg15 => 15.0,
            OilGrade::Vg22 => 22.0,
            OilGrade::Vg32 => 32.0,
            OilGrade::Vg46 => 46.0,
            OilGrade::Vg68 => 68.0,
            OilGrade::Vg100 => 100.0,
        };
        Self::mineral(KinematicViscosity::new::<square_millimeter_per_second>(nu40))
    }

    /// The curve of a mineral oil of which only the viscosity at 40 °C is known: its viscosity at 100 °C is
    /// interpolated (log–log) between the usual grades 15 to 100, and drawn out beyond them from 8 to 200 mm²/s.
    pub fn mineral(at_40: KinematicViscosity) -> Self {
        // A grade's own spread reaches beyond its mid-point; far beyond, the line through the last two is no oil any more.
        let nu40 = at_40.get::<square_millimeter_per_second>().clamp(8.0, 200.0);
        let upper = MINERAL.iter().position(|&(nu, _)| nu >= nu40).unwrap_or(5).max(1);
        let ((x0, y0), (x1, y1)) = (MINERAL[upper - 1], MINERAL[upper]);
        let share = (nu40 / x0).ln() / (x1 / x0).ln();
        let nu100 = y0 * (y1 / y0).powf(share);
        let celsius = ThermodynamicTemperature::new::<degree_celsius>;
        let nu = KinematicViscosity::new::<square_millimeter_per_second>;
        // Both ends of the span fall strictly, so the interpolated pair does too.
        Self::through(celsius(40.0), nu(nu40), celsius(100.0), nu(nu100)).unwrap_or(Self { a: 9.417_993, b: 3.684_442 })
    }

    /// The constants A and B of ASTM D341.
    pub fn constants(&self) -> (f64, f64) {
        (self.a, self.b)
    }

    /// Kinematic viscosity at a temperature.
    pub fn viscosity(&self, temperature: ThermodynamicTemperature) -> KinematicViscosity {
        let w = self.a - self.b * temperature.get::<kelvin>().log10();
        KinematicViscosity::new::<square_millimeter_per_second>(10f64.powf(10f64.powf(w)) - 0.7)
    }

    /// The temperature at which the oil has this viscosity (the inverse of [`Self::viscosity`]).
    pub fn temperature_at(&self, viscosity: KinematicViscosity) -> ThermodynamicTemperature {
        let w = (viscosity.get::<square_millimeter_per_second>() + 0.7).log10().log10();
        ThermodynamicTemperature::new::<kelvin>(10f64.powf((self.a - w) / self.b))
    }

    /// The oil at a temperature.
    pub fn at(&self, temperature: ThermodynamicTemperature) -> Oil {
        Oil { viscosity: self.viscosity(temperature), density: density(temperature) }
    }
}

/// Density of mineral oil at a temperature: ρ = 870 kg/m³ · (1 − 7·10⁻⁴/K · (t − 15 °C)).
///
/// Within 0.25 % of the ASTM D1250 lubricating-oil formula (from memory) from 0 to 80 °C.
pub fn density(temperature: ThermodynamicTemperature) -> MassDensity {
    let warmer = temperature.get::<degree_celsius>() - 15.0;
    MassDensity::new::<kilogram_per_cubic_meter>(DENSITY_15 * (1.0 - EXPANSION * warmer))
}

/// Oil as it is at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Oil {
    /// Kinematic viscosity.
    pub viscosity: KinematicViscosity,
    /// Density.
    pub density: MassDensity,
}

/// Specific heat of mineral oil, c_p: textbooks give 1760 to 1900 J/(kg·K); 1880 from memory of data sheets.
pub fn specific_heat() -> SpecificHeatCapacity {
    SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(1880.0)
}

impl Oil {
    /// Dynamic viscosity, μ = ρ·ν.
    pub fn dynamic_viscosity(&self) -> DynamicViscosity {
        self.density * self.viscosity
    }

    /// Heat that a volume of it takes up per kelvin, C = V·ρ·c_p.
    ///
    /// ```
    /// use hydraulics::OilCurve;
    /// use quantity::{Quantity, ThermodynamicTemperature, Unit, Volume};
    /// use table::OilGrade;
    /// use uom::si::heat_capacity::kilojoule_per_kelvin;
    /// let oil = OilCurve::of_grade(OilGrade::Vg46).at(ThermodynamicTemperature::from_si(333.15));
    /// // 80 L take up about 127 kJ per kelvin.
    /// let heat = oil.heat_capacity(Volume::from_si(Unit::Litre.to_si(80.0)));
    /// assert!((heat.get::<kilojoule_per_kelvin>() - 127.0).abs() < 1.0);
    /// ```
    pub fn heat_capacity(&self, volume: Volume) -> HeatCapacity {
        volume * self.density * specific_heat()
    }
}

/// Up to this viscosity, mm²/s, a pump may be started cold (data sheets agree, from memory; some allow 1600).
pub const START_MOST_MM2_S: f64 = 1000.0;
/// Down to this viscosity, mm²/s, oil still separates moving parts at work (gear pumps 10 to 300 in a textbook, vane pumps
/// 10.3 by a maker's page; here common practice, no published source).
pub const WORK_LEAST_MM2_S: f64 = 10.0;
/// Above this temperature, °C, most seals and the oil itself age fast (180 °F; common practice, no published source).
pub const HOT_STOP_CELSIUS: f64 = 82.0;

/// Why an oil is not fit for use at a temperature, or its figures are not sure there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum OilWarning {
    /// Thicker than a pump may be started with.
    TooThickToStart,
    /// Below freezing the viscosity is drawn out of its measured range: the oil may be near its pour point (ASTM D341
    /// holds only for a homogeneous liquid).
    Extrapolated,
    /// Too thin to keep moving parts apart.
    TooThin,
    /// So hot that seals and oil age fast.
    TooHot,
}

impl OilCurve {
    /// What is to be said against this oil at a temperature; nothing within the usable range.
    ///
    /// ```
    /// use hydraulics::{OilCurve, oil::OilWarning};
    /// use quantity::{Quantity, ThermodynamicTemperature, Unit};
    /// use table::OilGrade;
    /// let at = |celsius| ThermodynamicTemperature::from_si(Unit::Celsius.to_si(celsius));
    /// let vg46 = OilCurve::of_grade(OilGrade::Vg46);
    /// assert_eq!(vg46.warnings(at(50.0)), []);
    /// assert_eq!(vg46.warnings(at(-10.0)), [OilWarning::TooThickToStart, OilWarning::Extrapolated]);
    /// assert_eq!(vg46.warnings(at(90.0)), [OilWarning::TooThin, OilWarning::TooHot]);
    /// ```
    pub fn warnings(&self, temperature: ThermodynamicTemperature) -> Vec<OilWarning> {
        let nu = self.viscosity(temperature).get::<square_millimeter_per_second>();
        let celsius = temperature.get::<degree_celsius>();
        let all = [
            (nu > START_MOST_MM2_S, OilWarning::TooThickToStart),
            (celsius < 0.0, OilWarning::Extrapolated),
            (nu < WORK_LEAST_MM2_S, OilWarning::TooThin),
            (celsius > HOT_STOP_CELSIUS, OilWarning::TooHot),
        ];
        all.into_iter().filter_map(|(holds, warning)| holds.then_some(warning)).collect()
    }
}
