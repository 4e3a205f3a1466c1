//! Valves: what opens, shuts, limits, shares and switches the flow.
//!
//! Each is known by what its maker prints: a setting, and a pressure lost at a flow (scaled with the flow squared).

pub mod check;
pub mod compensator;
pub mod diverter;
pub mod divider;
pub mod flow_limit;
pub mod relief;
pub mod shutoff;
pub mod spool;

pub use check::Check;
pub use compensator::Compensator;
pub use diverter::Diverter;
pub use divider::{Divided, Divider, DividerState, Split};
pub use flow_limit::{FlowLimit, Ports};
pub use relief::Relief;
pub use shutoff::{Changeover, Isolating, Position};
pub use spool::Spool;
