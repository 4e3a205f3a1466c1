//! Pumps: what they give at a pressure.
//!
//! [`Source`] is the pumps of a circuit as the circuit sees them; [`CutOff`] tells where their control ends their flow.

mod control;
mod source;

pub use control::CutOff;
pub use source::Source;
