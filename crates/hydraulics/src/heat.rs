//! What lost pressure does to the oil: every watt that leaves by no shaft warms it, cooler and tank carry it away.
//!
//! `T∞ = (H + UA_c·T_air + UA_t·T_amb)/(UA_c + UA_t)`, reached with the time constant `τ = C/(UA_c + UA_t)`.

use quantity::{
    HeatCapacity, Kind, MassDensity, Power, Pressure, Ratio, SpecificHeatCapacity, TemperatureInterval,
    ThermalConductance, ThermodynamicTemperature, Time, VolumeRate,
};
use uom::si::heat_capacity::joule_per_kelvin;
use uom::si::pressure::bar;
use uom::si::specific_heat_capacity::joule_per_kilogram_kelvin;
use uom::si::temperature_interval::kelvin;

/// How much warmer oil is behind a valve in which it loses a pressure and does no work: ΔT = Δp/(ρ·c_p).
///
/// 100 bar make about 6 K.
///
/// ```
/// use hydraulics::heat::rise_over_throttle;
/// use hydraulics::oil::specific_heat;
/// use quantity::{Kind, MassDensity, Pressure};
/// use uom::si::temperature_interval::kelvin;
/// let rise = rise_over_throttle(Pressure::from_si(100e5), MassDensity::from_si(870.0), specific_heat());
/// assert!((rise.get::<kelvin>() - 6.1).abs() < 0.05);
/// ```
pub fn rise_over_throttle(
    lost: Pressure,
    density: MassDensity,
    specific_heat: SpecificHeatCapacity,
) -> TemperatureInterval {
    let heat = density.si() * specific_heat.get::<joule_per_kilogram_kelvin>();
    TemperatureInterval::new::<kelvin>(lost.si() / heat)
}

/// Heat that a flow makes by losing a pressure without doing work, P = Δp·Q.
pub fn of_throttling(lost: Pressure, flow: VolumeRate) -> Power {
    lost * flow
}

/// A cooler known by one point: the heat that it carried away at a difference of temperature and a flow.
///
/// `UA = P_r/ΔT_r · min(1.2, (Q/Q_r)^0.45)` over the flow that really passes it (exponent and bound are common practice, no
/// published source). A head whose return bypasses the cooler gets none of it.
///
/// ```
/// use hydraulics::heat::Cooler;
/// use quantity::{Kind, ThermalConductance, VolumeRate};
/// let cooler = Cooler { conductance: ThermalConductance::from_si(400.0), flow: VolumeRate::from_si(2e-3) };
/// assert_eq!(cooler.at(VolumeRate::from_si(2e-3)).si(), 400.0);
/// // Half the flow still carries away nearly three quarters; without flow it does nothing.
/// assert!((cooler.at(VolumeRate::from_si(1e-3)).si() - 293.0).abs() < 1.0);
/// assert_eq!(cooler.at(VolumeRate::from_si(0.0)).si(), 0.0);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cooler {
    /// Heat per kelvin between oil and air, at `flow`.
    pub conductance: ThermalConductance,
    /// The flow at which that holds; above zero.
    pub flow: VolumeRate,
}

impl Cooler {
    /// What it carries away per kelvin at a flow ≥ 0.
    pub fn at(&self, flow: VolumeRate) -> ThermalConductance {
        self.conductance * (flow / self.flow).value.max(0.0).powf(0.45).min(1.2)
    }

    /// Fitted from a run under a known load: heat, steady oil temperature, air temperature at the cooler, and what the
    /// tank's walls gave off meanwhile. None when the oil is no warmer than the air, or the walls alone explain it.
    pub fn fitted(
        heat: Power,
        oil: ThermodynamicTemperature,
        air: ThermodynamicTemperature,
        by_walls: Power,
        flow: VolumeRate,
    ) -> Option<Self> {
        let (difference, by_cooler) = (oil.si() - air.si(), (heat - by_walls).si());
        let conductance = ThermalConductance::from_si(by_cooler / difference);
        (difference > 0.0 && by_cooler > 0.0).then_some(Self { conductance, flow })
    }
}

/// What warms the oil and what cools it.
///
/// ```
/// use hydraulics::heat::Bath;
/// use quantity::{Kind, Power, ThermalConductance, ThermodynamicTemperature, Unit};
/// use uom::si::{f64::HeatCapacity, heat_capacity::kilojoule_per_kelvin};
/// let celsius = |t| ThermodynamicTemperature::from_si(Unit::Celsius.to_si(t));
/// // 80 L of oil, no cooler at all: 15 kW take it from 50 to 80 °C in 4.3 minutes.
/// let bath = Bath {
///     heat: Power::from_si(15e3), cooler: ThermalConductance::from_si(0.0), air: celsius(30.0),
///     walls: ThermalConductance::from_si(0.0), ambient: celsius(30.0),
///     capacity: HeatCapacity::new::<kilojoule_per_kelvin>(80.0 * 0.860 * 1.88),
/// };
/// assert_eq!(bath.steady(), None);
/// let time = bath.time_to(celsius(50.0), celsius(80.0)).expect("it gets there");
/// assert!((Unit::Minute.of_si(time.si()) - 4.3).abs() < 0.05);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bath {
    /// Heat that goes into the oil, H; ≥ 0.
    pub heat: Power,
    /// What the cooler carries away per kelvin, UA_c; ≥ 0.
    pub cooler: ThermalConductance,
    /// The air that the cooler gets: behind a radiator warmer than the ambient.
    pub air: ThermodynamicTemperature,
    /// What the walls of the tank give off per kelvin, UA_t; ≥ 0.
    pub walls: ThermalConductance,
    /// The ambient.
    pub ambient: ThermodynamicTemperature,
    /// What oil and steel take up per kelvin, C.
    pub capacity: HeatCapacity,
}

impl Bath {
    /// The temperature at which it settles; none when nothing carries heat away: then it never does.
    pub fn steady(&self) -> Option<ThermodynamicTemperature> {
        let carried = self.cooler + self.walls;
        let towards = self.cooler.si() * self.air.si() + self.walls.si() * self.ambient.si();
        (carried.si() > 0.0).then(|| ThermodynamicTemperature::from_si((self.heat.si() + towards) / carried.si()))
    }

    /// Its time constant, τ = C/ΣUA; none when nothing carries heat away.
    pub fn time_constant(&self) -> Option<Time> {
        let carried = (self.cooler + self.walls).si();
        (carried > 0.0).then(|| Time::from_si(self.capacity.get::<joule_per_kelvin>() / carried))
    }

    /// How long it takes from one temperature to a limit, `t = τ·ln((T∞ − T_0)/(T∞ − T_lim))`; none when it never gets
    /// there.
    pub fn time_to(&self, from: ThermodynamicTemperature, limit: ThermodynamicTemperature) -> Option<Time> {
        if from.si() >= limit.si() {
            return Some(Time::from_si(0.0));
        }
        let Some((steady, tau)) = self.steady().zip(self.time_constant()) else {
            let stored = self.capacity.get::<joule_per_kelvin>() * (limit.si() - from.si());
            return (self.heat.si() > 0.0).then(|| Time::from_si(stored / self.heat.si()));
        };
        let rest = (steady.si() - from.si()) / (steady.si() - limit.si());
        (steady.si() > limit.si()).then(|| tau * rest.ln())
    }
}

/// What oil and the steel around it take up per kelvin: 1.3 times the oil alone (common practice, no published source).
pub fn with_steel(oil_alone: HeatCapacity) -> HeatCapacity {
    oil_alone * 1.3
}

/// What a tank's walls give off per kelvin by their area: 2 Btu/(h·ft²·°F), 11.4 W/(m²·K); the high end of 5.8 to 11.6
/// W/(m²·K) (common practice, no published source).
///
/// ```
/// use hydraulics::heat::tank_walls;
/// use uom::si::{area::square_meter, f64::Area};
/// use quantity::Kind;
/// assert!((tank_walls(Area::new::<square_meter>(1.0)).si() - 11.36).abs() < 0.005);
/// ```
pub fn tank_walls(area: quantity::Area) -> ThermalConductance {
    ThermalConductance::from_si(11.3565 * area.get::<uom::si::area::square_meter>())
}

/// The heat of a pump that works part of the time: its own loss, what goes over its relief, and what the lines lose of the rest
/// (Esposito, chapter 11).
pub fn of_a_circuit(hydraulic: Power, pump_efficiency: Ratio, over_relief: Ratio, lost_in_lines: Ratio) -> Power {
    let own = hydraulic / pump_efficiency - hydraulic;
    own + hydraulic * over_relief + hydraulic * (Ratio::from_si(1.0) - over_relief) * lost_in_lines
}

/// By how much the pressure of oil that is locked in rises when it warms: about 11 bar a kelvin (90 psi per °F by a
/// published rule of thumb).
///
/// ```
/// use hydraulics::heat::locked_in_rise;
/// use uom::si::{f64::TemperatureInterval, pressure::bar, temperature_interval::kelvin};
/// // A hose that lies in the sun and warms by 20 K: 220 bar.
/// assert!((locked_in_rise(TemperatureInterval::new::<kelvin>(20.0)).get::<bar>() - 220.0).abs() < 1e-9);
/// ```
pub fn locked_in_rise(warmer: TemperatureInterval) -> Pressure {
    Pressure::new::<bar>(11.0 * warmer.get::<kelvin>())
}
