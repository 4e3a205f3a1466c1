//! Files of other programs, made by hand as these write them.

use spreadsheet::{Answers, Book, Cell, FileFault, import, open};
use std::fmt::Write as _;
use std::io::{Cursor, Read, Write};
use zip::write::SimpleFileOptions;
use zip::{ZipArchive, ZipWriter};

/// A packed file of parts.
pub fn packed(parts: &[(String, Vec<u8>)]) -> Vec<u8> {
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in parts {
        writer.start_file(name.as_str(), SimpleFileOptions::default()).expect("a part");
        writer.write_all(bytes).expect("memory");
    }
    writer.finish().expect("a packed file").into_inner()
}

/// The parts of a packed file.
pub fn parts(bytes: &[u8]) -> Vec<(String, Vec<u8>)> {
    let mut archive = ZipArchive::new(Cursor::new(bytes)).expect("a packed file");
    (0..archive.len())
        .map(|index| {
            let mut part = archive.by_index(index).expect("a part");
            let mut bytes = Vec::new();
            part.read_to_end(&mut bytes).expect("memory");
            (part.name().expect("a name").into_owned(), bytes)
        })
        .collect()
}

/// A workbook of the OpenDocument form.
pub fn ods(book: &Book) -> Vec<u8> {
    let plain = |text: &str| text.replace('&', "&amp;").replace('<', "&lt;").replace('"', "&quot;");
    let mut body = String::new();
    for sheet in &book.sheets {
        let _ = write!(
            body,
            "<table:table table:name=\"{}\"><table:table-column table:number-columns-repeated=\"1024\"/>",
            plain(&sheet.name)
        );
        let mut next = 1;
        for row in &sheet.rows {
            if row.number > next {
                let _ = write!(
                    body,
                    "<table:table-row table:number-rows-repeated=\"{}\"><table:table-cell/></table:table-row>",
                    row.number - next
                );
            }
            next = row.number + 1;
            body.push_str("<table:table-row>");
            for cell in &row.cells {
                let _ = match cell {
                    Cell::Empty => write!(body, "<table:table-cell/>"),
                    Cell::Number(number) => write!(
                        body,
                        "<table:table-cell office:value-type=\"float\" office:value=\"{number}\"><text:p>{number}</text:p></table:table-cell>"
                    ),
                    Cell::Day(day) => write!(
                        body,
                        "<table:table-cell office:value-type=\"date\" office:date-value=\"{day}T00:00:00\"><text:p>a day</text:p></table:table-cell>"
                    ),
                    Cell::YesNo(yes) => write!(
                        body,
                        "<table:table-cell office:value-type=\"boolean\" office:boolean-value=\"{yes}\"><text:p>TRUE</text:p></table:table-cell>"
                    ),
                    cell => write!(
                        body,
                        "<table:table-cell office:value-type=\"string\"><office:annotation><text:p>a note</text:p></office:annotation><text:p>{}</text:p></table:table-cell>",
                        plain(&cell.text()).replace(' ', "<text:s/>")
                    ),
                };
            }
            body.push_str("<table:table-cell table:number-columns-repeated=\"1000\"/></table:table-row>");
        }
        body.push_str("<table:table-row table:number-rows-repeated=\"1048000\"><table:table-cell table:number-columns-repeated=\"1024\"/></table:table-row></table:table>");
    }
    let content = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?><office:document-content xmlns:office=\"urn:oasis:names:tc:opendocument:xmlns:office:1.0\" \
         xmlns:table=\"urn:oasis:names:tc:opendocument:xmlns:table:1.0\" xmlns:text=\"urn:oasis:names:tc:opendocument:xmlns:text:1.0\">\
         <office:body><office:spreadsheet>{body}</office:spreadsheet></office:body></office:document-content>"
    );
    let manifest = "<manifest:manifest xmlns:manifest=\"urn:oasis:names:tc:opendocument:xmlns:manifest:1.0\"/>";
    let kind = "application/vnd.oasis.opendocument.spreadsheet";
    let parts = [("mimetype", kind), ("META-INF/manifest.xml", manifest), ("content.xml", &content)];
    packed(&parts.map(|(name, text)| (name.to_owned(), text.as_bytes().to_vec())))
}

#[test]
fn an_opendocument_workbook_says_what_an_xlsx_says() {
    let table = table::read(include_str!("../../../../public/table/demo.json")).table.expect("a table");
    let book = spreadsheet::book_of(&table);
    let imported = import(&ods(&book), "yard.ods", &Answers::default()).expect("cells");
    assert_eq!(imported.outcome.table, Some(table));
}

#[test]
fn days_numbers_and_yes_come_out_of_a_workbook_as_what_they_are() {
    let mut workbook = rust_xlsxwriter::Workbook::new();
    let sheet = workbook.add_worksheet();
    for (column, header) in
        ["Model", "Class", "Weight (kg)", "Checked", "Case drain", "Tank (L)"].into_iter().enumerate()
    {
        sheet.write_string(2, u16::try_from(column).expect("few"), header).expect("a header");
    }
    let day = rust_xlsxwriter::Format::new().set_num_format("dd/mm/yyyy");
    sheet.write_string(3, 0, "OB 36").expect("a cell");
    sheet.write_string(3, 1, "Mini excavator").expect("a cell");
    sheet.write_number(3, 2, 3640.0).expect("a cell");
    let date = rust_xlsxwriter::ExcelDateTime::from_ymd(2026, 10, 20).expect("a day");
    sheet.write_datetime_with_format(3, 3, &date, &day).expect("a cell");
    sheet.write_boolean(3, 4, true).expect("a cell");
    sheet.write_number(3, 5, 36.125).expect("a cell");
    let imported =
        import(&workbook.save_to_buffer().expect("a workbook"), "yard.xlsx", &Answers::default()).expect("cells");
    assert!(
        imported.problems.is_empty() && imported.questions.is_empty(),
        "{:?} {:?}",
        imported.problems,
        imported.questions
    );
    let json = serde_json::to_value(imported.outcome.table.expect("a table")).expect("JSON");
    let machine = &json["carriers"][0];
    assert_eq!(machine["checked"], "2026-10-20");
    assert_eq!(machine["case_line"]["fitted"], true);
    assert_eq!(machine["tank"]["volume"], "36.125 L");
    assert_eq!(imported.sheets[0].header_row, 3);
}

#[test]
fn what_asks_for_more_than_there_can_be_is_told_at_once() {
    let huge = |rows: &str, columns: &str| {
        let mut all = parts(&ods(&Book::default()));
        let table = format!(
            "<office:spreadsheet><table:table table:name=\"a\"><table:table-row table:number-rows-repeated=\"{rows}\">\
             <table:table-cell table:number-columns-repeated=\"{columns}\"><text:p>x</text:p></table:table-cell></table:table-row></table:table></office:spreadsheet>"
        );
        for (name, bytes) in &mut all {
            if name == "content.xml" {
                *bytes = String::from_utf8_lossy(bytes)
                    .replace("<office:spreadsheet></office:spreadsheet>", &table)
                    .into_bytes();
            }
        }
        open(&packed(&all), "a.ods")
    };
    assert_eq!(huge("1048576", "1"), Err(FileFault::TooManyCells { most: spreadsheet::MOST_CELLS }));
    assert_eq!(
        huge("1", "16384"),
        Err(FileFault::TooManyColumns { sheet: "a".to_owned(), most: spreadsheet::MOST_COLUMNS })
    );
    let bomb = vec![b' '; spreadsheet::LARGEST_UNPACKED + 1];
    let bomb = packed(&[("content.xml".to_owned(), bomb)]);
    assert!(bomb.len() < 1_000_000);
    assert_eq!(open(&bomb, "a.ods"), Err(FileFault::TooLarge { most: spreadsheet::LARGEST_UNPACKED }));
    assert_eq!(open(&packed(&[("a.txt".to_owned(), b"a".to_vec())]), "a.zip"), Err(FileFault::NotAWorkbook));
}

/// An entity that doubles itself again and again is not resolved.
#[test]
fn entities_of_its_own_are_not_worked_out() {
    let mut all = parts(&ods(&Book::default()));
    for (name, bytes) in &mut all {
        if name == "content.xml" {
            let text = String::from_utf8_lossy(bytes).replace("?><", "?><!DOCTYPE a [<!ENTITY b \"bbbb\">]><").replace(
                "<office:spreadsheet>",
                "<office:spreadsheet><table:table table:name=\"a\"><table:table-row><table:table-cell><text:p>x&b;&amp;&#65;</text:p></table:table-cell></table:table-row></table:table>",
            );
            *bytes = text.into_bytes();
        }
    }
    let Ok(spreadsheet::Opened::Book(book)) = open(&packed(&all), "a.ods") else { panic!("cells") };
    assert_eq!(book.sheets[0].rows[0].cells[0].text(), "x&A");
}
