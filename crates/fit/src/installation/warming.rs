//! How the oil warms over hours of the head's usual work, from the ambient on.

use super::Installation;
use super::warmth::{HeatOverTemperature, bath_of, mean_heat, net, shown_cooler, stop_of, tank_volume};
use crate::FactId;
use crate::sample::{Corner, Sample};
use hydraulics::heat::with_steel;
use quantity::{Amount, Quantity, ThermodynamicTemperature, Time, Unit};
use uom::si::heat_capacity::joule_per_kelvin;

/// The oil's temperature over time.
#[derive(Clone, Debug, PartialEq)]
pub struct Warming {
    /// Time and temperature, from the start on.
    pub points: Vec<(Amount, Amount)>,
    /// The temperature at which work ends.
    pub stop: Amount,
    /// Where it settles with a third less heat and with a third more; none where it cannot be said.
    pub within: Option<(Amount, Amount)>,
}

/// Oil temperatures at which a balance of heat is drawn up besides the ambient, °C; between them it is taken as straight.
const BALANCES: [f64; 5] = [40.0, 60.0, 80.0, 110.0, 150.0];
/// The longest day that is shown, s.
const DAY: f64 = 8.0 * 3600.0;
/// From one point to the next, s.
const STEP: f64 = 30.0;

impl Installation<'_> {
    /// The oil over time: until it stands still to a tenth of a kelvin in ten minutes, is well past the temperature at which work
    /// ends, or the day is over.
    ///
    /// # Errors
    /// What is missing for it.
    pub fn warming(&self) -> Result<Warming, Vec<FactId>> {
        let facts = self.facts();
        let cooling = shown_cooler(&facts).map_err(|fact| vec![fact])?;
        let volume = tank_volume(&facts).fact.interval().ok_or(vec![FactId::TankVolume])?;
        let sample = Sample::new(Corner::Likely);
        let capacity = with_steel(facts.oil_at(&sample, self.conditions.working).heat_capacity(volume.nominal));
        let ambient = self.conditions.ambient.si();
        let mut at: Vec<f64> = BALANCES.iter().map(|&celsius| Unit::Celsius.to_si(celsius)).collect();
        at.retain(|t| *t > ambient + 1.0);
        at.insert(0, ambient);
        let mut balances = Vec::new();
        for t in at {
            let (heat, carried) = mean_heat(&facts, cooling, ThermodynamicTemperature::from_si(t))?;
            balances.push((t, net(&bath_of(&facts, heat, carried, capacity), t)));
        }
        let stop = stop_of(&facts).si();
        let (mut seconds, mut t) = (0.0, ambient);
        let mut points = vec![(seconds, t)];
        while seconds < DAY && t < stop + 15.0 {
            let rise = between(&balances, t) / capacity.get::<joule_per_kelvin>();
            if rise.abs() * 600.0 < 0.1 && seconds > 0.0 {
                break;
            }
            t += rise * STEP;
            seconds += STEP;
            points.push((seconds, t));
        }
        let amount = |(seconds, t): (f64, f64)| {
            (Amount::of(Time::from_si(seconds)), Amount::of(ThermodynamicTemperature::from_si(t)))
        };
        // As many points as a drawing can show.
        let every = points.len().div_ceil(120);
        let last = points.len() - 1;
        let kept = points.iter().enumerate().filter(|(index, _)| index % every == 0 || *index == last);
        Ok(Warming {
            points: kept.map(|(_, &point)| amount(point)).collect(),
            stop: Amount::of(ThermodynamicTemperature::from_si(stop)),
            within: HeatOverTemperature::of(&facts).ok().map(|balance| balance.within()),
        })
    }
}

/// A figure between those of a table, on a straight line; beyond its end that of the end.
fn between(table: &[(f64, f64)], at: f64) -> f64 {
    for pair in table.windows(2) {
        let ((a, one), (b, other)) = (pair[0], pair[1]);
        if at <= b {
            return one + (other - one) * ((at - a) / (b - a)).clamp(0.0, 1.0);
        }
    }
    table.last().map_or(0.0, |last| last.1)
}

impl Warming {
    /// Whether it is open on which side of the end of work the oil settles: then half an hour of work must show it.
    pub fn is_open(&self) -> bool {
        super::warmth::is_open(self.within, self.stop)
    }
}
