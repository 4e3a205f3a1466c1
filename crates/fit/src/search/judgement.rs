//! How a check comes out in a search: no figures, only what decides which changes are tried next.

use crate::{Bound, Cause, Check, CheckId, Outcome, Reason};
use quantity::Named;

/// How one check comes out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Judgement {
    /// Which check.
    pub id: CheckId,
    /// How it comes out.
    pub outcome: Outcome,
    /// Whether it keeps a pairing from fitting.
    pub fails: bool,
    /// On which side of its limit the value of one that fails must be, where it has one.
    pub bound: Option<Bound>,
    /// What of the reason of one that fails decides which changes help.
    pub why: Why,
}

/// What of a reason decides which changes help.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// The relief stands lower than the head's maker asks.
    ReliefLow,
    /// The oil gets too thin.
    OilTooThin,
    /// The oil is too thick to start in.
    OilTooThick,
    /// A figure is missing.
    FigureMissing,
    /// Anything else.
    Other,
}

impl Judgement {
    /// A balance of heat that is known not to hold, before it is drawn up.
    pub const TOO_HOT: Self =
        Self { id: CheckId::Heat, outcome: Outcome::NotMet, fails: true, bound: None, why: Why::Other };

    /// Of a check.
    pub fn of(check: &Check) -> Self {
        let fails = check.fails();
        let why = match check.reason {
            _ if !fails => Why::Other,
            Reason::Beyond { because: Cause::ReliefLow } | Reason::Undecided { because: Cause::ReliefLow } => {
                Why::ReliefLow
            }
            Reason::OilTooThin { .. } => Why::OilTooThin,
            Reason::OilTooThick { .. } => Why::OilTooThick,
            Reason::FactMissing => Why::FigureMissing,
            _ => Why::Other,
        };
        Self { id: check.id, outcome: check.outcome, fails, bound: check.bound.filter(|_| fails), why }
    }
}

/// Some of the checks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Checks(u64);

impl Checks {
    /// None of them.
    pub const NONE: Self = Self(0);
    /// Every one.
    pub const ALL: Self = Self((1 << CheckId::ALL.len()) - 1);

    /// Every one but the balance of heat.
    pub const BUT_HEAT: Self = Self(Self::ALL.0 & !(1 << CheckId::Heat as u32));

    /// Whether one is among them.
    pub fn has(self, id: CheckId) -> bool {
        self.0 >> (id as u32) & 1 == 1
    }

    /// With one more.
    #[must_use]
    pub fn with(self, id: CheckId) -> Self {
        Self(self.0 | 1 << (id as u32))
    }

    /// With others.
    #[must_use]
    pub fn and(self, others: Self) -> Self {
        Self(self.0 | others.0)
    }

    /// Without some.
    #[must_use]
    pub fn without(self, others: Self) -> Self {
        Self(self.0 & !others.0)
    }

    /// Whether there is none.
    pub fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// One after the other, in the order of the list.
    pub fn iter(self) -> impl Iterator<Item = CheckId> {
        CheckId::ALL.iter().copied().filter(move |&id| self.has(id))
    }
}

impl FromIterator<CheckId> for Checks {
    fn from_iter<I: IntoIterator<Item = CheckId>>(ids: I) -> Self {
        ids.into_iter().fold(Self::NONE, Self::with)
    }
}
