//! Steady hydraulics of one circuit: pump, lines, relief, motor, return.
//!
//! ```text
//!  engine ─ pump(s) ─ [flow limit] ─ spool ─ supply line ─ coupling ─ HEAD MOTOR ─ case line ─ tank
//!                          │ relief                             │
//!                         tank ─ filter ─ return path ──────────┘
//! ```
//!
//! Every component is a small file with its formula, its source and its range. [`balance`] puts them together: it finds
//! the one flow at which what the pump gives at the pressure that the head needs is what the head takes. Nothing here
//! knows a carrier, a head or a limit of the trade.

pub mod balance;
pub mod heat;
pub mod hose;
pub mod line;
pub mod motor;
pub mod oil;
pub mod orifice;
pub mod power;
pub mod pump;
pub mod relief;

pub use balance::{Circuit, Operating, Stall};
pub use line::{Resistance, Roughness};
pub use motor::Motor;
pub use oil::{Oil, OilCurve};
pub use orifice::Orifice;
pub use pump::Source;
pub use relief::Relief;
