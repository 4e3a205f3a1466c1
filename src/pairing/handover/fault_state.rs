//! What several faults do to a rig in the same way.

use super::Rig;
use crate::circuit::Relief;
use crate::circuit::balance::Order;
use crate::table::PumpControl;

/// The relief at a share of its pressure, opening as it did.
pub(super) fn relief_at(rig: &mut Rig, share: f64) {
    rig.circuit.relief = rig.circuit.relief.map(|relief| Relief {
        cracking: relief.cracking * share,
        full_flow: relief.full_flow * share,
        ..relief
    });
}

/// A divider that gives no priority: the functions take their oil like without one, so many times what they are said to need.
pub(super) fn no_priority(rig: &mut Rig, control: Option<PumpControl>, wanted: f64) {
    let order = match control {
        Some(PumpControl::LoadSensing) => Order::PreCompensated,
        _ => Order::Parallel,
    };
    rig.busy = rig.busy.map(|(_, flow, pressure)| (order, flow * wanted, pressure));
}
