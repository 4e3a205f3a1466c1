//! What a file of a dealer was read as, as it stands on the screen on which he puts it right before it is used.

use super::{Words, capital, counted};
use quantity::{Named, Unit};
use serde::{Deserialize, Serialize};
use spreadsheet::{
    Answers, CellProblem, Column, ColumnAnswer, DayOrder, Imported, Mark, Question, Role, SheetAnswer, SheetTaken,
    Target, letters,
};
use std::collections::BTreeMap;
use table::Severity;
use table::row::Form;

/// The most problems that are told.
const MOST_PROBLEMS: usize = 100;

/// What a file was read as.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FileReading {
    /// What is in it, and what is open, in a sentence.
    pub says: String,
    /// Whether it holds a machine or an attachment that can be used.
    pub is_of_use: bool,
    /// What is asked.
    pub questions: Vec<QuestionText>,
    /// What was answered.
    pub answered: Vec<AnsweredText>,
    /// The sheets with their columns.
    pub sheets: Vec<SheetText>,
    /// What a column of each list may be, by the list's name.
    pub fields: BTreeMap<String, Vec<FieldText>>,
    /// What is wrong, the first of it.
    pub problems: Vec<CellProblemText>,
    /// How many of each kind.
    pub problem_count: String,
    /// How many more there are.
    pub more_problems: usize,
}

/// A question with what may be answered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct QuestionText {
    /// The question.
    pub says: String,
    /// The answers.
    pub choices: Vec<ChoiceText>,
}

/// Something that may be answered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ChoiceText {
    /// In words.
    pub says: String,
    /// What is answered by it.
    pub answers: Answers,
}

/// Something that was answered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AnsweredText {
    /// In words.
    pub says: String,
    /// The sheet, as it stands in the answers.
    pub sheet: String,
    /// The column; none where it was the sheet that was asked about.
    pub column: Option<usize>,
}

/// A sheet and what it is taken for.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SheetText {
    /// Its name.
    pub name: String,
    /// Its name as it stands in answers: a file's only sheet goes by none, since its name changes with the day.
    pub answered_as: String,
    /// What it is taken for and how much of it is used.
    pub says: String,
    /// The name of the list that it holds; empty where nothing of it is used.
    pub role: String,
    /// What it may be taken for.
    pub roles: Vec<FieldText>,
    /// Its columns.
    pub columns: Vec<ColumnText>,
}

/// A column and what it is taken for.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ColumnText {
    /// Its number, from 1.
    pub number: usize,
    /// Its letters.
    pub letters: String,
    /// What stands above it.
    pub header: String,
    /// What it is taken for.
    pub says: String,
    /// What that is.
    pub what: String,
    /// Up to three of its values.
    pub samples: Vec<String>,
    /// Whether it is taken for something, and nothing about it is asked or wrong.
    pub is_plain: bool,
    /// The dotted name of the field; empty where it is not used.
    pub field: String,
    /// Whether it names the entry to which a row belongs.
    pub is_reference: bool,
    /// The unit of its figures without one.
    pub unit: Option<Unit>,
    /// The units that it may be in; none where it holds no figures.
    pub units: Vec<UnitText>,
}

/// Something that may be chosen, by its name.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FieldText {
    /// Its name.
    pub name: String,
    /// In words.
    pub says: String,
}

/// A unit that may be chosen.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct UnitText {
    /// The unit.
    pub unit: Unit,
    /// As people write it.
    pub says: String,
}

/// Something wrong, at its cell.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CellProblemText {
    /// Error or warning.
    pub severity: String,
    /// Entry, sheet, cell and header.
    pub place: String,
    /// What stood there.
    pub found: String,
    /// What is expected.
    pub expected: String,
    /// What helps, and what is left out until then.
    pub remedy: String,
}

/// A field's dotted name in words: `circuits.2.flow` is “circuits 2, flow”.
pub(crate) fn field_words(name: &str) -> String {
    let mut words = String::new();
    for part in name.split('.') {
        let is_number = part.parse::<usize>().is_ok();
        words.push_str(if words.is_empty() {
            ""
        } else if is_number {
            " "
        } else {
            ", "
        });
        words.push_str(&part.replace('_', " "));
    }
    words
}

fn role_words(role: Role) -> &'static str {
    match role {
        Role::Machines => "machines",
        Role::Attachments => "attachments",
        Role::Parts => "parts",
        Role::Assumptions => "ranges of practice",
        Role::About => "what the table says of itself",
    }
}

/// How many errors and warnings there are, those alone that there are.
fn counts(problems: &[CellProblem]) -> String {
    let errors = problems.iter().filter(|problem| problem.severity == Severity::Error).count();
    let kinds = [(errors, "error", "errors"), (problems.len() - errors, "warning", "warnings")];
    let told = kinds.into_iter().filter(|(count, ..)| *count > 0).map(|(count, one, many)| counted(count, one, many));
    told.collect::<Vec<_>>().join(", ")
}

/// A role's name as it stands in answers.
fn role_name(role: Role) -> &'static str {
    role.sheet()
}

/// Everything that a column of a list may be: what holds a value of its own.
fn fields_of(role: Role) -> Vec<FieldText> {
    let holds_a_value = |form: &Form| !matches!(form, Form::Object(_) | Form::Picture);
    let fields = role.fields().0.iter().filter(|field| holds_a_value(&field.form));
    fields.map(|field| FieldText { name: field.name.clone(), says: field_words(&field.name) }).collect()
}

/// Which list a sheet holds, as an answer.
fn of_sheet(sheet: &str, role: Option<Role>) -> Answers {
    Answers { sheets: vec![SheetAnswer { sheet: sheet.to_owned(), role }], columns: Vec::new() }
}

/// What a column is, as an answer.
fn of_column(sheet: &str, column: usize, set: impl FnOnce(&mut ColumnAnswer)) -> Answers {
    let mut answers = Answers::default();
    set(answers.about(sheet, column));
    answers
}

/// The sheets of a file, to name them in answers.
struct Sheets<'i>(&'i [SheetTaken]);

impl Sheets<'_> {
    fn answered_as<'n>(&self, name: &'n str) -> &'n str {
        if self.0.len() == 1 { "" } else { name }
    }

    fn column(&self, sheet: &str, number: usize) -> Option<&Column> {
        let named = self.0.iter().find(|taken| taken.name == sheet || sheet.is_empty())?;
        named.columns.iter().find(|column| column.number == number)
    }
}

impl Words<'_> {
    /// What a file was read as, after these answers.
    pub fn file_reading(&self, imported: &Imported, answers: &Answers) -> FileReading {
        let sheets = Sheets(&imported.sheets);
        let questions: Vec<_> = imported
            .questions
            .iter()
            .map(|question| QuestionText {
                says: capital(&self.spreadsheet_question(question)),
                choices: self.choices(question, &sheets),
            })
            .collect();
        let of_role = |role: Role| imported.sheets.iter().any(|sheet| sheet.role == Some(role));
        let fields = Role::ALL.into_iter().filter(|role| *role != Role::About && of_role(*role));
        let table = imported.outcome.table.as_ref();
        FileReading {
            says: self.file_holds(imported),
            is_of_use: table.is_some_and(|table| !table.carriers.is_empty() || !table.heads.is_empty()),
            questions,
            answered: self.answered(answers, &sheets),
            sheets: imported.sheets.iter().map(|sheet| self.sheet_text(sheet, imported, &sheets)).collect(),
            fields: fields.map(|role| (role_name(role).to_owned(), fields_of(role))).collect(),
            problems: imported
                .problems
                .iter()
                .take(MOST_PROBLEMS)
                .map(|problem| self.cell_problem_text(problem))
                .collect(),
            problem_count: counts(&imported.problems),
            more_problems: imported.problems.len().saturating_sub(MOST_PROBLEMS),
        }
    }

    fn cell_problem_text(&self, problem: &CellProblem) -> CellProblemText {
        let text = self.cell_problem(problem);
        CellProblemText {
            severity: problem.severity.name().to_owned(),
            place: text.place,
            found: text.found,
            expected: text.expected,
            remedy: text.remedy,
        }
    }

    /// What is in a file, and what is open: “9 machines, 12 attachments out of 2 sheets; 3 questions, 2 problems”.
    fn file_holds(&self, imported: &Imported) -> String {
        let table = imported.outcome.table.as_ref();
        let count = |of: fn(&table::Table) -> usize| table.map_or(0, of);
        let (machines, parts) = (count(|table| table.carriers.len()), count(|table| table.parts.len()));
        let mut said = counted(machines, "machine", "machines");
        said = format!("{said}, {}", self.attachments(count(|table| table.heads.len())));
        if parts > 0 {
            said = format!("{said}, {}", counted(parts, "part", "parts"));
        }
        let used = imported.sheets.iter().filter(|sheet| sheet.role.is_some()).count();
        if used > 0 {
            said = format!("{said} out of {}", counted(used, "sheet", "sheets"));
        }
        let open: Vec<_> =
            [(imported.questions.len(), "question", "questions"), (imported.problems.len(), "problem", "problems")]
                .into_iter()
                .filter(|(count, ..)| *count > 0)
                .map(|(count, one, many)| counted(count, one, many))
                .collect();
        if open.is_empty() { format!("{said}; nothing is open.") } else { format!("{said}; {}.", open.join(", ")) }
    }

    fn choices(&self, question: &Question, sheets: &Sheets) -> Vec<ChoiceText> {
        let choice = |says: &str, answers| ChoiceText { says: capital(says), answers };
        match question {
            Question::Sheet { sheet } => {
                let sheet = sheets.answered_as(sheet);
                let roles = [Role::Machines, Role::Attachments, Role::Parts];
                let named = roles.map(|role| choice(role_words(role), of_sheet(sheet, Some(role))));
                named.into_iter().chain([choice("leave it out", of_sheet(sheet, None))]).collect()
            }
            Question::Field { place, near, .. } => {
                let of = |field: &str| {
                    let set = |answer: &mut ColumnAnswer| answer.field = Some(field.to_owned());
                    of_column(sheets.answered_as(&place.sheet), place.column.unwrap_or_default(), set)
                };
                vec![choice(&format!("yes, {}", field_words(near)), of(near)), choice("no, leave it out", of(""))]
            }
            Question::SameField { place, used, field, .. } => {
                let (sheet, number) = (sheets.answered_as(&place.sheet), place.column.unwrap_or_default());
                let of = |column, field: &str| {
                    of_column(sheet, column, |answer: &mut ColumnAnswer| answer.field = Some(field.to_owned()))
                };
                let mut this = of(*used, "");
                this.take(&of(number, field));
                vec![
                    choice(&format!("column {} counts", letters(*used)), of(number, "")),
                    choice(&format!("column {} counts", letters(number)), this),
                ]
            }
            Question::Unit { place, units, .. } => {
                let of = |unit: Unit| {
                    let set = |answer: &mut ColumnAnswer| answer.unit = Some(unit);
                    of_column(sheets.answered_as(&place.sheet), place.column.unwrap_or_default(), set)
                };
                let choice = |unit: &Unit| ChoiceText { says: self.spoken_unit(*unit).to_owned(), answers: of(*unit) };
                units.iter().map(choice).collect()
            }
            Question::OtherUnit { place, written, meant, .. } => {
                let of = |unit: Unit| {
                    let set = |answer: &mut ColumnAnswer| answer.meant = Some(unit);
                    of_column(sheets.answered_as(&place.sheet), place.column.unwrap_or_default(), set)
                };
                vec![
                    ChoiceText { says: format!("{} is meant", self.spoken_unit(*meant)), answers: of(*meant) },
                    ChoiceText { says: format!("{} is right", self.spoken_unit(*written)), answers: of(*written) },
                ]
            }
            Question::Marks { place, found, .. } => {
                let of = |decimal: Mark| {
                    let set = |answer: &mut ColumnAnswer| answer.decimal = Some(decimal);
                    of_column(sheets.answered_as(&place.sheet), place.column.unwrap_or_default(), set)
                };
                let is_comma = found.contains(',');
                let (sign, decimals, thousands) =
                    if is_comma { (',', Mark::Comma, Mark::Point) } else { ('.', Mark::Point, Mark::Comma) };
                vec![
                    choice(&format!("thousands: {}", found.replace(sign, "")), of(thousands)),
                    choice(&format!("decimals: {}", found.replace(sign, ".")), of(decimals)),
                ]
            }
            Question::Days { place, .. } => {
                let of = |days: DayOrder| {
                    let set = |answer: &mut ColumnAnswer| answer.days = Some(days);
                    of_column(sheets.answered_as(&place.sheet), place.column.unwrap_or_default(), set)
                };
                vec![
                    choice("the day comes first", of(DayOrder::DayFirst)),
                    choice("the month comes first", of(DayOrder::MonthFirst)),
                ]
            }
        }
    }

    fn answered(&self, answers: &Answers, sheets: &Sheets) -> Vec<AnsweredText> {
        let of_sheets = answers.sheets.iter().map(|answer| {
            let taken = answer.role.map_or("left out".to_owned(), |role| format!("taken for {}", role_words(role)));
            let name = if answer.sheet.is_empty() { "the sheet".to_owned() } else { format!("“{}”", answer.sheet) };
            AnsweredText { says: capital(&format!("{name}: {taken}")), sheet: answer.sheet.clone(), column: None }
        });
        let of_columns = answers.columns.iter().filter_map(|answer| {
            let mut said: Vec<String> = Vec::new();
            match answer.field.as_deref() {
                Some("") => said.push("left out".to_owned()),
                Some(field) => said.push(format!("taken for {}", field_words(field))),
                None => {}
            }
            said.extend(answer.unit.map(|unit| format!("in {}", self.spoken_unit(unit))));
            said.extend(answer.meant.map(|unit| format!("{} is meant", self.spoken_unit(unit))));
            said.extend(answer.decimal.map(|mark| match mark {
                Mark::Point => "a point before decimals".to_owned(),
                Mark::Comma => "a comma before decimals".to_owned(),
            }));
            said.extend(answer.days.map(|days| match days {
                DayOrder::DayFirst => "the day comes first".to_owned(),
                DayOrder::MonthFirst => "the month comes first".to_owned(),
            }));
            let column = sheets.column(&answer.sheet, answer.column);
            let header = column.map(|column| format!(" ({})", column.header)).unwrap_or_default();
            let sheet = if answer.sheet.is_empty() { String::new() } else { format!("“{}” ", answer.sheet) };
            (!said.is_empty()).then(|| AnsweredText {
                says: capital(&format!("{sheet}column {}{header}: {}", letters(answer.column), said.join(", "))),
                sheet: answer.sheet.clone(),
                column: Some(answer.column),
            })
        });
        of_sheets.chain(of_columns).collect()
    }

    fn sheet_text(&self, sheet: &SheetTaken, imported: &Imported, sheets: &Sheets) -> SheetText {
        let columns: Vec<_> = sheet.columns.iter().map(|column| self.column_text(sheet, column, imported)).collect();
        let unused = columns.iter().filter(|column| column.field.is_empty() && !column.is_reference).count();
        let says = match sheet.role {
            None => "left out".to_owned(),
            Some(Role::About) => format!("taken for {}", role_words(Role::About)),
            Some(role) => {
                let within = sheet.within.map(|within| format!(", their {}", field_words(within))).unwrap_or_default();
                let used = counted(columns.len() - unused, "column is", "columns are");
                let not = if unused > 0 { format!(", {unused} not") } else { String::new() };
                format!("taken for {}{within}; {used} used{not}", role_words(role))
            }
        };
        let roles = [Role::Machines, Role::Attachments, Role::Parts, Role::Assumptions, Role::About];
        let roles = roles.map(|role| (role_name(role), role_words(role)));
        let choice = |(name, says): (&str, &str)| FieldText { name: name.to_owned(), says: says.to_owned() };
        SheetText {
            name: sheet.name.clone(),
            answered_as: sheets.answered_as(&sheet.name).to_owned(),
            says,
            role: sheet.role.map(role_name).unwrap_or_default().to_owned(),
            roles: [("", "left out")].into_iter().chain(roles).map(choice).collect(),
            columns,
        }
    }

    fn column_text(&self, sheet: &SheetTaken, column: &Column, imported: &Imported) -> ColumnText {
        let target = sheet.role.zip(column.field.as_deref()).and_then(|(role, field)| Target::named(role, field));
        let field = target.as_ref().filter(|_| column.same_as.is_none()).map(Target::name).unwrap_or_default();
        let dimension = target.as_ref().and_then(|target| match target.field.form {
            Form::Figure(dimension, _) | Form::Range(dimension, _) | Form::Window(dimension, _) => Some(dimension),
            _ => None,
        });
        let units = Unit::ALL.iter().filter(|unit| Some(unit.dimension()) == dimension);
        let units: Vec<_> =
            units.map(|unit| UnitText { unit: *unit, says: self.spoken_unit(*unit).to_owned() }).collect();
        let is_here = |place: &spreadsheet::Place| place.sheet == sheet.name && place.column == Some(column.number);
        let is_asked = imported.questions.iter().any(|question| question.place().is_some_and(is_here));
        let is_wrong = imported
            .problems
            .iter()
            .any(|problem| problem.severity == Severity::Error && problem.place.as_ref().is_some_and(is_here));
        let is_taken = !field.is_empty() || column.is_reference;
        let says = if column.is_reference {
            let one = sheet.role.map_or("entry", Role::one);
            format!("the {one} to which the row belongs")
        } else if field.is_empty() {
            "not used".to_owned()
        } else {
            let unit = column.unit.filter(|_| !units.is_empty()).map(|unit| format!(", in {}", self.spoken_unit(unit)));
            format!("{}{}", field_words(&field), unit.unwrap_or_default())
        };
        ColumnText {
            number: column.number,
            letters: letters(column.number),
            header: column.header.clone(),
            says,
            what: target.filter(|_| !field.is_empty()).map(|target| target.field.what.to_owned()).unwrap_or_default(),
            samples: column.samples.iter().map(|sample| table::read::shortened(sample)).collect(),
            is_plain: is_taken && !is_asked && !is_wrong,
            field,
            is_reference: column.is_reference,
            unit: column.unit,
            units,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::PlainNumbers;
    use quantity::UnitSystem;
    use spreadsheet::import;

    const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

    fn read(text: &str, answers: &Answers) -> FileReading {
        let imported = import(text.as_bytes(), "yard.csv", answers).expect("cells");
        WORDS.file_reading(&imported, answers)
    }

    const YARD: &str = "Model;Class;Weight (kg);Aux flow;Colour;Last checked\nOB 36;mini excavator;\"3,640\";62;red;3/4/2026\nOB 40;mini excavator;\"4,100\";70;blue;5/6/2026\n";

    #[test]
    fn a_file_says_what_is_in_it_and_what_is_open() {
        let reading = read(YARD, &Answers::default());
        assert_eq!(reading.says, "2 machines, 0 attachments out of 1 sheet; 3 questions.");
        assert_eq!(reading.sheets[0].says, "taken for machines; 5 columns are used, 1 not");
        let told: Vec<_> =
            reading.sheets[0].columns.iter().map(|column| (column.says.as_str(), column.is_plain)).collect();
        assert_eq!(
            told,
            [
                ("model", true),
                ("class", true),
                ("operating mass, in kg", false),
                ("circuits, flow", false),
                ("not used", false),
                ("checked", false),
            ]
        );
    }

    #[test]
    fn each_question_ends_with_any_of_its_choices() {
        for choice in 0..2 {
            let mut answers = Answers::default();
            // Tonnes read as kilograms are asked about once more.
            for _ in 0..4 {
                let Some(question) = read(YARD, &answers).questions.into_iter().next() else { break };
                answers.take(&question.choices[choice].answers);
                assert!(!read(YARD, &answers).questions.contains(&question), "{question:?}");
            }
            let reading = read(YARD, &answers);
            assert!(reading.questions.is_empty(), "{:?}", reading.questions);
            assert_eq!(reading.answered.len(), 3);
        }
    }

    #[test]
    fn what_was_answered_is_told_and_read() {
        let mut answers = Answers::default();
        for question in read(YARD, &answers).questions {
            answers.take(&question.choices[0].answers);
        }
        let reading = read(YARD, &answers);
        let told: Vec<_> = reading.answered.iter().map(|answer| answer.says.as_str()).collect();
        assert_eq!(
            told,
            [
                "Column C (Weight (kg)): a point before decimals",
                "Column D (Aux flow): in L/min",
                "Column F (Last checked): the day comes first",
            ]
        );
        assert_eq!(reading.says, "2 machines, 0 attachments out of 1 sheet; nothing is open.");
    }

    #[test]
    fn which_of_two_columns_counts_can_be_turned_round() {
        let text = "Model;Class;Weight;Operating weight\nOB 36;mini excavator;3640 kg;3700 kg\n";
        let first = read(text, &Answers::default());
        let masses = |choice: usize| {
            let answers = first.questions[0].choices[choice].answers.clone();
            let imported = import(text.as_bytes(), "yard.csv", &answers).expect("cells");
            assert!(imported.questions.is_empty(), "{:?}", imported.questions);
            let table = imported.outcome.table.expect("a table");
            serde_json::to_value(&table.carriers[0]).expect("JSON")["operating_mass"].clone()
        };
        assert_eq!([masses(0), masses(1)], ["3640 kg", "3700 kg"]);
    }

    #[test]
    fn a_dotted_name_is_told_in_words() {
        assert_eq!(field_words("circuits.2.relief_range"), "circuits 2, relief range");
        assert!(fields_of(Role::Machines).iter().any(|field| field.says == "engine, power"));
    }
}
