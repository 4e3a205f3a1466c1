//! What lost pressure does to the oil: every watt that leaves by no shaft warms it, cooler and tank carry it away.
//!
//! `T∞ = (H + UA_c·T_air + UA_t·T_amb)/(UA_c + UA_t)`, reached with the time constant `τ = C/(UA_c + UA_t)`.

use quantity::{HeatCapacity, Power, Quantity, ThermalConductance, ThermodynamicTemperature, Time, VolumeRate};
use uom::si::heat_capacity::joule_per_kelvin;

/// A cooler known by one point: the heat that it carried away at a difference of temperature and a flow.
///
/// `UA = P_r/ΔT_r · min(1.2, (Q/Q_r)^0.45)` over the flow that really passes it (exponent and bound are common practice, no
/// published source). A head whose return bypasses the cooler gets none of it.
///
/// ```
/// use hydraulics::heat::Cooler;
/// use quantity::{Quantity, ThermalConductance, VolumeRate};
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
}

/// What warms the oil and what cools it.
///
/// ```
/// use hydraulics::heat::Bath;
/// use quantity::{Quantity, Power, ThermalConductance, Unit};
/// use uom::si::{f64::HeatCapacity, heat_capacity::kilojoule_per_kelvin};
/// use quantity::shop::celsius;
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
