//! Prints the JSON Schema of the spec table: `cargo run --example schema > public/table/schema.json`.

use std::io::Write;

fn main() -> std::io::Result<()> {
    let schema = serde_json::to_string_pretty(&table::schema::schema())?;
    writeln!(std::io::stdout(), "{schema}")
}
