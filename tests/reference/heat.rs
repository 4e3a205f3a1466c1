//! Heat.

use crate::{celsius, of, printed, to};
use pairwright::circuit::heat::{Bath, of_a_circuit, of_throttling, rise_over_throttle, tank_walls};
use pairwright::circuit::oil::specific_heat;
use pairwright::circuit::power::hydraulic_power;
use pairwright::circuit::valve::shutoff::locked_in_rise;
use pairwright::quantity::{
    Area, HeatCapacity, Kind, MassDensity, Power, Pressure, Ratio, SpecificHeatCapacity, TemperatureInterval,
    ThermalConductance, Unit, VolumeRate,
};
use uom::si::area::square_meter;
use uom::si::heat_capacity::kilojoule_per_kelvin;
use uom::si::pressure::psi;
use uom::si::specific_heat_capacity::joule_per_kilogram_kelvin;
use uom::si::temperature_interval::kelvin;

/// Esposito chapter 11: oil of 120 °F over a relief at 1000 psi comes out at 127.9 °F (0.42 Btu/(lb·°F), which is
/// 1758.5 J/(kg·K), and SG .89).
#[test]
fn esposito_11_warming_over_a_relief() {
    let rise = rise_over_throttle(of(1000.0, Unit::Psi), MassDensity::from_si(0.89 * 999.0), joules(1758.5));
    printed(120.0 + rise.get::<kelvin>() * 9.0 / 5.0, 127.9, 0.1);
    // The heat of 10 gpm over it: 5.83 hp.
    let heat = of_throttling(of(1000.0, Unit::Psi), of(10.0, Unit::UsGallonPerMinute));
    printed(to(heat, Unit::Horsepower), 5.83, 0.01);
}

/// Esposito chapter 11 (SI): 70 bar from 50 °C on → 54.3 °C with 895 kg/m³ and 1.8 kJ/(kg·K).
#[test]
fn esposito_11_warming_in_si() {
    let rise = rise_over_throttle(of(70.0, Unit::Bar), MassDensity::from_si(895.0), joules(1800.0));
    printed(50.0 + rise.get::<kelvin>(), 54.3, 0.1);
}

/// A tank of 0.8 m² with 10 W/(m²·K) gives off 320 W at 40 K (a published example).
#[test]
fn heat_that_a_tank_gives_off() {
    let bath = tank(of(320.0, Unit::Watt), ThermalConductance::from_si(0.8 * 10.0));
    printed(to(bath.steady().expect("it is cooled"), Unit::Celsius), 20.0 + 40.0, 1e-9);
    assert_eq!(tank(of(320.0, Unit::Watt), ThermalConductance::from_si(0.0)).steady(), None);
}

/// A published rule for the walls of a tank, 2 Btu/(h·ft²·°F), is 11.4 W/(m²·K).
#[test]
fn heat_of_tank_walls() {
    let walls = tank_walls(Area::new::<square_meter>(1.0)).si();
    // A Btu (IT) is 1055.056 J, a degree Fahrenheit 5/9 K.
    printed(walls, 2.0 * 1055.056 / 3600.0 / (0.3048 * 0.3048) * 9.0 / 5.0, 1e-3);
}

/// Esposito 11.4: 20 gpm at 1000 psi, pump efficiency 85 %, half of the time over the relief, 10 % lost in lines →
/// 21 565 Btu/h (the book takes 2544 Btu/h a horsepower for 2544.43 and rounds on the way).
#[test]
fn esposito_11_4_heat_of_a_circuit() {
    let hydraulic = hydraulic_power(of(1000.0, Unit::Psi), of(20.0, Unit::UsGallonPerMinute));
    let heat = of_a_circuit(hydraulic, share(0.85), share(0.5), share(0.1));
    printed(to(heat, Unit::Horsepower) * 2544.43, 21_565.0, 1.0 + 2.0 * 21_565.0 * 1e-3);
}

/// Esposito 11.5 (SI): 70 bar, 0.00126 m³/s, the same shares → 6.41 kW.
#[test]
fn esposito_11_5_heat_of_a_circuit_in_si() {
    let heat = of_a_circuit(
        of::<Pressure>(70.0, Unit::Bar) * VolumeRate::from_si(0.00126),
        share(0.85),
        share(0.5),
        share(0.1),
    );
    printed(to(heat, Unit::Kilowatt), 6.41, 0.01);
}

/// The heat that 1 gpm carries per °F by a published rule, 210 Btu/h, is that of oil within a tenth: 29.3 W per L/min
/// and kelvin, against 27.3 with our density and specific heat.
#[test]
fn heat_that_a_flow_carries() {
    let rule = 210.0 * 1055.056 / 3600.0 / 3.785_411_784 * 9.0 / 5.0;
    printed(rule, 29.27, 0.02);
    let ours = 870.0 * specific_heat().get::<joule_per_kilogram_kelvin>() / 60_000.0;
    printed(ours, 27.26, 0.01);
    assert!((ours / rule - 1.0).abs() < 0.1);
}

/// Oil that is locked in: 90 psi per °F (a published rule) are about 11 bar per kelvin.
#[test]
fn pressure_of_oil_locked_in() {
    let ours = locked_in_rise(TemperatureInterval::new::<kelvin>(5.0 / 9.0)).get::<psi>();
    printed(ours, 90.0, 5.0);
}

fn share(value: f64) -> Ratio {
    Ratio::from_si(value)
}

fn joules(value: f64) -> SpecificHeatCapacity {
    SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(value)
}

fn tank(heat: Power, walls: ThermalConductance) -> Bath {
    let none = ThermalConductance::from_si(0.0);
    let ambient = celsius(20.0);
    let capacity = HeatCapacity::new::<kilojoule_per_kelvin>(100.0);
    Bath { heat, cooler: none, air: ambient, walls, ambient, capacity }
}
