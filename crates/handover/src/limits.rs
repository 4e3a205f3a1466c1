//! What is too far off, and what alarms.

use super::Measurement;
use super::fault::Fault;

/// Whether a dangerous fault drives a reading that is beyond its limit.
pub(super) fn alarmed(fault: Fault, beyond: &[Measurement]) -> bool {
    fault.is_dangerous() && beyond.iter().any(|what| fault.drives(*what))
}

/// Whether so many readings that belong together are further off than chance takes them once in a thousand times (the distance is
/// distributed as χ²; its quantile by Wilson and Hilferty 1931).
pub(super) fn too_far(distance: f64, readings: usize) -> bool {
    let n = readings as f64;
    let limit = n * (1.0 - 2.0 / (9.0 * n) + 3.09 * (2.0 / (9.0 * n)).sqrt()).powi(3);
    // What is no number is too far from any.
    !distance.is_finite() || distance > limit
}
