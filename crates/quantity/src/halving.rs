//! Where something begins to hold between two values, found by halving.

/// When a search ends.
#[derive(Clone, Copy, Debug)]
pub enum Until {
    /// After so many rounds.
    Rounds(u32),
    /// Once what is good lies no more than this above what is bad.
    Within(f64),
}

/// The ends to which a search comes between a value that is bad and one that is good: the last bad one and the last good one.
///
/// ```
/// # use quantity::{Until, halved};
/// let (below, above) = halved((1.0, 2.0), Until::Within(1e-9), |x| x * x >= 2.0);
/// assert!(below < 2.0_f64.sqrt() && 2.0_f64.sqrt() <= above && above - below <= 1e-9);
/// ```
pub fn halved(ends: (f64, f64), until: Until, is_good: impl Fn(f64) -> bool) -> (f64, f64) {
    halved_where_known(ends, until, |value| Some(is_good(value))).unwrap_or(ends)
}

/// The ends as of [`halved`]; none once it cannot be said of a value between whether it is good.
pub fn halved_where_known(
    (mut bad, mut good): (f64, f64),
    until: Until,
    is_good: impl Fn(f64) -> Option<bool>,
) -> Option<(f64, f64)> {
    let mut rounds = 0;
    let goes_on = |rounds, bad: f64, good: f64| match until {
        Until::Rounds(most) => rounds < most,
        Until::Within(gap) => good - bad > gap,
    };
    while goes_on(rounds, bad, good) {
        let middle = bad.midpoint(good);
        if is_good(middle)? {
            good = middle;
        } else {
            bad = middle;
        }
        rounds += 1;
    }
    Some((bad, good))
}
