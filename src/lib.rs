//! Pairwright: which powered hydraulic heads really fit a carrier machine, what must change, and the proof.
//!
//! One crate: a pure core that knows no browser, and a page that knows no trade. Data goes one way through the rooms,
//! and a lower room never imports a higher one:
//! `quantity → table → circuit → pairing → record → wording → drawing → page → embed`.
//!
//! [`pairing::pair`] is the heart: a pure function from a carrier, a head and conditions to plain data, which page, example
//! and tests all show alike.

pub mod circuit;
pub mod drawing;
pub mod pairing;
pub mod quantity;
pub mod record;
pub mod table;
pub mod wording;

#[cfg(target_arch = "wasm32")]
pub mod embed;
#[cfg(target_arch = "wasm32")]
pub mod page;

// Modules of `tests/` that the library's own tests use as well name it by its name.
#[cfg(test)]
extern crate self as pairwright;
