//! Lines, couplings and orifices.

use crate::formulas::{Orifice, SHARP_EDGED, bore_for};
use crate::{celsius, of, printed, to, vg46};
use hydraulics::case_line::height_of_oil;
use hydraulics::coast_down::MakeUp;
use hydraulics::line::{Piece, Roughness, friction_factor, friction_haaland, friction_laminar, reynolds};
use hydraulics::valve::Check;
use hydraulics::velocity::velocity;
use hydraulics::{Oil, Resistance};
use quantity::{KinematicViscosity, Length, MassDensity, Pressure, Quantity, Unit, Velocity, VolumeRate};

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

pub(crate) fn through(d: f64, coefficient: f64, bar: f64, density: f64) -> f64 {
    let oil = Oil { viscosity: of(46.0, Unit::SquareMillimetrePerSecond), density: MassDensity::from_si(density) };
    let hole = Orifice { bore: of(d, Unit::Millimetre), coefficient };
    let flow = hole.flow(of(bar, Unit::Bar), &oil);
    // Loss and flow are each other's inverse.
    printed(to(hole.loss(flow, &oil), Unit::Bar), bar, 1e-9);
    to(flow, Unit::LitrePerMinute)
}

/// The sharp edge, π/(π+2) = 0.611 (*Fluid Power Engineering*, p. 50).
#[test]
fn coefficient_of_a_sharp_edge() {
    printed(SHARP_EDGED, 0.611, 0.001);
}

/// Esposito 8.4: a hole of 1 in with C .80 at 100 psi and SG .9 passes 252 gpm. The book's form has 38.1 for 37.99.
#[test]
fn esposito_8_4_orifice_in_gallons() {
    let litres = through(25.4, 0.80, to(of::<Pressure>(100.0, Unit::Psi), Unit::Bar), 0.9 * 999.0);
    let gallons = to(of::<VolumeRate>(litres, Unit::LitrePerMinute), Unit::UsGallonPerMinute);
    printed(gallons, 252.0, 1.0 + 2.0 * 252.0 * (38.1 / 37.99 - 1.0));
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

/// A pressure of a weight on a square foot, Pa.
fn pounds_on_a_square_foot(pounds: f64) -> f64 {
    of::<Pressure>(pounds / 144.0, Unit::Psi).si()
}

fn laminar_loss(bore: Length, length: Length, flow: VolumeRate, oil: &Oil) -> Pressure {
    Piece::Pipe { bore, length, roughness: Roughness::default() }.loss(flow, oil)
}

/// Oil of a specific gravity in these books: over water of 62.4 lb/ft³.
fn of_gravity(specific_gravity: f64, viscosity: KinematicViscosity) -> Oil {
    Oil { viscosity, density: MassDensity::from_si(specific_gravity * 62.4 * 0.453_592_37 / 0.3048_f64.powi(3)) }
}

/// Sullivan 5.2, p. 84: 15 gpm through 400 ft of 1 in, 0.08 in²/s, SG 0.85 → 71.68 psi. (It takes 0.785, 3.12, 32.2 and 0.433: 0.2 % low.)
#[test]
fn sullivan_5_2_laminar_line() {
    let oil = of_gravity(0.85, KinematicViscosity::from_si(0.08 * 0.0254 * 0.0254));
    let (bore, flow) = (of(1.0, Unit::Inch), of(15.0, Unit::UsGallonPerMinute));
    printed(reynolds(flow, bore, &oil), 919.0, 1.0);
    let lost = to(laminar_loss(bore, of(400.0, Unit::Foot), flow, &oil), Unit::Psi);
    printed(lost, 71.68, 0.01 + 2.0 * 0.0021 * 71.68);
}

/// Munson, Young, Okiishi, *Fundamentals of Fluid Mechanics*, 8.2, p. 412: 0.4 Pa·s, 900 kg/m³, 20 mm, 2e-5 m³/s, 10 m → Re 3, 20.4
/// kPa; down a slope of 13.34° the height gives back just that (with 9.81 m/s²: a hundredth of a degree).
#[test]
fn munson_8_2_laminar_line_on_a_slope() {
    let oil = Oil { viscosity: KinematicViscosity::from_si(0.4 / 900.0), density: MassDensity::from_si(900.0) };
    let (bore, length, flow) = (Length::from_si(0.02), Length::from_si(10.0), VolumeRate::from_si(2e-5));
    printed(reynolds(flow, bore, &oil), 3.0, 1.0);
    let lost = laminar_loss(bore, length, flow, &oil);
    printed(to(lost, Unit::Kilopascal), 20.4, 0.1);
    let slope = (lost / height_of_oil(length, &oil)).value.asin().to_degrees();
    printed(slope, 13.34, 0.01 + 0.01);
}

/// Munson 8.3, p. 416: 0.5 ft³/s through 6 ft of 3 in, 0.0038 lb·s/ft² → 119 lb/ft², Re 1 374 (which tells its 2.05 slug/ft³).
#[test]
fn munson_8_3_laminar_line() {
    let density = 2.05 * 32.174 * 0.453_592_37 / 0.3048_f64.powi(3);
    let viscosity = KinematicViscosity::from_si(pounds_on_a_square_foot(0.0038) / density);
    let oil = Oil { viscosity, density: MassDensity::from_si(density) };
    let (bore, flow) = (of(3.0, Unit::Inch), VolumeRate::from_si(0.5 * 0.3048_f64.powi(3)));
    printed(reynolds(flow, bore, &oil), 1374.0, 1.0);
    let lost = laminar_loss(bore, of(6.0, Unit::Foot), flow, &oil);
    printed(lost.si() / pounds_on_a_square_foot(1.0), 119.0, 1.0);
}

/// Vennard, *Elementary Fluid Mechanics*, 9.4, p. 290: 100 gpm through 1 000 ft of 3 in, SG 0.9, 0.0012 lb·s/ft² → 49.6 ft of oil
/// (49.66 with water of 62.4 lb/ft³, 49.60 with the data set's own: a thousandth).
#[test]
fn vennard_9_4_laminar_line() {
    let oil = of_gravity(0.9, KinematicViscosity::from_si(1.0));
    let viscosity = KinematicViscosity::from_si(pounds_on_a_square_foot(0.0012) / oil.density.si());
    let oil = Oil { viscosity, ..oil };
    let lost = laminar_loss(of(3.0, Unit::Inch), of(1000.0, Unit::Foot), of(100.0, Unit::UsGallonPerMinute), &oil);
    printed(lost.si() / height_of_oil(of(1.0, Unit::Foot), &oil).si(), 49.6, 0.1 + 2.0 * 0.006);
}

/// Koc, problem set 03: 14 L/min through 2.5 m of 10 mm, 46 mm²/s, 870 kg/m³ → 2.97 m/s, Re 646, 0.951 bar.
#[test]
fn koc_set_03_line() {
    let oil = Oil { viscosity: KinematicViscosity::from_si(46e-6), density: MassDensity::from_si(870.0) };
    let (bore, flow) = (of(10.0, Unit::Millimetre), of(14.0, Unit::LitrePerMinute));
    printed(to(velocity(flow, bore), Unit::MetrePerSecond), 2.97, 0.01);
    printed(reynolds(flow, bore, &oil), 646.0, 1.0);
    printed(to(laminar_loss(bore, of(2.5, Unit::Metre), flow, &oil), Unit::Bar), 0.951, 0.001);
}

/// Web course: 60 L/min through 5 m of 16 mm, 40 mPa·s → 1.24 bar, at 0 °C with 500 mPa·s 15.5; Re 1 740 at 5 m/s; 80 L/min, 20 mm,
/// 32 mm²/s → Re 2 650.
#[test]
fn a_line_warm_and_cold() {
    let with = |pascal_seconds: f64| Oil {
        viscosity: KinematicViscosity::from_si(pascal_seconds / 870.0),
        density: MassDensity::from_si(870.0),
    };
    let (bore, flow) = (of(16.0, Unit::Millimetre), of(60.0, Unit::LitrePerMinute));
    for (viscosity, bar, digit) in [(0.040, 1.24, 0.01), (0.500, 15.5, 0.1)] {
        printed(to(laminar_loss(bore, of(5.0, Unit::Metre), flow, &with(viscosity)), Unit::Bar), bar, digit);
    }
    let at_five = VolumeRate::from_si(5.0 * std::f64::consts::PI / 4.0 * 0.016 * 0.016);
    printed(reynolds(at_five, bore, &with(0.040)), 1740.0, 1.0);
    let thin = Oil { viscosity: KinematicViscosity::from_si(32e-6), density: MassDensity::from_si(870.0) };
    printed(reynolds(of(80.0, Unit::LitrePerMinute), of(20.0, Unit::Millimetre), &thin), 2650.0, 10.0);
}

/// Web course: bores for 60 L/min: 16.0 mm at 5 m/s, 39.9 at 0.8; a return of 120 L/min 29.2 mm at 3 m/s (29.13: rounded up);
/// 60 L/min in 38 mm → 0.88 m/s.
#[test]
fn bores_by_velocity() {
    let bore = |litres: f64, speed: f64| {
        to(bore_for(of(litres, Unit::LitrePerMinute), Velocity::from_si(speed)), Unit::Millimetre)
    };
    printed(bore(60.0, 5.0), 16.0, 0.1);
    printed(bore(60.0, 0.8), 39.9, 0.1);
    printed(bore(120.0, 3.0), 29.2, 0.1 + 2.0 * 0.02);
    let suction = velocity(of(60.0, Unit::LitrePerMinute), of(38.0, Unit::Millimetre));
    printed(to(suction, Unit::MetrePerSecond), 0.88, 0.01);
}

/// Sullivan 5.1 and 5.3, pp. 82 and 87, with the friction factor given: 200 gpm, 2 in, 800 ft, f 0.05, SG 0.91 → 611.99 psi; 600
/// gpm, 500 ft, f 0.040, SG 0.85, 0.30 in²/s → 2 572.39 psi, Re 4 902 (3.14, 3.12, 0.433: 0.26 % low).
#[test]
fn sullivan_5_1_and_5_3_friction_factor_given() {
    let bore: Length = of(2.0, Unit::Inch);
    for (gallons, feet, factor, gravity, psi) in
        [(200.0, 800.0, 0.05, 0.91, 611.99), (600.0, 500.0, 0.040, 0.85, 2572.39)]
    {
        let oil = of_gravity(gravity, KinematicViscosity::from_si(0.30 * 0.0254 * 0.0254));
        let (flow, length): (VolumeRate, Length) = (of(gallons, Unit::UsGallonPerMinute), of(feet, Unit::Foot));
        let line = Piece::Fitting { k: factor * (length / bore).value, bore };
        printed(to(line.loss(flow, &oil), Unit::Psi), psi, 0.01 + 2.0 * 0.0026 * psi);
        if gallons > 500.0 {
            printed(reynolds(flow, bore, &oil), 4902.0, 1.0);
        }
    }
}

/// Sullivan 5.5 and 5.6, pp. 94 and 96: 50 gpm through fittings of K 0.78, 1.0, 10, four of 0.90, 0.75 and 0.375 in 1 in, SG 0.91 → 42.09
/// psi (0.25 % low, as above); K 2.5 at f 0.045 is 4.63 ft of 1 in.
#[test]
fn sullivan_5_5_and_5_6_fittings() {
    let bore: Length = of(1.0, Unit::Inch);
    let oil = of_gravity(0.91, KinematicViscosity::from_si(0.05 * 0.0254 * 0.0254));
    let flow = of(50.0, Unit::UsGallonPerMinute);
    let all = [0.78, 1.0, 10.0, 0.90, 0.90, 0.90, 0.90, 0.75, 0.375].map(|k| Piece::Fitting { k, bore });
    let lost = Resistance::of(all.to_vec()).loss(flow, &oil);
    printed(to(lost, Unit::Psi), 42.09, 0.01 + 2.0 * 0.0026 * 42.09);
    // A line with that friction factor and length costs the same as the fitting.
    let (fitting, line) = (Piece::Fitting { k: 2.5, bore }, Piece::Fitting { k: 0.045 * 4.63 * 12.0, bore });
    printed(line.loss(flow, &oil).si() / fitting.loss(flow, &oil).si() * 4.63, 4.63, 0.01);
}

/// Sullivan 5.4, p. 90: 1 000 gpm, SG 0.85, lose 120 psi in a hole of 2 in → C 0.70 (0.704 with its 38.06, 0.705 with the exact constant).
#[test]
fn sullivan_5_4_discharge_coefficient() {
    let oil = of_gravity(0.85, KinematicViscosity::from_si(46e-6));
    let open = Orifice { bore: of(2.0, Unit::Inch), coefficient: 1.0 };
    let flow = to(open.flow(of(120.0, Unit::Psi), &oil), Unit::UsGallonPerMinute);
    printed(1000.0 / flow, 0.70, 0.01 + 2.0 * 0.0014);
}

/// Web course, suction: 1.2 m above the oil, 870 kg/m³, 0.05 bar lost warm and 0.22 cold → 0.86 and 0.69 bar absolute.
#[test]
fn suction_of_a_raised_pump() {
    let oil = Oil { viscosity: KinematicViscosity::from_si(46e-6), density: MassDensity::from_si(870.0) };
    let flow: VolumeRate = of(60.0, Unit::LitrePerMinute);
    let nothing = Check { cracking: of(0.0, Unit::Bar), loss: of(0.0, Unit::Bar), flow };
    for (lost, absolute) in [(0.05, 0.86), (0.22, 0.69)] {
        let line = Resistance::of([Piece::Point { loss: of(lost, Unit::Bar), flow }]);
        let (tank, preload) = (of(1.013, Unit::Bar), of(0.0, Unit::Bar));
        let way = MakeUp { tank, preload, motor_above: of(1.2, Unit::Metre), line, check: nothing };
        printed(to(way.inlet(flow, flow, &oil), Unit::Bar), absolute, 0.01);
    }
}
