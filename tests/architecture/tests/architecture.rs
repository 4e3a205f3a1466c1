//! How the crates and their files may depend on each other, as far as the compiler does not see to it.

use architecture::{Imports, files};
use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::Command;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// The source folders of the crates, by name; the page is `page`.
fn crates() -> BTreeMap<String, PathBuf> {
    let folders = std::fs::read_dir(root().join("crates")).expect("crates").map(|entry| entry.expect("a crate").path());
    let named =
        |folder: PathBuf| (folder.file_name().expect("a name").to_string_lossy().into_owned(), folder.join("src"));
    let page = ("page".to_owned(), root().join("src"));
    folders.map(named).chain([page]).filter(|(_, source)| source.is_dir()).collect()
}

/// No file of a crate needs, over however many others, itself.
#[test]
fn invariant_no_file_imports_itself_through_others() {
    let mut told = String::new();
    let mut looked = 0;
    for (name, source) in crates() {
        let imports = Imports::of(&source);
        looked += imports.files();
        for circle in imports.circles() {
            let _ = writeln!(told, "{name}: {} files", circle.len());
            for file in &circle {
                let to = imports.from(file).filter(|(to, _)| circle.contains(to.as_str()));
                for (to, names) in to {
                    let _ = writeln!(told, "  {file} -> {to}: {}", names.join(", "));
                }
            }
        }
    }
    assert!(looked > 300, "{looked} files");
    assert!(told.is_empty(), "\n{told}");
}

/// The native crates know no browser.
#[test]
fn invariant_no_native_crate_depends_on_a_browser() {
    let tree = Command::new(env!("CARGO"))
        .args(["tree", "--offline", "--workspace", "--edges", "normal", "--prefix", "none"])
        .args(["--target", "x86_64-unknown-linux-gnu"])
        .current_dir(root())
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
fn invariant_no_example_is_one_known_installation() {
    let root = root();
    let mut texts: Vec<_> =
        crates().values().flat_map(|source| files(source)).filter(|file| !file.ends_with("setups.rs")).collect();
    let examples = [
        "README.md",
        "DEVELOPERS.md",
        "docs/pairing.md",
        "docs/table.md",
        "public/table/schema.json",
        "crates/fit/tests/pairing/figures.rs",
    ];
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
