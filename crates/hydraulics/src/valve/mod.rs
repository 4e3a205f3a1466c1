//! Valves: what opens, shuts, limits, shares and switches the flow.
//!
//! Each is known by what its maker prints: a setting, and a pressure lost at a flow (scaled with the flow squared).

pub mod check;
pub mod divider;
pub mod relief;

pub use check::Check;
pub use divider::{Divided, Divider, DividerState};
pub use relief::Relief;
