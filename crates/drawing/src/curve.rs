//! The pumps' curve: flow over pressure with its power limit, the window of the attachment, what it needs with its oil cold, working
//! and hot, and the brochure's point, which can seldom be had.

use super::plot::{Plot, figure};
use super::scale::Scale;
use super::shape::{Picture, Point, Stroke, circle, through};
use super::text::Face;
use fit::OilState;
use fit::installation::PumpCurve;
use quantity::{Amount, put_in_order_by};
use wording::Words;

/// Draws it.
pub fn curve(curve: &PumpCurve, words: &Words) -> Picture {
    let units = words.units;
    let pair = |&(pressure, flow): &(Amount, Amount)| (figure(pressure, units), figure(flow, units));
    let gives: Vec<_> = curve.gives.iter().map(pair).collect();
    let most = |of: &dyn Fn(&(f64, f64)) -> f64| {
        let says = curve.says.iter().map(pair);
        gives.iter().copied().chain(says).map(|point| of(&point)).fold(0.0, f64::max)
    };
    let greatest_flow = curve.window.1.map(|flow| figure(flow, units));
    // A window far above what the pumps give would press everything else to the floor.
    let top = most(&|point| point.1);
    let top = top.max(greatest_flow.filter(|flow| *flow < 1.6 * top).unwrap_or(0.0)) * 1.08;
    let across = Scale::of(0.0, most(&|point| point.0) * 1.04, 6);
    let up = Scale::of(0.0, top, 6);
    let unit = |amount: Option<Amount>| amount.map_or("", |amount| words.unit(amount.in_system(units).1));
    let (pressure_unit, flow_unit) =
        (unit(curve.gives.first().map(|point| point.0)), unit(curve.gives.first().map(|point| point.1)));
    let mut plot = Plot::new(words, (across, pressure_unit), (up, flow_unit));
    window(&mut plot, curve);
    for need in &curve.needs {
        let stroke = if need.oil == OilState::Working { Stroke::Thin } else { Stroke::Drain };
        plot.curve(&need.points.iter().map(pair).collect::<Vec<_>>(), stroke);
    }
    plot.curve(&gives, Stroke::Curve);
    for need in &curve.needs {
        let at = pair(&need.works_at);
        match need.oil {
            OilState::Working => plot.mark(at, |p| circle(p, 4.2), Stroke::Solid),
            OilState::Cold => plot.mark(at, |p| square(p, 4.0), Stroke::Thin),
            OilState::Hot => plot.mark(at, |p| circle(p, 4.0), Stroke::Thin),
        }
    }
    if let Some(says) = curve.says.as_ref().map(pair) {
        plot.mark(says, cross, if unreachable(curve) { Stroke::Beyond } else { Stroke::Thin });
    }
    if let Some(says) = curve.says.as_ref().map(pair) {
        plot.label(says, words.brochure_point(), Face::Word);
    }
    for (at, name) in points_of_work(curve, &plot, words) {
        // Cold oil needs more pressure: its point lies on the right of that at work.
        let side = if name.starts_with(words.at_work()) { -1.0 } else { 1.0 };
        plot.label_to(at, &name, Face::Word, side);
    }
    if let Some(from) = &curve.limited_from {
        plot.label(pair(from), words.power_limit(), Face::Quiet);
    }
    plot.picture
}

/// Whether the circuit gives less at the brochure's pressure than the brochure says, by more than a gauge shows.
pub fn unreachable(curve: &PumpCurve) -> bool {
    curve.says.zip(curve.gives_there).is_some_and(|((_, says), gives)| gives.si() < 0.98 * says.si())
}

/// The points at work with their names: those that lie on each other have one label, that at working temperature first.
fn points_of_work(curve: &PumpCurve, plot: &Plot, words: &Words) -> Vec<((f64, f64), String)> {
    let units = words.units;
    let mut needs: Vec<_> = curve.needs.iter().collect();
    put_in_order_by(&mut needs, |need| need.oil != OilState::Working);
    let mut named: Vec<((f64, f64), String)> = Vec::new();
    for need in needs {
        let at = (figure(need.works_at.0, units), figure(need.works_at.1, units));
        let name = if need.oil == OilState::Working { words.at_work() } else { words.oil_state(need.oil) };
        let here = plot.at(at);
        let near = named.iter_mut().find(|(known, _)| {
            let there = plot.at(*known);
            (here.x - there.x).hypot(here.y - there.y) < 7.0
        });
        match near {
            Some((_, names)) => *names = format!("{names}, {name}"),
            None => named.push((at, name.to_owned())),
        }
    }
    named
}

/// What the attachment's maker allows: flow between its least and its greatest, pressure up to its greatest.
fn window(plot: &mut Plot, curve: &PumpCurve) {
    let units = plot.words().units;
    let (Some(least), Some(greatest)) = curve.window else { return };
    let (least, greatest) = (figure(least, units), figure(greatest, units));
    let end = curve.bears.map_or(plot.across.to, |bears| figure(bears, units).min(plot.across.to));
    plot.band((0.0, least.min(plot.up.to)), (end, greatest.min(plot.up.to)));
    if curve.bears.is_some_and(|bears| figure(bears, units) < plot.across.to) {
        plot.curve(&[(end, least.min(plot.up.to)), (end, greatest.min(plot.up.to))], Stroke::Limit);
    }
    let name = plot.words().window();
    let middle = f64::midpoint(least.min(plot.up.to), greatest.min(plot.up.to));
    plot.label((0.03 * plot.across.to, middle), name, Face::Quiet);
}

fn square(p: Point, half: f64) -> String {
    let corner = |dx: f64, dy: f64| Point { x: p.x + dx * half, y: p.y + dy * half };
    through(&[corner(-1.0, -1.0), corner(1.0, -1.0), corner(1.0, 1.0), corner(-1.0, 1.0)], true)
}

fn cross(p: Point) -> String {
    let at = |dx: f64, dy: f64| Point { x: p.x + dx, y: p.y + dy };
    through(&[at(-5.0, -5.0), at(5.0, 5.0)], false) + &through(&[at(-5.0, 5.0), at(5.0, -5.0)], false)
}
