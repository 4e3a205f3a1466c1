//! Power and motors.

use crate::{motor, of, printed, to};
use pairwright::circuit::Motor;
use pairwright::circuit::motor::inferred_displacement;
use pairwright::circuit::power::hydraulic_power;
use pairwright::quantity::{AngularVelocity, Kind, Unit, VolumeRate};

/// p·Q/600 in bar and L/min is exact arithmetic; a question page that prints 500 is wrong.
#[test]
fn power_of_80_litres_at_250_bar() {
    let power = hydraulic_power(of(250.0, Unit::Bar), of(80.0, Unit::LitrePerMinute));
    printed(to(power, Unit::Kilowatt), 33.3333, 1e-4);
    printed(to(power, Unit::Horsepower), 44.7007, 1e-4);
    assert!((to(power, Unit::Kilowatt) - 250.0 * 80.0 / 500.0).abs() > 1.0);
}

/// Esposito 7.2: 5 in³, 1000 psi, 10 gpm → 462 rpm, 795 lbf·in, 5.83 hp.
#[test]
fn esposito_7_2_ideal_motor() {
    let motor = motor(of(5.0, Unit::CubicInchPerRevolution));
    let (dp, q) = (of(1000.0, Unit::Psi), of(10.0, Unit::UsGallonPerMinute));
    printed(to(motor.shaft_speed(q), Unit::RevolutionPerMinute), 462.0, 1.0);
    // The book cuts 795.77 off rather than rounding it.
    printed(to(motor.torque(dp), Unit::PoundForceFoot) * 12.0, 795.0, 2.0);
    printed(to(motor.shaft_power(dp, q), Unit::Horsepower), 5.83, 0.01);
}

/// Esposito 7.5 (SI): 82 cm³, 70 bar, 0.0006 m³/s → 439 rpm, 91.4 N·m, 4.20 kW.
#[test]
fn esposito_7_5_ideal_motor_in_si() {
    let motor = motor(of(82.0, Unit::CubicCentimetrePerRevolution));
    let (dp, q) = (of(70.0, Unit::Bar), VolumeRate::from_si(0.0006));
    printed(to(motor.shaft_speed(q), Unit::RevolutionPerMinute), 439.0, 1.0);
    printed(to(motor.torque(dp), Unit::NewtonMetre), 91.4, 0.1);
    printed(to(motor.shaft_power(dp, q), Unit::Kilowatt), 4.20, 0.01);
}

/// Esposito 7.3: 10 in³, 1000 psi, 2000 rpm, 95 gpm, 1500 lbf·in → η_v 91.1 %, η_m 94.2 %, η_o 85.8 %, 47.6 hp.
/// Efficiencies go in as printed; speed, torque and power must come out as given.
#[test]
fn esposito_7_3_motor_with_losses() {
    let motor = Motor {
        displacement: of(10.0, Unit::CubicInchPerRevolution),
        volumetric: 0.911_369,
        hydromechanical: 0.942_478,
        ratio: 1.0,
    };
    let (dp, q) = (of(1000.0, Unit::Psi), of(95.0, Unit::UsGallonPerMinute));
    printed(to(motor.shaft_speed(q), Unit::RevolutionPerMinute), 2000.0, 1.0);
    printed(to(motor.torque(dp), Unit::PoundForceFoot) * 12.0, 1500.0, 1.0);
    printed(to(motor.shaft_power(dp, q), Unit::Horsepower), 47.6, 0.1);
    printed(motor.volumetric * motor.hydromechanical * 100.0, 85.9, 0.1 + 0.1);
}

/// Esposito 7.6 (SI): 164 cm³, 70 bar, 2000 rpm, 0.006 m³/s, 170 N·m → η_v 91.2 %, η_m 93.0 %, 35.6 kW. The book rounds
/// the theoretical flow up first, hence one unit more in the last digit of η_v.
#[test]
fn esposito_7_6_efficiencies_in_si() {
    let theoretical =
        motor(of(164.0, Unit::CubicCentimetrePerRevolution)).flow_for(of(2000.0, Unit::RevolutionPerMinute)).si();
    printed(theoretical / 0.006 * 100.0, 91.2, 0.1 + 0.1);
    let torque =
        to(motor(of(164.0, Unit::CubicCentimetrePerRevolution)).torque(of(70.0, Unit::Bar)), Unit::NewtonMetre);
    printed(170.0 / torque * 100.0, 93.0, 0.1);
}

/// Esposito 7.4: a pump gives 8.87 gpm; a motor at 400 rpm with η_v .92 takes it all with 4.72 in³.
#[test]
fn esposito_7_4_motor_behind_a_pump() {
    let flow: VolumeRate = of(5.0 * 500.0 * 0.82 / 231.0, Unit::UsGallonPerMinute);
    let speed: AngularVelocity = of(400.0, Unit::RevolutionPerMinute);
    let v = inferred_displacement(flow, speed, 0.92);
    printed(to(v, Unit::CubicInchPerRevolution), 4.715, 0.001);
}

/// University self-evaluation sheet on hydraulic motors, Q2: 125 cm³, 150 bar, 0.0015 m³/s → 720 rpm, 298.4 N·m, 22.5 kW.
#[test]
fn lecture_sheet_q2() {
    let motor = motor(of(125.0, Unit::CubicCentimetrePerRevolution));
    let (dp, q) = (of(150.0, Unit::Bar), VolumeRate::from_si(0.0015));
    printed(to(motor.shaft_speed(q), Unit::RevolutionPerMinute), 720.0, 1.0);
    printed(to(motor.torque(dp), Unit::NewtonMetre), 298.4, 0.1);
    printed(to(motor.shaft_power(dp, q), Unit::Kilowatt), 22.5, 0.1);
}

/// Sullivan, Fluid Power: Theory and Applications, example 9.2: 7.5 gpm through 2 in³ → 866.25 rpm.
#[test]
fn sullivan_9_2_speed() {
    let n = motor(of(2.0, Unit::CubicInchPerRevolution)).shaft_speed(of(7.5, Unit::UsGallonPerMinute));
    printed(to(n, Unit::RevolutionPerMinute), 866.25, 0.01);
}

/// Sullivan 9.3: 0.55 in³ at 3400 rpm takes 8.095 gpm.
#[test]
fn sullivan_9_3_flow() {
    let q = motor(of(0.55, Unit::CubicInchPerRevolution)).flow_for(of(3400.0, Unit::RevolutionPerMinute));
    printed(to(q, Unit::UsGallonPerMinute), 8.095, 0.001);
}

/// University self-evaluation sheet, Q3: 150 cm³, 2500 rpm, 0.0078 m³/s, 120 bar, 250 N·m → η_v 80 %.
#[test]
fn lecture_sheet_q3() {
    let ideal = motor(of(150.0, Unit::CubicCentimetrePerRevolution));
    let volumetric = ideal.flow_for(of(2500.0, Unit::RevolutionPerMinute)).si() / 0.0078;
    printed(volumetric * 100.0, 80.0, 1.0);
    let torque = to(ideal.torque(of(120.0, Unit::Bar)), Unit::NewtonMetre);
    printed(250.0 / torque, 0.872_665, 1e-6);
}

/// Esposito 7.7 (SI): pump 82 cm³ at 500 rpm with η_v .82; motor at 400 rpm, η_v .92, η_m .90, 70 bar → 77.3 cm³, 77.5 N·m.
#[test]
fn esposito_7_7_motor_behind_a_pump_in_si() {
    let flow: VolumeRate = of(82.0 * 500.0 * 0.82 / 1000.0, Unit::LitrePerMinute);
    let v = inferred_displacement(flow, of(400.0, Unit::RevolutionPerMinute), 0.92);
    printed(to(v, Unit::CubicCentimetrePerRevolution), 77.3, 0.1);
    let motor = Motor { displacement: v, volumetric: 0.92, hydromechanical: 0.90, ratio: 1.0 };
    printed(to(motor.torque(of(70.0, Unit::Bar)), Unit::NewtonMetre), 77.5, 0.1);
}

/// Esposito 7.4, the torque: 1000 psi on 4.715 in³ with η_m .90 → 674 lbf·in; the book floors the power first.
#[test]
fn esposito_7_4_torque() {
    let motor = Motor {
        displacement: of(4.715, Unit::CubicInchPerRevolution),
        volumetric: 0.92,
        hydromechanical: 0.90,
        ratio: 1.0,
    };
    printed(to(motor.torque(of(1000.0, Unit::Psi)), Unit::PoundForceFoot) * 12.0, 674.0, 1.0 + 2.0);
}

/// Sullivan 9.4: 32 lbf·ft at 1200 rpm from 2000 psi and 7.5 gpm → 83.66 % overall. The book rounds both powers to 7.32 and
/// 8.75 hp first.
#[test]
fn sullivan_9_4_overall_efficiency() {
    let given = to(hydraulic_power(of(2000.0, Unit::Psi), of(7.5, Unit::UsGallonPerMinute)), Unit::Horsepower);
    printed(given, 8.75, 0.01);
    let shaft = of::<pairwright::quantity::Torque>(32.0, Unit::PoundForceFoot).si()
        * of::<AngularVelocity>(1200.0, Unit::RevolutionPerMinute).si();
    let taken = Unit::Horsepower.of_si(shaft);
    printed(taken, 7.32, 0.01 + 0.01);
    printed(taken / given * 100.0, 83.66, 0.01 + 2.0 * 83.66 * (0.01 / 7.32 + 0.005 / 8.75));
}
