//! Entries with a limit lowered or a load raised.

use super::entry::{Entry, Place};
use serde_json::{Value, json};

/// Limits of a machine: lower is worse.
const CARRIER_LIMITS: &[&str] = &[
    "lifting.chart[].mass",
    "lifting.rated_operating_capacity",
    "lifting.tipping_load",
    "coupler.capacity",
    "curl_clearance",
    "reaction_torque",
    "circuits[].supply[].rating",
    "circuits[].return_path.line[].rating",
    "circuits[].coupling.rated_flow",
    "circuits[].coupling.rated_pressure",
    "circuits[].shared_with[].greatest_pressure",
    "electrics.outputs[].current",
];
/// Loads of a machine: more is worse.
const CARRIER_LOADS: &[&str] =
    &["coupler.mass", "functions.least_flow", "circuits[].return_path.loss.loss", "tank.pressure"];
/// Limits of an attachment: lower is worse.
const HEAD_LIMITS: &[&str] = &[
    "pressure.greatest",
    "flow.greatest",
    "power.greatest",
    "motor.rotor_speed.greatest",
    "motor.torque_limit",
    "outlet.back_pressure",
    "outlet.case_pressure",
    "carrier_mass.greatest",
    "extra_functions[].greatest_pressure",
];
/// Loads of an attachment: more is worse.
const HEAD_LOADS: &[&str] =
    &["mass", "centre_of_gravity", "curl_radius", "carrier_mass.least", "flow.least", "extra_functions[].current"];

/// The entry with each of its limits at four fifths, and each of its loads a quarter greater.
pub fn each(entry: &Entry) -> Vec<(Place, Value)> {
    let (limits, loads) = match entry {
        Entry::Carrier(_) => (CARRIER_LIMITS, CARRIER_LOADS),
        Entry::Head(_) => (HEAD_LIMITS, HEAD_LOADS),
    };
    let value = entry.value();
    let places = entry.places().into_iter();
    let worse = places.filter_map(|place| {
        let pattern = place.pattern();
        let factor = if limits.contains(&pattern.as_str()) {
            0.8
        } else if loads.contains(&pattern.as_str()) {
            1.25
        } else {
            return None;
        };
        let text = place.of(value)?.as_str()?;
        let (number, unit) = text.split_once(' ')?;
        let number: f64 = number.parse().ok()?;
        let changed = place.set(value, json!(format!("{:.4} {unit}", number * factor)))?;
        Some((place, changed))
    });
    worse.collect()
}
