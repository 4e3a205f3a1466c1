//! What an answer was worked out from, entry by entry.

use crate::{FactId, Price, Total};
use quantity::{Amount, Provenance, string_enum};
use table::{AssumptionId, CarrierClass, ChangeId, Guard, HeadKind, Mounting};

/// One thing that an answer was worked out from: what it is, what it says, and where that comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct InputRecord {
    /// What it is.
    pub what: What,
    /// What it says.
    pub value: Value,
    /// Where that comes from.
    pub origin: Origin,
}

/// What an entry is about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum What {
    /// A fact of machine or attachment, and which of its figures.
    Fact(FactId, Aspect),
    /// Something that has no name among the facts.
    Context(Context),
    /// Worked out on the way.
    Worked(Worked),
    /// A change of the set.
    Change(ChangeId),
}

impl From<FactId> for What {
    fn from(id: FactId) -> Self {
        Self::Fact(id, Aspect::Itself)
    }
}

impl From<Context> for What {
    fn from(context: Context) -> Self {
        Self::Context(context)
    }
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

string_enum! {
    /// What an answer looks at that is no fact of its own.
    "circumstance" pub enum Context {
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
        /// The filtration rating that it demands.
        FiltrationDemanded = "fineness-demanded",
        /// Whether a priority flow divider is fitted.
        Divider = "divider",
        /// The kinds of oil that the attachment demands.
        OilKindsDemanded = "oil-kinds-demanded",
        /// The grades that it demands.
        OilGradesDemanded = "oil-grades-demanded",
        /// Whether it demands a class of cleanliness.
        CleanlinessDemanded = "cleanliness-demanded",
        /// Grades of oil that attachments usually take.
        UsualGrade = "usual-grade",
        /// Cleanliness that machines in service usually have, and attachments demand.
        UsualCleanliness = "usual-cleanliness",
        /// Filtration rating that return filters usually have, and attachments demand.
        UsualFiltration = "usual-filtration",
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
        /// Between what something can be set.
        SettingRange = "setting-range",
        /// The step to which a shop sets it.
        ShopStep = "shop-step",
        /// How exactly it can be set with an instrument.
        SettingTolerance = "setting-tolerance",
        /// How exactly a regulator or divider holds its flow.
        RegulatorHolds = "regulator-holds",
        /// The engine's speed at work today.
        SpeedToday = "speed-today",
        /// Up to which temperature a machine may be idled warm.
        WarmestStart = "warmest-start",
        /// The coldest start that is asked for.
        ColdestStart = "coldest-start",
        /// The part of the table that is used.
        PartUsed = "part-used",
        /// The bore or size that it has.
        PartBore = "part-bore",
        /// The flow that it is rated for.
        PartRatedFlow = "part-rated-flow",
        /// The pressure that it is rated for.
        PartRatedPressure = "part-rated-pressure",
        /// The heat per kelvin that it carries away.
        PartConductance = "part-conductance",
        /// The oil at the start.
        ColdOil = "cold-oil",
        /// From which temperature oil counts as warm enough.
        WarmEnough = "warm-enough",
        /// What the part costs.
        PartPrice = "part-price",
        /// What it takes in the workshop.
        WorkshopTime = "workshop-time",
        /// Time for a port in the tank, where none to spare is stated.
        TankPortTime = "tank-port-time",
        /// What an hour there costs.
        LabourRate = "labour-rate",
        /// What that time costs.
        Labour = "labour",
    }
}

string_enum! {
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
    /// Money.
    Money(Price),
    /// Workshop minutes, with the least and the most of practice where there is such a range.
    Minutes(u32, Option<(u32, u32)>),
    /// Time and money together.
    Takes(Total),
    /// Nobody says.
    NotStated,
}

/// Where an entry comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Origin {
    /// Somebody states the figure.
    Stated(Provenance),
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
