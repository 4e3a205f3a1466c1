//! Figures of one entry that cannot both be true: somebody must look, nothing is thrown away.

use super::node::ends;
use super::object::Object;
use crate::{CarrierClass, Contradiction, Id, bounds};
use quantity::{
    Amount, AngularVelocity, Displacement, KinematicViscosity, Mass, Power, Pressure, Quantity, Range, Stated, Unit,
    VolumeRate,
};
use std::f64::consts::TAU;

/// Of a machine: a maker of what is a whole class, a mass that is no machine's of the class by half or twice (a slipped decimal or a
/// wrong unit).
pub fn of_carrier(object: &Object, class: Option<CarrierClass>, generic: Option<bool>, mass: Option<Stated<Mass>>) {
    if generic == Some(true) {
        object.warn(&["maker"], Contradiction::GenericWithMaker);
    }
    if let Some((class, mass)) = class.zip(mass) {
        let (least, _, greatest) = bounds::class_mass(class);
        // One message for one slip.
        let usual = bounds::CARRIER_MASS.are_usual(ends(&mass.map(Amount::of)));
        if usual && !(0.5 * least..=2.0 * greatest).contains(&mass.nominal.si()) {
            object.warn(&["operating_mass"], Contradiction::MassOutsideClass);
        }
    }
}

/// Of a machine: a second coupler where there is one end.
pub fn of_ends(object: &Object) {
    if object.context.around.borrow().class.is_some_and(|class| class.only_end().is_some()) {
        object.warn(&["second_coupler"], Contradiction::EndOutsideClass);
    }
}

/// Of a machine's engine: limiters that let the pumps together take more, W, than it has.
pub fn of_power(object: &Object, power: Option<Stated<Power>>, taken: f64) {
    if power.is_some_and(|power| taken > power.nominal.si()) {
        object.warn(&["engine", "power"], Contradiction::PowerAboveEngine);
    }
}

/// Of an engine: a speed without load below that under load.
pub fn of_engine(
    object: &Object,
    working: Option<Stated<AngularVelocity>>,
    high_idle: Option<Stated<AngularVelocity>>,
) {
    if high_idle.zip(working).is_some_and(|(idle, working)| idle.nominal < working.nominal) {
        object.warn(&["high_idle"], Contradiction::HighIdleBelowWorking);
    }
}

/// Of a pump: a flow far from what displacement and working speed make of it. It turns with the engine or a little faster or slower; a
/// slipped decimal is ten times off.
pub fn of_pump(object: &Object, displacement: Option<Stated<Displacement>>, flow: Option<Stated<VolumeRate>>) {
    let turns = object.context.around.borrow().engine_speed;
    let computed = displacement.zip(turns).map(|(volume, turns)| volume.nominal.si() * turns / TAU);
    if flow.zip(computed).is_some_and(|(flow, computed)| !(0.5..=2.0).contains(&(flow.nominal.si() / computed))) {
        object.warn(&["greatest_flow"], Contradiction::FlowAgainstDisplacement);
    }
}

/// Of an oil: half as thick as at 40 °C is far more than any is at 100.
pub fn of_oil(object: &Object, at_40: Option<Stated<KinematicViscosity>>, at_100: Option<Stated<KinematicViscosity>>) {
    if at_40.zip(at_100).is_some_and(|(cold, hot)| hot.nominal * 2.0 > cold.nominal) {
        object.warn(&["viscosity_100"], Contradiction::OilHardlyThins);
    }
}

/// Of an auxiliary circuit: a flow that its pumps, the engine or its setting do not give, a relief outside its range.
pub fn of_circuit(
    object: &Object,
    pumps: &[Id],
    (flow, setting): (Option<Stated<VolumeRate>>, Option<Range<VolumeRate>>),
    (relief, range): (Option<Stated<Pressure>>, Option<Range<Pressure>>),
) {
    let around = object.context.around.borrow();
    // Only when each of its pumps states a flow; a tenth for rounding in brochures.
    let together: Option<f64> = pumps.iter().map(|id| around.pumps.get(id).copied().flatten()).sum();
    let above = |flow: f64| !pumps.is_empty() && together.is_some_and(|together| flow > 1.1 * together);
    // That flow and relief together ask for more than the engine has is usual: a limiter sees to it, and two pumps at full relief
    // reach twice the engine's power (common practice, no published source). Where no relief is stated, the least of the class.
    let of_class = || around.class.map(|class| Unit::Bar.to_si(bounds::class_relief(class).0));
    let pressure = relief.map(|relief| relief.nominal.si()).or_else(of_class);
    let takes = |flow: f64| pressure.zip(around.engine_power).is_some_and(|(at, power)| flow * at / 3.0 > power);
    if let Some(flow) = flow.map(|flow| flow.nominal.si()) {
        if above(flow) {
            object.warn(&["flow"], Contradiction::FlowAbovePumps);
        } else if takes(flow) {
            object.warn(&["flow"], Contradiction::FlowAboveEngine);
        }
        let slack = 1.05;
        if setting.is_some_and(|to| flow * slack < to.low.si() || flow > to.high.si() * slack) {
            object.warn(&["flow"], Contradiction::FlowOutsideSetting);
        }
    }
    if relief.zip(range).is_some_and(|(relief, range)| !range.contains(relief.nominal)) {
        object.warn(&["relief"], Contradiction::ReliefOutsideRange);
    }
}

/// Of an attachment: heads weigh a tenth of their machine, a quarter at the most (common practice, no published source).
pub fn of_mass(object: &Object, mass: Option<Stated<Mass>>, lightest_carrier: Option<Stated<Mass>>) {
    if mass.zip(lightest_carrier).is_some_and(|(head, least)| head.nominal.si() > 0.45 * least.nominal.si()) {
        object.warn(&["mass"], Contradiction::HeavyForItsMachines);
    }
}

/// Of an attachment's pressures: more at work than it allows at all, whether that is meant at its inlet or across its motor.
pub fn of_pressure(object: &Object, working: Option<Stated<Pressure>>, greatest: Option<Stated<Pressure>>) {
    if working.zip(greatest).is_some_and(|(working, greatest)| working.nominal > greatest.nominal) {
        object.warn(&["working"], Contradiction::WorkingAboveGreatest);
    }
}

/// Of an attachment's motor: a speed, or else a window of flow, far from what displacement and ratio make of them.
pub fn of_motor(object: &Object, speed_agrees: bool, window_agrees: impl Fn() -> bool) {
    if !speed_agrees {
        object.warn(&["motor", "rotor_speed"], Contradiction::DisplacementAgainstSpeed);
    } else if !window_agrees() {
        object.warn(&["flow"], Contradiction::WindowAgainstDisplacement);
    }
}
