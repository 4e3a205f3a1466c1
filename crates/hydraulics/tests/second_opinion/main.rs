//! What we compute against what general-purpose libraries of other people compute: see `opinion.py` beside this file.
//!
//! It needs Python with pinned packages, so it is ignored by `cargo test`; `make second-opinion`, a part of `make test`,
//! makes the environment and runs it.

mod circuits;

use hydraulics::line::{LAMINAR_UP_TO, Piece, Roughness, TURBULENT_FROM, reynolds};
use hydraulics::{Oil, OilCurve, Source};
use quantity::shop::celsius;
use quantity::{KinematicViscosity, Length, MassDensity, Named, Power, Pressure, Quantity, Unit, VolumeRate};
use serde_json::Value;
use std::collections::HashSet;
use std::f64::consts::TAU;

fn opinions(what: &str) -> Vec<Value> {
    let file = std::env::var("SECOND_OPINION").expect("SECOND_OPINION names the file that opinion.py made");
    let text = std::fs::read_to_string(&file).expect("the file can be read");
    let all = text.lines().map(|line| serde_json::from_str::<Value>(line).expect("JSON"));
    all.filter(|opinion| opinion["what"] == what).collect()
}

fn figure(opinion: &Value, name: &str) -> f64 {
    opinion[name].as_f64().unwrap_or_else(|| panic!("no {name} in {opinion}"))
}

#[track_caller]
fn same(ours: f64, theirs: f64, opinion: &Value) {
    let apart = if theirs == 0.0 { ours.abs() } else { (ours / theirs - 1.0).abs() };
    assert!(apart <= 1e-9, "ours {ours}, theirs {theirs}: {opinion}");
}

/// Branch by branch to 1e-9; in the transition band, where nobody is right, inside the envelope.
#[test]
#[ignore = "needs Python: make second-opinion"]
fn lines_agree_with_fluids() {
    let opinions = opinions("line");
    assert!(opinions.len() >= 5000);
    let (mut laminar, mut turbulent, mut between) = (0, 0, 0);
    for opinion in &opinions {
        let of = |name| figure(opinion, name);
        let oil = Oil { viscosity: KinematicViscosity::from_si(of("nu")), density: MassDensity::from_si(of("rho")) };
        let (bore, q) = (Length::from_si(of("d")), VolumeRate::from_si(of("q")));
        let roughness = Roughness(Length::from_si(of("rough")));
        let loss = Piece::Pipe { bore, length: Length::from_si(of("length")), roughness }.loss(q, &oil).si();
        let re = reynolds(q, bore, &oil);
        same(re, of("re"), opinion);
        if re <= LAMINAR_UP_TO {
            laminar += 1;
            same(loss, of("laminar"), opinion);
        } else if re >= TURBULENT_FROM {
            turbulent += 1;
            same(loss, of("turbulent"), opinion);
        } else {
            between += 1;
            // At Re 2300 and 4000 the factors are those of the branches; between them it lies between the two.
            assert!(of("laminar") <= loss && loss <= of("turbulent"), "{loss}: {opinion}");
        }
    }
    assert!(laminar > 1000 && turbulent > 500 && between > 50, "{laminar} {turbulent} {between}");
}

#[test]
#[ignore = "needs Python: make second-opinion"]
fn fittings_agree_with_fluids() {
    let opinions = opinions("fitting");
    assert!(opinions.len() >= 1000);
    for opinion in &opinions {
        let of = |name| figure(opinion, name);
        let oil = Oil { viscosity: KinematicViscosity::from_si(46e-6), density: MassDensity::from_si(of("rho")) };
        let fitting = Piece::Fitting { k: of("k"), bore: Length::from_si(of("d")) };
        same(fitting.loss(VolumeRate::from_si(of("q")), &oil).si(), of("loss"), opinion);
    }
}

/// We take the short form of ASTM D341, good from 2 mm²/s upwards: with the general one it agrees to 5e-4 there, and so does
/// the Reynolds number of a line with that oil.
#[test]
#[ignore = "needs Python: make second-opinion"]
fn oils_agree_with_the_general_form_of_d341() {
    let opinions = opinions("oil");
    assert!(opinions.len() >= 1000);
    let mut compared = 0;
    for opinion in &opinions {
        let of = |name| figure(opinion, name);
        let nu = |v| KinematicViscosity::from_si(Unit::SquareMillimetrePerSecond.to_si(v));
        let curve =
            OilCurve::through(celsius(of("t1")), nu(of("nu1")), celsius(of("t2")), nu(of("nu2"))).expect("a curve");
        if of("nu") < 2.0 {
            continue;
        }
        compared += 1;
        let oil = curve.at(celsius(of("t")));
        let theirs = of("nu");
        let ours = Unit::SquareMillimetrePerSecond.of_si(oil.viscosity.si());
        assert!((ours / theirs - 1.0).abs() < 5e-4, "ours {ours}: {opinion}");
        let re = reynolds(VolumeRate::from_si(of("q")), Length::from_si(of("d")), &oil);
        assert!((re / of("re") - 1.0).abs() < 5e-4, "ours {re}: {opinion}");
    }
    assert!(compared > 800, "{compared}");
}

#[test]
#[ignore = "needs Python: make second-opinion"]
fn pump_points_agree_with_pint() {
    let opinions = opinions("pump");
    assert!(opinions.len() >= 1000);
    for opinion in &opinions {
        let of = |name| figure(opinion, name);
        let turned = Unit::CubicCentimetrePerRevolution.to_si(of("v")) * Unit::RevolutionPerMinute.to_si(of("n")) / TAU;
        let shaft = of("limit") * Unit::RevolutionPerMinute.to_si(of("n"));
        let pump = Source {
            greatest: VolumeRate::from_si(turned * of("eta_v")),
            set: None,
            leak: VolumeRate::from_si(0.0),
            leak_at: Pressure::from_si(1.0),
            power: Some(Power::from_si(shaft * of("eta_v") * of("eta_hm"))),
            cut_off: None,
            surplus_is_pumped: false,
        };
        let flow = pump.flow_at(Pressure::from_si(Unit::Bar.to_si(of("p"))));
        same(Unit::LitrePerMinute.of_si(flow.si()), of("flow"), opinion);
    }
}

/// Every unit that we read, offsets and all.
#[test]
#[ignore = "needs Python: make second-opinion"]
fn units_agree_with_pint() {
    let mut seen = HashSet::new();
    for opinion in &opinions("unit") {
        let code = opinion["code"].as_str().expect("a code");
        let unit = Unit::from_text(code).unwrap_or_else(|| panic!("no unit {code}"));
        let (value, si) = (figure(opinion, "value"), figure(opinion, "si"));
        same(unit.to_si(value), si, opinion);
        same(unit.of_si(si), value, opinion);
        seen.insert(unit.name());
        // Each spoken form is the same unit.
        for spoken in unit.spoken() {
            assert_eq!(Unit::from_text(spoken), Some(unit), "{spoken}");
        }
    }
    let unseen: Vec<_> = Unit::ALL.iter().map(|unit| unit.name()).filter(|name| !seen.contains(name)).collect();
    assert!(unseen.is_empty(), "no second opinion on {unseen:?}");
}
