//! One bad entry is set aside and named; the rest loads.

use crate::{carrier, head, only, table};
use table::{Fault, Outcome, Problem, Severity, read};

fn carriers(outcome: &Outcome) -> Vec<&str> {
    outcome.table.as_ref().expect("a table").carriers.iter().map(|carrier| carrier.model.as_str()).collect()
}

fn heads(outcome: &Outcome) -> Vec<&str> {
    outcome.table.as_ref().expect("a table").heads.iter().map(|head| head.model.as_str()).collect()
}

fn named(id: &str, model: &str, fields: &str) -> String {
    carrier(fields).replace("\"a\"", &format!("\"{id}\"")).replace("\"M\"", &format!("\"{model}\""))
}

#[test]
fn a_bad_carrier_is_set_aside_and_the_rest_loads() {
    let list =
        [named("a", "A", r#""pumps": []"#), named("b", "B", r#""operating_mass": 3"#), named("c", "C", r#""oil": {}"#)];
    let outcome = read(&table(&list.join(",\n"), &head(r#""vibrating": false"#)));
    assert_eq!(carriers(&outcome), ["A", "C"]);
    assert_eq!(heads(&outcome), ["M"]);
    assert_eq!(only(&outcome).place(), "error /carriers/1/operating_mass 5:67");
}

#[test]
fn a_warning_sets_nothing_aside() {
    let outcome = read(&table(&carrier(r#""colour": "green", "operating_mass": "150 t""#), ""));
    assert_eq!(carriers(&outcome), ["M"]);
    assert!(outcome.problems.iter().all(|problem| problem.severity == Severity::Warning));
    assert_eq!(outcome.problems.len(), 2);
}

#[test]
fn the_second_of_two_with_one_id_is_set_aside() {
    let list =
        [named("a", "A", r#""pumps": []"#), named("a", "B", r#""pumps": []"#), named("c", "C", r#""pumps": []"#)];
    let outcome = read(&table(&list.join(",\n"), ""));
    assert_eq!(carriers(&outcome), ["A", "C"]);
    assert_eq!(only(&outcome).fault, Fault::DuplicateId);
    assert_eq!(only(&outcome).pointer, "/carriers/1/id");
}

#[test]
fn an_id_counts_even_where_its_entry_is_wrong() {
    let list = [named("a", "A", r#""pumps": 1"#), named("a", "B", r#""pumps": []"#)];
    let outcome = read(&table(&list.join(",\n"), ""));
    assert_eq!(outcome.problems.len(), 2);
    assert_eq!(outcome.problems[1].fault, Fault::DuplicateId);
    assert!(carriers(&outcome).is_empty());
}

#[test]
fn a_carrier_and_a_head_may_share_an_id() {
    let outcome = read(&table(&carrier(r#""pumps": []"#), &head(r#""ways": "one""#).replace("\"h\"", "\"a\"")));
    assert!(outcome.problems.is_empty());
}

#[test]
fn a_bad_head_part_or_assumption_is_set_aside_too() {
    let text = table("", &format!("{},\n{}", head(r#""ways": "three""#), head(r#""ways": "two""#).replace("\"h\"", "\"k\"")))
        .replace(
            "\"heads\"",
            r#""parts": [{"id": "x", "change": "case-line", "name": "X", "time": "3"}, {"id": "y", "change": "case-line", "name": "Y"}],
"assumptions": [{"id": "case-limit", "motor": "oribtal", "range": "3..5 bar"}, {"id": "case-limit", "range": "2..3 bar"}],
"heads""#,
        );
    let outcome = read(&text);
    assert_eq!(outcome.problems.len(), 3, "{:#?}", outcome.problems);
    let table = outcome.table.expect("a table");
    assert_eq!((table.heads.len(), table.parts.len(), table.assumptions.len()), (1, 1, 1));
    assert!(table.assumptions[0].motor.is_none());
}

#[test]
fn a_table_without_its_lists_is_still_a_table() {
    let outcome = read(r#"{"format": "pairwright.table", "version": 1, "title": "T", "heads": []}"#);
    assert_eq!(only(&outcome).fault, Fault::MissingField { field: "carriers" });
    assert_eq!(outcome.table.expect("a table").title, "T");
}

#[test]
fn every_problem_of_an_entry_comes_at_once() {
    let wrong = r#"{"id": "A 1", "modle": "M", "class": "digger", "engine": {"power": "20 bar", "high_idle": 2400},
 "pumps": [{"kind": "gaer", "pressure": "2000 bar"}], "circuits": [{"flow": "46", "relief": "210..200 bar"}], "tank": []}"#;
    let outcome = read(&table(wrong, ""));
    let places: Vec<_> = outcome.problems.iter().map(Problem::place).collect();
    assert_eq!(
        places,
        [
            "error /carriers/0/id 4:8",
            "error /carriers/0/modle 4:24",
            "error /carriers/0/class 4:38",
            "error /carriers/0/engine/power 4:68",
            "error /carriers/0/engine/high_idle 4:91",
            "error /carriers/0/pumps/0 5:12",
            "error /carriers/0/pumps/0/kind 5:21",
            "error /carriers/0/pumps/0/pressure 5:41",
            "error /carriers/0/circuits/0 5:68",
            "error /carriers/0/circuits/0/flow 5:77",
            "error /carriers/0/circuits/0/relief 5:93",
            "error /carriers/0/tank 5:119",
        ]
    );
}

#[test]
fn a_field_is_known_even_where_another_one_is_missing() {
    let outcome = read(&table(&carrier(r#""coupler": {"end": "arm", "mass": "60 kg"}"#), ""));
    assert_eq!(only(&outcome).fault, Fault::MissingField { field: "fitted" });
}

#[test]
fn a_problem_says_place_rule_and_value_for_a_log() {
    let text = table(&carrier(r#""operating_mass": 3, "main_relief": "5000 bar", "engin": {}"#), "");
    let said: Vec<_> = read(&text).problems.iter().map(Problem::to_string).collect();
    assert_eq!(
        said,
        [
            "error /carriers/0/operating_mass 4:67: no mass: a number without a unit: write the unit behind it; found 3",
            "error /carriers/0/main_relief 4:85: impossible: 1 to 1000 bar can be; found \"5000 bar\"",
            "warning /carriers/0/engin 4:106: the format knows no such field: write `engine`; found {}",
        ]
    );
}
