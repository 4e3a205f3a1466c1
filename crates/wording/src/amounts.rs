//! Numbers with units, margins, times and money.

use super::Words;
use fit::{Bound, Change, Check, Cost, Outcome, Price};
use quantity::{Amount, Dimension, Length, Quantity, Unit, UnitSystem};

impl Words<'_> {
    /// An amount with the digits that a shop would write: `110 L/min`, `0.4 bar`, `1950 rpm`. A round figure, as one that was stated
    /// in these units, comes as it is; of any other three digits at the most. Zeros at the end of its decimals are left out.
    pub fn amount(&self, amount: Amount) -> String {
        self.rounded(amount, f64::round)
    }

    /// An upper limit: never told higher than it is.
    pub fn at_most(&self, limit: Amount) -> String {
        self.rounded(limit, f64::floor)
    }

    /// A lower limit: never told lower than it is.
    pub fn at_least(&self, limit: Amount) -> String {
        self.rounded(limit, f64::ceil)
    }

    /// A limit on its side.
    pub(super) fn limit(&self, limit: Amount, bound: Option<Bound>) -> String {
        match bound {
            Some(Bound::AtMost) => self.at_most(limit),
            Some(Bound::AtLeast) => self.at_least(limit),
            None => self.amount(limit),
        }
    }

    /// Worst value and limit of a check: the limit on its safe side, and neither so rounded that they say another outcome than the check.
    pub(super) fn worst_and_limit(&self, check: &Check) -> [Option<String>; 2] {
        let (Some(worst), Some(limit), Some(bound)) = (check.worst, check.limit, check.bound) else {
            return [check.worst, check.limit].map(|amount| amount.map(|amount| self.amount(amount)));
        };
        let (towards, away): (Round, Round) = match bound {
            Bound::AtMost => (f64::floor, f64::ceil),
            Bound::AtLeast => (f64::ceil, f64::floor),
        };
        // How far the worst value is inside the limit, as both are told.
        let inside = |of_worst: Round, of_limit: Round| {
            let (worst, limit) = (self.figure(worst, of_worst).0, self.figure(limit, of_limit).0);
            if bound == Bound::AtMost { limit - worst } else { worst - limit }
        };
        let rounds: [(Round, Round); 3] = match check.outcome {
            Outcome::Met => [(f64::round, towards), (f64::round, f64::round), (towards, f64::round)],
            Outcome::NotMet | Outcome::NotKnown => [(f64::round, towards), (away, towards), (away, f64::round)],
        };
        let says_it = |&&(of_worst, of_limit): &&(Round, Round)| match check.outcome {
            Outcome::Met => inside(of_worst, of_limit) >= 0.0,
            Outcome::NotMet => inside(of_worst, of_limit) < 0.0,
            Outcome::NotKnown => true,
        };
        let (of_worst, of_limit) = *rounds.iter().find(says_it).unwrap_or(&rounds[2]);
        let (worst, limit) = (self.as_told(worst, of_worst), self.as_told(limit, of_limit));
        // They stand beside each other: what one has behind the point the other has too, `15.2 bar` and `15.0 bar`.
        let decimals = needed(worst.0, worst.2).max(needed(limit.0, limit.2));
        let beside = |(value, unit, own): Told| format!("{} {unit}", self.numbers.decimal(value, decimals.min(own)));
        [Some(beside(worst)), Some(beside(limit))]
    }

    /// What something is set to, so that it can be set and read: psi in steps of 50, gpm in halves, as long as that stays well within
    /// the tolerance of a setting; metric figures are solved in steps of a shop. The checks hold over that tolerance.
    pub fn set_to(&self, value: Amount) -> String {
        let (shown, unit) = value.in_system(self.units);
        if is_round(shown, unit) { self.amount(value) } else { self.set_about(value) }
    }

    /// A value in the steps of [`Self::set_to`] though it is not stated, and need not be met to the last digit.
    pub(super) fn set_about(&self, value: Amount) -> String {
        let (shown, unit) = value.in_system(self.units);
        let (steps, decimals) = match unit {
            Unit::Psi => ([50.0, 10.0, 5.0], 0),
            Unit::UsGallonPerMinute => ([0.5, 0.2, 0.1], 1),
            _ => return self.amount(value),
        };
        let Some(step) = steps.into_iter().find(|step| step / 2.0 <= shown * SET_WITHIN) else {
            return self.amount(value);
        };
        format!("{} {}", self.decimal((shown / step).round() * step, decimals), symbol(unit))
    }

    /// The bore of a hose or the size of a coupling, by the name of its size in the trade: `1/2 in`, `13 mm`.
    pub fn bore(&self, bore: Amount) -> String {
        let size = bore.quantity::<Length>().and_then(|bore| {
            let millimetres = Unit::Millimetre.of_si(bore.si());
            SIZES.iter().find(|(size, ..)| (size - millimetres).abs() <= 0.7)
        });
        match (size, self.units) {
            (Some((_, metric, _)), UnitSystem::Metric) => format!("{metric} mm"),
            (Some((.., inches)), UnitSystem::UsCustomary) => format!("{inches} in"),
            (None, _) => self.amount(bore),
        }
    }

    /// A figure that was typed, as it was typed where that was in the reader's units: two digits behind the point at the most.
    pub(super) fn typed(&self, amount: Amount) -> String {
        let (value, unit) = amount.in_system(self.units);
        let exact = |decimals: &usize| {
            let rounded = at(value, *decimals, f64::round);
            (rounded - value).abs() <= 1e-9 * value.abs().max(1.0)
        };
        let decimals = (0..=2).find(exact).filter(|_| value.abs() < 1e5);
        decimals.map_or_else(
            || self.amount(amount),
            |decimals| format!("{} {}", self.numbers.decimal(value, decimals), symbol(unit)),
        )
    }

    /// Whether two ends that lie closer than what is told would be told the wrong way round.
    pub(super) fn crosses(&self, low: Amount, high: Amount) -> bool {
        self.figure(low, f64::ceil).0 > self.figure(high, f64::floor).0
    }

    /// A figure with its unit, rounded so.
    fn rounded(&self, amount: Amount, round: Round) -> String {
        let (value, unit, decimals) = self.as_told(amount, round);
        format!("{} {unit}", self.decimal(value, decimals))
    }

    /// A number without the zeros that its decimals would end in: `18`, `4.5`.
    pub(super) fn decimal(&self, value: f64, decimals: usize) -> String {
        self.numbers.decimal(value, needed(value, decimals))
    }

    /// The figure that is told, how its unit is written, and its decimals.
    fn as_told(&self, amount: Amount, round: Round) -> Told {
        if let (Some((value, symbol)), UnitSystem::UsCustomary) = (uncommon(amount), self.units) {
            let decimals = usize::from(value.abs() < 10.0);
            return (three_digits(value, decimals, round), symbol, decimals);
        }
        let (value, unit, decimals) = self.figure(amount, round);
        (value, symbol(unit), decimals)
    }

    /// The figure that is told, its unit, and its decimals.
    fn figure(&self, amount: Amount, round: Round) -> (f64, Unit, usize) {
        let (value, unit) = amount.in_system(self.units);
        let (value, unit) = comfortable(value, unit);
        let decimals = decimals(value, unit);
        if is_round(value, unit) {
            // What was stated, whatever its last bit.
            let decimals = decimals.max(usize::from((value - value.round()).abs() > 1e-6));
            return (at(value, decimals, f64::round), unit, decimals);
        }
        (three_digits(value, decimals, round), unit, decimals)
    }

    /// How far a check is from its limit: a share of it, of a temperature degrees; none where that is not known.
    pub fn margin_of(&self, check: &Check) -> Option<String> {
        let share = check.margin?;
        let (Some(worst), Some(limit)) = (check.worst, check.limit) else {
            return Some(self.margin(share, check.bound));
        };
        if limit.dimension() != Dimension::Temperature {
            return Some(self.margin(share, check.bound));
        }
        let apart = (worst.si() - limit.si()).abs();
        let (degrees, unit) = match self.units {
            UnitSystem::Metric => (apart, "°C"),
            UnitSystem::UsCustomary => (apart * 1.8, "°F"),
        };
        let figure = self.decimal(degrees, usize::from(degrees < 1.0));
        Some(match check.bound {
            _ if share >= 0.0 => format!("{figure} {unit} to spare"),
            Some(Bound::AtLeast) => format!("{figure} {unit} short"),
            _ => format!("{figure} {unit} over"),
        })
    }

    /// A share of the limit left or missed: `8 % to spare`, `12 % over` an upper limit, `44 % short` of a lower one,
    /// `over the limit: 14 times`.
    pub fn margin(&self, margin: f64, bound: Option<Bound>) -> String {
        let percent = (margin * 100.0).abs();
        let figure = self.decimal(percent, usize::from(percent < 1.0));
        match bound {
            _ if margin >= 0.0 => format!("{figure} % to spare"),
            Some(Bound::AtLeast) => format!("{figure} % short"),
            _ if margin < -2.0 => format!("over the limit: {} times", self.numbers.decimal(1.0 - margin, 0)),
            _ => format!("{figure} % over"),
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
        format!("{} {}", price.currency, self.price_alone(price))
    }

    /// A price where its currency stands elsewhere: `1 240`.
    pub fn price_alone(&self, price: &Price) -> String {
        let minor = price.amount.minor();
        let decimals = if minor.is_multiple_of(100) || minor > 10_000 { 0 } else { 2 };
        // Below 10¹⁰, far inside what a float holds exactly. Half a unit goes up, as a shop has it.
        let value = minor as f64 / 100.0;
        let value = if decimals == 0 { value.round() } else { value };
        self.numbers.money(value, decimals)
    }

    /// A price to the minor unit, as an offer has it, where its currency stands elsewhere: `1 240.50`.
    pub fn price_in_full(&self, price: &Price) -> String {
        self.numbers.money(price.amount.minor() as f64 / 100.0, 2)
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

/// How a figure is rounded.
type Round = fn(f64) -> f64;

/// A figure as it is told: its value, how its unit is written, and its decimals.
type Told = (f64, &'static str, usize);

/// How far what is told of a setting may lie from what was solved, as a share of it: less than the 2 % to which something is set.
const SET_WITHIN: f64 = 0.019;

/// Sizes of hoses and couplings: bore in mm, and the names of the size in the trade (ISO 4397, secondary; names in whole millimetres
/// are common practice).
const SIZES: [(f64, &str, &str); 10] = [
    (6.35, "6", "1/4"),
    (7.94, "8", "5/16"),
    (9.525, "10", "3/8"),
    (12.7, "13", "1/2"),
    (15.875, "16", "5/8"),
    (19.05, "19", "3/4"),
    (25.4, "25", "1"),
    (31.75, "32", "1 1/4"),
    (38.1, "38", "1 1/2"),
    (50.8, "51", "2"),
];

/// Lengths of lines in metres rather than in thousands of millimetres; masses of machines in tonnes stay in kilograms.
fn comfortable(value: f64, unit: Unit) -> (f64, Unit) {
    match unit {
        Unit::Millimetre if value.abs() >= 1000.0 => (value / 1000.0, Unit::Metre),
        Unit::Inch if value.abs() >= 36.0 => (value / 12.0, Unit::Foot),
        _ => (value, unit),
    }
}

/// What the table reads in one unit only, as a reader of US units has it: a conductance, an inertia, a viscosity, a density.
fn uncommon(amount: Amount) -> Option<(f64, &'static str)> {
    // A Btu (IT) is 1055.056 J, a degree Fahrenheit 5/9 K.
    const BTU_PER_HOUR_FAHRENHEIT: f64 = 1055.056 / 3600.0 * 9.0 / 5.0;
    let (pound, foot) = (Unit::Pound.factor(), Unit::Foot.factor());
    let si = amount.si();
    match amount.dimension() {
        Dimension::ThermalConductance => Some((si / BTU_PER_HOUR_FAHRENHEIT, "Btu/(h·°F)")),
        Dimension::Inertia => Some((si / (pound * foot * foot), "lb·ft²")),
        // The same figure by its old name.
        Dimension::Viscosity => Some((si * 1e6, "cSt")),
        Dimension::Density => Some((si / (pound / (foot * foot * foot)), "lb/ft³")),
        _ => None,
    }
}

/// A figure as somebody states one: a whole number of five digits at the most; of what flows, presses or works, three digits with one
/// behind the point.
fn is_round(value: f64, unit: Unit) -> bool {
    let is_whole = |figure: f64| (figure - figure.round()).abs() <= 1e-8 * figure.abs().max(1.0);
    let has_tenths = matches!(unit.dimension(), Dimension::Flow | Dimension::Pressure | Dimension::Power);
    value.abs() < 1e5 && is_whole(value) || has_tenths && value.abs() < 100.0 && is_whole(value * 10.0)
}

/// Rounded at a decimal; a figure that stands there already is moved to no side by its last bit.
fn at(value: f64, decimals: usize, round: Round) -> f64 {
    let scale = 10f64.powi(i32::try_from(decimals).unwrap_or(0));
    let scaled = value * scale;
    let nearest = scaled.round();
    let close = (scaled - nearest).abs() <= 1e-9 * scaled.abs().max(1.0);
    (if close { nearest } else { round(scaled) }) / scale
}

/// How many of these decimals a figure needs: zeros at their end say nothing.
fn needed(value: f64, decimals: usize) -> usize {
    let shown = at(value, decimals, f64::round);
    (0..decimals).find(|fewer| (at(value, *fewer, f64::round) - shown).abs() < 1e-9).unwrap_or(decimals)
}

/// Rounded at a decimal, or at the third digit where that comes first.
fn three_digits(value: f64, decimals: usize, round: Round) -> f64 {
    let mut step = 1.0;
    while (value / step).abs() >= 1000.0 {
        step *= 10.0;
    }
    if step > 1.0 { at(value / step, 0, round) * step } else { at(value, decimals, round) }
}

fn decimals(value: f64, unit: Unit) -> usize {
    let size = value.abs();
    match unit.dimension() {
        Dimension::Flow | Dimension::Pressure | Dimension::Power | Dimension::Displacement => {
            // Pounds per square inch are small; of the others three figures at the most.
            let whole = match unit {
                Unit::Psi | Unit::UsGallonPerMinute => size >= 10.0,
                _ => size >= 100.0 || size >= 20.0 && unit.dimension() != Dimension::Power,
            };
            usize::from(!whole)
        }
        Dimension::Length => match unit {
            Unit::Inch => {
                if size < 10.0 {
                    2
                } else {
                    1
                }
            }
            Unit::Metre | Unit::Foot => usize::from(size < 100.0),
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
        other => quantity::Named::name(other),
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
    use crate::{Numbers, PlainNumbers};
    use quantity::{Length, Pressure, Quantity, UnitSystem, VolumeRate};
    use table::Money;

    fn words(units: UnitSystem) -> Words<'static> {
        Words { numbers: &PlainNumbers, units }
    }

    #[test]
    fn amounts_are_written_as_a_shop_would() {
        let metric = words(UnitSystem::Metric);
        let us = words(UnitSystem::UsCustomary);
        let bar = |p| Amount::of(quantity::shop::bar(p));
        let litres = Amount::of(VolumeRate::from_si(Unit::LitrePerMinute.to_si(110.4)));
        assert_eq!(metric.amount(litres), "110 L/min");
        assert_eq!(us.amount(litres), "29 gpm");
        assert_eq!(metric.amount(bar(183.2)), "183 bar");
        assert_eq!(metric.amount(bar(0.42)), "0.4 bar");
        assert_eq!(us.amount(bar(183.2)), "2660 psi");
        assert_eq!(us.amount(Amount::of(Pressure::from_si(Unit::Psi.to_si(2657.0)))), "2657 psi", "as it was stated");
        assert_eq!(metric.amount(Amount::of(Length::from_si(0.01905))), "19.05 mm");
        assert_eq!(metric.amount(Amount::of(Length::from_si(0.0254))), "25.4 mm");
        assert_eq!(metric.amount(Amount::of(Length::from_si(0.045))), "45 mm");
        assert_eq!(metric.amount(Amount::of(Length::from_si(6.0))), "6 m");
        assert_eq!(metric.amount(Amount::of(Length::from_si(6.5))), "6.5 m");
        assert_eq!(metric.amount(Amount::of(VolumeRate::from_si(Unit::LitrePerMinute.to_si(18.0)))), "18 L/min");
        assert_eq!(us.amount(Amount::of(Length::from_si(Unit::Inch.to_si(1.5)))), "1.5 in");
        assert_eq!(metric.amount(bar(0.01)), "0 bar");
    }

    /// 250 bar are 3625.9 psi: a limit is never told beyond what it is, and a setting so that it can be set.
    #[test]
    fn invariant_limits_are_told_on_their_safe_side_and_settings_so_that_they_can_be_set() {
        let us = words(UnitSystem::UsCustomary);
        let metric = words(UnitSystem::Metric);
        let bar = |p| Amount::of(quantity::shop::bar(p));
        let litres = |q: f64| Amount::of(VolumeRate::from_si(Unit::LitrePerMinute.to_si(q)));
        assert_eq!((us.at_most(bar(250.0)), us.at_least(bar(250.0))), ("3620 psi".to_owned(), "3630 psi".to_owned()));
        assert_eq!(
            (metric.at_most(bar(9.744)), metric.at_least(bar(9.744))),
            ("9.7 bar".to_owned(), "9.8 bar".to_owned())
        );
        assert_eq!(metric.at_most(bar(250.0)), "250 bar");
        assert_eq!((us.set_to(bar(220.0)), us.set_to(bar(35.0))), ("3200 psi".to_owned(), "510 psi".to_owned()));
        assert_eq!(
            (us.set_to(litres(106.0)), metric.set_to(litres(106.0))),
            ("28 gpm".to_owned(), "106 L/min".to_owned())
        );
        assert_eq!(us.set_to(Amount::of(Pressure::from_si(Unit::Psi.to_si(4325.0)))), "4325 psi", "as its maker asks");
        // Whatever is told lies within what a setting may be off.
        for step in 1..=80 {
            let value = bar(f64::from(step) * 5.0);
            let told: f64 = us.set_to(value).trim_end_matches(" psi").parse().expect("a figure");
            let psi = Unit::Psi.of_si(value.si());
            assert!((told / psi - 1.0).abs() <= SET_WITHIN + 1e-9 || psi < 140.0, "{told} for {psi}");
        }
    }

    #[test]
    fn sizes_have_the_names_of_the_trade() {
        let both = |mm: f64| {
            let bore = Amount::of(Length::from_si(mm / 1000.0));
            (words(UnitSystem::Metric).bore(bore), words(UnitSystem::UsCustomary).bore(bore))
        };
        let named = |metric: &str, us: &str| (metric.to_owned(), us.to_owned());
        assert_eq!(both(12.7), named("13 mm", "1/2 in"));
        assert_eq!(both(12.5), named("13 mm", "1/2 in"));
        assert_eq!(both(19.05), named("19 mm", "3/4 in"));
        assert_eq!(both(31.75), named("32 mm", "1 1/4 in"));
        assert_eq!(both(45.0), named("45 mm", "1.77 in"));
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
        assert_eq!(metric.margin(-0.12, Some(Bound::AtMost)), "12 % over");
        assert_eq!(metric.margin(-0.44, Some(Bound::AtLeast)), "44 % short");
        assert_eq!(metric.margin(-12.6, Some(Bound::AtMost)), "over the limit: 14 times");
        assert_eq!(metric.margin(0.004, None), "0.4 % to spare");
        let price = |minor| metric.price(&Price { amount: Money::from_minor(minor), currency: "EUR".to_owned() });
        assert_eq!(price(124_050), "EUR 1\u{202f}241");
        assert_eq!(price(118_400), "EUR 1\u{202f}184");
        assert_eq!(price(1250), "EUR 12.50");
        assert_eq!(price(10_000), "EUR 100");
        assert_eq!(price(10_040), "EUR 100");
    }
}
