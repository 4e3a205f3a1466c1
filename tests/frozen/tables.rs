//! Tables that were sound with an earlier build.

use super::TABLE;
use super::known::Known;
use serde_json::Value;
use table::{Severity, read};

/// No entry is refused or lost, and a warning comes only where it is said why.
#[test]
fn the_frozen_table_reads() {
    let outcome = read(TABLE);
    let errors: Vec<_> = outcome.problems.iter().filter(|problem| problem.severity == Severity::Error).collect();
    assert!(errors.is_empty(), "{errors:?}");
    assert_eq!(outcome.unlisted, 0);
    let table = outcome.table.expect("a table");
    let text: Value = serde_json::from_str(TABLE).expect("JSON");
    let count = |list: &str| text[list].as_array().map_or(0, Vec::len);
    assert_eq!(table.carriers.len(), count("carriers"));
    assert_eq!(table.heads.len(), count("heads"));
    assert_eq!(table.parts.len(), count("parts"));
    let known = Known { file: "warnings.tsv", text: include_str!("warnings.tsv"), columns: &["pointer", "found"] };
    let warnings = outcome.problems.iter().map(|problem| {
        let plain = |text: &str| text.replace(['\t', '\n'], " ");
        (vec![plain(&problem.pointer), plain(&problem.found)], format!("{:?}", problem.fault))
    });
    known.holds(&warnings.collect::<Vec<_>>());
}

#[test]
fn the_published_schema_accepts_it() {
    let schema: Value = serde_json::from_str(include_str!("../../public/table/schema.json")).expect("JSON");
    let validator = jsonschema::draft202012::new(&schema).expect("a sound schema");
    let table: Value = serde_json::from_str(TABLE).expect("JSON");
    let faults: Vec<_> =
        validator.iter_errors(&table).take(5).map(|fault| format!("{} {fault}", fault.instance_path)).collect();
    assert!(faults.is_empty(), "{faults:?}");
}
