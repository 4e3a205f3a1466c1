//! What a circuit consists of: the parts that a machine and an attachment state between pump and tank, before or after the
//! changes, and which change adds or sets which. How they are drawn is the drawing's.

mod gather;

use fit::facts::drains;
use fit::{Change, Pairing};
use quantity::{Amount, put_in_order_by, string_enum};
use table::{Carrier, ChangeId, Circuit, ExtraValve, Head, MotorKind, PumpControl, ReliefRole, ReturnRoute, Ways};

string_enum! {
    /// A part of a circuit.
    "part" pub enum Part {
        /// The oil tank.
        Tank = "tank",
        /// The pumps that feed the circuit.
        Pump = "pump",
        /// What has its oil before any head: steering, brakes, pilot supply.
        First = "first",
        /// The relief that guards the circuit.
        Relief = "relief",
        /// The machine's functions.
        Functions = "functions",
        /// The priority flow divider.
        Divider = "divider",
        /// What tells the pump that oil is wanted.
        Demand = "demand",
        /// The spool of the control valve.
        Spool = "spool",
        /// What bars the reverse direction.
        ReverseLock = "reverse-lock",
        /// A sealed flow regulator.
        FlowLimit = "flow-limit",
        /// Another tool on the same spool.
        Tool = "tool",
        /// The valves that shut it off.
        ShutOff = "shut-off",
        /// The relief on its side.
        ToolRelief = "tool-relief",
        /// The valve that sends the return past the spool.
        Changeover = "changeover",
        /// The line to the head.
        SupplyLine = "supply-line",
        /// The line back.
        ReturnLine = "return-line",
        /// A low-pressure relief on the return.
        ReturnRelief = "return-relief",
        /// The machine's own filter in the return.
        MachineFilter = "machine-filter",
        /// A filter of the circuit's own.
        OwnFilter = "own-filter",
        /// The machine's own cooler.
        MachineCooler = "machine-cooler",
        /// A cooler of the circuit's own.
        OwnCooler = "own-cooler",
        /// The diverter for a head's other functions.
        Diverter = "diverter",
        /// The valve block on the head for them.
        DoorBlock = "door-block",
        /// The door, tilt or rotation that they drive.
        Door = "door",
        /// The couplings in supply and return.
        Couplings = "couplings",
        /// The line from the motor's housing to the tank.
        CaseLine = "case-line",
        /// The end of a drain that has no line.
        CasePlug = "case-plug",
        /// A relief of the head's own.
        HeadRelief = "head-relief",
        /// The head's own valve, on and off.
        OnOff = "on-off",
        /// The check valve over which a rotor runs down.
        RunDownCheck = "run-down-check",
        /// The head's motor, or impact piston.
        Motor = "motor",
    }
}

string_enum! {
    /// How a part comes into the circuit.
    "state of a part" pub enum State {
        /// It stands.
        Stands = "stands",
        /// A change adds it.
        Added = "added",
        /// Nobody states it, and it must be there all the same.
        NotStated = "not-stated",
    }
}

/// A part with what is to be told of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitted {
    /// The part itself.
    pub part: Part,
    /// How it comes into the circuit.
    pub state: State,
    /// The numbers of the changes that add or set it, in the order of the change list, from 1.
    pub numbers: Vec<usize>,
    /// What it is set to, or at which it opens.
    pub set: Option<Amount>,
    /// What the table calls it.
    pub name: Option<String>,
}

/// The parts of a circuit, and what decides how they hang together.
#[expect(clippy::struct_excessive_bools, reason = "plain facts, each by itself")]
#[derive(Clone, Debug, PartialEq)]
pub struct Schema {
    /// The parts, each once, in the order of [`Part`].
    pub parts: Vec<Fitted>,
    /// How many pumps feed it; at least one.
    pub pumps: usize,
    /// Whether their flow is commanded.
    pub variable: bool,
    /// Where the return goes, where that is stated.
    pub route: Option<ReturnRoute>,
    /// Whether a return past the spool enters the machine's filter and cooler manifold.
    pub joins: bool,
    /// Whether oil can be sent both ways.
    pub two_way: bool,
    /// Whether the relief guards the valve before the spool rather than a port behind it.
    pub guards_valve: bool,
    /// How many other tools hang on the spool.
    pub tools: usize,
    /// Whether the head strikes rather than turns.
    pub strikes: bool,
    /// Whether the motor's housing drains outside.
    pub drains: bool,
}

impl Schema {
    /// The circuit of a machine with a head. `changes` are those that have been made to it already, in working order; none for
    /// the machine as it is.
    pub fn of(carrier: &Carrier, circuit: &Circuit, head: &Head, changes: &[Change]) -> Self {
        let mut schema = Self {
            parts: Vec::new(),
            pumps: circuit.pumps.len().max(1),
            variable: carrier
                .pumps
                .iter()
                .any(|pump| circuit.pumps.contains(&pump.id) && pump.control.is_some_and(|c| c != PumpControl::Fixed)),
            route: circuit.return_path.route,
            joins: false,
            two_way: circuit.ways == Some(Ways::Two),
            guards_valve: circuit.divider.is_none()
                && !matches!(circuit.relief_role, Some(ReliefRole::WorkLimit | ReliefRole::Shock)),
            tools: circuit.shared_with.as_ref().map_or(0, Vec::len),
            strikes: head.motor.as_ref().and_then(|motor| motor.kind) == Some(MotorKind::Impact),
            drains: drains(head),
        };
        let direct = schema.route == Some(ReturnRoute::Direct);
        schema.joins = direct && circuit.return_path.through_filter == Some(true);
        schema.source(carrier, circuit);
        schema.valves(circuit);
        let bypasses = |change: &Change| matches!(change.id, ChangeId::DirectReturn | ChangeId::FilterReturn);
        if changes.iter().any(bypasses) && !schema.has(Part::Changeover) {
            schema.put(Part::Changeover, true, None, None);
        }
        schema.way_back(carrier, circuit);
        schema.of_head(carrier, circuit, head);
        for (index, change) in changes.iter().enumerate() {
            schema.mark(index + 1, change);
        }
        put_in_order_by(&mut schema.parts, |fitted| fitted.part);
        schema
    }

    /// That of a pairing: as it is, and after the changes where there are any. `carrier` is the machine as it is, the same that was
    /// judged. A machine that states no circuit has what every circuit has, all of it not stated.
    pub fn of_pairing(pairing: &Pairing, carrier: &Carrier, head: &Head) -> (Self, Option<Self>) {
        let place = |carrier: &Carrier| -> Circuit {
            let named = pairing.circuit.as_ref().and_then(|id| carrier.circuit(id));
            named.or(carrier.circuits.first()).cloned().unwrap_or_else(fit::unknown_circuit)
        };
        let before = Self::of(carrier, &place(carrier), head, &[]);
        let changed = pairing.changed.as_deref();
        let after = changed.map(|changed| Self::of(changed, &place(changed), head, &pairing.changes));
        (before, after)
    }

    /// A part, if it is there.
    pub fn get(&self, part: Part) -> Option<&Fitted> {
        self.parts.iter().find(|fitted| fitted.part == part)
    }

    /// Whether a part is there.
    pub fn has(&self, part: Part) -> bool {
        self.get(part).is_some()
    }
}

/// The parts that a change puts into a circuit.
pub fn adds(change: &Change) -> &'static [Part] {
    match change.id {
        // A new line brings couplings of its bore with it.
        ChangeId::DirectReturn | ChangeId::FilterReturn => &[Part::Changeover, Part::ReturnLine],
        ChangeId::ReturnLine => &[Part::ReturnLine],
        ChangeId::ReturnFilter => &[Part::OwnFilter],
        ChangeId::CaseLine => &[Part::CaseLine],
        ChangeId::FlowLimit => &[Part::FlowLimit],
        ChangeId::PriorityShare => &[Part::Divider, Part::Relief],
        ChangeId::DividerRelief => &[Part::Relief],
        ChangeId::OwnRelief => &[Part::HeadRelief],
        ChangeId::IsolateTool => &[Part::ShutOff, Part::ToolRelief],
        ChangeId::ToolRelief => &[Part::ToolRelief],
        ChangeId::Couplings => &[Part::Couplings],
        ChangeId::SupplyLine | ChangeId::HoseClass => &[Part::SupplyLine],
        ChangeId::DemandSignal => &[Part::Demand],
        ChangeId::ReverseLock => &[Part::ReverseLock],
        ChangeId::ReturnRelief => &[Part::ReturnRelief],
        ChangeId::MakeUpCheck => &[Part::RunDownCheck],
        ChangeId::Cooler => &[Part::OwnCooler],
        ChangeId::DoorCircuit => match change.valve {
            Some(ExtraValve::HeadBlock) => &[Part::DoorBlock],
            _ => &[Part::Diverter],
        },
        ChangeId::MachineFlowSetting
        | ChangeId::DividerFlow
        | ChangeId::DividerVent
        | ChangeId::UnloadValve
        | ChangeId::EngineSpeed
        | ChangeId::WarmUp
        | ChangeId::ReliefSetting
        | ChangeId::OilChange
        | ChangeId::Harness
        | ChangeId::Guarding
        | ChangeId::MountingKit => &[],
    }
}

/// The part that a change sets anew without adding one.
pub fn sets(change: ChangeId) -> Option<Part> {
    match change {
        ChangeId::MachineFlowSetting => Some(Part::Spool),
        ChangeId::EngineSpeed => Some(Part::Pump),
        ChangeId::DividerFlow | ChangeId::DividerVent => Some(Part::Divider),
        // It vents the relief, which then lets the oil through.
        ChangeId::ReliefSetting | ChangeId::UnloadValve => Some(Part::Relief),
        ChangeId::WarmUp | ChangeId::OilChange => Some(Part::Tank),
        _ => None,
    }
}
