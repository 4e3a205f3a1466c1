//! Which fields a form has: those that decide most, those that are stated, those that may be written besides.

use crate::splice::Step;
use spreadsheet::{Field, Role, Target};
use table::row::Form;

/// The fields of a machine that a form asks first, those that decide most before the others.
const OF_MACHINE: &[&str] = &[
    "maker",
    "model",
    "class",
    "operating_mass",
    "circuits.flow",
    "circuits.relief",
    "engine.power",
    "circuits.ways",
    "circuits.coupling.standard",
    "circuits.coupling.size",
    "circuits.supply.bore",
    "circuits.supply.length",
    "case_line.fitted",
    "mounting.standard",
    "mounting.pin",
    "mounting.width",
    "mounting.centres",
    "stock",
];

/// The fields of an attachment that a form asks first.
const OF_ATTACHMENT: &[&str] = &[
    "maker",
    "model",
    "kind",
    "mass",
    "flow.least",
    "flow.rated",
    "flow.greatest",
    "pressure.working",
    "pressure.greatest",
    "outlet.back_pressure",
    "outlet.needs_case_line",
    "outlet.case_pressure",
    "motor.kind",
    "motor.displacement",
    "carrier_mass.least",
    "carrier_mass.greatest",
    "mounting.standard",
    "mounting.pin",
    "mounting.width",
    "mounting.centres",
    "stock",
];

/// The fields that a form of the list asks first.
pub fn asked_first(role: Role) -> Vec<Target> {
    let names = if role == Role::Machines { OF_MACHINE } else { OF_ATTACHMENT };
    names.iter().filter_map(|name| Target::named(role, name)).collect()
}

/// Whether a person types something for a field itself: not for its id, which others refer to, nor for what only holds other fields.
pub fn is_asked(field: &Field) -> bool {
    match field.form {
        Form::Object(_) => field.is_list() && field.is_optional,
        Form::Window(..) | Form::Id | Form::Picture => false,
        _ => true,
    }
}

/// The target of a field at these places; the whole of it where it is a list of values.
pub fn target(field: &'static Field, places: &[usize]) -> Target {
    Target { field, places: places[..field.lists_above().min(places.len())].to_vec() }
}

/// The steps to a target within its entry.
pub fn steps(target: &Target) -> Vec<Step> {
    let mut places = target.places.iter();
    let mut steps = Vec::new();
    for (key, is_list) in &target.field.steps {
        steps.push(Step::key(key));
        if let Some(place) = is_list.then(|| places.next()).flatten() {
            steps.push(Step::Item(*place));
        }
    }
    steps
}

/// The field that a fact is about, and which it is part of where the fact has several: facts are named like their fields, `head.flow.least`.
/// None of what stands in no field.
pub fn of_fact(fact: &str) -> Option<(Role, Vec<Target>)> {
    let (role, name) = if let Some(name) = fact.strip_prefix("head.") {
        (Role::Attachments, name.to_owned())
    } else {
        let name = fact.strip_prefix("carrier.")?;
        // Of the circuit that serves the attachment.
        let name = name.strip_prefix("circuit.").map_or_else(|| name.to_owned(), |name| format!("circuits.{name}"));
        (Role::Machines, name)
    };
    let within = format!("{name}.");
    let fields = role.fields().0.iter().filter(|field| is_asked(field));
    let of_it = fields.filter(|field| field.name == name || field.name.starts_with(&within));
    // The nearest: what a coupling in a return loses is not asked where the return is.
    let of_it: Vec<&'static Field> = of_it.collect();
    let depth = of_it.iter().map(|field| field.steps.len()).min()?;
    let targets = of_it.into_iter().filter(|field| field.steps.len() == depth);
    Some((role, targets.map(|field| target(field, &vec![0; field.lists_above()])).collect()))
}
