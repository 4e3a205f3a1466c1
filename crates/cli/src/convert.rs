//! One kind of file as another: a spreadsheet as JSON, a table as a workbook or as separated texts.

use crate::input::{self, InputFault, WORDS};
use clap::Args;
use spreadsheet::{Imported, book_of, to_csv, to_xlsx};
use std::path::Path;
use std::process::ExitCode;

/// What is converted into what.
#[derive(Args)]
pub struct Convert {
    /// A table of any kind: .json, .xlsx, .ods, .csv, or a folder of .csv files
    #[arg(value_name = "IN")]
    pub from: String,
    /// What to write: .json, .xlsx, or a folder for .csv files
    #[arg(value_name = "OUT")]
    to: String,
    /// Answers to what was asked about this layout, a JSON file
    #[arg(long, value_name = "FILE")]
    answers: Option<String>,
}

/// Converts; the problems go to standard error, one a line.
///
/// # Errors
/// [`InputFault`] where nothing of the file can be read.
pub fn run(asked: &Convert) -> Result<ExitCode, InputFault> {
    let answers = match input::answers(asked.answers.as_deref()) {
        Ok(answers) => answers,
        Err(message) => {
            eprintln!("{message}");
            return Ok(ExitCode::from(2));
        }
    };
    let imported = input::read(&asked.from, &answers)?;
    tell(&imported);
    let Some(table) = &imported.outcome.table else { return Ok(ExitCode::from(1)) };
    let to = Path::new(&asked.to);
    let is = |ending: &str| to.extension().is_some_and(|found| found.eq_ignore_ascii_case(ending));
    let written = if is("xlsx") {
        to_xlsx(&book_of(table)).map_err(|error| error.to_string()).and_then(|bytes| write(to, &bytes))
    } else if is("json") {
        let json = serde_json::to_string_pretty(table).map_err(|error| error.to_string());
        json.and_then(|json| write(to, format!("{json}\n").as_bytes()))
    } else if to.extension().is_none() {
        let made = std::fs::create_dir_all(to).map_err(|error| error.to_string());
        let mut sheets = to_csv(&book_of(table)).into_iter();
        made.and_then(|()| sheets.try_for_each(|(name, text)| write(&to.join(format!("{name}.csv")), text.as_bytes())))
    } else {
        Err("write a name that ends in .json or .xlsx, or a folder for .csv files".to_owned())
    };
    if let Err(message) = written {
        eprintln!("cannot write {}: {message}", asked.to);
        return Ok(ExitCode::from(2));
    }
    let is_whole = imported.problems.is_empty() && imported.questions.is_empty();
    Ok(ExitCode::from(u8::from(!is_whole)))
}

fn write(to: &Path, bytes: &[u8]) -> Result<(), String> {
    std::fs::write(to, bytes).map_err(|error| error.to_string())
}

/// What was wrong, what is asked and which columns are not used.
fn tell(imported: &Imported) {
    for problem in &imported.problems {
        eprintln!("{}", WORDS.cell_problem_line(problem));
    }
    for question in &imported.questions {
        eprintln!("question: {}", WORDS.spreadsheet_question(question));
    }
    for sheet in imported.sheets.iter().filter(|sheet| sheet.role.is_some()) {
        let unused = sheet
            .columns
            .iter()
            .filter(|column| column.field.is_none() && !column.is_reference && column.near.is_none());
        let unused: Vec<_> = unused.map(|column| column.header.as_str()).collect();
        if !unused.is_empty() {
            eprintln!("not used of “{}”: {}", sheet.name, unused.join(", "));
        }
    }
}
