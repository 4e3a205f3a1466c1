//! Judges pairings of a spec table and prints them as JSON.
//!
//! ```text
//! pairwright check TABLE                        the table's problems, one a line
//! pairwright pair TABLE MACHINE ATTACHMENT      one pairing
//! pairwright list TABLE [MACHINE]               every attachment on a machine, best first; else every pair
//! pairwright states TABLE MACHINE ATTACHMENT    its circuit in every state
//! pairwright sheets TABLE MACHINE ATTACHMENT    the sheets to work from, as text
//! pairwright gain TABLE                         what to fill in next, so that most verdicts fall
//! pairwright convert IN OUT                     a spreadsheet as JSON, a table as a spreadsheet
//! ```
//! A table is JSON, a workbook (.xlsx, .ods), a separated text (.csv) or a folder of such.
//! It exits with 0 when all is well, 1 when the table has problems (with `check` any, else such as keep it from an
//! answer), 2 when the call is wrong.

mod convert;
mod gain;
mod input;

use clap::error::ErrorKind;
use clap::{Args, CommandFactory, Parser, Subcommand};
use explain::deciding_fact::with_branches;
use fit::installation::Solved;
use fit::{Conditions, Installation, Pairing, Stage, order, pair};
use handover::{Circumstances, Planned, plan};
use input::{InputFault, WORDS};
use quantity::ThermodynamicTemperature;
use quantity::text::{self, TextFault};
use spreadsheet::{CellProblem, Imported};
use std::io::Write;
use std::process::ExitCode;
use table::{Severity, Table};
use wording::{Answer, Refusal, look_up, look_up_machine};
use workshop::Sheets;

const EXAMPLES: &str = "\
Examples:
  pairwright check yard.xlsx
  pairwright pair yard.json quern-q56 thistlecut-r90
  pairwright list yard.csv
  pairwright list yard.csv quern-q56
  pairwright states yard.json quern-q56 thistlecut-r90
  pairwright sheets yard.ods quern-q56 thistlecut-r90
  pairwright gain yard.xlsx
  pairwright gain yard.xlsx --json --most 5
  pairwright convert yard.xlsx yard.json
  pairwright convert yard.json yard.xlsx

Exit code: 0 all is well; 1 the table has problems (with `check` and `convert` any, or open questions; else such as keep it from an
answer); 2 the call is wrong, or a file cannot be read or written.";

/// What is shown of one pairing.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Show {
    Answer,
    States,
    Sheets,
}

/// What is asked for.
enum Wish {
    One(Pair, Show),
    List(String),
    All,
    Check,
    Gain(gain::Gain),
    Convert(convert::Convert),
}

/// A machine and an attachment of the table.
#[derive(Args)]
#[group(skip)]
struct Pair {
    /// The machine; or one that is not in the table, as a JSON object
    machine: String,
    /// The attachment
    attachment: String,
}

/// Judges pairings of a spec table and prints them
#[derive(Parser)]
#[command(name = "pairwright", version, args_conflicts_with_subcommands = true, arg_required_else_help = true, after_help = EXAMPLES)]
struct Call {
    #[command(subcommand)]
    command: Option<Command>,
    #[command(flatten)]
    flags: Flags,
}

#[derive(Subcommand)]
enum Command {
    /// The table's problems as JSON, one a line; exit 1 when there are any
    Check {
        #[command(flatten)]
        table: Asked,
    },
    /// One pairing as a JSON object
    Pair {
        #[command(flatten)]
        table: Asked,
        #[command(flatten)]
        pair: Pair,
    },
    /// Every attachment on one machine, best first; without a machine every pair of the table; one JSON object a line
    List {
        #[command(flatten)]
        table: Asked,
        /// The machine
        machine: Option<String>,
    },
    /// The circuit of a pairing in every state of load, oil, functions, engine and filter, as it is and after changes: flow and pressure
    /// at every node, one JSON object a line
    States {
        #[command(flatten)]
        table: Asked,
        #[command(flatten)]
        pair: Pair,
    },
    /// The sheets that a fitter works from, in words, and what is sent to a customer
    Sheets {
        #[command(flatten)]
        table: Asked,
        #[command(flatten)]
        pair: Pair,
    },
    /// What to fill in next: the facts that hold up most verdicts, by column and by entry, ranked by how many pairings each would decide
    Gain {
        #[command(flatten)]
        table: Asked,
        #[command(flatten)]
        gain: gain::Gain,
    },
    /// A spreadsheet as a JSON table, or a table as a workbook or a folder of .csv files; what is wrong or asked goes to standard error,
    /// and then the exit code is 1
    Convert(convert::Convert),
}

/// Of which table, and under which conditions.
#[derive(Args, Default)]
struct Asked {
    /// The spec table: .json, .xlsx, .ods, .csv or a folder of .csv files; `-` for standard input
    #[arg(value_name = "TABLE")]
    file: String,
    /// The coldest day on which the machine is to be started, as a temperature: '-15 °C'
    #[arg(long, value_name = "T", value_parser = temperature, allow_hyphen_values = true)]
    coldest_start: Option<ThermodynamicTemperature>,
    /// Answers to what was asked about a spreadsheet of this layout, a JSON file
    #[arg(long, value_name = "FILE")]
    answers: Option<String>,
}

/// What the first versions took, by flags.
#[derive(Args)]
#[allow(clippy::struct_excessive_bools, reason = "each is a flag")]
struct Flags {
    #[arg(long, value_name = "TABLE", hide = true)]
    table: Option<String>,
    #[arg(long, value_name = "ID", hide = true, requires = "head", allow_hyphen_values = true)]
    carrier: Option<String>,
    #[arg(long, value_name = "ID", hide = true, requires = "carrier")]
    head: Option<String>,
    #[arg(long, hide = true, requires = "carrier", conflicts_with = "sheets")]
    states: bool,
    #[arg(long, hide = true, requires = "carrier")]
    sheets: bool,
    #[arg(long, hide = true, conflicts_with_all = ["carrier", "check"])]
    all: bool,
    #[arg(long, hide = true, conflicts_with = "carrier")]
    check: bool,
    #[arg(long, value_name = "T", hide = true, value_parser = temperature, allow_hyphen_values = true)]
    coldest_start: Option<ThermodynamicTemperature>,
}

impl Call {
    fn asked(self) -> Result<(Asked, Wish), clap::Error> {
        Ok(match self.command {
            Some(Command::Check { table }) => (table, Wish::Check),
            Some(Command::Pair { table, pair }) => (table, Wish::One(pair, Show::Answer)),
            Some(Command::List { table, machine }) => (table, machine.map_or(Wish::All, Wish::List)),
            Some(Command::States { table, pair }) => (table, Wish::One(pair, Show::States)),
            Some(Command::Sheets { table, pair }) => (table, Wish::One(pair, Show::Sheets)),
            Some(Command::Gain { table, gain }) => (table, Wish::Gain(gain)),
            Some(Command::Convert(convert)) => (Asked::default(), Wish::Convert(convert)),
            None => self.flags.asked()?,
        })
    }
}

impl Flags {
    fn asked(self) -> Result<(Asked, Wish), clap::Error> {
        let lacks = |what| Call::command().error(ErrorKind::MissingRequiredArgument, what);
        let show = match (self.states, self.sheets) {
            (true, _) => Show::States,
            (_, true) => Show::Sheets,
            _ => Show::Answer,
        };
        let wish = match (self.carrier.zip(self.head), self.all, self.check) {
            (Some((machine, attachment)), ..) => Wish::One(Pair { machine, attachment }, show),
            (None, true, _) => Wish::All,
            (None, _, true) => Wish::Check,
            (None, false, false) => {
                return Err(lacks("ask for one thing: --carrier ID --head ID, or --all, or --check"));
            }
        };
        let file = self.table.ok_or_else(|| lacks("--table FILE is missing"))?;
        Ok((Asked { file, coldest_start: self.coldest_start, answers: None }, wish))
    }
}

/// Why an argument is no temperature.
#[derive(Debug)]
struct NotATemperature(TextFault);

impl std::fmt::Display for NotATemperature {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("a temperature like '-15 °C' is wanted")
    }
}

impl std::error::Error for NotATemperature {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        Some(&self.0)
    }
}

fn temperature(words: &str) -> Result<ThermodynamicTemperature, NotATemperature> {
    text::read::<ThermodynamicTemperature>(words).map(|stated| stated.nominal).map_err(NotATemperature)
}

fn main() -> ExitCode {
    let (asked, wish) = Call::parse().asked().unwrap_or_else(|wrong| wrong.exit());
    if let Wish::Convert(convert) = &wish {
        return convert::run(convert).unwrap_or_else(|fault| refuse_file(&convert.from, &fault));
    }
    let answers = match input::answers(asked.answers.as_deref()) {
        Ok(answers) => answers,
        Err(message) => Call::command().error(ErrorKind::Io, message).exit(),
    };
    match input::read(&asked.file, &answers) {
        Ok(imported) => answer(imported, &wish, asked.coldest_start),
        Err(fault) => refuse_file(&asked.file, &fault),
    }
}

/// Says in a line why a file cannot be read.
fn refuse_file(file: &str, fault: &InputFault) -> ExitCode {
    match fault {
        InputFault::Io(error) => {
            let message = format!("cannot read the table {file}: {error}");
            Call::command().error(ErrorKind::Io, message).exit()
        }
        InputFault::File(part, fault) => {
            eprintln!("{}: {}", part.as_deref().unwrap_or(file), WORDS.file_fault(fault));
            ExitCode::from(2)
        }
    }
}

fn answer(imported: Imported, wish: &Wish, start: Option<ThermodynamicTemperature>) -> ExitCode {
    let Imported { outcome, problems, questions, .. } = imported;
    for question in &questions {
        eprintln!("question: {}", WORDS.spreadsheet_question(question));
    }
    if matches!(wish, Wish::Check) {
        print_problems(&problems);
        if outcome.unlisted > 0 {
            eprintln!("{} more problems are not listed: fix these first", outcome.unlisted);
        }
        return ExitCode::from(u8::from(!problems.is_empty() || !questions.is_empty()));
    }
    let errors = problems.iter().filter(|problem| problem.severity == Severity::Error).count();
    if errors > 0 {
        eprintln!("the table has {errors} errors; `check` lists them; what is sound is used");
    }
    let Some(table) = outcome.table else {
        return ExitCode::from(1);
    };
    let conditions = Conditions { coldest_start: start, ..Conditions::of_table(&table) };
    match wish {
        Wish::One(pair, show) => one(&table, pair, *show, &conditions),
        Wish::List(machine) => list(&table, machine, &conditions),
        Wish::Gain(asked) => print_line(&gain::told(&table, asked, &conditions)),
        Wish::All | Wish::Check | Wish::Convert(_) => every(&table, &conditions),
    }
}

fn one(table: &Table, asked: &Pair, show: Show, conditions: &Conditions) -> ExitCode {
    let found = match look_up(table, &asked.machine, &asked.attachment) {
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
            let planned = plan(&pairing, machine, attachment, conditions, &Circumstances::default());
            return print_sheets(&pairing, &Sheets::of(&pairing, machine, attachment, conditions), &planned);
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
fn print_sheets(pairing: &Pairing, sheets: &Sheets, planned: &[Planned]) -> ExitCode {
    let mut text = vec![WORDS.to_send(pairing)];
    for section in WORDS.sheets(pairing, sheets, planned).iter().chain([&WORDS.for_customer(pairing, sheets)]) {
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

/// Every attachment on one machine, in the order in which a list shows them.
fn list(table: &Table, machine: &str, conditions: &Conditions) -> ExitCode {
    let carrier = match look_up_machine(table, machine) {
        Ok((carrier, _)) => carrier,
        Err(reason) => return refuse(table, &[reason]),
    };
    let mut pairings: Vec<_> = table.heads.iter().map(|head| pair(&carrier, head, conditions)).collect();
    pairings.sort_by(order);
    let codes = pairings.iter().map(|pairing| print_line(&pairing.to_json()));
    codes.into_iter().find(|code| *code != ExitCode::SUCCESS).unwrap_or(ExitCode::SUCCESS)
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

fn print_problems(problems: &[CellProblem]) {
    for problem in problems {
        let line = WORDS.cell_problem_json(problem);
        if writeln!(std::io::stdout(), "{line}").is_err() {
            return;
        }
    }
}
