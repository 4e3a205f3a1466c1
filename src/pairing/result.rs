//! The answer: plain data that page, example and tests all show the same. Its JSON is public; see DEVELOPERS.md.

use crate::quantity::{Amount, AngularVelocity, Displacement, Kind, Mass, Power, Pressure, VolumeRate, names};
use crate::table::{AssumptionId, ChangeId, HeadKind, Id, Money};
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
    /// Solved operating points.
    pub points: Vec<Point>,
    /// What the changes cost.
    pub cost: Cost,
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

/// A fact that is not known.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Missing {
    /// Which.
    pub fact: FactId,
    /// From which value on the check would hold, when a single figure decides.
    pub holds: Option<Threshold>,
}

/// The value of one fact from which a check holds.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Threshold {
    /// On which side it holds.
    pub bound: Bound,
    /// The value.
    pub value: Amount,
}

names! {
    /// A fact of carrier or head that an answer rests on, named like its field in the table.
    "fact" pub enum FactId {
        /// An auxiliary circuit.
        Circuit = "carrier.circuits",
        /// Flow of the circuit.
        CircuitFlow = "carrier.circuit.flow",
        /// Relief of the circuit.
        CircuitRelief = "carrier.circuit.relief",
        /// Whether the flow setting can be locked.
        FlowSettingLocked = "carrier.circuit.flow_setting.locked",
        /// Bore and length of the supply line.
        SupplyLine = "carrier.circuit.supply",
        /// Loss of the couplings.
        CouplingLoss = "carrier.circuit.coupling.loss",
        /// Whether the return goes through the spool.
        ReturnRoute = "carrier.circuit.return_path.route",
        /// Loss of the return path.
        ReturnLoss = "carrier.circuit.return_path.loss",
        /// Bore and length of the return line.
        ReturnLine = "carrier.circuit.return_path.line",
        /// Pressure above the oil in the tank.
        TankPressure = "carrier.tank.pressure",
        /// The machine's return filter.
        ReturnFilter = "carrier.return_filter",
        /// Loss of the return filter.
        FilterLoss = "carrier.return_filter.loss",
        /// Net engine power.
        EnginePower = "carrier.engine.power",
        /// Engine speed without load.
        HighIdle = "carrier.engine.high_idle",
        /// Power limit of the pumps.
        PowerLimit = "carrier.power_groups.limit",
        /// Leakage of the pumps.
        PumpLeak = "carrier.pumps.leak",
        /// Override of the relief.
        ReliefOverride = "carrier.circuit.relief.override",
        /// Whether there is a case line.
        CaseLine = "carrier.case_line",
        /// Bore and length of the case line.
        CaseLineSize = "carrier.case_line.line",
        /// Grade of the oil.
        OilGrade = "carrier.oil.grade",
        /// Pressure difference over the idling motor.
        FreeRunning = "head.pressure.free",
        /// Operating mass.
        OperatingMass = "carrier.operating_mass",
        /// The machine's mounting.
        CarrierMounting = "carrier.mounting",
        /// The head's least flow.
        HeadLeastFlow = "head.flow.least",
        /// The head's rated flow.
        HeadRatedFlow = "head.flow.rated",
        /// The head's greatest flow.
        HeadGreatestFlow = "head.flow.greatest",
        /// The motor's pressure at work.
        WorkingPressure = "head.pressure.working",
        /// The head's greatest pressure.
        HeadGreatestPressure = "head.pressure.greatest",
        /// How the motor is built.
        MotorKind = "head.motor.kind",
        /// The motor's displacement.
        MotorDisplacement = "head.motor.displacement",
        /// Volumetric efficiency of the motor.
        MotorVolumetric = "head.motor.volumetric_efficiency",
        /// Hydro-mechanical efficiency of the motor.
        MotorHydromechanical = "head.motor.hydromechanical_efficiency",
        /// Rotor revolutions per motor revolution.
        MotorRatio = "head.motor.ratio",
        /// The rotor's greatest speed.
        RotorGreatestSpeed = "head.motor.rotor_speed.greatest",
        /// Allowed pressure at the outlet.
        OutletLimit = "head.outlet.back_pressure",
        /// Allowed pressure in the housing.
        CaseLimit = "head.outlet.case_pressure",
        /// Whether a case line is needed.
        NeedsCaseLine = "head.outlet.needs_case_line",
        /// Flow through the case line.
        CaseFlow = "head.outlet.case_flow",
        /// The head's window of carrier mass.
        CarrierMassWindow = "head.carrier_mass",
        /// The head's mounting.
        HeadMounting = "head.mounting",
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

/// Least and greatest value in SI, and how such a value is shown.
type Scale = (f64, f64, fn(f64) -> Amount);

impl FactId {
    /// Whether the fact is itself a limit of a check.
    pub(super) fn is_limit(self) -> bool {
        matches!(
            self,
            Self::HeadLeastFlow
                | Self::HeadRatedFlow
                | Self::HeadGreatestFlow
                | Self::HeadGreatestPressure
                | Self::RotorGreatestSpeed
                | Self::OutletLimit
                | Self::CaseLimit
                | Self::CarrierMassWindow
        )
    }

    /// Least and greatest value (SI) between which a threshold is looked for, and how to show it; none for facts that
    /// are more than one figure.
    pub(super) fn scale(self) -> Option<Scale> {
        fn amount<Q: Kind>(si: f64) -> Amount {
            Amount::of(Q::from_si(si))
        }
        const LITRE_PER_MINUTE: f64 = 1e-3 / 60.0;
        const BAR: f64 = 1e5;
        match self {
            Self::CircuitFlow | Self::HeadLeastFlow | Self::HeadRatedFlow | Self::HeadGreatestFlow => {
                Some((LITRE_PER_MINUTE, 600.0 * LITRE_PER_MINUTE, amount::<VolumeRate>))
            }
            Self::CircuitRelief | Self::WorkingPressure | Self::HeadGreatestPressure => {
                Some((10.0 * BAR, 500.0 * BAR, amount::<Pressure>))
            }
            Self::OutletLimit | Self::CaseLimit => Some((0.1 * BAR, 100.0 * BAR, amount::<Pressure>)),
            Self::EnginePower | Self::PowerLimit => Some((500.0, 500e3, amount::<Power>)),
            Self::MotorDisplacement => Some((1e-6, 2e-3, amount::<Displacement>)),
            Self::RotorGreatestSpeed => Some((1.0, 1000.0, amount::<AngularVelocity>)),
            Self::OperatingMass => Some((100.0, 100e3, amount::<Mass>)),
            _ => None,
        }
    }
}
