//! The table's reader: what it reads, what it says of what it cannot read, and what it does with hostile texts.

mod example;
mod hostile;
mod malformed;
mod partial;
mod schema;

use table::{Fault, Outcome, Problem, Table};

/// Reads a text that must be sound.
fn sound(text: &str) -> Table {
    let outcome = table::read(text);
    assert_eq!(outcome.problems, [], "a sound table has no problems");
    outcome.table.expect("a sound table")
}

/// A table with these carriers and heads, each on one line: the carriers stand on line 4, the heads on line 7.
fn table(carriers: &str, heads: &str) -> String {
    format!(
        "{{\n\"format\": \"pairwright.table\", \"version\": 1, \"title\": \"T\",\n\"carriers\": [\n{carriers}\n],\n\
         \"heads\": [\n{heads}\n]\n}}\n"
    )
}

/// A carrier on one line with these fields besides the least that it needs; they begin in column 49.
fn carrier(fields: &str) -> String {
    format!(r#"{{"id": "a", "model": "M", "class": "excavator", {fields}}}"#)
}

/// A head on one line with these fields besides the least that it needs; they begin in column 44.
fn head(fields: &str) -> String {
    format!(r#"{{"id": "h", "model": "M", "kind": "flail", {fields}}}"#)
}

/// The one problem that there must be.
fn only(outcome: &Outcome) -> &Problem {
    let [problem] = outcome.problems.as_slice() else { panic!("one problem, not {:#?}", outcome.problems) };
    problem
}

/// Whether a problem says that something is no JSON.
fn is_syntax(problem: &Problem) -> bool {
    matches!(problem.fault, Fault::NotJson(_))
}
