//! Power and motors.

use crate::formulas::{MotorFormulas, inferred_displacement};
use crate::{motor, of, printed, to};
use hydraulics::Motor;
use hydraulics::power::hydraulic_power;
use quantity::{AngularVelocity, Displacement, Quantity, Unit, VolumeRate};
use std::f64::consts::TAU;

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
    let shaft = of::<quantity::Torque>(32.0, Unit::PoundForceFoot).si()
        * of::<AngularVelocity>(1200.0, Unit::RevolutionPerMinute).si();
    let taken = Unit::Horsepower.of_si(shaft);
    printed(taken, 7.32, 0.01 + 0.01);
    printed(taken / given * 100.0, 83.66, 0.01 + 2.0 * 83.66 * (0.01 / 7.32 + 0.005 / 8.75));
}

/// Sullivan 14.1 and 14.2, p. 386: 1.5 in³ at 1 800 psi → 35.10 lbf·ft; 80 lbf·ft from 3.5 in³ that starts with 75 % → 2 344 psi.
/// The book takes 0.013 for 1/(24π) = 0.013 263: its torque is 2 % low and its pressure 2 % high.
#[test]
fn sullivan_14_starting_torque() {
    let coarse = 0.013 * 24.0 * std::f64::consts::PI;
    let of_book = |v: f64, starting: f64, psi: f64| {
        let motor = motor(of(v, Unit::CubicInchPerRevolution));
        to(motor.starting_torque(of(psi, Unit::Psi), starting, 1.0), Unit::PoundForceFoot) * coarse
    };
    printed(of_book(1.5, 1.0, 1800.0), 35.10, 0.01);
    // At the printed pressure it starts with the 80 lbf·ft, within half a unit of its last digit.
    printed(of_book(3.5, 0.75, 2344.0), 80.0, 80.0 / 2344.0);
    printed(coarse, 0.98, 0.001);
}

/// Sullivan 9.5 and 9.6, p. 196: 0.6 in³ at 2 400 rpm with 6.5 gpm → 95.90 %, 0.27 gpm lost, half of it to the case (0.13); 88 of 97
/// lbf·in → 90.72 %.
#[test]
fn sullivan_9_5_case_drain() {
    let ideal = motor(of(0.6, Unit::CubicInchPerRevolution));
    let (speed, flow) = (of(2400.0, Unit::RevolutionPerMinute), of::<VolumeRate>(6.5, Unit::UsGallonPerMinute));
    let theoretical = ideal.flow_for(speed);
    printed(theoretical.si() / flow.si() * 100.0, 95.90, 0.01);
    let lost = flow - theoretical;
    printed(to(lost, Unit::UsGallonPerMinute), 0.27, 0.01);
    printed(to(lost * 0.5, Unit::UsGallonPerMinute), 0.13, 0.01);
    // 97 lbf·in are ideal; 88 come out.
    let worn = Motor { hydromechanical: 88.0 / 97.0, ..ideal };
    let difference = of(97.0 * TAU / 0.6, Unit::Psi);
    printed(to(worn.torque(difference), Unit::PoundForceFoot) * 12.0, 88.0, 0.1);
    printed(worn.hydromechanical * 100.0, 90.72, 0.01);
}

/// Web course, a fan: 8 cm³, 20 L/min, η_v 0.92, η_hm 0.85, 15 N·m → 2 300 rpm, 139 bar.
#[test]
fn a_fan_motor() {
    let fan = Motor {
        displacement: of(8.0, Unit::CubicCentimetrePerRevolution),
        volumetric: 0.92,
        hydromechanical: 0.85,
        ratio: 1.0,
    };
    printed(to(fan.shaft_speed(of(20.0, Unit::LitrePerMinute)), Unit::RevolutionPerMinute), 2300.0, 1.0);
    printed(15.0 / fan.torque(of(1.0, Unit::Bar)).si(), 139.0, 1.0);
}

/// Web course, a wheel: 8 kN at 0.5 m, 250 bar, η_hm 0.93, 8 km/h, η_v 0.96 → 1.08 L, 42.4 rpm, 47.8 L/min.
#[test]
fn a_wheel_motor() {
    let displacement = Displacement::from_si(8e3 * 0.5 * TAU / (250e5 * 0.93));
    printed(displacement.si() * 1e3, 1.08, 0.01);
    let wheel = Motor { displacement, volumetric: 0.96, hydromechanical: 0.93, ratio: 1.0 };
    printed(wheel.torque(of(250.0, Unit::Bar)).si(), 4000.0, 1e-6);
    let speed = AngularVelocity::from_si(8.0 / 3.6 / 0.5);
    printed(to(speed, Unit::RevolutionPerMinute), 42.4, 0.1);
    printed(to(wheel.flow_for(speed), Unit::LitrePerMinute), 47.8, 0.1);
}

/// Web course, a winch: 6 000 N·m at 14.3 rpm from 200 bar → 2.05 L, 30.9 L/min; behind a gear of 60:1 with 0.95: 105 N·m at 859 rpm,
/// 36 cm³, 32.5 L/min (32.57, cut off). Its η_hm 0.92 and η_v 0.95 are those that its figures have.
#[test]
fn a_winch_motor_straight_and_geared() {
    // 859.4 rpm through 60:1, of which it prints 14.3.
    let drum: AngularVelocity = of(14.324, Unit::RevolutionPerMinute);
    let straight = Motor {
        displacement: Displacement::from_si(6000.0 * TAU / (200e5 * 0.92)),
        volumetric: 0.95,
        hydromechanical: 0.92,
        ratio: 1.0,
    };
    printed(straight.displacement.si() * 1e3, 2.05, 0.01);
    printed(to(straight.flow_for(drum), Unit::LitrePerMinute), 30.9, 0.1);
    let torque = 6000.0 / 60.0 / 0.95;
    printed(torque, 105.0, 1.0);
    let geared =
        Motor { displacement: Displacement::from_si(torque * TAU / (200e5 * 0.92)), ratio: 1.0 / 60.0, ..straight };
    printed(to(geared.displacement, Unit::CubicCentimetrePerRevolution), 36.0, 1.0);
    printed(to(geared.shaft_speed(geared.flow_for(drum)), Unit::RevolutionPerMinute), 859.0, 1.0);
    printed(to(geared.flow_for(drum), Unit::LitrePerMinute), 32.5, 0.1 + 0.1);
}

/// Koc, problem set 02: 10 cm³, 90 bar, η_hm 0.9, 9 L/min, η_v 0.92 → 12.9 N·m, 828 rpm.
#[test]
fn koc_set_02_motor() {
    let small = Motor {
        displacement: of(10.0, Unit::CubicCentimetrePerRevolution),
        volumetric: 0.92,
        hydromechanical: 0.9,
        ratio: 1.0,
    };
    printed(small.torque(of(90.0, Unit::Bar)).si(), 12.9, 0.1);
    printed(to(small.shaft_speed(of(9.0, Unit::LitrePerMinute)), Unit::RevolutionPerMinute), 828.0, 1.0);
}
