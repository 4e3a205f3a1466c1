//! A machine with its head as it really stands: the circuit in its present oil, the engine, the motor, and what may be wrong with
//! each. Faults and tolerances are functions from rig to rig; what instruments read on it is solved by the circuit like anything
//! else.

use super::Measurement;
use super::computed::{Computed, Places};
use super::plan::{WARMED_MINUTES, through_tester};
use super::reads::Reads;
use fit::Load;
use fit::installation::heat_up::Otherwise;
use hydraulics::balance::{Balanced, Functions, Order};
use hydraulics::pump::CutOff;
use hydraulics::{Circuit, Motor, Operating, Resistance};
use quantity::{
    AngularVelocity, Power, Pressure, Quantity, Ratio, ThermodynamicTemperature, Time, Unit, Until, VolumeRate, halved,
};

/// A machine with its head.
#[derive(Clone, Debug)]
pub(super) struct Rig {
    /// With oil as it is, engine at the speed stated for work, functions idle.
    pub circuit: Circuit,
    /// Whether the set flow rises with the engine.
    pub set_follows_engine: bool,
    /// What the functions take while they work, at which pressure and in which order.
    pub busy: Option<(Order, VolumeRate, Pressure)>,
    /// Where the pumps stand while nothing but the head wants oil and nobody tells them.
    pub untold: Option<Untold>,
    /// The engine.
    pub engine: Engine,
    /// The pressure difference over the motor running free; none of a head that never does.
    pub free: Option<Pressure>,
    /// The pressure difference over the motor at work.
    pub working: Pressure,
    /// The motor, where its size is known.
    pub motor: Option<Motor>,
    /// Losses beside the motor's own.
    pub losses: Losses,
    /// Where each coupling and line stands in the circuit's pieces.
    pub places: Places,
    /// What the heat is, as a multiple of what is computed.
    pub heat: f64,
    /// What coolers carry away, as a multiple of what is computed.
    pub cooler: f64,
    /// How much more than meant the tester's load valve holds.
    pub tester_off: Pressure,
}

/// What pumps do that are not told.
#[derive(Clone, Copy, Debug)]
pub(super) struct Untold {
    /// The share of their flow that they still give.
    pub stroke: f64,
    /// Where a load-sensing pump stands.
    pub standby: Option<Pressure>,
}

/// The engine's speeds.
#[derive(Clone, Copy, Debug)]
pub(super) struct Engine {
    /// As stated at work.
    pub stated: Option<AngularVelocity>,
    /// Whether its speed without load is stated too.
    pub idle_stated: bool,
    /// Without load, as a share of what is stated at work.
    pub free: f64,
    /// At work, as a share of the same.
    pub working: f64,
}

/// What is lost at the head, all zero on a sound one.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Losses {
    /// What the motor leaks besides, as a share of the flow at work; it rises with the pressure over it.
    pub worn: f64,
    /// What passes a valve beside the motor, as a share of the flow at work; it rises with the root of that pressure.
    pub beside: f64,
    /// How much slower the rotor turns at work than its drive says, as a share.
    pub slip: f64,
}

impl Rig {
    /// The circuit with the engine at a share of its stated speed, the pumps told or not.
    fn running(&self, speed: f64, told: bool) -> Circuit {
        let mut circuit = self.circuit.clone();
        circuit.source = circuit.source.at_engine_speed(speed);
        if self.set_follows_engine {
            circuit.source.set = circuit.source.set.map(|set| set * speed);
        }
        if let Some(untold) = self.untold.filter(|_| !told) {
            circuit.source.greatest *= untold.stroke;
            if let Some(standby) = untold.standby {
                let margin = standby * 0.5;
                circuit.source.cut_off = Some(CutOff::LoadSensing { pressure: standby, margin });
            }
        }
        circuit
    }

    fn speed(&self, load: Load) -> f64 {
        if load == Load::Free { self.engine.free } else { self.engine.working }
    }

    /// The pressure difference over the motor under a load.
    fn difference(&self, load: Load) -> Option<Pressure> {
        match load {
            Load::Free => self.free.map(|free| if free < self.working { free } else { self.working }),
            Load::Working => Some(self.working),
            Load::Stalled => None,
        }
    }

    /// The circuit with the head connected, and what it does under a load.
    pub fn connected(&self, computed: &Computed, load: Load) -> Option<(Circuit, Operating)> {
        let mut circuit = self.running(self.speed(load), false);
        let Some(difference) = self.difference(load) else {
            return (load == Load::Stalled).then(|| circuit.stalled().map(|at| (circuit, at))).flatten();
        };
        // What leaks besides leaves by the case line too.
        if let Some(drain) = &mut circuit.drain {
            let more = self.losses.worn * ratio(difference, computed.working);
            drain.share = (drain.share + more).min(0.9);
        }
        match circuit.balance(difference) {
            Balanced::Turns(mut at) => {
                at.case = circuit.drain.as_ref().map(|drain| housing(drain, &circuit, &at).1);
                Some((circuit, at))
            }
            Balanced::Stalls(at) => Some((circuit, at)),
            Balanced::NoSuchPoint => None,
        }
    }

    /// Everything that is read.
    pub fn reads(&self, computed: &Computed) -> Reads {
        use Measurement as M;
        let mut reads = Reads::default();
        let engine = self.engine;
        reads.put(M::EngineFree, engine.stated.filter(|_| engine.idle_stated).map(|speed| speed * engine.free));
        reads.put(M::EngineWorking, engine.stated.map(|speed| speed * engine.working));
        let [free, work, near] = computed.set;
        let tester = |load: Load, set: Option<Pressure>, told: bool| {
            set.map(|set| {
                let mut circuit = self.running(self.speed(load), told);
                if let (true, Some((order, wanted, pressure))) = (told, self.busy) {
                    circuit.functions = Some(Functions::Shared { order, wanted, pressure });
                }
                (through_tester(&circuit, (set + self.tester_off).max(Pressure::from_si(0.0))), circuit)
            })
        };
        reads.put(M::FlowFree, tester(Load::Free, free, false).map(|(flow, _)| flow));
        reads.put(M::FlowWorking, tester(Load::Working, work, false).map(|(flow, _)| flow));
        reads.put(M::FlowBusy, tester(Load::Working, work.filter(|_| self.busy.is_some()), true).map(|(flow, _)| flow));
        let last = tester(Load::Working, near, false);
        reads.put(M::Relief, last.as_ref().and_then(|(_, circuit)| circuit.stall_pressure()));
        reads.put(M::FlowNearRelief, last.map(|(flow, _)| flow));
        let mut connected = |load: Load, [pump, inlet, outlet, case, rotor]: [M; 5]| {
            let solved = self.connected(computed, load);
            if let Some((circuit, at)) = &solved {
                reads.put(pump, Some(circuit.at_pumps(at)));
                reads.put(inlet, Some(at.inlet));
                reads.put(outlet, Some(at.outlet));
                reads.put(case, at.case);
                reads.put(rotor, self.rotor(computed, load, at));
            }
            solved
        };
        let free = connected(Load::Free, [M::PumpFree, M::InletFree, M::OutletFree, M::CaseFree, M::RotorFree]);
        let work = connected(
            Load::Working,
            [M::PumpWorking, M::InletWorking, M::OutletWorking, M::CaseWorking, M::RotorWorking],
        );
        if let Some((circuit, at)) = &work {
            reads.put(M::CaseFlow, circuit.drain.as_ref().map(|drain| housing(drain, circuit, at).0));
            let shaft = self.motor.filter(|_| computed.rotor && computed.belt);
            reads.put(M::MotorWorking, shaft.map(|motor| motor.shaft_speed(self.turned(computed, Load::Working, at))));
        }
        reads.put(M::OilAfter, self.oil_after(computed, &[free, work, self.connected(computed, Load::Stalled)]));
        reads
    }

    /// The share of the flow at work that the motor does not turn, under a load.
    fn missed(&self, computed: &Computed, load: Load) -> f64 {
        let of_work = self.difference(load).map_or(0.0, |difference| ratio(difference, computed.working));
        self.losses.worn * of_work + self.losses.beside * of_work.sqrt()
    }

    /// The flow that turns the motor.
    fn turned(&self, computed: &Computed, load: Load, at: &Operating) -> VolumeRate {
        (at.flow - computed.flow * self.missed(computed, load)).max(VolumeRate::from_si(0.0))
    }

    fn rotor(&self, computed: &Computed, load: Load, at: &Operating) -> Option<AngularVelocity> {
        let motor = self.motor.filter(|_| computed.rotor)?;
        let turned = self.turned(computed, load, at);
        let slip = if load == Load::Working { self.losses.slip } else { 0.0 };
        Some(motor.rotor_speed(turned) * (1.0 - slip))
    }

    /// What warms the oil at a solved point.
    pub fn warms(&self, computed: &Computed, load: Load, solved: &(Circuit, Operating)) -> Power {
        let (circuit, at) = solved;
        let (motor, pumps, useful) = computed.efficiencies;
        let through = at.flow.si().max(1e-12);
        let turned = (1.0 - computed.flow.si() * self.missed(computed, load) / through).clamp(0.0, 1.0);
        let motor = Motor { volumetric: motor.volumetric * turned, ..motor };
        // The pumps' own leakage stands in their efficiency; what they leak besides comes on top.
        let at_pump = circuit.source.pump_pressure(at.supply);
        let (sound, sound_at) = computed.leak;
        let more = circuit.source.leak * ratio(at_pump, circuit.source.leak_at) - sound * ratio(at_pump, sound_at);
        circuit.ledger(at, &motor, pumps, useful).warms() + at_pump * more
    }

    /// The oil's temperature after the time at work, with what is warmer or colder than computed.
    fn oil_after(
        &self,
        computed: &Computed,
        solved: &[Option<(Circuit, Operating)>; 3],
    ) -> Option<ThermodynamicTemperature> {
        let warms = computed.warms.as_ref()?;
        let day = computed.day;
        let loads = [(day.free, Load::Free), (day.work, Load::Working), (day.stalled, Load::Stalled)];
        let mut more = Power::from_si(0.0);
        for ((solved, sound), (share, load)) in solved.iter().zip(computed.heats).zip(loads) {
            if let Some((solved, sound)) = solved.as_ref().zip(sound) {
                more += (self.warms(computed, load, solved) - sound) * share;
            }
        }
        let (heat, cooler) = (Ratio::from_si(self.heat), Ratio::from_si(self.cooler));
        let time = Time::from_si(Unit::Minute.to_si(WARMED_MINUTES));
        Some(warms.after(computed.oil, time, Otherwise { heat, more, cooler }))
    }
}

/// What runs off through a motor's housing, and the pressure in it: what cannot run off keeps back what leaks in, the more the
/// nearer the housing comes to the inlet.
fn housing(drain: &hydraulics::balance::DrainLine, circuit: &Circuit, at: &Operating) -> (VolumeRate, Pressure) {
    let leaked = if at.flow.si() > 0.0 { drain.leaked(at.flow) } else { drain.stalled };
    let pressure = |flow: VolumeRate| drain.line.pressure(flow, &circuit.oil);
    let open = pressure(leaked);
    if open.si() < 0.02 * at.inlet.si() {
        return (leaked, open);
    }
    let runs_off =
        |flow: f64| flow < leaked.si() * (1.0 - pressure(VolumeRate::from_si(flow)).si() / at.inlet.si().max(1.0));
    let (high, low) = halved((leaked.si(), 0.0), Until::Rounds(30), runs_off);
    let flow = VolumeRate::from_si(low.midpoint(high));
    (flow, pressure(flow))
}

fn ratio(a: Pressure, b: Pressure) -> f64 {
    if b.si() > 0.0 { a.si() / b.si() } else { 0.0 }
}

/// Multiplies what a piece costs.
pub(super) fn harder(line: &mut Resistance, pieces: &[usize], by: f64) {
    for &index in pieces {
        if let Some(piece) = line.pieces_mut().get_mut(index) {
            *piece = piece.times(by);
        }
    }
}
