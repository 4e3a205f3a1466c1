//! What an answer was worked out from, entry by entry.

use crate::pairing::FactId;
use crate::quantity::{Amount, Kind, Named, Said, Stated, names};
use crate::table::{AssumptionId, CarrierClass, CaseLine, Cleanliness, Guard, HeadKind, Mounting, PriorityUser};

/// An entry: what it is, what it says, and where that comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Used {
    /// What it is.
    pub what: What,
    /// What it says.
    pub value: Value,
    /// Where that comes from.
    pub from: From,
}

/// What an entry is about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum What {
    /// A fact of machine or attachment, and which of its figures.
    Fact(FactId, Aspect),
    /// Something that has no name among the facts.
    Besides(Besides),
    /// Worked out on the way.
    Worked(Worked),
}

/// Which figure of a fact an entry is, where it has several.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aspect {
    /// Its only one.
    Itself,
    /// The one that this practice would stand in for.
    Like(AssumptionId),
    /// What a setting can be turned up to without tools.
    TurnedUp,
    /// What a sealed regulator or divider holds.
    Regulator,
    /// The sum over the pumps.
    Pumps,
    /// Where the pumps cut off.
    CutOff,
    /// Where a filter's bypass opens.
    Bypass,
    /// The size of a coupling.
    Bore,
}

names! {
    /// What an answer looks at that is no fact of its own.
    "circumstance" pub enum Besides {
        /// What the attachment does.
        HeadKind = "head-kind",
        /// The machine's class.
        CarrierClass = "carrier-class",
        /// Whether the reverse is locked.
        ReverseLocked = "reverse-locked",
        /// A relief to the tank in the return.
        ReturnRelief = "return-relief",
        /// A filter of its own in the return.
        OwnFilter = "own-filter",
        /// Whether the attachment demands a filter.
        FilterDemanded = "filter-demanded",
        /// The fineness that it demands.
        FinenessDemanded = "fineness-demanded",
        /// Whether the case line has a port of its own in the tank.
        CasePort = "case-port",
        /// Whether a priority flow divider is fitted.
        Divider = "divider",
        /// The kinds of oil that the attachment demands.
        OilKindsDemanded = "oil-kinds-demanded",
        /// The grades that it demands.
        OilGradesDemanded = "oil-grades-demanded",
        /// Whether it demands a class of cleanliness.
        CleanlinessDemanded = "cleanliness-demanded",
        /// Functions of the attachment besides its rotor.
        ExtraFunctions = "extra-functions",
        /// The valve that drives them.
        ExtraValve = "extra-valve",
        /// Switched outputs that are needed.
        OutputsNeeded = "outputs-needed",
        /// Whether the attachment has a valve of its own that switches it.
        SwitchedByValve = "switched-by-valve",
        /// Whether there is a coupler between arm and attachment.
        CouplerFitted = "coupler-fitted",
        /// Other circuits of the machine.
        OtherCircuits = "other-circuits",
        /// Pumps of the machine that drive.
        PumpsOfMachine = "pumps-of-machine",
        /// Other tools on the spool.
        OtherTools = "other-tools",
        /// Whether such a tool is shut off.
        ToolShutOff = "tool-shut-off",
        /// Whether such a tool has a relief of its own.
        ToolRelief = "tool-relief",
        /// A check valve for run-down on the machine's side.
        MakeUpCheck = "make-up-check",
        /// The couplings' standard.
        CouplingStandard = "coupling-standard",
        /// The standard of the attachment's couplings.
        HeadCouplingStandard = "head-coupling-standard",
        /// The material that is to be worked.
        WorkNamed = "work-named",
        /// The power for which the attachment is made.
        HeadPower = "head-power",
        /// The relief that the attachment's maker asks for.
        ReliefAsked = "relief-asked",
        /// The distance between two limiters.
        ReliefGap = "relief-gap",
        /// The travel speed that the attachment works at.
        CreepWindow = "creep-window",
        /// Those of them that feed the circuit.
        PumpsOfCircuit = "pumps-of-circuit",
        /// The air around the machine.
        Ambient = "ambient",
        /// The oil temperature at which work ends.
        OilStop = "oil-stop",
    }
}

names! {
    /// A figure that is worked out on the way.
    "worked out" pub enum Worked {
        /// The flow through the head at work.
        FlowAtWork = "flow-at-work",
        /// The flow through the head free running.
        FlowFree = "flow-free",
        /// The most that can flow when nothing hinders.
        MostFlow = "most-flow",
        /// The pressure up to which the pumps give their whole flow and no relief opens.
        WholeFlowUpTo = "whole-flow-up-to",
        /// What the way to the head takes.
        SupplyLoss = "supply-loss",
        /// What the way back takes.
        ReturnLoss = "return-loss",
        /// What leaks through the motor into its housing.
        LeakedFlow = "leaked-flow",
        /// The pressure that the pumps must give for it.
        PressureNeeded = "pressure-needed",
        /// The pressure difference over the motor.
        Difference = "difference",
        /// The pressure at the pumps.
        PumpPressure = "pump-pressure",
    }
}

/// What an entry says.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A figure. Each part is absent where it was not asked for or nobody knows.
    Figure {
        /// At likely figures.
        likely: Option<Amount>,
        /// In the worst corner; two where it counts both ways.
        worst: Vec<Amount>,
        /// Between what it may lie.
        span: Option<(Amount, Amount)>,
    },
    /// It is so.
    Yes,
    /// It is not so.
    No,
    /// A value of a closed list, by its written name.
    Named(&'static str),
    /// Several.
    Names(Vec<&'static str>),
    /// Guards.
    Guards(Vec<Guard>),
    /// A number of things.
    Count(u32),
    /// What an attachment does.
    HeadKind(HeadKind),
    /// What a machine is.
    CarrierClass(CarrierClass),
    /// Pins or standards of a mounting.
    Mountings(Vec<Mounting>),
    /// Text of the table or of a person.
    Text(String),
    /// Nobody says.
    NotStated,
}

/// Where an entry comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum From {
    /// Somebody states the figure.
    Stated(Said),
    /// The table says so.
    Table,
    /// A range of practice stands in.
    Assumed(AssumptionId),
    /// A rule of practice.
    Practice,
    /// Chosen for the whole answer.
    Chosen,
    /// Worked out on the way.
    Worked,
    /// Nobody says.
    Missing,
}

/// What a look at something gives.
#[derive(Clone, Debug, PartialEq)]
pub struct Seen {
    /// What it says.
    pub value: Value,
    /// Where that comes from.
    pub from: From,
}

impl Seen {
    fn in_table(value: Value) -> Self {
        Self { value, from: From::Table }
    }
}

/// Something that a question without figures can look at.
pub trait Visible {
    /// What it says.
    fn seen(&self) -> Seen;
}

impl<T: Visible> Visible for Option<T> {
    fn seen(&self) -> Seen {
        self.as_ref().map_or(Seen { value: Value::NotStated, from: From::Missing }, T::seen)
    }
}

impl<T: Visible + ?Sized> Visible for &T {
    fn seen(&self) -> Seen {
        (*self).seen()
    }
}

impl Visible for bool {
    fn seen(&self) -> Seen {
        Seen::in_table(if *self { Value::Yes } else { Value::No })
    }
}

impl Visible for String {
    fn seen(&self) -> Seen {
        Seen { value: Value::Text(self.clone()), from: From::Chosen }
    }
}

impl<Q: Kind> Visible for Stated<Q> {
    fn seen(&self) -> Seen {
        let amount = Amount::of(self.nominal);
        let value = Value::Figure { likely: Some(amount), worst: vec![amount], span: None };
        Seen { value, from: From::Stated(Said::exactly(self.source)) }
    }
}

/// A figure that is a rule or a choice rather than anybody's statement.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Given(pub Amount, pub From);

impl Visible for Given {
    fn seen(&self) -> Seen {
        Seen { value: Value::Figure { likely: Some(self.0), worst: vec![self.0], span: None }, from: self.1 }
    }
}

/// Values of closed lists.
macro_rules! visible {
    ($($Type:ty),+) => {$(
        impl Visible for $Type {
            fn seen(&self) -> Seen {
                Seen::in_table(Value::Named(self.name()))
            }
        }
        impl Visible for Vec<$Type> {
            fn seen(&self) -> Seen {
                Seen::in_table(Value::Names(self.iter().map(|one| one.name()).collect()))
            }
        }
        impl Visible for [$Type] {
            fn seen(&self) -> Seen {
                Seen::in_table(Value::Names(self.iter().map(|one| one.name()).collect()))
            }
        }
    )+};
}

visible!(
    crate::table::Centre,
    crate::table::Drive,
    crate::table::CouplingStandard,
    crate::table::ExtraValve,
    crate::table::FedFrom,
    crate::table::MotorKind,
    crate::table::OilGrade,
    crate::table::OilKind,
    crate::table::PumpControl,
    crate::table::ReliefRole,
    crate::table::ReturnRoute,
    crate::table::Ways
);

impl Visible for HeadKind {
    fn seen(&self) -> Seen {
        Seen::in_table(Value::HeadKind(*self))
    }
}

impl Visible for CarrierClass {
    fn seen(&self) -> Seen {
        Seen::in_table(Value::CarrierClass(*self))
    }
}

impl Visible for Vec<Guard> {
    fn seen(&self) -> Seen {
        Seen::in_table(Value::Guards(self.clone()))
    }
}

/// Something of which only counts that it is stated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Counted(pub usize);

impl Visible for Counted {
    fn seen(&self) -> Seen {
        Seen::in_table(Value::Count(u32::try_from(self.0).unwrap_or(u32::MAX)))
    }
}

/// A span that a person may choose from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ends(pub Amount, pub Amount);

impl Visible for Ends {
    fn seen(&self) -> Seen {
        Seen::in_table(Value::Figure { likely: None, worst: Vec::new(), span: Some((self.0, self.1)) })
    }
}

impl Visible for [PriorityUser] {
    fn seen(&self) -> Seen {
        Seen::in_table(Value::Names(self.iter().map(|user| user.name()).collect()))
    }
}

impl Visible for Vec<Mounting> {
    fn seen(&self) -> Seen {
        Seen::in_table(Value::Mountings(self.clone()))
    }
}

impl Visible for CaseLine {
    fn seen(&self) -> Seen {
        self.fitted.seen()
    }
}

impl Visible for Cleanliness {
    fn seen(&self) -> Seen {
        Seen::in_table(Value::Text(self.text()))
    }
}
