//! What must hold of the circuit's parts for every oil, size and flow.

use hydraulics::balance::{Circuit, Functions, Order};
use hydraulics::heat::Bath;
use hydraulics::hose::rated_pressure;
use hydraulics::line::{Extreme, LAMINAR_UP_TO, OilSpan, Piece, Roughness, reynolds};
use hydraulics::pump::CutOff;
use hydraulics::valve::{Check, Divider, DividerState};
use hydraulics::{Element, Filter, Motor, Oil, OilCurve, Relief, Resistance, Source};
use proptest::prelude::*;
use quantity::shop::{bar, celsius, litres, millimetres};
use quantity::{
    Displacement, KinematicViscosity, Length, MassDensity, Named, Power, Pressure, Quantity, ThermalConductance,
    ThermodynamicTemperature, Unit, VolumeRate,
};
use table::{LineStandard, OilGrade};

fn oil(nu: f64) -> Oil {
    Oil {
        viscosity: KinematicViscosity::from_si(Unit::SquareMillimetrePerSecond.to_si(nu)),
        density: MassDensity::from_si(870.0),
    }
}

fn pipe(bore: f64, length: f64) -> Piece {
    Piece::Pipe { bore: millimetres(bore), length: Length::from_si(length), roughness: Roughness::default() }
}

/// Filters with every state of the element.
fn filter() -> impl Strategy<Value = Piece> {
    let element = prop::sample::select(&[Element::Clean, Element::HalfLoaded, Element::Blocked][..]);
    (0.01..3.0, 0.0..1.0, 1.0..600.0, 0.5..10.0, 5.0..900.0, element).prop_map(
        |(loss, housing, flow, bypass, bypass_flow, element)| {
            let filter = Filter::of_one_point(bar(loss), litres(flow), None, bar(bypass));
            Piece::Filter(Filter { housing: bar(housing), bypass_flow: litres(bypass_flow), ..filter }, element)
        },
    )
}

fn check() -> impl Strategy<Value = Check> {
    (0.05..6.0, 0.0..10.0, 1.0..600.0).prop_map(|(cracking, more, flow)| Check {
        cracking: bar(cracking),
        loss: bar(cracking + more),
        flow: litres(flow),
    })
}

/// Every kind of piece, of sizes that occur.
fn piece() -> impl Strategy<Value = Piece> {
    prop_oneof![
        (3.0..60.0, 0.05..40.0).prop_map(|(bore, length)| pipe(bore, length)),
        (0.0..60.0, 3.0..60.0).prop_map(|(k, bore)| Piece::Fitting { k, bore: millimetres(bore) }),
        (0.0..60.0, 1.0..600.0).prop_map(|(loss, flow)| Piece::Point { loss: bar(loss), flow: litres(flow) }),
        filter(),
        check().prop_map(Piece::Check),
        (0.0..6.0).prop_map(|p| Piece::Constant(bar(p))),
    ]
}

/// Where head and functions together take all that a compensated pump gives, it stands at the load; where they leave some of it,
/// at its compensator.
#[test]
fn a_compensated_pump_stands_at_its_load_once_all_is_taken() {
    let beside = |wanted: f64| Circuit {
        source: Source {
            greatest: litres(100.0),
            set: Some(litres(50.0)),
            leak: litres(0.0),
            leak_at: bar(250.0),
            power: None,
            cut_off: Some(CutOff::Compensated { pressure: bar(250.0), band: 0.05 }),
            surplus_is_pumped: false,
        },
        functions: Some(Functions::Shared {
            order: Order::PreCompensated,
            wanted: litres(wanted),
            pressure: bar(60.0),
        }),
        relief: None,
        supply: Resistance::default(),
        back: Resistance::default(),
        drain: None,
        oil: oil(30.0),
    };
    let pump = |wanted: f64| {
        let circuit = beside(wanted);
        let at = circuit.solve(bar(100.0)).expect("it turns");
        Unit::Bar.of_si(circuit.at_pumps(&at).si())
    };
    assert!((pump(20.0) - 250.0).abs() < 1e-6 && (pump(80.0) - 100.0).abs() < 1e-6, "{} {}", pump(20.0), pump(80.0));
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

    /// Over a span of oil nothing in it loses more than the most, or less than the least, and both ends are reached somewhere.
    #[test]
    fn a_span_of_oil_bounds_every_oil_in_it(
        bore in 3.0..50.0, thick in 10.0..2000.0, thinner in 1.0..100.0, share in 0.0..1.0, q in 0.1..900.0, more in 0.0..50.0,
    ) {
        let span = OilSpan { thick: oil(thick), thin: oil(thick / thinner) };
        let over = |extreme, q: f64| {
            let (bore, length) = (millimetres(bore), Length::from_si(5.0));
            Piece::PipeOver { bore, length, roughness: Roughness::default(), oil: span, extreme }.loss(litres(q), &oil(46.0)).si()
        };
        let inside = pipe(bore, 5.0).loss(litres(q), &oil(thick / f64::powf(thinner, share))).si();
        let (most, least) = (over(Extreme::Most, q), over(Extreme::Least, q));
        prop_assert!(inside <= most * (1.0 + 1e-12) && inside >= least * (1.0 - 1e-12), "{least} {inside} {most}");
        // A larger flow still loses more.
        prop_assert!(over(Extreme::Most, q + more) >= most && over(Extreme::Least, q + more) >= least);
        let reached = (0..=400).map(|step| pipe(bore, 5.0).loss(litres(q), &oil(thick / f64::powf(thinner, f64::from(step) / 400.0))).si());
        let (low, high) = reached.fold((f64::MAX, 0.0f64), |(low, high), loss| (low.min(loss), high.max(loss)));
        prop_assert!(high >= most * 0.98 && low <= least * 1.02, "{least}..{most} against {low}..{high}");
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
        cut_off in prop::option::of((50.0..420.0, prop::bool::ANY)), p in 0.0..450.0, more in 0.0..100.0,
    ) {
        let source = Source {
            greatest: litres(greatest),
            set: set.map(litres),
            leak: litres(leak),
            leak_at: bar(250.0),
            power: power.map(|kilowatts: f64| Power::from_si(kilowatts * 1e3)),
            cut_off: cut_off.map(|(p, sensing)| {
                let pressure = bar(p);
                if sensing {
                    CutOff::LoadSensing { pressure, margin: bar(20.0) }
                } else {
                    CutOff::AtLoad { pressure, band: 0.05 }
                }
            }),
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
    fn a_motor_turns_a_part_of_what_goes_in(
        v in 1.0..2000.0, eta_v in 0.5..1.0, eta_hm in 0.5..1.0, ratio in 0.05..4.0, p in 0.1..400.0, q in 0.1..600.0,
    ) {
        let motor = Motor {
            displacement: Displacement::from_si(v * 1e-6), volumetric: eta_v, hydromechanical: eta_hm, ratio,
        };
        let (power, given) = (motor.shaft_power(bar(p), litres(q)).si(), bar(p).si() * litres(q).si());
        prop_assert!(power > 0.0 && power <= given);
        // Power is torque times speed, of the rotor too.
        let turned = motor.starting_torque(bar(p), eta_hm, 1.0).si() * motor.rotor_speed(litres(q)).si();
        prop_assert!((turned / power - 1.0).abs() < 1e-9);
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

    #[test]
    fn a_dirtier_element_never_loses_less(
        piece in filter(), nu in 2.0..20_000.0, q in 0.1..900.0,
    ) {
        let Piece::Filter(filter, _) = piece else { unreachable!() };
        let loss = |element| filter.loss(litres(q), &oil(nu), element).si();
        prop_assert!(loss(Element::Clean) <= loss(Element::HalfLoaded) * (1.0 + 1e-12));
        prop_assert!(loss(Element::HalfLoaded) <= loss(Element::Blocked) * (1.0 + 1e-12));
    }

    #[test]
    fn pulsation_never_lowers_a_loss(pieces in prop::collection::vec(piece(), 1..5), nu in 2.0..2000.0, q in 0.1..400.0, ff in 1.0..2.0) {
        let way = Resistance::of(pieces);
        let (steady, pulsating) = (way.loss(litres(q), &oil(nu)).si(), way.pulsating_loss(litres(q), ff, &oil(nu)).si());
        prop_assert!(pulsating >= steady * (1.0 - 1e-12) && pulsating <= steady * ff * (1.0 + 1e-12));
    }

    #[test]
    fn a_priority_divider_gives_the_head_its_flow_whatever_the_functions_do(
        greatest in 20.0..400.0, power in 5.0..120.0, set in 5.0..300.0, metering in 1.0..15.0, excess in 0.5..6.0,
        head in 1.0..350.0, functions in 0.0..350.0, other in 0.0..350.0,
    ) {
        let pump = |p: Pressure| VolumeRate::from_si(f64::min(power * 1e3 / p.si(), litres(greatest).si()));
        let divider = Divider { set: litres(set), metering: bar(metering), excess: bar(excess) };
        let divided = divider.divide(pump, bar(head), bar(functions));
        // Nothing is lost, nothing made.
        let given = pump(divided.pump).si();
        prop_assert!(((divided.head + divided.functions).si() / given - 1.0).abs() < 1e-9, "{divided:?} of {given}");
        prop_assert!(divided.functions.si() >= 0.0 && divided.head <= litres(set));
        prop_assert!(divided.pump >= bar(head));
        prop_assert!(divided.pump >= bar(functions) || divided.functions.si() == 0.0);
        prop_assert!(divided.state == DividerState::Both || divided.functions.si() == 0.0);
        // Its own pump's functions have no say in the head's flow.
        let with_others = divider.divide(pump, bar(head), bar(other));
        prop_assert!((with_others.head - divided.head).si().abs() <= 1e-9 * litres(set).si());
    }

    #[test]
    fn oil_settles_where_heat_and_cooling_meet(
        heat in 0.0..80e3, cooler in 1.0..2000.0, walls in 0.0..20.0, air in 0.0..60.0, ambient in -20.0..45.0,
        start in -20.0..80.0, limit in 40.0..110.0,
    ) {
        let bath = Bath {
            heat: Power::from_si(heat), cooler: ThermalConductance::from_si(cooler), air: celsius(air),
            walls: ThermalConductance::from_si(walls), ambient: celsius(ambient),
            capacity: oil(46.0).heat_capacity(quantity::Volume::from_si(0.08)),
        };
        let steady = bath.steady().expect("it is cooled");
        let carried = cooler * (steady.si() - celsius(air).si()) + walls * (steady.si() - celsius(ambient).si());
        prop_assert!((carried - heat).abs() < 1e-6 * heat.max(1.0));
        match bath.time_to(celsius(start), celsius(limit)) {
            Some(time) => prop_assert!(time.si() >= 0.0 && (start >= limit || steady.si() > celsius(limit).si())),
            None => prop_assert!(steady.si() <= celsius(limit).si()),
        }
        // Without any cooling it gets there no later.
        let adiabatic = Bath { cooler: ThermalConductance::from_si(0.0), walls: ThermalConductance::from_si(0.0), ..bath };
        if start >= air.max(ambient) && heat > 0.0 {
            let bound = adiabatic.time_to(celsius(start), celsius(limit)).expect("it gets there");
            if let Some(time) = bath.time_to(celsius(start), celsius(limit)) {
                prop_assert!(bound.si() <= time.si() * (1.0 + 1e-9));
            }
        }
    }
}
