//! A gauge at the hand-over: a dial in round numbers, the arc where the needle is expected, the limit, and the needle.

use super::scale::Scale;
use super::shape::{Anchor, Picture, Point, Stroke, circle, through};
use super::text::{Face, TEXT};
use quantity::Amount;
use std::fmt::Write;
use wording::Words;
use workshop::{Expected, Found, Gauge, Instrument, Judged, Reading};

/// A dial.
#[derive(Clone, Debug, PartialEq)]
pub struct Dial {
    /// How it looks.
    pub picture: Picture,
    /// Where the instrument's scale ends, in the reader's unit.
    pub full_scale: f64,
    /// How the figure that was read lies to what was expected; none without such a figure, or where nothing can be said.
    pub judged: Option<Judged>,
    /// Whether the needle stands at the end of the scale because the figure lies beyond it.
    pub off_scale: bool,
}

const WIDE: f64 = 220.0;
const HIGH: f64 = 192.0;
const CENTRE: Point = Point { x: 110.0, y: 98.0 };
/// Radius of the dial; its figures stand outside, where no needle lies over them.
const RIM: f64 = 68.0;
/// Radius on which they stand.
const FIGURES: f64 = 86.0;
/// The scale begins at lower left and ends at lower right: three quarters of the circle, as on most gauges.
const BEGINS: f64 = 225.0;
const SWEEP: f64 = 270.0;

/// Draws the dial of a reading; none where nothing is expected, or nothing that could be drawn.
pub fn gauge(reading: &Reading, gauge: Option<&Gauge>, read: Option<Amount>, words: &Words) -> Option<Dial> {
    let Found::Expected { reads } = &reading.found else { return None };
    let figure = |amount: Amount| amount.in_system(words.units).0;
    let scale = scale(reads, reading, gauge, words)?;
    let unit = words.unit(reads.nominal.in_system(words.units).1);
    let mut picture = Picture { width: WIDE, height: HIGH, ..Picture::default() };
    let place = |value: f64| scale.place(value).clamp(0.0, 1.0);
    picture.path(sector(place(figure(reads.low)), place(figure(reads.high))), Stroke::Allowed);
    for end in [reads.low, reads.high] {
        picture.path(spoke(place(figure(end)), RIM - 16.0, RIM), Stroke::Thin);
    }
    picture.path(arc(0.0, 1.0, RIM), Stroke::Thin);
    for tick in scale.ticks() {
        picture.path(spoke(place(tick), RIM - 7.0, RIM), Stroke::Thin);
        let at = polar(place(tick), FIGURES);
        let name = words.numbers.decimal(tick, scale.decimals());
        picture.text_if_free(at.x, at.y + 0.34 * TEXT, Anchor::Middle, Face::Figure, name);
    }
    let mut fifth = scale.from;
    while fifth < scale.to - scale.step / 10.0 {
        picture.path(spoke(place(fifth), RIM - 4.0, RIM), Stroke::Hair);
        fifth += scale.step / 5.0;
    }
    if let Some(stop) = reading.stop {
        picture.path(spoke(place(figure(stop)), RIM - 22.0, RIM), Stroke::Limit);
    }
    let judged = read.and_then(|read| reading.judge(read));
    let value = read.map(figure).filter(|value| value.is_finite());
    if let Some(value) = value {
        let stroke = if judged == Some(Judged::Inside) { Stroke::Curve } else { Stroke::Beyond };
        picture.path(spoke(place(value), 0.0, RIM - 4.0), stroke);
    }
    picture.path(circle(CENTRE, 4.0), Stroke::Solid);
    picture.text(CENTRE.x, CENTRE.y + 30.0, Anchor::Middle, Face::Quiet, unit);
    // As it is said beside the dial.
    let range = words.expected_of(reading).unwrap_or_default();
    picture.text(CENTRE.x, HIGH - 6.0, Anchor::Middle, Face::Figure, range);
    Some(Dial { picture, full_scale: scale.to, judged, off_scale: value.is_some_and(|value| value > scale.to) })
}

/// The instrument's own scale, or for one that has none a round one of half as much again.
fn scale(reads: &Expected, reading: &Reading, gauge: Option<&Gauge>, words: &Words) -> Option<Scale> {
    let figure = |amount: Amount| amount.in_system(words.units).0;
    let end = match gauge.map(|gauge| gauge.instrument) {
        Some(Instrument::Pressure { full_scale, .. } | Instrument::Vacuum { full_scale }) => words.dial(full_scale).0,
        Some(Instrument::FlowTester { takes }) => figure(takes),
        Some(Instrument::Tachometer | Instrument::Bucket | Instrument::Thermometer) | None => {
            1.25 * figure(reading.stop.unwrap_or(reads.high)).max(figure(reads.high))
        }
    };
    let end = end.max(figure(reads.high));
    (end > 0.0 && end.is_finite()).then(|| Scale::of(0.0, end * (1.0 - 1e-9), 8))
}

fn polar(share: f64, radius: f64) -> Point {
    let angle = (BEGINS - SWEEP * share).to_radians();
    Point { x: CENTRE.x + radius * angle.cos(), y: CENTRE.y - radius * angle.sin() }
}

fn spoke(share: f64, from: f64, to: f64) -> String {
    through(&[polar(share, from), polar(share, to)], false)
}

fn arc(from: f64, to: f64, radius: f64) -> String {
    let (a, b) = (polar(from, radius), polar(to, radius));
    let large = u8::from((to - from) * SWEEP > 180.0);
    let mut d = through(&[a], false);
    // Writing to a String cannot fail.
    let short = super::shape::short;
    let _ = write!(d, "A{radius} {radius} 0 {large} 1 {} {}", short(b.x), short(b.y));
    d
}

/// The face between two places of the scale, along the rim.
fn sector(from: f64, to: f64) -> String {
    // Never thinner than a needle.
    let to = to.max(from + 0.006);
    let (inner_end, inner_begin) = (polar(to, RIM - 16.0), polar(from, RIM - 16.0));
    let large = u8::from((to - from) * SWEEP > 180.0);
    let short = super::shape::short;
    let mut d = arc(from, to, RIM);
    let radius = RIM - 16.0;
    let _ = write!(
        d,
        "L{} {}A{radius} {radius} 0 {large} 0 {} {}Z",
        short(inner_end.x),
        short(inner_end.y),
        short(inner_begin.x),
        short(inner_begin.y)
    );
    d
}
