//! The hand-over at the machine: one reading a screen, typed beside the gauge and judged at once; what is tried; who stands for it. What
//! is read, in which order, what should be found and what is wrong is the core's; here it is laid out, and kept with every key.

// The desk is a handful of handles, made to be copied.
#![allow(clippy::large_types_passed_by_value)]

mod desk;
mod diagnosed;
mod entries;
mod job;
mod lessons;
mod paper;
mod reading;
mod records;
mod sheet;
mod signature;
mod station;
mod walk_on;

pub use paper::Paper;
pub use records::{OfComparison, OfPairing, OfSaved, may_begin};
pub use sheet::HandOverOf;
