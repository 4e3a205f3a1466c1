//! A question with a limit on one side, and what one draw answers to it.

use crate::result::rounded;
use crate::{Bound, Cause, CheckId, Class};
use quantity::Kind;

/// What one draw gives: the value, the limit, and what sets the value.
#[derive(Clone, Copy, Debug)]
pub struct Reading<Q> {
    /// The value.
    pub value: Q,
    /// The limit.
    pub limit: Q,
    /// What sets the value in this corner.
    pub because: Cause,
}

/// A question with a limit on one side.
#[derive(Clone, Copy, Debug)]
pub struct Question {
    /// The check that it belongs to.
    pub id: CheckId,
    /// What a failure puts at risk.
    pub class: Class,
    /// Whether the verdict waits for it while it is not known.
    pub blocks: bool,
    /// Which side of the limit is right.
    pub bound: Bound,
}

impl Question {
    /// Whether a value is on the right side of its limit.
    pub fn holds<Q: Kind>(self, reading: &Reading<Q>) -> bool {
        match self.bound {
            Bound::AtLeast => reading.value >= reading.limit,
            Bound::AtMost => reading.value <= reading.limit,
        }
    }

    /// How far a value is from its limit, as a share of it; negative beyond it.
    pub fn margin<Q: Kind>(self, reading: &Reading<Q>) -> f64 {
        let (value, limit) = (reading.value.si(), reading.limit.si());
        if limit <= 0.0 {
            return 0.0;
        }
        rounded(match self.bound {
            Bound::AtLeast => (value - limit) / limit,
            Bound::AtMost => (limit - value) / limit,
        })
    }
}
