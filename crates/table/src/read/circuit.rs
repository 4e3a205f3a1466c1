//! Reading an auxiliary circuit.

use super::common::{cooler, coupling, end, line, point_loss, port, return_filter};
use super::object::Object;
use crate::{
    CarrierClass, Circuit, Contradiction, Fault, FlowDivider, FlowSetting, Line, Pump, ReturnPath, SharedTool,
    bounds::{self, Bounds},
};
use quantity::{Kind, Range, Stated, Unit, VolumeRate};
use std::collections::HashSet;

/// What a circuit is compared with.
pub struct Machine<'t> {
    /// The machine's class.
    pub class: Option<CarrierClass>,
    /// The engine's power, W.
    pub engine_power: Option<f64>,
    /// The machine's pumps.
    pub pumps: &'t [Pump],
    /// Their ids.
    pub pump_ids: &'t HashSet<&'t str>,
}

/// A circuit; its pumps must be among those of the carrier.
pub fn circuit(object: &Object, machine: &Machine) -> Option<Circuit> {
    let (id, pressure) = (object.id(), bounds::of_class(machine.class));
    let circuit = Circuit {
        name: object.text("name"),
        end: end(object, machine.class),
        flow: object.stated("flow", bounds::FLOW),
        flow_setting: object.nested("flow_setting", flow_setting),
        flow_limit: object.stated("flow_limit", bounds::FLOW),
        divider: object.nested("divider", divider),
        relief: object.stated("relief", pressure),
        relief_role: object.named("relief_role"),
        head_relief: object.stated("head_relief", pressure),
        relief_range: object.range("relief_range", bounds::PRESSURE),
        pumps: object.references("pumps", "pump", machine.pump_ids),
        fed_from: object.named("fed_from"),
        demand_signal: object.flag("demand_signal"),
        ways: object.named("ways"),
        reverse_locked: object.flag("reverse_locked"),
        continuous: object.flag("continuous"),
        centre: object.named("centre"),
        unloads_when_off: object.flag("unloads_when_off"),
        stops_and_stays_off: object.flag("stops_and_stays_off"),
        warm_up: object.stated("warm_up", bounds::OIL_TEMPERATURE),
        // An empty list says that there are none; an absent one says nothing.
        shared_with: object
            .get("shared_with")
            .is_some()
            .then(|| object.each("shared_with", |object| shared_tool(object, pressure))),
        extra_valve: object.named("extra_valve"),
        make_up_check: object.flag("make_up_check"),
        supply: line(object, "supply"),
        return_path: object.nested("return_path", return_path).unwrap_or(UNKNOWN_RETURN),
        port: object.nested("port", port),
        coupling: object.nested("coupling", coupling),
        id: id?,
    };
    contradictions(object, &circuit, machine);
    Some(circuit)
}

const UNKNOWN_RETURN: ReturnPath = ReturnPath {
    route: None,
    loss: None,
    coupling: None,
    line: Line { segments: Vec::new() },
    through_filter: None,
    filter: None,
    through_cooler: None,
    cooler: None,
    can_be_shut: None,
    relief: None,
};

fn return_path(object: &Object) -> ReturnPath {
    ReturnPath {
        route: object.named("route"),
        loss: object.nested("loss", point_loss),
        coupling: object.nested("coupling", coupling),
        line: line(object, "line"),
        through_filter: object.flag("through_filter"),
        filter: object.nested("filter", return_filter),
        through_cooler: object.flag("through_cooler"),
        cooler: object.nested("cooler", cooler),
        can_be_shut: object.flag("can_be_shut"),
        relief: object.flag("relief"),
    }
}

fn divider(object: &Object) -> Option<FlowDivider> {
    let set_flow = object.required_stated("set_flow", bounds::FLOW);
    let (port_relief, vented_when_off) = (object.flag("port_relief"), object.flag("vented_when_off"));
    Some(FlowDivider { set_flow: set_flow?, port_relief, vented_when_off })
}

fn flow_setting(object: &Object) -> Option<FlowSetting> {
    object.required("range");
    let range = object.range("range", bounds::FLOW_SETTING);
    let (step, locked) = (object.stated("step", bounds::SMALL_FLOW), object.flag("locked"));
    Some(FlowSetting { range: range?, step, locked })
}

fn shared_tool(object: &Object, pressure: Bounds) -> Option<SharedTool> {
    let name = object.required_text("name");
    Some(SharedTool {
        greatest_pressure: object.stated("greatest_pressure", pressure),
        greatest_flow: object.stated("greatest_flow", bounds::FLOW),
        own_relief: object.flag("own_relief"),
        isolated: object.flag("isolated"),
        name: name?,
    })
}

/// Figures that cannot both be true: somebody must look, nothing is thrown away.
fn contradictions(object: &Object, circuit: &Circuit, machine: &Machine) {
    let warn = |field, contradiction| {
        if let Some(node) = object.get(field) {
            node.warning(Fault::Contradiction(contradiction));
        }
    };
    // Only when each of its pumps states a flow; a tenth for rounding in brochures.
    let feeding: HashSet<&str> = circuit.pumps.iter().map(super::Id::as_str).collect();
    let flows = machine.pumps.iter().filter(|pump| feeding.contains(pump.id.as_str())).map(|pump| pump.greatest_flow);
    let together: Option<f64> = flows.map(|flow| flow.map(|flow| flow.nominal.si())).sum();
    let above = |flow: f64| !feeding.is_empty() && together.is_some_and(|together| flow > 1.1 * together);
    if circuit.flow.is_some_and(|flow| above(flow.nominal.si())) {
        warn("flow", Contradiction::FlowAbovePumps);
    } else if takes_more_than_engine(circuit, machine) {
        warn("flow", Contradiction::FlowAboveEngine);
    }
    let outside = |(flow, setting): (Stated<VolumeRate>, Range<VolumeRate>)| {
        let (flow, slack) = (flow.nominal.si(), 1.05);
        flow * slack < setting.low.si() || flow > setting.high.si() * slack
    };
    if circuit.flow.zip(circuit.flow_setting.as_ref().map(|setting| setting.range)).is_some_and(outside) {
        warn("flow", Contradiction::FlowOutsideSetting);
    }
    if circuit.relief.zip(circuit.relief_range).is_some_and(|(relief, range)| !range.contains(relief.nominal)) {
        warn("relief", Contradiction::ReliefOutsideRange);
    }
}

/// Whether a circuit's flow takes more than the engine gives at a third of its relief, or of the least that its class has
/// where none is stated. That flow and relief together ask for more than the engine has is usual: a limiter sees to it, and
/// two pumps at full relief reach twice the engine's power (common practice, no published source).
fn takes_more_than_engine(circuit: &Circuit, machine: &Machine) -> bool {
    let of_class = || machine.class.map(|class| Unit::Bar.to_si(bounds::class_relief(class).0));
    let relief = circuit.relief.map(|relief| relief.nominal.si()).or_else(of_class);
    let figures = circuit.flow.map(|flow| flow.nominal.si()).zip(relief).zip(machine.engine_power);
    figures.is_some_and(|((flow, relief), power)| flow * relief / 3.0 > power)
}
