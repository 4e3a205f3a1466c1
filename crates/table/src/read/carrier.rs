//! Reading a carrier.

use super::circuit::{Machine, circuit};
use super::common::{cooler, coupling, end, line, mounting, port, return_filter};
use super::object::Object;
use crate::{
    Carrier, CarrierClass, CaseLine, Cleanliness, Contradiction, Date, Electrics, Engine, Fault, Functions, Id,
    LiftPoint, Lifting, Oil, Output, PowerGroup, Pump, Tank, ToolCoupler,
    bounds::{self, Bounds},
};
use quantity::{AngularVelocity, Kind, Mass, Power, Stated, text};
use std::collections::HashSet;
use std::f64::consts::TAU;

/// A carrier.
pub fn carrier(object: &Object) -> Option<Carrier> {
    let (id, model, class) = (object.id(), object.required_text("model"), object.required_name("class"));
    let power_groups = object.each_with_id("power_groups", power_group, |group| &group.id);
    let groups = ids(power_groups.iter().map(|group| &group.id));
    let turns = working_speed(object);
    let pressure = bounds::of_class(class);
    let pumps = object.each_with_id("pumps", |object| pump(object, &groups, turns, pressure), |pump| &pump.id);
    let pump_ids = ids(pumps.iter().map(|pump| &pump.id));
    let machine = Machine { class, engine_power: engine_power(object), pumps: &pumps, pump_ids: &pump_ids };
    let circuits = object.each_with_id("circuits", |object| circuit(object, &machine), |circuit| &circuit.id);
    let engine = object.nested("engine", |object| engine(object, power_taken(&pumps, &power_groups)));
    let (generic, maker) = (object.flag("generic").unwrap_or(false), object.text("maker"));
    if generic && let Some(node) = object.get("maker") {
        node.warning(Fault::Contradiction(Contradiction::GenericWithMaker));
    }
    let noted = object.context.noted();
    let operating_mass = object.stated("operating_mass", bounds::CARRIER_MASS);
    // One message for one slip.
    if object.context.noted() == noted {
        outside_class(object, class, operating_mass.as_ref());
    }
    if class.is_some_and(|class| class.only_end().is_some())
        && let Some(node) = object.get("second_coupler")
    {
        node.warning(Fault::Contradiction(Contradiction::EndOutsideClass));
    }
    let (serial_range, stock, link) = (object.text("serial_range"), object.text("stock"), object.link("link"));
    let checked = object.parsed("checked", Date::new, Fault::NotADate);
    Some(Carrier {
        maker,
        generic,
        serial_range,
        link,
        stock,
        checked,
        operating_mass,
        engine: engine.unwrap_or_default(),
        circuits,
        case_line: object.nested("case_line", case_line),
        return_filter: object.nested("return_filter", return_filter),
        tank: object.nested("tank", tank),
        oil: object.nested("oil", oil),
        cooler: object.nested("cooler", cooler),
        electrics: object.nested("electrics", electrics),
        lifting: object.nested("lifting", lifting),
        mounting: object.each("mounting", |object| mounting(object, end(object, class))),
        // An empty list says that there are none; an absent one says nothing.
        guards: object.get("guards").is_some().then(|| object.names("guards")),
        main_relief: object.stated("main_relief", pressure),
        coupler: object.nested("coupler", |object| tool_coupler(object, class)),
        second_coupler: object.nested("second_coupler", |object| tool_coupler(object, class)),
        curl_clearance: object.stated("curl_clearance", bounds::ARM),
        reaction_torque: object.stated("reaction_torque", bounds::TORQUE),
        travel_speed: object.range("travel_speed", bounds::VELOCITY),
        functions: object.nested("functions", functions),
        pumps,
        power_groups,
        // Last, as they end it.
        id: id?,
        model: model?,
        class: class?,
    })
}

/// Warns of a mass that is no machine's of the class, by half or twice: a slipped decimal or a wrong unit.
fn outside_class(object: &Object, class: Option<CarrierClass>, mass: Option<&Stated<Mass>>) {
    let (Some(class), Some(mass)) = (class, mass) else { return };
    let (least, _, greatest) = bounds::class_mass(class);
    let kilograms = mass.nominal.si();
    if !(0.5 * least..=2.0 * greatest).contains(&kilograms)
        && let Some(node) = object.get("operating_mass")
    {
        node.warning(Fault::Contradiction(Contradiction::MassOutsideClass));
    }
}

/// The working speed of the engine, rad/s.
fn working_speed(object: &Object) -> Option<f64> {
    of_engine::<AngularVelocity>(object, "working_speed")
}

/// The engine's power, W.
fn engine_power(object: &Object) -> Option<f64> {
    of_engine::<Power>(object, "power")
}

/// A figure of the engine, in SI, read ahead of it: problems in it are noted when the engine is read.
fn of_engine<Q: Kind>(object: &Object, field: &str) -> Option<f64> {
    let text = object.get("engine")?.member_text(field)?;
    text::read::<Q>(&text).ok().map(|figure| figure.nominal.si())
}

fn ids<'t>(ids: impl Iterator<Item = &'t Id>) -> HashSet<&'t str> {
    ids.map(Id::as_str).collect()
}

/// What the limiters let the pumps take together, W; limits that nobody states add nothing.
fn power_taken(pumps: &[Pump], groups: &[PowerGroup]) -> f64 {
    let alone = pumps.iter().filter(|pump| pump.power_group.is_none()).map(|pump| pump.power_limit);
    let limits = groups.iter().map(|group| group.limit).chain(alone);
    limits.flatten().map(|limit| limit.nominal.si()).sum()
}

fn engine(object: &Object, power_taken: f64) -> Engine {
    let engine = Engine {
        power: object.stated("power", bounds::POWER),
        working_speed: object.stated("working_speed", bounds::ENGINE_SPEED),
        high_idle: object.stated("high_idle", bounds::ENGINE_SPEED),
        speed_range: object.range("speed_range", bounds::ENGINE_SPEED),
    };
    let warn = |field, contradiction| {
        if let Some(node) = object.get(field) {
            node.warning(Fault::Contradiction(contradiction));
        }
    };
    if engine.power.is_some_and(|power| power_taken > power.nominal.si()) {
        warn("power", Contradiction::PowerAboveEngine);
    }
    if engine.high_idle.zip(engine.working_speed).is_some_and(|(idle, working)| idle.nominal < working.nominal) {
        warn("high_idle", Contradiction::HighIdleBelowWorking);
    }
    engine
}

fn power_group(object: &Object) -> Option<PowerGroup> {
    let id = object.id();
    let (limit, sum) = (object.stated("limit", bounds::POWER), object.named("sum"));
    Some(PowerGroup { id: id?, limit, sum })
}

fn pump(object: &Object, groups: &HashSet<&str>, turns: Option<f64>, pressure: Bounds) -> Option<Pump> {
    let id = object.id();
    let pump = Pump {
        kind: object.named("kind"),
        control: object.named("control"),
        displacement: object.stated("displacement", bounds::DISPLACEMENT),
        greatest_flow: object.stated("greatest_flow", bounds::FLOW),
        pressure: object.stated("pressure", pressure),
        power_limit: object.stated("power_limit", bounds::POWER),
        power_group: object.reference("power_group", "power group", groups),
        margin: object.stated("margin", bounds::MARGIN),
        // An empty list says that there is nothing; an absent one says nothing.
        also_feeds: object.get("also_feeds").is_some().then(|| object.names("also_feeds")),
        id: id?,
    };
    // A pump turns with the engine or a little faster or slower; a slipped decimal is ten times off.
    let computed = pump.displacement.zip(turns).map(|(volume, turns)| volume.nominal.si() * turns / TAU);
    if let Some((flow, computed)) = pump.greatest_flow.zip(computed)
        && !(0.5..=2.0).contains(&(flow.nominal.si() / computed))
        && let Some(node) = object.get("greatest_flow")
    {
        node.warning(Fault::Contradiction(Contradiction::FlowAgainstDisplacement));
    }
    Some(pump)
}

fn case_line(object: &Object) -> Option<CaseLine> {
    let fitted = object.required_flag("fitted");
    let (line, coupling) = (line(object, "line"), object.nested("coupling", coupling));
    let own_port = object.flag("own_port");
    Some(CaseLine { fitted: fitted?, line, coupling, own_port })
}

fn tank(object: &Object) -> Tank {
    Tank {
        volume: object.stated("volume", bounds::VOLUME),
        pressure: object.stated("pressure", bounds::TANK_PRESSURE),
        spare_port: object.nested("spare_port", port),
        dissipation: object.stated("dissipation", bounds::CONDUCTANCE),
    }
}

fn oil(object: &Object) -> Oil {
    let oil = Oil {
        kind: object.named("kind"),
        grade: object.named("grade"),
        viscosity_40: object.stated("viscosity_40", bounds::VISCOSITY),
        viscosity_100: object.stated("viscosity_100", bounds::VISCOSITY_100),
        cleanliness: object.parsed("cleanliness", Cleanliness::new, Fault::NotACleanliness),
    };
    // Half as thick as at 40 °C is far more than any oil is at 100.
    let thick = |(cold, hot): (Stated<_>, Stated<_>)| hot.nominal * 2.0 > cold.nominal;
    if oil.viscosity_40.zip(oil.viscosity_100).is_some_and(thick)
        && let Some(node) = object.get("viscosity_100")
    {
        node.warning(Fault::Contradiction(Contradiction::OilHardlyThins));
    }
    oil
}

fn electrics(object: &Object) -> Electrics {
    let output = |object: &Object| Output {
        name: object.text("name"),
        kind: object.named("kind"),
        current: object.stated("current", bounds::CURRENT),
    };
    Electrics {
        voltage: object.stated("voltage", bounds::VOLTAGE),
        outputs: object.get("outputs").is_some().then(|| object.each("outputs", output)),
        spare_buttons: object.count("spare_buttons", 0, "a whole number from 0 to 255"),
        converter: object.flag("converter"),
    }
}

fn lifting(object: &Object) -> Lifting {
    let point = |object: &Object| {
        let reach = object.required_stated("reach", bounds::REACH);
        let height = object.required_stated("height", bounds::HEIGHT);
        let mass = object.required_stated("mass", bounds::LOAD);
        // Nobody may take the greater figure over the front for one over the side.
        let over_side = object.required_flag("over_side");
        Some(LiftPoint { reach: reach?, height: height?, over_side: over_side?, mass: mass? })
    };
    Lifting {
        chart: object.each("chart", point),
        greatest_reach: object.stated("greatest_reach", bounds::REACH),
        rated_operating_capacity: object.stated("rated_operating_capacity", bounds::LOAD),
        tipping_load: object.stated("tipping_load", bounds::LOAD),
        tipping_axis: object.stated("tipping_axis", bounds::ARM),
        load_centre: object.stated("load_centre", bounds::ARM),
        share: object.stated("share", bounds::SHARE),
        tipping_edge: object.stated("tipping_edge", bounds::ARM),
        boom_foot: object.stated("boom_foot", bounds::ARM),
        bucket: object.stated("bucket", bounds::LOAD),
    }
}

fn tool_coupler(object: &Object, class: Option<CarrierClass>) -> Option<ToolCoupler> {
    let fitted = object.required_flag("fitted");
    let (mass, capacity) = (object.stated("mass", bounds::LOAD), object.stated("capacity", bounds::LOAD));
    let secured = object.flag("secured");
    Some(ToolCoupler { fitted: fitted?, mass, capacity, secured, end: end(object, class) })
}

fn functions(object: &Object) -> Functions {
    Functions {
        least_flow: object.stated("least_flow", bounds::SMALL_FLOW),
        pressure: object.stated("pressure", bounds::PRESSURE),
    }
}
