//! Arithmetic of our own on published formulas: regression figures, counted apart from published ones.

use crate::{celsius, of, printed, to, vg46};
use pairwright::circuit::Resistance;
use pairwright::circuit::filter::{Element, Filter};
use pairwright::circuit::line::{Piece, Roughness};
use pairwright::circuit::oil::specific_heat;
use pairwright::circuit::pump::Limiter;
use pairwright::circuit::run_down::{rotor_energy, warms};
use pairwright::circuit::valve::{Divider, DividerState, Split};
use pairwright::circuit::{CaseLine, Oil, Pump};
use pairwright::quantity::{
    AngularVelocity, Kind, KinematicViscosity, Length, MassDensity, MomentOfInertia, Pressure, Torque, Unit, Volume,
    VolumeRate,
};
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
        let viscosity = filter.closes_bypass_at(of(110.0, Unit::LitrePerMinute), element).expect("not blocked");
        printed(to(vg46().temperature_at(viscosity), Unit::Celsius), temperature, 1.0);
    }
}

/// Two pumps of 63 cm³ at 2000 rpm (η_v .95, η_hm .93) share 60 kW; the head takes 100 L/min first. At 60, 170 and 250 bar the
/// head's share is 42, 53 and 79 %, and of what the functions had at 170 and 250 bar's limit 36 and 11 % are left.
#[test]
fn a_divider_under_a_shared_limit() {
    let pump = Pump {
        displacement: of(63.0, Unit::CubicCentimetrePerRevolution),
        volumetric: 0.95,
        hydromechanical: 0.93,
        rated_pressure: None,
    };
    let speed: AngularVelocity = of(2000.0, Unit::RevolutionPerMinute);
    let limiter = Limiter::PressureSum(Torque::from_si(60e3 / speed.si()));
    let both = |p: Pressure| -> VolumeRate {
        let strokes = limiter.strokes(&[pump; 2], &[1.0; 2], &[p; 2]);
        pump.flow(strokes[0], speed, p) + pump.flow(strokes[1], speed, p)
    };
    printed(to(both(of(100.0, Unit::Bar)), Unit::LitrePerMinute), 239.0, 1.0);
    let divider = Divider {
        split: Split::Priority { set: of(100.0, Unit::LitrePerMinute) },
        metering: of(10.0, Unit::Bar),
        excess: of(3.0, Unit::Bar),
    };
    let functions: Pressure = of(120.0, Unit::Bar);
    for (at_pump, share, left, heat) in [(170.0, 53.0, 36.0, None), (250.0, 79.0, 11.0, Some(7.6))] {
        let head: Pressure = of(at_pump - 10.0, Unit::Bar);
        let divided = divider.divide(both, head, functions);
        assert_eq!(divided.state, DividerState::Both);
        let given = divided.head + divided.functions;
        printed((divided.head / given).si() * 100.0, share, 1.0);
        printed((divided.functions / both(functions)).si() * 100.0, left, 1.0);
        if let Some(kilowatts) = heat {
            printed(to(divider.heat(&divided, head, functions), Unit::Kilowatt), kilowatts, 0.1);
        }
    }
    printed((of::<VolumeRate>(100.0, Unit::LitrePerMinute) / both(of(60.0, Unit::Bar))).si() * 100.0, 42.0, 1.0);
}

/// A rotor of 8 kg·m² at 2200 rpm, stopped by its relief, would warm a litre by 131 K.
#[test]
fn a_rotor_stopped_by_its_relief() {
    let energy = rotor_energy(MomentOfInertia::from_si(8.0), of(2200.0, Unit::RevolutionPerMinute));
    let oil = Oil { viscosity: KinematicViscosity::from_si(30e-6), density: MassDensity::from_si(860.0) };
    printed(warms(energy, Volume::from_si(1e-3), &oil).get::<kelvin>(), 131.0, 1.0);
    assert!(specific_heat().value > 1700.0);
}
