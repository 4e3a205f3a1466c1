//! Files that are cut off, scratched or made by somebody hostile: told what is wrong, quickly, and nothing falls over.

use crate::files::{ods, packed, parts};
use crate::is_long;
use spreadsheet::{Answers, book_of, import, to_csv, to_xlsx};
use std::time::{Duration, Instant};
use wording::{PlainNumbers, Words};

/// Numbers by a seed (xorshift).
struct Dice(u64);

impl Dice {
    fn below(&mut self, most: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % most.max(1) as u64).unwrap_or_default()
    }
}

/// Scratches bytes in one of the ways in which files break.
fn scratched(mut bytes: Vec<u8>, dice: &mut Dice) -> Vec<u8> {
    for _ in 0..=dice.below(4) {
        let at = dice.below(bytes.len());
        let end = (at + dice.below(40)).min(bytes.len());
        match dice.below(7) {
            0 => bytes.truncate(at),
            1 => drop(bytes.drain(at..end)),
            2 => {
                let piece = bytes[at..end].to_vec();
                let to = dice.below(bytes.len());
                bytes.splice(to..to, piece);
            }
            3 => bytes
                .splice(at..at, b"\"<>&;,\n\t\0\xff99999999999999999999"[dice.below(20)..].iter().copied().take(3))
                .for_each(drop),
            4 => {
                // A number grows beyond all sizes.
                if let Some(digit) = bytes[at..].iter().position(u8::is_ascii_digit) {
                    bytes.splice(at + digit..at + digit, b"9999999999".iter().copied());
                }
            }
            _ => {
                if let Some(byte) = bytes.get_mut(at) {
                    *byte ^= 1 << dice.below(8);
                }
            }
        }
    }
    bytes
}

#[test]
fn damaged_files_are_told_and_nothing_falls_over() {
    let table = table::read(include_str!("../../../../public/table/demo.json")).table.expect("a table");
    let small = table::Table {
        carriers: table.carriers.into_iter().take(4).collect(),
        heads: table.heads.into_iter().take(4).collect(),
        parts: table.parts.into_iter().take(6).collect(),
        ..table
    };
    let book = book_of(&small);
    let workbooks = [("yard.xlsx", to_xlsx(&book).expect("a workbook")), ("yard.ods", ods(&book))];
    let texts: Vec<_> =
        to_csv(&book).into_iter().map(|(name, text)| (format!("{name}.csv"), text.into_bytes())).collect();
    let words = Words { numbers: &PlainNumbers, units: quantity::UnitSystem::Metric };
    let cases = if is_long() { 2000 } else { 300 };
    let (mut refused, mut told, mut whole) = (0, 0, 0);
    let mut longest = Duration::ZERO;
    for seed in 1..=cases {
        let mut dice = Dice(u64::wrapping_mul(seed, 0x9e37_79b9_7f4a_7c15));
        let (name, bytes) = match seed % 4 {
            0 => {
                let (name, text) = &texts[dice.below(texts.len())];
                (name.as_str(), scratched(text.clone(), &mut dice))
            }
            1 => {
                let (name, bytes) = &workbooks[dice.below(2)];
                (*name, scratched(bytes.clone(), &mut dice))
            }
            // Within a workbook that is packed soundly.
            _ => {
                let (name, bytes) = &workbooks[dice.below(2)];
                let mut all = parts(bytes);
                let which = dice.below(all.len());
                all[which].1 = scratched(std::mem::take(&mut all[which].1), &mut dice);
                (*name, packed(&all))
            }
        };
        let began = Instant::now();
        let read = import(&bytes, name, &Answers::default());
        longest = longest.max(began.elapsed());
        match read {
            Err(fault) => {
                assert!(words.file_fault(&fault).len() > 20, "{seed}: {fault:?}");
                refused += 1;
            }
            Ok(imported) => {
                for problem in &imported.problems {
                    assert!(words.cell_problem_line(problem).len() > 40, "{seed}: {problem:?}");
                }
                for question in &imported.questions {
                    assert!(words.spreadsheet_question(question).len() > 20, "{seed}: {question:?}");
                }
                let silent = imported.problems.is_empty() && imported.questions.is_empty();
                // Where nothing is said, something is there.
                let used = imported
                    .outcome
                    .table
                    .as_ref()
                    .map_or(0, |table| table.carriers.len() + table.heads.len() + table.parts.len());
                assert!(!silent || used > 0, "seed {seed}: nothing of {name} is used, and nothing is told");
                if silent { whole += 1 } else { told += 1 }
            }
        }
    }
    println!("{refused} refused, {told} told, {whole} with nothing to tell; the longest took {longest:?}");
    assert!(refused > cases / 5 && told > cases / 20 && whole > 0, "{refused} refused, {told} told, {whole} whole");
    assert!(longest < Duration::from_secs(20), "{longest:?}");
}
