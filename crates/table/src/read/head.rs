//! Reading a head.

use super::common::{coupling, fineness, limits, mounting, port};
use super::object::Object;
use crate::{
    Cleanliness, Contradiction, Date, Demands, ExtraFunction, Fault, Head, HeadPressure, Limits, Material, Motor,
    Outlet, Work,
    bounds::{self, Bounds},
};
use quantity::{AngularVelocity, Kind, Mass, Stated, Unit, VolumeRate};
use std::f64::consts::TAU;

/// A head.
pub fn head(object: &Object) -> Option<Head> {
    let (id, model, kind) = (object.id(), object.required_text("model"), object.required_name("kind"));
    let flow: Limits<VolumeRate> = limits(object, "flow", bounds::FLOW);
    let mass: Option<Stated<Mass>> = object.stated("mass", bounds::HEAD_MASS);
    let carrier_mass: Limits<Mass> = limits(object, "carrier_mass", bounds::CARRIER_MASS);
    // Heads weigh a tenth of their machine, a quarter at the most (common practice, no published source).
    if mass.zip(carrier_mass.least).is_some_and(|(head, least)| head.nominal.si() > 0.45 * least.nominal.si())
        && let Some(node) = object.get("mass")
    {
        node.warning(Fault::Contradiction(Contradiction::HeavyForItsMachines));
    }
    let of_kind = bounds::of_kind(kind);
    let motor = object.nested("motor", |object| motor(object, flow.rated.as_ref()));
    if motor.as_ref().is_some_and(|motor| speed_agrees(motor, flow.rated.as_ref()) && !window_agrees(motor, &flow))
        && let Some(node) = object.get("flow")
    {
        node.warning(Fault::Contradiction(Contradiction::WindowAgainstDisplacement));
    }
    Some(Head {
        maker: object.text("maker"),
        link: object.link("link"),
        stock: object.text("stock"),
        checked: object.parsed("checked", Date::new, Fault::NotADate),
        mass,
        centre_of_gravity: object.stated("centre_of_gravity", bounds::ARM),
        curl_radius: object.stated("curl_radius", bounds::ARM),
        work: object.nested("work", work).unwrap_or_default(),
        pressure: object.nested("pressure", |object| pressure(object, of_kind)).unwrap_or_default(),
        power: limits(object, "power", bounds::POWER),
        motor,
        outlet: object.nested("outlet", outlet).unwrap_or_default(),
        extra_functions: object.each("extra_functions", extra_function),
        port: object.nested("port", port),
        coupling: object.nested("coupling", coupling),
        mounting: object.each("mounting", |object| mounting(object, None)),
        carrier_mass,
        demands: object.nested("demands", demands).unwrap_or_default(),
        creep_speed: limits(object, "creep_speed", bounds::VELOCITY),
        duty: object.text("duty"),
        vibrating: object.flag("vibrating"),
        ways: object.named("ways"),
        centre: object.named("centre"),
        run_down_check: object.flag("run_down_check"),
        flow,
        // Last, as they end it.
        id: id?,
        model: model?,
        kind: kind?,
    })
}

fn work(object: &Object) -> Work {
    let material = |object: &Object| {
        let (name, greatest) = (object.required_text("name"), object.stated("greatest", bounds::WORK));
        Some(Material { name: name?, greatest })
    };
    Work {
        materials: object.each("materials", material),
        width: object.stated("width", bounds::WORK),
        depth: object.stated("depth", bounds::WORK),
        payload: object.stated("payload", bounds::LOAD),
    }
}

fn pressure(object: &Object, of_kind: Bounds) -> HeadPressure {
    HeadPressure {
        working: object.stated("working", of_kind),
        basis: object.named("basis"),
        relief: object.stated("relief", of_kind),
        greatest: object.stated("greatest", of_kind),
    }
}

fn motor(object: &Object, rated_flow: Option<&Stated<VolumeRate>>) -> Motor {
    let motor = Motor {
        kind: object.named("kind"),
        displacement: object.stated("displacement", bounds::DISPLACEMENT),
        volumetric_efficiency: object.stated("volumetric_efficiency", bounds::EFFICIENCY),
        hydromechanical_efficiency: object.stated("hydromechanical_efficiency", bounds::EFFICIENCY),
        ratio: object.stated("ratio", bounds::RATIO),
        rotor_speed: limits(object, "rotor_speed", bounds::ROTOR_SPEED),
        inertia: object.stated("inertia", bounds::INERTIA),
        torque_limit: object.stated("torque_limit", bounds::TORQUE),
    };
    if !speed_agrees(&motor, rated_flow)
        && let Some(node) = object.get("rotor_speed")
    {
        node.warning(Fault::Contradiction(Contradiction::DisplacementAgainstSpeed));
    }
    motor
}

/// Whether the rated rotor speed is about what rated flow, displacement and ratio make of it; true when one is missing.
fn speed_agrees(motor: &Motor, rated_flow: Option<&Stated<VolumeRate>>) -> bool {
    let figures = (rated_flow, motor.displacement, motor.ratio, motor.rotor_speed.rated);
    let (Some(flow), Some(displacement), Some(ratio), Some(stated)) = figures else { return true };
    let turns_per_second = flow.nominal.si() / displacement.nominal.si() * ratio.nominal.si();
    let computed = turns_per_second * TAU;
    // Leakage takes up to a third, and brochures round: only a figure that is plainly another one is named.
    (0.6..=1.15).contains(&(stated.nominal.si() / computed))
}

/// Whether a window of flow is about what displacement, speeds and ratio make of it; true where figures are missing.
///
/// The least flow of a window is half to nine tenths of what the rated speed takes, the greatest one to five times, as far as the
/// greatest speed lets it (common practice, no published source): only what is plainly another figure is named.
fn window_agrees(motor: &Motor, flow: &Limits<VolumeRate>) -> bool {
    let Some(displacement) = motor.displacement.map(|displacement| displacement.nominal.si()) else { return true };
    let [least, greatest] = [flow.least, flow.greatest].map(|flow| flow.map(|flow| flow.nominal.si()));
    // No motor of an attachment turns so fast, whatever its rotor does.
    let turns = least.or(flow.rated.map(|flow| flow.nominal.si())).map(|flow| flow / displacement * TAU);
    if turns.is_some_and(|turns| turns > Unit::RevolutionPerMinute.to_si(FASTEST_MOTOR_RPM)) {
        return false;
    }
    let takes = |speed: Option<Stated<AngularVelocity>>| {
        let (speed, ratio) = (speed?.nominal.si(), motor.ratio?.nominal.si());
        Some(displacement * speed / ratio / TAU)
    };
    let (rated, fastest) = (takes(motor.rotor_speed.rated), takes(motor.rotor_speed.greatest));
    let above = |flow: Option<f64>, share: f64, takes: Option<f64>| {
        flow.zip(takes).is_some_and(|(flow, takes)| flow > share * takes)
    };
    let below = |flow: Option<f64>, share: f64, takes: Option<f64>| {
        flow.zip(takes).is_some_and(|(flow, takes)| flow < share * takes)
    };
    !(above(least, 2.0, rated.or(fastest)) || below(greatest, 0.5, rated) || above(greatest, 3.0, fastest))
}

/// The greatest speed of a hydraulic motor, rpm: small bent-axis motors come near it (common practice, no published source).
const FASTEST_MOTOR_RPM: f64 = 9000.0;

fn outlet(object: &Object) -> Outlet {
    Outlet {
        back_pressure: object.stated("back_pressure", bounds::BACK_PRESSURE),
        case_pressure: object.stated("case_pressure", bounds::CASE_PRESSURE),
        needs_case_line: object.flag("needs_case_line"),
        case_flow: object.stated("case_flow", bounds::SMALL_FLOW),
    }
}

fn extra_function(object: &Object) -> Option<ExtraFunction> {
    let kind = object.required_name("kind");
    Some(ExtraFunction {
        drive: object.named("drive"),
        current: object.stated("current", bounds::CURRENT),
        voltage: object.stated("voltage", bounds::VOLTAGE),
        greatest_pressure: object.stated("greatest_pressure", bounds::PRESSURE),
        flow: object.stated("flow", bounds::SMALL_FLOW),
        kind: kind?,
    })
}

fn demands(object: &Object) -> Demands {
    Demands {
        return_filter: object.flag("return_filter"),
        filter_fineness_um: fineness(object, "filter_fineness_um"),
        oil_kinds: object.names("oil_kinds"),
        oil_grades: object.names("oil_grades"),
        cleanliness: object.parsed("cleanliness", Cleanliness::new, Fault::NotACleanliness),
        // An empty list says that none is needed; an absent one says nothing.
        guards: object.get("guards").is_some().then(|| object.names("guards")),
        thrown_object_distance: object.stated("thrown_object_distance", bounds::THROW),
    }
}
