//! A margin as a dimension line: the limit, the worst value, and the gap between its arrows.

use super::shape::{Anchor, Picture, Point, Stroke, circle, through};
use super::text::Face;
use super::text::{width, wrap};
use fit::{Bound, Check, Outcome};
use quantity::UnitSystem;
use wording::Words;

/// Where the marks of a margin stand on a line of length 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Margin {
    /// The limit.
    pub limit: f64,
    /// The worst value; held inside the line.
    pub worst: f64,
    /// The nominal value, where it is known.
    pub value: Option<f64>,
    /// Whether the right side of the limit is the one towards greater values.
    pub right_is_good: bool,
    /// Whether the worst value is on the right side.
    pub good: bool,
    /// Whether the worst value lies beyond the end of the line.
    pub cut: bool,
}

/// The dimension line of a check with figures.
///
/// The line runs from zero to a good part beyond the greater of limit and worst value; a value more than twice the limit
/// is drawn at the end and marked as cut.
pub fn margin(check: &Check) -> Option<Margin> {
    on_scale(check, reach(check)?)
}

/// A figure of a check in metric units, as all of its figures are drawn.
fn figure(amount: Option<quantity::Amount>) -> Option<f64> {
    Some(amount?.in_system(UnitSystem::Metric).0)
}

/// How far the line of a check runs.
fn reach(check: &Check) -> Option<f64> {
    let (limit, worst) = (figure(check.limit)?, figure(check.worst)?);
    let drawn = limit > 0.0 && worst >= 0.0 && limit.is_finite() && worst.is_finite();
    drawn.then(|| limit.max(worst.min(2.0 * limit)) * 1.12)
}

/// A check on a line that runs to `end`.
fn on_scale(check: &Check, end: f64) -> Option<Margin> {
    let (limit, worst) = (figure(check.limit)?, figure(check.worst)?);
    let place = |value: f64| (value / end).clamp(0.0, 1.0);
    let right_is_good = check.bound == Some(Bound::AtLeast);
    let good = if right_is_good { worst >= limit } else { worst <= limit };
    Some(Margin {
        limit: place(limit),
        worst: place(worst),
        value: figure(check.value).map(place),
        right_is_good,
        good,
        cut: worst > end,
    })
}

/// The places of a margin's lines in its field, in pixels from the left or the top.
struct Field {
    width: f64,
    height: f64,
    /// From the field's sides to the ends of the line.
    edge: f64,
    /// Where the line lies.
    axis: f64,
    /// Where the gap is dimensioned.
    gap: f64,
    /// From where to where the limit is drawn.
    limit: (f64, f64),
    /// From where to where the worst corner is drawn.
    worst: (f64, f64),
}

/// By itself, in a list or a cell: figures stand beside it.
const ALONE: Field =
    Field { width: 240.0, height: 30.0, edge: 6.0, axis: 24.0, gap: 15.0, limit: (4.0, 28.0), worst: (9.0, 28.0) };
/// With its figures above and below.
const WITH_FIGURES: Field =
    Field { width: 328.0, height: 78.0, edge: 8.0, axis: 50.0, gap: 34.0, limit: (18.0, 56.0), worst: (26.0, 60.0) };
/// From one row of words to the next.
const LEADING: f64 = 15.0;

impl Field {
    /// Where a place of the line, 0 to 1, is in the field.
    fn at(&self, place: f64) -> f64 {
        self.edge + place * (self.width - 2.0 * self.edge)
    }
}

/// A margin as a dimension line without figures. None for a check without figures.
///
/// The side that is allowed is drawn as a heavy stretch of the line, so that it needs no colour; a gap on the wrong side is drawn
/// as what is beyond, one that nobody can decide as what is not known.
pub fn margin_line(check: &Check) -> Option<Picture> {
    Some(lines(check, &margin(check)?, &ALONE))
}

fn lines(check: &Check, drawn: &Margin, field: &Field) -> Picture {
    let level = |from: f64, to: f64, y: f64| through(&[Point { x: from, y }, Point { x: to, y }], false);
    let upright = |x: f64, (from, to): (f64, f64)| through(&[Point { x, y: from }, Point { x, y: to }], false);
    let mut picture = Picture { width: field.width, height: field.height, ..Picture::default() };
    let (end_x, limit_x, worst_x) = (field.width - field.edge, field.at(drawn.limit), field.at(drawn.worst));
    picture.path(level(field.edge, end_x, field.axis), Stroke::Thin);
    let allowed = if drawn.right_is_good { (limit_x, end_x) } else { (field.edge, limit_x) };
    picture.path(level(allowed.0, allowed.1, field.axis), Stroke::Heavy);
    picture.path(upright(limit_x, field.limit), Stroke::Limit);
    picture.path(upright(worst_x, field.worst), Stroke::Thin);
    let gap = match check.outcome {
        Outcome::NotKnown => Stroke::Dashed,
        _ if drawn.good => Stroke::Thin,
        _ => Stroke::Beyond,
    };
    picture.path(level(limit_x.min(worst_x), limit_x.max(worst_x), field.gap), gap);
    let narrow = (limit_x - worst_x).abs() < 20.0;
    for (tip, other) in [(limit_x, worst_x), (worst_x, limit_x)] {
        // Arrows point outwards from within, or inwards from outside a narrow gap, as on a drawing.
        let inwards = if (other > tip) == narrow { -6.0 } else { 6.0 };
        let arrow =
            [(inwards, -3.0), (0.0, 0.0), (inwards, 3.0)].map(|(dx, dy)| Point { x: tip + dx, y: field.gap + dy });
        picture.path(through(&arrow, false), gap);
    }
    if let Some(value) = drawn.value {
        picture.path(circle(Point { x: field.at(value), y: field.axis }, 3.0), Stroke::Face);
    }
    if drawn.cut {
        let zigzag = [(-14.0, -4.0), (-11.0, 4.0), (-8.0, -4.0), (-5.0, 4.0)];
        let zigzag = zigzag.map(|(dx, dy)| Point { x: end_x + dx, y: field.axis + dy });
        picture.path(through(&zigzag, false), Stroke::Thin);
    }
    picture
}

/// The margin of a check with its figures: the limit above, the worst corner below with what sets it. Beside the same check of another
/// stage it is drawn on one scale with it, so that like limits stand below each other.
pub fn margin_picture(check: &Check, beside: Option<&Check>, words: &Words) -> Option<Picture> {
    let beside = beside.filter(|other| other.limit == check.limit).and_then(reach);
    let end = reach(check)?;
    let (drawn, field) = (on_scale(check, beside.map_or(end, |other| other.max(end)))?, WITH_FIGURES);
    let (above, worst) = (words.limit_of(check)?, words.worst_of(check)?);
    let mut picture = lines(check, &drawn, &field);
    let within = |place: f64, text: &str| {
        let half = width(text, Face::Word) / 2.0;
        field.at(place).clamp(half + 2.0, (field.width - half - 2.0).max(half + 2.0))
    };
    picture.text(within(drawn.limit, &above), 12.0, Anchor::Middle, Face::Word, above);
    let below = wrap(&worst, Face::Word, field.width - 8.0);
    let widest = below.iter().max_by(|a, b| width(a, Face::Word).total_cmp(&width(b, Face::Word))).cloned();
    let x = within(drawn.worst, &widest.unwrap_or_default());
    for (row, line) in below.into_iter().enumerate() {
        picture.text(x, field.axis + 24.0 + LEADING * row as f64, Anchor::Middle, Face::Word, line);
        picture.height = field.axis + 32.0 + LEADING * row as f64;
    }
    Some(picture)
}

#[cfg(test)]
mod tests {
    use super::*;
    use fit::{CheckId, Class, Reason};
    use quantity::{Amount, Pressure, Quantity};

    fn check(worst: f64, limit: f64, bound: Bound) -> Check {
        let bar = |p: f64| Some(Amount::of(Pressure::from_si(p * 1e5)));
        Check {
            id: CheckId::BackPressure,
            class: Class::Damage,
            outcome: Outcome::Met,
            blocks: true,
            value: bar(worst * 0.9),
            worst: bar(worst),
            limit: bar(limit),
            bound: Some(bound),
            margin: Some(0.0),
            reason: Reason::Within,
            missing: Vec::new(),
            assumed: Vec::new(),
        }
    }

    #[test]
    fn the_right_side_depends_on_the_bound() {
        let upper = margin(&check(8.0, 10.0, Bound::AtMost)).expect("figures");
        assert!(upper.good && upper.worst < upper.limit && !upper.right_is_good);
        let lower = margin(&check(8.0, 10.0, Bound::AtLeast)).expect("figures");
        assert!(!lower.good && lower.right_is_good);
    }

    #[test]
    fn everything_stands_on_the_line() {
        for worst in [0.0, 0.1, 5.0, 10.0, 19.0, 21.0, 500.0] {
            let drawn = margin(&check(worst, 10.0, Bound::AtMost)).expect("figures");
            for place in [drawn.limit, drawn.worst, drawn.value.expect("a value")] {
                assert!((0.0..=1.0).contains(&place), "{worst}: {drawn:?}");
            }
            assert_eq!(drawn.cut, worst > 2.0 * 10.0 * 1.12, "{worst}");
        }
    }

    #[test]
    fn beside_the_same_check_of_another_stage_like_limits_stand_below_each_other() {
        let words = Words { numbers: &wording::PlainNumbers, units: UnitSystem::Metric };
        let (today, after) = (check(16.0, 10.0, Bound::AtMost), check(8.0, 10.0, Bound::AtMost));
        let limit = |check: &Check, beside: Option<&Check>| {
            let picture = margin_picture(check, beside, &words).expect("figures");
            picture.paths.into_iter().find(|path| path.stroke == Stroke::Limit).expect("a limit").d
        };
        assert_eq!(limit(&today, Some(&after)), limit(&after, Some(&today)));
        assert_ne!(limit(&today, None), limit(&after, None));
        // Another limit has a scale of its own.
        let other = check(8.0, 12.0, Bound::AtMost);
        assert_eq!(limit(&other, Some(&today)), limit(&other, None));
    }

    #[test]
    fn without_figures_there_is_no_line() {
        let mut none = check(8.0, 10.0, Bound::AtMost);
        none.limit = None;
        assert_eq!(margin(&none), None);
        assert_eq!(margin_line(&none), None);
    }

    #[test]
    fn alone_it_keeps_inside_its_field_and_says_whether_it_is_met() {
        for (worst, outcome, gap) in [
            (8.0, Outcome::Met, Stroke::Thin),
            (500.0, Outcome::NotMet, Stroke::Beyond),
            (12.0, Outcome::NotKnown, Stroke::Dashed),
        ] {
            let picture = margin_line(&Check { outcome, ..check(worst, 10.0, Bound::AtMost) }).expect("figures");
            let numbers = picture.paths.iter().flat_map(|path| path.d.split(|c: char| !c.is_ascii_digit() && c != '.'));
            for number in numbers.filter(|number| !number.is_empty()) {
                assert!(number.parse::<f64>().is_ok_and(|at| at <= picture.width), "{worst}: {number}");
            }
            // The dimension itself and its two arrows.
            let drawn_so = picture.paths.iter().filter(|path| path.stroke == gap).count();
            assert!(drawn_so >= 3, "{worst}: {drawn_so} of {gap:?}");
            assert!(picture.texts.is_empty());
        }
    }
}
