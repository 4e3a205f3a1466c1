//! Traps: what pages and shops say, and what it must not be.

use crate::formulas::{MotorFormulas, efficiency_of};
use crate::from_memory::hose;
use crate::{motor, of, printed, to};
use hydraulics::line::friction_laminar;
use hydraulics::power::hydraulic_power;
use quantity::{AngularVelocity, Power, Pressure, Quantity, Torque, Unit};
use table::LineStandard;

/// Darcy, not Fanning: 64/Re, four times 16/Re (textbook).
#[test]
fn friction_is_darcys() {
    printed(friction_laminar(1600.0), 0.04, 1e-12);
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

/// ISO 16889: the filtration ratio β is no percentage; 2, 10, 75, 200 and 1000 hold back 50, 90, 98.67, 99.5 and 99.9 %.
#[test]
fn beta_is_a_ratio() {
    for (beta, percent) in [(2.0, 50.0), (10.0, 90.0), (75.0, 98.67), (200.0, 99.5), (1000.0, 99.9)] {
        printed(efficiency_of(beta).si() * 100.0, percent, 0.01);
    }
}

/// Sullivan 6.3 and 6.4: 36 815 particles before and 6 347 behind are β 5.8, which holds back 82.76 %; Koc: β 150 holds back 99.33 %, and
/// lets 6 667 of a million through.
#[test]
fn beta_by_counting() {
    let beta = 36_815.0 / 6_347.0;
    printed(beta, 5.8, 0.1);
    printed(efficiency_of(beta).si() * 100.0, 82.76, 0.01);
    printed(efficiency_of(150.0).si() * 100.0, 99.33, 0.01);
    printed((1.0 - efficiency_of(150.0).si()) * 1e6, 6667.0, 1.0);
}

/// The misprint of a copy of Esposito 9-5 that cuts 92/100 to a whole number: 11.8 hp at the pump and 81.9 % overall, which is
/// better than pump and motor alone can be. Right are 15.7 hp and 62.2 %.
#[test]
fn no_transmission_is_better_than_its_pump_and_motor() {
    let (pump, motor): (f64, f64) = (0.92 * 0.94, 0.92 * 0.90);
    assert!(pump * motor < 0.819, "{}", pump * motor);
    let hydraulic = hydraulic_power(of(569.0 + 4.0, Unit::Psi), of(40.69, Unit::UsGallonPerMinute));
    let shaft = to(hydraulic, Unit::Horsepower) / pump;
    printed(shaft, 15.7, 0.1);
    assert!((shaft - 11.8).abs() > 3.0, "{shaft}");
}

/// The misprint of a copy of Fox 10.12 that divides by 7.48/60 in place of by 7.48 and by 60: 3 600 times too much.
#[test]
fn gallons_a_minute_are_divided_twice() {
    let fluid = to(hydraulic_power(of(1500.0, Unit::Psi), of(46.5, Unit::UsGallonPerMinute)), Unit::Horsepower);
    printed(fluid, 40.69, 0.01);
    let (right, wrong) = (46.5 / 7.48 / 60.0 * 1500.0 * 144.0 / 550.0, 46.5 / (7.48 / 60.0) * 1500.0 * 144.0 / 550.0);
    // 7.48 for 7.4805 gallons a cubic foot.
    printed(right, fluid, 0.01 + 0.01);
    assert!(wrong / fluid > 3599.0);
}

/// Sullivan 9.1 shows another example's output; with 1/2π rounded to 0.16 it is 160 lbf·in, exactly 159.15: 1 in³ at 1 000 psi.
#[test]
fn one_over_two_pi_is_not_016() {
    let torque = to(motor(of(1.0, Unit::CubicInchPerRevolution)).torque(of(1000.0, Unit::Psi)), Unit::PoundForceFoot);
    printed(torque * 12.0, 159.15, 0.01);
    assert!((0.16 * 1000.0 / (torque * 12.0) - 1.0).abs() > 0.005);
}
