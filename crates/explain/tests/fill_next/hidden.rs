//! A complete table of which only brochure figures are shown, and what somebody who looks is told of the rest.

use fit::{Conditions, FactId, Verdict, pair};
use serde_json::{Map, Value, json};
use table::{Id, Table, read};

const DEMO: &str = include_str!("../../../../public/table/demo.json");
/// How many machines, and how many attachments.
pub const SIDE: usize = 10;

/// What a brochure says of a machine, of its circuits and of an attachment.
const OF_MACHINE: [&str; 7] =
    ["maker", "model", "class", "operating_mass", "engine.power", "circuits.*.flow", "circuits.*.relief"];
const OF_CIRCUIT: [&str; 2] = ["circuits.*.name", "circuits.*.coupling.size"];
const OF_HEAD: [&str; 9] = [
    "maker",
    "model",
    "kind",
    "mass",
    "flow",
    "pressure.working",
    "outlet.needs_case_line",
    "outlet.back_pressure",
    "mounting",
];
/// That an attachment has a function besides its rotor shows in every picture of it: no field left out, but another attachment.
const SEEN: &str = "extra_functions.*.kind";

/// The entries of a table, by whether they are machines.
pub fn list(of_machine: bool) -> &'static str {
    if of_machine { "carriers" } else { "heads" }
}

/// The table that is read from a text without any problem that sets an entry aside.
pub fn table(value: &Value) -> Table {
    let table = read(&value.to_string()).table.expect("a table");
    assert_eq!((table.carriers.len(), table.heads.len()), (SIDE, SIDE));
    table
}

/// A row of numbers that look drawn (the constants of Knuth's MMIX generator) puts a list in an order by a seed.
fn shuffled(mut entries: Vec<Value>, seed: u64) -> Vec<Value> {
    let mut state = seed;
    for last in (1..entries.len()).rev() {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        entries.swap(last, usize::try_from(state >> 33).expect("31 bits") % (last + 1));
    }
    entries
}

/// Ten machines and ten attachments of the demo, drawn by a seed: in its order each that is named, and of which with all
/// that were drawn before every verdict falls. Nothing in them is changed.
pub fn complete(seed: u64) -> Value {
    let mut demo: Value = serde_json::from_str(DEMO).expect("the demo is JSON");
    let all = read(DEMO).table.expect("the demo table");
    let conditions = Conditions::of_table(&all);
    let take = |demo: &mut Value, of_machine| {
        let entries = demo[list(of_machine)].take();
        let named = entries.as_array().into_iter().flatten().filter(|entry| entry["generic"] != json!(true));
        shuffled(named.cloned().collect(), seed).into_iter()
    };
    let id = |entry: &Value| entry["id"].as_str().expect("an id").to_owned();
    let said = |machine: &Value, head: &Value| {
        let (carrier, head) = (all.carrier(&id(machine)), all.head(&id(head)));
        let pairing = pair(carrier.expect("a machine"), head.expect("an attachment"), &conditions);
        pairing.verdict != Verdict::CannotSay
    };
    let (mut machines, mut heads) = (take(&mut demo, true), take(&mut demo, false));
    let (mut drawn, mut hung): (Vec<Value>, Vec<Value>) = (Vec::new(), Vec::new());
    while drawn.len() < SIDE || hung.len() < SIDE {
        if drawn.len() <= hung.len() {
            let machine = machines.next().expect("enough machines");
            if hung.iter().all(|head| said(&machine, head)) {
                drawn.push(machine);
            }
        } else {
            let head = heads.next().expect("enough attachments");
            if drawn.iter().all(|machine| said(machine, &head)) {
                hung.push(head);
            }
        }
    }
    demo["carriers"] = drawn.into();
    demo["heads"] = hung.into();
    demo
}

/// A table of which only brochure figures are left.
pub fn brochure(complete: &Value) -> Value {
    let mut left = complete.clone();
    let strip = |entries: &mut Value, fields: &[&str]| {
        for entry in entries.as_array_mut().into_iter().flatten() {
            let hidden = std::mem::replace(entry, json!({}));
            entry["id"] = hidden["id"].clone();
            for path in fields {
                copy(entry, &hidden, path, None);
            }
        }
    };
    strip(&mut left["carriers"], &[&OF_MACHINE[..], &OF_CIRCUIT].concat());
    strip(&mut left["heads"], &[&OF_HEAD[..], &[SEEN]].concat());
    left
}

/// Copies what stands at a path, with the elements of lists on the way and their ids: `*` is each of them, `@` the circuit with an id.
pub fn copy(to: &mut Value, from: &Value, path: &str, circuit: Option<&str>) {
    let (first, rest) = path.split_once('.').map_or((path, None), |(first, rest)| (first, Some(rest)));
    let Some(found) = from.get(first).filter(|found| !found.is_null()) else { return };
    let Some(rest) = rest else {
        to[first] = found.clone();
        return;
    };
    let Some(elements) = found.as_array() else {
        if to.get(first).is_none_or(Value::is_null) {
            // What stands in no part of it leaves no empty part behind.
            let mut part = json!({});
            copy(&mut part, found, rest, circuit);
            if part.as_object().is_some_and(|part| !part.is_empty()) {
                to[first] = part;
            }
        } else {
            copy(&mut to[first], found, rest, circuit);
        }
        return;
    };
    let (which, rest) = rest.split_once('.').expect("a field of an element");
    let mut parts = to.get(first).and_then(Value::as_array).cloned().unwrap_or_default();
    parts.resize_with(elements.len(), || Value::Object(Map::new()));
    for (part, element) in parts.iter_mut().zip(elements) {
        if let Some(id) = element.get("id") {
            part["id"] = id.clone();
        }
        if which == "*" || element["id"].as_str() == circuit {
            copy(part, element, rest, circuit);
        }
    }
    to[first] = parts.into();
}

/// What somebody who looks for a fact writes down: the fields that answer it, `@` being the circuit that is asked about. None for what
/// no field of a table states.
#[expect(clippy::too_many_lines, reason = "a list, one entry a fact")]
fn fields(fact: FactId) -> &'static [&'static str] {
    use FactId as F;
    match fact {
        F::Circuit => &["circuits"],
        F::CircuitEnd => &["circuits.@.end"],
        F::CircuitFlow => &["circuits.@.flow"],
        F::CircuitRelief => &["circuits.@.relief"],
        F::FlowSettingLocked => &["circuits.@.flow_setting"],
        F::SupplyLine => &["circuits.@.supply.*.bore", "circuits.@.supply.*.length"],
        F::CouplingLoss => &["circuits.@.coupling.loss"],
        F::ReturnRoute => &["circuits.@.return_path.route"],
        F::ReturnLoss => &["circuits.@.return_path.loss"],
        F::ReturnLine => &["circuits.@.return_path.line.*.bore", "circuits.@.return_path.line.*.length"],
        F::TankPressure => &["tank.pressure"],
        F::ReturnFilter => &["circuits.@.return_path.through_filter"],
        F::FilterLoss => &["return_filter.rated_flow", "return_filter.loss", "return_filter.bypass"],
        F::EnginePower => &["engine.power"],
        F::WorkingSpeed => &["engine.working_speed"],
        F::HighIdle => &["engine.working_speed", "engine.high_idle"],
        F::PowerLimit => &["circuits.@.pumps", "pumps.*.power_limit", "pumps.*.power_group", "power_groups"],
        F::PumpMargin => &["circuits.@.pumps", "pumps.*.margin"],
        F::PumpCutOff => &["circuits.@.pumps", "pumps.*.pressure"],
        F::PumpControl => &["circuits.@.pumps", "pumps.*.control"],
        F::PumpFlow => &["circuits.@.pumps", "pumps.*.greatest_flow"],
        F::AlsoFeeds => &["circuits.@.pumps", "pumps.*.also_feeds"],
        F::Functions => &["functions"],
        F::TankVolume => &["tank.volume"],
        F::CoolerConductance => &["cooler"],
        F::ThroughCooler => &["circuits.@.return_path.through_cooler"],
        F::RunDownCheck => &["run_down_check"],
        F::CaseLine => &["case_line.fitted"],
        F::CasePort => &["case_line.own_port"],
        F::CaseLineSize => &["case_line.line.*.bore", "case_line.line.*.length"],
        F::OilGrade => &["oil.grade", "oil.viscosity_40", "oil.viscosity_100"],
        F::OilKind => &["oil.kind"],
        F::OilCleanliness => &["oil.cleanliness"],
        F::OperatingMass => &["operating_mass"],
        F::CarrierMounting | F::MountingEnd | F::HeadMounting => &["mounting"],
        F::HeadLeastFlow => &["flow.least"],
        F::HeadRatedFlow => &["flow.rated"],
        F::HeadGreatestFlow => &["flow.greatest"],
        F::HeadGreatestPower => &["power.greatest"],
        F::WorkingPressure => &["pressure.working", "pressure.basis"],
        F::HeadGreatestPressure => &["pressure.greatest"],
        F::MotorKind => &["motor.kind"],
        F::MotorDisplacement => &["motor.displacement"],
        F::MotorVolumetric => &["motor.volumetric_efficiency"],
        F::MotorHydromechanical => &["motor.hydromechanical_efficiency"],
        F::MotorRatio => &["motor.ratio"],
        F::RotorGreatestSpeed => &["motor.rotor_speed.greatest"],
        F::TorqueLimit => &["motor.torque_limit"],
        F::OutletLimit => &["outlet.back_pressure"],
        F::CaseLimit => &["outlet.case_pressure"],
        F::NeedsCaseLine => &["outlet.needs_case_line"],
        F::CaseFlow => &["outlet.case_flow"],
        F::SharedTools => &[
            "circuits.@.shared_with.*.name",
            "circuits.@.shared_with.*.own_relief",
            "circuits.@.shared_with.*.isolated",
        ],
        F::SharedToolPressure => &["circuits.@.shared_with.*.greatest_pressure"],
        F::ReliefRole => &["circuits.@.relief_role"],
        F::MainRelief => &["main_relief"],
        F::HeadRelief => &["circuits.@.head_relief"],
        F::SupplyRating => &["circuits.@.supply.*.standard", "circuits.@.supply.*.rating"],
        F::ReturnRating => &["circuits.@.return_path.line.*.standard", "circuits.@.return_path.line.*.rating"],
        F::Coupling => &["circuits.@.coupling"],
        F::CouplingRating => &["circuits.@.coupling.standard", "circuits.@.coupling.rated_pressure"],
        F::CouplingFlow => &["circuits.@.coupling.rated_flow"],
        F::CouplingScrewed => &["circuits.@.coupling.screwed"],
        F::CircuitWays => &["circuits.@.ways", "circuits.@.reverse_locked"],
        F::Continuous => &["circuits.@.continuous"],
        F::FedFrom => &["circuits.@.fed_from"],
        F::DemandSignal => &["circuits.@.demand_signal"],
        F::StopsAndStaysOff => &["circuits.@.stops_and_stays_off"],
        F::UnloadsWhenOff => &["circuits.@.unloads_when_off"],
        F::DividerOff => &["circuits.@.divider.vented_when_off"],
        F::DividerRelief => &["circuits.@.divider.port_relief"],
        F::CanBeShut => &["circuits.@.return_path.can_be_shut"],
        F::FiltrationRating => &["return_filter.fineness_um"],
        F::Lifting | F::LiftChart | F::GreatestReach => &[
            "lifting.chart",
            "lifting.greatest_reach",
            "lifting.rated_operating_capacity",
            "lifting.tipping_load",
            "lifting.share",
        ],
        F::LiftGeometry => {
            &["lifting.tipping_edge", "lifting.boom_foot", "lifting.tipping_axis", "lifting.load_centre"]
        }
        F::ToolCoupler | F::CouplerEnd => &[
            "coupler.fitted",
            "coupler.mass",
            "coupler.capacity",
            "coupler.end",
            "second_coupler.fitted",
            "second_coupler.mass",
            "second_coupler.capacity",
            "second_coupler.end",
        ],
        F::CouplerSecured => &["coupler.secured", "second_coupler.secured"],
        F::CurlClearance => &["curl_clearance"],
        F::ReactionTorque => &["reaction_torque"],
        F::TravelSpeed => &["travel_speed"],
        F::Guards => &["guards"],
        F::Voltage => &["electrics.voltage", "electrics.converter"],
        F::Outputs => &["electrics.outputs"],
        F::SpareButtons => &["electrics.spare_buttons"],
        F::HeadMass => &["mass"],
        F::CentreOfGravity => &["centre_of_gravity"],
        F::CurlRadius => &["curl_radius"],
        F::Payload => &["work.payload"],
        F::HeadWork => &["work.materials"],
        F::HeadWays => &["ways"],
        F::HeadCentre => &["centre"],
        F::ExtraDrive => &["extra_functions.*.drive"],
        F::ExtraPressure => &["extra_functions.*.greatest_pressure", "extra_functions.*.flow"],
        F::Coils => &["extra_functions.*.voltage", "extra_functions.*.current"],
        F::GuardsDemanded => &["demands.guards"],
        F::OilKindsDemanded => &["demands.oil_kinds"],
        F::OilGradesDemanded => &["demands.oil_grades"],
        F::CleanlinessDemanded => &["demands.cleanliness"],
        F::FilterDemanded => &["demands.return_filter"],
        F::FiltrationDemanded => &["demands.filter_fineness_um"],
        F::Vibrating => &["vibrating"],
        F::CarrierMassWindow => &["carrier_mass"],
        // Only practice says them.
        F::PumpLeak | F::ReliefOverride | F::FreeRunning | F::ReturnPulsation | F::OilSettles | F::RunDownLoss => &[],
    }
}

/// Whether any field of a table states a fact.
pub fn has_fields(fact: FactId) -> bool {
    !fields(fact).is_empty()
}

/// Writes the answer to a question about an entry into the table that is shown; how many figures and words were written down.
pub fn answer(
    shown: &mut Value,
    complete: &Value,
    of_machine: bool,
    id: &str,
    circuit: Option<&Id>,
    fact: FactId,
) -> usize {
    let entry = |table: &Value| {
        let all = table[list(of_machine)].as_array().expect("a list");
        all.iter().position(|entry| entry["id"] == json!(id)).expect("an entry")
    };
    let (here, there) = (entry(shown), entry(complete));
    let to = &mut shown[list(of_machine)][here];
    let before = leaves(to);
    let from = &complete[list(of_machine)][there];
    for path in fields(fact) {
        copy(to, from, path, circuit.map(Id::as_str));
    }
    leaves(to).saturating_sub(before)
}

/// How many figures and words stand in it; an empty list is a statement too.
fn leaves(value: &Value) -> usize {
    match value {
        Value::Object(fields) => fields.iter().filter(|(name, _)| *name != "id").map(|(_, field)| leaves(field)).sum(),
        Value::Array(elements) => elements.iter().map(leaves).sum::<usize>().max(1),
        _ => 1,
    }
}
