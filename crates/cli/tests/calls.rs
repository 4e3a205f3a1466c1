//! The command line as a person calls it: its exit codes and what it prints.

use std::process::{Command, Output};
use wording::Desk;

fn called(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_pairwright")).args(arguments).output().expect("the command line runs")
}

fn demo() -> String {
    format!("{}/../../public/table/demo.json", env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn one_pairing_is_one_json_object() {
    let output = called(&["--table", &demo(), "--carrier", "quern-q56", "--head", "thistlecut-r90"]);
    assert_eq!(output.status.code(), Some(0));
    let json: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(json["verdict"], "fits-after-changes");
}

/// The command line and a dealer's script get the same from the core.
#[test]
fn it_prints_what_a_script_is_answered() {
    let table = std::fs::read_to_string(demo()).expect("the demo table");
    let mut desk = Desk::default();
    let own = r#"{"id": "mine", "model": "My digger", "class": "mini-excavator", "colour": "red"}"#;
    for (carrier, code) in [("quern-q56", 0), (own, 0), ("quem-q56", 2), ("{", 2)] {
        let output = called(&["--table", &demo(), "--carrier", carrier, "--head", "thistlecut-r90"]);
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
    let output = called(&["--table", &demo(), "--carrier", "quern-q27", "--head", "thistlecut-r60", "--states"]);
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
    let output = called(&["--table", &demo(), "--carrier", "orrin-e78", "--head", "thistlecut-r90", "--sheets"]);
    assert_eq!(output.status.code(), Some(0));
    let text = String::from_utf8(output.stdout).expect("text");
    for title in
        ["Beware", "What is done to the machine", "What to set", "First start", "Attachment off: back to the bucket"]
    {
        assert!(text.lines().any(|line| line == title), "{title}");
    }
    let both = called(&["--table", &demo(), "--carrier", "a", "--head", "b", "--sheets", "--states"]);
    assert_eq!(both.status.code(), Some(2));
}

#[test]
fn all_pairings_are_one_a_line() {
    let output = called(&["--table", &demo(), "--all"]);
    let text = String::from_utf8(output.stdout).expect("text");
    assert_eq!(text.lines().count(), 43 * 40);
    for line in text.lines() {
        let json: serde_json::Value = serde_json::from_str(line).expect("JSON");
        assert_eq!(json["checks"].as_array().map(Vec::len), Some(36));
    }
}

#[test]
fn problems_end_with_one_and_wrong_calls_with_two() {
    assert_eq!(called(&["--table", &demo(), "--check"]).status.code(), Some(0));
    let file = std::env::temp_dir().join(format!("pairwright-{}.json", std::process::id()));
    std::fs::write(&file, r#"{"format": "pairwright.table", "version": 1, "title": "x", "heads": []}"#)
        .expect("a file");
    let broken = file.to_str().expect("a path");
    let check = called(&["--table", broken, "--check"]);
    assert_eq!(check.status.code(), Some(1));
    let line: serde_json::Value = serde_json::from_slice(&check.stdout).expect("one problem as JSON");
    assert_eq!((line["pointer"].as_str(), line["remedy"].as_str()), (Some(""), Some("add \"carriers\"")));
    let text = std::fs::read_to_string(&file).expect("the file");
    let checked: serde_json::Value = serde_json::from_str(&Desk::default().check_table(&text)).expect("JSON");
    assert_eq!(checked["problems"], serde_json::json!([line]));
    assert_eq!(called(&["--table", broken, "--carrier", "a", "--head", "b"]).status.code(), Some(2));
    std::fs::write(&file, "{").expect("a file");
    assert_eq!(called(&["--table", broken, "--all"]).status.code(), Some(1));
    for wrong in [&["--all"][..], &["--table", broken], &["--table"], &["--tabel", "x"], &["--table", "/none", "--all"]]
    {
        let output = called(wrong);
        assert_eq!(output.status.code(), Some(2), "{wrong:?}");
        let said = String::from_utf8_lossy(&output.stderr);
        assert!(said.contains("Usage") || said.contains("--help"), "{wrong:?}: {said}");
    }
    let _ = std::fs::remove_file(file);
}

/// What the first versions took by flags, and the subcommands.
#[test]
fn flags_and_subcommands_say_the_same() {
    let demo = demo();
    let (machine, attachment) = ("quern-q27", "thistlecut-r60");
    let pair = ["--table", &demo, "--carrier", machine, "--head", attachment];
    let day = ["--coldest-start", "-15 °C"];
    for (flags, command) in [
        ([&pair[..], &day].concat(), [&["pair", &demo, machine, attachment][..], &day].concat()),
        ([&pair[..], &["--states"]].concat(), vec!["states", &demo, machine, attachment]),
        ([&pair[..], &["--sheets"]].concat(), vec!["sheets", &demo, machine, attachment]),
        (vec!["--table", &demo, "--check"], vec!["check", &demo]),
    ] {
        let (old, new) = (called(&flags), called(&command));
        assert_eq!((old.status.code(), &old.stderr), (Some(0), &Vec::new()), "{flags:?}");
        assert!(old == new, "{flags:?} and {command:?}");
    }
}

#[test]
fn a_list_has_the_best_first() {
    let output = called(&["list", &demo(), "quern-q27"]);
    let text = String::from_utf8(output.stdout).expect("text");
    let verdicts: Vec<_> = text
        .lines()
        .map(|line| serde_json::from_str::<serde_json::Value>(line).expect("JSON")["verdict"].clone())
        .collect();
    let rank = |verdict: &serde_json::Value| {
        ["fits", "fits-after-changes", "cannot-say", "does-not-fit"]
            .iter()
            .position(|known| verdict == known)
            .expect("a verdict")
    };
    assert_eq!(verdicts.len(), 40);
    assert!(verdicts.is_sorted_by_key(rank) && rank(&verdicts[0]) < rank(&verdicts[39]));
    assert_eq!(called(&["list", &demo(), "quern-q2"]).status.code(), Some(2));
}

#[test]
fn what_to_fill_in_next_is_told_by_column_and_by_entry() {
    let text = String::from_utf8(called(&["gain", &demo(), "--most", "3"]).stdout).expect("text");
    let lines: Vec<_> = text.lines().collect();
    assert!(lines[0].starts_with("Of 1440 pairings, ") && lines[0].ends_with(" cannot be said yet."), "{text}");
    for title in ["By column", "By machine and attachment"] {
        let at = lines.iter().position(|line| *line == title).expect(title);
        assert!(lines[at + 1].starts_with("1. ") && lines[at + 1].contains(" for it"), "{text}");
        assert!(lines[at + 2].starts_with("   Where: ") && lines[at + 5].starts_with("3. "), "{text}");
    }
    assert!(!text.contains("4. "), "{text}");
    let output = called(&["gain", &demo(), "--json", "--most", "30"]);
    assert_eq!(output.status.code(), Some(0));
    let text = String::from_utf8(output.stdout).expect("text");
    let json: Vec<serde_json::Value> = text.lines().map(|line| serde_json::from_str(line).expect("JSON")).collect();
    assert_eq!(json.iter().filter(|line| line["of"] == "column").count(), 30);
    assert_eq!(json.len(), 1 + 30 + 30);
    assert_eq!((&json[0]["of"], &json[0]["pairings"]), (&"table".into(), &1440.into()));
    assert_eq!(json[0]["held_up"].as_u64().map(|held| lines[0].contains(&held.to_string())), Some(true));
    // Whatever is asked is a fact that pairings of the table really wait for.
    let asked = json.iter().find(|line| line["of"] == "machine").expect("a machine");
    let machine = asked["id"].as_str().expect("an id");
    let list = String::from_utf8(called(&["list", &demo(), machine]).stdout).expect("text");
    assert!(list.contains(asked["fact"].as_str().expect("a fact")), "{asked}");
    assert_eq!(called(&["gain", "/none"]).status.code(), Some(2));
    assert_eq!(called(&["gain", &demo(), "--most", "few"]).status.code(), Some(2));
}
