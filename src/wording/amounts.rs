//! Numbers with units, margins, times and money.

use super::Words;
use crate::pairing::{Bound, Change, Cost, Price};
use crate::quantity::{Amount, Dimension, Unit};

impl Words<'_> {
    /// An amount with the digits that a shop would write: `110 L/min`, `0.4 bar`, `1950 rpm`.
    pub fn amount(&self, amount: Amount) -> String {
        let (value, unit) = amount.in_system(self.units);
        let (value, unit) = comfortable(value, unit);
        format!("{} {}", self.numbers.decimal(value, decimals(value, unit)), symbol(unit))
    }

    /// A share of the limit left or missed: `8 % to spare`, `12 % beyond` an upper limit, `44 % short` of a lower one,
    /// `14 times the limit`.
    pub fn margin(&self, margin: f64, bound: Option<Bound>) -> String {
        let percent = (margin * 100.0).abs();
        let figure = self.numbers.decimal(percent, usize::from(percent < 1.0));
        match bound {
            _ if margin >= 0.0 => format!("{figure} % to spare"),
            Some(Bound::AtLeast) => format!("{figure} % short"),
            _ if margin < -2.0 => format!("{} times the limit", self.numbers.decimal(1.0 - margin, 0)),
            _ => format!("{figure} % beyond"),
        }
    }

    /// Workshop time: `30 min`, `4 h 30 min`.
    pub fn duration(&self, minutes: u32) -> String {
        match (minutes / 60, minutes % 60) {
            (0, minutes) => format!("{minutes} min"),
            (hours, 0) => format!("{hours} h"),
            (hours, minutes) => format!("{hours} h {minutes} min"),
        }
    }

    /// Money without a sign that might mislead: `EUR 1 240`, cents only up to 100: `EUR 12.50`.
    pub fn price(&self, price: &Price) -> String {
        let minor = price.amount.minor();
        let decimals = if minor.is_multiple_of(100) || minor > 10_000 { 0 } else { 2 };
        // Below 10¹⁰, far inside what a float holds exactly. Half a unit goes up, as a shop has it.
        let value = minor as f64 / 100.0;
        let value = if decimals == 0 { value.round() } else { value };
        format!("{} {}", price.currency, self.numbers.money(value, decimals))
    }

    /// What a change takes, in time and, where it is priced, in money.
    pub fn takes(&self, change: &Change) -> String {
        match &change.price {
            Some(price) => format!("{} · {}", self.duration(change.minutes), self.price(price)),
            None => self.duration(change.minutes),
        }
    }

    /// What changes cost, in time and, when all are priced, in money.
    pub fn cost(&self, cost: &Cost) -> String {
        match &cost.price {
            Some(price) => format!("{} · {}", self.duration(cost.minutes), self.price(price)),
            None => self.duration(cost.minutes),
        }
    }
}

/// Lengths of lines in metres rather than in thousands of millimetres; masses of machines in tonnes stay in kilograms.
fn comfortable(value: f64, unit: Unit) -> (f64, Unit) {
    match unit {
        Unit::Millimetre if value.abs() >= 1000.0 => (value / 1000.0, Unit::Metre),
        Unit::Inch if value.abs() >= 36.0 => (value / 12.0, Unit::Foot),
        _ => (value, unit),
    }
}

fn decimals(value: f64, unit: Unit) -> usize {
    let size = value.abs();
    match unit.dimension() {
        Dimension::Flow | Dimension::Pressure | Dimension::Power | Dimension::Displacement => {
            // Pounds per square inch are small and need no decimals; of the others three figures at the most.
            let whole = unit == Unit::Psi || size >= 100.0 || size >= 20.0 && unit.dimension() != Dimension::Power;
            usize::from(!whole)
        }
        Dimension::Length => match unit {
            Unit::Inch => 2,
            Unit::Metre | Unit::Foot => 1,
            // Hose bores are whole dash sizes, 19.05 mm.
            _ => {
                usize::from((size - size.round()).abs() > 0.04)
                    + usize::from(size < 50.0 && (size * 10.0).fract() > 0.05)
            }
        },
        Dimension::Torque | Dimension::Ratio | Dimension::Viscosity => usize::from(size < 10.0),
        Dimension::Current | Dimension::Inertia => 1,
        _ => 0,
    }
}

/// How a unit is written for people.
fn symbol(unit: Unit) -> &'static str {
    match unit {
        Unit::UsGallonPerMinute => "gpm",
        Unit::Psi => "psi",
        Unit::Horsepower => "hp",
        Unit::RevolutionPerMinute => "rpm",
        Unit::Inch => "in",
        Unit::Foot => "ft",
        Unit::Pound => "lb",
        Unit::CubicCentimetrePerRevolution => "cm³/rev",
        Unit::CubicInchPerRevolution => "in³/rev",
        Unit::NewtonMetre => "N·m",
        Unit::KilonewtonMetre => "kN·m",
        Unit::PoundForceFoot => "lbf·ft",
        Unit::Celsius => "°C",
        Unit::Fahrenheit => "°F",
        Unit::SquareMillimetrePerSecond => "mm²/s",
        Unit::KilogramPerCubicMetre => "kg/m³",
        Unit::UsGallon => "gal",
        Unit::MilePerHour => "mph",
        Unit::One => "",
        Unit::KilogramSquareMetre => "kg·m²",
        other => crate::quantity::Named::name(other),
    }
}

impl Words<'_> {
    /// How a unit is written for people.
    pub fn unit(&self, unit: Unit) -> &'static str {
        symbol(unit)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Kind, Length, Pressure, UnitSystem, VolumeRate};
    use crate::table::Money;
    use crate::wording::{Numbers, PlainNumbers};

    fn words(units: UnitSystem) -> Words<'static> {
        Words { numbers: &PlainNumbers, units }
    }

    #[test]
    fn amounts_are_written_as_a_shop_would() {
        let metric = words(UnitSystem::Metric);
        let us = words(UnitSystem::UsCustomary);
        let bar = |p: f64| Amount::of(Pressure::from_si(p * 1e5));
        let litres = Amount::of(VolumeRate::from_si(Unit::LitrePerMinute.to_si(110.4)));
        assert_eq!(metric.amount(litres), "110 L/min");
        assert_eq!(us.amount(litres), "29 gpm");
        assert_eq!(metric.amount(bar(183.2)), "183 bar");
        assert_eq!(metric.amount(bar(0.42)), "0.4 bar");
        assert_eq!(us.amount(bar(183.2)), "2657 psi");
        assert_eq!(metric.amount(Amount::of(Length::from_si(0.01905))), "19.05 mm");
        assert_eq!(metric.amount(Amount::of(Length::from_si(0.0254))), "25.4 mm");
        assert_eq!(metric.amount(Amount::of(Length::from_si(0.045))), "45 mm");
        assert_eq!(metric.amount(Amount::of(Length::from_si(6.0))), "6.0 m");
    }

    #[test]
    fn numbers_group_from_ten_thousand_on() {
        assert_eq!(PlainNumbers.decimal(12_345.6, 1), "12\u{202f}345.6");
        assert_eq!(PlainNumbers.decimal(1234.0, 0), "1234");
        assert_eq!(PlainNumbers.decimal(-4.25, 1), "−4.2");
        assert_eq!(PlainNumbers.decimal(-0.01, 1), "0.0");
    }

    #[test]
    fn times_margins_and_money() {
        let metric = words(UnitSystem::Metric);
        assert_eq!(metric.duration(30), "30 min");
        assert_eq!(metric.duration(120), "2 h");
        assert_eq!(metric.duration(270), "4 h 30 min");
        assert_eq!(metric.margin(0.083, Some(Bound::AtMost)), "8 % to spare");
        assert_eq!(metric.margin(-0.12, Some(Bound::AtMost)), "12 % beyond");
        assert_eq!(metric.margin(-0.44, Some(Bound::AtLeast)), "44 % short");
        assert_eq!(metric.margin(-12.6, Some(Bound::AtMost)), "14 times the limit");
        assert_eq!(metric.margin(0.004, None), "0.4 % to spare");
        let price = |minor| metric.price(&Price { amount: Money::from_minor(minor), currency: "EUR".to_owned() });
        assert_eq!(price(124_050), "EUR 1\u{202f}241");
        assert_eq!(price(118_400), "EUR 1\u{202f}184");
        assert_eq!(price(1250), "EUR 12.50");
        assert_eq!(price(10_000), "EUR 100");
        assert_eq!(price(10_040), "EUR 100");
    }
}
