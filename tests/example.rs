//! The example as a person calls it: its exit codes and what it prints.

use pairwright::wording::{Desk, check_table_json};
use std::path::PathBuf;
use std::process::{Command, Output};

/// Cargo builds the examples before it runs the tests; they lie beside the tests' own folder.
fn example(arguments: &[&str]) -> Output {
    let test = std::env::current_exe().expect("this test");
    let folder: PathBuf = test.parent().and_then(|deps| deps.parent()).expect("the target folder").join("examples");
    Command::new(folder.join("pairing"))
        .args(arguments)
        .output()
        .expect("run the whole `cargo test`: it builds the example")
}

fn demo() -> String {
    format!("{}/public/table/demo.json", env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn one_pairing_is_one_json_object() {
    let output = example(&["--table", &demo(), "--carrier", "quern-q56", "--head", "thistlecut-r90"]);
    assert_eq!(output.status.code(), Some(0));
    let json: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(json["verdict"], "fits-after-changes");
}

/// The example and a dealer's script get the same from the core.
#[test]
fn the_example_prints_what_a_script_is_answered() {
    let table = std::fs::read_to_string(demo()).expect("the demo table");
    let mut desk = Desk::default();
    let own = r#"{"id": "mine", "model": "My digger", "class": "mini-excavator", "colour": "red"}"#;
    for (carrier, code) in [("quern-q56", 0), (own, 0), ("quem-q56", 2), ("{", 2)] {
        let output = example(&["--table", &demo(), "--carrier", carrier, "--head", "thistlecut-r90"]);
        assert_eq!(output.status.code(), Some(code), "{carrier}");
        let answer = desk.pair(&table, carrier, "thistlecut-r90");
        if code == 0 {
            assert_eq!(String::from_utf8_lossy(&output.stdout), format!("{answer}\n"));
        } else {
            let answer: serde_json::Value = serde_json::from_str(&answer).expect("JSON");
            let error = answer["error"].as_str().expect("a sentence");
            assert!(String::from_utf8_lossy(&output.stderr).contains(error), "{error}");
        }
    }
}

#[test]
fn every_state_of_a_pairing_is_one_a_line() {
    let output = example(&["--table", &demo(), "--carrier", "quern-q27", "--head", "thistlecut-r60", "--states"]);
    assert_eq!(output.status.code(), Some(0));
    let text = String::from_utf8(output.stdout).expect("text");
    let states: Vec<serde_json::Value> = text.lines().map(|line| serde_json::from_str(line).expect("JSON")).collect();
    assert_eq!(states.len(), 2 * 72);
    let outlet = |stage: &str| {
        let wanted = |state: &&serde_json::Value| {
            state["stage"] == stage && state["load"] == "free" && state["oil"] == "working" && state["does"] == "turns"
        };
        let state = states.iter().find(wanted).expect("it turns");
        let nodes = state["nodes"].as_array().expect("nodes");
        let node = nodes.iter().find(|node| node["node"] == "motor-outlet").expect("an outlet");
        node["pressure"]["value"].as_f64().expect("a pressure")
    };
    // The direct return is what the changes are for.
    assert!(outlet("after-changes") < 0.2 * outlet("as-it-is"));
}

#[test]
fn the_sheets_of_a_pairing_are_text_to_read_over() {
    let output = example(&["--table", &demo(), "--carrier", "orrin-e78", "--head", "thistlecut-r90", "--sheets"]);
    assert_eq!(output.status.code(), Some(0));
    let text = String::from_utf8(output.stdout).expect("text");
    for title in
        ["Beware", "What is done to the machine", "What to set", "First start", "Attachment off: back to the bucket"]
    {
        assert!(text.lines().any(|line| line == title), "{title}");
    }
    let both = example(&["--table", &demo(), "--carrier", "a", "--head", "b", "--sheets", "--states"]);
    assert_eq!(both.status.code(), Some(2));
}

#[test]
fn all_pairings_are_one_a_line() {
    let output = example(&["--table", &demo(), "--all"]);
    let text = String::from_utf8(output.stdout).expect("text");
    assert_eq!(text.lines().count(), 43 * 40);
    for line in text.lines() {
        let json: serde_json::Value = serde_json::from_str(line).expect("JSON");
        assert_eq!(json["checks"].as_array().map(Vec::len), Some(36));
    }
}

#[test]
fn problems_end_with_one_and_wrong_calls_with_two() {
    assert_eq!(example(&["--table", &demo(), "--check"]).status.code(), Some(0));
    let file = std::env::temp_dir().join(format!("pairwright-{}.json", std::process::id()));
    std::fs::write(&file, r#"{"format": "pairwright.table", "version": 1, "title": "x", "heads": []}"#)
        .expect("a file");
    let broken = file.to_str().expect("a path");
    let check = example(&["--table", broken, "--check"]);
    assert_eq!(check.status.code(), Some(1));
    let line: serde_json::Value = serde_json::from_slice(&check.stdout).expect("one problem as JSON");
    assert_eq!((line["pointer"].as_str(), line["remedy"].as_str()), (Some(""), Some("add \"carriers\"")));
    let text = std::fs::read_to_string(&file).expect("the file");
    let checked: serde_json::Value = serde_json::from_str(&check_table_json(&text)).expect("JSON");
    assert_eq!(checked["problems"], serde_json::json!([line]));
    assert_eq!(example(&["--table", broken, "--carrier", "a", "--head", "b"]).status.code(), Some(2));
    std::fs::write(&file, "{").expect("a file");
    assert_eq!(example(&["--table", broken, "--all"]).status.code(), Some(1));
    for wrong in [&["--all"][..], &["--table", broken], &["--table"], &["--tabel", "x"], &["--table", "/none", "--all"]]
    {
        let output = example(wrong);
        assert_eq!(output.status.code(), Some(2), "{wrong:?}");
        assert!(String::from_utf8_lossy(&output.stderr).contains("usage"), "{wrong:?}");
    }
    let _ = std::fs::remove_file(file);
}
