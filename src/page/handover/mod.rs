//! The hand-over at the machine: readings typed beside the gauge, each judged at once; what is tried; who stands for it. What is
//! read, what should be found and what is wrong is the core's; here it is laid out, and kept with every key.

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
mod steps;
mod suspects;
mod tried;

pub use paper::Paper;
pub use records::{OfComparison, OfPairing, OfSaved, may_begin};
pub use sheet::{Begin, Kept};
