//! A field with two axes: round ticks, their figures, curves in it, and labels that keep off each other and off the curves.

use super::scale::Scale;
use super::shape::{Anchor, Area, Picture, Point, Stroke, Text, through};
use super::text::width;
use super::text::{Face, TEXT};
use quantity::{Amount, UnitSystem};
use wording::Words;

/// A figure as a reader sees it, and the unit.
pub fn figure(amount: Amount, units: UnitSystem) -> f64 {
    amount.in_system(units).0
}

/// A plot in the making.
pub struct Plot<'a> {
    /// What is drawn so far.
    pub picture: Picture,
    /// The scale across.
    pub across: Scale,
    /// The scale upwards.
    pub up: Scale,
    words: &'a Words<'a>,
    field: Area,
    /// What labels keep off.
    taken: Vec<Vec<Point>>,
}

/// Width of a plot: a phone of 360 pixels less its margins.
pub const WIDE: f64 = 328.0;
const HIGH: f64 = 236.0;

impl<'a> Plot<'a> {
    /// An empty field with its axes and their units.
    pub fn new(words: &'a Words<'a>, across: (Scale, &str), up: (Scale, &str)) -> Self {
        let (across, unit_across) = across;
        let (up, unit_up) = up;
        let figures = |scale: &Scale| -> Vec<String> {
            scale.ticks().iter().map(|tick| words.numbers.decimal(*tick, scale.decimals())).collect()
        };
        let (names_across, names_up) = (figures(&across), figures(&up));
        let widest = names_up.iter().map(|name| width(name, Face::Figure)).fold(0.0, f64::max);
        let last = names_across.last().map_or(0.0, |name| width(name, Face::Figure) / 2.0);
        let field = Area { left: widest + 12.0, top: 26.0, right: WIDE - last.max(6.0) - 4.0, bottom: HIGH - 34.0 };
        let mut plot = Self {
            picture: Picture { width: WIDE, height: HIGH, ..Picture::default() },
            across,
            up,
            words,
            field,
            taken: Vec::new(),
        };
        let (ticks_across, ticks_up) = (plot.across.ticks(), plot.up.ticks());
        for (tick, name) in ticks_across.iter().zip(&names_across) {
            let x = plot.x(*tick);
            plot.picture
                .path(through(&[Point { x, y: field.top }, Point { x, y: field.bottom + 4.0 }], false), Stroke::Hair);
            plot.picture.text_if_free(x, field.bottom + 16.0, Anchor::Middle, Face::Figure, name);
        }
        for (tick, name) in ticks_up.iter().zip(&names_up) {
            let y = plot.y(*tick);
            plot.picture
                .path(through(&[Point { x: field.left - 4.0, y }, Point { x: field.right, y }], false), Stroke::Hair);
            plot.picture.text_if_free(field.left - 7.0, y + 0.34 * TEXT, Anchor::End, Face::Figure, name);
        }
        let corner = [
            Point { x: field.left, y: field.top },
            Point { x: field.left, y: field.bottom },
            Point { x: field.right, y: field.bottom },
        ];
        plot.picture.path(through(&corner, false), Stroke::Thin);
        plot.picture.text(4.0, 12.0, Anchor::Start, Face::Quiet, unit_up);
        plot.picture.text(field.right, HIGH - 4.0, Anchor::End, Face::Quiet, unit_across);
        plot
    }

    /// The reader.
    pub fn words(&self) -> &'a Words<'a> {
        self.words
    }

    fn x(&self, figure: f64) -> f64 {
        self.field.left + self.across.place(figure).clamp(0.0, 1.0) * (self.field.right - self.field.left)
    }

    fn y(&self, figure: f64) -> f64 {
        self.field.bottom - self.up.place(figure).clamp(0.0, 1.0) * (self.field.bottom - self.field.top)
    }

    /// Where a pair of figures stands; held to the field.
    pub fn at(&self, (across, up): (f64, f64)) -> Point {
        Point { x: self.x(across), y: self.y(up) }
    }

    /// A curve. What leaves the field is cut off at its edge.
    pub fn curve(&mut self, points: &[(f64, f64)], stroke: Stroke) {
        let inside = |&(a, b): &(f64, f64)| {
            (-1e-9..=1.0 + 1e-9).contains(&self.across.place(a)) && (-1e-9..=1.0 + 1e-9).contains(&self.up.place(b))
        };
        let kept: Vec<_> = points.iter().filter(|point| inside(point)).map(|&point| self.at(point)).collect();
        if kept.len() > 1 {
            self.picture.path(through(&kept, false), stroke);
            self.taken.push(kept);
        }
    }

    /// A band between two corners, with its edges.
    pub fn band(&mut self, from: (f64, f64), to: (f64, f64)) {
        let (a, b) = (self.at(from), self.at(to));
        let corners = [a, Point { x: b.x, y: a.y }, b, Point { x: a.x, y: b.y }];
        self.picture.path(through(&corners, true), Stroke::Allowed);
        self.picture.path(through(&[corners[0], corners[1]], false), Stroke::Thin);
        self.picture.path(through(&[corners[2], corners[3]], false), Stroke::Thin);
        self.taken.push(vec![corners[0], corners[1]]);
        self.taken.push(vec![corners[2], corners[3]]);
    }

    /// A mark at a pair of figures, as SVG path data about a point, with what labels must keep off.
    pub fn mark(&mut self, at: (f64, f64), d: impl Fn(Point) -> String, stroke: Stroke) {
        let p = self.at(at);
        self.picture.path(d(p), stroke);
        self.taken.push(vec![Point { x: p.x - 5.0, ..p }, Point { x: p.x + 5.0, ..p }]);
    }

    /// A label near a pair of figures: at the first of the places around it where it lies over nothing, with a leader where that is
    /// not close by. One that finds none is left out; the words beside the drawing say it all the same.
    pub fn label(&mut self, near: (f64, f64), text: &str, face: Face) -> bool {
        self.label_to(near, text, face, 1.0)
    }

    /// A label near a pair of figures, tried on one side first: 1 for the right, −1 for the left.
    pub fn label_to(&mut self, near: (f64, f64), text: &str, face: Face, side: f64) -> bool {
        let p = self.at(near);
        let (one, other) = if side > 0.0 { (Anchor::Start, Anchor::End) } else { (Anchor::End, Anchor::Start) };
        for step in [9.0, 14.0, 24.0, 36.0, 52.0] {
            let places = [
                (p.x + step * side, p.y - 6.0 - step * 0.3, one),
                (p.x + step * side, p.y + step * 0.6 + 8.0, one),
                (p.x, p.y - step, Anchor::Middle),
                (p.x - step * side, p.y - 6.0 - step * 0.3, other),
                (p.x - step * side, p.y + step * 0.6 + 8.0, other),
                (p.x, p.y + step + 8.0, Anchor::Middle),
            ];
            for (x, y, anchor) in places {
                let text = Text { at: Point { x, y }, anchor, text: text.to_owned(), face };
                if !self.is_free(text.area().shrunk(-2.0)) {
                    continue;
                }
                if step > 20.0 {
                    let area = text.area();
                    let end = Point { x: p.x.clamp(area.left, area.right), y: p.y.clamp(area.top, area.bottom) };
                    self.picture.path(through(&[p, end], false), Stroke::Thin);
                }
                self.picture.texts.push(text);
                return true;
            }
        }
        false
    }

    fn is_free(&self, area: Area) -> bool {
        let field = self.field;
        let inside =
            area.left >= field.left && area.right <= WIDE - 2.0 && area.top >= 14.0 && area.bottom <= field.bottom;
        let crossed = |line: &Vec<Point>| line.windows(2).any(|pair| meets(area, pair[0], pair[1]));
        inside && !self.taken.iter().any(crossed) && !self.picture.texts.iter().any(|text| text.area().overlaps(area))
    }
}

/// Whether a stretch of line comes into an area, by clipping it (Liang and Barsky's parameters, textbook).
pub fn meets(area: Area, from: Point, to: Point) -> bool {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let (mut enters, mut leaves) = (0.0f64, 1.0f64);
    for (p, q) in
        [(-dx, from.x - area.left), (dx, area.right - from.x), (-dy, from.y - area.top), (dy, area.bottom - from.y)]
    {
        if p == 0.0 {
            if q < 0.0 {
                return false;
            }
        } else if p < 0.0 {
            enters = enters.max(q / p);
        } else {
            leaves = leaves.min(q / p);
        }
    }
    enters <= leaves
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_meets_an_area_that_it_passes_through_and_no_other() {
        let area = Area { left: 10.0, top: 10.0, right: 20.0, bottom: 20.0 };
        let at = |x: f64, y: f64| Point { x, y };
        assert!(meets(area, at(0.0, 0.0), at(30.0, 30.0)) && meets(area, at(12.0, 12.0), at(13.0, 13.0)));
        assert!(meets(area, at(0.0, 15.0), at(30.0, 15.0)) && !meets(area, at(0.0, 25.0), at(30.0, 25.0)));
        assert!(!meets(area, at(0.0, 18.0), at(8.0, 30.0)) && !meets(area, at(0.0, 22.0), at(22.0, 40.0)));
    }
}
