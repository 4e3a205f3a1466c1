//! The one grammar of quantities, as people write them, the same in a table and in a form.
//!
//! ```text
//! quantity  = number unit [ tolerance ] [ source ]
//!           | number "±" number unit [ source ]
//!           | range [ source ]
//! range     = number [ unit ] to number unit
//! to        = ".." | "..." | "…" | "–" | "-" | " to "
//! number    = 118 | 118.5 | .5 | 2 1/2 | 3/4 | 2½ | -10
//! tolerance = ( "±" | "+/-" ) number ( "%" | unit ) | "-" number "/+" number ( "%" | unit )
//! source    = "(published)" | "(plate)" | "(measured)"
//! ```
//!
//! Where two people may read two figures, none is read: a number without a unit is refused, and so is a comma, which
//! means thousands to one reader and a decimal to another; what a person types in a form goes through [`with_points`]
//! before. A tolerance in percent is a share of the figure, also where
//! the figure itself is in percent.

mod fault;
mod parse;
#[cfg(test)]
mod tests;
mod typed;

pub use fault::{LONGEST, TextFault};
pub use typed::{likely_meant, with_points};

use super::{Amount, Dimension, Named, Quantity, Range, Source, Spread, Stated, Tolerance, Unit};
use parse::{Deviation, Parsed, parse};
use serde::{Serialize, Serializer};

/// Reads a stated quantity.
///
/// # Errors
/// [`TextFault`] with what is wrong.
///
/// ```
/// use quantity::{text, Quantity, Source, Stated, Unit, VolumeRate};
/// let flow: Stated<VolumeRate> = text::read("31 gpm (plate)").unwrap();
/// assert_eq!(flow.source, Source::Plate);
/// assert!((Unit::LitrePerMinute.of_si(flow.nominal.si()) - 117.348).abs() < 0.001);
/// ```
pub fn read<Q: Quantity>(text: &str) -> Result<Stated<Q>, TextFault> {
    Ok(read_stated(text, Q::DIMENSION)?.map(|amount| Q::from_si(amount.si())))
}

/// Reads a stated quantity whose dimension is known only at run time.
///
/// # Errors
/// [`TextFault`] with what is wrong.
pub fn read_stated(text: &str, dimension: Dimension) -> Result<Stated<Amount>, TextFault> {
    let Parsed { low, high, unit, tolerance, source } = parse(text, dimension)?;
    let si = |value| Amount::from_si(dimension, unit.to_si(value));
    let (nominal, spread) = match (high, tolerance) {
        (Some(_), Some(_)) => return Err(TextFault::RangeWithTolerance),
        (Some(high), None) => (low.midpoint(high), Spread::Range { low: si(low), high: si(high) }),
        (None, None) => (low, Spread::Unstated),
        (None, Some(deviation)) => (low, spread(low, unit, deviation)),
    };
    Ok(Stated { nominal: si(nominal), spread, source: source.unwrap_or(Source::Published), unit })
}

/// The spread of a figure in `unit`: shares of it where shares have a meaning, else the two ends.
fn spread(value: f64, unit: Unit, deviation: Deviation) -> Spread<Amount> {
    let shares = value > 0.0 && unit.dimension() != Dimension::Temperature;
    let (minus, plus) = match deviation {
        Deviation::Share(tolerance) if shares => return Spread::Relative(tolerance),
        Deviation::Share(tolerance) => (tolerance.minus * value.abs(), tolerance.plus * value.abs()),
        Deviation::Absolute { minus, plus } if shares && minus < value && plus < value => {
            return Spread::Relative(Tolerance { minus: minus / value, plus: plus / value });
        }
        Deviation::Absolute { minus, plus } => (minus, plus),
    };
    let end = |value| Amount::from_si(unit.dimension(), unit.to_si(value));
    Spread::Range { low: end(value - minus), high: end(value + plus) }
}

/// Reads a range to choose from, `180..260 bar`.
///
/// # Errors
/// [`TextFault`] with what is wrong.
pub fn read_range<Q: Quantity>(text: &str) -> Result<Range<Q>, TextFault> {
    let Range { low, high, unit } = read_span(text, Q::DIMENSION)?;
    Ok(Range { low: Q::from_si(low.si()), high: Q::from_si(high.si()), unit })
}

/// Reads a range whose dimension is known only at run time.
///
/// # Errors
/// [`TextFault`] with what is wrong.
pub fn read_span(text: &str, dimension: Dimension) -> Result<Range<Amount>, TextFault> {
    let parsed = parse(text, dimension)?;
    if parsed.tolerance.is_some() || parsed.source.is_some() {
        return Err(TextFault::PlainRangeWanted);
    }
    let amount = |value| Amount::from_si(dimension, parsed.unit.to_si(value));
    let high = amount(parsed.high.ok_or(TextFault::RangeWanted)?);
    Ok(Range { low: amount(parsed.low), high, unit: parsed.unit })
}

/// Reads a single figure whose dimension is known only at run time, as an instrument shows it.
///
/// # Errors
/// [`TextFault`] with what is wrong; of a range, a tolerance or a source that they do not belong here.
pub fn read_amount(text: &str, dimension: Dimension) -> Result<Amount, TextFault> {
    let (value, unit) = read_figure(text, dimension)?;
    Ok(Amount::from_si(dimension, unit.to_si(value)))
}

/// Reads a single figure in the unit in which it was written.
///
/// # Errors
/// As [`read_amount`].
pub fn read_figure(text: &str, dimension: Dimension) -> Result<(f64, Unit), TextFault> {
    let parsed = parse(text, dimension)?;
    if parsed.high.is_some() || parsed.tolerance.is_some() || parsed.source.is_some() {
        return Err(TextFault::PlainFigureWanted);
    }
    Ok((parsed.low, parsed.unit))
}

/// Writes a stated quantity, with its UCUM unit; what is written reads back the same.
pub fn write<Q: Quantity>(stated: &Stated<Q>) -> String {
    let unit = stated.unit;
    let name = unit.name();
    let nominal = || figure(stated.nominal.si(), unit);
    let mut text = match stated.spread {
        Spread::Unstated => format!("{} {name}", nominal()),
        Spread::Relative(t) if t.minus.to_bits() == t.plus.to_bits() => {
            format!("{} {name} ±{} %", nominal(), percent(t.plus))
        }
        Spread::Relative(t) => format!("{} {name} -{}/+{} %", nominal(), percent(t.minus), percent(t.plus)),
        Spread::Range { low, high } => {
            let middle = unit.of_si(low.si()).midpoint(unit.of_si(high.si()));
            if close(unit.of_si(stated.nominal.si()), middle, unit.of_si(high.si())) {
                format!("{}..{} {name}", figure(low.si(), unit), figure(high.si(), unit))
            } else {
                lopsided(stated.nominal, low, high, unit)
            }
        }
    };
    if stated.source != Source::Published {
        text.push_str(" (");
        text.push_str(stated.source.name());
        text.push(')');
    }
    text
}

/// A range whose nominal is not its middle: with what it may be less and more.
fn lopsided<Q: Quantity>(nominal: Q, low: Q, high: Q, unit: Unit) -> String {
    // Behind a percent figure, percents would be shares of it.
    let unit = if unit == Unit::Percent { Unit::One } else { unit };
    let name = unit.name();
    let [low, value, high] = [low, nominal, high].map(|quantity| unit.of_si(quantity.si()));
    let minus = shortest(value - low, |minus| close(value - minus, low, value));
    let plus = shortest(high - value, |plus| close(value + plus, high, value));
    format!("{} {name} -{minus}/+{plus} {name}", figure(nominal.si(), unit))
}

/// Writes a range to choose from.
pub fn write_range<Q: Quantity>(range: &Range<Q>) -> String {
    let shown = |q: Q| figure(q.si(), range.unit);
    format!("{}..{} {}", shown(range.low), shown(range.high), range.unit.name())
}

/// Writes a range of two amounts in a unit of their dimension.
pub fn write_amounts(low: Amount, high: Amount, unit: Unit) -> String {
    format!("{}..{} {}", figure(low.si(), unit), figure(high.si(), unit), unit.name())
}

/// The shortest decimal figure in `unit` that reads back as the same SI value.
fn figure(si: f64, unit: Unit) -> String {
    shortest(unit.of_si(si), |value| unit.to_si(value).to_bits() == si.to_bits())
}

/// The shortest figure of percent that reads back as the same share.
fn percent(share: f64) -> String {
    shortest(share * 100.0, |value| (value * 0.01).to_bits() == share.to_bits())
}

/// The value with the fewest digits that count as the same; all of its digits when none do.
fn shortest(value: f64, same: impl Fn(f64) -> bool) -> String {
    let rounded = |digits: usize| format!("{value:.digits$e}").parse().unwrap_or(value);
    let best = (0..17).map(rounded).find(|&figure| same(figure)).unwrap_or(value);
    // Minus zero is written as zero.
    format!("{}", best + 0.0)
}

/// Whether two figures of this size are the same but for rounding.
fn close(a: f64, b: f64, size: f64) -> bool {
    (a - b).abs() <= 1e-13 * a.abs().max(size.abs())
}

impl<Q: Quantity> Serialize for Stated<Q> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&write(self))
    }
}

impl<Q: Quantity> Serialize for Range<Q> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&write_range(self))
    }
}
