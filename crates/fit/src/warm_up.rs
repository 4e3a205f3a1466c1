//! The oil temperature from which a machine may go to full speed.

use crate::facts::Facts;
use crate::trace::{Against, Context, From, Given};
use crate::{Check, CheckId, SettingId, checks};
use quantity::{Amount, Kind, ThermodynamicTemperature};

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
pub fn warm_up_from(heard: &Facts) -> Option<Amount> {
    let facts = heard.clone().for_a_search();
    heard.solves(SettingId::OilTemperature);
    let (cold, warm) = (Amount::of(facts.conditions.cold), Amount::of(checks::warm_enough(&facts)));
    heard.see_context(Context::ColdOil, Given(cold, From::Chosen));
    heard.see_context(Context::WarmEnough, Given(warm, From::Practice));
    let holds = |si: f64| {
        let temperature = ThermodynamicTemperature::from_si(si);
        let holds = COLD_CHECKS.iter().all(|&id| !checks::check(id, &facts, temperature).fails())
            && checks::hot_motor(&facts, temperature).is_none();
        heard.tried(Amount::of(temperature), |whole| if holds { Vec::new() } else { too_cold(whole, temperature) });
        holds
    };
    let (mut bad, mut good) = (facts.conditions.cold.si(), checks::warm_enough(&facts).si());
    if bad >= good || holds(bad) {
        return None;
    }
    // A hot motor on a cold case line may want more than the checks do: then up to what the oil has at work.
    if !holds(good) {
        (bad, good) = (good, facts.conditions.working.si());
    }
    // To a tenth of a kelvin: thermometers on machines show whole degrees.
    while good - bad > 0.1 {
        let middle = bad.midpoint(good);
        if holds(middle) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    Some(Amount::of(ThermodynamicTemperature::from_si(good)))
}
