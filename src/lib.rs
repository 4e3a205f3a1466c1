//! Pairwright: which powered hydraulic heads really fit a carrier machine.
//!
//! Data goes one way through the rooms of this crate, and a lower room never imports a higher one:
//! `quantity → table → circuit → pairing → record → wording → page`.

pub mod circuit;
pub mod pairing;
pub mod quantity;
pub mod table;
pub mod wording;

#[cfg(target_arch = "wasm32")]
pub mod page;
