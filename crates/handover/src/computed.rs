//! What a rig is compared with: the figures of the machine as it is computed, and which piece of its circuit is what.

use super::plan::NEAR_RELIEF;
use super::rig::{Engine, Rig};
use fit::assume::{Duty, duty};
use fit::draw::{Draw, Side, Stance};
use fit::facts::Facts;
use fit::installation::heat_up::HeatUp;
use fit::{Load, Node};
use hydraulics::Motor;
use quantity::{Displacement, Kind, Power, Pressure, Ratio, ThermodynamicTemperature, VolumeRate};
use table::AssumptionId;

/// Which piece of the circuit is what.
#[derive(Clone, Debug, Default)]
pub(super) struct Places {
    /// Of the supply: the couplings.
    pub coupling_in: Vec<usize>,
    /// Of the return: the couplings.
    pub coupling_back: Vec<usize>,
    /// Of the return: the hoses.
    pub hoses_back: Vec<usize>,
    /// Of the return: the filters.
    pub filters: Vec<usize>,
}

/// What a rig is compared with: figures of the machine as it is computed.
#[derive(Clone, Debug)]
pub(super) struct Computed {
    /// To what the tester's load valve is set: running free, at work, near the relief.
    pub set: [Option<Pressure>; 3],
    /// Flow through the head at work.
    pub flow: VolumeRate,
    /// Pressure difference over the motor at work.
    pub working: Pressure,
    /// Leakage of the pumps, at which pressure.
    pub leak: (VolumeRate, Pressure),
    /// What warms the oil running free, at work, stalled.
    pub heats: [Option<Power>; 3],
    /// How the oil warms.
    pub warms: Option<HeatUp>,
    /// The oil at the start.
    pub oil: ThermodynamicTemperature,
    /// How the head spends its day.
    pub day: Duty,
    /// Efficiencies of the motor and the pumps, and what is useful of what functions take.
    pub efficiencies: (Motor, Ratio, Ratio),
    /// Whether the head turns a rotor.
    pub rotor: bool,
    /// Whether a belt or gear is between motor and rotor.
    pub belt: bool,
}

impl Places {
    pub fn of(facts: &Facts) -> Self {
        let (supply, back) = facts.nodes();
        let supply: Vec<Node> = supply.collect();
        let back: Vec<Node> = back.collect();
        let all = |nodes: &[Node], wanted: Node| (0..nodes.len()).filter(|&i| nodes[i] == wanted).collect();
        Self {
            coupling_in: all(&supply, Node::SupplyCoupling),
            coupling_back: all(&back, Node::MotorOutlet),
            hoses_back: all(&back, Node::ReturnLine),
            filters: all(&back, Node::ReturnFilter),
        }
    }
}

impl Computed {
    pub fn of(facts: &Facts, rig: &Rig, oil: ThermodynamicTemperature) -> Self {
        let none = VolumeRate::from_si(0.0);
        let draw = Draw::new(Stance::Nominal);
        // The load valve is set by the plan's figures, which hold at the stated speed of the engine.
        let plainly = Rig { engine: Engine { free: 1.0, working: 1.0, ..rig.engine }, ..rig.clone() };
        let range = facts.practice.range::<Ratio>(AssumptionId::FunctionsUseful);
        let useful = range.map_or(Ratio::from_si(0.5), |range| range.nominal);
        let motor = if facts.is_impact() {
            // Half of what passes a breaker is blow (taken like the functions' useful part; common practice, no published
            // source).
            Motor { displacement: Displacement::from_si(1.0), volumetric: 1.0, hydromechanical: 0.5, ratio: 1.0 }
        } else {
            facts.motor_by_its_efficiencies(&draw)
        };
        let drive = facts.ratio.fact.interval().map(|ratio| ratio.nominal.si());
        let mut computed = Self {
            set: [None; 3],
            flow: none,
            working: rig.working,
            leak: (rig.circuit.source.leak, rig.circuit.source.leak_at),
            heats: [None; 3],
            warms: HeatUp::of(facts).ok(),
            oil,
            day: duty(facts.head.kind),
            efficiencies: (motor, draw.take(&facts.pump_efficiency(), Side::Low), useful),
            rotor: facts.has_rotor(),
            belt: drive.is_some_and(|drive| (drive - 1.0).abs() >= 1e-9),
        };
        let inlet = |load| plainly.connected(&computed, load).map(|(_, at)| at.inlet);
        let set = [inlet(Load::Free), inlet(Load::Working), rig.circuit.dead_pressure().map(|dead| dead * NEAR_RELIEF)];
        computed.set = set;
        computed.flow = plainly.connected(&computed, Load::Working).map_or(none, |(_, at)| at.flow);
        let heat = |load| rig.connected(&computed, load).map(|solved| rig.warms(&computed, load, &solved));
        computed.heats = [heat(Load::Free), heat(Load::Working), heat(Load::Stalled)];
        computed
    }
}
