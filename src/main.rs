//! The program that the browser starts: it only mounts the page.

#[cfg(target_arch = "wasm32")]
fn main() {
    pairwright::page::start();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    eprintln!(
        "The app runs in a browser: `make serve` builds and serves it. For the command line: `cargo run --release --example pairing -- --help`."
    );
    std::process::exit(2);
}
