//! The values at which a setting was tried, with what spoke against each.

use crate::Check;
use quantity::Amount;

/// A value that a setting was tried at.
#[derive(Clone, Debug, PartialEq)]
pub struct Trial {
    /// The value.
    pub value: Amount,
    /// What spoke against it; nothing where it would do.
    pub against: Vec<Against>,
}

/// A check that speaks against a value.
#[derive(Clone, Debug, PartialEq)]
pub struct Against {
    /// The check at that value.
    pub check: Check,
    /// How much of its limit must be left, as a share of it.
    pub spare: f64,
}

/// Of the values that would not do the nearest to the one taken, from below and from above; and the one taken, where something speaks
/// against it too, so that it is only the best there is.
pub fn nearest<'a>(tried: impl Iterator<Item = &'a Trial>, taken: Amount) -> Vec<Trial> {
    // A hair of slack: the same step comes out the same, but for its last digits.
    let close = |a: f64, b: f64| (a - b).abs() <= 1e-9 * a.abs().max(b.abs());
    let (mut below, mut at, mut above): (Option<&Trial>, Option<&Trial>, Option<&Trial>) = (None, None, None);
    for trial in tried.filter(|trial| !trial.against.is_empty()) {
        let (value, taken) = (trial.value.si(), taken.si());
        if close(value, taken) {
            at = Some(trial);
        } else if value < taken {
            below = below.filter(|known| known.value.si() >= value).or(Some(trial));
        } else {
            above = above.filter(|known| known.value.si() <= value).or(Some(trial));
        }
    }
    [below, at, above].into_iter().flatten().cloned().collect()
}
