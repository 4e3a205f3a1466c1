//! The oil temperature from which a machine may go to full speed.

use crate::facts::Facts;
use crate::solved::{Solved, Tried};
use crate::trace::{Against, Context};
use crate::{Check, CheckId, checks};
use quantity::{Quantity, ThermodynamicTemperature, Until, halved};

/// The checks that oil too cold can fail.
pub const COLD_CHECKS: [CheckId; 5] =
    [CheckId::FlowWindow, CheckId::Pressure, CheckId::Power, CheckId::BackPressure, CheckId::CasePressure];

/// What speaks against full speed with oil at a temperature: the checks that fail, with all their figures.
pub fn too_cold(facts: &Facts, temperature: ThermodynamicTemperature) -> Vec<Against> {
    let checks = COLD_CHECKS.iter().map(|&id| checks::check(id, facts, temperature));
    let mut against: Vec<_> = checks.filter(Check::fails).map(|check| Against { check, spare: 0.0 }).collect();
    against.extend(checks::hot_motor(facts, temperature).map(|check| Against { check, spare: 0.0 }));
    against
}

/// The lowest oil temperature at which a machine that fits may go to full speed; none when it may from cold on.
pub fn warm_up_from(facts: &Facts) -> Option<Solved<ThermodynamicTemperature>> {
    Solved::on(facts, || {
        let kelvin = ThermodynamicTemperature::from_si;
        let cold = facts.chosen(Context::ColdOil, facts.conditions.cold);
        let warm = facts.by_practice(Context::WarmEnough, facts.warm_enough);
        let (asked, tried) = (facts.untraced(), Tried::on(facts));
        let holds = |si: f64| {
            let temperature = kelvin(si);
            let holds = COLD_CHECKS.iter().all(|&id| !checks::outcome(id, &asked, temperature).fails())
                && !checks::is_hot_motor_at_risk(&asked, temperature);
            tried.with(temperature, || if holds { Vec::new() } else { too_cold(&asked, temperature) });
            holds
        };
        let (mut bad, mut good) = (cold.si(), warm.si());
        if bad >= good || holds(bad) {
            return None;
        }
        // A hot motor on a cold case line may want more than the checks do: then up to what the oil has at work.
        if !holds(good) {
            (bad, good) = (good, facts.conditions.working.si());
        }
        // To a tenth of a kelvin: thermometers on machines show whole degrees.
        let (_, good) = halved((bad, good), Until::Within(0.1), holds);
        Some(tried.taken(kelvin(good)))
    })
}
