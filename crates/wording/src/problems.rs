//! What is wrong with a table, in words: what was found, what is expected, how to mend it.

use super::{Words, counted};
use quantity::{Dimension, Named, Unit, UnitSystem, text::TextFault};
use table::{Contradiction, FORMAT, Fault, FormFault, Problem, Severity, VERSION};

/// A problem in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ProblemText {
    /// Where: line, column and the path to the value.
    pub place: String,
    /// What was found.
    pub found: String,
    /// What is expected.
    pub expected: String,
    /// How to mend it.
    pub remedy: String,
}

impl Words<'_> {
    /// A problem of a table.
    pub fn problem(&self, problem: &Problem) -> ProblemText {
        let path = if problem.pointer.is_empty() { "the whole file" } else { &problem.pointer };
        let entry = problem.entry.as_ref().map(|name| format!("{name}, ")).unwrap_or_default();
        let place = format!("{entry}line {}, column {}: {path}", problem.line, problem.column);
        let (expected, mut remedy) = match &problem.fault {
            Fault::NotJson(words) => not_json(words, &problem.found),
            fault => self.fault(fault),
        };
        if let Some(line) = problem.left_open {
            remedy = format!("the bracket opened on line {line} seems not to be closed; else {remedy}");
        }
        ProblemText { place, found: problem.found.clone(), expected, remedy }
    }

    /// A problem on one line, for a console.
    pub fn problem_line(&self, problem: &Problem) -> String {
        let ProblemText { place, found, expected, remedy } = self.problem(problem);
        let found = if found.is_empty() { String::new() } else { format!("found {found}; ") };
        format!("{}: {place}: {found}expected {expected}; to fix it: {remedy}", problem.severity.name())
            .replace(['\n', '\r'], " ")
    }

    /// How many problems of each kind.
    pub fn problem_count(&self, problems: &[Problem]) -> String {
        let errors = problems.iter().filter(|problem| problem.severity == Severity::Error).count();
        let warnings = problems.len() - errors;
        match (errors, warnings) {
            (0, 0) => "no problems".to_owned(),
            (errors, 0) => counted(errors, "error", "errors"),
            (0, warnings) => counted(warnings, "warning", "warnings"),
            (errors, warnings) => {
                format!("{}, {}", counted(errors, "error", "errors"), counted(warnings, "warning", "warnings"))
            }
        }
    }

    fn fault(&self, fault: &Fault) -> (String, String) {
        let said = |expected: &str, remedy: &str| (expected.to_owned(), remedy.to_owned());
        match fault {
            Fault::TooLarge { bytes, most } => (
                format!("no more than {} MB", most / (1024 * 1024)),
                format!("the file has {} MB: split it into several tables", bytes.div_ceil(1024 * 1024)),
            ),
            Fault::NotJson(words) => not_json(words, ""),
            Fault::WrongType { expected } => ((*expected).to_owned(), format!("write {expected} here")),
            Fault::NotATable => (
                format!("\"format\": \"{FORMAT}\""),
                "this is no spec table: choose another file, or begin it with its format and version".to_owned(),
            ),
            Fault::NewerVersion { found } => (
                format!("version {VERSION}"),
                format!(
                    "the table is of version {found}, newer than this app: reload the app to get its newest version"
                ),
            ),
            Fault::MissingField { field } => (format!("a field \"{field}\""), format!("add \"{field}\"")),
            Fault::MisspeltField { field } => (format!("\"{field}\""), format!("write \"{field}\"")),
            Fault::MisplacedField => said(
                "fields that belong here",
                "the format knows this field in another place: look whether a bracket before it is not closed; it is ignored here",
            ),
            Fault::UnknownField { near } => match near {
                Some(near) => (format!("\"{near}\""), format!("did you mean \"{near}\"? The field is ignored")),
                None => said("a field that the format knows", "the field is ignored: remove it or look up its name"),
            },
            Fault::DuplicateKey => {
                said("each key once in an object", "remove one of the two: until then the entry is left out")
            }
            Fault::DuplicateId => said("an id that is used once", "the second entry is set aside: give it another id"),
            Fault::Form(fault) => form_fault(fault),
            Fault::NotALink => said("a web address", "begin it with https:// and leave no spaces in it"),
            Fault::NotAPicture => said(
                "a picture within the file",
                "write it as data:image/png;base64, and its bytes, 150 000 characters at the most",
            ),
            Fault::BadText { most } => (
                format!("a text of 1 to {most} characters on one line"),
                "write something, shorten it, or remove line breaks and control characters".to_owned(),
            ),
            Fault::UnknownName { what, known, near } => (
                format!("a {what}: {}", known.join(", ")),
                near.map_or_else(
                    || "use one of the names in the list".to_owned(),
                    |near| format!("did you mean \"{near}\"?"),
                ),
            ),
            Fault::Quantity { expected, fault } => self.text_fault(*expected, fault),
            Fault::Impossible { least, greatest, unit } => (
                self.between(*least, *greatest, *unit),
                "no such figure is possible: check decimal point and unit".to_owned(),
            ),
            Fault::Improbable { least, greatest, unit } => (
                format!("usually {}", self.between(*least, *greatest, *unit)),
                "check decimal point and unit; if it is right, leave it".to_owned(),
            ),
            Fault::OtherUnit { written: unit, meant, least, greatest, unit: of } => {
                let [unit, meant] = [*unit, *meant].map(written);
                (
                    format!("usually {}", self.between(*least, *greatest, *of)),
                    format!("it is written in {unit}: if {meant} was meant, write {meant}; if it is right, leave it"),
                )
            }
            Fault::LimitsNotRising => {
                said("least ≤ rated ≤ greatest", "check which figure is which, and the units of all three")
            }
            Fault::UnknownReference { what, known } => (
                match known.as_slice() {
                    [] => format!("the id of a {what} of this entry, which has none"),
                    known => format!("the id of a {what} of this entry: {}", known.join(", ")),
                },
                format!("add the {what}, or write the id as it stands there"),
            ),
            Fault::Contradiction(contradiction) => contradicts(*contradiction),
        }
    }

    fn between(&self, least: f64, greatest: f64, unit: Unit) -> String {
        let shown = |value: f64| {
            let decimals = if value.fract() == 0.0 { 0 } else { 4 };
            let text = self.numbers.decimal(value, decimals);
            if decimals > 0 { text.trim_end_matches('0').to_owned() } else { text }
        };
        format!("{} to {} {}", shown(least), shown(greatest), self.unit(unit)).trim_end().to_owned()
    }

    /// What is wrong with the text of a quantity: what is expected, how to mend it.
    pub fn text_fault(&self, wanted: Dimension, fault: &TextFault) -> (String, String) {
        let example = example(wanted, self.units);
        let expected = match fault {
            TextFault::RangeReversed | TextFault::RangeWanted | TextFault::PlainRangeWanted => {
                let unit = Unit::shown(wanted, self.units);
                format!("a range of {} like \"10..20 {}\"", wanted.name(), unit.name())
            }
            _ => format!("a {} like \"{example}\"", wanted.name()),
        };
        let remedy = match fault {
            TextFault::Empty => {
                format!("write a figure with its unit, for example \"{example}\", or leave the field out")
            }
            TextFault::TooLong => "shorten it: a figure, a unit, a tolerance, a source".to_owned(),
            TextFault::Comma => "write a point for decimals and nothing between thousands: 1240.5".to_owned(),
            TextFault::NoNumber => {
                "begin with a figure; for “about” write how far it may be off, as in 420 kg ±10 %".to_owned()
            }
            TextFault::BadNumber { found } => {
                format!("\"{found}\" is no number: write digits, a point, or a fraction like 2 1/2")
            }
            TextFault::NoUnit => format!("add the unit: {}", units(wanted)),
            TextFault::UnknownUnit { found, near: Some(near) } => {
                format!("there is no unit \"{found}\": did you mean {}?", near.name())
            }
            TextFault::UnknownUnit { found, near: None } => {
                format!("there is no unit \"{found}\": use {}", units(wanted))
            }
            TextFault::WrongDimension { unit } => format!(
                "{} measures {}: use {}, or move the figure to the field it belongs to",
                written(*unit),
                unit.dimension().name(),
                units(wanted)
            ),
            TextFault::TwoUnits => "write one unit for both ends of the range".to_owned(),
            TextFault::BadTolerance { found } => {
                format!("\"{found}\" is no tolerance: write ±5 %, -15/+8 %, or ± with the same unit, below 100 %")
            }
            TextFault::UnknownSource { found } => {
                format!("\"{found}\" is no source: write (published), (plate) or (measured)")
            }
            TextFault::Trailing { found } => format!("\"{found}\" is left over: remove it"),
            TextFault::RangeReversed => "write the smaller figure first".to_owned(),
            TextFault::RangeWanted => {
                format!("write both ends, with two points between: {}", self.either("180..260 bar", "2600..3800 psi"))
            }
            TextFault::PlainFigureWanted => "write the figure and its unit only, as the instrument shows it".to_owned(),
            TextFault::PlainRangeWanted => "write both ends and the unit only, without tolerance or source".to_owned(),
            TextFault::RangeWithTolerance => "write a range or a tolerance, not both".to_owned(),
        };
        (expected, remedy)
    }
}

/// The units of a dimension as people would write them.
fn units(dimension: Dimension) -> String {
    let names: Vec<_> = Unit::ALL.iter().copied().filter(|unit| unit.dimension() == dimension).map(written).collect();
    names.join(", ")
}

/// How a person writes a unit: a spoken form where the code has brackets, which few know by heart.
fn written(unit: Unit) -> &'static str {
    let code = unit.name();
    if code.contains(['[', '{']) { unit.spoken().first().unwrap_or(&code) } else { code }
}

/// What is expected of a text that is no JSON, and how to mend what people most often do to one.
fn not_json(words: &str, found: &str) -> (String, String) {
    let begins = |signs: &[&str]| signs.iter().any(|sign| found.starts_with(sign));
    let remedy = if words.starts_with("control character") {
        "a quote is opened on this line and not closed"
    } else if begins(&["<"]) {
        "this is a web page, not a table: check the address, or choose another file"
    } else if begins(&["“", "”", "„", "‘", "’"]) {
        "write straight quotes: \" instead of “ and ”"
    } else if begins(&["//", "/*", "#"]) {
        "JSON has no comments: remove it"
    } else if begins(&["]", "}"]) && !words.starts_with("expected `") {
        "there is a comma too many just before: remove it"
    } else if words.starts_with("EOF") && found.is_empty() && words.contains("a value") {
        "the file ends here: it is empty or cut off"
    } else if words.starts_with("EOF") {
        "the file ends before all brackets are closed"
    } else if words.starts_with("key must be") && begins(&["0", "1", "2", "3", "4", "5", "6", "7", "8", "9"]) {
        "decimals are written with a point, and figures with their unit in quotes: \"2.5 t\""
    } else if words.starts_with("key must be") {
        "a name in straight quotes must stand here, with a comma before it"
    } else if words.starts_with("expected value") || words.starts_with("expected ident") {
        "write a text in quotes, true or false, a list or an object"
    } else {
        return (
            "JSON (RFC 8259)".to_owned(),
            format!("{words}: look for a missing comma, quote or bracket here or just before"),
        );
    };
    ("JSON (RFC 8259)".to_owned(), remedy.to_owned())
}

fn form_fault(fault: &FormFault) -> (String, String) {
    let (expected, remedy) = match fault {
        FormFault::IdLength(_) | FormFault::IdCharacter(..) => (
            "1 to 64 characters of a–z, 0–9, - _ .",
            "write it in small letters without spaces, for example \"yard-08\"",
        ),
        FormFault::DateForm(_) | FormFault::NoSuchDay(_) => {
            ("a date like 2026-11-25", "write year, month and day with hyphens")
        }
        FormFault::MoneyForm(_) | FormFault::MoneyTooMuch(_) => {
            ("an amount like 1240.50", "write digits and a point with two decimals, without a currency sign")
        }
        FormFault::Currency(_) => ("three capital letters (ISO 4217)", "write the code, for example \"EUR\""),
        FormFault::Cleanliness(_) => {
            ("a code like 20/18/15 (ISO 4406)", "write three numbers up to 28 that never rise")
        }
    };
    (expected.to_owned(), remedy.to_owned())
}

pub(super) fn example(dimension: Dimension, units: UnitSystem) -> &'static str {
    match (dimension, units) {
        (Dimension::Flow, UnitSystem::UsCustomary) => return "31 gpm",
        (Dimension::Pressure, UnitSystem::UsCustomary) => return "3000 psi",
        (Dimension::Power, UnitSystem::UsCustomary) => return "74 hp",
        (Dimension::Length, UnitSystem::UsCustomary) => return "1 3/4 in",
        (Dimension::Mass, UnitSystem::UsCustomary) => return "710 lb",
        (Dimension::Displacement, UnitSystem::UsCustomary) => return "2.75 in3/rev",
        (Dimension::Torque, UnitSystem::UsCustomary) => return "630 lbf.ft",
        (Dimension::Temperature, UnitSystem::UsCustomary) => return "120 °F",
        (Dimension::Volume, UnitSystem::UsCustomary) => return "21 gal",
        (Dimension::Velocity, UnitSystem::UsCustomary) => return "1.2 mph",
        _ => {}
    }
    match dimension {
        Dimension::Flow => "118 L/min",
        Dimension::Pressure => "205 bar",
        Dimension::Power => "55 kW",
        Dimension::RotationalSpeed => "2200 rpm",
        Dimension::Length => "45 mm",
        Dimension::Mass => "320 kg",
        Dimension::Displacement => "45 cc/rev",
        Dimension::Torque => "850 N.m",
        Dimension::Temperature => "50 °C",
        Dimension::Viscosity => "46 mm2/s",
        Dimension::Density => "870 kg/m3",
        Dimension::Volume => "80 L",
        Dimension::Voltage => "12 V",
        Dimension::Current => "8 A",
        Dimension::Time => "3 h",
        Dimension::Velocity => "2 km/h",
        Dimension::Ratio => "90 %",
        Dimension::Inertia => "8 kg.m2",
        Dimension::ThermalConductance => "250 W/K",
    }
}

fn contradicts(contradiction: Contradiction) -> (String, String) {
    let (expected, remedy) = match contradiction {
        Contradiction::PowerAboveEngine => (
            "power limits of the pumps that together stay below the engine's power",
            "check which power is meant: hydraulic power at the pumps' outlets is less than the engine's",
        ),
        Contradiction::FlowAbovePumps => (
            "a flow no greater than what the circuit's pumps give together",
            "check the circuit's flow, the pumps' flows, and which pumps feed it",
        ),
        Contradiction::FlowAboveEngine => (
            "a flow that at a third of its relief takes less than the engine's whole power",
            "check the flow's unit (L/min or gpm), its decimal point, the relief and the engine's power",
        ),
        Contradiction::ReliefOutsideRange => {
            ("a relief inside the range to which it may be set", "check both pressures")
        }
        Contradiction::HighIdleBelowWorking => {
            ("a speed without load that is above the working speed", "check which speed is which")
        }
        Contradiction::WorkingAboveGreatest => {
            ("a working pressure no greater than the greatest", "check both pressures, and their units (bar or psi)")
        }
        Contradiction::DisplacementAgainstSpeed => (
            "a rated rotor speed near flow × ratio ÷ displacement",
            "check the displacement, the ratio, and whether the speed is that of motor or rotor",
        ),
        Contradiction::WindowAgainstDisplacement => (
            "a window of flow around displacement × rotor speed ÷ ratio",
            "check the flow's unit (L/min or gpm), the displacement, the speeds, the ratio, and the decimal points of all",
        ),
        Contradiction::MassOutsideClass => (
            "a mass as machines of this class have it",
            "check decimal point, unit and class; if it is right, leave it",
        ),
        Contradiction::FlowAgainstDisplacement => (
            "a flow near displacement × working speed",
            "check the displacement, the flow, the speed, and the decimal points of all three",
        ),
        Contradiction::FlowOutsideSetting => {
            ("a flow inside the range to which it can be set", "check both, and their decimal points")
        }
        Contradiction::OilHardlyThins => {
            ("less than half of the viscosity at 40 °C", "check which viscosity is which, and their decimal points")
        }
        Contradiction::HeavyForItsMachines => (
            "less than half of what the lightest machine weighs for which it is made",
            "check the mass, the machines' masses, and their decimal points",
        ),
        Contradiction::EndNotStated => (
            "\"end\": arm or loader, as a backhoe loader has two ends",
            "say at which end it is; until then nothing that depends on it can be said",
        ),
        Contradiction::EndOutsideClass => {
            ("an end that machines of this class have", "check \"end\" and \"class\"; with one end it can be left out")
        }
        Contradiction::GenericWithMaker => {
            ("no maker for an entry that stands for a whole class", "remove the maker or \"generic\"")
        }
    };
    (expected.to_owned(), remedy.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::PlainNumbers;
    use quantity::UnitSystem;
    use table::read;

    #[test]
    fn for_a_console_a_problem_is_one_line_with_all_that_mends_it() {
        let words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };
        let text = r#"{"format": "pairwright.table", "version": 1, "title": "x", "heads": [],
            "carriers": [{"id": "m", "model": "A\nB", "class": "mini-excavator", "operating_mass": "3"}]}"#;
        let lines: Vec<String> = read(text).problems.iter().map(|problem| words.problem_line(problem)).collect();
        assert_eq!(lines.len(), 2, "{lines:?}");
        assert!(lines.iter().all(|line| !line.contains(['\n', '\r'])), "{lines:?}");
        let mass = lines.iter().find(|line| line.contains("/carriers/0/operating_mass")).expect("the mass");
        assert!(
            mass.starts_with("error: ") && mass.contains("line 2, column ") && mass.contains("found \"3\";"),
            "{mass}"
        );
        assert!(mass.contains("; expected ") && mass.contains("; to fix it: add the unit"), "{mass}");
    }
}
