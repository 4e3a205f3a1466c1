//! Prints `docs/table.md` with the rows that the declarations make: `cargo run --example rows`.

use std::io::Write;

fn main() -> std::io::Result<()> {
    let text = include_str!("../../../docs/table.md");
    std::io::stdout().write_all(table::docs::with_rows(text).as_bytes())
}
