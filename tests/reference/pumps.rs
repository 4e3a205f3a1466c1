//! Pumps, reliefs and valves.

use crate::{of, printed, to};
use pairwright::circuit::orifice::flow_coefficient;
use pairwright::circuit::power::hydraulic_power;
use pairwright::circuit::pump::gear_displacement;
use pairwright::circuit::{Oil, Pump, Relief, Source};
use pairwright::quantity::{
    AngularVelocity, Displacement, Kind, KinematicViscosity, MassDensity, Power, Pressure, Unit, VolumeRate,
};

fn pump(displacement: Displacement) -> Pump {
    Pump { displacement, volumetric: 1.0, hydromechanical: 1.0, rated_pressure: None }
}

fn rpm(n: f64) -> AngularVelocity {
    of(n, Unit::RevolutionPerMinute)
}

/// Esposito 5.1: gears of 3 and 2 in, 1 in wide, 28 gpm at 1800 rpm → η_v 91.5 %.
#[test]
fn esposito_5_1_gear_pump() {
    let inch = |d| of(d, Unit::Inch);
    let pump = pump(gear_displacement(inch(3.0), inch(2.0), inch(1.0)));
    let theoretical = to(pump.theoretical(1.0, rpm(1800.0)), Unit::UsGallonPerMinute);
    printed(28.0 / theoretical * 100.0, 91.5, 0.1);
}

/// Esposito 5.2 (SI): gears of 75 and 50 mm, 25 mm wide, η_v .90 at 1000 rpm → 55.3 L/min; the book rounds 55.22 up.
#[test]
fn esposito_5_2_gear_pump_in_si() {
    let mm = |d| of(d, Unit::Millimetre);
    let pump = Pump { volumetric: 0.90, ..pump(gear_displacement(mm(75.0), mm(50.0), mm(25.0))) };
    printed(to(pump.flow(1.0, rpm(1000.0), of(70.0, Unit::Bar)), Unit::LitrePerMinute), 55.3, 0.1 + 0.1);
}

/// Esposito 5.8: 5 in³, 20 gpm at 1000 rpm and 1000 psi, 900 lbf·in → 81.6 % overall, 793 lbf·in in theory. The book
/// goes by the rounded 81.6 % and a theoretical flow of 21.6 gpm to its torque: 0.816/(20/21.6)·900 is 793.
#[test]
fn esposito_5_8_pump_with_losses() {
    let pump = pump(of(5.0, Unit::CubicInchPerRevolution));
    let theoretical = to(pump.theoretical(1.0, rpm(1000.0)), Unit::UsGallonPerMinute);
    printed(theoretical, 21.6, 0.1);
    let torque = to(pump.torque(1.0, of(1000.0, Unit::Psi)), Unit::PoundForceFoot) * 12.0;
    printed(torque, 793.0, 1.0 + 2.0 * 2.5);
    printed(20.0 / theoretical * torque / 900.0 * 100.0, 81.6, 0.1 + 2.0 * 81.6 * (0.05 / 21.6));
}

/// Esposito 5.9 (SI): 100 cm³, 0.0015 m³/s at 1000 rpm and 70 bar, 120 N·m → 83.5 % overall, 112 N·m in theory (the book
/// rounds 111.4 up).
#[test]
fn esposito_5_9_pump_in_si() {
    let pump = pump(of(100.0, Unit::CubicCentimetrePerRevolution));
    let torque = to(pump.torque(1.0, of(70.0, Unit::Bar)), Unit::NewtonMetre);
    printed(torque, 112.0, 1.0 + 1.0);
    let volumetric = 0.0015 / pump.theoretical(1.0, rpm(1000.0)).si();
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

/// Constant-power curve, 100 cm³ at 1000 rpm and 20 kW: corner at 120 bar; 150 → 80, 200 → 60, 250 → 48, 300 → 40 L/min
/// (textbook rule Q·p = const).
#[test]
fn constant_power_curve() {
    let pump = Source {
        greatest: of(100.0, Unit::LitrePerMinute),
        set: None,
        leak: VolumeRate::from_si(0.0),
        leak_at: of(300.0, Unit::Bar),
        power: Some(of::<Power>(20.0, Unit::Kilowatt)),
        cut_off: None,
        surplus_is_pumped: false,
    };
    printed(to(pump.limited_from().expect("a limiter"), Unit::Bar), 120.0, 1e-6);
    for (p, q) in [(100.0, 100.0), (150.0, 80.0), (200.0, 60.0), (250.0, 48.0), (300.0, 40.0)] {
        printed(to(pump.flow_at(of(p, Unit::Bar)), Unit::LitrePerMinute), q, 1e-6);
    }
}

/// Esposito 8.1: a plain poppet cracks at 667 psi and passes full flow at 1000 psi: a third of override.
#[test]
fn esposito_8_1_override() {
    let relief = Relief::new(of::<Pressure>(1000.0, Unit::Psi), 1.0 / 3.0);
    printed(to(relief.cracking, Unit::Psi), 667.0, 1.0);
    printed(relief.share_passed(of(833.0, Unit::Psi)), 0.5, 0.01);
}

/// The corner of a torque-limited pump with losses: 50 kW at the shaft, η .85 → 127.5 L/min at 200 bar, 85 at 300.
#[test]
fn constant_power_with_losses() {
    let pump = Source {
        greatest: of(400.0, Unit::LitrePerMinute),
        set: None,
        leak: VolumeRate::from_si(0.0),
        leak_at: of(300.0, Unit::Bar),
        power: Some(of::<Power>(50.0 * 0.85, Unit::Kilowatt)),
        cut_off: None,
        surplus_is_pumped: false,
    };
    printed(to(pump.flow_at(of(200.0, Unit::Bar)), Unit::LitrePerMinute), 127.5, 1e-6);
    printed(to(pump.flow_at(of(300.0, Unit::Bar)), Unit::LitrePerMinute), 85.0, 1e-6);
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
