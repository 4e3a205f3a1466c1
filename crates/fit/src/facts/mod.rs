//! Everything that one carrier, one of its auxiliary circuits and one head say about the circuit between them, each
//! fact known, assumed or missing; and the circuit that a sample of them makes.

mod changed;
mod drains;
mod ends;
mod extreme;
mod lines;
mod memory;
mod outputs;
mod pieces;
mod pumps;
mod read;
mod source;
mod stated;
mod steps;
mod ways;

use super::assume::{PUBLISHED_FLOW, PUBLISHED_MASS, PUBLISHED_PRESSURE, Practice, REGULATOR};
use super::sample::{Corner, End, Parameter, Sample};
use super::setup::Setup;
use super::trace::{Aspect, InputRecord, Trace, Worked};
use super::{Conditions, FactId, Node};
pub use changed::Touched;
pub use drains::drains;
pub use extreme::Extreme;
use hydraulics::balance::{DrainLine, Functions, Order};
use hydraulics::case_line::steady_leakage;
use hydraulics::line::OilSpan;
use hydraulics::{Element, Motor, OilCurve, Relief, Resistance};
pub(crate) use memory::Circuits;
pub use memory::Drawn;
use memory::{KnownResistances, KnownWays};
pub use pieces::either_line_is_fed;
use pieces::{PieceFact, resistance};
use pumps::{commanded, cut_off, idle_ratio, margin, pump_flow, pump_power, rated_pressure, reachable};
pub use pumps::{least_rated, rated_pressure_of};
use quantity::shop::celsius;
use quantity::{
    AngularVelocity, Displacement, Fact, Interval, KinematicViscosity, Mass, Power, Pressure, Provenance, Quantity,
    Ratio, Source, SpreadFrom, Stated, ThermodynamicTemperature, Tolerance, Unit, VolumeRate,
};
use smallvec::SmallVec;
use stated::{at_most_one, interval_to_one};
pub use stated::{known, limit, of_class};
use std::cell::RefCell;
use std::rc::Rc;
pub use steps::Pressures;
use table::{self, AssumptionId, Carrier, FedFrom, Head, HeadKind, Limits, MotorKind, PressureBasis, PumpControl};
use ways::Ways;

/// One carrier's circuit and one head, as facts.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// The carrier.
    pub carrier: &'a Carrier,
    /// The auxiliary circuit.
    pub circuit: &'a table::Circuit,
    /// The head.
    pub head: &'a Head,
    /// Oil temperatures and shop.
    pub conditions: &'a Conditions,
    /// The ranges of practice.
    pub practice: Practice<'a>,
    /// Flow that the circuit gives at working speed.
    pub flow: Parameter<VolumeRate>,
    /// Flow to which an operator can turn it up without tools.
    pub flow_reachable: Parameter<VolumeRate>,
    /// A sealed regulator.
    pub flow_limit: Option<Parameter<VolumeRate>>,
    /// Flow of the pumps, where they are stated.
    pub pumps: Option<Parameter<VolumeRate>>,
    /// High idle over working speed.
    pub idle_ratio: Parameter<Ratio>,
    /// Leakage at the pumps' rated pressure and working speed as a share of their flow.
    pub leak: Parameter<Ratio>,
    /// The pressure for which the pumps are rated: of several the one that makes their leakages together what they are.
    pub rated_pressure: Parameter<Pressure>,
    /// Hydraulic power that the pumps of this circuit may give.
    pub power: Parameter<Power>,
    /// Full-flow pressure of the valve's relief, or of that on a divider's port.
    pub valve_relief: Parameter<Pressure>,
    /// Full-flow pressure that the head must be rated for: the lower of that and of a relief block of its own. What lowers the pressure
    /// by accident protects nobody: another tool's relief, a leak, a power limit. Nor does a pump's cut-off count: the table's figure
    /// may as well be what the pump itself is rated for.
    pub protection: Parameter<Pressure>,
    /// Full-flow pressure up to which the head can work: the lowest of that and of the relief of another tool that is not shut off.
    pub relief: Parameter<Pressure>,
    /// The lowest pressure at which one of the pumps cuts off; none of fixed ones.
    pub cut_off: Option<Parameter<Pressure>>,
    /// What its pumps keep above the load, where they sense it.
    pub margin: Parameter<Pressure>,
    /// Its override.
    pub relief_override: Parameter<Ratio>,
    /// Pressure difference over the motor at work (or inlet pressure, see `basis`).
    pub working: Parameter<Pressure>,
    /// Pressure difference over the idling motor.
    pub free: Parameter<Pressure>,
    /// Viscosity of the oil at 40 °C.
    pub oil: Parameter<KinematicViscosity>,
    /// The motor's displacement.
    pub displacement: Parameter<Displacement>,
    /// η_v.
    pub volumetric: Parameter<Ratio>,
    /// η_hm.
    pub hydromechanical: Parameter<Ratio>,
    /// Rotor turns per motor turn.
    pub ratio: Parameter<Ratio>,
    /// The oil temperature from which full speed is asked: that of practice, or the one to which the machine is idled warm.
    pub warm_enough: ThermodynamicTemperature,
    /// How the pumps are commanded, when all say the same.
    commanded: Option<PumpControl>,
    /// Pressure in the tank.
    pub tank_pressure: Parameter<Pressure>,
    /// Efficiency of the pumps.
    pub pump_efficiency: Parameter<Ratio>,
    /// Over which share of its cut-off a pump's flow ends.
    cut_off_band: Parameter<Ratio>,
    /// What leaks through the motor into its housing, as a share of its flow.
    case_share: Parameter<Ratio>,
    /// In which state the machine is looked at, beyond what a scenario leans to.
    pub state: MachineState,
    supply: Rc<[(Node, PieceFact)]>,
    back: Rc<[(Node, PieceFact)]>,
    case_line: Rc<[PieceFact]>,
    oils: Rc<RefCell<Oils>>,
    /// What was made of all these, and of supply and back alone: facts in which something is changed get memories of their own.
    circuits: Circuits,
    ways: KnownWays,
    ways_back: KnownResistances,
    /// What keeps all that is taken of them; mostly nothing does.
    trace: Option<Rc<Trace>>,
}

/// What bounds the flow of a circuit.
struct Flows {
    set: Parameter<VolumeRate>,
    reachable: Parameter<VolumeRate>,
    limit: Option<Parameter<VolumeRate>>,
}

impl Flows {
    fn of(
        carrier: &Carrier,
        circuit: &table::Circuit,
        practice: &Practice,
        pumps: Option<Parameter<VolumeRate>>,
    ) -> Self {
        // Ahead of the valve all that the pumps give is there; the spool's figure no longer holds.
        let through_valve = circuit.flow.as_ref().filter(|_| circuit.divider.is_none());
        let stated = known(through_valve, PUBLISHED_FLOW);
        // Through a valve of which no flow is stated less may come than the pumps give.
        let ahead_of_valve = circuit.divider.is_some() || circuit.fed_from == Some(FedFrom::PumpLine);
        let known_flow = stated.or(pumps.filter(|_| ahead_of_valve).map(|input| input.fact));
        let set = Parameter {
            physical_limits: (0.0, 0.1),
            ..of_class(FactId::CircuitFlow, known_flow, AssumptionId::CircuitFlow, carrier, practice)
        };
        let regulator = circuit.divider.as_ref().map(|divider| &divider.set_flow).or(circuit.flow_limit.as_ref());
        let limit = |flow: &Stated<VolumeRate>| {
            let fact = Fact::Known(flow.interval(REGULATOR), flow.said(REGULATOR));
            Parameter::new(FactId::CircuitFlow, fact).as_aspect(Aspect::Regulator)
        };
        Self { set, reachable: reachable(circuit, set, pumps), limit: regulator.map(limit) }
    }
}

/// What bounds the pressure of a circuit.
struct Reliefs {
    valve: Parameter<Pressure>,
    protection: Parameter<Pressure>,
    left: Parameter<Pressure>,
}

impl Reliefs {
    fn of(carrier: &Carrier, circuit: &table::Circuit, practice: &Practice) -> Self {
        let stated = known(circuit.relief.as_ref(), PUBLISHED_PRESSURE);
        let valve = Parameter {
            physical_limits: (0.0, 1e8),
            ..of_class(FactId::CircuitRelief, stated, AssumptionId::CircuitRelief, carrier, practice)
        };
        let protection = protected(valve, circuit);
        Self { valve, protection, left: left_by_tools(protection, circuit) }
    }
}

/// Oils that were asked for, by viscosity at 40 °C and temperature (SI).
type Oils = SmallVec<[((f64, f64), hydraulics::Oil); 4]>;

/// A state of the machine that is looked at by itself, rather than left to how a scenario leans.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct MachineState {
    /// The return filter; none: as the scenario leans.
    pub filter: Option<Element>,
    /// The engine at high idle rather than at working speed.
    pub high_idle: bool,
    /// What the functions take meanwhile, and at which pressure.
    pub functions: Option<(VolumeRate, Pressure)>,
}

/// The lower of a relief and of a relief block of the head's own behind it.
fn protected(valve: Parameter<Pressure>, circuit: &table::Circuit) -> Parameter<Pressure> {
    circuit.head_relief.as_ref().map_or(valve, |own| lower(valve, FactId::HeadRelief, Some(own)))
}

/// What reliefs of other tools on the same lines leave of a pressure. A tool of which it is not stated whether it is shut off counts
/// as on the lines.
fn left_by_tools(pressure: Parameter<Pressure>, circuit: &table::Circuit) -> Parameter<Pressure> {
    let open = |tool: &&table::SharedTool| tool.own_relief == Some(true) && tool.isolated != Some(true);
    let tools = circuit.shared_with.iter().flatten().filter(open);
    tools.fold(pressure, |lowest, tool| lower(lowest, FactId::SharedToolPressure, tool.greatest_pressure.as_ref()))
}

/// The lower of a pressure and a cap.
fn lower(lowest: Parameter<Pressure>, id: FactId, cap: Option<&Stated<Pressure>>) -> Parameter<Pressure> {
    match (lowest.fact, known(cap, PUBLISHED_PRESSURE)) {
        (_, None) => Parameter { physical_limits: lowest.physical_limits, ..Parameter::new(id, Fact::Missing) },
        (Fact::Known(a, source), Some(Fact::Known(b, other))) => {
            let least = |a: Pressure, b: Pressure| if b < a { b } else { a };
            let interval = Interval {
                low: least(a.low, b.low),
                nominal: least(a.nominal, b.nominal),
                high: least(a.high, b.high),
            };
            let (id, source) = if b.nominal < a.nominal { (id, other) } else { (lowest.id, source) };
            Parameter { id, fact: Fact::Known(interval, source), ..lowest }
        }
        // What is not stated may be lower still.
        _ => lowest,
    }
}

impl<'a> Facts<'a> {
    /// Gathers the facts.
    pub fn gather(
        carrier: &'a Carrier,
        circuit: &'a table::Circuit,
        head: &'a Head,
        conditions: &'a Conditions,
    ) -> Self {
        let motor = head.motor.as_ref();
        let motor_kind = motor.and_then(|m| m.kind);
        let practice =
            Practice { overrides: &conditions.assumptions, class: carrier.class, head: head.kind, motor: motor_kind };
        let pumps = pump_flow(carrier, circuit);
        let flows = Flows::of(carrier, circuit, &practice, pumps);
        let reliefs = Reliefs::of(carrier, circuit, &practice);
        let assumed = |id, known, assumption| Parameter::or_assumed(id, known, assumption, practice.range(assumption));
        let efficiency = |id, stated: Option<&Stated<Ratio>>, assumption| Parameter {
            physical_limits: (0.01, 1.0),
            ..Parameter::or_assumed(
                id,
                known(stated, Tolerance::both(0.02)).map(at_most_one),
                assumption,
                practice.range(assumption).map(interval_to_one),
            )
        };
        let mut facts = Self {
            carrier,
            circuit,
            head,
            conditions,
            practice,
            flow: flows.set,
            flow_reachable: flows.reachable,
            flow_limit: flows.limit,
            pumps,
            idle_ratio: idle_ratio(carrier, &practice),
            leak: assumed(FactId::PumpLeak, None, AssumptionId::PumpLeak),
            rated_pressure: rated_pressure(carrier, circuit, &practice),
            power: pump_power(carrier, circuit, &practice),
            valve_relief: reliefs.valve,
            protection: reliefs.protection,
            relief: reliefs.left,
            cut_off: cut_off(carrier, circuit, &practice),
            margin: margin(carrier, circuit, &practice),
            relief_override: assumed(FactId::ReliefOverride, None, AssumptionId::ReliefOverride),
            working: Parameter {
                physical_limits: (0.0, 1e8),
                ..limit(FactId::WorkingPressure, head.pressure.working.as_ref())
            },
            free: free_running(head, &practice),
            oil: Parameter::or_assumed(
                FactId::OilGrade,
                carrier.oil.as_ref().and_then(oil_fact),
                AssumptionId::OilViscosity,
                practice.range(AssumptionId::OilViscosity),
            ),
            displacement: Parameter {
                physical_limits: (1e-7, 1e-2),
                ..limit(FactId::MotorDisplacement, motor.and_then(|m| m.displacement.as_ref()))
            },
            volumetric: efficiency(
                FactId::MotorVolumetric,
                motor.and_then(|m| m.volumetric_efficiency.as_ref()),
                AssumptionId::MotorVolumetric,
            ),
            hydromechanical: efficiency(
                FactId::MotorHydromechanical,
                motor.and_then(|m| m.hydromechanical_efficiency.as_ref()),
                AssumptionId::MotorHydromechanical,
            ),
            ratio: Parameter {
                physical_limits: (0.01, 100.0),
                ..limit(FactId::MotorRatio, motor.and_then(|m| m.ratio.as_ref()))
            },
            warm_enough: warm_enough(circuit, &practice),
            commanded: commanded(carrier, circuit),
            tank_pressure: Parameter::or_assumed(
                FactId::TankPressure,
                known(carrier.tank.as_ref().and_then(|tank| tank.pressure.as_ref()), PUBLISHED_PRESSURE),
                AssumptionId::TankPressure,
                practice.range(AssumptionId::TankPressure),
            ),
            pump_efficiency: share_of_practice(FactId::PowerLimit, AssumptionId::PumpEfficiency, &practice),
            cut_off_band: share_of_practice(FactId::PumpCutOff, AssumptionId::CutOffBand, &practice),
            case_share: share_of_practice(FactId::CaseFlow, AssumptionId::CaseFlow, &practice),
            state: MachineState::default(),
            supply: Rc::default(),
            back: Rc::default(),
            case_line: Rc::default(),
            oils: Rc::default(),
            circuits: Circuits::default(),
            ways: KnownWays::default(),
            ways_back: KnownResistances::default(),
            trace: None,
        };
        facts.supply = facts.supply_pieces().into();
        facts.back = facts.return_pieces().into();
        facts.case_line = facts.case_pieces().into();
        facts
    }

    /// The machine and the head that they are of.
    pub fn setup(&self) -> Setup<'a> {
        let Self { carrier, circuit, head, conditions, .. } = *self;
        Setup { carrier, circuit, head, conditions }
    }

    /// These facts, of which nothing that is taken is kept.
    #[must_use]
    pub fn untraced(&self) -> Self {
        Self { trace: None, ..self.clone() }
    }

    /// These facts as a part of what other facts are asked for: all that is taken is kept together.
    #[must_use]
    pub fn traced_with(self, other: &Facts) -> Self {
        Self { trace: other.trace.clone(), ..self }
    }

    /// These facts with the circuits that were drawn of the same facts before.
    pub(crate) fn remembering(self, circuits: &Circuits) -> Self {
        Self { circuits: circuits.clone(), ..self }
    }

    /// What keeps all that is taken of them, where something does.
    pub(crate) fn trace(&self) -> Option<&Trace> {
        self.trace.as_deref()
    }

    /// These facts, with all that is taken of them kept.
    pub(crate) fn traced(&self) -> Self {
        Self { trace: Some(Rc::default()), ..self.clone() }
    }

    /// What something comes to that is worked out from these facts, with everything that it took.
    pub fn with_inputs<T>(&self, work: impl FnOnce(&Self) -> T) -> (T, Vec<InputRecord>) {
        let traced = self.traced();
        let value = work(&traced);
        let inputs = traced.trace().map(Trace::all).unwrap_or_default();
        (value, inputs)
    }

    /// A sample of them.
    pub fn sample(&self, corner: Corner) -> Sample<'_> {
        Sample::traced(corner, self.trace())
    }

    /// The head's mass window, flow window and the like, as limits.
    pub fn least_or_rated<Q: Quantity>(limits: &Limits<Q>, least: FactId) -> Parameter<Q> {
        limit(least, limits.least.as_ref().or(limits.rated.as_ref()))
    }

    /// The machine's operating mass. Of a machine that does not say, the range of its class is assumed: enough for a
    /// certain no, never for a yes.
    pub fn operating_mass(&self) -> Parameter<Mass> {
        let stated = known(self.carrier.operating_mass.as_ref(), PUBLISHED_MASS);
        let range = self.practice.range(AssumptionId::OperatingMass);
        Parameter::or_assumed(FactId::OperatingMass, stated, AssumptionId::OperatingMass, range)
    }

    /// The oil temperatures at which a check is solved: at the working one for likely figures, else from warm enough on, with
    /// lines that lose the most, or the least, that they do anywhere from there to the hottest.
    pub fn temperature(&self, sample: &Sample, warm: ThermodynamicTemperature) -> ThermodynamicTemperature {
        let Conditions { working, hot, .. } = *self.conditions;
        sample.sampler().temperature(Interval { low: warm, nominal: working, high: hot })
    }

    /// From the thickest oil, at a temperature, to the thinnest, at the hottest; none where one state of it is looked at.
    fn oil_span(&self, sample: &Sample, from: ThermodynamicTemperature) -> Option<OilSpan> {
        if !sample.sampler().bounds_oil() {
            return None;
        }
        let thin = self.oil_of(sample.take(&self.oil, End::Low), self.conditions.hot);
        let thick = self.oil_at(sample, from);
        (thin.viscosity < thick.viscosity).then_some(OilSpan { thick, thin })
    }

    /// The oil at a temperature, as thick as its grade may be.
    pub fn oil_at(&self, sample: &Sample, temperature: ThermodynamicTemperature) -> hydraulics::Oil {
        self.oil_of(sample.take(&self.oil, End::High), temperature)
    }

    /// How an oil of a viscosity at 40 °C thins: as its data sheet says for 100 °C, else as a mineral oil.
    pub fn oil_curve(&self, at_40: KinematicViscosity) -> OilCurve {
        let sheet = self.carrier.oil.as_ref().and_then(|oil| oil.viscosity_100);
        let own = sheet.and_then(|hot| OilCurve::through(celsius(40.0), at_40, celsius(100.0), hot.nominal).ok());
        own.unwrap_or_else(|| OilCurve::mineral(at_40))
    }

    /// An oil by its viscosity at 40 °C, at a temperature. The same few are asked for again and again, and each takes a
    /// dozen logarithms: they are remembered.
    fn oil_of(&self, at_40: KinematicViscosity, temperature: ThermodynamicTemperature) -> hydraulics::Oil {
        let key = (at_40.si(), temperature.si());
        let known = self.oils.borrow().iter().find(|(known, _)| *known == key).map(|(_, oil)| *oil);
        known.unwrap_or_else(|| {
            let oil = self.oil_curve(at_40).at(temperature);
            self.oils.borrow_mut().push((key, oil));
            oil
        })
    }

    /// The circuit in one scenario and one oil temperature. Where a trace is kept every sample of it is taken; else it is made once.
    pub fn circuit(&self, sample: &Sample, lean: Extreme, temperature: ThermodynamicTemperature) -> Rc<Drawn> {
        let make = |sample: &Sample| Rc::new(Drawn::of(self.circuit_of(sample, lean, temperature)));
        if self.remembers() { self.circuits.get(sample, (lean, temperature), make) } else { make(sample) }
    }

    /// Whether what a sample makes is remembered: not while a trace is kept, nor in a state that is looked at by itself.
    fn remembers(&self) -> bool {
        self.trace.is_none() && self.state == MachineState::default()
    }

    fn circuit_of(&self, sample: &Sample, lean: Extreme, temperature: ThermodynamicTemperature) -> hydraulics::Circuit {
        let relief_side = if lean == Extreme::LeastFlow { End::Low } else { End::High };
        // What makes more flow takes no credit for another tool's relief.
        let ends =
            if lean == Extreme::LeastFlow || !sample.sampler().bounds_oil() { &self.relief } else { &self.protection };
        let relief = sample.take(ends, relief_side);
        let relief = Relief::new(relief, sample.take(&self.relief_override, relief_side.other()).si());
        let supply = if lean == Extreme::LeastFlow { End::High } else { End::Low };
        if sample.sampler().bounds_oil() {
            // Named before the rest, whatever it is needed for.
            sample.take(&self.oil, End::Low);
            sample.take(&self.oil, End::High);
        }
        // For pressures in the return nothing that is lost on the way to the head is credited.
        let is_credited = || lean != Extreme::MostFlowAgainstReturn || self.oil_span(sample, temperature).is_none();
        let divider = self.divider_loss().filter(|_| is_credited());
        let behind = divider.map_or(Pressure::from_si(0.0), |loss| sample.take(&loss, supply));
        let source = self.source(sample, lean);
        let make = |sample: &Sample| self.ways_of(sample, lean, temperature);
        // A setting that is tried mostly leaves them as they are.
        let ways = if self.remembers() { self.ways.get(sample, (lean, temperature), make) } else { make(sample) };
        hydraulics::Circuit {
            source,
            relief: Some(Relief { behind, ..relief }),
            functions: self.busy(),
            supply: ways.supply,
            back: ways.back,
            drain: self.drain(sample, temperature),
            oil: ways.oil,
        }
    }

    fn ways_of(&self, sample: &Sample, lean: Extreme, temperature: ThermodynamicTemperature) -> Ways {
        let span = self.oil_span(sample, temperature);
        let losses = if lean == Extreme::MostFlow { End::Low } else { End::High };
        let supply = if lean == Extreme::LeastFlow { End::High } else { End::Low };
        let back = |sample: &Sample| {
            // By its own sample, so that what is remembered rests on the oil.
            let span = self.oil_span(sample, temperature);
            resistance(sample, self.back.iter().map(|(_, piece)| piece), losses, self.state.filter, span)
        };
        // Whoever counts high losses there has one way back.
        let of_back = if losses == End::Low { Extreme::MostFlow } else { Extreme::LeastFlow };
        Ways {
            supply: if lean == Extreme::MostFlowAgainstReturn && span.is_some() {
                Resistance::default()
            } else {
                resistance(sample, self.supply.iter().map(|(_, piece)| piece), supply, self.state.filter, span)
            },
            back: if self.remembers() {
                self.ways_back.get(sample, (of_back, temperature), back)
            } else {
                back(sample)
            },
            // What is no line goes by one oil: the thin one where little is lost.
            oil: match (lean, span) {
                (Extreme::MostFlow, Some(span)) => span.thin,
                _ => self.oil_at(sample, temperature),
            },
        }
    }

    /// The pressure difference over the motor at work. A figure stated at the inlet is less by the back pressure at the
    /// head's least flow; without a stated basis it is taken as a difference, which needs more.
    pub fn working_difference(&self, sample: &Sample, circuit: &hydraulics::Circuit) -> Pressure {
        let stated = sample.take(&self.working, End::High);
        if self.head.pressure.basis != Some(PressureBasis::Inlet) {
            return stated;
        }
        let least = self.head.flow.least.or(self.head.flow.rated).map_or(VolumeRate::from_si(0.0), |s| s.nominal);
        (stated - circuit.back.loss(least, &circuit.oil)).max(Pressure::from_si(0.0))
    }

    /// The pressure difference over the idling motor: never more than at work.
    pub fn free_difference(&self, sample: &Sample) -> Pressure {
        let free = sample.take(&self.free, End::Low);
        match self.working.fact.interval() {
            Some(working) if working.nominal < free => working.nominal,
            _ => free,
        }
    }

    /// The motor at nominal figures, for what is shown; none when its displacement is not known.
    pub fn nominal_motor(&self) -> Option<Motor> {
        self.motor(&Sample::new(Corner::Likely))
    }

    /// The motor of a sample.
    pub fn motor(&self, sample: &Sample) -> Option<Motor> {
        let motor = Motor {
            displacement: sample.take(&self.displacement, End::Low),
            volumetric: sample.take(&self.volumetric, End::Low).si(),
            hydromechanical: sample.take(&self.hydromechanical, End::Low).si(),
            ratio: sample.take(&self.ratio, End::Low).si(),
        };
        (!sample.lacks()).then_some(motor)
    }

    /// The functions at work beside the head, where that is looked at. Of a main valve that nobody describes the worse is
    /// taken: with load sensing the highest load starves, with an open centre the lowest pressure takes first. A divider gives the
    /// head its oil ahead of them.
    pub fn busy(&self) -> Option<Functions> {
        let (wanted, pressure) = self.state.functions?;
        Some(Functions::Shared { order: self.order_of_functions(), wanted, pressure })
    }

    /// In which order head and functions get their oil.
    pub fn order_of_functions(&self) -> Order {
        match self.control() {
            _ if self.circuit.divider.is_some() => Order::HeadFirst,
            Some(PumpControl::LoadSensing) => Order::PreCompensated,
            _ => Order::Parallel,
        }
    }

    /// What the functions need while the head works, and at which pressure; none unless both are stated.
    pub fn functions_at_work(&self) -> Option<(VolumeRate, Pressure)> {
        let (flow, pressure) = self.carrier.functions.as_ref().and_then(|f| f.least_flow.zip(f.pressure))?;
        Some((flow.nominal, pressure.nominal))
    }

    /// The motor as far as its power goes: by its efficiencies, whatever its size.
    pub fn motor_by_its_efficiencies(&self, sample: &Sample) -> Motor {
        Motor {
            displacement: Displacement::from_si(1.0),
            volumetric: sample.take(&self.volumetric, End::Low).si(),
            hydromechanical: sample.take(&self.hydromechanical, End::Low).si(),
            ratio: 1.0,
        }
    }

    /// The motor's leakage by its case line, at likely figures; at the worst no credit is taken for it, and the whole flow
    /// comes back through the return.
    fn drain(&self, sample: &Sample, temperature: ThermodynamicTemperature) -> Option<DrainLine> {
        let fitted = self.carrier.case_line.as_ref().is_some_and(|line| line.fitted);
        // A line that the machine happens to have drains no motor without a port for it.
        let drained = drains(self.head);
        if !sample.sampler().credits_drain() || !fitted || !drained {
            return None;
        }
        let none = VolumeRate::from_si(0.0);
        let through = self.flow.fact.interval().map(|flow| flow.nominal);
        let leaked = self.leaks(sample, through.unwrap_or(none), temperature);
        let line = self.case_line(sample);
        if self.head.outlet.case_flow.is_some() {
            return Some(DrainLine { share: 0.0, stated: leaked, stalled: leaked, line });
        }
        let share = (leaked / through?).si().clamp(0.0, 0.5);
        Some(DrainLine { share, stated: none, stalled: leaked, line })
    }

    /// What a motor leaks into its housing with oil at a temperature. In cold oil less leaks through the gaps; what would leak
    /// more in thinner oil than at work is stated for work too.
    pub fn leaks(
        &self,
        sample: &Sample,
        through_motor: VolumeRate,
        temperature: ThermodynamicTemperature,
    ) -> VolumeRate {
        let at_work = self.case_flow(sample, through_motor);
        let (working, now) = (self.oil_at(sample, self.conditions.working), self.oil_at(sample, temperature));
        steady_leakage(at_work, &working, &now).min(at_work)
    }

    /// Flow through the case line with oil at work: as stated, whatever the motor takes today, and then worn to twice that; else
    /// the range of practice of the motor's flow.
    pub fn case_flow(&self, sample: &Sample, through_motor: VolumeRate) -> VolumeRate {
        if let Some(stated) = &self.head.outlet.case_flow {
            // Worn motors leak twice as much (1.5 to 3 times); common practice, no published source.
            let worn = if sample.is_likely() { 1.0 } else { 2.0 };
            self.read(FactId::CaseFlow, Some(*stated));
            return sample.step(Worked::LeakedFlow, stated.nominal * worn);
        }
        sample.step(Worked::LeakedFlow, through_motor * sample.take(&self.case_share, End::High).si())
    }

    /// How the return of a breaker pulsates: mean of the square of its flow over the square of the mean.
    pub fn pulsation(&self, sample: &Sample) -> f64 {
        let range = self.practice.range::<Ratio>(AssumptionId::ReturnPulsation);
        let input = Parameter {
            physical_limits: (1.0, 10.0),
            ..Parameter::or_assumed(FactId::ReturnPulsation, None, AssumptionId::ReturnPulsation, range)
        };
        sample.take(&input, End::High).si()
    }

    /// The speed of the rotor that nothing may exceed.
    pub fn rotor_limit(&self) -> Parameter<AngularVelocity> {
        limit(
            FactId::RotorGreatestSpeed,
            self.head.motor.as_ref().and_then(|motor| motor.rotor_speed.greatest.as_ref()),
        )
    }

    /// Whether the head's kind has a rotor that could overspeed.
    pub fn has_rotor(&self) -> bool {
        self.head_kind().has_rotor()
    }

    /// Whether the head works by blows rather than by turning.
    pub fn is_impact(&self) -> bool {
        self.head.kind == HeadKind::Breaker || self.motor_kind() == Some(MotorKind::Impact)
    }
}

/// A share that nobody states.
fn share_of_practice(id: FactId, assumption: AssumptionId, practice: &Practice) -> Parameter<Ratio> {
    Parameter::or_assumed(id, None, assumption, practice.range(assumption))
}

fn warm_enough(circuit: &table::Circuit, practice: &Practice) -> ThermodynamicTemperature {
    let usual: ThermodynamicTemperature = practice.limit(AssumptionId::WarmEnough).nominal;
    let own = circuit.warm_up.map(|stated| stated.nominal);
    own.filter(|own| own.si() > usual.si()).unwrap_or(usual)
}

/// Pressure difference over the idling motor: a range of practice, or where practice has none a share of the working pressure;
/// missing where that is not stated.
fn free_running(head: &Head, practice: &Practice) -> Parameter<Pressure> {
    let range = practice.range::<Pressure>(AssumptionId::FreeRunning);
    if range.is_some() {
        return Parameter::or_assumed(FactId::FreeRunning, None, AssumptionId::FreeRunning, range);
    }
    let working = head.pressure.working.map(|stated| stated.interval(Tolerance::NONE));
    let share = practice.range::<Ratio>(AssumptionId::FreeRunningShare);
    let range = working.zip(share).map(|(working, share)| Interval {
        low: working.low * share.low,
        nominal: working.nominal * share.nominal,
        high: working.high * share.high,
    });
    Parameter::or_assumed(FactId::FreeRunning, None, AssumptionId::FreeRunningShare, range)
}

/// Viscosity at 40 °C: by the oil's own data sheet, else by its grade.
fn oil_fact(oil: &table::Oil) -> Option<Fact<KinematicViscosity>> {
    let forty = ThermodynamicTemperature::from_si(Unit::Celsius.to_si(40.0));
    // ISO 3448: each grade is its mid-point viscosity at 40 °C ± 10 %; a data sheet's figure is as good as that.
    let spread = Tolerance::both(0.10);
    if let Some(stated) = &oil.viscosity_40 {
        return known(Some(stated), spread);
    }
    let mid_point = OilCurve::of_grade(oil.grade?).viscosity(forty);
    let said = Provenance { source: Source::Published, spread: SpreadFrom::Practice };
    Some(Fact::Known(Interval::around(mid_point, spread), said))
}

impl<'a> Setup<'a> {
    /// What is known of it.
    pub fn facts(self) -> Facts<'a> {
        Facts::gather(self.carrier, self.circuit, self.head, self.conditions)
    }
}
