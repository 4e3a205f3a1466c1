//! Published circuits with heights, fittings, cylinders or wheels, as circuits of the balance.

use super::rounded_on_the_way;
use crate::formulas::{Cylinder, MotorFormulas, Pump};
use crate::{celsius, of, printed, to};
use hydraulics::balance::Circuit;
use hydraulics::heat::Bath;
use hydraulics::line::{Piece, Roughness, reynolds};
use hydraulics::velocity::velocity;
use hydraulics::{Motor, Oil, Operating, Relief, Resistance, Source};
use quantity::{
    AngularVelocity, Displacement, HeatCapacity, KinematicViscosity, Length, MassDensity, Power, Pressure, Quantity,
    Ratio, ThermalConductance, Unit, VolumeRate,
};
use std::f64::consts::TAU;
use uom::si::force::{newton, pound_force};
use uom::si::heat_capacity::kilojoule_per_kelvin;

const FOOT: f64 = 0.3048;
/// Weight of a cubic foot of water in these books, as a pressure of a foot of it, Pa: 62.4 lb/ft³.
const FOOT_OF_WATER: f64 = 62.4 / 144.0 * 6_894.757_293_168_362;

/// Oil of a specific gravity over water of 62.4 lb/ft³, and a viscosity.
fn oil(specific_gravity: f64, centistokes: f64) -> Oil {
    let density = MassDensity::from_si(specific_gravity * FOOT_OF_WATER / FOOT / 9.806_65);
    Oil { viscosity: of(centistokes, Unit::SquareMillimetrePerSecond), density }
}

fn pipe(bore: Length, length: Length) -> Piece {
    Piece::Pipe { bore, length, roughness: Roughness::default() }
}

fn height(feet: f64, specific_gravity: f64) -> Piece {
    Piece::Constant(Pressure::from_si(feet * specific_gravity * FOOT_OF_WATER))
}

/// A pump that gives a flow at any pressure.
fn pump_of(flow: VolumeRate) -> Source {
    Source {
        greatest: flow,
        set: None,
        leak: VolumeRate::from_si(0.0),
        leak_at: of(100.0, Unit::Bar),
        power: None,
        cut_off: None,
        surplus_is_pumped: false,
    }
}

fn circuit(source: Source, oil: Oil, supply: Vec<Piece>, back: Vec<Piece>) -> Circuit {
    let (supply, back) = (Resistance::of(supply), Resistance::of(back));
    Circuit { source, functions: None, relief: None, supply, back, drain: None, oil }
}

fn solved(circuit: &Circuit, motor: Pressure) -> Operating {
    circuit.solve(motor).expect("it turns")
}

fn psi(pressure: Pressure) -> f64 {
    to(pressure, Unit::Psi)
}

/// Esposito, example 9-5: pump 10 in³ at 1 000 rpm, η_m 92 %, η_v 94 %, inlet −4 psi; 50 ft of 1.040 in with two elbows of K 0.75
/// and a check valve of K 4, motor 20 ft higher; oil 125 cSt, SG 0.9; motor 8 in³, η_m 92 %, η_v 90 %, 500 psi in, 5 out → 40.7
/// gpm, 569 psi at the pump, 15.7 hp, 1 057 rpm, 582 lb·in, 62.2 % overall.
///
/// The book cuts the speed off, rounds the motor's 11.75 hp up to 11.8 before it takes the torque from it (with 63 000: 2.2
/// lb·in) and the overall efficiency, 62.1 %, up with it.
#[test]
fn esposito_9_5_pump_pipe_and_motor() {
    let pump = Pump { displacement: of(10.0, Unit::CubicInchPerRevolution), volumetric: 0.94, hydromechanical: 0.92 };
    let speed: AngularVelocity = of(1000.0, Unit::RevolutionPerMinute);
    let flow = pump.flow(speed);
    let bore: Length = of(1.040, Unit::Inch);
    let fitting = |k| Piece::Fitting { k, bore };
    let way = vec![pipe(bore, of(50.0, Unit::Foot)), fitting(0.75), fitting(0.75), fitting(4.0), height(20.0, 0.9)];
    let outlet: Pressure = of(5.0, Unit::Psi);
    let whole = circuit(pump_of(flow), oil(0.9, 125.0), way, vec![Piece::Constant(outlet)]);
    assert!(reynolds(flow, bore, &whole.oil) < 1000.0);
    let at = solved(&whole, of(495.0, Unit::Psi));
    printed(to(at.flow, Unit::UsGallonPerMinute), 40.7, 0.1);
    printed(psi(at.inlet), 500.0, 1e-6);
    printed(psi(at.supply), 569.0, 1.0);
    let input = pump.shaft_power(speed, at.supply - of(-4.0, Unit::Psi));
    printed(to(input, Unit::Horsepower), 15.7, 0.1);
    let motor = Motor {
        displacement: of(8.0, Unit::CubicInchPerRevolution),
        volumetric: 0.90,
        hydromechanical: 0.92,
        ratio: 1.0,
    };
    let difference = at.inlet - at.outlet;
    rounded_on_the_way(to(motor.shaft_speed(at.flow), Unit::RevolutionPerMinute), 1057.0, 1.0, 0.5);
    rounded_on_the_way(to(motor.torque(difference), Unit::PoundForceFoot) * 12.0, 582.0, 1.0, 2.2);
    let overall = motor.shaft_power(difference, at.flow).si() / input.si() * 100.0;
    rounded_on_the_way(overall, 62.2, 0.1, 0.3);
    // The balance books it the same: all that goes in is work or heat.
    let ledger = whole.ledger(&at, &motor, Ratio::from_si(0.94 * 0.92), Ratio::from_si(1.0));
    assert!((ledger.shaft.si() - ledger.rotor.si() - ledger.warms().si()).abs() < 1e-6 * ledger.shaft.si());
}

/// Esposito, examples 4-9 and 3-10: a pump that gives 5 hp at 30 gpm, 1 in bore, a motor 20 ft higher. With 21 ft of pipe, an elbow of K
/// 0.9 and oil of 100 cSt, SG 0.9 → 260 psi at the motor's inlet; with a loss of 30 ft given → 265 psi (cut off).
/// What the oil's velocity takes (K 1) is part of both.
#[test]
fn esposito_4_9_and_3_10_pressure_left_at_the_motor() {
    let power: Power = of(5.0, Unit::Horsepower);
    let flow: VolumeRate = of(30.0, Unit::UsGallonPerMinute);
    let bore: Length = of(1.0, Unit::Inch);
    let fitting = |k| Piece::Fitting { k, bore };
    let inlet = |way: Vec<Piece>| {
        // A pump that could give more is held by its 5 hp: the pressure at the motor is the one at which it gives 30 gpm.
        let source = Source { power: Some(power), ..pump_of(flow * 1.5) };
        let whole = circuit(source, oil(0.9, 100.0), way, Vec::new());
        let motor = power / flow - whole.need(flow, Pressure::from_si(0.0));
        let at = solved(&whole, motor);
        assert!((at.flow.si() / flow.si() - 1.0).abs() < 1e-9);
        psi(at.inlet)
    };
    let way = vec![pipe(bore, of(21.0, Unit::Foot)), fitting(0.9), fitting(1.0), height(20.0, 0.9)];
    rounded_on_the_way(inlet(way), 260.0, 1.0, 0.3);
    printed(inlet(vec![height(30.0, 0.9), fitting(1.0), height(20.0, 0.9)]), 265.0, 1.0);
}

/// Esposito, example 3-17, the same in SI: 3.73 kW at 0.001896 m³/s, 25.4 mm, motor 6.096 m higher, 9.144 m lost, γ 8 817 N/m³ →
/// 1 826 kPa (cut off).
#[test]
fn esposito_3_17_pressure_left_at_the_motor_in_si() {
    let (power, flow) = (Power::from_si(3730.0), VolumeRate::from_si(0.001_896));
    let metre = |metres: f64| Piece::Constant(Pressure::from_si(metres * 8817.0));
    let light = Oil { viscosity: KinematicViscosity::from_si(1e-4), density: MassDensity::from_si(8817.0 / 9.81) };
    let way = vec![metre(6.096), metre(9.144), Piece::Fitting { k: 1.0, bore: Length::from_si(0.0254) }];
    let whole = circuit(Source { power: Some(power), ..pump_of(flow * 1.5) }, light, way, Vec::new());
    let motor = power / flow - whole.need(flow, Pressure::from_si(0.0));
    let at = solved(&whole, motor);
    rounded_on_the_way(to(at.inlet, Unit::Kilopascal), 1826.0, 1.0, 0.5);
    printed(at.flow.si(), 0.001_896, 1e-6);
}

/// Sullivan, example 5.7, p. 97: 100 gpm of oil of 80 cSt, SG 0.88, through 2 in (K 12.4, 134.58 ft with it) and then 1 in (35.33
/// ft with its fittings, friction factor 0.05 from the chart) → 225.24 psi, 13.14 hp. The book takes areas of 3.14 and 0.785,
/// 3.12 for 3.117 and 0.433: 0.24 % low.
#[test]
fn sullivan_5_7_two_lines_in_series() {
    let flow: VolumeRate = of(100.0, Unit::UsGallonPerMinute);
    let (wide, narrow): (Length, Length) = (of(2.0, Unit::Inch), of(1.0, Unit::Inch));
    let thin = oil(0.88, 80.0);
    let friction = 64.0 / reynolds(flow, wide, &thin);
    printed(friction, 0.0324, 0.0001);
    // What the fittings of the wide line make, as length.
    let fittings = 12.4 * wide.si() / friction;
    let length = Length::from_si(134.58 * FOOT - fittings);
    // The friction factor of the narrow line is given: as a loss coefficient over its length.
    let narrow_line = Piece::Fitting { k: 0.05 * 35.33 * 12.0, bore: narrow };
    let way = vec![pipe(wide, length), Piece::Fitting { k: 12.4, bore: wide }, narrow_line];
    let at = solved(&circuit(pump_of(flow), thin, way, Vec::new()), of(1000.0, Unit::Psi));
    let lost = at.supply - at.inlet;
    rounded_on_the_way(psi(lost), 225.24, 0.01, 0.0025 * 225.24);
    rounded_on_the_way(to(lost * flow, Unit::Horsepower), 13.14, 0.01, 0.0025 * 13.14);
}

/// Oil of Peerless's transmission: 54.5 lbm/ft³, 1.05e-4 lbf·s/ft².
fn oil_of_peerless() -> Oil {
    let density = 54.5 * 0.453_592_37 / FOOT.powi(3);
    let dynamic = 1.05e-4 * 4.448_221_615_260_5 / (FOOT * FOOT);
    Oil { viscosity: KinematicViscosity::from_si(dynamic / density), density: MassDensity::from_si(density) }
}

/// Peerless, example 13.1, pp. 512–513: a transmission of 3 000 psi, pump and motor 0.88 each, 75 hp out, four elevenths of the
/// pressure lost in a line of ½ in → overall 0.493, 152 hp in, 0.171 ft³/s, Reynolds number 8.4e4.
#[test]
fn peerless_13_1_transmission() {
    let (pressure, motor): (Pressure, Pressure) = (of(3000.0, Unit::Psi), of(3000.0 * 7.0 / 11.0, Unit::Psi));
    let output: Power = of(75.0, Unit::Horsepower);
    let flow = output / (motor * 0.88);
    let line = Piece::Point { loss: pressure * (4.0 / 11.0), flow };
    let whole = circuit(pump_of(flow), oil_of_peerless(), vec![line], Vec::new());
    let at = solved(&whole, motor);
    printed(psi(at.supply), 3000.0, 1e-6);
    printed(at.flow.si() / FOOT.powi(3), 0.171, 0.001);
    let drive = Motor { displacement: Displacement::from_si(1e-4), volumetric: 0.88, hydromechanical: 1.0, ratio: 1.0 };
    let ledger = whole.ledger(&at, &drive, Ratio::from_si(0.88), Ratio::from_si(1.0));
    printed(to(ledger.rotor, Unit::Horsepower), 75.0, 1e-6);
    printed(to(ledger.shaft, Unit::Horsepower), 152.0, 1.0);
    printed(ledger.rotor.si() / ledger.shaft.si(), 0.493, 0.001);
    printed(reynolds(flow, of(0.5, Unit::Inch), &whole.oil) / 1e4, 8.4, 0.1);
}

/// Peerless, example 13.2: the same flow through the same line with two fittings of K 0.25 and six of 0.90 → line 1.57e5,
/// fittings 7.85e4, both 2.36e5, left for the motor 1.96e5 lbf/ft²; overall 0.352. (7.86e4 unrounded: the book cuts it off.)
#[test]
fn peerless_13_2_transmission_with_fittings() {
    let square_foot = |pressure: Pressure| psi(pressure) * 144.0;
    let flow = VolumeRate::from_si(0.171 * FOOT.powi(3));
    let bore: Length = of(0.5, Unit::Inch);
    let (pressure, line): (Pressure, Pressure) = (of(3000.0, Unit::Psi), of(3000.0 * 4.0 / 11.0, Unit::Psi));
    let mut way = vec![Piece::Point { loss: line, flow }];
    way.extend([0.25, 0.25, 0.90, 0.90, 0.90, 0.90, 0.90, 0.90].map(|k| Piece::Fitting { k, bore }));
    let whole = circuit(pump_of(flow), oil_of_peerless(), way, Vec::new());
    printed(to(velocity(flow, bore), Unit::MetrePerSecond) / FOOT, 125.4, 0.1);
    let motor = pressure - whole.need(flow, Pressure::from_si(0.0));
    let at = solved(&whole, motor);
    printed(square_foot(line) / 1e5, 1.57, 0.01);
    rounded_on_the_way(square_foot(at.supply - at.inlet - line) / 1e4, 7.85, 0.01, 0.005);
    printed(square_foot(at.supply - at.inlet) / 1e5, 2.36, 0.01);
    printed(square_foot(at.inlet) / 1e5, 1.96, 0.01);
    let drive = Motor { displacement: Displacement::from_si(1e-4), volumetric: 0.88, hydromechanical: 1.0, ratio: 1.0 };
    let ledger = whole.ledger(&at, &drive, Ratio::from_si(0.88), Ratio::from_si(1.0));
    printed(ledger.rotor.si() / ledger.shaft.si(), 0.352, 0.001);
}

/// Web course, corner of a hydrostatic drive: motor 110 cm³, 420 bar, η_hm 0.94; axle 40:1, 0.95; wheel 0.6 m; engine 75 kW, drive
/// 0.81 → 691 N·m, 43.8 kN, 57.7 kW at the wheels, corner at 1.32 m/s (4.7 km/h), 10.4 kN at 20 km/h.
#[test]
fn a_hydrostatic_drive_between_relief_and_power_limit() {
    let motor = Motor {
        displacement: of(110.0, Unit::CubicCentimetrePerRevolution),
        volumetric: 1.0,
        hydromechanical: 0.94,
        ratio: 1.0 / 40.0,
    };
    // Of the drive's 0.81 the motor has 0.94, the pump the rest: what the limit lets it give.
    let hydraulic = Power::from_si(75e3 * 0.81 / 0.94);
    let source = Source { power: Some(hydraulic), ..pump_of(of(400.0, Unit::LitrePerMinute)) };
    let relief = Some(Relief::new(of(420.0, Unit::Bar), 0.0));
    let whole = Circuit { relief, ..circuit(source, oil(0.9, 30.0), Vec::new(), Vec::new()) };
    let stalled = whole.stalled().expect("a relief");
    let torque = |difference: Pressure| motor.torque(difference).si();
    printed(torque(stalled.inlet), 691.0, 1.0);
    let pull = |difference: Pressure| torque(difference) * 40.0 * 0.95 / 0.6;
    printed(pull(stalled.inlet) / 1e3, 43.8, 0.1);
    let speed = |at: &Operating| motor.rotor_speed(at.flow).si() * 0.6;
    // Just below the relief the limit sets the speed.
    let corner = solved(&whole, of(419.999, Unit::Bar));
    printed(speed(&corner), 1.32, 0.01);
    printed(speed(&corner) * 3.6, 4.7, 0.1);
    printed(pull(corner.inlet) * speed(&corner) / 1e3, 57.7, 0.1);
    // From 20 km/h back to the pressure that the limit leaves.
    let fast = motor.flow_for(AngularVelocity::from_si(20.0 / 3.6 / 0.6));
    let at = solved(&whole, hydraulic / fast);
    printed(speed(&at) * 3.6, 20.0, 1e-6);
    printed(pull(at.inlet) / 1e3, 10.4, 0.1);
}

/// Web course, a full balance of heat: a unit of 30 kW, 70 %; tank 2.4 m² with 12 W/(m²·K), 250 L of oil (870 kg/m³, 1.88 kJ/(kg·K))
/// and 200 kg of steel (0.46), air 25 °C → 9 kW; the tank sheds 864 W at 30 K; without cooler 337 °C; a cooler of at least
/// 0.27 kW/K holds 55 °C; with 0.35 it settles at 49 °C, τ 1 320 s, without 17 400 s; 1.1 K/min at first.
#[test]
fn a_balance_of_heat_with_its_time_constant() {
    let walls = ThermalConductance::from_si(2.4 * 12.0);
    let heat = Power::from_si(30e3 * (1.0 - 0.7));
    printed(to(heat, Unit::Kilowatt), 9.0, 0.1);
    let capacity = HeatCapacity::new::<kilojoule_per_kelvin>(0.250 * 870.0 * 1.88 + 200.0 * 0.46);
    let none = ThermalConductance::from_si(0.0);
    let air = celsius(25.0);
    let tank = Bath { heat, cooler: none, air, walls, ambient: air, capacity };
    let settles = |bath: &Bath| to(bath.steady().expect("it is cooled"), Unit::Celsius);
    let tau = |bath: &Bath| bath.time_constant().expect("it is cooled").si();
    let shed = Bath { heat: Power::from_si(864.0), ..tank };
    printed(settles(&shed), 55.0, 0.1);
    // 337.5 °C: the course cuts it off.
    rounded_on_the_way(settles(&tank), 337.0, 1.0, 0.1);
    printed(tau(&tank), 17_400.0, 100.0);
    let least = Bath { cooler: ThermalConductance::from_si(271.2), ..tank };
    printed(settles(&least), 55.0, 0.1);
    let cooled = Bath { cooler: ThermalConductance::from_si(350.0), ..tank };
    printed(settles(&cooled), 49.0, 1.0);
    printed(tau(&cooled), 1320.0, 10.0);
    let one_kelvin = cooled.time_to(air, celsius(25.001)).expect("it warms").si() / 0.001;
    printed(60.0 / one_kelvin, 1.1, 0.1);
}

/// Koc, a lift platform: 10 L/min at 100 bar, 1 450 rpm, η_v 0.92, overall 0.90, electric 0.90 → 7.5 cm³, 1.85 kW, 12.2 N·m, 2.06 kW of
/// current, 0.39 kW lost. With 4, 3 and 2 bar lost on the way the pump stands at 109 bar, 6 below the relief of 115.
#[test]
fn koc_a_lift_platform_from_pump_to_load() {
    let (flow, load): (VolumeRate, Pressure) = (of(10.0, Unit::LitrePerMinute), of(100.0, Unit::Bar));
    let speed: AngularVelocity = of(1450.0, Unit::RevolutionPerMinute);
    let displacement = Displacement::from_si(flow.si() / 0.92 * TAU / speed.si());
    printed(to(displacement, Unit::CubicCentimetrePerRevolution), 7.5, 0.1);
    let pump = Pump { displacement, volumetric: 0.92, hydromechanical: 0.90 / 0.92 };
    let shaft = pump.shaft_power(speed, load);
    printed(to(pump.flow(speed), Unit::LitrePerMinute), 10.0, 1e-6);
    printed(to(shaft, Unit::Kilowatt), 1.85, 0.01);
    printed(pump.torque(load).si(), 12.2, 0.1);
    printed(to(shaft, Unit::Kilowatt) / 0.9, 2.06, 0.01);
    printed(to(shaft, Unit::Kilowatt) / 0.9 - to(load * flow, Unit::Kilowatt), 0.39, 0.01);
    let lost = |bar: f64| Piece::Point { loss: of(bar, Unit::Bar), flow };
    let relief = Relief::new(of(115.0, Unit::Bar), 0.01);
    let way = vec![lost(4.0), lost(3.0), lost(2.0)];
    let whole = Circuit { relief: Some(relief), ..circuit(pump_of(flow), oil(0.87, 46.0), way, Vec::new()) };
    let at = solved(&whole, load);
    printed(to(at.supply, Unit::Bar), 109.0, 1.0);
    printed(to(relief.full_flow - at.supply, Unit::Bar), 6.0, 1.0);
}

/// Koc, the same platform going down: 10 L/min into a cylinder of 50/28 mm drive 14.6 L/min back, at 124 mm/s: the return carries more
/// than the pump gives.
#[test]
fn koc_a_cylinder_returns_more_than_it_gets() {
    let mm = |d| of(d, Unit::Millimetre);
    let cylinder = Cylinder { bore: mm(50.0), rod: mm(28.0) };
    let flow = of(10.0, Unit::LitrePerMinute);
    printed(to(cylinder.return_while_retracting(flow), Unit::LitrePerMinute), 14.6, 0.1);
    printed(to(cylinder.speed_in(flow), Unit::MetrePerSecond) * 1000.0, 124.0, 1.0);
}

/// Koc, problem set 05: a pump of 8 cm³ at 1 450 rpm with 0.92 and 0.83 at 100 bar, 0.91 and 0.82 at 120 → 10.67 L/min, 1.78 kW of 2.15;
/// 10.55 L/min, 2.11 of 2.57. (2.143 rounds to 2.14, the set prints 2.15; 10.556 is cut off.)
#[test]
fn koc_a_pump_whose_efficiency_falls_with_pressure() {
    let speed: AngularVelocity = of(1450.0, Unit::RevolutionPerMinute);
    let rows = [(100.0, 0.92, 0.83, 10.67, 1.78, 2.15, 0.003), (120.0, 0.91, 0.82, 10.55, 2.11, 2.57, 0.002)];
    for (bar, volumetric, overall, flow, power, shaft, by) in rows {
        let pump = Pump {
            displacement: of(8.0, Unit::CubicCentimetrePerRevolution),
            volumetric,
            hydromechanical: overall / volumetric,
        };
        let pressure: Pressure = of(bar, Unit::Bar);
        let given = pump.flow(speed);
        rounded_on_the_way(to(given, Unit::LitrePerMinute), flow, 0.01, by);
        printed(to(pressure * given, Unit::Kilowatt), power, 0.01);
        rounded_on_the_way(to(pump.shaft_power(speed, pressure), Unit::Kilowatt), shaft, 0.01, by);
    }
}

/// Esposito, example 9-2, two pumps with an unloading valve: 2 000 lbf on a cylinder of 1.5 in with a ½ in rod; 100 psi lost on the way
/// there, 50 psi on the way back; half as much again → unloading at 217 psi, relief at 1 698.
#[test]
fn esposito_9_2_unloading_valve_and_relief() {
    let inch = |d| of(d, Unit::Inch);
    let press = Cylinder { bore: inch(1.5), rod: inch(0.5) };
    let flow: VolumeRate = of(20.0, Unit::UsGallonPerMinute);
    let lost = |psi: f64| Piece::Point { loss: of(psi, Unit::Psi), flow };
    // What the back pressure on the ring asks for at the bore: the pressure at which the rod pushes with nothing.
    let back: Pressure = of(50.0, Unit::Psi);
    let at_bore = back * (press.annulus_area() / press.bore_area()).value;
    assert!(press.force_out(at_bore, back).get::<newton>().abs() < 1e-6);
    let rapid = solved(&circuit(pump_of(flow), oil(0.9, 46.0), vec![lost(100.0)], Vec::new()), at_bore);
    printed(1.5 * psi(rapid.supply), 217.0, 1.0);
    // The pressure at which it pushes with 2 000 lbf.
    let punching: Pressure = of(1698.0 / 1.5, Unit::Psi);
    printed(press.force_out(punching, Pressure::from_si(0.0)).get::<pound_force>(), 2000.0, 2000.0 / 1698.0);
}
