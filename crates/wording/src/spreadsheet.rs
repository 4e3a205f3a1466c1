//! What is wrong with a dealer's spreadsheet, and what is asked about it, in words.

use super::file_reading::field_words;
use super::problems::ProblemText;
use super::{Words, counted};
use quantity::{Named, Unit};
use serde_json::{Value, json};
use spreadsheet::{CellFault, CellProblem, FileFault, LeftOut, Place, Question, letters};
use table::{Fault, Severity};

impl Words<'_> {
    /// Why a file cannot be read at all, and what helps: one sentence.
    pub fn file_fault(&self, fault: &FileFault) -> String {
        let megabytes = |bytes: &usize| bytes / (1024 * 1024);
        match fault {
            FileFault::Empty => "nothing is in the file: choose another one".to_owned(),
            FileFault::TooLarge { most } => {
                format!("the file is larger than {} MB: split it into several", megabytes(most))
            }
            FileFault::TooManyCells { most } => {
                format!(
                    "the file has more than {} filled cells: split it into several",
                    self.numbers.decimal(*most as f64, 0)
                )
            }
            FileFault::TooManyColumns { sheet, most } => format!(
                "the sheet “{sheet}” has more than {} columns: remove those without headers",
                self.numbers.decimal(*most as f64, 0)
            ),
            FileFault::Locked => "a password locks the workbook: save it without one".to_owned(),
            FileFault::OldWorkbook => {
                "this is a workbook of the old form (.xls): save it as .xlsx, .ods or .csv".to_owned()
            }
            FileFault::NotAWorkbook => {
                "this is a packed file but no workbook: save the table as .xlsx, .ods or .csv".to_owned()
            }
            FileFault::Damaged { part, words } => {
                format!(
                    "the workbook is damaged in “{part}” ({words}): open it in your spreadsheet and save it once more"
                )
            }
            FileFault::NotText { line } => {
                format!("line {line} is no text: choose a workbook (.xlsx, .ods), or save the table as .csv in UTF-8")
            }
            FileFault::BrokenEncoding { encoding, line } => {
                format!("the file is marked as {encoding}, and line {line} is not: save it once more as .csv in UTF-8")
            }
            FileFault::QuoteOpen { line } => {
                format!("a quote is opened on line {line} and never closed: close it, or remove it")
            }
        }
    }

    /// A cell's place as a spreadsheet shows it: “machines” D7.
    pub fn cell_place(&self, place: &Place) -> String {
        match place.column {
            Some(column) => format!("“{}” {}{}", place.sheet, letters(column), place.row),
            None => format!("“{}” row {}", place.sheet, place.row),
        }
    }

    /// Something wrong, at its cell.
    pub fn cell_problem(&self, problem: &CellProblem) -> ProblemText {
        let (expected, mut remedy) = match &problem.fault {
            CellFault::Table(told) => in_cell(&told.fault).unwrap_or_else(|| {
                let text = self.problem(told);
                (text.expected, text.remedy)
            }),
            CellFault::Conflict { first } => (
                format!("“{first}”, as another row of the same entry says"),
                "make the rows agree; if they are two machines, give each an id of its own".to_owned(),
            ),
            CellFault::NoSuchEntry => (
                "the id, or maker and model, of an entry on its own sheet".to_owned(),
                "write it as it stands there, or add the entry there".to_owned(),
            ),
            CellFault::NothingFound => (
                "rows of machines, attachments or parts below headers like Model, Class, Weight (kg)".to_owned(),
                "write such headers above the columns, in the first rows of a sheet".to_owned(),
            ),
            CellFault::RowSkipped => {
                ("a row with a model".to_owned(), "nothing, if it is a heading or a sum".to_owned())
            }
        };
        let used = match problem.left_out {
            _ if problem.fault == CellFault::NothingFound => "",
            LeftOut::Nothing => "",
            LeftOut::Cell => "; until then the cell is left out",
            LeftOut::Entry => "; until then the row is left out",
        };
        remedy.push_str(used);
        let place = match (&problem.place, &problem.fault) {
            (Some(place), _) => {
                let header = problem.header.as_ref().map(|header| format!(" ({header})")).unwrap_or_default();
                let entry = problem.entry.as_ref().map(|name| format!("{name}, ")).unwrap_or_default();
                format!("{entry}{}{header}", self.cell_place(place))
            }
            (None, CellFault::Table(told)) => self.problem(told).place,
            (None, _) => "the whole file".to_owned(),
        };
        ProblemText { place, found: problem.found.clone(), expected, remedy }
    }

    /// Something wrong at its cell, on one line for a console.
    pub fn cell_problem_line(&self, problem: &CellProblem) -> String {
        let ProblemText { place, found, expected, remedy } = self.cell_problem(problem);
        let found = if found.is_empty() { String::new() } else { format!("found {found}; ") };
        format!("{}: {place}: {found}expected {expected}; to fix it: {remedy}", problem.severity.name())
            .replace(['\n', '\r'], " ")
    }

    /// Something wrong at its cell, as JSON.
    pub fn cell_problem_json(&self, problem: &CellProblem) -> Value {
        let text = self.cell_problem(problem);
        let place = match (&problem.place, &problem.fault) {
            (None, CellFault::Table(told)) => return self.problem_json(told),
            (place, _) => place.clone().unwrap_or(Place { sheet: String::new(), row: 0, column: None }),
        };
        json!({
            "severity": problem.severity.name(),
            "sheet": place.sheet,
            "row": place.row,
            "column": place.column.map(letters),
            "header": problem.header,
            "entry": problem.entry,
            "found": text.found,
            "expected": text.expected,
            "remedy": text.remedy,
            "left_out": problem.left_out != LeftOut::Nothing,
        })
    }

    /// How many problems of each kind, in a few words.
    pub fn cell_problem_count(&self, problems: &[CellProblem]) -> String {
        let errors = problems.iter().filter(|problem| problem.severity == Severity::Error).count();
        format!("{}, {}", counted(errors, "error", "errors"), counted(problems.len() - errors, "warning", "warnings"))
    }

    /// What is asked about a column or a sheet, in one sentence or two.
    pub fn spreadsheet_question(&self, question: &Question) -> String {
        let at = |place: &Place, header: &str| format!("{} ({header})", self.cell_place(place));
        match question {
            Question::Sheet { sheet } => {
                format!("the sheet “{sheet}”: does it hold machines, attachments or parts? It is left out until then.")
            }
            Question::Field { place, header, near } => {
                format!("{}: is this “{}”? The column is left out until then.", at(place, header), field_words(near))
            }
            Question::SameField { place, header, used, field } => format!(
                "{}: column {} is taken for “{}” already. Which of the two counts? This one is left out until then.",
                at(place, header),
                letters(*used),
                field_words(field)
            ),
            Question::Unit { place, header, found, units } => {
                let units: Vec<_> = units.iter().map(|unit| self.spoken_unit(*unit)).collect();
                format!(
                    "{}: {found} of what? It may be {}. Figures without a unit are left out until then.",
                    at(place, header),
                    units.join(", ")
                )
            }
            Question::OtherUnit { place, header, found, written, meant, unusual, of } => format!(
                "{}: {unusual} of {of} figures, as {found}, are not usual in {}, and most would be in {}. Which unit is it? The column is left out until then.",
                at(place, header),
                self.spoken_unit(*written),
                self.spoken_unit(*meant)
            ),
            Question::Marks { place, header, found } => format!(
                "{}: does the mark in {found} set off thousands or decimals? Such figures are left out until then.",
                at(place, header)
            ),
            Question::Days { place, header, found } => {
                format!(
                    "{}: is {found} day and month, or month and day? Such days are left out until then.",
                    at(place, header)
                )
            }
        }
    }

    /// How a person writes a unit: a spoken form where its code has brackets.
    pub(crate) fn spoken_unit(&self, unit: Unit) -> &'static str {
        let code = unit.name();
        if code.contains(['[', '{']) { unit.spoken().first().unwrap_or(&code) } else { code }
    }
}

/// What is expected in a cell, and what helps, where the words for JSON do not fit.
fn in_cell(fault: &Fault) -> Option<(String, String)> {
    match fault {
        Fault::WrongType { expected: "true or false" } => {
            Some(("yes or no".to_owned(), "write yes or no, or leave it empty".to_owned()))
        }
        Fault::WrongType { expected: "an object in braces" } => Some((
            "yes or no, or columns of its fields".to_owned(),
            "write yes or no here, its figures in columns of their own".to_owned(),
        )),
        Fault::WrongType { expected: "a list in square brackets" } => Some((
            "none, or columns of its items".to_owned(),
            "write none here, or what there is in columns or a sheet of its own".to_owned(),
        )),
        Fault::MissingField { field } => {
            Some((format!("{} in this row", field.replace('_', " ")), format!("fill in a column “{field}”")))
        }
        Fault::DuplicateId => Some(("an id that is used once".to_owned(), "give one of the two another id".to_owned())),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use crate::{PlainNumbers, Words};
    use quantity::UnitSystem;
    use spreadsheet::{Answers, FileFault, Imported, import};

    const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

    fn of(text: &str) -> Imported {
        import(text.as_bytes(), "machines.csv", &Answers::default()).expect("cells")
    }

    #[test]
    fn a_problem_names_its_cell_what_stood_there_and_what_helps() {
        let imported =
            of("Model,Class,Weight (kg),Case drain\nOB 36,mini excavator,ask Bo,maybe\nOB 40,dumper,4000,yes\n");
        let lines: Vec<_> = imported.problems.iter().map(|problem| WORDS.cell_problem_line(problem)).collect();
        assert_eq!(
            lines,
            [
                "error: OB 36, “machines” C2 (Weight (kg)): found ask Bo; expected a mass like \"320 kg\"; to fix it: begin with a figure; for “about” write how far it may be off, as in 420 kg ±10 %; until then the cell is left out",
                "error: OB 36, “machines” D2 (Case drain): found maybe; expected yes or no; to fix it: write yes or no, or leave it empty; until then the cell is left out",
                "error: OB 40, “machines” B3 (Class): found dumper; expected a carrier class: micro-excavator, mini-excavator, midi-excavator, excavator, skid-steer, compact-track-loader, wheel-loader, backhoe-loader; to fix it: use one of the names in the list; until then the row is left out",
            ]
        );
        assert_eq!(imported.outcome.table.expect("the rest").carriers.len(), 1);
    }

    #[test]
    fn a_question_says_what_is_left_out_until_it_is_answered() {
        let imported = of("Model,Class,Aux flow,Weight (kg)\nOB 36,mini excavator,62,\"3,640\"\n");
        let asked: Vec<_> = imported.questions.iter().map(|question| WORDS.spreadsheet_question(question)).collect();
        assert_eq!(
            asked,
            [
                "“machines” C2 (Aux flow): 62 of what? It may be L/min, gpm. Figures without a unit are left out until then.",
                "“machines” D2 (Weight (kg)): does the mark in 3,640 set off thousands or decimals? Such figures are left out until then.",
            ]
        );
    }

    #[test]
    fn a_file_that_cannot_be_read_is_told_in_a_line() {
        assert_eq!(
            WORDS.file_fault(&FileFault::BrokenEncoding { encoding: "UTF-8", line: 3 }),
            "the file is marked as UTF-8, and line 3 is not: save it once more as .csv in UTF-8"
        );
        assert_eq!(WORDS.file_fault(&FileFault::Locked), "a password locks the workbook: save it without one");
    }
}
