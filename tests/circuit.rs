//! What must hold of the circuit's parts for every oil, size and flow.

use pairwright::circuit::hose::rated_pressure;
use pairwright::circuit::line::{LAMINAR_UP_TO, Piece, Roughness, reynolds};
use pairwright::circuit::{Motor, Oil, OilCurve, Orifice, Relief, Source};
use pairwright::quantity::{
    Displacement, Kind, KinematicViscosity, Length, MassDensity, Named, Power, Pressure, ThermodynamicTemperature,
    Unit, VolumeRate,
};
use pairwright::table::{LineStandard, OilGrade};
use proptest::prelude::*;

fn litres(q: f64) -> VolumeRate {
    VolumeRate::from_si(Unit::LitrePerMinute.to_si(q))
}

fn bar(p: f64) -> Pressure {
    Pressure::from_si(Unit::Bar.to_si(p))
}

fn millimetres(d: f64) -> Length {
    Length::from_si(Unit::Millimetre.to_si(d))
}

fn oil(nu: f64) -> Oil {
    Oil {
        viscosity: KinematicViscosity::from_si(Unit::SquareMillimetrePerSecond.to_si(nu)),
        density: MassDensity::from_si(870.0),
    }
}

fn pipe(bore: f64, length: f64) -> Piece {
    Piece::Pipe { bore: millimetres(bore), length: Length::from_si(length), roughness: Roughness::default() }
}

/// Every kind of piece, of sizes that occur.
fn piece() -> impl Strategy<Value = Piece> {
    prop_oneof![
        (3.0..60.0, 0.05..40.0).prop_map(|(bore, length)| pipe(bore, length)),
        (0.0..60.0, 3.0..60.0).prop_map(|(k, bore)| Piece::Fitting { k, bore: millimetres(bore) }),
        (0.0..60.0, 1.0..600.0).prop_map(|(loss, flow)| Piece::Point { loss: bar(loss), flow: litres(flow) }),
        (0.0..3.0, 1.0..600.0, 0.5..10.0).prop_map(|(loss, flow, bypass)| Piece::Filter {
            loss: bar(loss),
            flow: litres(flow),
            bypass: bar(bypass),
        }),
        (0.0..6.0).prop_map(|p| Piece::Constant(bar(p))),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4000))]

    #[test]
    fn a_loss_is_a_number_not_negative_and_rises_with_the_flow(
        piece in piece(), nu in 2.0..20_000.0, q in 0.0..900.0, more in 0.0..200.0,
    ) {
        let oil = oil(nu);
        let (less, more) = (piece.loss(litres(q), &oil).si(), piece.loss(litres(q + more), &oil).si());
        prop_assert!(less.is_finite() && less >= 0.0, "{less}");
        // To the last digits: a rounding is no fall.
        prop_assert!(more >= less * (1.0 - 1e-12), "{less} {more}");
    }

    #[test]
    fn a_larger_bore_never_raises_a_loss(
        bore in 3.0..50.0, wider in 0.0..30.0, nu in 2.0..20_000.0, q in 0.1..900.0,
    ) {
        let (narrow, wide) = (pipe(bore, 5.0).loss(litres(q), &oil(nu)), pipe(bore + wider, 5.0).loss(litres(q), &oil(nu)));
        prop_assert!(wide.si() <= narrow.si() * (1.0 + 1e-12), "{wide:?} {narrow:?}");
    }

    #[test]
    fn thicker_oil_never_lowers_a_laminar_loss(
        bore in 3.0..60.0, nu in 2.0..20_000.0, thicker in 1.0..10.0, q in 0.1..900.0,
    ) {
        prop_assume!(reynolds(litres(q), millimetres(bore), &oil(nu)) <= LAMINAR_UP_TO);
        let piece = pipe(bore, 5.0);
        prop_assert!(piece.loss(litres(q), &oil(nu * thicker)) >= piece.loss(litres(q), &oil(nu)));
    }

    #[test]
    fn oil_thins_as_it_warms(grade in prop::sample::select(OilGrade::ALL), t in -30.0..100.0, warmer in 0.01..20.0) {
        let curve = OilCurve::of_grade(grade);
        let at = |t: f64| curve.at(ThermodynamicTemperature::from_si(Unit::Celsius.to_si(t)));
        let (cold, warm) = (at(t), at(t + warmer));
        prop_assert!(warm.viscosity < cold.viscosity && warm.density < cold.density);
        prop_assert!(warm.viscosity.si() > 0.0 && warm.density.si() > 0.0);
        // The temperature of a viscosity is its inverse.
        prop_assert!((curve.temperature_at(cold.viscosity).si() - Unit::Celsius.to_si(t)).abs() < 1e-6);
    }

    #[test]
    fn a_pump_never_gives_more_at_a_higher_pressure(
        greatest in 1.0..900.0, set in prop::option::of(1.0..900.0), leak in 0.0..60.0, power in prop::option::of(1.0..200.0),
        p in 0.0..450.0, more in 0.0..100.0,
    ) {
        let source = Source {
            greatest: litres(greatest),
            set: set.map(litres),
            leak: litres(leak),
            leak_at: bar(250.0),
            power: power.map(|kilowatts: f64| Power::from_si(kilowatts * 1e3)),
            surplus_is_pumped: false,
        };
        let (less, high) = (source.flow_at(bar(p)), source.flow_at(bar(p + more)));
        prop_assert!(high <= less && high.si() >= 0.0 && less.si() <= litres(greatest).si());
        if let Some(power) = power {
            prop_assert!(less.si() * bar(p).si() <= power * 1e3 * (1.0 + 1e-9));
        }
    }

    #[test]
    fn a_relief_opens_as_the_pressure_rises(full in 20.0..450.0, share in 0.01..0.4, p in 0.0..500.0, more in 0.0..50.0) {
        let relief = Relief::new(bar(full), share);
        let (less, high) = (relief.share_passed(bar(p)), relief.share_passed(bar(p + more)));
        prop_assert!(less <= high && (0.0..=1.0).contains(&less) && (0.0..=1.0).contains(&high));
    }

    #[test]
    fn flow_and_loss_of_an_orifice_are_each_others_inverse(d in 0.3..40.0, c in 0.3..1.0, p in 0.0..400.0) {
        let hole = Orifice { bore: millimetres(d), coefficient: c };
        let back = hole.loss(hole.flow(bar(p), &oil(46.0)), &oil(46.0));
        prop_assert!((back.si() - bar(p).si()).abs() <= 1e-9 * bar(p).si().max(1.0));
    }

    #[test]
    fn a_motor_turns_a_part_of_what_goes_in(
        v in 1.0..2000.0, eta_v in 0.5..1.0, eta_hm in 0.5..1.0, ratio in 0.05..4.0, p in 0.1..400.0, q in 0.1..600.0,
    ) {
        let motor = Motor {
            displacement: Displacement::from_si(v * 1e-6), volumetric: eta_v, hydromechanical: eta_hm, ratio,
        };
        let (power, given) = (motor.shaft_power(bar(p), litres(q)).si(), bar(p).si() * litres(q).si());
        prop_assert!(power > 0.0 && power <= given);
        // Power is torque times speed.
        let turned = motor.torque(bar(p)).si() * motor.shaft_speed(litres(q)).si();
        prop_assert!((turned / power - 1.0).abs() < 1e-9);
        prop_assert!((motor.flow_for(motor.rotor_speed(litres(q))).si() / litres(q).si() - 1.0).abs() < 1e-9);
    }

    #[test]
    fn a_larger_hose_of_a_standard_never_bears_more(
        standard in prop::sample::select(LineStandard::ALL), bore in 5.0..50.0, wider in 0.0..20.0,
    ) {
        let rating = |d: f64| rated_pressure(standard, millimetres(d));
        if let (Some(small), Some(large)) = (rating(bore), rating(bore + wider)) {
            prop_assert!(large <= small);
        }
    }

    #[test]
    fn units_come_back_as_they_went(unit in prop::sample::select(Unit::ALL), value in -1e6..1e6) {
        let back = unit.of_si(unit.to_si(value));
        prop_assert!((back - value).abs() <= 1e-9 * value.abs().max(1.0), "{unit:?}: {value} {back}");
    }
}
