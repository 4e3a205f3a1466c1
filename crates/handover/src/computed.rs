//! What a rig is compared with: the figures of the machine as it is computed, and which piece of its circuit is what.

use fit::Node;
use fit::assume::Duty;
use fit::facts::Facts;
use fit::installation::heat_up::HeatUp;
use hydraulics::Motor;
use quantity::{Power, Pressure, Ratio, ThermodynamicTemperature, VolumeRate};

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
