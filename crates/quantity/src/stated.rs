//! A figure as somebody stated it: value, tolerance, and whether it was published, read off a plate or measured.

use crate::{Interval, Provenance, Quantity, Source, SpreadFrom, Tolerance, Unit};

/// What was written about the spread of a figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Spread<Q> {
    /// Nothing: the practice for this kind of figure holds.
    Unstated,
    /// `±5 %` or `-15/+8 %`.
    Relative(Tolerance),
    /// `80..117 L/min`: the value lies somewhere between; the nominal is the middle.
    Range {
        /// The lower end.
        low: Q,
        /// The upper end.
        high: Q,
    },
}

/// A stated figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stated<Q> {
    /// The value as stated (the middle of a range).
    pub nominal: Q,
    /// Its spread as stated.
    pub spread: Spread<Q>,
    /// Who says so; published unless written otherwise.
    pub source: Source,
    /// The unit in which it was written, in which it is written back.
    pub unit: Unit,
}

impl<Q> Stated<Q> {
    /// The figure with each of its values turned into another form of it.
    pub fn map<R>(self, form: impl Fn(Q) -> R) -> Stated<R> {
        let spread = match self.spread {
            Spread::Unstated => Spread::Unstated,
            Spread::Relative(tolerance) => Spread::Relative(tolerance),
            Spread::Range { low, high } => Spread::Range { low: form(low), high: form(high) },
        };
        Stated { nominal: form(self.nominal), spread, source: self.source, unit: self.unit }
    }
}

impl<Q: Quantity> Stated<Q> {
    /// A published figure without a stated tolerance, from a value in `unit`.
    ///
    /// # Panics
    /// When `unit` measures something else than `Q`; a programming fault, as units are constants here.
    pub fn published(value: f64, unit: Unit) -> Self {
        assert_eq!(unit.dimension(), Q::DIMENSION, "{unit:?} does not measure {:?}", Q::DIMENSION);
        Self { nominal: Q::from_si(unit.to_si(value)), spread: Spread::Unstated, source: Source::Published, unit }
    }

    /// The values it may have: the stated spread, else ±2 % for a measured figure (common practice, no published
    /// source), else `practice`.
    pub fn interval(&self, practice: Tolerance) -> Interval<Q> {
        let tolerance = match self.spread {
            Spread::Range { low, high } => return Interval { low, nominal: self.nominal, high },
            Spread::Relative(stated) => stated,
            Spread::Unstated if self.source == Source::Measured => Tolerance::both(0.02),
            Spread::Unstated => practice,
        };
        Interval::around(self.nominal, tolerance)
    }

    /// Who states it, and where the spread that [`Self::interval`] gives it comes from.
    pub fn said(&self, practice: Tolerance) -> Provenance {
        let spread = match self.spread {
            Spread::Range { .. } | Spread::Relative(_) => SpreadFrom::Stated,
            Spread::Unstated if self.source == Source::Measured || practice != Tolerance::NONE => SpreadFrom::Practice,
            Spread::Unstated => SpreadFrom::Exact,
        };
        Provenance { source: self.source, spread }
    }
}

/// A span that a person may choose from, `180..260 bar`; not an uncertainty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range<Q> {
    /// The lower end.
    pub low: Q,
    /// The upper end, never below `low`.
    pub high: Q,
    /// The unit in which it was written.
    pub unit: Unit,
}

impl<Q: Quantity> Range<Q> {
    /// Whether the value lies in the range, ends included.
    pub fn contains(&self, value: Q) -> bool {
        self.low <= value && value <= self.high
    }
}
