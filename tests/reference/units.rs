//! Exact sizes of units as published.

use crate::{of, printed, to};
use quantity::{Displacement, Power, Pressure, Quantity, Torque, Unit, VolumeRate};

/// NIST SP 811: a pound-force per square inch is 6894.757 Pa; 1 bar is 14.503 77 psi.
#[test]
fn pound_per_square_inch() {
    printed(of::<Pressure>(1.0, Unit::Psi).si(), 6894.757, 1e-3);
    printed(to(of::<Pressure>(1.0, Unit::Bar), Unit::Psi), 14.503_77, 1e-5);
}

/// NIST SP 811: a US gallon is 3.785 412 L (exactly 231 in³).
#[test]
fn us_gallon() {
    printed(to(of::<VolumeRate>(1.0, Unit::UsGallonPerMinute), Unit::LitrePerMinute), 3.785_412, 1e-6);
}

/// NIST SP 811: a horsepower of 550 ft·lbf/s is 745.6999 W.
#[test]
fn horsepower() {
    printed(to(of::<Power>(1.0, Unit::Horsepower), Unit::Watt), 745.6999, 1e-4);
}

/// NIST SP 811: a pound-force foot is 1.355 818 N·m.
#[test]
fn pound_force_foot() {
    printed(of::<Torque>(1.0, Unit::PoundForceFoot).si(), 1.355_818, 1e-6);
}

/// NIST SP 811: a cubic inch is 16.387 06 cm³.
#[test]
fn cubic_inch() {
    printed(
        to(of::<Displacement>(1.0, Unit::CubicInchPerRevolution), Unit::CubicCentimetrePerRevolution),
        16.387_06,
        1e-5,
    );
}

/// Handbook sheet of common formulas: v\[ft/s\] = 0.3208·Q\[gpm\]/A\[in²\].
#[test]
fn velocity_in_feet_per_second() {
    let per_second = of::<VolumeRate>(1.0, Unit::UsGallonPerMinute).si() / (0.0254 * 0.0254) / 0.3048;
    printed(per_second, 0.3208, 1e-4);
}

/// From the same sheet: T\[lbf·in\] = 36.77·Q\[gpm\]·p\[psi\]/n; exactly it is 36.76.
#[test]
fn torque_from_flow_and_speed() {
    let power = of::<Pressure>(1.0, Unit::Psi) * of::<VolumeRate>(1.0, Unit::UsGallonPerMinute);
    let torque = Torque::from_si(power.si() / Unit::RevolutionPerMinute.to_si(1.0));
    printed(to(torque, Unit::PoundForceFoot) * 12.0, 36.77, 0.01 + 0.01);
}
