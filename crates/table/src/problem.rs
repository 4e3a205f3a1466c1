//! What is wrong with a table, and where. The words for it are in `wording`.

use quantity::{Dimension, Named, Unit, names, text::TextFault};

names! {
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
    /// Text that is no identifier.
    NotAnId,
    /// Text that is no date of the calendar.
    NotADate,
    /// Text that is no amount of money.
    NotMoney,
    /// Text that is no currency code.
    NotACurrency,
    /// Text that is no cleanliness code of ISO 4406.
    NotACleanliness,
    /// Text that is no web address (http or https).
    NotALink,
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

names! {
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
