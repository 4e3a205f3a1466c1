//! Every state of load, oil, engine, functions and filter, with flow and pressure at every node.

use super::Installation;
use crate::facts::{Drawn, Extreme, Facts, MachineState};
use crate::sample::{Corner, End, Sample};
use crate::{FactId, Load, Node, OilState, Stage};
use hydraulics::balance::{Balanced, Ledger};
use hydraulics::{Element, Motor, Operating};
use quantity::{Amount, Named, Power, Pressure, Quantity, Ratio, ThermodynamicTemperature, VolumeRate, string_enum};
use serde::Serialize;
use std::rc::Rc;
use table::{AssumptionId, HeadKind};

string_enum! {
    /// Whether the machine's functions work beside the head.
    "functions" pub enum FunctionsState {
        /// They stand.
        Idle = "idle",
        /// They take what is stated that they need.
        Busy = "busy",
    }
}

string_enum! {
    /// The engine's speed.
    "engine" pub enum EngineState {
        /// As under load.
        Working = "working",
        /// Without load.
        HighIdle = "high-idle",
    }
}

string_enum! {
    /// The return filter.
    "filter" pub enum FilterState {
        /// As new.
        Clean = "clean",
        /// Blocked, on its bypass.
        Bypass = "bypass",
    }
}

/// A state of an installation.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct State {
    /// The load.
    pub load: Load,
    /// The oil.
    pub oil: OilState,
    /// The machine's functions.
    pub functions: FunctionsState,
    /// The engine.
    pub engine: EngineState,
    /// The return filter.
    pub filter: FilterState,
}

/// Flow and pressure at one node.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct NodeReading {
    /// Where.
    pub node: Node,
    /// What flows.
    pub flow: Amount,
    /// Gauge pressure.
    pub pressure: Amount,
}

string_enum! {
    /// Why there is no such point.
    "no point" pub enum NoPoint {
        /// The head has no idle: it works or it is off.
        NoIdle = "no-idle",
        /// Nothing is known that ends the pressure.
        NothingEndsThePressure = "nothing-ends-the-pressure",
    }
}

/// What an installation does in a state.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "does", rename_all = "kebab-case")]
pub enum Standing {
    /// It turns.
    Turns {
        /// Every node.
        nodes: Vec<NodeReading>,
        /// Speed of the rotor, where the motor's size is known.
        rotor_speed: Option<Amount>,
        /// Power at the motor's shaft, where there is one.
        shaft_power: Option<Amount>,
        /// What warms the oil.
        heat: Option<Amount>,
    },
    /// It stands still under pressure.
    Stalls {
        /// Every node.
        nodes: Vec<NodeReading>,
        /// What warms the oil.
        heat: Option<Amount>,
    },
    /// There is no such point.
    NoSuchPoint {
        /// Why.
        because: NoPoint,
    },
    /// Something is missing without which it cannot be solved.
    NotKnown {
        /// What.
        missing: Vec<FactId>,
    },
}

/// A state with what the installation does in it, as one line of JSON.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Solved {
    /// Before or after the changes.
    pub stage: Stage,
    /// The state.
    #[serde(flatten)]
    pub state: State,
    /// What it does.
    #[serde(flatten)]
    pub standing: Standing,
}

impl State {
    /// At a load, with all else as it mostly is: oil at working temperature, functions idle, engine at working speed, filter clean.
    pub fn usual(load: Load) -> Self {
        let (functions, engine, filter) = (FunctionsState::Idle, EngineState::Working, FilterState::Clean);
        Self { load, oil: OilState::Working, functions, engine, filter }
    }
}

impl Installation<'_> {
    /// One state with the head on, solved.
    pub fn state(&self, state: State) -> Standing {
        standing(&self.facts(), state)
    }

    /// Every state with the head on, solved.
    pub fn states(&self) -> Vec<(State, Standing)> {
        let facts = self.facts();
        let mut all = Vec::new();
        for &oil in OilState::ALL {
            for &load in Load::ALL {
                for &functions in FunctionsState::ALL {
                    for &engine in EngineState::ALL {
                        for &filter in FilterState::ALL {
                            let state = State { load, oil, functions, engine, filter };
                            all.push((state, standing(&facts, state)));
                        }
                    }
                }
            }
        }
        all
    }
}

/// Whether a kind of head turns without work at all.
pub fn idles(kind: HeadKind) -> bool {
    !matches!(kind, HeadKind::Breaker | HeadKind::PlateCompactor)
}

/// The oil temperature of a state of the oil.
pub fn temperature_of(facts: &Facts, oil: OilState) -> ThermodynamicTemperature {
    match oil {
        OilState::Cold => facts.conditions.cold,
        OilState::Working => facts.conditions.working,
        OilState::Hot => facts.conditions.hot,
    }
}

/// What the installation does in one state.
fn standing(facts: &Facts, state: State) -> Standing {
    if state.load == Load::Free && !idles(facts.head.kind) {
        return Standing::NoSuchPoint { because: NoPoint::NoIdle };
    }
    let mut functions = None;
    if state.functions == FunctionsState::Busy {
        functions = facts.functions_at_work();
        if functions.is_none() {
            return Standing::NotKnown { missing: vec![FactId::Functions] };
        }
    }
    let machine = MachineState {
        filter: Some(if state.filter == FilterState::Clean { Element::Clean } else { Element::Blocked }),
        high_idle: state.engine == EngineState::HighIdle,
        functions,
    };
    let mut facts = facts.clone();
    facts.state = machine;
    let sample = Sample::new(Corner::Likely);
    let (circuit, balanced) = balanced(&facts, &sample, state.load, temperature_of(&facts, state.oil));
    let missing = sample.missing();
    if !missing.is_empty() {
        return Standing::NotKnown { missing };
    }
    match balanced {
        Balanced::NoSuchPoint => Standing::NoSuchPoint { because: NoPoint::NothingEndsThePressure },
        Balanced::Turns(at) => {
            let powers = powers(&facts, &circuit, &at);
            Standing::Turns {
                nodes: nodes(&facts, &circuit, &at),
                rotor_speed: facts.nominal_motor().map(|motor| Amount::of(motor.rotor_speed(at.flow))),
                shaft_power: powers.map(|(shaft, _)| Amount::of(shaft)),
                heat: powers.map(|(_, heat)| Amount::of(heat)),
            }
        }
        Balanced::Stalls(at) => Standing::Stalls {
            nodes: nodes(&facts, &circuit, &at),
            heat: powers(&facts, &circuit, &at).map(|(_, heat)| Amount::of(heat)),
        },
    }
}

/// The circuit at likely figures and what it does with a load.
pub fn balanced(
    facts: &Facts,
    sample: &Sample,
    load: Load,
    temperature: ThermodynamicTemperature,
) -> (Rc<Drawn>, Balanced) {
    let circuit = facts.circuit(sample, Extreme::LeastFlow, temperature);
    let balanced = match load {
        Load::Free => circuit.balance(facts.free_difference(sample)),
        Load::Working => circuit.balance(facts.working_difference(sample, &circuit)),
        Load::Stalled => circuit.stalled().map_or(Balanced::NoSuchPoint, Balanced::Stalls),
    };
    (circuit, balanced)
}

/// Power at the motor's shaft and into the oil; none of a breaker, whose blows are no shaft, and where efficiencies are
/// missing.
pub fn powers(facts: &Facts, circuit: &hydraulics::Circuit, at: &Operating) -> Option<(Power, Power)> {
    powers_by(facts, &Sample::new(Corner::Likely), circuit, at)
}

/// Power at the motor's shaft and into the oil, with the values of a sample.
pub fn powers_by(
    facts: &Facts,
    sample: &Sample,
    circuit: &hydraulics::Circuit,
    at: &Operating,
) -> Option<(Power, Power)> {
    if facts.is_impact() {
        return None;
    }
    let ledger = booked(facts, sample, circuit, at, &facts.motor_by_its_efficiencies(sample));
    sample.missing().is_empty().then(|| (ledger.rotor, ledger.warms()))
}

/// Where the power of a solved point goes, at likely efficiencies of all but the motor.
pub fn booked(facts: &Facts, sample: &Sample, circuit: &hydraulics::Circuit, at: &Operating, motor: &Motor) -> Ledger {
    let pumps = sample.take(&facts.pump_efficiency, End::Low);
    let range = facts.practice.range::<Ratio>(AssumptionId::FunctionsUseful);
    let useful = range.map_or(Ratio::from_si(0.5), |range| range.nominal);
    circuit.ledger(at, motor, pumps, useful)
}

/// Flow and pressure at every node.
fn nodes(facts: &Facts, circuit: &hydraulics::Circuit, at: &Operating) -> Vec<NodeReading> {
    let mut all = Vec::new();
    let mut note = |node: Node, flow: VolumeRate, pressure: Pressure| {
        // A line of several pieces begins once.
        if all.last().is_none_or(|last: &NodeReading| last.node != node) {
            all.push(NodeReading { node, flow: Amount::of(flow), pressure: Amount::of(pressure) });
        }
    };
    note(Node::Pump, at.pumped, circuit.at_pumps(at));
    let (supply, back) = facts.nodes();
    let mut pressure = at.supply;
    for (node, piece) in supply.zip(circuit.supply.pieces()) {
        note(node, at.flow, pressure);
        // Where nothing flows, nothing is lost on the way.
        pressure = (pressure - piece.loss(at.flow, &circuit.oil)).max(at.inlet);
    }
    note(Node::MotorInlet, at.flow, at.inlet);
    let (returned, mut pressure) = (circuit.returned(at.flow), at.outlet);
    for (node, piece) in back.zip(circuit.back.pieces()) {
        note(node, returned, pressure);
        if node != Node::Tank {
            pressure -= piece.loss(returned, &circuit.oil);
        }
    }
    if let Some(case) = at.case {
        note(Node::Case, at.flow - returned, case);
    }
    let over = circuit.over_relief(at);
    if over.si() > 0.0 {
        let behind = circuit.relief.map_or(Pressure::from_si(0.0), |relief| relief.behind);
        note(Node::Relief, over, at.supply - behind);
    }
    if let Some((flow, pressure)) = circuit.to_functions(at) {
        note(Node::Functions, flow, pressure);
    }
    all
}
