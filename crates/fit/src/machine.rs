//! A machine on which changes are tried.

use super::setup::Setup;
use std::cell::Cell;
use table::{Carrier, Circuit};
use typed_arena::Arena;

/// Keeps what changes make of machines as long as somebody looks at them.
#[derive(Default)]
pub struct Store {
    carriers: Arena<Carrier>,
    circuits: Arena<Circuit>,
    hints: Hints,
}

/// Where settings were found last, by their steps: on a machine that differs little they are found near there.
#[derive(Default)]
pub struct Hints {
    /// The first flow at which an upper limit does not hold.
    pub upper: Cell<Option<u32>>,
    /// The first flow of which too little is left to the functions.
    pub functions: Cell<Option<u32>>,
    /// The least pressure that is enough.
    pub relief: Cell<Option<u32>>,
}

/// A machine as changes leave it, with a head: the carrier, and beside it the one circuit that is judged.
///
/// A change copies only what it touches. The carrier's own list still holds that circuit as it was before: what is asked of it is asked
/// of the one beside it, until [`Self::whole`] puts them together.
#[derive(Clone, Copy)]
pub struct Machine<'a> {
    store: &'a Store,
    /// The machine with the head.
    pub setup: Setup<'a>,
}

impl<'a> Machine<'a> {
    /// A machine as it is.
    pub fn of(store: &'a Store, setup: Setup<'a>) -> Self {
        Self { store, setup }
    }

    /// Where settings were found last.
    pub fn hints(self) -> &'a Hints {
        &self.store.hints
    }

    /// The machine with its circuit changed.
    #[must_use]
    pub fn with_circuit(self, change: impl FnOnce(&mut Circuit)) -> Self {
        let circuit = self.store.circuits.alloc(self.setup.circuit.clone());
        change(circuit);
        Self { setup: Setup { circuit, ..self.setup }, ..self }
    }

    /// The machine with its carrier changed, all but its circuit.
    #[must_use]
    pub fn with_carrier(self, change: impl FnOnce(&mut Carrier)) -> Self {
        let carrier = self.store.carriers.alloc(self.setup.carrier.clone());
        change(carrier);
        Self { setup: Setup { carrier, ..self.setup }, ..self }
    }

    /// The carrier with the circuit in its place.
    pub fn whole(self) -> Carrier {
        let Setup { carrier, circuit, .. } = self.setup;
        let mut whole = carrier.clone();
        for place in whole.circuits.iter_mut().filter(|place| place.id == circuit.id) {
            place.clone_from(circuit);
        }
        whole
    }
}
