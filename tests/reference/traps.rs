//! Traps: what pages and shops say, and what it must not be.

use crate::from_memory::hose;
use crate::{celsius, motor, of, printed, to, vg46};
use pairwright::circuit::filter::efficiency_of;
use pairwright::circuit::heat::Bath;
use pairwright::circuit::line::{Piece, Roughness, friction_haaland, friction_laminar, reynolds};
use pairwright::circuit::power::hydraulic_power;
use pairwright::circuit::velocity::velocity;
use pairwright::circuit::{Motor, Oil, OilCurve};
use pairwright::quantity::{
    AngularVelocity, HeatCapacity, Kind, MassDensity, Power, Pressure, ThermalConductance, Torque, Unit, VolumeRate,
};
use pairwright::table::{LineStandard, OilGrade};

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

/// The SI copy of Esposito 4-10 divides a bore in metres by 12, as if it were inches: its elbow of K 0.9 is a twelfth as long as it is.
#[test]
fn a_bore_in_metres_has_no_inches() {
    let bore = of(0.0254, Unit::Metre);
    let oil = Oil { viscosity: of(100.0, Unit::SquareMillimetrePerSecond), density: MassDensity::from_si(900.0) };
    let flow = VolumeRate::from_si(0.001_90);
    let friction = friction_laminar(reynolds(flow, bore, &oil));
    let of_length =
        |metres: f64| Piece::Pipe { bore, length: of(metres, Unit::Metre), roughness: Roughness::default() };
    let elbow = Piece::Fitting { k: 0.9, bore }.loss(flow, &oil);
    let (right, wrong) = (0.9 * 0.0254 / friction, 0.9 * 0.0254 / 12.0 / friction);
    assert!((of_length(right).loss(flow, &oil) / elbow).value - 1.0 < 1e-9);
    assert!((of_length(wrong).loss(flow, &oil) / elbow).value < 0.1);
}

/// A course gives VG 46 at 5 °C as 262 mm²/s, which it has at 10 °C: at 5 it has 382. Its VG 68 of 124 at 29 °C is 122.7 by 68 and
/// 8.7.
#[test]
fn cold_oil_is_thicker_than_a_course_says() {
    let at = |grade, t| to(OilCurve::of_grade(grade).viscosity(celsius(t)), Unit::SquareMillimetrePerSecond);
    printed(at(OilGrade::Vg46, 10.0), 262.0, 1.0);
    printed(at(OilGrade::Vg46, 5.0), 382.0, 1.0);
    printed(at(OilGrade::Vg68, 29.0), 122.7, 0.1);
}

/// A course prints 2.1 m/s for 10.67 L/min in 10 mm: it is 2.26.
#[test]
fn velocity_of_a_course() {
    let speed = velocity(of(10.67, Unit::LitrePerMinute), of(10.0, Unit::Millimetre));
    printed(to(speed, Unit::MetrePerSecond), 2.26, 0.01);
}

/// A course prints 0.42 kW for a tank of 0.7 m², 15 W/(m²·K) and 40 K and goes on with 0.45.
#[test]
fn walls_shed_what_they_shed() {
    printed(0.7 * 15.0 * 40.0, 420.0, 1.0);
    let none = ThermalConductance::from_si(0.0);
    let walls = ThermalConductance::from_si(0.7 * 15.0);
    let (ambient, capacity) = (celsius(20.0), HeatCapacity::new::<uom::si::heat_capacity::kilojoule_per_kelvin>(100.0));
    let of_heat = |heat| Bath { heat: Power::from_si(heat), cooler: none, air: ambient, walls, ambient, capacity };
    let settles = |heat: f64| to(of_heat(heat).steady().expect("it is cooled"), Unit::Celsius);
    printed(settles(420.0), 60.0, 0.1);
    assert!(settles(450.0) > 62.0);
}

/// A question page gives a motor of 10 cm³ at 150 rpm and 200 bar, η_v 60 %, overall 40 %, by the pump's rule 0.9 L/min and 120 W. It
/// takes 2.5 L/min, 1.5 of which turn it, and gives 333 W.
#[test]
fn a_motor_does_not_take_less_than_its_displacement() {
    let bad = Motor {
        displacement: of(10.0, Unit::CubicCentimetrePerRevolution),
        volumetric: 0.6,
        hydromechanical: 0.4 / 0.6,
        ratio: 1.0,
    };
    let flow = bad.flow_for(of(150.0, Unit::RevolutionPerMinute));
    printed(to(flow, Unit::LitrePerMinute), 2.5, 0.1);
    let (pressure, given) = (of::<Pressure>(200.0, Unit::Bar), hydraulic_power(of(200.0, Unit::Bar), flow));
    printed(to(given, Unit::Watt) * 0.4, 333.0, 1.0);
    printed(bad.shaft_power(pressure, flow).si(), 333.0, 1.0);
}

/// Three motors of 200 cm³ in series, 60 L/min, 140 → 100 → 60 → 20 bar: 300 rpm each. A maker's page prints 70 N·m for each 40 bar,
/// which would be an efficiency of 0.55: ideal are 127.3.
#[test]
fn motors_in_series_share_the_pressure() {
    let one = motor(of(200.0, Unit::CubicCentimetrePerRevolution));
    printed(to(one.shaft_speed(of(60.0, Unit::LitrePerMinute)), Unit::RevolutionPerMinute), 300.0, 1.0);
    let torque = one.torque(of(40.0, Unit::Bar)).si();
    printed(torque, 127.3, 0.1);
    printed(70.0 / torque, 0.55, 0.01);
}
