//! One carrier, one head: what fits, what must change, and the proof.
//!
//! [`pair`] is the heart: a pure function from carrier, head and conditions to plain data. Inside, `facts` gathers what is
//! known, assumed and missing; a `sample` takes one value from each fact; the `checks` say what must hold of
//! them, and `judge` answers in the worst corner; the `changes` are functions from carrier to carrier; and `search` tries sets of them, cheapest first, each
//! solved and checked again.

/// The number of this judgement. It is raised by one whenever a pairing is meant to come out otherwise than before with the
/// same table: another verdict, other changes, figures or prices. What is kept and sent holds it, so that a person is told whether the
/// table or the program has changed; `tests/frozen` fails when answers change and it was not raised.
pub const JUDGEMENT: u32 = 2;

pub mod assume;
mod bound;
pub mod changes;
pub mod checks;
pub mod coast_down;
mod conditions;
mod corner;
#[cfg(test)]
mod corners;
mod evaluation;
pub mod facts;
pub mod find_out;
pub mod installation;
pub mod judge;
pub mod lift;
mod list_order;
pub mod machine;
mod machines;
mod missing;
pub mod pace;
mod pair;
pub mod parameter;
pub mod points;
mod price;
pub mod question;
pub mod remarks;
mod result;
pub mod sample;
pub mod search;
pub mod setup;
pub mod solved;
mod total;
pub mod trace;
mod unknown_circuit;
mod verdicts;
mod wanted;
pub mod warm_up;
// Modules of the tests that the unit tests use as well name the crate by its name.
#[cfg(test)]
extern crate self as fit;
#[cfg(test)]
#[path = "../tests/pairing/yard.rs"]
pub mod yard;

pub use bound::Bound;
pub use changes::ChangeOption;
pub use conditions::{Conditions, WorkAsked};
pub use evaluation::Evaluation;
pub use installation::Installation;
pub use list_order::ListOrder;
pub use machines::{RunsOn, by_size, smallest_first};
pub use missing::{FactId, FoundBy, Missing, Threshold};
pub use pace::{Pace, Steadily, step};
pub use pair::{order, pair};
pub use price::Price;
pub use result::*;
pub use total::Total;
pub use unknown_circuit::unknown_circuit;
pub use verdicts::Judge;
pub use wanted::{Takes, Wanted, holds_words, in_stock, materials, takes};
