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

/// The installation of the check values stands in one test; nothing that people copy from, and no machine of the demo, looks like it.
#[test]
fn no_example_is_one_installation() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut texts: Vec<_> = files(&root.join("src")).into_iter().filter(|file| !file.ends_with("setups.rs")).collect();
    let examples =
        ["README.md", "DEVELOPERS.md", "docs/table.md", "public/table/schema.json", "tests/pairing/figures.rs"];
    texts.extend(examples.iter().map(|name| root.join(name)));
    assert!(texts.len() > 100);
    for file in texts {
        let text = std::fs::read_to_string(&file).expect("a file");
        for figure in ["38 gpm", "143.8 L/min", "144 L/min", "95..144", "95–144", "303 bar", "practitioner"] {
            assert!(!text.contains(figure), "{}: {figure}", file.display());
        }
    }
    let demo = std::fs::read_to_string(root.join("public/table/demo.json")).expect("the demo table");
    let of = |id: &str| {
        let entry = demo.split(&format!("\"id\": \"{id}\"")).nth(1).expect("an entry");
        entry
            .split("\"checked\"")
            .nth(1)
            .expect("its figures")
            .split("\"checked\"")
            .next()
            .unwrap_or_default()
            .to_owned()
    };
    let (cutter, machine) = (of("thistlecut-r130"), of("quern-q65"));
    for figure in ["95 L/min", "144 L/min", "300 bar", "303 bar", "150 mm", "210 bar"] {
        assert!(!cutter.contains(&format!("\"{figure}\"")) && !machine.contains(&format!("\"{figure}\"")), "{figure}");
    }
}
