//! A workbook of a large dealer is read while one waits.

use spreadsheet::{Answers, import};
use std::fmt::Write;
use std::time::{Duration, Instant};

/// A thousand machines and two hundred attachments, in a dealer's own layout.
fn large() -> Vec<u8> {
    let mut machines = String::from(
        "Maker;Model;Class;Weight (kg);Engine power (kW);Aux flow (L/min);Relief (bar);Coupling size (in);Case drain;Stock;Pin (mm)\n",
    );
    for number in 0..1000 {
        let _ = writeln!(
            machines,
            "Orrin Bay;OB {number};mini-excavator;{};21.5;62;215;1/2;yes;bay {number};40",
            3000 + number
        );
    }
    let mut attachments = String::from(
        "Maker;Model;Kind;Weight (kg);Flow (L/min);Working pressure (bar);Max pressure (bar);Back pressure (bar);Case drain\n",
    );
    for number in 0..200 {
        let _ = writeln!(attachments, "Marram;F {number};flail;{};40-65;170;230;12;yes", 200 + number);
    }
    let sheets = [("machines", machines), ("attachments", attachments)].map(|(name, text)| {
        match spreadsheet::open(text.as_bytes(), &format!("{name}.csv")) {
            Ok(spreadsheet::Opened::Book(book)) => book.sheets[0].clone(),
            other => panic!("{other:?}"),
        }
    });
    spreadsheet::to_xlsx(&spreadsheet::Book { sheets: sheets.into() }).expect("a workbook")
}

#[test]
fn a_thousand_machines_are_read_while_one_waits() {
    let bytes = large();
    let began = Instant::now();
    let imported = import(&bytes, "yard.xlsx", &Answers::default()).expect("cells");
    let took = began.elapsed();
    println!("{} KB in {took:?}", bytes.len() / 1024);
    let table = imported.outcome.table.expect("a table");
    assert_eq!((table.carriers.len(), table.heads.len()), (1000, 200));
    assert!(
        imported.problems.is_empty() && imported.questions.is_empty(),
        "{:?} {:?}",
        imported.problems.first(),
        imported.questions
    );
    // As tests are compiled, beside others; what a visitor waits is measured in a browser.
    assert!(took < Duration::from_secs(10), "{took:?}");
}
