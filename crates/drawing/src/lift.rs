//! What the machine may carry over reach, against what hangs there.

use super::plot::{Plot, figure};
use super::scale::Scale;
use super::shape::{Picture, Stroke, circle};
use super::text::Face;
use fit::installation::LiftOverReach;
use quantity::{Amount, Length, Quantity, Unit, UnitSystem};
use wording::Words;

/// Draws it. Of an excavator's chart the least at each reach is joined, and every point of it stands as a mark: filled over the side,
/// open over the front.
pub fn lift(lift: &LiftOverReach, words: &Words) -> Picture {
    let units = words.units;
    let pairs: Vec<_> = lift.at.iter().map(|at| (reach(at.reach, units).0, figure(at.carries, units))).collect();
    let hangs = figure(lift.hangs, units);
    let farthest = pairs.iter().map(|pair| pair.0).fold(0.0, f64::max);
    let nearest = pairs.iter().map(|pair| pair.0).fold(farthest, f64::min);
    let heaviest = pairs.iter().map(|pair| pair.1).fold(hangs, f64::max);
    let from = if lift.hangs_out.is_some() { 0.0 } else { nearest - 0.05 * (farthest - nearest) };
    let unit = reach(lift.hangs, units).1;
    let mut plot = Plot::new(
        words,
        (Scale::of(from.max(0.0), farthest * 1.02, 6), words.unit(unit)),
        (Scale::of(0.0, heaviest * 1.06, 6), words.unit(lift.hangs.in_system(units).1)),
    );
    let mut least: Vec<(f64, f64)> = Vec::new();
    for &(at, carries) in &pairs {
        match least.last_mut() {
            Some(last) if (last.0 - at).abs() < 1e-9 => last.1 = last.1.min(carries),
            _ => least.push((at, carries)),
        }
    }
    plot.curve(&least, Stroke::Curve);
    let (begin, end) = (plot.across.from, plot.across.to);
    plot.curve(&[(begin, hangs), (end, hangs)], Stroke::Limit);
    for (at, pair) in lift.at.iter().zip(&pairs) {
        if let Some(over_side) = at.over_side {
            plot.mark(*pair, |p| circle(p, 3.2), if over_side { Stroke::Solid } else { Stroke::Thin });
        }
    }
    if let Some(out) = lift.hangs_out {
        let at = reach(out, units).0;
        let carries =
            pairs.iter().filter(|pair| (pair.0 - at).abs() < 1e-6).map(|pair| pair.1).fold(heaviest, f64::min);
        plot.mark((at, carries), |p| circle(p, 4.2), Stroke::Solid);
        plot.label((at, carries), &words.amount(lift.carries_there().unwrap_or(lift.hangs)), Face::Figure);
    }
    plot.label((f64::midpoint(begin, end), hangs), &words.hangs(lift.hangs), Face::Word);
    if let Some(last) = least.first() {
        plot.label(*last, words.may_hang(), Face::Quiet);
    }
    plot.picture
}

/// A reach in metres or feet, as on a chart.
fn reach(amount: Amount, units: UnitSystem) -> (f64, Unit) {
    let unit = if units == UnitSystem::Metric { Unit::Metre } else { Unit::Foot };
    (unit.of_si(amount.quantity::<Length>().map_or(0.0, Quantity::si)), unit)
}
