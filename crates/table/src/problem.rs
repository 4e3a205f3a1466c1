//! What is wrong with a table, and where. The words for it are in `wording`.

use crate::FormFault;
use quantity::{Dimension, Named, Unit, string_enum, text::TextFault};
use std::error::Error;
use std::fmt::{self, Display, Formatter};

string_enum! {
    /// How bad it is.
    "severity" pub enum Severity {
        /// The entry (or the table) cannot be used.
        Error = "error",
        /// The entry is used; somebody should look.
        Warning = "warning",
    }
}

/// One problem of a table.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// How bad.
    pub severity: Severity,
    /// Where, as a JSON Pointer (RFC 6901).
    pub pointer: String,
    /// Line in the text, from 1.
    pub line: usize,
    /// Column in the line, from 1, counted in characters.
    pub column: usize,
    /// What stood there, shortened.
    pub found: String,
    /// The machine, attachment or part that it concerns, by the name that people know.
    pub entry: Option<String>,
    /// The line of a bracket that seems not to be closed, when the text is no JSON.
    pub left_open: Option<usize>,
    /// What is wrong.
    pub fault: Fault,
}

/// What is wrong.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// The text is larger than the greatest size that is read, in bytes.
    TooLarge {
        /// Its size.
        bytes: usize,
        /// The greatest size.
        most: usize,
    },
    /// The text is no JSON; the parser's own words.
    NotJson(String),
    /// Something of another JSON type was expected.
    WrongType {
        /// What was expected, for example `an object`.
        expected: &'static str,
    },
    /// The file does not say that it is a spec table.
    NotATable,
    /// The version is newer than this build reads.
    NewerVersion {
        /// The version found.
        found: u64,
    },
    /// A field that must be there is not.
    MissingField {
        /// Its name.
        field: &'static str,
    },
    /// A field that must be there, under a misspelt name.
    MisspeltField {
        /// Its name.
        field: &'static str,
    },
    /// A field that the format knows, but not in this place.
    MisplacedField,
    /// A field that the format does not know.
    UnknownField {
        /// The nearest known name, when one is near.
        near: Option<&'static str>,
    },
    /// A key that stands twice in one object.
    DuplicateKey,
    /// An id that stands twice in one list.
    DuplicateId,
    /// Text that is not of the form of an id, a date, money, a currency or a cleanliness.
    Form(FormFault),
    /// Text that is no web address (http or https).
    NotALink,
    /// A text that is no picture within the file.
    NotAPicture,
    /// Text that is empty, too long or holds control characters.
    BadText {
        /// The greatest length in characters.
        most: usize,
    },
    /// A name that is not in its closed list.
    UnknownName {
        /// What the list is of.
        what: &'static str,
        /// Every name in it.
        known: Vec<&'static str>,
        /// The nearest known name, when one is near.
        near: Option<&'static str>,
    },
    /// A quantity that cannot be read.
    Quantity {
        /// What the field measures.
        expected: Dimension,
        /// What is wrong with the text.
        fault: TextFault,
    },
    /// A figure outside what is physically possible.
    Impossible {
        /// The least possible figure, in `unit`.
        least: f64,
        /// The greatest possible figure.
        greatest: f64,
        /// The unit of both.
        unit: Unit,
    },
    /// A figure that is possible but improbable.
    Improbable {
        /// The least usual figure, in `unit`.
        least: f64,
        /// The greatest usual figure.
        greatest: f64,
        /// The unit of both.
        unit: Unit,
    },
    /// A figure that is improbable in its unit and usual in another one.
    OtherUnit {
        /// The unit in which it is written.
        written: Unit,
        /// The unit in which it would be usual.
        meant: Unit,
        /// The least usual figure, in `unit`.
        least: f64,
        /// The greatest usual figure.
        greatest: f64,
        /// The unit of both.
        unit: Unit,
    },
    /// The limits of a window do not rise: least ≤ rated ≤ greatest.
    LimitsNotRising,
    /// A reference to an id that is not there.
    UnknownReference {
        /// What it should be, for example `pump`.
        what: &'static str,
        /// The ids that there are, in order.
        known: Vec<String>,
    },
    /// Two figures that cannot both be true.
    Contradiction(Contradiction),
}

string_enum! {
    /// Figures of one entry that cannot both be true.
    "contradiction" pub enum Contradiction {
        /// A pump's power limit above the engine's power.
        PowerAboveEngine = "power-above-engine",
        /// A circuit's flow above what its pumps give.
        FlowAbovePumps = "flow-above-pumps",
        /// A circuit's flow that would take more than the engine's power at a third of its relief.
        FlowAboveEngine = "flow-above-engine",
        /// A relief outside the range to which it may be set.
        ReliefOutsideRange = "relief-outside-range",
        /// High idle below working speed.
        HighIdleBelowWorking = "high-idle-below-working",
        /// An attachment's working pressure above its greatest.
        WorkingAboveGreatest = "working-above-greatest",
        /// A rated rotor speed that is far from what rated flow, displacement and ratio make of it.
        DisplacementAgainstSpeed = "displacement-against-speed",
        /// A head's window of flow that is far from what displacement and speed make of it.
        WindowAgainstDisplacement = "window-against-displacement",
        /// A machine that weighs what no machine of its class weighs.
        MassOutsideClass = "mass-outside-class",
        /// A pump's flow that is far from what displacement and working speed make of it.
        FlowAgainstDisplacement = "flow-against-displacement",
        /// A circuit's flow outside the range to which it can be set.
        FlowOutsideSetting = "flow-outside-setting",
        /// An oil that is hardly thinner at 100 °C than at 40.
        OilHardlyThins = "oil-hardly-thins",
        /// A head that weighs nearly half as much as the lightest machine for which it is made.
        HeavyForItsMachines = "heavy-for-its-machines",
        /// Something of a machine with two ends that does not say at which of them it is.
        EndNotStated = "end-not-stated",
        /// An end that machines of the class do not have.
        EndOutsideClass = "end-outside-class",
        /// An entry that is marked as a class but carries a maker.
        GenericWithMaker = "generic-with-maker",
    }
}

impl Problem {
    /// The parts of a dotted name for tests and logs: severity and pointer.
    pub fn place(&self) -> String {
        format!("{} {} {}:{}", self.severity.name(), self.pointer, self.line, self.column)
    }
}

/// For logs; what a person reads is put into words elsewhere.
impl Display for Problem {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}; found {}", self.place(), self.fault, self.found)
    }
}

impl Error for Problem {
    fn source(&self) -> Option<&(dyn Error + 'static)> {
        Some(&self.fault)
    }
}

impl Display for Fault {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge { bytes, most } => write!(f, "{bytes} bytes are more than the {most} that are read"),
            Self::NotJson(words) => write!(f, "no JSON: {words}"),
            Self::WrongType { expected } => write!(f, "another type: write {expected}"),
            Self::NotATable => write!(f, "no spec table: write `format`: `{}`", crate::FORMAT),
            Self::NewerVersion { found } => {
                write!(f, "version {found} is newer than {}, the newest that is read", crate::VERSION)
            }
            Self::MissingField { field } => write!(f, "`{field}` must be there"),
            Self::MisspeltField { field } => write!(f, "misspelt: write `{field}`, which must be there"),
            Self::MisplacedField => f.write_str("the field belongs in another place"),
            Self::UnknownField { near: None } => f.write_str("the format knows no such field"),
            Self::UnknownField { near: Some(near) } => write!(f, "the format knows no such field: write `{near}`"),
            Self::DuplicateKey => f.write_str("the key stands twice in one object: leave one"),
            Self::DuplicateId => f.write_str("the id stands twice in one list: write another"),
            Self::Form(fault) => Display::fmt(fault, f),
            Self::NotALink => f.write_str("no web address: write it with http or https"),
            Self::NotAPicture => f.write_str("no picture: write it as data:image/png;base64, with its bytes in base64"),
            Self::BadText { most } => write!(f, "no text on one line of 1 to {most} characters"),
            Self::UnknownName { what, known, near: None } => write!(f, "no {what}: write one of {}", known.join(", ")),
            Self::UnknownName { what, near: Some(near), .. } => write!(f, "no {what}: write {near}"),
            Self::Quantity { expected, fault } => write!(f, "no {}: {fault}", expected.name()),
            Self::Impossible { least, greatest, unit } => {
                write!(f, "impossible: {least} to {greatest} {} can be", unit.name())
            }
            Self::Improbable { least, greatest, unit } => {
                write!(f, "improbable: {least} to {greatest} {} is usual", unit.name())
            }
            Self::OtherUnit { written, meant, .. } => {
                write!(f, "improbable in {}: usual in {}", written.name(), meant.name())
            }
            Self::LimitsNotRising => f.write_str("the window falls: write least, rated and greatest so that they rise"),
            Self::UnknownReference { what, known } => write!(f, "no such {what}: write one of {}", known.join(", ")),
            Self::Contradiction(contradiction) => write!(f, "contradiction: {}", contradiction.name()),
        }
    }
}

impl Error for Fault {
    fn source(&self) -> Option<&(dyn Error + 'static)> {
        match self {
            Self::Quantity { fault, .. } => Some(fault),
            Self::Form(fault) => Some(fault),
            _ => None,
        }
    }
}
