//! Heads that strike: a breaker is no motor.

/// How the flow in the return of a breaker pulsates: the mean of the square over the square of the mean, least, likeliest,
/// greatest (common practice, no published source).
pub const FORM_FACTOR: (f64, f64, f64) = (1.2, 1.5, 2.0);
