//! What a figure can be at all, and what it usually is: outside the first it is an error, outside the second a warning.
//!
//! All bounds are common practice, no published source; they catch slipped decimals and wrong units, nothing finer. What
//! cannot be zero has a least possible figure above zero.

use super::{AssumptionId, CarrierClass, HeadKind};
use quantity::{Dimension, Unit};

/// Bounds of one kind of field, in `unit`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// The unit of the figures.
    pub unit: Unit,
    /// Least and greatest possible figure.
    pub possible: (f64, f64),
    /// Least and greatest usual figure.
    pub usual: (f64, f64),
}

impl Bounds {
    /// Whether figures, in SI, are physically possible.
    pub fn are_possible(&self, figures: [f64; 2]) -> bool {
        self.hold(figures, self.possible)
    }

    /// Whether figures, in SI, are usual.
    pub fn are_usual(&self, figures: [f64; 2]) -> bool {
        self.hold(figures, self.usual)
    }

    fn hold(&self, figures: [f64; 2], (least, greatest): (f64, f64)) -> bool {
        // A billionth of slack, so that a bound itself passes in every unit.
        let slack = 1e-9 * greatest.abs();
        let within = |si| (least - slack..=greatest + slack).contains(&self.unit.of_si(si));
        figures.into_iter().all(within)
    }
}

const fn bounds(unit: Unit, possible: (f64, f64), usual: (f64, f64)) -> Bounds {
    Bounds { unit, possible, usual }
}

/// Flow of a pump, circuit, head or part.
pub const FLOW: Bounds = bounds(Unit::LitrePerMinute, (0.1, 5000.0), (3.0, 800.0));
/// Flow that a person may set; from none at all.
pub const FLOW_SETTING: Bounds = bounds(Unit::LitrePerMinute, (0.0, 5000.0), (0.0, 800.0));
/// Flow that may be small or none: of a case line, a door, a step of a setting, what is left to other functions.
pub const SMALL_FLOW: Bounds = bounds(Unit::LitrePerMinute, (0.0, 1000.0), (0.0, 250.0));
/// Working pressure, relief, cut-off.
pub const PRESSURE: Bounds = bounds(Unit::Bar, (1.0, 1000.0), (10.0, 450.0));
/// What a part is rated for.
pub const RATING: Bounds = bounds(Unit::Bar, (1.0, 2000.0), (10.0, 700.0));
/// Scale number of ISO 4406.
pub const SCALE_NUMBER: Bounds = bounds(Unit::One, (0.0, 28.0), (8.0, 22.0));
/// Filtration rating, µm.
pub const FILTRATION: Bounds = bounds(Unit::One, (1.0, 1000.0), (2.0, 60.0));
/// What a motor's outlet bears; a drained one may bear nearly the working pressure.
pub const BACK_PRESSURE: Bounds = bounds(Unit::Bar, (0.1, 500.0), (0.5, 250.0));
/// What a motor's housing bears.
pub const CASE_PRESSURE: Bounds = bounds(Unit::Bar, (0.1, 250.0), (0.3, 30.0));
/// Gauge pressure in a tank; a breather may let it fall a little below that of the air.
pub const TANK_PRESSURE: Bounds = bounds(Unit::Bar, (-0.5, 20.0), (0.0, 2.0));
/// Pressure lost in a part.
pub const LOSS: Bounds = bounds(Unit::Bar, (0.0, 500.0), (0.0, 60.0));
/// Pressure at which a filter's bypass opens.
pub const BYPASS: Bounds = bounds(Unit::Bar, (0.1, 50.0), (0.5, 10.0));
/// Load-sensing margin.
pub const MARGIN: Bounds = bounds(Unit::Bar, (1.0, 200.0), (8.0, 60.0));
/// Pressure difference over an idling motor.
pub const FREE_RUNNING: Bounds = bounds(Unit::Bar, (0.0, 500.0), (1.0, 200.0));
/// Power of an engine, a pump or a head.
pub const POWER: Bounds = bounds(Unit::Kilowatt, (0.1, 3000.0), (1.0, 700.0));
/// Speed of an engine.
pub const ENGINE_SPEED: Bounds = bounds(Unit::RevolutionPerMinute, (100.0, 10_000.0), (500.0, 4000.0));
/// Speed of a rotor.
pub const ROTOR_SPEED: Bounds = bounds(Unit::RevolutionPerMinute, (0.1, 20_000.0), (5.0, 8000.0));
/// Mass of a machine.
pub const CARRIER_MASS: Bounds = bounds(Unit::Kilogram, (50.0, 200_000.0), (400.0, 100_000.0));
/// Mass of a head.
pub const HEAD_MASS: Bounds = bounds(Unit::Kilogram, (1.0, 50_000.0), (20.0, 8000.0));
/// What is lifted or carried.
pub const LOAD: Bounds = bounds(Unit::Kilogram, (1.0, 200_000.0), (20.0, 50_000.0));
/// Inner diameter of a line, size of a coupling.
pub const BORE: Bounds = bounds(Unit::Millimetre, (1.0, 200.0), (4.0, 65.0));
/// Length of a line.
pub const LINE_LENGTH: Bounds = bounds(Unit::Metre, (0.02, 200.0), (0.2, 30.0));
/// Pin of a mounting.
pub const PIN: Bounds = bounds(Unit::Millimetre, (5.0, 300.0), (15.0, 150.0));
/// Widths and distances of a mounting.
pub const MOUNTING: Bounds = bounds(Unit::Millimetre, (5.0, 5000.0), (50.0, 1500.0));
/// What a head works on and how wide and deep.
pub const WORK: Bounds = bounds(Unit::Millimetre, (1.0, 30_000.0), (10.0, 6000.0));
/// From a mounting face or a tipping axis to somewhere else on machine or head.
pub const ARM: Bounds = bounds(Unit::Millimetre, (1.0, 20_000.0), (50.0, 4000.0));
/// Reach of a lift chart.
pub const REACH: Bounds = bounds(Unit::Metre, (0.1, 60.0), (0.5, 25.0));
/// Height of a lift chart; below the ground it is negative.
pub const HEIGHT: Bounds = bounds(Unit::Metre, (-30.0, 60.0), (-12.0, 20.0));
/// How far people must stay away.
pub const THROW: Bounds = bounds(Unit::Metre, (0.1, 2000.0), (1.0, 300.0));
/// Displacement of a pump or motor.
pub const DISPLACEMENT: Bounds = bounds(Unit::CubicCentimetrePerRevolution, (0.1, 20_000.0), (1.0, 3000.0));
/// Efficiency, and shares near one.
pub const EFFICIENCY: Bounds = bounds(Unit::Percent, (1.0, 100.0), (40.0, 100.0));
/// Shares near nothing: leakage, droop, override.
pub const SMALL_SHARE: Bounds = bounds(Unit::Percent, (0.0, 100.0), (0.0, 40.0));
/// Loss as a multiple of the velocity head.
pub const LOSS_COEFFICIENT: Bounds = bounds(Unit::One, (0.0, 1000.0), (0.1, 100.0));
/// Rotor turns per motor turn.
pub const RATIO: Bounds = bounds(Unit::One, (0.001, 100.0), (0.02, 10.0));
/// System and coil voltage.
pub const VOLTAGE: Bounds = bounds(Unit::Volt, (1.0, 1000.0), (10.0, 60.0));
/// Coil and output current.
pub const CURRENT: Bounds = bounds(Unit::Ampere, (0.01, 1000.0), (0.1, 100.0));
/// Workshop time; a part that comes with the head takes none.
pub const TIME: Bounds = bounds(Unit::Minute, (0.0, 60_000.0), (0.0, 6000.0));
/// Travel speed.
pub const VELOCITY: Bounds = bounds(Unit::KilometrePerHour, (0.0, 100.0), (0.0, 30.0));
/// Oil in a tank.
pub const VOLUME: Bounds = bounds(Unit::Litre, (0.1, 20_000.0), (3.0, 1500.0));
/// Heat carried away per kelvin.
pub const CONDUCTANCE: Bounds = bounds(Unit::WattPerKelvin, (0.1, 1_000_000.0), (2.0, 10_000.0));
/// Mean of the square of a flow over the square of its mean.
pub const FORM_FACTOR: Bounds = bounds(Unit::One, (1.0, 10.0), (1.0, 4.0));
/// Shims beside a stick.
pub const SHIM: Bounds = bounds(Unit::Millimetre, (0.0, 200.0), (0.0, 40.0));
/// Oil temperature.
pub const OIL_TEMPERATURE: Bounds = bounds(Unit::Celsius, (-40.0, 150.0), (0.0, 90.0));
/// Share of a tipping load that may be carried.
pub const SHARE: Bounds = bounds(Unit::Percent, (1.0, 100.0), (20.0, 90.0));
/// Inertia of a rotor.
pub const INERTIA: Bounds = bounds(Unit::KilogramSquareMetre, (0.0001, 100_000.0), (0.001, 1000.0));
/// Torque.
pub const TORQUE: Bounds = bounds(Unit::NewtonMetre, (0.1, 10_000_000.0), (5.0, 200_000.0));
/// Kinematic viscosity at 100 °C.
pub const VISCOSITY_100: Bounds = bounds(Unit::SquareMillimetrePerSecond, (0.5, 10_000.0), (2.0, 60.0));
/// Kinematic viscosity.
pub const VISCOSITY: Bounds = bounds(Unit::SquareMillimetrePerSecond, (0.5, 100_000.0), (5.0, 5000.0));

/// Least, likeliest and greatest operating mass of a machine of a class, kg; for the excavators that is what the classes
/// mean.
pub fn class_mass(class: CarrierClass) -> (f64, f64, f64) {
    match class {
        CarrierClass::MicroExcavator => (700.0, 1100.0, 2000.0),
        CarrierClass::MiniExcavator => (2000.0, 3500.0, 6000.0),
        CarrierClass::MidiExcavator => (6000.0, 8500.0, 13_000.0),
        CarrierClass::Excavator => (13_000.0, 22_000.0, 45_000.0),
        CarrierClass::SkidSteer => (1200.0, 2900.0, 4800.0),
        CarrierClass::CompactTrackLoader => (1500.0, 4500.0, 6500.0),
        CarrierClass::WheelLoader => (1500.0, 9000.0, 35_000.0),
        CarrierClass::BackhoeLoader => (2000.0, 8200.0, 11_000.0),
    }
}

/// The size of excavator that has such a mass, kg.
pub fn excavator_of(kilograms: f64) -> CarrierClass {
    let sizes = [CarrierClass::MicroExcavator, CarrierClass::MiniExcavator, CarrierClass::MidiExcavator];
    sizes.into_iter().find(|class| kilograms < class_mass(*class).2).unwrap_or(CarrierClass::Excavator)
}

/// Least, likeliest and greatest relief of an auxiliary circuit of a machine of a class, bar (common practice, no published
/// source).
pub fn class_relief(class: CarrierClass) -> (f64, f64, f64) {
    match class {
        CarrierClass::MicroExcavator => (140.0, 170.0, 210.0),
        CarrierClass::MiniExcavator => (150.0, 200.0, 250.0),
        CarrierClass::MidiExcavator => (170.0, 240.0, 300.0),
        CarrierClass::Excavator => (170.0, 300.0, 360.0),
        CarrierClass::SkidSteer => (180.0, 215.0, 290.0),
        CarrierClass::CompactTrackLoader => (190.0, 230.0, 300.0),
        CarrierClass::WheelLoader => (170.0, 220.0, 300.0),
        CarrierClass::BackhoeLoader => (160.0, 220.0, 260.0),
    }
}

/// The least working pressure that attachments of a kind are made for, bar (common practice, no published source).
fn least_working_pressure(kind: HeadKind) -> f64 {
    match kind {
        HeadKind::Sweeper => 60.0,
        HeadKind::Flail | HeadKind::Auger | HeadKind::Breaker | HeadKind::PlateCompactor => 80.0,
        HeadKind::RotaryCutter
        | HeadKind::Trencher
        | HeadKind::StumpGrinder
        | HeadKind::Saw
        | HeadKind::ScreeningBucket
        | HeadKind::SnowBlower => 100.0,
        HeadKind::DrumMulcher | HeadKind::HammerMulcher | HeadKind::ColdPlaner => 140.0,
    }
}

/// A pressure of a machine of a class: improbable under half of the least relief that the class has, as a decimal that
/// slipped or psi in place of bar makes it.
pub fn of_class(class: Option<CarrierClass>) -> Bounds {
    class.map_or(PRESSURE, |class| pressure_from(0.5 * class_relief(class).0))
}

/// A pressure of an attachment of a kind: improbable under half of the least that the kind works with.
pub fn of_kind(kind: Option<HeadKind>) -> Bounds {
    kind.map_or(PRESSURE, |kind| pressure_from(0.5 * least_working_pressure(kind)))
}

fn pressure_from(least: f64) -> Bounds {
    Bounds { usual: (least, PRESSURE.usual.1), ..PRESSURE }
}

/// The bounds of a range that a table puts in place of practice.
pub fn of_assumption(id: AssumptionId) -> Bounds {
    match id {
        AssumptionId::SupplyLength | AssumptionId::ReturnLength | AssumptionId::CaseLength => LINE_LENGTH,
        AssumptionId::SupplyBore | AssumptionId::ReturnBore | AssumptionId::CaseBore => BORE,
        AssumptionId::SpoolReturnLoss
        | AssumptionId::DirectReturnLoss
        | AssumptionId::FilterLoss
        | AssumptionId::DividerLoss => LOSS,
        AssumptionId::FreeRunning => FREE_RUNNING,
        AssumptionId::LoadSensingMargin => MARGIN,
        AssumptionId::TankPressure => TANK_PRESSURE,
        AssumptionId::OutletLimit => BACK_PRESSURE,
        AssumptionId::WarmEnough | AssumptionId::OilStop => OIL_TEMPERATURE,
        AssumptionId::ShimWidth => SHIM,
        AssumptionId::ReactionTorque => TORQUE,
        AssumptionId::CaseLimit => CASE_PRESSURE,
        AssumptionId::CouplingLoss => LOSS_COEFFICIENT,
        AssumptionId::ReturnPulsation => FORM_FACTOR,
        AssumptionId::OilViscosity => VISCOSITY,
        AssumptionId::OilCleanliness => SCALE_NUMBER,
        AssumptionId::FiltrationRating => FILTRATION,
        AssumptionId::OperatingMass => CARRIER_MASS,
        AssumptionId::CircuitFlow => FLOW,
        AssumptionId::CircuitRelief
        | AssumptionId::FunctionsPressure
        | AssumptionId::PumpRatedPressure
        | AssumptionId::ReliefGap => PRESSURE,
        AssumptionId::EnginePower | AssumptionId::PilotHeat => POWER,
        AssumptionId::TankVolume => VOLUME,
        AssumptionId::CoolerConductance => CONDUCTANCE,
        AssumptionId::PumpLeak
        | AssumptionId::EngineDroop
        | AssumptionId::ReliefOverride
        | AssumptionId::CaseFlow
        | AssumptionId::CutOffBand
        | AssumptionId::PinBridge => SMALL_SHARE,
        AssumptionId::PumpPowerShare
        | AssumptionId::FreeRunningShare
        | AssumptionId::PumpEfficiency
        | AssumptionId::FunctionsUseful
        | AssumptionId::MotorVolumetric
        | AssumptionId::MotorHydromechanical => EFFICIENCY,
    }
}

impl AssumptionId {
    /// What the figure measures.
    pub fn dimension(self) -> Dimension {
        of_assumption(self).unit.dimension()
    }
}
