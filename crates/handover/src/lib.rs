//! The hand-over: what is to be read on the machine as it goes to work, what should be read, and what is wrong where it is not.
//!
//! [`plan`] says what to read and what should be found; how a figure lies to that is said by
//! [`Reading::judge`](workshop::Reading::judge); which comes next, by [`Walk`]. Nothing here is a sentence: the words are made in `wording`.

mod act;
#[cfg(test)]
mod cases;
mod computed;
mod diagnosis;
mod fault;
mod finding;
mod fitting;
mod functions;
mod learned;
mod limits;
mod look;
mod measurement;
mod next;
mod normal;
mod plan;
mod reads;
mod rig;
mod seen;
mod signature;
mod site;
mod sound;
mod spread;
mod standing;
mod step;
#[cfg(test)]
mod tests;
mod walk;

pub use fault::Fault;
pub use finding::{Diagnosis, Finding, NAMED, Next, Read, Sign, Suspect};
pub use functions::{FunctionCheck, function_checks};
pub use learned::{Learned, Lesson, learned};
pub use look::LookAt;
pub use measurement::Measurement;
pub use plan::{NEAR_RELIEF, Planned, WARMED_MINUTES, plan};
pub use signature::Signatures;
pub use standing::{Item, Standing, State, is_needed, standing};
pub use step::Step;
pub use walk::{Progress, Station, Walk, first_start_before};

#[cfg(test)]
use reads::Reads;

use fit::Conditions;
use quantity::{Quantity, Ratio, ThermodynamicTemperature};
use workshop::gauges::{FLOW_TESTER, GAUGE_CLASS, TACHOMETER};

/// Under which circumstances is read.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Circumstances {
    /// The oil's temperature while it is read; none: the usual one at work.
    pub oil: Option<ThermodynamicTemperature>,
    /// The air's; none: that of the conditions.
    pub air: Option<ThermodynamicTemperature>,
    /// What is read with.
    pub instruments: Instruments,
}

/// How far a person's instruments may be off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Instruments {
    /// Pressure gauges, as a share of their full scale; class 1.6 unless said.
    pub pressure: Ratio,
    /// The flow tester, as a share of what it shows.
    pub flow: Ratio,
    /// The tachometer, as a share of what it shows.
    pub speed: Ratio,
}

impl Default for Instruments {
    fn default() -> Self {
        let share = Ratio::from_si;
        Self { pressure: share(GAUGE_CLASS), flow: share(FLOW_TESTER), speed: share(TACHOMETER) }
    }
}

impl Instruments {
    /// As shares between next to nothing and a half, whatever somebody typed; what is no figure is the usual.
    fn sound(self) -> Self {
        let usual = Self::default();
        let sound = |own: Ratio, usual: Ratio| {
            if own.si().is_finite() { Ratio::from_si(own.si().clamp(1e-4, 0.5)) } else { usual }
        };
        Self {
            pressure: sound(self.pressure, usual.pressure),
            flow: sound(self.flow, usual.flow),
            speed: sound(self.speed, usual.speed),
        }
    }
}

impl Circumstances {
    /// The oil while it is read, and the conditions with it and the air as they were measured.
    fn conditions(&self, usual: &Conditions) -> (ThermodynamicTemperature, Conditions) {
        let oil = self.oil.unwrap_or(usual.working);
        (oil, Conditions { hot: oil, ambient: self.air.unwrap_or(usual.ambient), ..usual.clone() })
    }

    /// The circumstances with figures that can be computed with: temperatures between −40 and 120 °C.
    fn sound(self) -> Self {
        let sound = |t: Option<ThermodynamicTemperature>| {
            t.filter(|t| t.si().is_finite()).map(|t| ThermodynamicTemperature::from_si(t.si().clamp(233.15, 393.15)))
        };
        Self { oil: sound(self.oil), air: sound(self.air), instruments: self.instruments.sound() }
    }
}
