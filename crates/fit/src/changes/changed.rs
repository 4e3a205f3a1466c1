//! What a change leaves behind.

use crate::machine::Machine;
use crate::solved::Solved;
use crate::{Setting, SettingId};
use quantity::{Amount, Length, Quantity, Source, Spread, Stated, Unit};
use table::Line;

pub fn exact<Q: Quantity>(quantity: Q, unit: Unit) -> Stated<Q> {
    let spread = Spread::Range { low: quantity, high: quantity };
    Stated { nominal: quantity, spread, source: Source::Published, unit }
}

/// The total length of a line, when all of it is known.
pub fn known_length(line: &Line) -> Option<Length> {
    let mut sum = Length::from_si(0.0);
    for segment in &line.segments {
        sum += segment.length.as_ref()?.nominal;
    }
    (!line.segments.is_empty()).then_some(sum)
}

/// A setting that needs no solving.
pub fn setting<Q: Quantity>(name: SettingId, value: Q) -> Solved<Setting> {
    solved(name, Solved::plain(value))
}

/// A setting that was solved.
pub fn solved<Q: Quantity>(name: SettingId, solved: Solved<Q>) -> Solved<Setting> {
    solved.map(|value| Setting { name, value: Amount::of(value) })
}

/// What a change makes of a machine, with the settings made.
pub type Changed<'m> = Option<(Machine<'m>, Vec<Solved<Setting>>)>;

/// A figure that we set or fit ourselves, marked as measured: it is proved with an instrument at the hand-over.
pub fn own<Q: Quantity>(quantity: Q, unit: Unit) -> Stated<Q> {
    Stated { nominal: quantity, spread: Spread::Unstated, source: Source::Measured, unit }
}
