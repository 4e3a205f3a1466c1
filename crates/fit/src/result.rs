//! The answer: plain data that page, command line and tests all show the same. Its JSON is public; see docs/pairing.md.

use super::{Bound, ChangeOption, FactId, FoundBy, Missing, Price};
use quantity::{Amount, string_enum};
use serde::Serialize;
use table::{AssumptionId, Carrier, ChangeId, ExtraValve, Guard, HeadKind, Id, MachineEnd};

/// The name by which a result says what it is.
pub const FORMAT: &str = "pairwright.pairing";
/// The version of the result's JSON.
pub const VERSION: u32 = 1;

/// One carrier with one head, judged.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Pairing {
    /// Always [`FORMAT`].
    pub format: &'static str,
    /// Always [`VERSION`].
    pub version: u32,
    /// The machine.
    pub carrier: CarrierName,
    /// The attachment.
    pub head: HeadName,
    /// The auxiliary circuit that serves best; none when the machine states none.
    pub circuit: Option<Id>,
    /// The end of the machine at which the attachment is: that of the circuit; none when a machine with two ends does not say.
    pub end: Option<MachineEnd>,
    /// The verdict.
    pub verdict: Verdict,
    /// Why nothing can be said although no fact is asked for; none where the verdict rests on facts.
    pub incomplete: Option<Incomplete>,
    /// Every check on the machine as it stands today.
    pub checks: Vec<Check>,
    /// Every check on the changed machine, solved again; empty without changes.
    pub checks_after: Vec<Check>,
    /// The cheapest set of changes that makes it fit, in working order; for *cannot say yet* what is certain: the changes that every
    /// way out needs, since they fix what is not met whatever the open facts turn out to be, each by the cheapest part that may do.
    pub changes: Vec<Change>,
    /// What is found out first: where it fits after changes, what may make some of them unnecessary, since these only settle a doubt;
    /// for *cannot say yet* what the verdict waits for, that which decides most first.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub find_out: Vec<FindOut>,
    /// What is left of the cost where everything in `find_out` comes out well; none where no change only settles a doubt.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cost_without_doubts: Option<Cost>,
    /// For *cannot say yet*, what either answer to the first question comes to. [`pair`](super::pair) leaves it out, for it takes many
    /// times as long: see `explain::settle::with_branches`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub branches: Option<Branches>,
    /// Another set that costs at most a tenth more, by other means.
    pub runner_up: Option<RunnerUp>,
    /// Checks that no change can fix, when the verdict is *does not fit*; where each could be fixed but not all at once, those
    /// that fail today.
    pub unmendable: Vec<CheckId>,
    /// What only a maker may decide.
    pub questions: Vec<MakerQuestion>,
    /// What is told without being judged.
    pub remarks: Vec<Remark>,
    /// How head and functions share the pumps' oil at work, on the machine as it would go to work.
    pub sharing: Option<Sharing>,
    /// Checks to prove at the hand-over: open without blocking, or met only on typical figures.
    pub to_prove: Vec<CheckId>,
    /// Checks of safety that are open on the machine as it would go to work, without holding up a verdict that it fits: a fitter
    /// settles them before its first start. Empty with any other verdict.
    pub before_work: Vec<CheckId>,
    /// The check with the least margin, on the machine as it would go to work; of one that goes to work, among the checks that are met.
    pub tightest: Option<Tightest>,
    /// The lowest oil temperature at which every check holds at full speed; none when it holds cold.
    pub warm_up: Option<Amount>,
    /// The ranges behind what the checks assume, each once.
    pub assumptions: Vec<Assumed>,
    /// Solved operating points.
    pub points: Vec<Point>,
    /// What the changes cost.
    pub cost: Cost,
    /// How long the rotor keeps turning after its oil is switched off, where its inertia is stated, s. Not a part of the JSON.
    #[serde(skip)]
    pub coasts: Option<Amount>,
    /// For *cannot say yet*, a way out in which nothing is plainly wrong: on it the open questions are asked. Not a part of the JSON.
    #[serde(skip)]
    pub way_out: Option<Box<WayOut>>,
    /// The changed machine, to look into; not a part of the JSON.
    #[serde(skip)]
    pub changed: Option<Box<Carrier>>,
}

/// Which machine.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CarrierName {
    /// Its id in the table.
    pub id: Id,
    /// Its maker.
    pub maker: Option<String>,
    /// Its model.
    pub model: String,
}

/// Which attachment.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct HeadName {
    /// Its id in the table.
    pub id: Id,
    /// Its maker.
    pub maker: Option<String>,
    /// Its model.
    pub model: String,
    /// What it does.
    pub kind: HeadKind,
}

string_enum! {
    /// Whether they fit. The order is that of a list: best first.
    "verdict" pub enum Verdict {
        /// Every check is met today.
        Fits = "fits",
        /// Does not fit today; every check is met once the changes are made.
        FitsAfterChanges = "fits-after-changes",
        /// Something that decides is not known.
        CannotSay = "cannot-say",
        /// A check fails that no change fixes.
        DoesNotFit = "does-not-fit",
    }
}

string_enum! {
    /// What was not done that would decide.
    "what was not done" pub enum Incomplete {
        /// The search gave up: no set of changes that was tried fits, one of the others may.
        NotAllSetsTried = "not-all-sets-tried",
    }
}

string_enum! {
    /// A check.
    "check" pub enum CheckId {
        /// Flow at the head against its least and greatest.
        FlowWindow = "flow-window",
        /// Rotor speed against its greatest.
        RotorSpeed = "rotor-speed",
        /// Pressure left for the motor, and the pressure that can reach the head.
        Pressure = "pressure",
        /// Hydraulic power that reaches the head.
        Power = "power",
        /// Pressure at the motor's outlet.
        BackPressure = "back-pressure",
        /// Pressure at the motor's shaft seal.
        CasePressure = "case-pressure",
        /// Another tool on the same spool, while the head works.
        SharedTool = "shared-tool",
        /// The circuit's relief against its neighbours.
        ReliefOverlap = "relief-overlap",
        /// What the weakest hose or tube bears.
        LineRating = "line-rating",
        /// What the couplings bear and pass, and whether they meet and lock.
        Couplings = "couplings",
        /// Whether oil can be sent both ways where the head needs it.
        Direction = "direction",
        /// How a heavy rotor comes to rest.
        RunDown = "run-down",
        /// Flow left to the machine's functions while the head works.
        Functions = "functions",
        /// The filter that the return passes.
        ReturnFilter = "return-filter",
        /// Where the oil's temperature ends.
        Heat = "heat",
        /// Kind, grade and cleanliness of the oil.
        Oil = "oil",
        /// What the machine lifts.
        Lift = "lift",
        /// The carrier's mass against the head's window.
        WeightClass = "weight-class",
        /// Pins or coupler pattern.
        Mounting = "mounting",
        /// Voltage, outputs and buttons.
        Electrics = "electrics",
        /// What drives door, tilt and rotation.
        ExtraFunctions = "extra-functions",
        /// Guards that the head demands.
        Guarding = "guarding",
        /// Material and diameter that are to be worked.
        Work = "work",
        /// Whether the pump learns that the head wants oil.
        PumpDemand = "pump-demand",
        /// Open or closed centre while the head is off.
        CentreType = "centre-type",
        /// A one-way head on a two-way circuit.
        ReverseLock = "reverse-lock",
        /// Never ahead of steering, brakes or pilot supply.
        FeedOrder = "feed-order",
        /// Oil taken from one pump of two.
        StraightTravel = "straight-travel",
        /// What can shut the return.
        ReturnShut = "return-shut",
        /// The machine after switch-back.
        AttachmentOff = "attachment-off",
        /// Whether the head stops without operator or power, and stays off.
        StopAndRestart = "stop-and-restart",
        /// Capacity and lock of the coupler between arm and head.
        Coupler = "coupler",
        /// Curled in, the head clears boom, cab and window.
        Clearance = "clearance",
        /// Torque held fast against drive and machine.
        TorqueLimit = "torque-limit",
        /// Travel speed at work.
        CreepSpeed = "creep-speed",
        /// Whether the flow stays on without a hand.
        ContinuousFlow = "continuous-flow",
    }
}

string_enum! {
    /// What a failed check puts at risk.
    "class" pub enum Class {
        /// Can hurt a person. Never passes on an assumed, inferred or missing value.
        Safety = "safety",
        /// Destroys a part.
        Damage = "damage",
        /// Work, speed or heat.
        Work = "work",
    }
}

string_enum! {
    /// How a check came out.
    "outcome" pub enum Outcome {
        /// Holds over everything that is known and assumed.
        Met = "met",
        /// Fails even with every assumed figure at its best.
        NotMet = "not-met",
        /// Depends on what is not known.
        NotKnown = "not-known",
    }
}

/// A check with its figures.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Check {
    /// The check.
    pub id: CheckId,
    /// What it puts at risk.
    pub class: Class,
    /// How it came out.
    pub outcome: Outcome,
    /// Whether the verdict waits for it while it is not known.
    pub blocks: bool,
    /// The value at nominal figures.
    pub value: Option<Amount>,
    /// The value in the worst corner of what is known and assumed.
    pub worst: Option<Amount>,
    /// The limit.
    pub limit: Option<Amount>,
    /// Which side of the limit is right.
    pub bound: Option<Bound>,
    /// The distance of the worst value from the limit as a share of the limit; negative beyond it.
    pub margin: Option<f64>,
    /// Why.
    pub reason: Reason,
    /// What would decide it, the deciding one first.
    pub missing: Vec<Missing>,
    /// What it rests on that nobody states.
    pub assumed: Vec<AssumptionId>,
}

/// Why a check came out as it did; the words are made in `wording`.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "code", rename_all = "kebab-case")]
pub enum Reason {
    /// The value stays on the right side of the limit in every corner.
    Within,
    /// The value is beyond the limit.
    Beyond {
        /// What sets the worst corner.
        because: Cause,
    },
    /// The limit lies between what the assumed figures allow at their best and at their worst.
    Undecided {
        /// What sets the worst corner.
        because: Cause,
    },
    /// A figure is missing without which nothing can be said.
    FactMissing,
    /// The pumps ask more of the engine than it can spare while it drives the machine too.
    EngineShared,
    /// The head has no rotor that could overspeed.
    NoRotor,
    /// The motor needs a line from its housing to the tank and the machine has none.
    NoCaseLine,
    /// The machine's case line ends in the return rather than in the tank by itself.
    CaseLineIntoReturn,
    /// The housing drains inside to the outlet: the seal sees the back pressure, which has its own check.
    DrainsInside,
    /// A motor with a drain of its own bears pressure at its outlet: the case pressure decides.
    CaseDecides,
    /// The return passes the machine's own filter.
    OwnFilter,
    /// The return passes the filter fitted with the change.
    FittedFilter,
    /// The return passes no filter.
    NoFilter,
    /// Nobody demands a filter in this path.
    NoFilterDemanded,
    /// Same open standard.
    SameStandard,
    /// Pins and width agree.
    PinsAgree,
    /// Pins or width differ; a kit of bushes, shims or a bracket can bridge it.
    PinsDiffer,
    /// Two systems of mounting that have nothing in common.
    MountingsDiffer,
    /// Nothing else hangs on the spool.
    NoOtherTool,
    /// The other tool is shut off while the head works.
    ToolShutOff,
    /// The other tool has a relief of its own.
    ToolRelieved,
    /// No other limiter acts beside the relief.
    NoNeighbour,
    /// The head's coupling and the machine's are of different standard or size.
    CouplingsDiffer,
    /// A head that shakes needs couplings that are screwed and lock.
    CouplingMustLock,
    /// One direction is all that the head needs.
    OneWayEnough,
    /// Oil can be sent both ways.
    BothWays,
    /// The head must be reversed and the circuit goes one way.
    OneWayOnly,
    /// No rotor that is heavy enough to drive its motor.
    NoHeavyRotor,
    /// A check valve lets the rotor run down.
    RunsDown,
    /// Nothing feeds the motor while its rotor runs down.
    CannotRunDown,
    /// The oil is what the head demands.
    OilAgrees,
    /// No demand is stated, and the oil is what heads usually take.
    NoOilDemanded,
    /// The oil is of another kind.
    OilKindDiffers,
    /// The oil is of another grade.
    OilGradeDiffers,
    /// The oil is not clean enough.
    OilTooDirty,
    /// Hot, the oil gets too thin to keep moving parts apart.
    OilTooThin {
        /// Where it settles.
        settles: Amount,
        /// How thin it is there.
        viscosity: Amount,
        /// How thick it must be.
        least: Amount,
    },
    /// Full speed would have to wait until the oil is warmer than a warm-up goes: it is the wrong oil.
    OilTooThick {
        /// How warm it would have to be.
        warm_up: Amount,
        /// How warm a warm-up goes.
        most: Amount,
    },
    /// The oil is too thick to be started on the coldest day that is asked for.
    OilTooThickToStart {
        /// The day that is asked for.
        start: Amount,
        /// Down to which temperature the oil may be started.
        from: Amount,
    },
    /// Neither head nor change needs a wire.
    NothingElectric,
    /// Voltage, outputs and buttons are there.
    OutputsThere,
    /// The coils are for another voltage.
    VoltageDiffers,
    /// Too few outputs that switch the current.
    OutputsLacking,
    /// Too few buttons.
    ButtonsLacking,
    /// Nothing but the rotor is to be driven.
    NoExtras,
    /// What else is to be driven has its oil.
    ExtrasServed,
    /// There is no second two-way circuit for what else is to be driven.
    NoSecondCircuit,
    /// A diverter needs a two-way circuit with its return through the valve.
    DiverterNeedsBothWays,
    /// The head demands no guard.
    NoGuardsDemanded,
    /// All guards that the head demands are fitted.
    GuardsFitted,
    /// Guards that the head demands are lacking.
    GuardsLacking {
        /// The guards.
        guards: Vec<Guard>,
    },
    /// Nobody named the work.
    NoWorkNamed,
    /// The head is made for that work.
    WorkNamed,
    /// The head's maker does not name that material.
    MaterialNotNamed,
    /// The pump gives oil whenever the head takes it.
    PumpKnows,
    /// Nothing tells the pump that the head wants oil.
    PumpNotTold,
    /// The head has no valve of its own: the machine's spool switches it.
    NoValveOnHead,
    /// Head and pump agree while the head is off.
    CentreAgrees,
    /// A closed head on a constant pump: all its flow over the relief while the head is off.
    ClosedOnFixed,
    /// An open head on a pump that gives what is asked: full flow all day.
    OpenOnDemand,
    /// Reverse flow does the head no harm.
    ReverseHarmless,
    /// Reverse flow cannot reach the head.
    ReverseBarred,
    /// Reverse flow can reach a head that does not bear it.
    ReverseOpen,
    /// Fed from the machine's control valve, behind what must have oil first.
    BehindPriority,
    /// Fed from pumps that feed nothing that must have oil first.
    PumpsFeedNoPriority,
    /// Fed ahead of steering, brakes or pilot supply.
    AheadOfPriority,
    /// The oil is taken as the machine's maker laid it out, or from all pumps alike.
    TakenEvenly,
    /// It works while the machine stands.
    WorksStanding,
    /// The oil is taken from one pump of two.
    TakenFromOne,
    /// Nothing can shut the return.
    ReturnStaysOpen,
    /// A relief guards the return.
    ReturnRelieved,
    /// Fed ahead of the valve, the head's oil cannot come back through a spool that stands shut.
    ReturnThroughSpool,
    /// Something can shut the return.
    ReturnCanBeShut,
    /// Off, the machine is as it was.
    OffAsBefore,
    /// Off, the divider is capped.
    DividerCapped,
    /// The divider's port has no relief.
    DividerUnrelieved,
    /// Held by hand or foot, it stops when the operator leaves.
    HeldByOperator,
    /// It stops when the operator leaves or power fails, and stays off.
    StopsAndStays,
    /// It runs on, or starts again by itself.
    RunsOn,
    /// There is no coupler: the head hangs on its pins or plate.
    NoCoupler,
    /// The coupler's lock is not proven by its build.
    CouplerNotSecured,
    /// Its drive turns nothing that could twist machine or drive.
    NoTorque,
    /// The head works at any travel speed, or standing.
    NoCreepAsked,
    /// The flow need not stay on by itself.
    HandIsEnough,
    /// The flow stays on.
    StaysOn,
    /// The flow must be held by hand or foot.
    HeldByHand,
    /// The filter in the return is too coarse.
    FilterTooCoarse,
}

string_enum! {
    /// What sets the worst corner of a value.
    "cause" pub enum Cause {
        /// Flow at its lowest: published figure minus its tolerance, engine at working speed.
        FlowLow = "flow-low",
        /// Flow at its highest: high tolerance, engine at high idle, the setting turned up.
        FlowHigh = "flow-high",
        /// The pumps' power limit.
        PowerLimit = "power-limit",
        /// What the relief passes at the working pressure.
        Relief = "relief",
        /// Losses on the way to the head.
        SupplyLoss = "supply-loss",
        /// The return through the spool.
        SpoolReturn = "spool-return",
        /// The return line and what stands in it.
        ReturnLine = "return-line",
        /// The case line with cold oil.
        CaseLine = "case-line",
        /// The machine is lighter than the head allows.
        TooLight = "too-light",
        /// The machine is heavier than the head allows.
        TooHeavy = "too-heavy",
        /// The relief lets more through than the head bears.
        ReliefHigh = "relief-high",
        /// The relief stands lower than the head's maker asks.
        ReliefLow = "relief-low",
        /// The relief lets more through than another tool bears.
        OtherTool = "other-tool",
        /// Two limiters are too close to each other.
        LimitersClose = "limiters-close",
        /// A hose or tube is too weak.
        HoseWeak = "hose-weak",
        /// A coupling is too weak.
        CouplingWeak = "coupling-weak",
        /// A coupling is too small.
        CouplingSmall = "coupling-small",
        /// The head takes too much of the pumps' oil.
        FlowTaken = "flow-taken",
        /// Cooler and tank carry too little away.
        LittleCooling = "little-cooling",
        /// The motor draws a vacuum while its rotor runs down.
        RunsDry = "runs-dry",
        /// The head is too heavy, or hangs too far out.
        HeavyHead = "heavy-head",
        /// The coupler carries less.
        CouplerWeak = "coupler-weak",
        /// The head swings in too far.
        SwingsIn = "swings-in",
        /// Held fast the drive twists too hard.
        TorqueHigh = "torque-high",
        /// The machine creeps too slowly or too fast.
        TravelDiffers = "travel-differs",
        /// What is to be worked is too thick.
        TooThick = "too-thick",
    }
}

/// The least margin.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Tightest {
    /// Of which check.
    pub check: CheckId,
    /// As a share of the limit.
    pub margin: f64,
}

/// A range that stands in for a figure that nobody states.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Assumed {
    /// Which figure.
    pub id: AssumptionId,
    /// The least value.
    pub low: Amount,
    /// The likeliest value.
    pub nominal: Amount,
    /// The greatest value.
    pub high: Amount,
    /// Whose range it is.
    pub from: AssumedFrom,
}

string_enum! {
    /// Whose range an assumption is.
    "origin of an assumption" pub enum AssumedFrom {
        /// Common practice, built in.
        Practice = "practice",
        /// The table's own.
        Table = "table",
    }
}

/// A change of the machine.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Change {
    /// The change.
    pub id: ChangeId,
    /// What it is set or sized to.
    pub settings: Vec<Setting>,
    /// The checks that it fixes or settles.
    #[serde(rename = "mends")]
    pub fixes: Vec<CheckId>,
    /// Workshop minutes.
    pub minutes: u32,
    /// Part and labour, when the table prices both.
    pub price: Option<Price>,
    /// The part of the table that it uses.
    pub part: Option<Id>,
    /// Which valve, of a circuit for a door.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub valve: Option<ExtraValve>,
    /// How many outputs are wired, of a harness.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub outputs: Option<usize>,
    /// Why.
    pub reason: ChangeReason,
    /// What of the shop's it is made with, to look into; not a part of the JSON.
    #[serde(skip)]
    pub option: ChangeOption,
}

/// A value to set or a size to choose.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Setting {
    /// What is set or sized.
    pub name: SettingId,
    /// The value.
    pub value: Amount,
}

string_enum! {
    /// What a setting sets.
    "setting" pub enum SettingId {
        /// Flow, L/min.
        Flow = "flow",
        /// Full-flow pressure of the relief, bar.
        Relief = "relief",
        /// Bore of the new line, mm.
        Bore = "bore",
        /// Rated flow of the new filter, L/min.
        RatedFlow = "rated-flow",
        /// Pin of the attachment that the kit bridges to, mm.
        Pin = "pin",
        /// Pressure for which the part must be rated, bar.
        RatedPressure = "rated-pressure",
        /// Share of the pumps' flow at work that the head gets, %.
        ShareAtWork = "share-at-work",
        /// Share of the pumps' flow free running that the head gets, %.
        ShareFree = "share-free",
        /// Relief on the other tool's side, bar.
        ToolRelief = "tool-relief",
        /// Full-flow pressure of the head's own relief block, bar.
        HeadRelief = "head-relief",
        /// Engine speed, rpm.
        EngineSpeed = "engine-speed",
        /// Oil temperature before full speed, °C.
        OilTemperature = "oil-temperature",
        /// Heat that the cooler carries away per kelvin, W/K.
        Conductance = "conductance",
        /// Opening pressure of a low-pressure relief in the return, bar.
        ReturnRelief = "return-relief",
    }
}

string_enum! {
    /// Why a change is made.
    "reason of a change" pub enum ChangeReason {
        /// A check fails without it.
        Fixes = "mends",
        /// A check cannot be decided without it: reading the missing figure may make it unnecessary.
        Settles = "settles",
        /// Another change of the set brings the need.
        Follows = "follows",
    }
}

/// Something to find out before any part is bought that only settles a doubt.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct FindOut {
    /// Which fact.
    pub fact: FactId,
    /// How.
    pub by: FoundBy,
    /// What that takes, in minutes.
    pub minutes: u32,
    /// The checks that wait for it.
    pub checks: Vec<CheckId>,
    /// The changes that it may make unnecessary.
    pub may_spare: Vec<ChangeId>,
}

impl FindOut {
    /// Of a fact.
    pub fn new(fact: FactId, checks: Vec<CheckId>, may_spare: Vec<ChangeId>) -> Self {
        let by = fact.found_by();
        Self { fact, by, minutes: by.minutes(), checks, may_spare }
    }
}

/// A machine in which nothing is plainly wrong, only things are not known.
#[derive(Clone, Debug, PartialEq)]
pub struct WayOut {
    /// The machine with the changes of that way.
    pub carrier: Carrier,
    /// These changes: what is certain, and what could be done otherwise too.
    pub changes: Vec<Change>,
    /// Its checks.
    pub checks: Vec<Check>,
}

/// What either answer to the first question comes to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Branches {
    /// The fact that decides.
    pub fact: FactId,
    /// How it is found out.
    pub by: FoundBy,
    /// What that takes, in minutes.
    pub minutes: u32,
    /// The answer on the good side, then that on the other.
    pub either: [Branch; 2],
}

/// What one answer comes to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Branch {
    /// Which answer.
    pub when: When,
    /// The verdict then.
    pub verdict: Verdict,
    /// The changes then; with `cannot-say` those that are certain.
    pub changes: Vec<ChangeId>,
    /// What they cost.
    pub cost: Cost,
    /// What no change can fix then.
    pub unmendable: Vec<CheckId>,
    /// What is still to be found out then.
    pub open: Vec<FactId>,
}

/// An answer to a question.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum When {
    /// A figure of at least, or at most, a value.
    Figure {
        /// Whether it is at least or at most the value.
        bound: Bound,
        /// The value.
        value: Amount,
        /// Up to, or down to, where that stays so; none when nothing ends it.
        until: Option<Amount>,
    },
    /// A figure just on the other side of that value.
    Otherwise {
        /// Below for `at-most`, above for `at-least`.
        bound: Bound,
        /// The value.
        value: Amount,
    },
    /// A yes or no.
    Is(bool),
}

/// A second set of changes that works too.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RunnerUp {
    /// Its changes, in working order.
    pub changes: Vec<ChangeId>,
    /// What they cost.
    pub cost: Cost,
}

string_enum! {
    /// What no dealer may change: the maker of machine or head decides.
    "question for a maker" pub enum MakerQuestion {
        /// Another motor displacement or pulley for this flow.
        HeadDisplacement = "head-displacement",
        /// A plug or conversion for the centre type of the head's valve.
        HeadCentre = "head-centre",
        /// Which pressures and flows the head's limits really are.
        HeadLimits = "head-limits",
        /// Main relief, cut-off or pump setting.
        MachinePressure = "machine-pressure",
        /// Counterweight, structure, or a lift rating for this head.
        Stability = "stability",
        /// Drilling or welding on a protective structure.
        ProtectiveStructure = "protective-structure",
        /// Rating and lock of the coupler.
        CouplerRating = "coupler-rating",
        /// Steering, brake and pilot supply.
        PrioritySupply = "priority-supply",
        /// A two-way spool or another control for the circuit.
        CircuitControl = "circuit-control",
        /// Travel speed at full engine speed.
        TravelSpeed = "travel-speed",
    }
}

/// Something that is told without being judged.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "code", rename_all = "kebab-case")]
pub enum Remark {
    /// Oil flows faster than is usual.
    Velocity {
        /// In which line.
        line: LineId,
        /// How fast at the flow at work.
        value: Amount,
        /// What is usual.
        usual: Amount,
    },
    /// Lines and valves take this share of the head's power: a tenth is much, a fifth should be asked about.
    LossShare {
        /// The share.
        share: Amount,
    },
    /// Spikes on closing come near what the weakest hose bears for long: its life is shorter.
    HoseFatigue,
    /// The case line's coupling is the same as a pressure line's: they can be crossed.
    CaseCouplingCrosses,
    /// The head holds a charged gas accumulator.
    Accumulator,
    /// The head needs water or raises dust.
    WaterOrDust,
    /// Nobody nearer than this while it works; a usual figure where the maker names none.
    ThrowZone {
        /// How far.
        distance: Amount,
        /// Whether the maker names it.
        stated: bool,
    },
    /// The greatest reach at which the machine lifts the head.
    LiftsAt {
        /// From the slew axis.
        reach: Amount,
        /// Over the side rather than over the front.
        over_side: bool,
    },
    /// The end of a machine with two ends at which the head is, whose figures alone count.
    AtEnd {
        /// The end.
        end: MachineEnd,
    },
    /// A single pump of two feeds the head: with it running the machine may pull to one side.
    PullsAside,
    /// Loader ratings are for firm, level ground and slow work.
    LevelGround,
    /// Colder than this the oil in the tank is too thick to be started.
    StartsDownTo {
        /// The lowest temperature.
        from: Amount,
    },
    /// The relief of the other tool limits the head as long as the tool is not shut off.
    ToolReliefLimits,
}

string_enum! {
    /// A line between machine and head.
    "line" pub enum LineId {
        /// To the head.
        Supply = "supply",
        /// Back from it.
        Return = "return",
        /// From the motor's housing.
        Case = "case",
    }
}

/// How head and functions share the pumps' oil.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Sharing {
    /// What the head gets of the pumps' flow at work.
    pub at_work: Amount,
    /// What it gets of their flow free running.
    pub free: Amount,
    /// What is left to the functions of what they have today.
    pub left: Option<Amount>,
}

/// What all changes cost.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Cost {
    /// How many changes.
    pub changes: usize,
    /// Workshop minutes.
    pub minutes: u32,
    /// Parts and labour, when every change is priced.
    pub price: Option<Price>,
}

string_enum! {
    /// Before or after the changes.
    "stage" pub enum Stage {
        /// The machine today.
        AsItIs = "as-it-is",
        /// The changed machine.
        AfterChanges = "after-changes",
    }
}

string_enum! {
    /// State of the oil.
    "oil state" pub enum OilState {
        /// At the start.
        Cold = "cold",
        /// At work.
        Working = "working",
        /// At its hottest.
        Hot = "hot",
    }
}

string_enum! {
    /// State of the load.
    "load" pub enum Load {
        /// Turning without work.
        Free = "free",
        /// At its working pressure difference.
        Working = "working",
        /// Held fast: the relief opens.
        Stalled = "stalled",
    }
}

string_enum! {
    /// A place in the circuit, in the order in which the oil meets them.
    "node" pub enum Node {
        /// At the pumps.
        Pump = "pump",
        /// At the beginning of the line to the head.
        SupplyLine = "supply-line",
        /// Before the coupling to the head.
        SupplyCoupling = "supply-coupling",
        /// At the motor's inlet.
        MotorInlet = "motor-inlet",
        /// At the motor's outlet.
        MotorOutlet = "motor-outlet",
        /// Behind the coupling back to the machine.
        ReturnLine = "return-line",
        /// Before the valve or manifold through which the return goes.
        ReturnValve = "return-valve",
        /// Before the return filter.
        ReturnFilter = "return-filter",
        /// In the tank.
        Tank = "tank",
        /// In the motor's housing.
        Case = "case",
        /// At the relief, what flows over it.
        Relief = "relief",
        /// At the machine's functions.
        Functions = "functions",
    }
}

/// A solved operating point at nominal figures. What cannot be said is absent.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Point {
    /// Before or after the changes.
    pub stage: Stage,
    /// State of the oil.
    pub oil: OilState,
    /// Its temperature.
    pub oil_temperature: Amount,
    /// State of the load.
    pub load: Load,
    /// Flow through the head.
    pub flow: Option<Amount>,
    /// Pressure at the pump.
    pub pump_pressure: Option<Amount>,
    /// Pressure at the head's inlet.
    pub head_inlet: Option<Amount>,
    /// Pressure at the head's outlet.
    pub head_outlet: Option<Amount>,
    /// Pressure in the motor's housing.
    #[serde(rename = "case")]
    pub case_pressure: Option<Amount>,
    /// Rotor speed.
    pub rotor_speed: Option<Amount>,
    /// Power at the motor's shaft.
    pub shaft_power: Option<Amount>,
    /// Power that warms the oil.
    pub heat: Option<Amount>,
}

impl Check {
    /// Whether it keeps a pairing from fitting: not met, or not known while the verdict waits for it.
    pub fn fails(&self) -> bool {
        self.outcome == Outcome::NotMet || self.outcome == Outcome::NotKnown && self.blocks
    }
}

impl SettingId {
    /// Whether somebody sets it, rather than that it follows from a part's size or from the circuit.
    pub fn is_set(self) -> bool {
        match self {
            Self::Flow
            | Self::Relief
            | Self::ToolRelief
            | Self::HeadRelief
            | Self::EngineSpeed
            | Self::OilTemperature
            | Self::ReturnRelief => true,
            Self::Bore
            | Self::RatedFlow
            | Self::Pin
            | Self::RatedPressure
            | Self::ShareAtWork
            | Self::ShareFree
            | Self::Conductance => false,
        }
    }
}

/// Writes a margin with no more digits than mean anything.
pub(super) fn rounded(margin: f64) -> f64 {
    (margin * 1e6).round() / 1e6
}

impl Pairing {
    /// The checks on the machine as it would go to work: changed when there are changes.
    pub fn final_checks(&self) -> &[Check] {
        if self.checks_after.is_empty() { &self.checks } else { &self.checks_after }
    }

    /// One check on the machine as it is.
    pub fn check(&self, id: CheckId) -> Option<&Check> {
        self.checks.iter().find(|check| check.id == id)
    }

    /// One check on the machine as it would go to work.
    pub fn final_check(&self, id: CheckId) -> Option<&Check> {
        self.final_checks().iter().find(|check| check.id == id)
    }

    /// The check with the least margin, on the machine as it would go to work.
    pub fn tightest_check(&self) -> Option<&Check> {
        self.final_check(self.tightest?.check)
    }

    /// The checks whose open questions the verdict waits for: where nothing can be said those of a way out in which nothing is plainly
    /// wrong, else those of the machine as it would go to work.
    pub fn open_checks(&self) -> &[Check] {
        self.way_out.as_ref().map_or(self.final_checks(), |way| &way.checks)
    }

    /// The result as one line of JSON.
    pub fn to_json(&self) -> String {
        serde_json::to_string(self).unwrap_or_else(|error| format!("{{\"error\":\"{error}\"}}"))
    }
}
