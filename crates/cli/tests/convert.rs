//! Spreadsheets on the command line: every subcommand reads them, and tables go out as such.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn called(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_pairwright")).args(arguments).output().expect("the command line runs")
}

fn demo() -> String {
    format!("{}/../../public/table/demo.json", env!("CARGO_MANIFEST_DIR"))
}

/// A folder of a test's own, empty.
fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("pairwright-{}-{name}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).expect("a folder");
    folder
}

fn text(path: &Path) -> &str {
    path.to_str().expect("a path")
}

fn table(path: &Path) -> table::Table {
    table::read(&std::fs::read_to_string(path).expect("a file")).table.expect("a table")
}

#[test]
fn a_table_goes_out_and_comes_in_again_without_loss() {
    let folder = folder("out");
    let demo_table = table(Path::new(&demo()));
    let [workbook, sheets, back, again] = ["a.xlsx", "sheets", "b.json", "c.json"].map(|name| folder.join(name));
    for (from, to) in
        [(demo().as_str(), &workbook), (text(&workbook), &back), (demo().as_str(), &sheets), (text(&sheets), &again)]
    {
        let output = called(&["convert", from, text(to)]);
        assert_eq!((output.status.code(), String::from_utf8_lossy(&output.stderr).as_ref()), (Some(0), ""), "{from}");
    }
    assert!(table(&back) == demo_table);
    assert!(table(&again) == demo_table);
    let pair = |file: &str| called(&["pair", file, "quern-q27", "thistlecut-r60"]).stdout;
    assert!(!pair(&demo()).is_empty() && pair(&demo()) == pair(text(&workbook)), "every subcommand reads a workbook");
    let _ = std::fs::remove_dir_all(folder);
}

#[test]
fn what_is_wrong_or_asked_is_told_at_its_cell_with_exit_code_1() {
    let folder = folder("told");
    let yard = folder.join("machines.csv");
    std::fs::write(&yard, "Model;Class;Weight (kg);Aux flow;Colour\nOB 36;Mini excavator;ask Bo;62;red\n")
        .expect("a file");
    let check = called(&["check", text(&yard)]);
    assert_eq!(check.status.code(), Some(1));
    let line: serde_json::Value = serde_json::from_slice(&check.stdout).expect("one problem as JSON");
    assert_eq!(
        (&line["sheet"], &line["row"], &line["column"], &line["found"]),
        (&"machines".into(), &2.into(), &"C".into(), &"ask Bo".into())
    );
    let to = folder.join("yard.json");
    let convert = called(&["convert", text(&yard), text(&to)]);
    assert_eq!(convert.status.code(), Some(1));
    let said = String::from_utf8_lossy(&convert.stderr);
    assert!(
        said.contains("C2 (Weight (kg))") && said.contains("question: “machines” D2 (Aux flow): 62 of what?"),
        "{said}"
    );
    assert!(said.contains("not used of “machines”: Colour"), "{said}");
    assert_eq!(table(&to).carriers.len(), 1, "the rest is used");
    let answers = folder.join("answers.json");
    std::fs::write(&answers, r#"{"columns": [{"sheet": "", "column": 4, "unit": "L/min"}]}"#).expect("a file");
    let answered = called(&["convert", text(&yard), text(&to), "--answers", text(&answers)]);
    assert!(!String::from_utf8_lossy(&answered.stderr).contains("question"));
    assert!(table(&to).carriers[0].circuits[0].flow.is_some());
    let _ = std::fs::remove_dir_all(folder);
}

#[test]
fn a_file_that_cannot_be_read_is_told_in_a_line_with_exit_code_2() {
    let folder = folder("refused");
    let wrong: [(&str, &[u8], &str); 4] = [
        ("a.csv", b"\xef\xbb\xbfModel\nS\xe5g\n", "line 2 is not: save it once more as .csv in UTF-8"),
        ("b.json", b"{\"title\": \"\x00\"}", "is no text"),
        ("c.xlsx", b"PK\x03\x04 cut off", "the workbook is damaged"),
        ("d.csv", b"\n\n", "nothing is in the file"),
    ];
    for (name, bytes, words) in wrong {
        let file = folder.join(name);
        std::fs::write(&file, bytes).expect("a file");
        for call in [&["check", text(&file)][..], &["convert", text(&file), "/tmp/never-written.json"]] {
            let output = called(call);
            let said = String::from_utf8_lossy(&output.stderr);
            assert_eq!((output.status.code(), said.lines().count()), (Some(2), 1), "{name}: {said}");
            assert!(said.contains(words), "{name}: {said}");
        }
    }
    let odd = called(&["convert", &demo(), text(&folder.join("a.docx"))]);
    assert_eq!(odd.status.code(), Some(2));
    let _ = std::fs::remove_dir_all(folder);
}

#[test]
fn help_shows_examples_and_exit_codes() {
    let help = String::from_utf8(called(&["--help"]).stdout).expect("text");
    for command in ["check", "pair", "list", "states", "sheets", "gain", "convert"] {
        assert!(help.contains(&format!("  pairwright {command} yard.")), "{command}: {help}");
    }
    assert!(help.contains("Exit code: 0"), "{help}");
}
