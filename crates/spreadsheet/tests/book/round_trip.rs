//! A table that goes out as sheets and comes back is the same table.

use crate::is_long;
use proptest::test_runner::{Config, TestRunner};
use serde_json::{Value, json};
use spreadsheet::{
    Answers, Book, Imported, Opened, Role, book_of, import, of_opened, open, to_csv, to_csv_zip, to_xlsx,
};
use table::Table;

const DEMO: &str = include_str!("../../../../public/table/demo.json");
/// Every field of the format stands in these two.
const EVERY_FIELD: [&str; 2] = [
    include_str!("../../../table/tests/table/version-1.json"),
    include_str!("../../../table/tests/table/since-version-1.json"),
];

fn read(json: &str) -> Table {
    table::read(json).table.expect("a table")
}

fn told(imported: &Imported) -> String {
    format!("{:#?}\n{:#?}", imported.problems.iter().take(3).collect::<Vec<_>>(), imported.questions)
}

/// Out as a workbook and as separated texts, also packed, and in again.
fn come_back(table: &Table) -> [Imported; 3] {
    let book = book_of(table);
    let workbook = to_xlsx(&book).expect("a workbook");
    let workbook = import(&workbook, "yard.xlsx", &Answers::default()).expect("cells");
    let sheets =
        to_csv(&book).into_iter().map(|(name, text)| match open(text.as_bytes(), &format!("yard-{name}.csv")) {
            Ok(Opened::Book(book)) => book.sheets,
            other => panic!("{name}: {other:?}"),
        });
    let separated =
        of_opened(Opened::Book(Book { sheets: sheets.flatten().collect() }), &Answers::default(), "yard.csv");
    let packed = to_csv_zip(&book).expect("a packed file");
    let packed = import(&packed, "yard.zip", &Answers::default()).expect("cells");
    [workbook, separated, packed]
}

#[track_caller]
fn is_the_same(table: &Table) {
    for imported in come_back(table) {
        let back = imported.outcome.table.as_ref().expect("a table");
        let same = back == table;
        if !same {
            let [first, second] = [table, back].map(|table| serde_json::to_value(table).expect("JSON"));
            panic!("{}\n{}", differs("", &first, &second), told(&imported));
        }
        assert!(imported.questions.is_empty(), "{}", told(&imported));
    }
}

/// Where two values differ first.
fn differs(pointer: &str, first: &Value, second: &Value) -> String {
    match (first, second) {
        (Value::Object(a), Value::Object(b)) => a
            .iter()
            .map(|(key, value)| differs(&format!("{pointer}/{key}"), value, b.get(key).unwrap_or(&Value::Null)))
            .collect(),
        (Value::Array(a), Value::Array(b)) if a.len() == b.len() => {
            a.iter().zip(b).enumerate().map(|(index, (a, b))| differs(&format!("{pointer}/{index}"), a, b)).collect()
        }
        (a, b) if a == b => String::new(),
        (a, b) => format!("{pointer}: {a} became {b}\n"),
    }
}

#[test]
fn the_demo_table_comes_back_the_same() {
    is_the_same(&read(DEMO));
}

#[test]
fn a_table_with_every_field_comes_back_the_same() {
    for text in EVERY_FIELD {
        is_the_same(&read(text));
    }
}

/// What makes a text or a figure hard to keep in a cell.
const HARD: [&str; 16] = [
    "n/a",
    "-",
    " with spaces ",
    "=1+1",
    "@home",
    "\"quoted\"",
    "a;b,c|d",
    "1,234",
    "yes",
    "none",
    "Ünïcödé ½ 日本",
    "25/11/2026",
    "'",
    "{}",
    "+44 1",
    "#N/A",
];

/// Leaves out some of what stands in a value, and puts hard texts in the place of others.
fn mutate(value: &mut Value, key: &str, draws: &mut impl Iterator<Item = u8>) {
    match value {
        Value::Object(members) => {
            members.retain(|key, _| {
                ["id", "model", "class", "kind", "change", "name", "fitted", "title", "format", "version"]
                    .contains(&key.as_str())
                    || draws.next() != Some(0)
            });
            for (key, value) in members.iter_mut() {
                mutate(value, key, draws);
            }
        }
        Value::Array(items) => {
            items.retain(|_| draws.next() != Some(1));
            for item in items {
                mutate(item, key, draws);
            }
        }
        Value::String(text)
            if ["maker", "model", "stock", "duty", "serial_range", "name"].contains(&key)
                && draws.next().is_some_and(|draw| draw < 3) =>
        {
            HARD[usize::from(draws.next().unwrap_or(0)) % HARD.len()].clone_into(text);
        }
        // Other marks and sources at figures.
        Value::String(text)
            if draws.next() == Some(2)
                && quantity::text::read::<quantity::Pressure>(text).is_ok()
                && !text.contains(['(', '±', '/', '.']) =>
        {
            let others = ["207.125 bar ±4 bar (measured)", "3000 psi -5/+3 % (plate)", "180.5..215.125 bar"];
            others[usize::from(draws.next().unwrap_or(0)) % others.len()].clone_into(text);
        }
        _ => {}
    }
}

/// Tables drawn from those with every field: entries, fields and items left out, hard texts put in.
#[test]
fn random_tables_come_back_the_same() {
    let whole: Vec<Value> =
        EVERY_FIELD.iter().chain([&DEMO]).map(|text| serde_json::from_str(text).expect("JSON")).collect();
    let cases = if is_long() { 400 } else { 40 };
    let mut runner = TestRunner::new_with_rng(
        Config { failure_persistence: None, max_shrink_iters: 50, ..Config::with_cases(cases) },
        proptest::test_runner::TestRng::deterministic_rng(proptest::test_runner::RngAlgorithm::ChaCha),
    );
    let entries = std::cell::Cell::new(0);
    let draw = (0..whole.len(), proptest::collection::vec(0..24_u8, 4000));
    runner
        .run(&draw, |(which, draws)| {
            let mut value = whole[which].clone();
            let mut draws = draws.into_iter().cycle();
            for role in Role::ALL {
                if let Some(list) = value.get_mut(role.list()).and_then(Value::as_array_mut) {
                    list.retain(|_| draws.next().is_some_and(|draw| draw < 8));
                    list.truncate(8);
                }
            }
            mutate(&mut value, "", &mut draws.by_ref().take(1_000_000));
            for role in [Role::Machines, Role::Attachments] {
                let list = value.get_mut(role.list());
                if list.is_none() {
                    value[role.list()] = json!([]);
                }
            }
            let table = table::read(&value.to_string()).table.expect("a table");
            entries.set(entries.get() + table.carriers.len() + table.heads.len() + table.parts.len());
            is_the_same(&table);
            Ok(())
        })
        .expect("every table comes back");
    assert!(entries.get() > cases as usize, "{} entries are drawn", entries.get());
}
