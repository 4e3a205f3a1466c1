//! Taking the text of a quantity apart: every function takes its piece off the front of what is left.

use super::fault::{LONGEST, TextFault};
use crate::{Dimension, Named, Source, Tolerance, Unit};

/// A text taken apart, before it is typed.
pub struct Parsed {
    /// The figure, or the lower end of a range.
    pub low: f64,
    /// The upper end of a range.
    pub high: Option<f64>,
    /// The unit of both.
    pub unit: Unit,
    /// How far the true value may be off.
    pub tolerance: Option<Deviation>,
    /// Who says so.
    pub source: Option<Source>,
}

/// How far a true value may be off; both figures are at least zero.
#[derive(Clone, Copy)]
pub enum Deviation {
    /// By shares of the figure.
    Share(Tolerance),
    /// By so much, in the unit of the figure.
    Absolute {
        /// Below.
        minus: f64,
        /// Above.
        plus: f64,
    },
}

/// What autocorrection and keyboards make of a minus sign.
const MINUS: [char; 3] = ['-', '−', '–'];
const SIGNS: [char; 4] = ['+', '-', '−', '–'];
/// What stands between the ends of a range, longest first.
const TO: [&str; 4] = ["...", "..", "…", "–"];
const PLUS_MINUS: [&str; 2] = ["±", "+/-"];
/// Fractions that stand on keyboards as one character.
const FRACTIONS: [(char, f64); 7] =
    [('½', 0.5), ('¼', 0.25), ('¾', 0.75), ('⅛', 0.125), ('⅜', 0.375), ('⅝', 0.625), ('⅞', 0.875)];

/// Takes a whole quantity apart.
pub fn parse(text: &str, wanted: Dimension) -> Result<Parsed, TextFault> {
    let mut rest = text.trim();
    if rest.is_empty() {
        return Err(TextFault::Empty);
    }
    if rest.chars().count() > LONGEST {
        return Err(TextFault::TooLong);
    }
    let first = number(&mut rest)?;
    let low = first.value;
    if signed_pair(rest.trim_start()) == Some(0) {
        return Err(TextFault::NoUnit);
    }
    let mut high = end_of_range(&mut rest, &first)?;
    if high.is_none()
        && let Some((unit, deviation)) = plus_minus_before_unit(&mut rest, wanted)?
    {
        let source = source(&mut rest)?;
        return finished(rest, Parsed { low, high, unit, tolerance: Some(deviation), source });
    }
    let found = unit(&mut rest, wanted)?;
    if high.is_none() && signed_pair(rest.trim_start()) != Some(0) {
        high = end_behind_unit(&mut rest, found, wanted)?;
    }
    if high.is_some_and(|high| high < low) {
        return Err(TextFault::RangeReversed);
    }
    let before = tolerance(&mut rest, found)?;
    let source = source(&mut rest)?;
    let tolerance = if before.is_none() { tolerance(&mut rest, found)? } else { before };
    finished(rest, Parsed { low, high, unit: found, tolerance, source })
}

fn finished(rest: &str, parsed: Parsed) -> Result<Parsed, TextFault> {
    let rest = rest.trim();
    if rest.is_empty() { Ok(parsed) } else { Err(TextFault::Trailing { found: rest.to_owned() }) }
}

/// A number and how it was written.
struct Number {
    value: f64,
    form: Form,
}

#[derive(Clone, Copy, PartialEq)]
enum Form {
    Whole,
    Decimal,
    Fraction,
}

/// Takes a number off the front: decimal, fraction, or whole number with a fraction.
fn number(rest: &mut &str) -> Result<Number, TextFault> {
    let begin = *rest;
    let first = match fraction_sign(rest) {
        Some(value) => return Ok(Number { value, form: Form::Fraction }),
        None => decimal(rest)?,
    };
    let whole = first.form == Form::Whole;
    let bad = |behind: &str| TextFault::BadNumber { found: begin[..begin.len() - behind.len()].trim().to_owned() };
    let with = |part: f64| {
        let sign = if first.value.is_sign_negative() { -1.0 } else { 1.0 };
        Number { value: first.value + sign * part, form: Form::Decimal }
    };
    // `3/4`: a slash right behind, with a digit behind it.
    if slash_and_digit(rest) {
        let value = over(rest, first.value, whole).ok_or_else(|| bad(rest))?;
        return Ok(Number { value, form: Form::Fraction });
    }
    let mut ahead = rest.trim_start();
    if let Some(part) = fraction_sign(&mut ahead) {
        *rest = ahead;
        return if whole { Ok(with(part)) } else { Err(bad(rest)) };
    }
    if ahead.len() == rest.len() || !ahead.starts_with(|c: char| c.is_ascii_digit()) {
        return Ok(first);
    }
    // A number behind a number: `2 1/2`, or the units `1` and `1/min`, or thousands set off by a space.
    let second = decimal(&mut ahead)?;
    if slash_and_digit(ahead) {
        let part = over(&mut ahead, second.value, whole && second.form == Form::Whole);
        *rest = ahead;
        return part.filter(|part| *part < 1.0).map(with).ok_or_else(|| bad(rest));
    }
    let is_unit = rest.trim_start().starts_with('1') && rest.trim_start().len() - ahead.len() == 1;
    if is_unit { Ok(first) } else { Err(bad(ahead)) }
}

fn slash_and_digit(rest: &str) -> bool {
    rest.strip_prefix('/').is_some_and(|behind| behind.starts_with(|c: char| c.is_ascii_digit()))
}

/// Takes `/denominator` off the front; nothing when it makes no fraction of whole numbers.
fn over(rest: &mut &str, numerator: f64, sound: bool) -> Option<f64> {
    *rest = rest.strip_prefix('/')?;
    let denominator = decimal(rest).ok()?;
    let value = numerator / denominator.value;
    (sound && denominator.form == Form::Whole && value.is_finite()).then_some(value)
}

fn fraction_sign(rest: &mut &str) -> Option<f64> {
    let (sign, value) = FRACTIONS.iter().find(|(sign, _)| rest.starts_with(*sign))?;
    *rest = &rest[sign.len_utf8()..];
    Some(*value)
}

/// Takes a decimal number off the front.
fn decimal(rest: &mut &str) -> Result<Number, TextFault> {
    let text = *rest;
    let body = text.strip_prefix(SIGNS).unwrap_or(text);
    let digits_end = |from: usize| body[from..].find(|c: char| !c.is_ascii_digit()).map_or(body.len(), |at| from + at);
    let whole_end = digits_end(0);
    // Two points are a range.
    let point = body[whole_end..].starts_with('.') && !body[whole_end + 1..].starts_with('.');
    let end = if point { digits_end(whole_end + 1) } else { whole_end };
    let (digits, behind) = body.split_at(end);
    let digit_at = |at: usize| behind.get(at..).is_some_and(|text| text.starts_with(|c: char| c.is_ascii_digit()));
    if behind.starts_with(',') {
        return Err(TextFault::Comma);
    }
    let found = || TextFault::BadNumber { found: text.chars().take(20).collect() };
    if !digits.contains(|c: char| c.is_ascii_digit()) {
        return Err(if point { found() } else { TextFault::NoNumber });
    }
    // `1e5`, `1.2.3` and `1'240` would else be numbers with strange units behind them.
    let exponent = behind.starts_with(['e', 'E']) && (digit_at(1) || behind[1..].starts_with(SIGNS));
    let separator = behind.chars().next().filter(|c| ['.', '\'', '’', '_'].contains(c)).map_or(0, char::len_utf8);
    if exponent || separator > 0 && digit_at(separator) {
        return Err(found());
    }
    let value: f64 = digits.parse().map_err(|_| found())?;
    *rest = behind;
    // No minus zero.
    let value = if text.starts_with(MINUS) && value != 0.0 { -value } else { value };
    Ok(Number { value, form: if point { Form::Decimal } else { Form::Whole } })
}

/// Takes the second end of a range off the front, when both ends share the unit behind it.
fn end_of_range(rest: &mut &str, first: &Number) -> Result<Option<f64>, TextFault> {
    let begin = *rest;
    if let Some(behind) = behind_to(begin) {
        *rest = behind;
        return Ok(Some(number(rest)?.value));
    }
    let Some(behind) = begin.trim_start().strip_prefix(MINUS).map(str::trim_start) else { return Ok(None) };
    if !behind.starts_with(|c: char| c.is_ascii_digit() || c == '.') {
        return Ok(None);
    }
    *rest = behind;
    let second = number(rest)?;
    // `2-1/2` is two and a half to one reader and no range to any.
    if first.form == Form::Whole && second.form == Form::Fraction {
        let fraction = &behind[..behind.len() - rest.len()];
        return Err(TextFault::BadNumber { found: format!("{}-{fraction}", first.value) });
    }
    Ok(Some(second.value))
}

/// What stands behind a sign or word for a range, if one is in front.
fn behind_to(rest: &str) -> Option<&str> {
    let text = rest.trim_start();
    // Four points are a slip: what stands behind two of them is no number.
    let sign = TO.iter().filter(|_| !text.starts_with("....")).find_map(|sign| text.strip_prefix(sign));
    let sign = sign.or_else(|| text.strip_prefix(".."));
    let word =
        || text.strip_prefix("to").filter(|behind| text.len() < rest.len() && behind.starts_with(char::is_whitespace));
    sign.or_else(word).map(str::trim_start)
}

/// Takes the second end of a range off the front, when the first end has a unit of its own.
fn end_behind_unit(rest: &mut &str, first: Unit, wanted: Dimension) -> Result<Option<f64>, TextFault> {
    let Some(behind) = behind_to(rest) else { return Ok(None) };
    *rest = behind;
    let high = number(rest)?.value;
    let second = unit(rest, wanted)?;
    if second == first { Ok(Some(high)) } else { Err(TextFault::TwoUnits) }
}

/// Takes a unit off the front: everything up to a tolerance, a source, a range or the end.
fn unit(rest: &mut &str, wanted: Dimension) -> Result<Unit, TextFault> {
    let text = rest.trim_start();
    let marks = ["±", "+/-", "(", "..", "…", "–", " to "];
    let stop = marks.iter().filter_map(|mark| text.find(mark)).chain(signed_pair(text)).min();
    let name = text[..stop.unwrap_or(text.len())].trim_end();
    if name.is_empty() {
        return Err(TextFault::NoUnit);
    }
    let Some(unit) = Unit::from_text(name) else { return Err(unknown_unit(name, wanted)) };
    if unit.dimension() != wanted {
        return Err(TextFault::WrongDimension { unit });
    }
    // The space before `to` belongs to it.
    *rest = &text[name.len()..];
    Ok(unit)
}

/// What is wrong with a name that is no unit: a unit with something behind it, or no unit at all.
fn unknown_unit(name: &str, wanted: Dimension) -> TextFault {
    for (at, _) in name.char_indices().rev().filter(|(_, c)| c.is_whitespace()) {
        if Unit::from_text(name[..at].trim_end()).is_some() {
            let found = name[at..].trim_start().to_owned();
            let tolerance = found.starts_with(SIGNS);
            return if tolerance { TextFault::BadTolerance { found } } else { TextFault::Trailing { found } };
        }
    }
    TextFault::UnknownUnit { found: name.to_owned(), near: near(name, wanted) }
}

/// The unit of the wanted dimension whose name is nearest to what was written, when it is near enough to be meant.
fn near(found: &str, wanted: Dimension) -> Option<Unit> {
    // `mbar` is no slip of the pen for `bar` but a thousandth of it, which is not in the list.
    let mut letters = found.chars();
    if letters.next().is_some_and(|first| "mkMGcdhµμn".contains(first)) && Unit::from_text(letters.as_str()).is_some()
    {
        return None;
    }
    let lower = &found.to_lowercase();
    let most = (found.chars().count() / 3).clamp(1, 2);
    let of_dimension = Unit::ALL.iter().copied().filter(|unit| unit.dimension() == wanted);
    let names = |unit: Unit| unit.spoken().iter().copied().chain([unit.name()]).map(move |name| (name, unit));
    of_dimension
        .flat_map(names)
        .map(|(name, unit)| (strsim::osa_distance(lower, &name.to_lowercase()), name, unit))
        .filter(|(distance, name, _)| *distance <= most && *distance < name.chars().count().min(found.chars().count()))
        .min_by_key(|(distance, ..)| *distance)
        .map(|(.., unit)| unit)
}

/// Where a tolerance of the form `-15/+8 %` begins: at the sign before a figure, a slash and another sign.
fn signed_pair(text: &str) -> Option<usize> {
    let slash = text.match_indices('/').find(|(at, _)| text[at + 1..].trim_start().starts_with(SIGNS))?.0;
    let sign = text[..slash].rfind(SIGNS)?;
    text[sign..slash].contains(|c: char| c.is_ascii_digit()).then_some(sign)
}

/// Takes `±4 bar` off the front, when it stands before the only unit: `205 ±4 bar`.
fn plus_minus_before_unit(rest: &mut &str, wanted: Dimension) -> Result<Option<(Unit, Deviation)>, TextFault> {
    let text = rest.trim_start();
    let Some(body) = PLUS_MINUS.iter().find_map(|sign| text.strip_prefix(sign)) else { return Ok(None) };
    let mut behind = body.trim_start();
    let both = number(&mut behind).map_err(|fault| bad_tolerance(text, fault))?.value;
    if both < 0.0 {
        return Err(bad_tolerance(text, TextFault::NoNumber));
    }
    let unit = match unit(&mut behind, wanted) {
        // The percents are those of the tolerance.
        Err(TextFault::WrongDimension { unit: Unit::Percent }) => return Err(TextFault::NoUnit),
        unit => unit?,
    };
    *rest = behind;
    Ok(Some((unit, Deviation::Absolute { minus: both, plus: both })))
}

/// What is wrong with a tolerance; a comma in it says more than that it cannot be read.
fn bad_tolerance(text: &str, fault: TextFault) -> TextFault {
    let end = text.find('(').unwrap_or(text.len());
    if fault == TextFault::Comma { fault } else { TextFault::BadTolerance { found: text[..end].trim().to_owned() } }
}

/// Takes a tolerance off the front, if one is there.
fn tolerance(rest: &mut &str, unit: Unit) -> Result<Option<Deviation>, TextFault> {
    let text = rest.trim_start();
    let bad = |fault| bad_tolerance(text, fault);
    let (minus, plus, behind) = if let Some(body) = PLUS_MINUS.iter().find_map(|sign| text.strip_prefix(sign)) {
        let mut behind = body.trim_start();
        let both = number(&mut behind).map_err(bad)?.value;
        (both, both, behind)
    } else if signed_pair(text) == Some(0) {
        let mut behind = text;
        let first = decimal(&mut behind).map_err(bad)?.value;
        behind = behind.trim_start().trim_start_matches('%').trim_start();
        behind = behind.strip_prefix('/').ok_or_else(|| bad(TextFault::NoNumber))?.trim_start();
        let second = decimal(&mut behind).map_err(bad)?.value;
        // Which sign stands first is free; `-0` has lost its sign.
        let (minus, plus) = if text.starts_with('+') { (0.0 - second, first) } else { (0.0 - first, second) };
        (minus, plus, behind)
    } else {
        return Ok(None);
    };
    let end = behind.find('(').unwrap_or(behind.len());
    let deviation = match Unit::from_text(behind[..end].trim()) {
        // A share has no meaning on a scale with an offset.
        Some(Unit::Percent) if unit.dimension() != Dimension::Temperature => {
            Deviation::Share(Tolerance { minus: minus * 0.01, plus: plus * 0.01 })
        }
        Some(other) if other.dimension() == unit.dimension() => {
            let factor = if other == unit { 1.0 } else { other.factor() / unit.factor() };
            Deviation::Absolute { minus: minus * factor, plus: plus * factor }
        }
        _ => return Err(bad(TextFault::NoUnit)),
    };
    let sound = match deviation {
        Deviation::Share(shares) => [shares.minus, shares.plus].iter().all(|share| (0.0..1.0).contains(share)),
        Deviation::Absolute { minus, plus } => minus >= 0.0 && plus >= 0.0,
    };
    if !sound {
        return Err(bad(TextFault::NoNumber));
    }
    *rest = &behind[end..];
    Ok(Some(deviation))
}

/// Takes a source in brackets off the front, if one is there.
fn source(rest: &mut &str) -> Result<Option<Source>, TextFault> {
    let text = rest.trim_start();
    let Some(body) = text.strip_prefix('(') else { return Ok(None) };
    let unknown = |found: &str| TextFault::UnknownSource { found: found.trim().to_owned() };
    let (name, behind) = body.split_once(')').ok_or_else(|| unknown(text))?;
    let source = Source::from_name(&name.trim().to_lowercase()).ok_or_else(|| unknown(name))?;
    *rest = behind;
    Ok(Some(source))
}
