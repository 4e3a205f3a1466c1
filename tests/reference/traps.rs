//! Traps: what pages and shops say, and what it must not be.

use crate::from_memory::hose;
use crate::{celsius, motor, of, printed, to, vg46};
use pairwright::circuit::Motor;
use pairwright::circuit::filter::efficiency_of;
use pairwright::circuit::line::{friction_haaland, friction_laminar, reynolds};
use pairwright::circuit::power::hydraulic_power;
use pairwright::quantity::{AngularVelocity, Kind, Power, Pressure, Torque, Unit};
use pairwright::table::LineStandard;

/// The trap of a question page that divides p·Q by 500: 20 % more than there is.
#[test]
fn power_divides_by_600() {
    let power = to(hydraulic_power(of(100.0, Unit::Bar), of(60.0, Unit::LitrePerMinute)), Unit::Kilowatt);
    printed(power, 10.0, 1e-9);
    assert!((100.0 * 60.0 / 500.0 / power - 1.2).abs() < 1e-9);
}

/// The trap of the pump's rule: for a motor the flow that goes in is the theoretical one *divided* by η_v, so that a worse
/// motor turns slower with the same flow.
#[test]
fn a_leaking_motor_turns_slower() {
    let q = of(100.0, Unit::LitrePerMinute);
    let tight = motor(of(50.0, Unit::CubicCentimetrePerRevolution));
    let worn = Motor { volumetric: 0.8, ..tight };
    assert!(worn.shaft_speed(q) < tight.shaft_speed(q));
}

/// The trap of the turbulent formula in laminar flow: row L02 would lose a third of what it does.
#[test]
fn cold_oil_is_laminar() {
    let oil = vg46().at(celsius(0.0));
    let re = reynolds(of(20.0, Unit::LitrePerMinute), of(12.7, Unit::Millimetre), &oil);
    printed(friction_laminar(re), 1.106, 0.001);
    printed(friction_haaland(re, 0.01 / 12.7), 0.362, 0.001);
}

/// Darcy, not Fanning: 64/Re, four times 16/Re (textbook).
#[test]
fn friction_is_darcys() {
    printed(friction_laminar(1600.0), 0.04, 1e-12);
}

/// The trap of Haaland without its exponent 1.11, as a lecture page shows it: the wrong form is a tenth and more off.
#[test]
fn haaland_has_its_exponent() {
    let (re, rough): (f64, f64) = (30_099.6, 0.01 / 12.7);
    let without: f64 = (-1.8_f64 * (rough / 3.7 + 6.9 / re).log10()).powi(-2);
    printed(friction_haaland(re, rough), 0.025_135, 1e-6);
    assert!((without / friction_haaland(re, rough) - 1.0).abs() > 0.05, "{without}");
}

/// The trap of a shop that sells 100R12 as “420 bar”: 4000 psi, which is 275 bar, up to one inch.
#[test]
fn r12_is_not_420_bar() {
    assert_eq!(hose(LineStandard::SaeR12, 8), Some(275.0));
    printed(to(of::<Pressure>(4000.0, Unit::Psi), Unit::Bar), 276.0, 1.0);
}

/// The trap of one “working pressure” for a kind of hose: it holds at the smallest bore alone.
#[test]
fn a_hose_has_a_rating_for_each_size() {
    assert_eq!((hose(LineStandard::En2sn, 6), hose(LineStandard::En2sn, 16)), (Some(330.0), Some(165.0)));
}

/// The trap of a rounded constant: 1714, 63 025 and 5252 of the books against the exact ones, a thousandth at the most.
#[test]
fn constants_of_the_books_are_rounded() {
    let hp = |power: Power| to(power, Unit::Horsepower);
    let by_1714 = 1000.0 * 10.0 / 1714.0;
    let exact = hp(hydraulic_power(of(1000.0, Unit::Psi), of(10.0, Unit::UsGallonPerMinute)));
    printed(1000.0 * 10.0 / exact, 1_714.285_714_285_714, 1e-9);
    assert!((by_1714 / exact - 1.0).abs() < 1e-3);
    let shaft = |torque: Torque, n: f64| {
        hp(Power::from_si(torque.si() * of::<AngularVelocity>(n, Unit::RevolutionPerMinute).si()))
    };
    let pound_feet = of::<Torque>(100.0, Unit::PoundForceFoot);
    printed(100.0 * 1000.0 / shaft(pound_feet, 1000.0), 5_252.113_122_032_546, 1e-8);
    printed(100.0 * 12.0 * 1000.0 / shaft(pound_feet, 1000.0), 63_025.357_464_390_55, 1e-7);
}

/// The trap of taking a pump's pressure for the motor's difference: the back pressure comes off.
#[test]
fn torque_comes_from_the_difference() {
    let motor = motor(of(100.0, Unit::CubicCentimetrePerRevolution));
    let (inlet, outlet): (Pressure, Pressure) = (of(200.0, Unit::Bar), of(30.0, Unit::Bar));
    printed(to(motor.torque(inlet - outlet), Unit::NewtonMetre), 270.56, 0.01);
    printed(to(motor.torque(inlet), Unit::NewtonMetre), 318.31, 0.01);
}

/// ISO 16889: the filtration ratio β is no percentage; 2, 10, 75, 200 and 1000 hold back 50, 90, 98.67, 99.5 and 99.9 %.
#[test]
fn beta_is_a_ratio() {
    for (beta, percent) in [(2.0, 50.0), (10.0, 90.0), (75.0, 98.67), (200.0, 99.5), (1000.0, 99.9)] {
        printed(efficiency_of(beta).si() * 100.0, percent, 0.01);
    }
}
