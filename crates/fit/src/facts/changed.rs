//! What a change leaves of facts: a search gathers anew only what a change touches.

use super::memory::{Circuits, KnownResistances, KnownWays};
use super::{Facts, Flows, Reliefs, warm_enough};
use crate::setup::Setup;
use std::rc::Rc;
use table::{ChangeId, Circuit};

/// What of the facts changes touch, a bit each; a test of the search holds it against gathering all of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Touched(u8);

impl Touched {
    /// Nothing.
    pub const NOTHING: Self = Self(0);
    /// What bounds the flow.
    const FLOW: Self = Self(1);
    /// What bounds the pressure.
    const RELIEF: Self = Self(1 << 1);
    /// The lines to the head and back, with what stands in them.
    const LINES: Self = Self(1 << 2);
    /// The motor's drain.
    const CASE_LINE: Self = Self(1 << 3);
    /// From which oil temperature on full speed is asked.
    const WARM_UP: Self = Self(1 << 4);
    /// Pumps, engine or oil, and with them all the rest.
    const REST: Self = Self(1 << 5);

    /// By a change.
    pub fn by(change: ChangeId) -> Self {
        match change {
            ChangeId::MachineFlowSetting | ChangeId::FlowLimit | ChangeId::DividerFlow => Self::FLOW,
            ChangeId::ReliefSetting
            | ChangeId::OwnRelief
            | ChangeId::DividerRelief
            | ChangeId::ToolRelief
            | ChangeId::IsolateTool => Self::RELIEF,
            ChangeId::DirectReturn
            | ChangeId::FilterReturn
            | ChangeId::ReturnLine
            | ChangeId::ReturnFilter
            | ChangeId::SupplyLine
            | ChangeId::Couplings => Self::LINES,
            ChangeId::CaseLine => Self::CASE_LINE,
            ChangeId::WarmUp => Self::WARM_UP,
            ChangeId::EngineSpeed | ChangeId::PriorityShare | ChangeId::OilChange => Self::REST,
            // What is read off the machine itself.
            ChangeId::HoseClass
            | ChangeId::Cooler
            | ChangeId::ReturnRelief
            | ChangeId::MakeUpCheck
            | ChangeId::ReverseLock
            | ChangeId::DoorCircuit
            | ChangeId::DemandSignal
            | ChangeId::DividerVent
            | ChangeId::UnloadValve
            | ChangeId::Harness
            | ChangeId::Guarding
            | ChangeId::MountingKit => Self::NOTHING,
        }
    }

    /// By one and another.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    fn has(self, part: Self) -> bool {
        self.0 & part.0 != 0
    }

    /// Whether a circuit comes out otherwise than before.
    fn moves_circuits(self) -> bool {
        self.has(Self::FLOW.and(Self::RELIEF).and(Self::LINES).and(Self::CASE_LINE))
    }
}

impl<'a> Facts<'a> {
    /// The facts for a search of a machine of which changes touched only so much since these were gathered.
    pub fn after<'b>(&self, touched: Touched, setup: Setup<'b>) -> Facts<'b>
    where
        'a: 'b,
    {
        if touched.has(Touched::REST) {
            return setup.facts();
        }
        let Setup { carrier, circuit, head, conditions } = setup;
        let mut facts = Facts {
            carrier,
            circuit,
            head,
            conditions,
            supply: Rc::clone(&self.supply),
            back: Rc::clone(&self.back),
            case_line: Rc::clone(&self.case_line),
            oils: Rc::clone(&self.oils),
            circuits: if touched.moves_circuits() { Circuits::default() } else { self.circuits.clone() },
            ways: self.ways.clone(),
            ways_back: self.ways_back.clone(),
            trace: None,
            ..*self
        };
        if touched.has(Touched::FLOW) {
            let Flows { set, reachable, limit } = Flows::of(carrier, circuit, &self.practice, self.pumps);
            (facts.flow, facts.flow_reachable, facts.flow_limit) = (set, reachable, limit);
        }
        if touched.has(Touched::RELIEF) {
            let Reliefs { valve, protection, left } = Reliefs::of(carrier, circuit, &self.practice);
            (facts.valve_relief, facts.protection, facts.relief) = (valve, protection, left);
        }
        if touched.has(Touched::CASE_LINE) {
            facts.case_line = facts.case_pieces().into();
        }
        if touched.has(Touched::WARM_UP) {
            facts.warm_enough = warm_enough(circuit, &self.practice);
        }
        if touched.has(Touched::LINES) {
            facts.supply = facts.supply_pieces().into();
        }
        // What stands in the return is usually chosen for the circuit's flow.
        if touched.has(Touched::LINES) || touched.has(Touched::FLOW) && facts.chosen_for() != self.chosen_for() {
            facts.back = facts.return_pieces().into();
            (facts.ways, facts.ways_back) = (KnownWays::default(), KnownResistances::default());
        }
        facts
    }

    /// These facts for a search with another flow set in the circuit: by its spool, a regulator or a divider that it has.
    pub fn with_flow_set<'b>(&self, circuit: &'b Circuit) -> Facts<'b>
    where
        'a: 'b,
    {
        self.after(Touched::FLOW, Setup { circuit, ..self.setup() })
    }

    /// These facts for a search with another pressure set in the circuit, by its relief or by one of the head's own.
    pub fn with_relief_set<'b>(&self, circuit: &'b Circuit) -> Facts<'b>
    where
        'a: 'b,
    {
        self.after(Touched::RELIEF, Setup { circuit, ..self.setup() })
    }
}
