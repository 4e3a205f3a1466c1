//! Reading a head.

use super::json::Object;
use super::part::{coupling, limits, mounting, port};
use crate::quantity::{Kind, Unit};
use crate::table::bounds;
use crate::table::{
    Cleanliness, Contradiction, Date, Demands, ExtraFunction, Fault, Head, HeadKind, HeadPressure, Id, Material, Motor,
    Outlet, Work,
};

/// A head.
pub fn head(object: &Object) -> Option<Head> {
    let id = object.id("id");
    let model = object.required_text("model");
    let kind: Option<HeadKind> = object.required("kind").and(object.named("kind"));
    // Read the rest even when these are wrong, so that all problems come at once.
    let head = Head {
        id: id.clone().or_else(|| Id::new("unnamed"))?,
        maker: object.text("maker"),
        model: model.clone().unwrap_or_default(),
        kind: kind.unwrap_or(HeadKind::RotaryCutter),
        link: object.link("link"),
        stock: object.text("stock"),
        checked: object.parsed("checked", Date::new, Fault::NotADate),
        mass: object.stated("mass", bounds::MASS),
        centre_of_gravity: object.stated("centre_of_gravity", bounds::DISTANCE),
        work: object.nested("work", work).unwrap_or_default(),
        flow: limits(object, "flow", bounds::FLOW),
        pressure: object.nested("pressure", pressure).unwrap_or_default(),
        power: limits(object, "power", bounds::POWER),
        motor: object.nested("motor", motor),
        outlet: object.nested("outlet", outlet).unwrap_or_default(),
        extra_functions: object.each("extra_functions", extra_function),
        port: object.nested("port", port),
        coupling: object.nested("coupling", coupling),
        mounting: object.each("mounting", mounting),
        carrier_mass: limits(object, "carrier_mass", bounds::MASS),
        demands: object.nested("demands", demands).unwrap_or_default(),
        creep_speed: limits(object, "creep_speed", bounds::VELOCITY),
        duty: object.text("duty"),
        vibrating: object.flag("vibrating"),
        ways: object.named("ways"),
        centre: object.named("centre"),
        run_down_check: object.flag("run_down_check"),
    };
    contradictions(object, &head);
    (id.is_some() && model.is_some() && kind.is_some()).then_some(head)
}

fn work(object: &Object) -> Option<Work> {
    let material = |object: &Object| {
        let name = object.required_text("name");
        let greatest = object.stated("greatest", bounds::DISTANCE);
        name.map(|name| Material { name, greatest })
    };
    Some(Work {
        materials: object.each("materials", material),
        width: object.stated("width", bounds::DISTANCE),
        depth: object.stated("depth", bounds::DISTANCE),
        payload: object.stated("payload", bounds::MASS),
    })
}

fn pressure(object: &Object) -> Option<HeadPressure> {
    Some(HeadPressure {
        working: object.stated("working", bounds::PRESSURE),
        basis: object.named("basis"),
        relief: object.stated("relief", bounds::PRESSURE),
        greatest: object.stated("greatest", bounds::PRESSURE),
    })
}

fn motor(object: &Object) -> Option<Motor> {
    Some(Motor {
        kind: object.named("kind"),
        displacement: object.stated("displacement", bounds::DISPLACEMENT),
        volumetric_efficiency: object.stated("volumetric_efficiency", bounds::EFFICIENCY),
        hydromechanical_efficiency: object.stated("hydromechanical_efficiency", bounds::EFFICIENCY),
        ratio: object.stated("ratio", bounds::RATIO),
        rotor_speed: limits(object, "rotor_speed", bounds::SPEED),
        inertia: object.stated("inertia", bounds::INERTIA),
        torque_limit: object.stated("torque_limit", bounds::TORQUE),
    })
}

fn outlet(object: &Object) -> Option<Outlet> {
    Some(Outlet {
        back_pressure: object.stated("back_pressure", bounds::LOW_PRESSURE),
        case_pressure: object.stated("case_pressure", bounds::LOW_PRESSURE),
        needs_case_line: object.flag("needs_case_line"),
        case_flow: object.stated("case_flow", bounds::FLOW),
    })
}

fn extra_function(object: &Object) -> Option<ExtraFunction> {
    let kind = object.required("kind").and(object.named("kind"));
    let function = |kind| ExtraFunction {
        kind,
        drive: object.named("drive"),
        current: object.stated("current", bounds::CURRENT),
        voltage: object.stated("voltage", bounds::VOLTAGE),
        greatest_pressure: object.stated("greatest_pressure", bounds::PRESSURE),
        flow: object.stated("flow", bounds::FLOW),
    };
    kind.map(function)
}

fn demands(object: &Object) -> Option<Demands> {
    Some(Demands {
        return_filter: object.flag("return_filter"),
        filter_fineness_um: object.count("filter_fineness_um"),
        oil_kinds: object.names("oil_kinds"),
        oil_grades: object.names("oil_grades"),
        cleanliness: object.parsed("cleanliness", Cleanliness::new, Fault::NotACleanliness),
        guards: object.names("guards"),
        thrown_object_distance: object.stated("thrown_object_distance", bounds::DISTANCE),
    })
}

/// The rated rotor speed must be about what rated flow, displacement and ratio make of it.
fn contradictions(object: &Object, head: &Head) {
    let Some(motor) = &head.motor else { return };
    let figures = (head.flow.rated, motor.displacement, motor.ratio, motor.rotor_speed.rated);
    let (Some(flow), Some(displacement), Some(ratio), Some(stated)) = figures else { return };
    let turns_per_second = flow.nominal.si() / displacement.nominal.si() * ratio.nominal.si();
    let computed = turns_per_second * 60.0;
    let stated = Unit::RevolutionPerMinute.of_si(stated.nominal.si());
    // Leakage takes up to a third, and brochures round: only a figure that is plainly another one is named.
    if !(0.6..=1.15).contains(&(stated / computed)) {
        object.warning(Fault::Contradiction(Contradiction::DisplacementAgainstSpeed));
    }
}
