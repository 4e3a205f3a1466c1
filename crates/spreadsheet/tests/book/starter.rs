//! The workbook to begin with is read as it is, and served as the declarations make it.

use spreadsheet::{Answers, Opened, Role, import, open, starter};

const SERVED: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../public/table/workbook.xlsx");

#[test]
fn its_rows_are_read_without_a_question() {
    let imported = import(&starter().expect("a workbook"), "workbook.xlsx", &Answers::default()).expect("cells");
    assert!(
        imported.problems.is_empty() && imported.questions.is_empty(),
        "{:#?}\n{:#?}",
        imported.problems,
        imported.questions
    );
    let table = imported.outcome.table.expect("a table");
    assert_eq!((table.carriers.len(), table.heads.len(), table.parts.len()), (2, 1, 1));
    assert_eq!(table.carriers.iter().map(|carrier| carrier.circuits.len()).collect::<Vec<_>>(), [2, 1]);
}

#[test]
fn every_column_of_it_leads_to_a_field_by_its_own_name() {
    let imported = import(&starter().expect("a workbook"), "workbook.xlsx", &Answers::default()).expect("cells");
    let sheets: Vec<_> = imported.sheets.iter().filter(|sheet| sheet.role.is_some()).collect();
    assert_eq!(
        sheets.iter().map(|sheet| sheet.name.as_str()).collect::<Vec<_>>(),
        ["machines", "circuits", "attachments", "parts"]
    );
    for column in sheets.iter().flat_map(|sheet| &sheet.columns) {
        assert!(column.is_reference || column.exact, "{column:?}");
    }
    let count: usize = sheets.iter().map(|sheet| sheet.columns.len()).sum();
    assert_eq!(count, 27 + 13 + 34 + 12);
}

#[test]
fn the_sheet_where_to_read_it_names_every_field() {
    let Ok(Opened::Book(book)) = open(&starter().expect("a workbook"), "workbook.xlsx") else { panic!("cells") };
    let sheet = book.sheets.iter().find(|sheet| sheet.name == "where to read it").expect("the sheet");
    let figures = |role: Role| {
        role.fields()
            .0
            .iter()
            .filter(|field| !matches!(field.form, table::row::Form::Object(_) | table::row::Form::Window(..)))
            .count()
    };
    let fields: usize = [Role::Machines, Role::Attachments, Role::Parts].into_iter().map(figures).sum();
    assert_eq!(sheet.rows.len(), 1 + fields);
    assert!(fields > 250, "{fields}");
}

/// `make workbook` writes it.
#[test]
fn the_workbook_that_is_served_is_that_of_the_declarations() {
    let cells = |bytes: &[u8]| open(bytes, "workbook.xlsx").expect("cells");
    let served = std::fs::read(SERVED).expect("public/table/workbook.xlsx");
    assert!(cells(&served) == cells(&starter().expect("a workbook")), "remake it: make workbook");
}
