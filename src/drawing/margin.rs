//! A margin as a dimension line: the limit, the worst value, and the gap between its arrows.

use crate::pairing::{Bound, Check};
use crate::quantity::UnitSystem;

/// Where the marks of a margin stand on a line of length 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Margin {
    /// The limit.
    pub limit: f64,
    /// The worst value; held inside the line.
    pub worst: f64,
    /// The nominal value, where it is known.
    pub value: Option<f64>,
    /// Whether the right side of the limit is the one towards greater values.
    pub right_is_good: bool,
    /// Whether the worst value is on the right side.
    pub good: bool,
    /// Whether the worst value lies beyond the end of the line.
    pub cut: bool,
}

/// The dimension line of a check with figures.
///
/// The line runs from zero to a good part beyond the greater of limit and worst value; a value more than twice the limit
/// is drawn at the end and marked as cut.
pub fn margin(check: &Check) -> Option<Margin> {
    let figure = |amount: Option<crate::quantity::Amount>| Some(amount?.in_system(UnitSystem::Metric).0);
    let (limit, worst) = (figure(check.limit)?, figure(check.worst)?);
    if !(limit > 0.0 && worst >= 0.0 && limit.is_finite() && worst.is_finite()) {
        return None;
    }
    let end = limit.max(worst.min(2.0 * limit)) * 1.12;
    let place = |value: f64| (value / end).clamp(0.0, 1.0);
    let right_is_good = check.bound == Some(Bound::AtLeast);
    let good = if right_is_good { worst >= limit } else { worst <= limit };
    Some(Margin {
        limit: place(limit),
        worst: place(worst),
        value: figure(check.value).map(place),
        right_is_good,
        good,
        cut: worst > end,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pairing::{CheckId, Class, Outcome, Reason};
    use crate::quantity::{Amount, Kind, Pressure};

    fn check(worst: f64, limit: f64, bound: Bound) -> Check {
        let bar = |p: f64| Some(Amount::of(Pressure::from_si(p * 1e5)));
        Check {
            id: CheckId::BackPressure,
            class: Class::Damage,
            outcome: Outcome::Met,
            blocks: true,
            value: bar(worst * 0.9),
            worst: bar(worst),
            limit: bar(limit),
            bound: Some(bound),
            margin: Some(0.0),
            reason: Reason::Within,
            missing: Vec::new(),
            assumed: Vec::new(),
        }
    }

    #[test]
    fn the_right_side_depends_on_the_bound() {
        let upper = margin(&check(8.0, 10.0, Bound::AtMost)).expect("figures");
        assert!(upper.good && upper.worst < upper.limit && !upper.right_is_good);
        let lower = margin(&check(8.0, 10.0, Bound::AtLeast)).expect("figures");
        assert!(!lower.good && lower.right_is_good);
    }

    #[test]
    fn everything_stands_on_the_line() {
        for worst in [0.0, 0.1, 5.0, 10.0, 19.0, 21.0, 500.0] {
            let drawn = margin(&check(worst, 10.0, Bound::AtMost)).expect("figures");
            for place in [drawn.limit, drawn.worst, drawn.value.expect("a value")] {
                assert!((0.0..=1.0).contains(&place), "{worst}: {drawn:?}");
            }
            assert_eq!(drawn.cut, worst > 2.0 * 10.0 * 1.12, "{worst}");
        }
    }

    #[test]
    fn without_figures_there_is_no_line() {
        let mut none = check(8.0, 10.0, Bound::AtMost);
        none.limit = None;
        assert_eq!(margin(&none), None);
    }
}
