//! Steady hydraulics: the parts of one circuit, and the balance between them.
//!
//! ```text
//!  engine ─ pump(s) ─ [priority flow divider] ─ [flow limit] ─ spool ─ supply line ─ coupling ─┐
//!                │ relief        │                                                        HEAD MOTOR ─ case line ─ tank
//!               tank          functions                     ┌─ spool ─────────────┐            │
//!                                      tank ─ filter/cooler ┤                     ├─ coupling ─┘
//!                                                           └─ changeover, direct ┘
//! ```
//!
//! Read it as a chapter of a handbook, in this order:
//!
//! 1. **Oil.** [`oil`]: viscosity over temperature (ISO 3448, ASTM D341), density, heat, usable range.
//! 2. **Power.** [`power`]: pressure times flow, and nothing more.
//! 3. **Lines.** [`mod@line`]: one friction rule for hose and tube, fittings, and parts known by a published point;
//!    [`velocity`] and [`hose`]: how wide, and what it is rated for; [`filter`] and [`case_line`].
//! 4. **Pumps.** [`pump`]: what the pumps of a circuit give at a pressure, held by a power limit and cut off.
//! 5. **Valves.** [`valve`]: relief, check, priority flow divider.
//! 6. **Motors.** [`motor`]: speed, power and starting torque; [`impact`] for what strikes;
//!    [`coast_down`] for what does not stop at once.
//! 7. **Heat.** [`heat`]: where every watt goes that leaves by no shaft.
//! 8. **The balance.** [`balance`]: the one flow at which what the pumps give at the pressure that the head needs is what the
//!    head takes.
//!
//! The parts stand by themselves; a pairing puts together what its machine has, and its changes what the machine gets.
//! Every part has its formula with symbols and units, the range in which it holds, its source, and a worked example that
//! runs as a test. Pressures are gauge pressures. Nothing here knows a carrier, a head, or what is good enough for one.

pub mod balance;
pub mod case_line;
pub mod coast_down;
pub mod coupling;
pub mod filter;
pub mod heat;
pub mod hose;
pub mod impact;
pub mod line;
pub mod motor;
pub mod oil;
pub mod power;
pub mod pump;
mod resistance;
pub mod valve;
pub mod velocity;

pub use balance::{Circuit, Operating, Stall};
pub use case_line::CaseLine;
pub use filter::{Element, Filter};
pub use line::Roughness;
pub use motor::Motor;
pub use oil::{Oil, OilCurve};
pub use pump::Source;
pub use resistance::Resistance;
pub use valve::Relief;
