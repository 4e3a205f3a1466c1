//! Finds machines for the first screen, before the app is there: `public/first.js` calls it. What it says is what the app says, by the
//! same words (`wording`).

#[cfg(target_arch = "wasm32")]
mod finder;

/// The browser calls what [`finder`] exports.
fn main() {}
