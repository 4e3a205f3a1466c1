//! Lines, couplings and orifices.

use crate::{celsius, of, printed, to, vg46};
use pairwright::circuit::line::{Piece, Roughness, friction_factor, friction_haaland, friction_laminar, reynolds};
use pairwright::circuit::orifice::SHARP_EDGED;
use pairwright::circuit::velocity::{bore_for, velocity};
use pairwright::circuit::{Oil, Orifice};
use pairwright::quantity::{Kind, KinematicViscosity, Length, MassDensity, Pressure, Unit, Velocity, VolumeRate};

/// Esposito chapter 4: oil of 100 cSt at 10 ft/s in 1 in → Re 774; 100 ft lose 60 psi (SG .9).
#[test]
fn esposito_4_reynolds_and_loss() {
    let bore: Length = of(1.0, Unit::Inch);
    let oil = Oil { viscosity: of(100.0, Unit::SquareMillimetrePerSecond), density: MassDensity::from_si(0.9 * 999.0) };
    // 10 ft/s in 1 in².
    let area = std::f64::consts::PI / 4.0 * bore.si() * bore.si();
    let q = VolumeRate::from_si(10.0 * 0.3048 * area);
    printed(reynolds(q, bore, &oil), 774.0, 1.0);
    let pipe = Piece::Pipe { bore, length: of(100.0, Unit::Foot), roughness: Roughness::default() };
    printed(to(pipe.loss(q, &oil), Unit::Psi), 60.0, 1.0);
}

/// Esposito chapter 4 (SI): ν 0.001 m²/s, 5 m/s, 50 mm → Re 250; 50 m lose 326 m of oil.
#[test]
fn esposito_4_laminar_in_si() {
    let bore: Length = of(50.0, Unit::Millimetre);
    let oil = Oil { viscosity: KinematicViscosity::from_si(0.001), density: MassDensity::from_si(8800.0 / 9.806_65) };
    let q = VolumeRate::from_si(5.0 * std::f64::consts::PI / 4.0 * 0.05 * 0.05);
    printed(reynolds(q, bore, &oil), 250.0, 1.0);
    let pipe = Piece::Pipe { bore, length: of(50.0, Unit::Metre), roughness: Roughness::default() };
    // The book cuts 326.5 m off.
    printed(pipe.loss(q, &oil).si() / 8800.0, 326.0, 2.0);
}

/// Velocity: 20 L/min in 17 mm → 1.47 m/s, in 7 mm → 8.66 m/s (a published sizing table, rounded).
#[test]
fn velocity_of_a_sizing_table() {
    let v = |d: f64| to(velocity(of(20.0, Unit::LitrePerMinute), of(d, Unit::Millimetre)), Unit::MetrePerSecond);
    printed(v(17.0), 1.47, 0.01);
    printed(v(7.0), 8.66, 0.01);
}

/// Every row of `lines.csv`, made with the general-purpose library `fluids` 1.3.1: Reynolds number, 64/Re, Haaland, and the
/// pressure loss of the branch that applies.
#[test]
fn lines_of_a_second_library() {
    let text = include_str!("lines.csv");
    let mut rows = text.lines();
    let names: Vec<&str> = rows.next().expect("a heading").split(',').collect();
    let mut checked = (0, 0, 0);
    for row in rows {
        let cells: Vec<&str> = row.split(',').collect();
        let cell = |name: &str| cells[names.iter().position(|n| *n == name).expect(name)];
        let figure = |name: &str| cell(name).parse::<f64>().expect(name);
        let same = |a: f64, b: f64, what: &str| assert!((a / b - 1.0).abs() < 1e-9, "{row}: {what} {a} against {b}");
        let bore: Length = of(figure("bore_mm"), Unit::Millimetre);
        let q: VolumeRate = of(figure("flow_L_min"), Unit::LitrePerMinute);
        let oil = vg46().at(celsius(figure("oil_temp_C")));
        let re = reynolds(q, bore, &oil);
        same(re, figure("Re"), "Re");
        same(friction_laminar(re), figure("f_laminar_64_Re"), "64/Re");
        let rough = 0.01 / figure("bore_mm");
        same(friction_haaland(re, rough), figure("f_haaland"), "Haaland");
        let loss = Piece::Pipe { bore, length: Length::from_si(3.0), roughness: Roughness::default() }.loss(q, &oil);
        let bar = to(loss, Unit::Bar);
        if re <= 2300.0 {
            same(bar, figure("dp_hagen_poiseuille_bar"), "Hagen–Poiseuille");
            checked.0 += 1;
        } else if re >= 4000.0 {
            same(bar, figure("dp_haaland_bar"), "Haaland loss");
            // Haaland is within 2 % of Colebrook.
            assert!((bar / figure("dp_colebrook_bar") - 1.0).abs() < 0.02, "{row}");
            checked.1 += 1;
        } else {
            // Between laminar and turbulent nobody knows: inside the envelope of both.
            let (low, high) = (figure("dp_hagen_poiseuille_bar"), figure("dp_haaland_bar"));
            assert!(low <= bar && bar <= high, "{row}: {bar} outside {low}..{high}");
            checked.2 += 1;
        }
    }
    assert_eq!(checked, (11, 11, 4), "rows laminar, turbulent, between");
}

/// ISO 14541 screw-to-connect coupling of size 20: 2.2 bar at 106 L/min at the most; at 1.5 times the flow 4.95 bar.
#[test]
fn coupling_of_iso_14541() {
    let coupling = Piece::Point { loss: of(2.2, Unit::Bar), flow: of(106.0, Unit::LitrePerMinute) };
    let oil = vg46().at(celsius(40.0));
    printed(to(coupling.loss(of(159.0, Unit::LitrePerMinute), &oil), Unit::Bar), 4.95, 0.01);
}

fn through(d: f64, coefficient: f64, bar: f64, density: f64) -> f64 {
    let oil = Oil { viscosity: of(46.0, Unit::SquareMillimetrePerSecond), density: MassDensity::from_si(density) };
    let hole = Orifice { bore: of(d, Unit::Millimetre), coefficient };
    let flow = hole.flow(of(bar, Unit::Bar), &oil);
    // Loss and flow are each other's inverse.
    printed(to(hole.loss(flow, &oil), Unit::Bar), bar, 1e-9);
    to(flow, Unit::LitrePerMinute)
}

/// The sharp edge, π/(π+2) = 0.611 (*Fluid Power Engineering*, p. 50), and three holes computed with a second tool.
#[test]
fn orifices_in_litres_per_minute() {
    printed(SHARP_EDGED, 0.611_015_470_351_657_3, 1e-15);
    printed(through(5.0, SHARP_EDGED, 100.0, 860.0), 109.773_91, 1e-5);
    printed(through(3.0, 0.62, 20.0, 860.0), 17.933_13, 1e-5);
    printed(through(8.0, 0.70, 15.0, 860.0), 124.689_69, 1e-5);
}

/// Esposito 8.4: a hole of 1 in with C .80 at 100 psi and SG .9 passes 252 gpm. The book's form has 38.1 for 37.99.
#[test]
fn esposito_8_4_orifice_in_gallons() {
    let litres = through(25.4, 0.80, to(of::<Pressure>(100.0, Unit::Psi), Unit::Bar), 0.9 * 999.0);
    let gallons = to(of::<VolumeRate>(litres, Unit::LitrePerMinute), Unit::UsGallonPerMinute);
    printed(gallons, 252.0, 1.0 + 2.0 * 252.0 * (38.1 / 37.99 - 1.0));
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

/// ISO 14541: Δp = k·Q² through the published points, at one and a half times the rated flow.
#[test]
fn couplings_above_their_rated_flow() {
    let oil = vg46().at(celsius(40.0));
    for (rated, loss, at_half_more) in [(12.0, 2.5, 5.625), (23.0, 2.0, 4.5), (45.0, 1.5, 3.375), (106.0, 2.2, 4.95)] {
        let coupling = Piece::Point { loss: of(loss, Unit::Bar), flow: of(rated, Unit::LitrePerMinute) };
        printed(to(coupling.loss(of(1.5 * rated, Unit::LitrePerMinute), &oil), Unit::Bar), at_half_more, 1e-9);
    }
}

/// Esposito chapter 10: a pressure line for 30 gpm at 20 ft/s → 0.783 in.
#[test]
fn esposito_10_bore_of_a_pressure_line() {
    let bore = bore_for(of(30.0, Unit::UsGallonPerMinute), Velocity::from_si(20.0 * 0.3048));
    printed(to(bore, Unit::Inch), 0.783, 0.001);
}

/// Esposito chapter 10 (SI): 0.002 m³/s at 6.1 m/s → 20.4 mm.
#[test]
fn esposito_10_bore_in_si() {
    printed(to(bore_for(VolumeRate::from_si(0.002), Velocity::from_si(6.1)), Unit::Millimetre), 20.4, 0.1);
}

/// Esposito chapter 4, read off a Moody chart: 50 cSt at 10 ft/s in 1 in, Re 1548 → f 0.042 (laminar; a reading).
#[test]
fn esposito_4_moody_laminar() {
    let oil = Oil { viscosity: of(50.0, Unit::SquareMillimetrePerSecond), density: MassDensity::from_si(870.0) };
    let bore: Length = of(1.0, Unit::Inch);
    let q = VolumeRate::from_si(10.0 * 0.3048 * std::f64::consts::PI / 4.0 * bore.si() * bore.si());
    let re = reynolds(q, bore, &oil);
    printed(re, 1548.0, 1.0);
    printed(friction_factor(re, 0.0018), 0.042, 0.001 + 0.001);
}

/// Esposito chapter 4, read off a Moody chart: 40 ft/s, Re 6192, ε 0.0018 in → f 0.036 (a reading).
#[test]
fn esposito_4_moody_turbulent() {
    printed(friction_factor(6192.0, 0.0018), 0.036, 0.001 + 0.002);
}
