//! What the README says of these tests.

use std::fs;
use std::path::Path;

/// How many tests a file or a folder of files holds.
fn tests_in(path: &Path) -> usize {
    if path.is_dir() {
        let entries = fs::read_dir(path).expect("a folder").map(|entry| entry.expect("an entry").path());
        return entries
            .filter(|path| path.is_dir() || path.extension().is_some_and(|kind| kind == "rs"))
            .map(|path| tests_in(&path))
            .sum();
    }
    fs::read_to_string(path).expect("a text").lines().filter(|line| line.trim() == "#[test]").count()
}

/// The figure before a word in a text.
fn before(text: &str, word: &str) -> usize {
    let end = text.find(word).unwrap_or_else(|| panic!("no {word:?}"));
    let digits: Vec<char> = text[..end].trim_end().chars().rev().take_while(char::is_ascii_digit).collect();
    digits.iter().rev().collect::<String>().parse().expect("a figure")
}

#[test]
fn the_readme_counts_what_is_here() {
    let here = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference");
    let readme = fs::read_to_string(here.join("README.md")).expect("a README");
    let of = |name: &str| tests_in(&here.join(name));
    // Two of the traps are hoses, from memory like the others; this test counts.
    let (from_memory, own) = (of("from_memory.rs") + 2, of("own.rs"));
    let published = tests_in(&here) - from_memory - own - of("counts.rs");
    assert_eq!(before(&readme, "tests, "), published);
    assert_eq!(before(&readme, "of them whole"), of("whole_circuits"));
    assert_eq!(before(&readme, "of figures from memory"), from_memory);
    assert_eq!(before(&readme, "of\narithmetic of our own"), own);
}
