//! The closed list of units, with their UCUM codes, spoken forms and exact sizes.
//!
//! Sizes are from exact definitions (NIST SP 811): inch 25.4 mm, pound 0.453 592 37 kg, US gallon 231 in³,
//! standard gravity 9.806 65 m/s². Codes follow UCUM 2.2, case-sensitive.

use super::{Dimension, Named, string_enum};

const INCH: f64 = 0.0254;
const POUND: f64 = 0.453_592_37;
const POUND_FORCE: f64 = POUND * 9.806_65;
const FOOT: f64 = 12.0 * INCH;
const US_GALLON: f64 = 231.0 * INCH * INCH * INCH;
const PER_MINUTE: f64 = std::f64::consts::TAU / 60.0;

string_enum! {
    /// A unit that Pairwright reads and writes; its name is its UCUM code.
    "unit" pub enum Unit {
        /// Litre per minute.
        LitrePerMinute = "L/min",
        /// US gallon per minute.
        UsGallonPerMinute = "[gal_us]/min",
        /// Bar.
        Bar = "bar",
        /// Pound-force per square inch.
        Psi = "[psi]",
        /// Kilopascal.
        Kilopascal = "kPa",
        /// Megapascal.
        Megapascal = "MPa",
        /// Kilowatt.
        Kilowatt = "kW",
        /// Watt.
        Watt = "W",
        /// Mechanical horsepower, 550 ft·lbf/s.
        Horsepower = "[HP]",
        /// Revolutions per minute.
        RevolutionPerMinute = "{rev}/min",
        /// Millimetre.
        Millimetre = "mm",
        /// Centimetre.
        Centimetre = "cm",
        /// Metre.
        Metre = "m",
        /// International inch.
        Inch = "[in_i]",
        /// International foot.
        Foot = "[ft_i]",
        /// Kilogram.
        Kilogram = "kg",
        /// Tonne.
        Tonne = "t",
        /// Avoirdupois pound.
        Pound = "[lb_av]",
        /// Cubic centimetre per revolution.
        CubicCentimetrePerRevolution = "cm3/{rev}",
        /// Cubic inch per revolution.
        CubicInchPerRevolution = "[cin_i]/{rev}",
        /// Newton metre.
        NewtonMetre = "N.m",
        /// Kilonewton metre.
        KilonewtonMetre = "kN.m",
        /// Pound-force foot.
        PoundForceFoot = "[lbf_av].[ft_i]",
        /// Degree Celsius.
        Celsius = "Cel",
        /// Degree Fahrenheit.
        Fahrenheit = "[degF]",
        /// Square millimetre per second, the centistokes.
        SquareMillimetrePerSecond = "mm2/s",
        /// Kilogram per cubic metre.
        KilogramPerCubicMetre = "kg/m3",
        /// Litre.
        Litre = "L",
        /// US gallon.
        UsGallon = "[gal_us]",
        /// Volt.
        Volt = "V",
        /// Ampere.
        Ampere = "A",
        /// Second.
        Second = "s",
        /// Minute.
        Minute = "min",
        /// Hour.
        Hour = "h",
        /// Metre per second.
        MetrePerSecond = "m/s",
        /// Kilometre per hour.
        KilometrePerHour = "km/h",
        /// Mile per hour.
        MilePerHour = "[mi_i]/h",
        /// Percent.
        Percent = "%",
        /// One: a plain ratio.
        One = "1",
        /// Kilogram square metre.
        KilogramSquareMetre = "kg.m2",
        /// Watt per kelvin.
        WattPerKelvin = "W/K",
    }
}

impl Unit {
    /// What the unit measures.
    pub fn dimension(self) -> Dimension {
        match self {
            Self::LitrePerMinute | Self::UsGallonPerMinute => Dimension::Flow,
            Self::Bar | Self::Psi | Self::Kilopascal | Self::Megapascal => Dimension::Pressure,
            Self::Kilowatt | Self::Watt | Self::Horsepower => Dimension::Power,
            Self::RevolutionPerMinute => Dimension::RotationalSpeed,
            Self::Millimetre | Self::Centimetre | Self::Metre | Self::Inch | Self::Foot => Dimension::Length,
            Self::Kilogram | Self::Tonne | Self::Pound => Dimension::Mass,
            Self::CubicCentimetrePerRevolution | Self::CubicInchPerRevolution => Dimension::Displacement,
            Self::NewtonMetre | Self::KilonewtonMetre | Self::PoundForceFoot => Dimension::Torque,
            Self::Celsius | Self::Fahrenheit => Dimension::Temperature,
            Self::SquareMillimetrePerSecond => Dimension::Viscosity,
            Self::KilogramPerCubicMetre => Dimension::Density,
            Self::Litre | Self::UsGallon => Dimension::Volume,
            Self::Volt => Dimension::Voltage,
            Self::Ampere => Dimension::Current,
            Self::Second | Self::Minute | Self::Hour => Dimension::Time,
            Self::MetrePerSecond | Self::KilometrePerHour | Self::MilePerHour => Dimension::Velocity,
            Self::Percent | Self::One => Dimension::Ratio,
            Self::KilogramSquareMetre => Dimension::Inertia,
            Self::WattPerKelvin => Dimension::ThermalConductance,
        }
    }

    /// The size of one unit in coherent SI units (for temperatures: of one degree).
    pub fn factor(self) -> f64 {
        match self {
            Self::LitrePerMinute => 1e-3 / 60.0,
            Self::UsGallonPerMinute => US_GALLON / 60.0,
            Self::Bar => 1e5,
            Self::Psi => POUND_FORCE / (INCH * INCH),
            Self::Kilopascal | Self::Kilowatt | Self::KilonewtonMetre | Self::Tonne => 1e3,
            Self::Megapascal => 1e6,
            Self::Horsepower => 550.0 * FOOT * POUND_FORCE,
            Self::RevolutionPerMinute => PER_MINUTE,
            Self::Millimetre | Self::Litre => 1e-3,
            Self::Centimetre | Self::Percent => 1e-2,
            Self::Inch => INCH,
            Self::Foot => FOOT,
            Self::Pound => POUND,
            Self::CubicCentimetrePerRevolution | Self::SquareMillimetrePerSecond => 1e-6,
            Self::CubicInchPerRevolution => INCH * INCH * INCH,
            Self::PoundForceFoot => POUND_FORCE * FOOT,
            Self::Fahrenheit => 5.0 / 9.0,
            Self::UsGallon => US_GALLON,
            Self::Minute => 60.0,
            Self::Hour => 3600.0,
            Self::KilometrePerHour => 1.0 / 3.6,
            Self::MilePerHour => 5280.0 * FOOT / 3600.0,
            Self::Watt
            | Self::Metre
            | Self::Kilogram
            | Self::NewtonMetre
            | Self::Celsius
            | Self::KilogramPerCubicMetre
            | Self::Volt
            | Self::Ampere
            | Self::Second
            | Self::MetrePerSecond
            | Self::One
            | Self::KilogramSquareMetre
            | Self::WattPerKelvin => 1.0,
        }
    }

    /// A figure in this unit, in coherent SI units.
    pub fn to_si(self, value: f64) -> f64 {
        match self {
            Self::Celsius => value + 273.15,
            Self::Fahrenheit => (value + 459.67) * (5.0 / 9.0),
            _ => value * self.factor(),
        }
    }

    /// A figure in coherent SI units, in this unit.
    pub fn of_si(self, si: f64) -> f64 {
        match self {
            Self::Celsius => si - 273.15,
            Self::Fahrenheit => si * 9.0 / 5.0 - 459.67,
            _ => si / self.factor(),
        }
    }

    /// What people write for it besides the UCUM code, matched without regard to case.
    pub fn spoken(self) -> &'static [&'static str] {
        match self {
            Self::LitrePerMinute => &["lpm", "litre/min", "liter/min", "litres/min", "liters/min", "ltr/min"],
            Self::UsGallonPerMinute => &["gpm", "us gpm", "gal/min"],
            Self::Psi => &["psi"],
            Self::Horsepower => &["hp", "bhp"],
            Self::RevolutionPerMinute => &["rpm", "rev/min", "1/min", "r/min", "min-1", "min⁻¹", "min^-1"],
            Self::Inch => &["in", "inch", "inches", "\"", "″", "”"],
            Self::Foot => &["ft", "foot", "feet"],
            Self::Pound => &["lb", "lbs"],
            Self::CubicCentimetrePerRevolution => {
                &["cc/rev", "cm3/rev", "cm³/rev", "cc/r", "cm3/r", "cm³/r", "cc", "cm3", "cm³"]
            }
            Self::CubicInchPerRevolution => &["in3/rev", "in³/rev", "cu in/rev", "in3/r", "in³/r", "[in_i]3/{rev}"],
            Self::NewtonMetre => &["nm", "n·m", "n m"],
            Self::KilonewtonMetre => &["knm", "kn·m", "kn m"],
            Self::PoundForceFoot => {
                &["lbf·ft", "lbf.ft", "lb·ft", "lb-ft", "lb ft", "ft·lb", "ft-lb", "ft lb", "lbf ft"]
            }
            Self::Celsius => &["°c", "c", "degc", "deg c"],
            Self::Fahrenheit => &["°f", "f", "degf", "deg f"],
            Self::SquareMillimetrePerSecond => &["mm²/s", "cst"],
            Self::KilogramPerCubicMetre => &["kg/m³"],
            Self::UsGallon => &["gal", "us gal"],
            Self::MilePerHour => &["mph"],
            Self::KilogramSquareMetre => &["kg·m²", "kg m²", "kgm²", "kg m2", "kgm2", "kg·m2"],
            Self::Tonne => &["tonne", "tonnes"],
            Self::Litre => &["litre", "litres", "liter", "liters"],
            Self::KilometrePerHour => &["kph", "kmh"],
            Self::Second => &["sec"],
            Self::Minute => &["minutes"],
            Self::Hour => &["hour", "hours", "hr"],
            _ => &[],
        }
    }

    /// The unit with this UCUM code or spoken form.
    ///
    /// The code is tried first and exactly; spoken forms ignore case.
    pub fn from_text(text: &str) -> Option<Self> {
        Self::from_name(text).or_else(|| {
            let lower = text.to_lowercase();
            // `mpa` is no `MPa` and `M` no metre: where case tells a thousandth from a million, the first letter counts.
            let prefixed = |unit: &Self| unit.name().starts_with(['m', 'M']);
            Self::ALL.iter().copied().find(|unit| {
                let code = unit.name();
                let same = !prefixed(unit) || code.chars().next() == text.chars().next();
                unit.spoken().contains(&lower.as_str()) || same && code.to_lowercase() == lower
            })
        })
    }

    /// The unit in which a quantity of this dimension is shown.
    pub fn shown(dimension: Dimension, system: UnitSystem) -> Self {
        let us = system == UnitSystem::UsCustomary;
        match dimension {
            Dimension::Flow if us => Self::UsGallonPerMinute,
            Dimension::Flow => Self::LitrePerMinute,
            Dimension::Pressure if us => Self::Psi,
            Dimension::Pressure => Self::Bar,
            Dimension::Power if us => Self::Horsepower,
            Dimension::Power => Self::Kilowatt,
            Dimension::RotationalSpeed => Self::RevolutionPerMinute,
            Dimension::Length if us => Self::Inch,
            Dimension::Length => Self::Millimetre,
            Dimension::Mass if us => Self::Pound,
            Dimension::Mass => Self::Kilogram,
            Dimension::Displacement if us => Self::CubicInchPerRevolution,
            Dimension::Displacement => Self::CubicCentimetrePerRevolution,
            Dimension::Torque if us => Self::PoundForceFoot,
            Dimension::Torque => Self::NewtonMetre,
            Dimension::Temperature if us => Self::Fahrenheit,
            Dimension::Temperature => Self::Celsius,
            Dimension::Viscosity => Self::SquareMillimetrePerSecond,
            Dimension::Density => Self::KilogramPerCubicMetre,
            Dimension::Volume if us => Self::UsGallon,
            Dimension::Volume => Self::Litre,
            Dimension::Voltage => Self::Volt,
            Dimension::Current => Self::Ampere,
            Dimension::Time => Self::Minute,
            Dimension::Velocity if us => Self::MilePerHour,
            Dimension::Velocity => Self::KilometrePerHour,
            Dimension::Ratio => Self::Percent,
            Dimension::Inertia => Self::KilogramSquareMetre,
            Dimension::ThermalConductance => Self::WattPerKelvin,
        }
    }
}

string_enum! {
    /// The units in which a person reads figures.
    "unit system" pub enum UnitSystem {
        /// L/min, bar, kW, kg, mm, °C.
        Metric = "metric",
        /// US gpm, psi, hp, lb, in, °F.
        UsCustomary = "us",
    }
}
