//! The answer: plain data that page, example and tests all show the same. Its JSON is public; see DEVELOPERS.md.

use super::Missing;
use crate::quantity::{Amount, names};
use crate::table::{AssumptionId, Carrier, ChangeId, HeadKind, Id, Money};
use serde::Serialize;

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
    /// The verdict.
    pub verdict: Verdict,
    /// Every check on the machine as it stands today.
    pub checks: Vec<Check>,
    /// Every check on the changed machine, solved again; empty without changes.
    pub checks_after: Vec<Check>,
    /// The cheapest set of changes that makes it fit, in working order; for *cannot say yet* the changes that mend what
    /// fails today, so that only the open questions of `checks_after` are left.
    pub changes: Vec<Change>,
    /// Checks that no change can mend, when the verdict is *does not fit*.
    pub unmendable: Vec<CheckId>,
    /// Checks to prove at the hand-over: open without blocking, or met only on typical figures.
    pub to_prove: Vec<CheckId>,
    /// The check with the least margin, on the machine as it would go to work.
    pub tightest: Option<Tightest>,
    /// The lowest oil temperature at which every check holds at full speed; none when it holds cold.
    pub warm_up: Option<Amount>,
    /// The ranges behind what the checks assume, each once.
    pub assumptions: Vec<Assumed>,
    /// Solved operating points.
    pub points: Vec<Point>,
    /// What the changes cost.
    pub cost: Cost,
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

names! {
    /// Whether they fit. The order is that of a list: best first.
    "verdict" pub enum Verdict {
        /// Every check is met today.
        Fits = "fits",
        /// Does not fit today; every check is met once the changes are made.
        FitsAfterChanges = "fits-after-changes",
        /// Something that decides is not known.
        CannotSay = "cannot-say",
        /// A check fails that no change mends.
        DoesNotFit = "does-not-fit",
    }
}

names! {
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
        /// The filter that the return passes.
        ReturnFilter = "return-filter",
        /// The carrier's mass against the head's window.
        WeightClass = "weight-class",
        /// Pins or coupler pattern.
        Mounting = "mounting",
    }
}

names! {
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

names! {
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
    /// Which.
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

names! {
    /// Which side of a limit is right.
    "bound" pub enum Bound {
        /// At least the limit.
        AtLeast = "at-least",
        /// At most the limit.
        AtMost = "at-most",
    }
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
        because: Because,
    },
    /// The limit lies between what the assumed figures allow at their best and at their worst.
    Undecided {
        /// What sets the worst corner.
        because: Because,
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
}

names! {
    /// What sets the worst corner of a value.
    "cause" pub enum Because {
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

names! {
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
    /// Which.
    pub id: ChangeId,
    /// What it is set or sized to.
    pub settings: Vec<Setting>,
    /// The checks that it mends or settles.
    pub mends: Vec<CheckId>,
    /// Workshop minutes.
    pub minutes: u32,
    /// Part and labour, when the table prices both.
    pub price: Option<Price>,
    /// The part of the table that it uses.
    pub part: Option<Id>,
    /// Why.
    pub reason: ChangeReason,
}

/// A value to set or a size to choose.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Setting {
    /// Which.
    pub name: SettingId,
    /// The value.
    pub value: Amount,
}

names! {
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
    }
}

names! {
    /// Why a change is made.
    "reason of a change" pub enum ChangeReason {
        /// A check fails without it.
        Mends = "mends",
        /// A check cannot be decided without it: reading the missing figure may make it unnecessary.
        Settles = "settles",
        /// Another change of the set brings the need.
        Follows = "follows",
    }
}

/// An amount of money with its currency.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Price {
    /// How much.
    pub amount: Money,
    /// The ISO 4217 code.
    pub currency: String,
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

names! {
    /// Before or after the changes.
    "stage" pub enum Stage {
        /// The machine today.
        AsItIs = "as-it-is",
        /// The changed machine.
        AfterChanges = "after-changes",
    }
}

names! {
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

names! {
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

names! {
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

/// Writes a margin with no more digits than mean anything.
pub(super) fn rounded(margin: f64) -> f64 {
    (margin * 1e6).round() / 1e6
}

impl Pairing {
    /// The checks on the machine as it would go to work: changed when there are changes.
    pub fn final_checks(&self) -> &[Check] {
        if self.checks_after.is_empty() { &self.checks } else { &self.checks_after }
    }

    /// The result as one line of JSON.
    pub fn to_json(&self) -> String {
        serde_json::to_string(self).unwrap_or_else(|error| format!("{{\"error\":\"{error}\"}}"))
    }
}
