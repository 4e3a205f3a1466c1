//! The house rules that a machine can check.

use std::path::{Path, PathBuf};
use std::process::Command;

const ROOMS: [&str; 9] = ["quantity", "table", "circuit", "pairing", "record", "wording", "drawing", "page", "embed"];

fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").path()) {
        if entry.is_dir() {
            found.extend(files(&entry));
        } else if entry.extension().is_some_and(|ending| ending == "rs") {
            found.push(entry);
        }
    }
    found
}

/// A lower room never imports a higher one.
#[test]
fn no_room_looks_upwards() {
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut looked = 0;
    for (height, room) in ROOMS.iter().enumerate().filter(|(_, room)| source.join(room).is_dir()) {
        for file in files(&source.join(room)) {
            let text = std::fs::read_to_string(&file).expect("a file");
            for higher in &ROOMS[height + 1..] {
                let import = format!("crate::{higher}");
                assert!(!text.contains(&import), "{} imports {import}", file.display());
            }
            looked += 1;
        }
    }
    assert!(looked > 40, "{looked} files");
}

/// The native core knows no browser.
#[test]
fn the_native_dependencies_hold_no_browser() {
    let tree = Command::new(env!("CARGO"))
        .args(["tree", "--offline", "--edges", "normal", "--prefix", "none", "--target", "x86_64-unknown-linux-gnu"])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("cargo tree runs");
    let text = String::from_utf8_lossy(&tree.stdout);
    assert!(tree.status.success() && text.contains("uom"), "{}", String::from_utf8_lossy(&tree.stderr));
    for browser in ["leptos", "web-sys", "js-sys", "wasm-bindgen", "gloo"] {
        assert!(!text.contains(browser), "{browser} is a native dependency");
    }
}
