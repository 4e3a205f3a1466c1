//! Numbers and days as the reader writes them: only a browser knows how.
#![cfg(target_arch = "wasm32")]

mod days;
mod numbers;

pub use days::{day, shown};
pub use numbers::{INTL, IntlNumbers};
