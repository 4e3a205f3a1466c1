//! A drawn circuit: symbols, lines and what is written at them.

use super::super::shape::{Anchor, Area, Picture, Point, Stroke, Text, circle, through};
use super::super::text::{Face, TEXT};
use super::block;
use quantity::string_enum;
use workshop::schema::{Part, State};

/// Width of a tall sheet: a phone of 360 pixels less its margins.
pub const TALL_WIDTH: f64 = 328.0;

string_enum! {
    /// How a sheet lies.
    "form" pub enum Form {
        /// For a phone: 328 pixels wide and as high as it must be, the attachment on top.
        Tall = "tall",
        /// For a desk or a page: the attachment on the right.
        Wide = "wide",
    }
}

impl Form {
    /// How wide a part's label may be.
    pub(super) fn label(self, part: Part) -> f64 {
        match (self, part) {
            (_, Part::Changeover) => 100.0,
            (Self::Tall, Part::Tank) => 52.0,
            (Self::Tall, _) => 68.0,
            (Self::Wide, _) => 74.0,
        }
    }
}

/// A symbol where it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Symbol {
    /// Of which part.
    pub part: Part,
    /// How that comes into the circuit.
    pub state: State,
    /// The numbers of the changes that add or set it.
    pub numbers: Vec<usize>,
    /// The room that it takes up; lines end at its edge.
    pub area: Area,
    /// Its marks, the lowest first.
    pub shapes: Vec<(Shape, Stroke)>,
}

/// A line of oil, upright and level.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// To which part it belongs.
    pub part: Part,
    /// What it is.
    pub stroke: Stroke,
    /// Its corners.
    pub points: Vec<Point>,
}

/// A drawn circuit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sheet {
    /// Its width in pixels.
    pub width: f64,
    /// Its height in pixels.
    pub height: f64,
    /// The symbols.
    pub symbols: Vec<Symbol>,
    /// The lines between them.
    pub lines: Vec<Line>,
    /// Where lines meet.
    pub dots: Vec<(Point, Stroke)>,
    /// Numbers of changes, each in a circle.
    pub rounds: Vec<(Point, usize)>,
    /// What is written at a part, or in the legend.
    pub labels: Vec<(Part, Text)>,
    /// The samples of the legend.
    pub samples: Vec<Line>,
}

/// A mark of a symbol where it stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A stroke through points, perhaps closed.
    Along(Vec<Point>, bool),
    /// A circle.
    Round(Point, f64),
}

impl Shape {
    /// Moves the shape.
    pub(super) fn move_by(&mut self, dx: f64, dy: f64) {
        let points: &mut [Point] = match self {
            Self::Along(points, _) => points,
            Self::Round(centre, _) => std::slice::from_mut(centre),
        };
        for p in points {
            p.x += dx;
            p.y += dy;
        }
    }

    /// As path data.
    pub fn d(&self) -> String {
        match self {
            Self::Along(points, closed) => through(points, *closed),
            Self::Round(centre, radius) => circle(*centre, *radius),
        }
    }
}

impl Sheet {
    /// Moves everything so that nothing is above the field, and sets the field's size.
    pub(super) fn settle(&mut self, margin: f64, wide: Option<f64>) {
        let areas = self.areas();
        let Some(all) = areas.into_iter().reduce(Area::with) else { return };
        let dy = margin - all.top;
        for symbol in &mut self.symbols {
            symbol.area.top += dy;
            symbol.area.bottom += dy;
            for (shape, _) in &mut symbol.shapes {
                shape.move_by(0.0, dy);
            }
        }
        for p in self.lines.iter_mut().flat_map(|line| &mut line.points) {
            p.y += dy;
        }
        for p in self.dots.iter_mut().map(|(p, _)| p).chain(self.rounds.iter_mut().map(|(p, _)| p)) {
            p.y += dy;
        }
        for (_, text) in &mut self.labels {
            text.at.y += dy;
        }
        self.width = wide.unwrap_or(all.right + margin);
        self.height = all.bottom + dy + margin;
    }

    /// Everything that takes up room.
    fn areas(&self) -> Vec<Area> {
        let mut all: Vec<Area> = self.symbols.iter().map(|symbol| symbol.area).collect();
        all.extend(self.labels.iter().map(|(_, text)| text.area()));
        all.extend(self.rounds.iter().map(|(centre, _)| round(*centre)));
        all.extend(self.lines.iter().filter_map(|line| Area::around(line.points.iter().copied())));
        all
    }

    /// The whole as paths and texts.
    pub fn picture(&self) -> Picture {
        let mut picture = Picture { width: self.width, height: self.height, ..Picture::default() };
        for line in self.lines.iter().chain(&self.samples) {
            picture.path(through(&line.points, false), line.stroke);
        }
        for (at, stroke) in &self.dots {
            picture.path(circle(*at, 2.4), *stroke);
        }
        for (shape, stroke) in self.symbols.iter().flat_map(|symbol| &symbol.shapes) {
            picture.path(shape.d(), *stroke);
        }
        for (centre, number) in &self.rounds {
            picture.path(circle(*centre, block::ROUND), Stroke::Heavy);
            let at = Point { y: centre.y + 0.36 * TEXT, ..*centre };
            let text = number.to_string();
            picture.texts.push(Text { at, anchor: Anchor::Middle, text, face: Face::Figure });
        }
        picture.texts.extend(self.labels.iter().map(|(_, text)| text.clone()));
        picture
    }
}

/// The room of a number in its circle.
pub fn round(centre: Point) -> Area {
    let r = block::ROUND;
    Area { left: centre.x - r, top: centre.y - r, right: centre.x + r, bottom: centre.y + r }
}
