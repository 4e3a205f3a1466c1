//! Viscosity of the grades.

use crate::{celsius, of, printed, to, vg46};
use hydraulics::OilCurve;
use quantity::{KinematicViscosity, Unit};
use table::OilGrade;

/// A public worksheet for ASTM D341 prints 8.5 mm²/s at 80 °C for (40 °C, 32) and (100 °C, 5.4).
#[test]
fn d341_worksheet() {
    printed(to(OilCurve::of_grade(OilGrade::Vg32).viscosity(celsius(80.0)), Unit::SquareMillimetrePerSecond), 8.5, 0.1);
}

/// The grades of ISO 3448 at 40 °C.
#[test]
fn iso_3448_midpoints() {
    let grades = [
        (OilGrade::Vg15, 15.0),
        (OilGrade::Vg22, 22.0),
        (OilGrade::Vg32, 32.0),
        (OilGrade::Vg46, 46.0),
        (OilGrade::Vg68, 68.0),
        (OilGrade::Vg100, 100.0),
    ];
    for (grade, nu) in grades {
        let computed = to(OilCurve::of_grade(grade).viscosity(celsius(40.0)), Unit::SquareMillimetrePerSecond);
        printed(computed, nu, 1e-6);
    }
}

/// Constants of ASTM D341 for VG 46 (46 / 6.8 mm²/s), fitted with the general-purpose libraries `fluids` and `chemicals`.
#[test]
fn d341_constants_of_vg46() {
    let (a, b) = vg46().constants();
    printed(a, 9.417_992_554_330_901, 1e-9);
    printed(b, 3.684_441_497_537_866_7, 1e-9);
}

/// ν of VG 46 at 0, 20, 60 and 80 °C by the same libraries.
#[test]
fn d341_table_of_vg46() {
    for (t, nu, digit) in [(0.0, 577.32, 0.01), (20.0, 133.84, 0.01), (60.0, 20.623, 0.001), (80.0, 11.103, 0.001)] {
        printed(to(vg46().viscosity(celsius(t)), Unit::SquareMillimetrePerSecond), nu, digit);
    }
}

/// Temperatures of VG 46 at 1000 and 36 mm²/s: −6.1 °C and 45.6 °C by the same libraries.
#[test]
fn temperature_at_a_viscosity() {
    let nu = |v| of::<KinematicViscosity>(v, Unit::SquareMillimetrePerSecond);
    printed(to(vg46().temperature_at(nu(1000.0)), Unit::Celsius), -6.1, 0.1);
    printed(to(vg46().temperature_at(nu(36.0)), Unit::Celsius), 45.6, 0.1);
}

/// A and B of ASTM D341, and ν at −20, 0, 60 and 80 °C, by the general-purpose libraries `fluids` and `chemicals`.
#[track_caller]
fn grade(grade: OilGrade, (a, b): (f64, f64), table: [(f64, f64, f64); 4]) {
    let curve = OilCurve::of_grade(grade);
    let constants = curve.constants();
    printed(constants.0, a, 1e-6);
    printed(constants.1, b, 1e-6);
    for (t, nu, digit) in table {
        printed(to(curve.viscosity(celsius(t)), Unit::SquareMillimetrePerSecond), nu, digit);
    }
}

/// VG 22 with 22 and 4.3 mm²/s.
#[test]
fn d341_of_vg22() {
    let table = [(-20.0, 1071.5, 0.1), (0.0, 186.9, 0.1), (60.0, 11.13, 0.01), (80.0, 6.558, 0.001)];
    grade(OilGrade::Vg22, (9.567_331, 3.780_448), table);
}

/// VG 32 with 32 and 5.4 mm²/s.
#[test]
fn d341_of_vg32() {
    let table = [(-20.0, 2291.5, 0.1), (0.0, 336.0, 0.1), (60.0, 15.19, 0.01), (80.0, 8.533, 0.001)];
    grade(OilGrade::Vg32, (9.530_815, 3.746_578), table);
}

/// VG 68 with 68 and 8.7 mm²/s.
#[test]
fn d341_of_vg68() {
    let table = [(-20.0, 9353.5, 0.1), (0.0, 1033.2, 0.1), (60.0, 28.66, 0.01), (80.0, 14.72, 0.01)];
    grade(OilGrade::Vg68, (9.309_695, 3.624_396), table);
}

/// VG 100 with 100 and 11.4 mm²/s.
#[test]
fn d341_of_vg100() {
    let table = [(-20.0, 16789.0, 1.0), (0.0, 1719.5, 0.1), (60.0, 40.22, 0.01), (80.0, 19.89, 0.01)];
    grade(OilGrade::Vg100, (9.059_321, 3.509_015), table);
}

/// Temperatures at 1000, 36, 16 and 10 mm²/s by the same libraries.
#[test]
fn temperatures_at_the_limits_of_viscosity() {
    let grades = [
        (OilGrade::Vg32, [-12.2, 37.3, 58.4, 74.0]),
        (OilGrade::Vg46, [-6.1, 45.6, 67.6, 83.9]),
        (OilGrade::Vg68, [0.4, 54.2, 77.2, 94.3]),
    ];
    for (grade, temperatures) in grades {
        for (nu, t) in [1000.0, 36.0, 16.0, 10.0].into_iter().zip(temperatures) {
            let nu: KinematicViscosity = of(nu, Unit::SquareMillimetrePerSecond);
            printed(to(OilCurve::of_grade(grade).temperature_at(nu), Unit::Celsius), t, 0.1);
        }
    }
}

/// Koc: VG 46 (46 and 6.8 mm²/s) has 79.5 mm²/s at 29 °C and 13.2 at 74; VG 32 (32 and 5.4) 10 at 74 °C and 21.5 at 50.
#[test]
fn koc_oils_of_a_platform() {
    let rows = [
        (OilGrade::Vg46, 29.0, 79.5, 0.1),
        (OilGrade::Vg46, 74.0, 13.2, 0.1),
        (OilGrade::Vg32, 74.0, 10.0, 1.0),
        (OilGrade::Vg32, 50.0, 21.5, 0.1),
    ];
    for (grade, t, nu, digit) in rows {
        printed(to(OilCurve::of_grade(grade).viscosity(celsius(t)), Unit::SquareMillimetrePerSecond), nu, digit);
    }
}
