//! Pumps, reliefs and valves.

use crate::formulas::{Orifice, Pump, flow_coefficient, gear_displacement};
use crate::{of, printed, to};
use hydraulics::power::hydraulic_power;
use hydraulics::pump::CutOff;
use hydraulics::valve::Divider;
use hydraulics::{Oil, Relief};
use quantity::shop::rpm;
use quantity::{Displacement, KinematicViscosity, MassDensity, Power, Pressure, Quantity, Unit, VolumeRate};

fn pump(displacement: Displacement) -> Pump {
    Pump { displacement, volumetric: 1.0, hydromechanical: 1.0 }
}

/// Esposito 5.1: gears of 3 and 2 in, 1 in wide, 28 gpm at 1800 rpm → η_v 91.5 %.
#[test]
fn esposito_5_1_gear_pump() {
    let inch = |d| of(d, Unit::Inch);
    let pump = pump(gear_displacement(inch(3.0), inch(2.0), inch(1.0)));
    let theoretical = to(pump.theoretical(rpm(1800.0)), Unit::UsGallonPerMinute);
    printed(28.0 / theoretical * 100.0, 91.5, 0.1);
}

/// Esposito 5.2 (SI): gears of 75 and 50 mm, 25 mm wide, η_v .90 at 1000 rpm → 55.3 L/min; the book rounds 55.22 up.
#[test]
fn esposito_5_2_gear_pump_in_si() {
    let mm = |d| of(d, Unit::Millimetre);
    let pump = Pump { volumetric: 0.90, ..pump(gear_displacement(mm(75.0), mm(50.0), mm(25.0))) };
    printed(to(pump.flow(rpm(1000.0)), Unit::LitrePerMinute), 55.3, 0.1 + 0.1);
}

/// Esposito 5.8: 5 in³, 20 gpm at 1000 rpm and 1000 psi, 900 lbf·in → 81.6 % overall, 793 lbf·in in theory. The book
/// goes by the rounded 81.6 % and a theoretical flow of 21.6 gpm to its torque: 0.816/(20/21.6)·900 is 793.
#[test]
fn esposito_5_8_pump_with_losses() {
    let pump = pump(of(5.0, Unit::CubicInchPerRevolution));
    let theoretical = to(pump.theoretical(rpm(1000.0)), Unit::UsGallonPerMinute);
    printed(theoretical, 21.6, 0.1);
    let torque = to(pump.torque(of(1000.0, Unit::Psi)), Unit::PoundForceFoot) * 12.0;
    printed(torque, 793.0, 1.0 + 2.0 * 2.5);
    printed(20.0 / theoretical * torque / 900.0 * 100.0, 81.6, 0.1 + 2.0 * 81.6 * (0.05 / 21.6));
}

/// Esposito 5.9 (SI): 100 cm³, 0.0015 m³/s at 1000 rpm and 70 bar, 120 N·m → 83.5 % overall, 112 N·m in theory (the book
/// rounds 111.4 up).
#[test]
fn esposito_5_9_pump_in_si() {
    let pump = pump(of(100.0, Unit::CubicCentimetrePerRevolution));
    let torque = to(pump.torque(of(70.0, Unit::Bar)), Unit::NewtonMetre);
    printed(torque, 112.0, 1.0 + 1.0);
    let volumetric = 0.0015 / pump.theoretical(rpm(1000.0)).si();
    printed(volumetric * torque / 120.0 * 100.0, 83.5, 0.1 + 0.1);
}

/// Esposito 8.5: 25 gpm at 100 psi and SG .9 → C_v 2.37 gpm/√psi.
#[test]
fn esposito_8_5_flow_coefficient() {
    printed(flow_coefficient(of(25.0, Unit::UsGallonPerMinute), of(100.0, Unit::Psi), &light_oil()), 2.37, 0.01);
}

/// Esposito 8.5 (SI): 94.8 L/min at 687 kPa and SG .9 → 3.43 L/min/√kPa.
#[test]
fn esposito_8_5_flow_coefficient_in_si() {
    let (flow, loss): (VolumeRate, Pressure) = (of(94.8, Unit::LitrePerMinute), of(687.0, Unit::Kilopascal));
    // From gpm/√psi: times litres a gallon, over the root of kPa a psi.
    let per_root_kilopascal =
        flow_coefficient(flow, loss, &light_oil()) * 3.785_411_784 / 6.894_757_293_168_362_f64.sqrt();
    printed(per_root_kilopascal, 3.43, 0.01);
}

fn light_oil() -> Oil {
    Oil { viscosity: KinematicViscosity::from_si(46e-6), density: MassDensity::from_si(0.9 * 999.0) }
}

/// Esposito 8.1: a plain poppet cracks at 667 psi and passes full flow at 1000 psi: a third of override.
#[test]
fn esposito_8_1_override() {
    let relief = Relief::new(of::<Pressure>(1000.0, Unit::Psi), 1.0 / 3.0);
    printed(to(relief.cracking, Unit::Psi), 667.0, 1.0);
    printed(relief.share_passed(of(833.0, Unit::Psi)), 0.5, 0.01);
}

/// Esposito 8.3: unloaded at 25 psi instead of 1000 the same 20 gpm take 0.29 hp.
#[test]
fn esposito_8_3_unloading() {
    let power = hydraulic_power(of(25.0, Unit::Psi), of(20.0, Unit::UsGallonPerMinute));
    printed(to(power, Unit::Horsepower), 0.29, 0.01);
}

/// Fluid-power worksheet on hydraulic pumps: 150 bar, 26.7 L/min, efficiency .85 → 7.85 kW at the shaft.
#[test]
fn pump_input_of_a_published_worksheet() {
    let power = hydraulic_power(of(150.0, Unit::Bar), of(26.7, Unit::LitrePerMinute));
    printed(to(power, Unit::Kilowatt) / 0.85, 7.85, 0.01);
}

/// Esposito, Fluid Power with Applications, relief valve example 8.2: 1000 psi × 20 gpm = 11.7 hp.
#[test]
fn esposito_8_2_power_over_a_relief() {
    let power = hydraulic_power(of(1000.0, Unit::Psi), of(20.0, Unit::UsGallonPerMinute));
    printed(to(power, Unit::Horsepower), 11.7, 0.1);
}

/// Sullivan 7.1 to 7.4: 3 gpm at 2 500 psi from 5 hp at 1 725 rpm → 15.22 lbf·ft, 87.5 %; 52 gpm from 3.75 in³ at 3 300 rpm → 97.07 %;
/// 87 of 94 % → 92.55 %, 0.745 hp lost of 10; nine pistons of ½ in with ¾ in of stroke at 3 000 rpm → 17.21 gpm.
#[test]
fn sullivan_7_pumps() {
    let shaft = of::<Power>(5.0, Unit::Horsepower).si() / rpm(1725.0).si();
    printed(Unit::PoundForceFoot.of_si(shaft), 15.22, 0.01);
    let given = hydraulic_power(of(2500.0, Unit::Psi), of(3.0, Unit::UsGallonPerMinute));
    printed(to(given, Unit::Horsepower) / 5.0 * 100.0, 87.5, 0.1);
    let theoretical = pump(of(3.75, Unit::CubicInchPerRevolution)).theoretical(rpm(3300.0));
    printed(52.0 / to(theoretical, Unit::UsGallonPerMinute) * 100.0, 97.07, 0.01);
    let mechanical: f64 = 87.0 / 94.0;
    printed(mechanical * 100.0, 92.55, 0.01);
    // Of 10 hp at the shaft what friction takes.
    let rubbing = Pump { volumetric: 0.94, hydromechanical: mechanical, ..pump(of(1.0, Unit::CubicInchPerRevolution)) };
    let (pressure, speed): (Pressure, _) = (of(1000.0, Unit::Psi), rpm(1000.0));
    let moved = pressure * rubbing.theoretical(speed);
    printed(10.0 * (1.0 - moved.si() / rubbing.shaft_power(speed, pressure).si()), 0.745, 0.001);
    let piston: f64 = std::f64::consts::PI / 4.0 * 0.25;
    let nine = pump(of(9.0 * piston * 0.75, Unit::CubicInchPerRevolution)).theoretical(rpm(3000.0));
    printed(to(nine, Unit::UsGallonPerMinute), 17.21, 0.01);
}

/// Web course: 45 cm³ at 1 480 rpm and 250 bar with 0.96 and 0.93 → 63.9 L/min, 192.5 N·m, 29.8 kW, 3.2 kW lost; and of 32 cm³ at
/// 1 500 rpm, 45.1 L/min, 200 bar, 115 N·m → 0.94, 0.886, 0.83.
#[test]
fn a_web_course_s_pumps() {
    let (speed, pressure): (_, Pressure) = (rpm(1480.0), of(250.0, Unit::Bar));
    let large = Pump { volumetric: 0.96, hydromechanical: 0.93, ..pump(of(45.0, Unit::CubicCentimetrePerRevolution)) };
    let flow = large.flow(speed);
    printed(to(flow, Unit::LitrePerMinute), 63.9, 0.1);
    printed(large.torque(pressure).si(), 192.5, 0.1);
    let shaft = large.shaft_power(speed, pressure);
    printed(to(shaft, Unit::Kilowatt), 29.8, 0.1);
    printed(to(shaft - pressure * flow, Unit::Kilowatt), 3.2, 0.1);
    let measured = pump(of(32.0, Unit::CubicCentimetrePerRevolution));
    let (speed, pressure): (_, Pressure) = (rpm(1500.0), of(200.0, Unit::Bar));
    let volumetric = 45.1 / to(measured.theoretical(speed), Unit::LitrePerMinute);
    let hydromechanical = measured.torque(pressure).si() / 115.0;
    printed(volumetric, 0.94, 0.01);
    printed(hydromechanical, 0.886, 0.001);
    printed(volumetric * hydromechanical, 0.83, 0.01);
}

/// Web course, a compensator: spring 150 N/mm, 25 mm of preload, 3 mm of travel, 2 cm² → it begins at 187.5 bar and gives nothing
/// at 210. Standing still a fixed pump of 60 L/min makes 20 kW over 200 bar, a compensated one with 2 L/min 0.67.
#[test]
fn a_compensator_between_cut_off_and_no_flow() {
    let spring = |travel_mm: f64| Pressure::from_si(150e3 * travel_mm / 1000.0 / 2e-4);
    let (begins, ends) = (spring(25.0), spring(28.0));
    printed(to(begins, Unit::Bar), 187.5, 0.1);
    printed(to(ends, Unit::Bar), 210.0, 1.0);
    let cut_off = CutOff::Compensated { pressure: ends, band: ((ends - begins) / ends).value };
    printed(to(cut_off.whole_up_to(), Unit::Bar), 187.5, 0.1);
    printed(cut_off.share_left(of(187.5, Unit::Bar)), 1.0, 1e-9);
    printed(cut_off.share_left(of(198.75, Unit::Bar)), 0.5, 1e-9);
    printed(cut_off.share_left(of(210.0, Unit::Bar)), 0.0, 1e-9);
    let over = |litres, bar| to(hydraulic_power(of(bar, Unit::Bar), of(litres, Unit::LitrePerMinute)), Unit::Kilowatt);
    printed(over(60.0, 200.0), 20.0, 1.0);
    printed(over(2.0, 200.0), 0.67, 0.01);
}

/// Web course, standby of 100 L/min: open centre at 8 bar 1.3 kW, over a relief of 210 bar 35, compensated with 2 L/min 0.7,
/// load-sensing at 20 bar with 2 L/min 0.07.
#[test]
fn standby_of_four_supplies() {
    let heat = |litres, bar| to(hydraulic_power(of(bar, Unit::Bar), of(litres, Unit::LitrePerMinute)), Unit::Kilowatt);
    printed(heat(100.0, 8.0), 1.3, 0.1);
    printed(heat(100.0, 210.0), 35.0, 1.0);
    printed(heat(2.0, 210.0), 0.7, 0.1);
    printed(heat(2.0, 20.0), 0.07, 0.01);
}

/// Esposito 9-3: a poppet of 0.75 in² that lifts by 0.10 in between cracking at 1.1 × 1 132 psi and full flow at 1 698 → 3 400 lbf/in
/// of spring, 0.275 in of preload (the book rounds the forces to 1 274 and 934 lbf: the spring is 3 396). The relief opens with its lift.
#[test]
fn esposito_9_3_spring_of_a_relief() {
    let (full, cracking): (Pressure, Pressure) = (of(1698.0, Unit::Psi), of(1.1 * 1132.0, Unit::Psi));
    let relief = Relief::new(full, ((full - cracking) / full).value);
    printed(to(relief.cracking, Unit::Psi), 1245.2, 0.1);
    let spring = to(full - relief.cracking, Unit::Psi) * 0.75 / 0.10;
    printed(spring, 3400.0, 1.0 + 2.0 * 4.0);
    printed(to(relief.cracking, Unit::Psi) * 0.75 / spring, 0.275, 0.001);
    // Lifted by half of it, half of the flow.
    let half = relief.cracking + of::<Pressure>(spring * 0.05 / 0.75, Unit::Psi);
    printed(relief.share_passed(half), 0.5, 1e-9);
}

/// Trinkel, book 1, chapter 13: a flow divider of the spool kind stands at the higher of its two loads (1 500 and 300 psi).
#[test]
fn a_spool_divider_stands_at_the_higher_load() {
    let half = of(5.0, Unit::UsGallonPerMinute);
    let divider = Divider { set: half, metering: of(0.0, Unit::Psi), excess: of(0.0, Unit::Psi) };
    let flow: VolumeRate = of(10.0, Unit::UsGallonPerMinute);
    for (head, functions) in [(1500.0, 300.0), (300.0, 1500.0)] {
        let divided = divider.divide(|_| flow, of(head, Unit::Psi), of(functions, Unit::Psi));
        printed(to(divided.pump, Unit::Psi), 1500.0, 1.0);
        printed(to(divided.head, Unit::UsGallonPerMinute), 5.0, 1e-9);
        printed(to(divided.functions, Unit::UsGallonPerMinute), 5.0, 1e-9);
    }
}

/// Metering under a constant pressure difference. Web course: 12 mm², C_d 0.65, 870 kg/m³, 20 bar → 31.7 L/min at any load, 35.5 at
/// 25 bar. Koc: 3 mm², 0.65, 40 bar → 11.2; 0.62, 25 bar → 8.46; 10 L/min at 5 bar take 7.6 mm².
#[test]
fn metering_edges_under_a_constant_difference() {
    let oil = Oil { viscosity: KinematicViscosity::from_si(46e-6), density: MassDensity::from_si(870.0) };
    let edge = |mm2: f64, coefficient: f64| Orifice {
        bore: of((4.0 * mm2 / std::f64::consts::PI).sqrt(), Unit::Millimetre),
        coefficient,
    };
    for (spring, flow) in [(20.0, 31.7), (25.0, 35.5)] {
        printed(to(edge(12.0, 0.65).flow(of(spring, Unit::Bar), &oil), Unit::LitrePerMinute), flow, 0.1);
    }
    let through =
        |mm2, coefficient, bar| to(edge(mm2, coefficient).flow(of(bar, Unit::Bar), &oil), Unit::LitrePerMinute);
    printed(through(3.0, 0.65, 40.0), 11.2, 0.1);
    printed(through(3.0, 0.62, 25.0), 8.46, 0.01);
    printed(10.0 / through(1.0, 0.65, 5.0), 7.6, 0.1);
}

/// Sullivan 10.1: 30 gpm at 300 psi, SG 0.85 → C_v 1.597; the same flow through C_v 5.41 loses 26.14 psi.
#[test]
fn sullivan_10_1_flow_coefficient() {
    let oil = Oil { viscosity: KinematicViscosity::from_si(46e-6), density: MassDensity::from_si(0.85 * 999.0) };
    let flow: VolumeRate = of(30.0, Unit::UsGallonPerMinute);
    printed(flow_coefficient(flow, of(300.0, Unit::Psi), &oil), 1.597, 0.001);
    // Half a unit of 26.14 psi is this much of C_v.
    printed(flow_coefficient(flow, of(26.14, Unit::Psi), &oil), 5.41, 0.01);
}
