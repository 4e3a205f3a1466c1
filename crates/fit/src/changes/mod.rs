//! The changes: each a function from carrier to carrier. The changed carrier is gathered, solved and checked again like
//! any other; nothing here says that a change helps.

mod asked;
mod catalogue;
mod changed;
mod hydraulic;
mod other;
mod settings;
mod slot;
mod source;

pub use catalogue::{Catalogue, ChangeOption, TANK_PORT, labour, usual_time};
pub use slot::{SLOTS, Slot};

use super::checks;
use super::facts::Facts;
use super::machine::Machine;
use super::setup::Setup;
use changed::Changed;
use quantity::Quantity;
use std::cell::OnceCell;
use table::{ChangeId, HeadKind, PumpControl, Ways};

/// Applies one option to a machine, solving its setting by what is known of it. None when it cannot be applied here. The facts are
/// asked for only where something is solved; where they keep a trace, the settings come with what they were solved from.
pub fn apply<'m: 'f, 'f>(
    machine: Machine<'m>,
    option: &ChangeOption,
    facts: impl Fn() -> &'f Facts<'m>,
) -> Changed<'m> {
    if !offers(machine.setup, option.id) {
        return None;
    }
    match option.id {
        ChangeId::DirectReturn => hydraulic::direct_return(machine, option),
        ChangeId::FilterReturn => hydraulic::filter_return(machine, option),
        ChangeId::ReturnLine => hydraulic::return_line(machine, option),
        ChangeId::ReturnFilter => hydraulic::return_filter(machine, option),
        ChangeId::Cooler => hydraulic::cooler(machine, option),
        ChangeId::ReturnRelief => hydraulic::return_relief(machine),
        ChangeId::CaseLine => hydraulic::case_line(machine, option),
        ChangeId::HoseClass => hydraulic::hose_class(machine, option),
        ChangeId::SupplyLine => hydraulic::supply_line(machine, option),
        ChangeId::Couplings => hydraulic::couplings(machine, option),
        ChangeId::ToolRelief => hydraulic::tool_relief(machine),
        ChangeId::IsolateTool => hydraulic::isolate_tool(machine),
        ChangeId::MakeUpCheck => hydraulic::make_up_check(machine),
        ChangeId::ReverseLock => hydraulic::reverse_lock(machine),
        ChangeId::DoorCircuit => hydraulic::door_circuit(machine, option),
        ChangeId::DemandSignal => hydraulic::demand_signal(machine),
        ChangeId::MachineFlowSetting | ChangeId::FlowLimit => source::flow(machine, facts(), option.id),
        ChangeId::EngineSpeed => source::engine_speed(machine, facts()),
        ChangeId::PriorityShare => source::priority_share(machine, facts(), option),
        ChangeId::DividerFlow => source::divider_flow(machine, facts()),
        ChangeId::DividerVent => hydraulic::divider_vent(machine),
        ChangeId::DividerRelief => source::divider_relief(machine, facts(), option),
        ChangeId::UnloadValve => hydraulic::unload_valve(machine),
        ChangeId::ReliefSetting => source::relief_setting(machine, facts()),
        ChangeId::OwnRelief => source::own_relief(machine, facts(), option),
        ChangeId::WarmUp => source::warm_up(machine, facts()),
        ChangeId::OilChange => other::oil_change(machine, facts()),
        ChangeId::Harness => other::harness(machine, facts()),
        ChangeId::Guarding => other::guarding(machine, facts()),
        ChangeId::MountingKit => other::mounting_kit(machine, facts()),
    }
}

/// Applies one option to a machine of which nothing is known yet.
pub fn applied<'m>(machine: Machine<'m>, option: &ChangeOption) -> Changed<'m> {
    let facts = OnceCell::new();
    apply(machine, option, || facts.get_or_init(|| machine.setup.facts()))
}

/// Applies one option with all that tells why each of its settings stands where it does.
pub fn explained<'m>(machine: Machine<'m>, option: &ChangeOption) -> Changed<'m> {
    let facts = machine.setup.facts().traced();
    apply(machine, option, || &facts)
}

/// Whether a change can be applied to a machine at all, whatever else is changed, by its facts: what the machine does not offer no
/// other change brings.
pub fn can_ever_apply(facts: &Facts, change: ChangeId) -> bool {
    match change {
        ChangeId::WarmUp => {
            let room = facts.warm_enough.si() < checks::warmest_start(facts).si();
            facts.circuit.flow_setting.is_some() && facts.circuit.flow.is_some() && room
        }
        ChangeId::OilChange => other::oil_may_help(facts),
        ChangeId::MountingKit => checks::can_be_bridged(facts).is_some(),
        _ => offers(facts.setup(), change),
    }
}

/// Whether a machine offers what a change begins with. The three that take more than a look to see say so themselves.
fn offers(setup: Setup, change: ChangeId) -> bool {
    let Setup { carrier, circuit, head, .. } = setup;
    match change {
        ChangeId::MachineFlowSetting => circuit.flow_setting.is_some() && circuit.divider.is_none(),
        ChangeId::FlowLimit => circuit.divider.is_none(),
        ChangeId::DividerFlow => circuit.divider.is_some(),
        ChangeId::DividerVent => circuit.divider.as_ref().is_some_and(|divider| divider.vented_when_off != Some(true)),
        ChangeId::DividerRelief => circuit.divider.as_ref().is_some_and(|divider| divider.port_relief != Some(true)),
        // From a pump that gives what is asked it would take full flow all day.
        ChangeId::UnloadValve => {
            let mut pumps = circuit.pumps.iter().map(|id| carrier.pumps.iter().find(|pump| pump.id == *id));
            let constant = pumps.all(|pump| pump.is_some_and(|pump| pump.control == Some(PumpControl::Fixed)));
            circuit.divider.is_none() && !circuit.pumps.is_empty() && constant
        }
        // A divider sends its oil one way; what must be turned back cannot be locked.
        ChangeId::ReverseLock => {
            circuit.divider.is_none() && (head.kind != HeadKind::Auger || head.ways == Some(Ways::One))
        }
        ChangeId::EngineSpeed => carrier.engine.speed_range.is_some() && carrier.engine.working_speed.is_some(),
        ChangeId::ReliefSetting => circuit.relief_range.is_some(),
        ChangeId::OwnRelief => circuit.relief.is_some(),
        ChangeId::FilterReturn => carrier.return_filter.as_ref().is_some_and(|filter| filter.spare_port == Some(true)),
        ChangeId::IsolateTool | ChangeId::ToolRelief => {
            let tools = circuit.shared_with.as_deref().unwrap_or(&[]);
            !tools.is_empty() && tools.iter().all(|tool| tool.greatest_pressure.is_some())
        }
        ChangeId::HoseClass => !circuit.supply.segments.is_empty(),
        ChangeId::PriorityShare => {
            let pumps = || carrier.pumps.iter().filter(|pump| circuit.pumps.contains(&pump.id));
            circuit.divider.is_none() && pumps().count() > 0 && pumps().all(|pump| pump.greatest_flow.is_some())
        }
        _ => true,
    }
}
