//! Oil, wires, guards and pins.

// All changes have one form, also those that can always be made.
#![allow(clippy::unnecessary_wraps)]

use super::{Changed, own, setting};
use crate::pairing::checks::{can_be_bridged, greatest_current, guards_lacking, outputs_needed};
use crate::pairing::facts::Facts;
use crate::pairing::{FactId, SettingId};
use crate::quantity::{ElectricCurrent, Kind, Unit};
use crate::table::{Carrier, Electrics, Guard, Mounting, Oil, Output, OutputKind};

/// Flushes and fills what the head demands; cleaned through a filter it is as clean as asked.
pub fn oil_change(facts: &Facts) -> Changed {
    let demands = &facts.head.demands;
    let old = facts.carrier.oil.clone();
    let (kind, grade) = (old.as_ref().and_then(|oil| oil.kind), old.as_ref().and_then(|oil| oil.grade));
    let new_kind = kind.filter(|kind| demands.oil_kinds.is_empty() || demands.oil_kinds.contains(kind));
    let new_grade = grade.filter(|grade| demands.oil_grades.is_empty() || demands.oil_grades.contains(grade));
    let same = new_kind == kind && new_grade == grade && old.is_some();
    // A data sheet's figures go with the oil that they describe.
    let sheet = old.as_ref().filter(|_| same);
    let oil = Oil {
        kind: new_kind.or(demands.oil_kinds.first().copied()),
        grade: new_grade.or(demands.oil_grades.first().copied()),
        viscosity_40: sheet.and_then(|oil| oil.viscosity_40),
        viscosity_100: sheet.and_then(|oil| oil.viscosity_100),
        cleanliness: demands.cleanliness.or(sheet.and_then(|oil| oil.cleanliness)),
    };
    Some((Carrier { oil: Some(oil), ..facts.carrier.clone() }, Vec::new()))
}

/// Wires as many outputs as are needed, with buttons, fuses and a seat switch: it stops when the operator leaves or power fails, and
/// stays off. A converter gives 12 V coils theirs on a 24 V machine, never the other way round.
pub fn harness(facts: &Facts) -> Changed {
    let needed = outputs_needed(facts).unwrap_or(0);
    let current = greatest_current(facts).map_or(ElectricCurrent::from_si(5.0), |stated| stated.nominal);
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
    let mut changed = Carrier { electrics: Some(electrics), ..facts.carrier.clone() };
    for circuit in changed.circuits.iter_mut().filter(|circuit| circuit.id == facts.circuit.id) {
        circuit.stops_and_stays_off = Some(true);
        circuit.continuous = Some(true);
    }
    Some((changed, Vec::new()))
}

/// Fits windows, screens and guards. What takes drilling or welding on a protective structure is its maker's matter.
pub fn guarding(facts: &Facts) -> Changed {
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
    Some((Carrier { guards, ..facts.carrier.clone() }, Vec::new()))
}

/// Bridges the machine's pins to those of the head.
pub fn mounting_kit(facts: &Facts) -> Changed {
    facts.solves(SettingId::Pin);
    facts.see(FactId::CarrierMounting, &facts.carrier.mounting);
    facts.see(FactId::HeadMounting, &facts.head.mounting);
    let bridged = can_be_bridged(facts)?;
    let pin = match bridged {
        Mounting::Pins { pin, .. } => Some(setting(SettingId::Pin, pin.nominal)),
        Mounting::Standard { .. } => None,
    };
    let mut changed = facts.carrier.clone();
    changed.mounting.push(bridged.clone());
    Some((changed, pin.into_iter().collect()))
}
