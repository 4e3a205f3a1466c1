//! One machine's auxiliary circuit with one head, to look into: every state at every node, what a brochure says against what
//! the circuit gives, the oil at any temperature, and where its temperature ends. All at likely figures; the verdict and its worst
//! corners are [`pair`](super::pair)'s.

mod brochure;
mod curve;
pub mod heat_up;
pub mod inlet;
mod lift;
mod oil;
pub mod sharing;
pub mod states;
mod warming;
pub mod warmth;

pub use brochure::{Brochure, Gap, GapCause};
pub use curve::{Need, PumpCurve};
pub use lift::{LiftAt, LiftOverReach};
pub use oil::{OilMark, OilReading};
pub use states::{EngineState, FilterState, FunctionsState, NoPoint, NodeReading, Solved, Standing, State};
pub use warming::Warming;
pub use warmth::Warmth;

use super::Conditions;
use super::assume::Practice;
use super::facts::Facts;
use quantity::{Pressure, VolumeRate};
use table::{Carrier, Head, Id};

/// A carrier's circuit with a head.
#[derive(Clone, Copy, Debug)]
pub struct Installation<'a> {
    carrier: &'a Carrier,
    circuit: &'a table::Circuit,
    head: &'a Head,
    conditions: &'a Conditions,
    /// The circuit as the machine's maker states it: a change sets another flow or relief, and the brochure says what it said.
    stated: &'a table::Circuit,
}

impl<'a> Installation<'a> {
    /// None when the carrier has no circuit of this name.
    pub fn new(carrier: &'a Carrier, circuit: &Id, head: &'a Head, conditions: &'a Conditions) -> Option<Self> {
        let circuit = carrier.circuit(circuit)?;
        Some(Self { carrier, circuit, head, conditions, stated: circuit })
    }

    /// The installation of a machine that was changed, with the machine as it was before: its brochure is that one's.
    #[must_use]
    pub fn changed_from(self, before: &'a Carrier) -> Self {
        Self { stated: before.circuit(&self.circuit.id).unwrap_or(self.stated), ..self }
    }

    /// Flow and relief as the brochure has them; none where it lacks one of them.
    fn says(&self) -> Option<(VolumeRate, Pressure)> {
        Some((self.stated.flow.as_ref()?.nominal, self.stated.relief.as_ref()?.nominal))
    }

    /// The ranges of practice for it.
    pub fn practice(&self) -> Practice<'a> {
        self.facts().practice
    }

    fn facts(&self) -> Facts<'a> {
        Facts::gather(self.carrier, self.circuit, self.head, self.conditions)
    }
}
