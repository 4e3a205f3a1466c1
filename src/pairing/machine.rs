//! A machine on which changes are tried.

use super::Conditions;
use super::facts::Facts;
use super::search::Setup;
use crate::table::{Carrier, Circuit, Head};
use std::rc::Rc;

/// A machine as changes leave it: the carrier, and beside it the one circuit that is judged.
///
/// A change copies only what it touches. The carrier's own list still holds that circuit as it was before: what is asked of it is asked
/// of the one beside it, until [`Self::whole`] puts them together.
#[derive(Clone, Debug)]
pub struct Machine {
    carrier: Rc<Carrier>,
    circuit: Rc<Circuit>,
}

impl Machine {
    /// A machine as it is.
    pub fn of(carrier: &Carrier, circuit: &Circuit) -> Self {
        Self { carrier: Rc::new(carrier.clone()), circuit: Rc::new(circuit.clone()) }
    }

    /// The carrier, all but its circuit.
    pub fn carrier(&self) -> &Carrier {
        &self.carrier
    }

    /// The circuit that is judged.
    pub fn circuit(&self) -> &Circuit {
        &self.circuit
    }

    /// The machine with its circuit changed.
    #[must_use]
    pub fn with_circuit(&self, change: impl FnOnce(&mut Circuit)) -> Self {
        let mut circuit = Circuit::clone(&self.circuit);
        change(&mut circuit);
        Self { carrier: Rc::clone(&self.carrier), circuit: Rc::new(circuit) }
    }

    /// The machine with its carrier changed, all but its circuit.
    #[must_use]
    pub fn with_carrier(&self, change: impl FnOnce(&mut Carrier)) -> Self {
        let mut carrier = Carrier::clone(&self.carrier);
        change(&mut carrier);
        Self { carrier: Rc::new(carrier), circuit: Rc::clone(&self.circuit) }
    }

    /// With a head.
    pub fn setup<'a>(&'a self, head: &'a Head, conditions: &'a Conditions) -> Setup<'a> {
        Setup { carrier: &self.carrier, circuit: &self.circuit, head, conditions }
    }

    /// What is known of it with a head.
    pub fn facts<'a>(&'a self, head: &'a Head, conditions: &'a Conditions) -> Facts<'a> {
        Facts::gather(&self.carrier, &self.circuit, head, conditions)
    }

    /// The carrier with the circuit in its place.
    pub fn whole(&self) -> Carrier {
        let mut carrier = Carrier::clone(&self.carrier);
        for place in carrier.circuits.iter_mut().filter(|place| place.id == self.circuit.id) {
            place.clone_from(&self.circuit);
        }
        carrier
    }
}
