//! Reading a carrier.

use super::json::Object;
use super::part::{coupling, line, listed, mounting, point_loss, port};
use crate::quantity::Kind;
use crate::table::bounds;
use crate::table::{
    Carrier, CaseLine, Circuit, Cleanliness, Contradiction, Cooler, Date, Electrics, Engine, Fault, FlowSetting,
    Functions, Id, LiftPoint, Lifting, Oil, Output, PowerGroup, Pump, ReturnFilter, ReturnPath, SharedTool, Tank,
};

/// A carrier.
pub fn carrier(object: &Object) -> Option<Carrier> {
    let id = object.id("id");
    let model = object.required_text("model");
    let class = object.required("class").and(object.named("class"));
    let engine = object.nested("engine", engine).unwrap_or_default();
    let power_groups = object.each("power_groups", power_group);
    let groups: Vec<&Id> = power_groups.iter().map(|group| &group.id).collect();
    let pumps = object.each("pumps", |object| pump(object, &groups));
    let ids: Vec<&Id> = pumps.iter().map(|pump| &pump.id).collect();
    unique(object, "pumps", &ids);
    unique(object, "power_groups", &groups);
    let circuits = object.each("circuits", |object| circuit(object, &ids));
    unique(object, "circuits", &circuits.iter().map(|circuit| &circuit.id).collect::<Vec<_>>());
    let rest = |id, model, class| Carrier {
        id,
        maker: object.text("maker"),
        model,
        class,
        generic: object.flag("generic").unwrap_or(false),
        serial_range: object.text("serial_range"),
        link: object.link("link"),
        stock: object.text("stock"),
        checked: object.parsed("checked", Date::new, Fault::NotADate),
        operating_mass: object.stated("operating_mass", bounds::MASS),
        engine: engine.clone(),
        pumps: pumps.clone(),
        power_groups: power_groups.clone(),
        circuits: circuits.clone(),
        case_line: object.nested("case_line", case_line),
        return_filter: object.nested("return_filter", return_filter),
        tank: object.nested("tank", tank),
        oil: object.nested("oil", oil),
        cooler: object.nested("cooler", cooler),
        electrics: object.nested("electrics", electrics),
        lifting: object.nested("lifting", lifting),
        mounting: object.each("mounting", mounting),
        guards: listed(object, "guards"),
        functions: object.nested("functions", functions),
    };
    // Read the rest even when these are wrong, so that all problems come at once.
    let placeholder = Id::new("unnamed")?;
    let (sound_id, sound_model) = (id.clone().unwrap_or(placeholder), model.clone().unwrap_or_default());
    let carrier = rest(sound_id, sound_model, class.unwrap_or(crate::table::CarrierClass::Excavator));
    contradictions(object, &carrier);
    (id.is_some() && model.is_some() && class.is_some()).then_some(carrier)
}

/// Notes ids that stand twice in one of the carrier's lists.
fn unique(object: &Object, field: &'static str, ids: &[&Id]) {
    for (index, id) in ids.iter().enumerate() {
        if ids[..index].contains(id)
            && let Some(node) = object.get(field)
        {
            node.error(object.context, Fault::DuplicateId);
        }
    }
}

fn engine(object: &Object) -> Option<Engine> {
    Some(Engine {
        power: object.stated("power", bounds::POWER),
        working_speed: object.stated("working_speed", bounds::SPEED),
        high_idle: object.stated("high_idle", bounds::SPEED),
        speed_range: object.range("speed_range", bounds::SPEED),
    })
}

fn power_group(object: &Object) -> Option<PowerGroup> {
    let id = object.id("id");
    let (limit, sum) = (object.stated("limit", bounds::POWER), object.named("sum"));
    Some(PowerGroup { id: id?, limit, sum })
}

fn pump(object: &Object, groups: &[&Id]) -> Option<Pump> {
    let id = object.id("id");
    let pump = |id| Pump {
        id,
        kind: object.named("kind"),
        control: object.named("control"),
        displacement: object.stated("displacement", bounds::DISPLACEMENT),
        greatest_flow: object.stated("greatest_flow", bounds::FLOW),
        pressure: object.stated("pressure", bounds::PRESSURE),
        power_limit: object.stated("power_limit", bounds::POWER),
        power_group: object.reference("power_group", "power group", groups),
        margin: object.stated("margin", bounds::LOW_PRESSURE),
    };
    id.map(pump)
}

fn circuit(object: &Object, pumps: &[&Id]) -> Option<Circuit> {
    let id = object.id("id");
    let return_path = |object: &Object| {
        Some(ReturnPath {
            route: object.named("route"),
            loss: object.nested("loss", point_loss),
            line: line(object, "line"),
            through_filter: object.flag("through_filter"),
            filter: object.nested("filter", return_filter),
            through_cooler: object.flag("through_cooler"),
        })
    };
    let nothing =
        ReturnPath { route: None, loss: None, line: crate::table::Line::default(), through_filter: None, filter: None, through_cooler: None };
    let circuit = |id| Circuit {
        id,
        name: object.text("name"),
        flow: object.stated("flow", bounds::FLOW),
        flow_setting: object.nested("flow_setting", flow_setting),
        flow_limit: object.stated("flow_limit", bounds::FLOW),
        relief: object.stated("relief", bounds::PRESSURE),
        relief_range: object.range("relief_range", bounds::PRESSURE),
        pumps: object.references("pumps", "pump", pumps),
        ways: object.named("ways"),
        continuous: object.flag("continuous"),
        centre: object.named("centre"),
        shared_with: object.each("shared_with", shared_tool),
        supply: line(object, "supply"),
        return_path: object.nested("return_path", return_path).unwrap_or(nothing),
        port: object.nested("port", port),
        coupling: object.nested("coupling", coupling),
    };
    id.map(circuit)
}

fn flow_setting(object: &Object) -> Option<FlowSetting> {
    let range = object.required("range").and(object.range("range", bounds::FLOW));
    let (step, locked) = (object.stated("step", bounds::FLOW), object.flag("locked"));
    Some(FlowSetting { range: range?, step, locked })
}

fn shared_tool(object: &Object) -> Option<SharedTool> {
    let name = object.required_text("name");
    let tool = |name| SharedTool {
        name,
        greatest_pressure: object.stated("greatest_pressure", bounds::PRESSURE),
        greatest_flow: object.stated("greatest_flow", bounds::FLOW),
        own_relief: object.flag("own_relief"),
    };
    name.map(tool)
}

fn case_line(object: &Object) -> Option<CaseLine> {
    let fitted = object.required("fitted").and(object.flag("fitted"));
    let (line, coupling, own_port) =
        (line(object, "line"), object.nested("coupling", coupling), object.flag("own_port"));
    Some(CaseLine { fitted: fitted?, line, coupling, own_port })
}

fn return_filter(object: &Object) -> Option<ReturnFilter> {
    Some(ReturnFilter {
        rated_flow: object.stated("rated_flow", bounds::FLOW),
        loss: object.nested("loss", point_loss),
        bypass: object.stated("bypass", bounds::LOW_PRESSURE),
        fineness_um: object.count("fineness_um"),
    })
}

fn tank(object: &Object) -> Option<Tank> {
    Some(Tank {
        volume: object.stated("volume", bounds::VOLUME),
        pressure: object.stated("pressure", bounds::LOW_PRESSURE),
        spare_port: object.nested("spare_port", port),
        dissipation: object.stated("dissipation", bounds::CONDUCTANCE),
    })
}

fn oil(object: &Object) -> Option<Oil> {
    Some(Oil {
        kind: object.named("kind"),
        grade: object.named("grade"),
        cleanliness: object.parsed("cleanliness", Cleanliness::new, Fault::NotACleanliness),
    })
}

fn cooler(object: &Object) -> Option<Cooler> {
    Some(Cooler {
        conductance: object.stated("conductance", bounds::CONDUCTANCE),
        flow: object.stated("flow", bounds::FLOW),
    })
}

fn electrics(object: &Object) -> Option<Electrics> {
    let output = |object: &Object| {
        Some(Output {
            name: object.text("name"),
            kind: object.named("kind"),
            current: object.stated("current", bounds::CURRENT),
        })
    };
    Some(Electrics {
        voltage: object.stated("voltage", bounds::VOLTAGE),
        outputs: object.each("outputs", output),
        spare_buttons: object.count("spare_buttons"),
    })
}

fn lifting(object: &Object) -> Option<Lifting> {
    let point = |object: &Object| {
        let reach = object.required("reach").and(object.stated("reach", bounds::DISTANCE));
        let height = object.required("height").and(object.stated("height", bounds::DISTANCE));
        let mass = object.required("mass").and(object.stated("mass", bounds::MASS));
        let over_side = object.flag("over_side").unwrap_or(false);
        Some(LiftPoint { reach: reach?, height: height?, over_side, mass: mass? })
    };
    Some(Lifting {
        chart: object.each("chart", point),
        rated_operating_capacity: object.stated("rated_operating_capacity", bounds::MASS),
        tipping_load: object.stated("tipping_load", bounds::MASS),
        tipping_axis: object.stated("tipping_axis", bounds::DISTANCE),
        load_centre: object.stated("load_centre", bounds::DISTANCE),
    })
}

fn functions(object: &Object) -> Option<Functions> {
    Some(Functions {
        least_flow: object.stated("least_flow", bounds::FLOW),
        pressure: object.stated("pressure", bounds::PRESSURE),
    })
}

/// Figures that cannot both be true: somebody must look, nothing is thrown away.
fn contradictions(object: &Object, carrier: &Carrier) {
    let warn = |contradiction| object.warning(Fault::Contradiction(contradiction));
    let engine = &carrier.engine;
    let limits = carrier
        .power_groups
        .iter()
        .map(|group| group.limit)
        .chain(carrier.pumps.iter().filter(|pump| pump.power_group.is_none()).map(|pump| pump.power_limit));
    let power: f64 = limits.flatten().map(|limit| limit.nominal.si()).sum();
    if engine.power.is_some_and(|engine| power > engine.nominal.si()) {
        warn(Contradiction::PowerAboveEngine);
    }
    if engine.high_idle.zip(engine.working_speed).is_some_and(|(idle, working)| idle.nominal < working.nominal) {
        warn(Contradiction::HighIdleBelowWorking);
    }
    if carrier.generic && carrier.maker.is_some() {
        warn(Contradiction::GenericWithMaker);
    }
    for circuit in &carrier.circuits {
        let of_circuit = || carrier.pumps.iter().filter(|pump| circuit.pumps.contains(&pump.id));
        let all_known = !circuit.pumps.is_empty() && of_circuit().all(|pump| pump.greatest_flow.is_some());
        let pumped: f64 = of_circuit().filter_map(|pump| pump.greatest_flow).map(|flow| flow.nominal.si()).sum();
        // A tenth for rounding in brochures.
        if all_known && circuit.flow.is_some_and(|flow| flow.nominal.si() > 1.1 * pumped) {
            warn(Contradiction::FlowAbovePumps);
        }
        if circuit.relief.zip(circuit.relief_range).is_some_and(|(relief, range)| !range.contains(relief.nominal)) {
            warn(Contradiction::ReliefOutsideRange);
        }
    }
}
