//! How warm the oil is after some time of the head's usual work, from any start.

use super::warmth::{balances, shown_cooler, tank_volume};
use crate::FactId;
use crate::facts::Facts;
use crate::sample::{Corner, Sample};
use hydraulics::heat::{Bath, with_steel};
use quantity::{Power, Quantity, Ratio, ThermodynamicTemperature, Time};
use uom::si::heat_capacity::joule_per_kelvin;

/// Oil temperatures at which a balance of heat is drawn up, °C; between them it is taken as straight, beyond them as at the end.
const BALANCES: [f64; 6] = [0.0, 20.0, 40.0, 60.0, 80.0, 110.0];
/// From one point of time to the next, s.
const STEP: f64 = 60.0;

/// Balances of heat over the oil's temperature.
#[derive(Clone, Debug)]
pub struct HeatUp {
    balances: Vec<(f64, Bath)>,
}

/// What is otherwise than computed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Otherwise {
    /// The heat, as a multiple.
    pub heat: Ratio,
    /// More heat besides.
    pub more: Power,
    /// What coolers carry away, as a multiple.
    pub cooler: Ratio,
}

impl HeatUp {
    /// The balances of an installation at likely figures.
    ///
    /// # Errors
    /// What is missing for it.
    pub fn of(facts: &Facts) -> Result<Self, Vec<FactId>> {
        let cooling = shown_cooler(facts).map_err(|fact| vec![fact])?;
        let volume = tank_volume(facts).fact.interval().ok_or(vec![FactId::TankVolume])?;
        let sample = Sample::new(Corner::Likely);
        let capacity = with_steel(facts.oil_at(&sample, facts.conditions.working).heat_capacity(volume.nominal));
        Ok(Self { balances: balances(facts, cooling, capacity, &BALANCES)? })
    }

    /// Whether any cooler carries heat away.
    pub fn cools(&self) -> bool {
        self.balances.iter().any(|(_, bath)| bath.cooler.si() > 0.0)
    }

    /// The oil's temperature a time after a start: `C·dT/dt = H(T) − UA_c·(T − T_air) − UA_t·(T − T_amb)`, in steps of a minute.
    pub fn after(&self, start: ThermodynamicTemperature, time: Time, otherwise: Otherwise) -> ThermodynamicTemperature {
        let (mut t, mut left) = (start.si(), time.si());
        while left > 0.0 {
            let step = left.min(STEP);
            let (rise, fades) = self.rise(t, otherwise);
            // Exact for a rise that fades with the temperature: a large cooler on a small tank swings past nothing.
            t += if fades > 0.0 { rise / fades * -(-fades * step).exp_m1() } else { rise * step };
            left -= step;
        }
        ThermodynamicTemperature::from_si(t)
    }

    /// Kelvin per second at a temperature, and how much less it is for each kelvin.
    fn rise(&self, t: f64, otherwise: Otherwise) -> (f64, f64) {
        let last = self.balances.len() - 1;
        let upper = self.balances.iter().position(|(at, _)| t <= *at).unwrap_or(last).max(1);
        let ((a, cold), (b, warm)) = (&self.balances[upper - 1], &self.balances[upper]);
        let share = ((t - a) / (b - a)).clamp(0.0, 1.0);
        let between = |one: f64, other: f64| one + (other - one) * share;
        let heat = between(cold.heat.si(), warm.heat.si()) * otherwise.heat.si() + otherwise.more.si();
        // Air behind a radiator warms no oil that is colder: the thermostat is shut then.
        let cooler = between(cold.cooler.si(), warm.cooler.si()) * otherwise.cooler.si();
        let cooler = if t > cold.air.si() { cooler } else { 0.0 };
        let (cooled, walls) = (cooler * (t - cold.air.si()), cold.walls.si() * (t - cold.ambient.si()));
        let capacity = cold.capacity.get::<joule_per_kelvin>();
        ((heat - cooled - walls) / capacity, (cooler + cold.walls.si()) / capacity)
    }
}
