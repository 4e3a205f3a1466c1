//! What a change leaves of facts: a search gathers anew only what a change touches.

use super::memory::{Circuits, KnownResistances, KnownWays};
use super::{Facts, Flows, Reliefs, warm_enough};
use crate::setup::Setup;
use std::rc::Rc;
use table::{ChangeId, Circuit};

/// What of the facts changes touch; a test of the search holds it against gathering all of them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Touched {
    /// What bounds the flow.
    flow: bool,
    /// What bounds the pressure.
    relief: bool,
    /// The lines to the head and back, with what stands in them.
    lines: bool,
    /// The motor's drain.
    case_line: bool,
    /// From which oil temperature on full speed is asked.
    warm_up: bool,
    /// Pumps, engine or oil, and with them all the rest.
    rest: bool,
}

impl Touched {
    /// Nothing.
    pub const NOTHING: Self =
        Self { flow: false, relief: false, lines: false, case_line: false, warm_up: false, rest: false };
    const FLOW: Self = Self { flow: true, ..Self::NOTHING };
    const RELIEF: Self = Self { relief: true, ..Self::NOTHING };
    const LINES: Self = Self { lines: true, ..Self::NOTHING };

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
            ChangeId::CaseLine => Self { case_line: true, ..Self::NOTHING },
            ChangeId::WarmUp => Self { warm_up: true, ..Self::NOTHING },
            ChangeId::EngineSpeed | ChangeId::PriorityShare | ChangeId::OilChange => {
                Self { rest: true, ..Self::NOTHING }
            }
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
        Self {
            flow: self.flow || other.flow,
            relief: self.relief || other.relief,
            lines: self.lines || other.lines,
            case_line: self.case_line || other.case_line,
            warm_up: self.warm_up || other.warm_up,
            rest: self.rest || other.rest,
        }
    }

    /// Whether a circuit comes out otherwise than before.
    fn moves_circuits(self) -> bool {
        self.flow || self.relief || self.lines || self.case_line
    }
}

impl<'a> Facts<'a> {
    /// The facts for a search of a machine of which changes touched only so much since these were gathered.
    pub fn after<'b>(&self, touched: Touched, setup: Setup<'b>) -> Facts<'b>
    where
        'a: 'b,
    {
        if touched.rest {
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
        if touched.flow {
            let Flows { set, reachable, limit } = Flows::of(carrier, circuit, &self.practice, self.pumps);
            (facts.flow, facts.flow_reachable, facts.flow_limit) = (set, reachable, limit);
        }
        if touched.relief {
            let Reliefs { valve, protection, left } = Reliefs::of(carrier, circuit, &self.practice);
            (facts.valve_relief, facts.protection, facts.relief) = (valve, protection, left);
        }
        if touched.case_line {
            facts.case_line = facts.case_pieces().into();
        }
        if touched.warm_up {
            facts.warm_enough = warm_enough(circuit, &self.practice);
        }
        if touched.lines {
            facts.supply = facts.supply_pieces().into();
        }
        // What stands in the return is usually chosen for the circuit's flow.
        if touched.lines || touched.flow && facts.chosen_for() != self.chosen_for() {
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
