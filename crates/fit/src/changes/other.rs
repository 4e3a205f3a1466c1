//! Oil, wires, guards and pins.

// All changes have one form, also those that can always be made.
#![allow(clippy::unnecessary_wraps)]

use super::changed::{Changed, own, solved};
use crate::checks::{self, Taken, can_be_bridged, guards_lacking, oils_taken};
use crate::facts::Facts;
use crate::machine::Machine;
use crate::solved::Solved;
use crate::{CheckId, Outcome, SettingId};
use hydraulics::OilCurve;
use quantity::{ElectricCurrent, Quantity, ThermodynamicTemperature, Unit};
use table::{Circuit, Electrics, Guard, Mounting, Oil, OilGrade, Output, OutputKind};

/// Whether other oil may help, whatever else is changed: the oil is not what is asked for today, is thicker than usual, or may get too
/// thin where it gets hotter.
pub fn oil_may_help(facts: &Facts) -> bool {
    checks::is_oil_thick(facts)
        || checks::may_get_too_thin(facts)
        || checks::outcome(CheckId::Oil, facts, facts.warm_enough).outcome != Outcome::Met
}

/// The machine with other oil. A workshop's own rule for warming up goes with the oil that it was for.
fn with_oil<'m>(machine: Machine<'m>, facts: &Facts, oil: Oil) -> Machine<'m> {
    let most = checks::warmest_start(facts);
    let thin_enough = |circuit: &mut Circuit| {
        circuit.warm_up = circuit.warm_up.filter(|own| own.nominal.si() <= most.si());
    };
    let changed = machine.with_carrier(|carrier| {
        carrier.oil = Some(oil);
        carrier.circuits.iter_mut().for_each(thin_enough);
    });
    changed.with_circuit(thin_enough)
}

/// Flushes and fills what the head demands, else what every head takes, and the day allows; cleaned through a filter it is as clean
/// as asked.
pub fn oil_change<'m>(machine: Machine<'m>, facts: &Facts) -> Changed<'m> {
    let Taken { kinds, grades, cleanliness } = oils_taken(facts);
    let old = facts.carrier.oil.clone();
    let (kind, grade) = (old.as_ref().and_then(|oil| oil.kind), old.as_ref().and_then(|oil| oil.grade));
    let new_kind = kind.filter(|kind| kinds.contains(kind));
    let taken = grade.filter(|grade| grades.contains(grade));
    // What a workshop's own rule idles warm is too thick: what takes its place is thinner.
    let forty = ThermodynamicTemperature::from_si(Unit::Celsius.to_si(40.0));
    let warmest = checks::warmest_start(facts).si();
    let idled = facts.circuit.warm_up.is_some_and(|own| own.nominal.si() > warmest);
    let present = facts.oil.fact.interval().filter(|_| idled && facts.oil.fact.is_known()).map(|known| known.nominal);
    let thinner =
        |grade: OilGrade| present.is_none_or(|present| OilCurve::of_grade(grade).viscosity(forty) < present * 0.99);
    let does = |grade: OilGrade| {
        let oil =
            Oil { kind: new_kind, grade: Some(grade), viscosity_40: None, viscosity_100: None, cleanliness: None };
        let changed = with_oil(machine, facts, oil);
        checks::against_oil(&changed.setup.facts()).is_empty()
    };
    // What is in the tank stays where nothing speaks against it.
    let stays = !checks::is_oil_thick(facts) && checks::against_oil(facts).is_empty();
    let new_grade = taken
        .filter(|_| stays)
        .or_else(|| grades.iter().copied().find(|&grade| thinner(grade) && does(grade)))
        .or(taken)
        .or(grades.first().copied());
    let same = new_kind == kind && new_grade == grade && old.is_some();
    // A data sheet's figures go with the oil that they describe.
    let sheet = old.as_ref().filter(|_| same);
    let clean = sheet.and_then(|oil| oil.cleanliness).filter(|found| found.at_least_as_clean_as(cleanliness));
    let oil = Oil {
        kind: new_kind.or(kinds.first().copied()),
        grade: new_grade,
        viscosity_40: sheet.and_then(|oil| oil.viscosity_40),
        viscosity_100: sheet.and_then(|oil| oil.viscosity_100),
        cleanliness: clean.or(Some(cleanliness)),
    };
    Some((with_oil(machine, facts, oil), Vec::new()))
}

/// Wires as many outputs as are needed, with buttons, fuses and a seat switch: it stops when the operator leaves or power fails, and
/// stays off. A converter gives 12 V coils theirs on a 24 V machine, never the other way round.
pub fn harness<'m>(machine: Machine<'m>, facts: &Facts) -> Changed<'m> {
    let needed = facts.outputs_needed().unwrap_or(0);
    let current = facts.greatest_current().map_or(ElectricCurrent::from_si(5.0), |stated| stated.nominal);
    let output = || Output { name: None, kind: Some(OutputKind::Switched), current: Some(own(current, Unit::Ampere)) };
    let old = facts.carrier.electrics.clone().unwrap_or_default();
    let coils = facts.head.extra_functions.iter().filter_map(|extra| extra.voltage).map(|volts| volts.nominal);
    let lower = coils.map(|coil| old.voltage.is_some_and(|own| own.nominal.si() > coil.si() + 0.5));
    let electrics = Electrics {
        voltage: old.voltage,
        outputs: Some(std::iter::repeat_with(output).take(needed).collect()),
        // No machine needs more than a handful.
        spare_buttons: old.spare_buttons.max(u8::try_from(needed).ok()),
        converter: lower.fold(None, |found, lower| if lower { Some(true) } else { found }).or(old.converter),
    };
    let changed = machine.with_carrier(|carrier| carrier.electrics = Some(electrics)).with_circuit(|place| {
        place.stops_and_stays_off = Some(true);
        place.continuous = Some(true);
    });
    Some((changed, Vec::new()))
}

/// Fits windows, screens and guards. What takes drilling or welding on a protective structure is its maker's matter.
pub fn guarding<'m>(machine: Machine<'m>, facts: &Facts) -> Changed<'m> {
    let structure = |guard: &Guard| {
        matches!(guard, Guard::Rops | Guard::RopsExcavator | Guard::Fops | Guard::ForestryOps | Guard::ForestryFops)
    };
    let old = facts.carrier.guards.clone();
    let lacking = guards_lacking(facts).unwrap_or_else(|| facts.head.demands.guards.clone().unwrap_or_default());
    let fitted: Vec<Guard> = lacking.into_iter().filter(|guard| !structure(guard)).collect();
    if fitted.is_empty() {
        return None;
    }
    let guards = Some(old.into_iter().flatten().chain(fitted).collect());
    Some((machine.with_carrier(|carrier| carrier.guards = guards), Vec::new()))
}

/// Bridges the machine's pins to those of the head.
pub fn mounting_kit<'m>(machine: Machine<'m>, facts: &Facts) -> Changed<'m> {
    let bridged = Solved::on(facts, || {
        facts.carrier_mountings();
        facts.head_mountings();
        can_be_bridged(facts).map(Solved::plain)
    })?;
    let fitted = bridged.value.clone().at(facts.circuit.end);
    let changed = machine.with_carrier(|carrier| carrier.mounting.push(fitted));
    let pin = match bridged.value {
        Mounting::Pins { pin, .. } => Some(solved(SettingId::Pin, bridged.map(|_| pin.nominal))),
        Mounting::Standard { .. } => None,
    };
    Some((changed, pin.into_iter().collect()))
}
