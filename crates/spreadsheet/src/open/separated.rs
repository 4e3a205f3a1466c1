//! Texts whose cells are separated by a sign: commas, semicolons, tabs, bars.

use super::limits::{MOST_CELLS, MOST_COLUMNS};
use crate::{Cell, FileFault, Sheet};

/// The signs that separate cells, the likelier first where they part a text equally well.
const SEPARATORS: [u8; 4] = [b'\t', b';', b',', b'|'];

/// The rows of a separated text.
pub fn read(text: &str, name: &str) -> Result<Sheet, FileFault> {
    let (text, told) = told_separator(text);
    let skipped = usize::from(told.is_some());
    let separator = told.unwrap_or_else(|| likeliest(text));
    if let Some(line) = quote_left_open(text, separator) {
        return Err(FileFault::QuoteOpen { line: line + skipped });
    }
    let mut reader =
        csv::ReaderBuilder::new().delimiter(separator).has_headers(false).flexible(true).from_reader(text.as_bytes());
    let (mut rows, mut count) = (Vec::new(), 0);
    let mut record = csv::StringRecord::new();
    loop {
        match reader.read_record(&mut record) {
            Ok(true) => {}
            Ok(false) => break,
            Err(error) => {
                let line = error.position().map_or(1, |at| usize::try_from(at.line()).unwrap_or(1));
                return Err(FileFault::NotText { line: line + skipped });
            }
        }
        if record.len() > MOST_COLUMNS {
            return Err(FileFault::TooManyColumns { sheet: name.to_owned(), most: MOST_COLUMNS });
        }
        count += record.len();
        if count > MOST_CELLS {
            return Err(FileFault::TooManyCells { most: MOST_CELLS });
        }
        // The line is what an editor shows; a spreadsheet that opens the file shows the same but below cells of several lines.
        let line = record.position().map_or(1, |at| line_of(text, at));
        let cell = |text: &str| if text.is_empty() { Cell::Empty } else { Cell::Text(text.to_owned()) };
        rows.push((line + skipped, record.iter().map(cell).collect()));
    }
    Ok(Sheet::new(name.to_owned(), rows))
}

/// The line of a record: its position is before the empty lines in front of it.
fn line_of(text: &str, at: &csv::Position) -> usize {
    let [byte, line] = [at.byte(), at.line()].map(|number| usize::try_from(number).unwrap_or(1));
    let before = text.as_bytes().iter().skip(byte).take_while(|byte| b"\r\n".contains(byte));
    line + before.filter(|byte| **byte == b'\n').count()
}

/// The line `sep=;` that some programs write in front.
fn told_separator(text: &str) -> (&str, Option<u8>) {
    let (first, rest) = text.split_once('\n').unwrap_or((text, ""));
    match first.trim_end_matches('\r').as_bytes() {
        [b's', b'e', b'p', b'=', sign] => (rest, Some(*sign)),
        _ => (text, None),
    }
}

/// The sign that parts the first rows into the same number of cells, and into the most.
fn likeliest(text: &str) -> u8 {
    let score = |separator: u8| {
        let mut reader = csv::ReaderBuilder::new()
            .delimiter(separator)
            .has_headers(false)
            .flexible(true)
            .from_reader(text.as_bytes());
        let widths: Vec<usize> = reader
            .records()
            .take(20)
            .map_while(Result::ok)
            .map(|record| record.len())
            .filter(|width| *width > 1)
            .collect();
        let usual = widths.iter().max_by_key(|width| widths.iter().filter(|other| other == width).count()).copied();
        // Rows of one width count first, then how many cells there are.
        let alike = widths.iter().filter(|width| Some(**width) == usual).count();
        (alike * usual.unwrap_or(0), usual.unwrap_or(0))
    };
    SEPARATORS.into_iter().rev().max_by_key(|separator| score(*separator)).unwrap_or(b',')
}

/// The line of a quote that is not closed before the text ends.
fn quote_left_open(text: &str, separator: u8) -> Option<usize> {
    let (mut line, mut opened, mut at_begin) = (1, None, true);
    let bytes = text.as_bytes();
    let mut place = 0;
    while let Some(&byte) = bytes.get(place) {
        match (byte, opened) {
            (b'"', Some(_)) if bytes.get(place + 1) == Some(&b'"') => place += 1,
            (b'"', Some(_)) => opened = None,
            (b'"', None) if at_begin => opened = Some(line),
            _ => {}
        }
        line += usize::from(byte == b'\n');
        at_begin = opened.is_none() && (byte == separator || byte == b'\n' || byte == b'\r');
        place += 1;
    }
    opened
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cells(text: &str) -> Vec<Vec<String>> {
        let sheet = read(text, "yard").expect("cells");
        sheet.rows.iter().map(|row| row.cells.iter().map(Cell::text).collect()).collect()
    }

    #[test]
    fn the_separator_is_the_one_that_parts_the_rows_alike() {
        for text in [
            "Model;Flow;Mass\nA, the small one;62,5;3640\nB;70;4000\n",
            "sep=;\nModel;Flow;Mass\r\nA, the small one;62,5;3640\r\nB;70;4000",
            "Model\tFlow\tMass\nA, the small one\t62,5\t3640\nB\t70\t4000\n",
            "Model,Flow,Mass\n\"A, the small one\",\"62,5\",3640\nB,70,4000\n",
            "Model|Flow|Mass\nA, the small one|62,5|3640\nB|70|4000\n",
        ] {
            let told = cells(text);
            assert_eq!(told[1], ["A, the small one", "62,5", "3640"], "{text}");
            assert_eq!(told[2], ["B", "70", "4000"]);
        }
    }

    #[test]
    fn a_quote_that_does_not_close_is_told_with_its_line() {
        assert_eq!(read("a;b\nc;\"d\ne;f\n", ""), Err(FileFault::QuoteOpen { line: 2 }));
        assert_eq!(cells("a,b\n\"c \"\"d\"\"\ne\",f\n")[1], ["c \"d\"\ne", "f"]);
        assert_eq!(cells("size,b\n1/2\",f\n")[1], ["1/2\"", "f"], "an inch");
    }

    #[test]
    fn a_row_has_the_number_of_its_line() {
        let sheet = read("a,b\n\n\nc,d\n", "").expect("cells");
        assert_eq!(sheet.rows.iter().map(|row| row.number).collect::<Vec<_>>(), [1, 4]);
    }
}
