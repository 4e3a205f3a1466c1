//! A machine on which changes are tried.

use super::setup::Setup;
use rustc_hash::FxHashMap;
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use table::{Carrier, ChangeId, Circuit};
use typed_arena::Arena;

/// Keeps what changes make of machines as long as somebody looks at them.
#[derive(Default)]
pub struct Store {
    carriers: Arena<Carrier>,
    circuits: Arena<Circuit>,
    hints: RefCell<FxHashMap<ChangeId, HintsAmongAlike>>,
}

/// Hints of one change, by the number that machines share which differ little.
type HintsAmongAlike = Vec<(u64, Rc<Hints>)>;

/// Where the settings of a change were found last, by their steps: on a machine that differs little they are found near there.
#[derive(Clone, Default)]
pub struct Hints {
    /// The first flow up to what the head is made for at which an upper limit does not hold.
    pub upper: Cell<Option<u32>>,
    /// The same above what the head is made for.
    pub raised: Cell<Option<u32>>,
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
    /// Which machines differ little from it, by a number that they share.
    alike: u64,
    /// The machine with the head.
    pub setup: Setup<'a>,
}

impl<'a> Machine<'a> {
    /// A machine as it is.
    pub fn of(store: &'a Store, setup: Setup<'a>) -> Self {
        Self { store, alike: 0, setup }
    }

    /// The machine as one of those that differ little from each other and share a number.
    #[must_use]
    pub fn among(self, alike: u64) -> Self {
        Self { alike, ..self }
    }

    /// Where the settings of a change were found last on machines that differ little from it.
    pub fn hints(self, change: ChangeId) -> Rc<Hints> {
        let mut hints = self.store.hints.borrow_mut();
        let of_change = hints.entry(change).or_default();
        if let Some((_, known)) = of_change.iter().find(|(alike, _)| *alike == self.alike) {
            return Rc::clone(known);
        }
        // The first of them begins where others ended.
        let first = Rc::new(of_change.last().map(|(_, others)| Hints::clone(others)).unwrap_or_default());
        of_change.push((self.alike, Rc::clone(&first)));
        first
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
