//! The program that the browser starts. What is mounted where is asked for by the scripts in `public/`.

#[cfg(target_arch = "wasm32")]
fn main() {
    pairwright::page::watch_for_faults();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    eprintln!(
        "The app runs in a browser: `make serve` builds and serves it. For the command line: `cargo run --release --bin pairwright -- --help`."
    );
    std::process::exit(2);
}
