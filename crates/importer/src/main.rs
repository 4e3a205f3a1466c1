//! Reads a dealer's spreadsheets for the page, and writes tables as spreadsheets: `public/importer.js` calls it in a worker. It is fetched
//! when it is first needed, so that nobody waits for it who does not need it.

#[cfg(target_arch = "wasm32")]
mod importer;

/// The browser calls what [`importer`] exports.
fn main() {}
