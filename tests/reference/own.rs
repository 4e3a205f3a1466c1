//! Arithmetic of our own on published formulas: regression figures, and what is right where a page is wrong. Counted apart from
//! published figures.

use crate::formulas::{MotorFormulas, Pump, SHARP_EDGED, rotor_energy};
use crate::lines::through;
use crate::{celsius, motor, of, printed, to, vg46};
use hydraulics::Resistance;
use hydraulics::filter::{Element, Filter};
use hydraulics::heat::Bath;
use hydraulics::line::{Piece, Roughness, friction_haaland, friction_laminar, reynolds};
use hydraulics::oil::specific_heat;
use hydraulics::power::hydraulic_power;
use hydraulics::valve::{Divider, DividerState};
use hydraulics::velocity::velocity;
use hydraulics::{CaseLine, Motor, Oil, OilCurve, Source};
use quantity::{
    AngularVelocity, HeatCapacity, KinematicViscosity, Length, MassDensity, MomentOfInertia, Power, Pressure, Quantity,
    ThermalConductance, Unit, Volume, VolumeRate,
};
use table::OilGrade;
use uom::si::temperature_interval::kelvin;

/// 110 L/min of VG 46 at −5 °C through 6 m of ¾ in hose lose 27 bar (arithmetic with the handbook's formula).
#[test]
fn cold_start_through_three_quarters() {
    let oil = vg46().at(celsius(-5.0));
    let hose = Resistance::of([Piece::Pipe {
        bore: of(19.05, Unit::Millimetre),
        length: of(6.0, Unit::Metre),
        roughness: Roughness::default(),
    }]);
    printed(to(oil.viscosity, Unit::SquareMillimetrePerSecond), 904.0, 1.0);
    printed(to(hose.loss(of(110.0, Unit::LitrePerMinute), &oil), Unit::Bar), 27.0, 1.0);
}

/// 5 L/min from a warm motor through 8 m of cold case line, VG 46 at −5 °C: 8.3 bar in ½ in, 1.6 bar in ¾ in.
#[test]
fn cold_case_lines() {
    for (bore, pressure) in [(12.7, 8.3), (19.05, 1.6)] {
        let hose = Piece::Pipe {
            bore: of(bore, Unit::Millimetre),
            length: of(8.0, Unit::Metre),
            roughness: Roughness::default(),
        };
        let line =
            CaseLine { line: Resistance::of([hose]), tank: Pressure::from_si(0.0), tank_above: Length::from_si(0.0) };
        printed(to(line.pressure(of(5.0, Unit::LitrePerMinute), &vg46().at(celsius(-5.0))), Unit::Bar), pressure, 0.1);
    }
}

/// A return filter of 0.5 bar at 250 L/min and 30 mm²/s with a bypass of 2.5 bar leaves it at 110 L/min of VG 46 from 6 °C on
/// clean, and from 16 °C on half loaded.
#[test]
fn filters_on_their_bypass_in_cold_oil() {
    let filter = Filter::of_one_point(of(0.5, Unit::Bar), of(250.0, Unit::LitrePerMinute), None, of(2.5, Unit::Bar));
    for (element, temperature) in [(Element::Clean, 6.0), (Element::HalfLoaded, 16.0)] {
        let shut =
            |t: f64| filter.loss(of(110.0, Unit::LitrePerMinute), &vg46().at(celsius(t)), element) < filter.bypass;
        assert!(!shut(temperature - 1.0) && shut(temperature + 1.0), "{element:?}");
    }
}

/// Two pumps of 63 cm³ at 2000 rpm (η_v .95, η_hm .93) share 60 kW; the head takes 100 L/min first. At 60, 170 and 250 bar the
/// head's share is 42, 53 and 79 %, and of what the functions had at 170 and 250 bar's limit 36 and 11 % are left.
#[test]
fn a_divider_under_a_shared_limit() {
    let pump =
        Pump { displacement: of(63.0, Unit::CubicCentimetrePerRevolution), volumetric: 0.95, hydromechanical: 0.93 };
    let speed: AngularVelocity = of(2000.0, Unit::RevolutionPerMinute);
    // Both are stroked alike, by the torque that they would take together.
    let both = |p: Pressure| pump.flow(speed) * 2.0 * f64::min(1.0, 30e3 / pump.shaft_power(speed, p).si());
    printed(to(both(of(100.0, Unit::Bar)), Unit::LitrePerMinute), 239.0, 1.0);
    let divider =
        Divider { set: of(100.0, Unit::LitrePerMinute), metering: of(10.0, Unit::Bar), excess: of(3.0, Unit::Bar) };
    let functions: Pressure = of(120.0, Unit::Bar);
    for (at_pump, share, left, heat) in [(170.0, 53.0, 36.0, None), (250.0, 79.0, 11.0, Some(7.6))] {
        let head: Pressure = of(at_pump - 10.0, Unit::Bar);
        let divided = divider.divide(both, head, functions);
        assert_eq!(divided.state, DividerState::Both);
        let given = divided.head + divided.functions;
        printed((divided.head / given).si() * 100.0, share, 1.0);
        printed((divided.functions / both(functions)).si() * 100.0, left, 1.0);
        if let Some(kilowatts) = heat {
            let lost = (divided.pump - head) * divided.head + (divided.pump - functions) * divided.functions;
            printed(to(lost, Unit::Kilowatt), kilowatts, 0.1);
        }
    }
    printed((of::<VolumeRate>(100.0, Unit::LitrePerMinute) / both(of(60.0, Unit::Bar))).si() * 100.0, 42.0, 1.0);
}

/// A rotor of 8 kg·m² at 2200 rpm, stopped by its relief, would warm a litre by 131 K.
#[test]
fn a_rotor_stopped_by_its_relief() {
    let energy = rotor_energy(MomentOfInertia::from_si(8.0), of(2200.0, Unit::RevolutionPerMinute));
    let oil = Oil { viscosity: KinematicViscosity::from_si(30e-6), density: MassDensity::from_si(860.0) };
    printed((energy / oil.heat_capacity(Volume::from_si(1e-3))).get::<kelvin>(), 131.0, 1.0);
    assert!(specific_heat().value > 1700.0);
}

/// p·Q/600 in bar and L/min is exact arithmetic; a question page that prints 500 is wrong.
#[test]
fn power_of_80_litres_at_250_bar() {
    let power = hydraulic_power(of(250.0, Unit::Bar), of(80.0, Unit::LitrePerMinute));
    printed(to(power, Unit::Kilowatt), 33.3333, 1e-4);
    printed(to(power, Unit::Horsepower), 44.7007, 1e-4);
    assert!((to(power, Unit::Kilowatt) - 250.0 * 80.0 / 500.0).abs() > 1.0);
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

/// ISO 14541 screw-to-connect coupling of size 20: 2.2 bar at 106 L/min at the most; at 1.5 times the flow 4.95 bar.
#[test]
fn coupling_of_iso_14541() {
    let coupling = Piece::Point { loss: of(2.2, Unit::Bar), flow: of(106.0, Unit::LitrePerMinute) };
    let oil = vg46().at(celsius(40.0));
    printed(to(coupling.loss(of(159.0, Unit::LitrePerMinute), &oil), Unit::Bar), 4.95, 0.01);
}

/// ISO 14541: Δp = k·Q² through the published points, at one and a half times the rated flow.
#[test]
fn couplings_above_their_rated_flow() {
    let oil = vg46().at(celsius(40.0));
    for (rated, loss, at_half_more) in [(12.0, 2.5, 5.625), (23.0, 2.0, 4.5), (45.0, 1.5, 3.375), (106.0, 2.2, 4.95)] {
        let coupling = Piece::Point { loss: of(loss, Unit::Bar), flow: of(rated, Unit::LitrePerMinute) };
        printed(to(coupling.loss(of(1.5 * rated, Unit::LitrePerMinute), &oil), Unit::Bar), at_half_more, 1e-9);
    }
}

/// Velocities by v = 21.2207·Q/d²: a sizing table's 29 and 10 mm, and three hoses.
#[test]
fn more_velocities() {
    let v = |q: f64, d: f64| to(velocity(of(q, Unit::LitrePerMinute), of(d, Unit::Millimetre)), Unit::MetrePerSecond);
    for (q, d, printed_figure) in
        [(20.0, 29.0, 0.5047), (20.0, 10.0, 4.2441), (50.0, 12.7, 6.5784), (80.0, 19.05, 4.6780), (120.0, 25.4, 3.9471)]
    {
        printed(v(q, d), printed_figure, 1e-4);
    }
}

/// A safety page's 100 psi, from which oil can pierce skin, are 6.895 bar.
#[test]
fn pressure_that_pierces_skin() {
    printed(to(of::<Pressure>(100.0, Unit::Psi), Unit::Bar), 6.895, 1e-3);
}

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

/// The trap of Haaland without its exponent 1.11, as a lecture page shows it: the wrong form is a tenth and more off.
#[test]
fn haaland_has_its_exponent() {
    let (re, rough): (f64, f64) = (30_099.6, 0.01 / 12.7);
    let without: f64 = (-1.8_f64 * (rough / 3.7 + 6.9 / re).log10()).powi(-2);
    printed(friction_haaland(re, rough), 0.025_135, 1e-6);
    assert!((without / friction_haaland(re, rough) - 1.0).abs() > 0.05, "{without}");
}

/// The trap of taking a pump's pressure for the motor's difference: the back pressure comes off.
#[test]
fn torque_comes_from_the_difference() {
    let motor = motor(of(100.0, Unit::CubicCentimetrePerRevolution));
    let (inlet, outlet): (Pressure, Pressure) = (of(200.0, Unit::Bar), of(30.0, Unit::Bar));
    printed(to(motor.torque(inlet - outlet), Unit::NewtonMetre), 270.56, 0.01);
    printed(to(motor.torque(inlet), Unit::NewtonMetre), 318.31, 0.01);
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

/// Three holes by the formula of a sharp edge, computed with a second tool.
#[test]
fn orifices_in_litres_per_minute() {
    printed(SHARP_EDGED, 0.611_015_470_351_657_3, 1e-15);
    printed(through(5.0, SHARP_EDGED, 100.0, 860.0), 109.773_91, 1e-5);
    printed(through(3.0, 0.62, 20.0, 860.0), 17.933_13, 1e-5);
    printed(through(8.0, 0.70, 15.0, 860.0), 124.689_69, 1e-5);
}
