//! Judges pairings of a spec table and prints them as JSON.
//!
//! ```text
//! cargo run --release --example pairing -- --table FILE --carrier ID --head ID   one pairing
//! cargo run --release --example pairing -- --table FILE --carrier ID --head ID --states   its circuit in every state
//! cargo run --release --example pairing -- --table FILE --carrier ID --head ID --sheets   the sheets to work from, as text
//! cargo run --release --example pairing -- --table FILE --all                    every pair, one JSON object a line
//! cargo run --release --example pairing -- --table FILE --check                  the table's problems, one a line
//! ```
//! It exits with 0 when all is well, 1 when the table has problems (with `--check` any, else such as keep it from an
//! answer), 2 when the call is wrong.

use pairwright::pairing::installation::Solved;
use pairwright::pairing::settle::with_branches;
use pairwright::pairing::{Conditions, Installation, Pairing, Sheets, Stage, pair};
use pairwright::quantity::{ThermodynamicTemperature, UnitSystem, text};
use pairwright::table::{self, Severity, Table};
use pairwright::wording::{Answer, PlainNumbers, Refusal, Words, look_up};
use std::io::Write;
use std::process::ExitCode;

const USAGE: &str =
    "usage: pairing --table FILE (--carrier ID --head ID [--states | --sheets] | --all | --check) [--coldest-start T]

  --table FILE    the spec table (JSON), `-` for standard input
  --carrier ID    the machine; or one that is not in the table, as a JSON object
  --head ID       the attachment
  --states        the circuit in every state of load, oil, functions, engine and filter, as it is and after changes,
                  flow and pressure at every node, one JSON object a line
  --sheets        the sheets that a fitter works from, in words, and what is sent to a customer
  --all           every machine with every attachment, one JSON object a line
  --check         the table's problems as JSON, one a line; exit 1 when there are any
  --coldest-start T  the coldest day on which the machine is to be started, as a temperature: '-15 °C'
  --help          this text";

const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

/// What is shown of one pairing.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Show {
    Answer,
    States,
    Sheets,
}

/// What is asked for.
enum Wish {
    One { carrier: String, head: String, show: Show },
    All,
    Check,
}

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    if arguments.iter().any(|argument| argument == "--help" || argument == "-h") {
        println!("{USAGE}");
        return ExitCode::SUCCESS;
    }
    let (file, wish, start) = match parse(&arguments) {
        Ok(asked) => asked,
        Err(message) => {
            eprintln!("{message}\n\n{USAGE}");
            return ExitCode::from(2);
        }
    };
    let text = match read(&file) {
        Ok(text) => text,
        Err(error) => {
            eprintln!("cannot read the table {file}: {error}\n\n{USAGE}");
            return ExitCode::from(2);
        }
    };
    answer(&text, &wish, start)
}

fn parse(arguments: &[String]) -> Result<(String, Wish, Option<ThermodynamicTemperature>), String> {
    let (mut file, mut carrier, mut head, mut start) = (None, None, None, None);
    let (mut all, mut check, mut show) = (false, false, Show::Answer);
    let mut rest = arguments.iter();
    while let Some(argument) = rest.next() {
        let mut value = |place: &mut Option<String>| match rest.next() {
            Some(value) => {
                *place = Some(value.clone());
                Ok(())
            }
            None => Err(format!("{argument} wants a value after it")),
        };
        match argument.as_str() {
            "--table" => value(&mut file)?,
            "--carrier" => value(&mut carrier)?,
            "--head" => value(&mut head)?,
            "--coldest-start" => value(&mut start)?,
            "--all" => all = true,
            "--check" => check = true,
            "--states" if show == Show::Answer => show = Show::States,
            "--sheets" if show == Show::Answer => show = Show::Sheets,
            other => return Err(format!("unknown argument {other}")),
        }
    }
    let file = file.ok_or("--table FILE is missing")?;
    let start = start.map(|words: String| {
        let stated = text::read::<ThermodynamicTemperature>(&words);
        stated.map(|stated| stated.nominal).map_err(|_| format!("--coldest-start {words}: a temperature like '-15 °C'"))
    });
    let start = start.transpose()?;
    let wish = match (carrier, head, all, check) {
        (Some(carrier), Some(head), false, false) => Wish::One { carrier, head, show },
        (None, None, true, false) if show == Show::Answer => Wish::All,
        (None, None, false, true) if show == Show::Answer => Wish::Check,
        _ => return Err("ask for one thing: --carrier ID --head ID, or --all, or --check".to_owned()),
    };
    Ok((file, wish, start))
}

fn read(file: &str) -> std::io::Result<String> {
    if file == "-" { std::io::read_to_string(std::io::stdin()) } else { std::fs::read_to_string(file) }
}

fn answer(text: &str, wish: &Wish, start: Option<ThermodynamicTemperature>) -> ExitCode {
    let outcome = table::read(text);
    if matches!(wish, Wish::Check) {
        print_problems(&outcome.problems);
        if outcome.unlisted > 0 {
            eprintln!("{} more problems are not listed: mend these first", outcome.unlisted);
        }
        return if outcome.problems.is_empty() { ExitCode::SUCCESS } else { ExitCode::from(1) };
    }
    let errors = outcome.problems.iter().filter(|problem| problem.severity == Severity::Error).count();
    if errors > 0 {
        eprintln!("the table has {errors} errors; `--check` lists them; what is sound is used");
    }
    let Some(table) = outcome.table else {
        return ExitCode::from(1);
    };
    let conditions = Conditions { coldest_start: start, ..Conditions::of_table(&table) };
    match wish {
        Wish::One { carrier, head, show } => one(&table, carrier, head, *show, &conditions),
        Wish::All | Wish::Check => every(&table, &conditions),
    }
}

fn one(table: &Table, carrier: &str, head: &str, show: Show, conditions: &Conditions) -> ExitCode {
    let found = match look_up(table, carrier, head) {
        Ok(found) => found,
        Err(reasons) => return refuse(table, &reasons),
    };
    let (machine, attachment) = (&*found.carrier, found.head);
    let pairing = pair(machine, attachment, conditions);
    match show {
        Show::Answer => {
            let pairing = with_branches(machine, attachment, conditions, pairing);
            return print_line(&Answer { pairing, carrier_problems: found.carrier_problems }.to_json());
        }
        Show::Sheets => {
            let pairing = with_branches(machine, attachment, conditions, pairing);
            return print_sheets(&pairing, &Sheets::of(&pairing, machine, attachment, conditions));
        }
        Show::States => {}
    }
    let stages = [(Stage::AsItIs, Some(machine)), (Stage::AfterChanges, pairing.changed.as_deref())];
    for (stage, machine) in stages {
        let looked = machine.zip(pairing.circuit.as_ref());
        let looked = looked.and_then(|(machine, circuit)| Installation::new(machine, circuit, attachment, conditions));
        for (state, standing) in looked.iter().flat_map(Installation::states) {
            let code = print_line(&serde_json::json!(Solved { stage, state, standing }).to_string());
            if code != ExitCode::SUCCESS {
                return code;
            }
        }
    }
    ExitCode::SUCCESS
}

/// Prints the sheets as plain text: a title a section, a number a step.
fn print_sheets(pairing: &Pairing, sheets: &Sheets) -> ExitCode {
    let mut text = vec![WORDS.to_send(pairing)];
    for section in WORDS.sheets(pairing, sheets).iter().chain([&WORDS.for_customer(pairing, sheets)]) {
        text.push(format!("\n{}", section.title));
        let numbered = section.lines.iter().enumerate().map(|(index, line)| (format!("{}.", index + 1), line));
        let lines = numbered.chain(section.total.iter().map(|total| ("=".to_owned(), total)));
        for (number, line) in lines {
            let mark = if section.in_order || number == "=" { number } else { "-".to_owned() };
            let parts = [&line.title, &line.value, &line.detail].map(String::as_str);
            let parts: Vec<_> = parts.into_iter().filter(|part| !part.is_empty()).collect();
            text.push(format!("{mark} {}", parts.join(" | ")));
        }
    }
    print_line(&text.join("\n"))
}

/// Says why there is no answer, and which ids there are.
fn refuse(table: &Table, reasons: &[Refusal]) -> ExitCode {
    for reason in reasons {
        eprintln!("{}", WORDS.refusal(reason));
        let known: Vec<_> = match reason {
            Refusal::UnknownCarrier(_) => table.carriers.iter().map(|carrier| carrier.id.as_str()).collect(),
            Refusal::UnknownHead(_) => table.heads.iter().map(|head| head.id.as_str()).collect(),
            Refusal::TableUnusable { .. } | Refusal::CarrierUnusable { .. } => continue,
        };
        eprintln!("the table has: {}", known.join(", "));
    }
    ExitCode::from(2)
}

fn every(table: &Table, conditions: &Conditions) -> ExitCode {
    for carrier in &table.carriers {
        for head in &table.heads {
            let code = print_line(&pair(carrier, head, conditions).to_json());
            if code != ExitCode::SUCCESS {
                return code;
            }
        }
    }
    ExitCode::SUCCESS
}

/// Prints a line; a reader that has gone away (`| head`) ends the work quietly.
fn print_line(line: &str) -> ExitCode {
    if writeln!(std::io::stdout(), "{line}").is_ok() { ExitCode::SUCCESS } else { ExitCode::from(1) }
}

fn print_problems(problems: &[table::Problem]) {
    for problem in problems {
        let line = WORDS.problem_json(problem);
        if writeln!(std::io::stdout(), "{line}").is_err() {
            return;
        }
    }
}
