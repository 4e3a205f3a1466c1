//! What facts remember: what was made of a sample is asked for again and again, by one check after another.

use super::extreme::Extreme;
use super::ways::Ways;
use crate::sample::Sample;
use hydraulics::Resistance;
use hydraulics::balance::{Balanced, Operating, Stall};
use quantity::{Pressure, Quantity, ThermodynamicTemperature};
use smallvec::SmallVec;
use std::cell::RefCell;
use std::ops::Deref;
use std::rc::Rc;

/// A circuit in one scenario and one oil temperature, with the points of it that were solved.
#[derive(Debug)]
pub struct Drawn {
    circuit: hydraulics::Circuit,
    solved: RefCell<Solved>,
}

/// Points that were solved, by the pressure difference over the motor (SI, its bits).
type Solved = SmallVec<[(u64, Result<Operating, Stall>); 2]>;

impl Deref for Drawn {
    type Target = hydraulics::Circuit;

    fn deref(&self) -> &hydraulics::Circuit {
        &self.circuit
    }
}

impl Drawn {
    /// A circuit of which nothing is solved yet.
    pub fn of(circuit: hydraulics::Circuit) -> Self {
        Self { circuit, solved: RefCell::default() }
    }

    /// The circuit itself, to be changed.
    pub fn to_circuit(&self) -> hydraulics::Circuit {
        self.circuit.clone()
    }

    /// The flow at a pressure difference over the motor, with all that goes with it, solved once.
    ///
    /// # Errors
    /// [`Stall`] when nothing flows at that pressure.
    pub fn solve(&self, motor: Pressure) -> Result<Operating, Stall> {
        let key = motor.si().to_bits();
        let known = self.solved.borrow().iter().find(|(known, _)| *known == key).map(|(_, point)| *point);
        known.unwrap_or_else(|| {
            let point = self.circuit.solve(motor);
            self.solved.borrow_mut().push((key, point));
            point
        })
    }

    /// What the circuit does with a pressure difference over the motor: turn, stall, or neither can be said.
    pub fn balance(&self, motor: Pressure) -> Balanced {
        self.balanced(self.solve(motor))
    }
}

/// Circuits that were asked for.
pub type Circuits = Memory<Rc<Drawn>>;
/// Ways of the oil that were asked for.
pub type KnownWays = Memory<Ways>;
/// What one way of the oil loses.
pub type KnownResistances = Memory<Resistance>;

/// What was made of draws, by scenario and temperature (SI), each with the sample. A clone is the same memory: for facts that make the same
/// of every sample.
#[derive(Clone, Debug)]
pub struct Memory<T>(Rc<RefCell<Vec<Known<T>>>>);

#[derive(Debug)]
struct Known<T> {
    asked: (Extreme, f64),
    made: T,
    sample: Sample<'static>,
}

impl<T> Default for Memory<T> {
    fn default() -> Self {
        Self(Rc::default())
    }
}

impl<T: Clone> Memory<T> {
    /// What a sample makes: remembered where one that could not differ has made it, with all that was noted.
    pub fn get(
        &self,
        sample: &Sample,
        (lean, temperature): (Extreme, ThermodynamicTemperature),
        make: impl FnOnce(&Sample) -> T,
    ) -> T {
        let asked = (lean, temperature.si());
        let known = self.0.borrow();
        if let Some(known) = known.iter().find(|known| known.asked == asked && sample.is_like(&known.sample)) {
            sample.like(&known.sample);
            return known.made.clone();
        }
        drop(known);
        let Some(own) = sample.own() else { return make(sample) };
        let made = make(&own);
        sample.like(&own);
        self.0.borrow_mut().push(Known { asked, made: made.clone(), sample: own });
        made
    }
}
