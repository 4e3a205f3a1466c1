//! The oil's temperature over hours of work.

use super::plot::{Plot, figure};
use super::scale::Scale;
use super::shape::{Picture, Stroke};
use super::text::Face;
use fit::installation::Warming;
use quantity::{Quantity, Time};
use wording::Words;

/// Draws it: in minutes when it is over within two hours, else in hours.
pub fn warmth(warming: &Warming, words: &Words) -> Picture {
    let units = words.units;
    let seconds = |amount: quantity::Amount| amount.quantity::<Time>().map_or(0.0, Quantity::si);
    let whole = warming.points.last().map_or(60.0, |(time, _)| seconds(*time)).max(60.0);
    let (span, unit) = if whole <= 7200.0 { (60.0, "min") } else { (3600.0, "h") };
    let points: Vec<_> = warming.points.iter().map(|&(time, t)| (seconds(time) / span, figure(t, units))).collect();
    let stop = figure(warming.stop, units);
    // Where a third of the heat decides, the other end stands beside what is likely.
    let other = words.other_end(warming).map(|(t, name)| (figure(t, units), name));
    let all = || points.iter().map(|point| point.1).chain(other.map(|(t, _)| t));
    let hottest = all().fold(stop, f64::max);
    let coolest = all().fold(stop, f64::min);
    let across = Scale::of(0.0, whole / span, 6);
    let up = Scale::of(coolest, hottest + 0.04 * (hottest - coolest), 7);
    let mut plot = Plot::new(words, (across, unit), (up, words.unit(warming.stop.in_system(units).1)));
    plot.curve(&points, Stroke::Curve);
    let end = plot.across.to;
    plot.curve(&[(0.0, stop), (end, stop)], Stroke::Limit);
    plot.label((0.7 * end, stop), &words.work_ends(warming.stop), Face::Word);
    if let Some((t, name)) = other {
        plot.curve(&[(0.0, t), (end, t)], Stroke::Drain);
        plot.label((0.35 * end, t), name, Face::Quiet);
    }
    if let (Some(last), Some((_, t))) = (points.last(), warming.points.last()) {
        plot.label(*last, &words.amount(*t), Face::Figure);
    }
    plot.picture
}
