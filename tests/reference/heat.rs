//! Heat.

use crate::formulas::{heat_of_a_circuit, locked_in_rise, rise_over_throttle, tank_walls};
use crate::{celsius, of, printed, to};
use hydraulics::heat::Bath;
use hydraulics::oil::specific_heat;
use hydraulics::power::hydraulic_power;
use quantity::{
    Area, HeatCapacity, MassDensity, Power, Pressure, Quantity, Ratio, SpecificHeatCapacity, TemperatureInterval,
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
    let heat = hydraulic_power(of(1000.0, Unit::Psi), of(10.0, Unit::UsGallonPerMinute));
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
    let heat = heat_of_a_circuit(hydraulic, share(0.85), share(0.5), share(0.1));
    printed(to(heat, Unit::Horsepower) * 2544.43, 21_565.0, 1.0 + 2.0 * 21_565.0 * 1e-3);
}

/// Esposito 11.5 (SI): 70 bar, 0.00126 m³/s, the same shares → 6.41 kW.
#[test]
fn esposito_11_5_heat_of_a_circuit_in_si() {
    let heat = heat_of_a_circuit(
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

/// Sullivan 12.1 and 12.2: of 8 hp 5 come out for 4 hours → 30 528 Btu (it takes 2 544); 3 gpm lose 1 000 psi, SG 0.85, 0.42 Btu/(lb·°F)
/// → 8.31 °F.
#[test]
fn sullivan_12_heat_and_rise() {
    let lost = of::<Power>(8.0, Unit::Horsepower) - of::<Power>(5.0, Unit::Horsepower);
    printed(lost.si() * 4.0 * 3600.0 / 1055.056, 30_528.0, 1.0 + 2.0 * 5.0);
    let rise = rise_over_throttle(of(1000.0, Unit::Psi), MassDensity::from_si(0.85 * 999.0), joules(1758.5));
    printed(rise.get::<kelvin>() * 9.0 / 5.0, 8.31, 0.01);
}

/// Walls of 0.001 hp/(ft²·°F), 14.45 W/(m²·K).
fn walls_of_sullivan(square_feet: f64) -> ThermalConductance {
    let hp = of::<Power>(0.001, Unit::Horsepower).si();
    ThermalConductance::from_si(square_feet * hp * 9.0 / 5.0)
}

/// Sullivan 14.5 to 14.7: a quarter of 1 500 psi × 10 gpm leaves by walls 75 °F above the air → 29.17 ft²; 1.25 hp by 15 ft² in air
/// of 75 °F → 158.33 °F; 100 ft² at 40 °F → 10 180 Btu/h (it takes 2 545).
#[test]
fn sullivan_14_tank_walls() {
    let fahrenheit = |bath: &Bath| to(bath.steady().expect("it is cooled"), Unit::Fahrenheit);
    let air = of(75.0, Unit::Fahrenheit);
    let of_area = |heat: Power, area: f64| Bath { air, ambient: air, ..tank(heat, walls_of_sullivan(area)) };
    let lost = hydraulic_power(of(1500.0, Unit::Psi), of(10.0, Unit::UsGallonPerMinute)) * 0.25;
    // Half a unit of 29.17 ft² is this much of the 75 °F.
    printed(fahrenheit(&of_area(lost, 29.17)) - 75.0, 75.0, 0.01 * 75.0 / 29.17);
    printed(fahrenheit(&of_area(of(1.25, Unit::Horsepower), 15.0)), 158.33, 0.01);
    let shed = walls_of_sullivan(100.0).si() * 40.0 * 5.0 / 9.0 / 1055.056 * 3600.0;
    printed(shed, 10_180.0, 1.0 + 2.0 * 2.5);
}

/// Web course: 40 L/min over 160 bar → 10.7 kW, 9.7 K (870 kg/m³, 1.9 kJ/(kg·K)); over 5 bar 0.33 kW. A relief that takes 25 cm³ at
/// 2 000 rpm, 0.92, and 180 bar into 60 L → 46 L/min, 13.8 kW, 8 K/min (1.88). 6 kW into 150 kg by 30 K → 23.75 min. 12 kW by
/// 30 + 400 W/K → 27.9 K.
#[test]
fn heat_of_a_web_course() {
    let kilowatts = |power: Power| to(power, Unit::Kilowatt);
    let flow = of(40.0, Unit::LitrePerMinute);
    printed(kilowatts(hydraulic_power(of(160.0, Unit::Bar), flow)), 10.7, 0.1);
    printed(kilowatts(hydraulic_power(of(5.0, Unit::Bar), flow)), 0.33, 0.01);
    let rise = rise_over_throttle(of(160.0, Unit::Bar), MassDensity::from_si(870.0), joules(1900.0));
    printed(rise.get::<kelvin>(), 9.7, 0.1);
    let none = ThermalConductance::from_si(0.0);
    let of_capacity = |heat: Power, kilojoules: f64| {
        let capacity = HeatCapacity::new::<kilojoule_per_kelvin>(kilojoules);
        Bath { capacity, ..tank(heat, none) }
    };
    let relieved: VolumeRate = of(25.0 * 2000.0 * 0.92 / 1000.0, Unit::LitrePerMinute);
    printed(to(relieved, Unit::LitrePerMinute), 46.0, 1.0);
    let heat = hydraulic_power(of(180.0, Unit::Bar), relieved);
    printed(kilowatts(heat), 13.8, 0.1);
    let a_kelvin = of_capacity(heat, 0.060 * 870.0 * 1.88).time_to(celsius(40.0), celsius(41.0)).expect("it warms");
    printed(60.0 / a_kelvin.si(), 8.0, 1.0);
    let slow = of_capacity(of(6.0, Unit::Kilowatt), 150.0 * 1.9);
    printed(to(slow.time_to(celsius(30.0), celsius(60.0)).expect("it warms"), Unit::Minute), 23.75, 0.01);
    let (walls, cooler) = (ThermalConductance::from_si(30.0), ThermalConductance::from_si(400.0));
    let cooled = Bath { cooler, ..tank(of(12.0, Unit::Kilowatt), walls) };
    printed(to(cooled.steady().expect("it is cooled"), Unit::Celsius) - 20.0, 27.9, 0.1);
}

/// Koc: a tank of 0.7 m² with 15 W/(m²·K) sheds 0.42 kW at 40 K.
#[test]
fn koc_tank_of_a_platform() {
    let bath = tank(of(420.0, Unit::Watt), ThermalConductance::from_si(0.7 * 15.0));
    printed(to(bath.steady().expect("it is cooled"), Unit::Celsius) - 20.0, 40.0, 1.0);
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
