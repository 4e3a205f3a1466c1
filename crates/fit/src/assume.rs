//! What practice assumes when nobody states a figure, in one place.
//!
//! Every range here is **common practice, no published source** unless a line says otherwise, and the table overrides
//! it. A range is a bound, not a value: a check holds only when it holds over all of it, and a check that can hurt a
//! person never passes on it.

use super::{Assumed, AssumedFrom};
use hydraulics::impact::FORM_FACTOR;
use hydraulics::oil::HOT_STOP_CELSIUS;
use quantity::{Amount, Interval, Quantity, Tolerance, Unit};
use table::{Assumption, AssumptionId, CarrierClass, HeadKind, MotorKind, bounds};

/// How far a published auxiliary flow may be off: it is an idle-load figure.
pub const PUBLISHED_FLOW: Tolerance = Tolerance { minus: 0.15, plus: 0.08 };
/// How far a published pressure may be off.
pub const PUBLISHED_PRESSURE: Tolerance = Tolerance::both(0.03);
/// How far a published power may be off.
pub const PUBLISHED_POWER: Tolerance = Tolerance::both(0.05);
/// How far a published mass may be off.
pub const PUBLISHED_MASS: Tolerance = Tolerance::both(0.03);
/// How far a published loss of a valve, coupling or filter may be off.
pub const PUBLISHED_LOSS: Tolerance = Tolerance::both(0.10);
/// How far an engine's governor may hold another speed than is stated.
pub const ENGINE_SPEED: Tolerance = Tolerance::both(0.03);
/// How exactly a setting can be made with a gauge or a flow meter.
pub const OWN_SETTING: Tolerance = Tolerance::both(0.02);
/// How exactly a sealed flow regulator holds its flow over pressure.
pub const REGULATOR: Tolerance = Tolerance::both(0.10);
/// How far below what a maker asks for a relief may stand and still be set so.
pub const SETTING_SLACK: f64 = 0.05;
/// How much pressure a relief that we set leaves above the need at work.
pub const PRESSURE_MARGIN: f64 = 0.10;
/// How far a main relief must at least open above the pump's cut-off, as a share of it.
pub const LEAST_SHARE_ABOVE_CUT_OFF: f64 = 0.05;
/// How far a shock relief stands above the main relief, bar (20 to 40).
pub const SHOCK_ABOVE_MAIN_BAR: f64 = 20.0;
/// How near the weakest hose a spike on closing may come before it is remarked: the relief and a fifth.
pub const SPIKE: f64 = 1.2;
/// From which share of the head's power lines and valves take too much to pass without a word.
pub const MUCH_LOSS: f64 = 0.10;
/// How far people stay away where a maker names no distance and the head throws, m.
pub const THROW_ZONE_METRES: f64 = 90.0;
/// The most of its pumps' flow that a divider may send to the head and still be one.
pub const MOST_DIVIDED: f64 = 0.8;
/// What a divider loses on the way to the functions, bar (1 to 6).
pub const EXCESS_BAR: f64 = 3.0;
/// What a changeover valve or manifold loses, bar, at a flow, L/min.
pub const CHANGEOVER_LOSS: (f64, f64) = (2.0, 150.0);
/// Filtration rating of the return filters that shops fit, µm.
pub const FITTED_FILTRATION_UM: u16 = 10;
/// How far a balance of heat may be off, as a multiple up or down.
pub const HEAT_BAND: f64 = 4.0 / 3.0;
/// How high above or below the ground a pin may be at which a head hangs that works on the ground, m: a point of a lift chart within
/// that is one at ground level.
pub const GROUND_LEVEL_METRES: f64 = 0.5;
/// How far short of the greatest reach the last column of a lift chart may be for rounding, as a share.
pub const REACH_ROUNDED: f64 = 0.02;
/// Up to which oil temperature a machine may be idled warm, °C: what asks for more has the wrong oil, or too small a line.
pub const WARMEST_START_CELSIUS: f64 = 30.0;

/// How much warmer than the ambient the air is that a cooler behind a radiator gets, K (0 to 25).
pub const COOLER_AIR: f64 = 10.0;

/// How a head spends its day, as shares that make up one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Duty {
    /// At work.
    pub work: f64,
    /// Turning without work.
    pub free: f64,
    /// Held fast, over the relief.
    pub stalled: f64,
    /// Switched off.
    pub off: f64,
}

/// How heads of a kind spend their day.
pub fn duty(kind: HeadKind) -> Duty {
    let of = |work, free, stalled, off| Duty { work, free, stalled, off };
    match kind {
        HeadKind::DrumMulcher
        | HeadKind::HammerMulcher
        | HeadKind::RotaryCutter
        | HeadKind::Flail
        | HeadKind::StumpGrinder
        | HeadKind::Saw => of(0.60, 0.30, 0.02, 0.08),
        HeadKind::Breaker => of(0.5, 0.0, 0.0, 0.5),
        HeadKind::Auger => of(0.35, 0.2, 0.05, 0.4),
        HeadKind::ColdPlaner | HeadKind::SnowBlower | HeadKind::Sweeper | HeadKind::Trencher => {
            of(0.8, 0.1, 0.01, 0.09)
        }
        // Neither has an idle; both are lifted and set down again.
        HeadKind::PlateCompactor | HeadKind::ScreeningBucket => of(0.6, 0.0, 0.0, 0.4),
    }
}

/// Full speed is asked of oil from this temperature on, °C; below it the machine idles itself warm.
pub const WARM_ENOUGH_CELSIUS: f64 = 30.0;

/// Looks up ranges for one machine with one head.
#[derive(Clone, Copy, Debug)]
pub struct Practice<'a> {
    /// The table's own ranges.
    pub overrides: &'a [Assumption],
    /// The machine's class.
    pub class: CarrierClass,
    /// What the head does.
    pub head: HeadKind,
    /// How its motor is built, if anybody says.
    pub motor: Option<MotorKind>,
}

/// Least, likeliest and greatest figures of a class: flow in L/min, net engine power in kW, oil in the tank in L, cooler
/// in W/K.
struct ClassFigures {
    flow: (f64, f64, f64),
    engine: (f64, f64, f64),
    tank: (f64, f64, f64),
    cooler: (f64, f64, f64),
}

impl Practice<'_> {
    /// The range for a figure as amounts, and whether it is the table's own.
    pub fn stated(&self, id: AssumptionId) -> Option<Assumed> {
        let own = self.own(id).map(|a| (a.low, a.nominal, a.high, AssumedFrom::Table));
        let (low, nominal, high, from) = own.or_else(|| {
            let (low, nominal, high, unit) = self.built_in(id)?;
            let amount = |value| Amount::from_si(unit.dimension(), unit.to_si(value));
            Some((amount(low), amount(nominal), amount(high), AssumedFrom::Practice))
        })?;
        Some(Assumed { id, low, nominal, high, from })
    }

    /// The table's most particular range for a figure.
    fn own(&self, id: AssumptionId) -> Option<&Assumption> {
        self.overrides
            .iter()
            .filter(|a| a.id == id && a.class.is_none_or(|class| class == self.class))
            .filter(|a| a.motor.is_none_or(|motor| Some(motor) == self.motor))
            .max_by_key(|a| usize::from(a.class.is_some()) + usize::from(a.motor.is_some()))
    }

    /// The range for a figure: the table's most particular one, else the built-in one, else none.
    pub fn range<Q: Quantity>(&self, id: AssumptionId) -> Option<Interval<Q>> {
        let own = self.own(id).and_then(|a| {
            Some(Interval { low: a.low.quantity()?, nominal: a.nominal.quantity()?, high: a.high.quantity()? })
        });
        own.or_else(|| {
            let (low, nominal, high, unit) = self.built_in(id)?;
            (unit.dimension() == Q::DIMENSION)
                .then(|| Interval { low, nominal, high }.map(|value| Q::from_si(unit.to_si(value))))
        })
    }

    /// A limit of practice, which there always is: the table's own, else the built-in one.
    pub fn limit<Q: Quantity>(&self, id: AssumptionId) -> Interval<Q> {
        let nothing = Interval::exact(Q::from_si(0.0));
        self.range(id).unwrap_or(nothing)
    }

    /// Least, likeliest, greatest value and their unit.
    fn built_in(&self, id: AssumptionId) -> Option<(f64, f64, f64, Unit)> {
        use AssumptionId as A;
        let with = |(low, nominal, high): (f64, f64, f64), unit| Some((low, nominal, high, unit));
        match id {
            A::SupplyLength | A::ReturnLength | A::CaseLength => with(self.line_length(), Unit::Metre),
            A::SupplyBore | A::ReturnBore => with(self.line_bore(), Unit::Millimetre),
            A::CaseBore => with((9.525, 12.7, 19.05), Unit::Millimetre),
            A::SpoolReturnLoss => with((5.0, 10.0, 25.0), Unit::Bar),
            A::DirectReturnLoss => with((1.0, 3.0, 6.0), Unit::Bar),
            A::FilterLoss => with((0.3, 0.5, 3.5), Unit::Bar),
            A::CouplingLoss => with((6.0, 12.0, 20.0), Unit::One),
            A::OilViscosity => with((32.0, 46.0, 68.0), Unit::SquareMillimetrePerSecond),
            // ISO 4406 20/18/15 for gear motors, 18/16/13 for piston motors; a number more is still common.
            A::OilCleanliness => with((13.0, 15.0, 16.0), Unit::One),
            A::FiltrationRating => with((6.0, 10.0, 25.0), Unit::One),
            A::PumpLeak => with((2.0, 5.0, 8.0), Unit::Percent),
            A::PumpRatedPressure => with(self.pump_rated_pressure(), Unit::Bar),
            A::PumpPowerShare => with(self.pump_power_share(), Unit::Percent),
            A::PumpEfficiency => with((84.0, 88.0, 92.0), Unit::Percent),
            A::LoadSensingMargin => with((14.0, 20.0, 28.0), Unit::Bar),
            A::CutOffBand => with((3.0, 5.0, 8.0), Unit::Percent),
            A::FunctionsUseful => with((40.0, 50.0, 70.0), Unit::Percent),
            A::PilotHeat => with((1.0, 1.3, 2.0), Unit::Kilowatt),
            A::EngineDroop => with((4.0, 7.0, 10.0), Unit::Percent),
            A::ReliefOverride => with((3.0, 8.0, 10.0), Unit::Percent),
            A::MotorVolumetric => with(self.motor_volumetric(), Unit::Percent),
            A::MotorHydromechanical => with(self.motor_hydromechanical(), Unit::Percent),
            // 3 % (1 to 5) of the flow when new, times 2 (1.5 to 3) when worn: judged as worn.
            A::CaseFlow => with((1.5, 6.0, 15.0), Unit::Percent),
            A::ReturnPulsation => with(FORM_FACTOR, Unit::One),
            A::FreeRunning => with(self.free_running()?, Unit::Bar),
            // A broom always brushes: 60 % of what it needs at work, 40 % of that more or less.
            A::FreeRunningShare if self.head == HeadKind::Sweeper => with((36.0, 60.0, 84.0), Unit::Percent),
            A::FreeRunningShare => None,
            A::TankPressure => with((0.0, 0.2, 0.5), Unit::Bar),
            A::OutletLimit => with(self.outlet_limit()?, Unit::Bar),
            A::OperatingMass => with(bounds::class_mass(self.class), Unit::Kilogram),
            A::CircuitFlow => with(self.class_figures().flow, Unit::LitrePerMinute),
            A::CircuitRelief => with(bounds::class_relief(self.class), Unit::Bar),
            A::EnginePower => with(self.class_figures().engine, Unit::Kilowatt),
            A::TankVolume => with(self.class_figures().tank, Unit::Litre),
            A::CoolerConductance => with(self.class_figures().cooler, Unit::WattPerKelvin),
            A::CaseLimit => with(self.case_limit()?, Unit::Bar),
            A::FunctionsPressure => with((60.0, 120.0, 200.0), Unit::Bar),
            A::DividerLoss => with((5.0, 10.0, 15.0), Unit::Bar),
            // Limits rather than figures: the low end of a gap counts, the likeliest of a temperature.
            A::ReliefGap => with((15.0, 15.0, 20.0), Unit::Bar),
            A::WarmEnough => with((WARM_ENOUGH_CELSIUS, WARM_ENOUGH_CELSIUS, WARM_ENOUGH_CELSIUS), Unit::Celsius),
            A::OilStop => with((HOT_STOP_CELSIUS, HOT_STOP_CELSIUS, HOT_STOP_CELSIUS), Unit::Celsius),
            A::ReactionTorque => with(self.reaction_torque(), Unit::NewtonMetre),
            A::PinBridge => with((35.0, 35.0, 35.0), Unit::Percent),
            A::ShimWidth => with((10.0, 10.0, 10.0), Unit::Millimetre),
        }
    }

    /// What machines of the class have, least, likeliest and greatest, with and without high flow.
    fn class_figures(&self) -> ClassFigures {
        let of = |flow, engine, tank, cooler| ClassFigures { flow, engine, tank, cooler };
        match self.class {
            CarrierClass::MicroExcavator => {
                of((12.0, 20.0, 35.0), (5.0, 8.0, 15.0), (8.0, 14.0, 25.0), (15.0, 65.0, 160.0))
            }
            CarrierClass::MiniExcavator => {
                of((20.0, 50.0, 110.0), (10.0, 21.0, 40.0), (18.0, 40.0, 90.0), (40.0, 180.0, 420.0))
            }
            CarrierClass::MidiExcavator => {
                of((50.0, 110.0, 180.0), (30.0, 47.0, 80.0), (55.0, 90.0, 150.0), (120.0, 420.0, 900.0))
            }
            CarrierClass::Excavator => {
                of((90.0, 220.0, 450.0), (60.0, 110.0, 280.0), (110.0, 200.0, 450.0), (300.0, 1000.0, 2600.0))
            }
            CarrierClass::SkidSteer => {
                of((40.0, 75.0, 160.0), (15.0, 45.0, 85.0), (20.0, 45.0, 80.0), (60.0, 380.0, 800.0))
            }
            CarrierClass::CompactTrackLoader => {
                of((50.0, 90.0, 185.0), (25.0, 58.0, 95.0), (25.0, 50.0, 90.0), (90.0, 500.0, 950.0))
            }
            CarrierClass::WheelLoader => {
                of((30.0, 100.0, 320.0), (15.0, 75.0, 280.0), (20.0, 80.0, 260.0), (60.0, 600.0, 2600.0))
            }
            CarrierClass::BackhoeLoader => {
                of((50.0, 105.0, 180.0), (35.0, 68.0, 95.0), (40.0, 80.0, 150.0), (120.0, 550.0, 950.0))
            }
        }
    }

    /// What pumps are rated for, or where they cut off, bar: gear and vane pumps 140 to 250, piston pumps 180 to 400; large
    /// excavators have piston pumps only. From the least of a class on purpose: no pump may come out better for not being
    /// stated.
    fn pump_rated_pressure(&self) -> (f64, f64, f64) {
        match self.class {
            CarrierClass::MicroExcavator => (140.0, 180.0, 300.0),
            CarrierClass::MiniExcavator => (150.0, 220.0, 350.0),
            CarrierClass::MidiExcavator => (170.0, 260.0, 400.0),
            CarrierClass::Excavator => (210.0, 340.0, 400.0),
            CarrierClass::SkidSteer | CarrierClass::CompactTrackLoader => (170.0, 230.0, 400.0),
            CarrierClass::WheelLoader | CarrierClass::BackhoeLoader => (160.0, 230.0, 400.0),
        }
    }

    /// Torque that slew brake or lift arm hold, N·m: about 2.5 N·m (1.5 to 5) a kilogram of the machine.
    fn reaction_torque(&self) -> (f64, f64, f64) {
        let (least, likely, greatest) = bounds::class_mass(self.class);
        (1.5 * least, 2.5 * likely, 5.0 * greatest)
    }

    /// From valve to head, m.
    fn line_length(&self) -> (f64, f64, f64) {
        match self.class {
            CarrierClass::MicroExcavator => (2.0, 3.0, 4.0),
            CarrierClass::MiniExcavator => (3.0, 4.5, 6.0),
            CarrierClass::MidiExcavator => (4.0, 6.0, 8.0),
            CarrierClass::Excavator => (7.0, 9.0, 12.0),
            CarrierClass::SkidSteer | CarrierClass::CompactTrackLoader => (1.5, 2.5, 4.0),
            CarrierClass::WheelLoader => (2.5, 4.0, 6.0),
            CarrierClass::BackhoeLoader => (4.0, 6.0, 9.0),
        }
    }

    /// Auxiliary lines, mm: whole hose sizes (dash size in sixteenths of an inch).
    fn line_bore(&self) -> (f64, f64, f64) {
        match self.class {
            CarrierClass::MicroExcavator => (9.525, 9.525, 12.7),
            CarrierClass::MiniExcavator => (9.525, 12.7, 15.875),
            CarrierClass::Excavator => (19.05, 19.05, 25.4),
            CarrierClass::MidiExcavator
            | CarrierClass::SkidSteer
            | CarrierClass::CompactTrackLoader
            | CarrierClass::WheelLoader
            | CarrierClass::BackhoeLoader => (12.7, 15.875, 19.05),
        }
    }

    /// Share of the net engine power that the pumps may take: excavators .80 (.70 to .90); loaders lose 8 % (5 to 12)
    /// to fan and alternator, and what they need to drive while the head works.
    fn pump_power_share(&self) -> (f64, f64, f64) {
        if self.class.is_excavator() {
            return (70.0, 80.0, 90.0);
        }
        let travel = match self.head {
            HeadKind::DrumMulcher | HeadKind::HammerMulcher | HeadKind::RotaryCutter | HeadKind::Flail => 25.0,
            HeadKind::ColdPlaner => 15.0,
            HeadKind::Trencher | HeadKind::Sweeper => 20.0,
            HeadKind::SnowBlower => 30.0,
            HeadKind::Auger
            | HeadKind::Breaker
            | HeadKind::StumpGrinder
            | HeadKind::PlateCompactor
            | HeadKind::Saw
            | HeadKind::ScreeningBucket => return (88.0, 92.0, 95.0),
        };
        (88.0 - travel - 10.0, 92.0 - travel, 95.0 - travel + 10.0)
    }

    fn motor_volumetric(&self) -> (f64, f64, f64) {
        match self.motor {
            Some(motor) if motor.is_piston() => (90.0, 95.0, 100.0),
            Some(_) => (83.0, 88.0, 93.0),
            None => (83.0, 90.0, 100.0),
        }
    }

    fn motor_hydromechanical(&self) -> (f64, f64, f64) {
        match self.motor {
            Some(motor) if motor.is_piston() => (88.0, 93.0, 98.0),
            Some(MotorKind::GearOneWay | MotorKind::GearDrained) => (80.0, 85.0, 90.0),
            Some(_) => (75.0, 80.0, 85.0),
            None => (75.0, 86.0, 98.0),
        }
    }

    /// Pressure difference over the motor of an idling head, bar; none of a sweeper, which goes by a share of its working
    /// pressure.
    fn free_running(&self) -> Option<(f64, f64, f64)> {
        match self.head {
            HeadKind::Sweeper => None,
            HeadKind::Flail | HeadKind::Saw => Some((18.0, 30.0, 42.0)),
            HeadKind::Auger => Some((9.0, 15.0, 21.0)),
            HeadKind::SnowBlower => Some((30.0, 50.0, 70.0)),
            // A plate or breaker has no idle: near what it needs at work.
            HeadKind::PlateCompactor | HeadKind::Breaker => Some((40.0, 80.0, 120.0)),
            _ => Some((20.0, 40.0, 70.0)),
        }
    }

    /// Allowed pressure at the motor's outlet, bar; none for motors whose drain has a line of its own.
    fn outlet_limit(&self) -> Option<(f64, f64, f64)> {
        match self.motor? {
            MotorKind::GearOneWay => Some((1.0, 2.0, 3.0)),
            // 7 bar continuous, seal rated 17 bar: from a maker's sheet; here common practice, no published source.
            MotorKind::Gerotor => Some((7.0, 7.0, 17.0)),
            MotorKind::Orbital => Some((20.0, 20.0, 50.0)),
            MotorKind::Impact => Some((5.0, 10.0, 20.0)),
            MotorKind::GearDrained | MotorKind::AxialPiston | MotorKind::BentAxis | MotorKind::RadialPiston => None,
        }
    }

    /// Allowed pressure in the motor's housing, bar.
    fn case_limit(&self) -> Option<(f64, f64, f64)> {
        match self.motor? {
            MotorKind::GearOneWay | MotorKind::GearDrained => Some((2.0, 3.0, 5.0)),
            MotorKind::Gerotor | MotorKind::Orbital => Some((3.0, 5.0, 10.0)),
            MotorKind::AxialPiston => Some((1.5, 2.0, 3.0)),
            MotorKind::BentAxis => Some((2.0, 3.0, 3.0)),
            MotorKind::RadialPiston => Some((1.0, 3.0, 5.0)),
            MotorKind::Impact => None,
        }
    }
}
