//! What every drawing is made of: paths with a role, texts with a box, and a field they lie in.
//!
//! Lengths are pixels of the field at its own size; the page may scale the whole. A path says what it is (a [`Stroke`]), never a
//! colour: weight and dash alone keep the roles apart in grey, in print and for who does not see the accent.

use super::text::{Face, TEXT, width};
use quantity::string_enum;
use std::fmt::Write;

string_enum! {
    /// What a path is. The name is the class that the page gives it.
    "stroke" pub enum Stroke {
        /// The thin line of a drawing: what stands.
        Thin = "thin",
        /// A heavy line, for what is added.
        Heavy = "heavy",
        /// A dashed line, for what nobody knows.
        Dashed = "dashed",
        /// A filled face: the cut plug.
        Face = "face",
        /// Dots, for a part of a circuit that nobody states: dashes mean drains and pilot lines there.
        Dotted = "dotted",
        /// Short dashes: a drain or pilot line that stands (the custom of ISO 1219-1).
        Drain = "drain",
        /// Short heavy dashes: a drain or pilot line that is added.
        HeavyDrain = "heavy-drain",
        /// A long dash and a dot: where two things meet.
        Chain = "chain",
        /// The thinnest line: a grid, a leader.
        Hair = "hair",
        /// Filled with ink.
        Solid = "solid",
        /// Filled with the accent, for what is added.
        HeavySolid = "heavy-solid",
        /// A curve that the drawing is about.
        Curve = "curve",
        /// A band of what is allowed or expected.
        Allowed = "allowed",
        /// A limit.
        Limit = "limit",
        /// What is beyond its limit, or cannot be had.
        Beyond = "beyond",
    }
}

impl Stroke {
    /// Width of the line in pixels; nothing where only a face is filled.
    pub fn weight(self) -> f64 {
        match self {
            Self::Hair => 0.6,
            Self::Thin | Self::Face | Self::Dashed | Self::Drain | Self::Chain => 1.2,
            Self::Dotted => 1.5,
            Self::Beyond => 1.8,
            Self::Limit => 2.0,
            Self::Curve => 2.2,
            Self::Heavy | Self::HeavyDrain => 2.8,
            Self::Solid | Self::HeavySolid | Self::Allowed => 0.0,
        }
    }

    /// Dash and gap in turn, in pixels; empty for a line without gaps.
    pub fn dashes(self) -> &'static [f64] {
        match self {
            Self::Dashed => &[2.5, 2.0],
            Self::Drain | Self::HeavyDrain => &[5.0, 3.0],
            Self::Dotted => &[1.0, 3.0],
            Self::Chain => &[12.0, 3.0, 2.0, 3.0],
            Self::Beyond => &[6.0, 2.0],
            _ => &[],
        }
    }

    /// Whether it fills a face instead of, or besides, drawing its edge.
    pub fn fills(self) -> bool {
        matches!(self, Self::Face | Self::Solid | Self::HeavySolid | Self::Allowed)
    }
}

/// A place, x to the right and y down.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

/// A rectangle that something takes up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area {
    /// Its left edge.
    pub left: f64,
    /// Its upper edge.
    pub top: f64,
    /// Its right edge.
    pub right: f64,
    /// Its lower edge.
    pub bottom: f64,
}

impl Area {
    /// The least area that holds all of some points; none of no points.
    pub fn around(points: impl IntoIterator<Item = Point>) -> Option<Self> {
        let one = |p: Point| Self { left: p.x, top: p.y, right: p.x, bottom: p.y };
        points.into_iter().map(one).reduce(Self::with)
    }

    /// The least area that holds both.
    #[must_use]
    pub fn with(self, other: Self) -> Self {
        Self {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }

    /// The area, smaller on every side; larger for a negative figure.
    #[must_use]
    pub fn shrunk(self, by: f64) -> Self {
        Self { left: self.left + by, top: self.top + by, right: self.right - by, bottom: self.bottom - by }
    }

    /// Whether the two share more than an edge.
    pub fn overlaps(self, other: Self) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }
}

/// SVG path data with its role.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Path {
    /// The data.
    pub d: String,
    /// What it is.
    pub stroke: Stroke,
}

/// A stroke through points, as path data.
pub fn through(points: &[Point], closed: bool) -> String {
    let mut d = String::new();
    for (index, p) in points.iter().enumerate() {
        // Writing to a String cannot fail.
        let _ = write!(d, "{}{} {}", if index == 0 { "M" } else { "L" }, short(p.x), short(p.y));
    }
    if closed {
        d.push('Z');
    }
    d
}

/// A circle as path data.
pub fn circle(centre: Point, radius: f64) -> String {
    let (x, y, r) = (short(centre.x - radius), short(centre.y), short(radius));
    let across = short(2.0 * radius);
    format!("M{x} {y}a{r} {r} 0 1 0 {across} 0a{r} {r} 0 1 0 -{across} 0Z")
}

/// A coordinate to a hundredth of a pixel: finer than any screen, and no tail of digits.
pub fn short(value: f64) -> String {
    let rounded = (value * 100.0).round() / 100.0;
    format!("{}", if rounded == 0.0 { 0.0 } else { rounded })
}

string_enum! {
    /// Where a text stands to its point, as SVG's `text-anchor`.
    "anchor" pub enum Anchor {
        /// Begins there.
        Start = "start",
        /// Is centred there.
        Middle = "middle",
        /// Ends there.
        End = "end",
    }
}

/// One line of text.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Text {
    /// Where its baseline begins, is centred or ends.
    pub at: Point,
    /// Which of these.
    pub anchor: Anchor,
    /// What it says.
    pub text: String,
    /// In which face.
    pub face: Face,
}

impl Text {
    /// The room that it takes up, in a face as wide as any that a system is likely to use.
    pub fn area(&self) -> Area {
        let wide = width(&self.text, self.face);
        let left = match self.anchor {
            Anchor::Start => self.at.x,
            Anchor::Middle => self.at.x - wide / 2.0,
            Anchor::End => self.at.x - wide,
        };
        Area { left, right: left + wide, top: self.at.y - 0.78 * TEXT, bottom: self.at.y + 0.24 * TEXT }
    }
}

/// A drawing: paths below, texts above.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Picture {
    /// Its width in pixels.
    pub width: f64,
    /// Its height in pixels.
    pub height: f64,
    /// Its paths, the lowest first.
    pub paths: Vec<Path>,
    /// Its texts.
    pub texts: Vec<Text>,
}

impl Picture {
    /// Adds a path.
    pub fn path(&mut self, d: impl Into<String>, stroke: Stroke) {
        self.paths.push(Path { d: d.into(), stroke });
    }

    /// Adds a text.
    pub fn text(&mut self, x: f64, y: f64, anchor: Anchor, face: Face, text: impl Into<String>) {
        self.texts.push(Text { at: Point { x, y }, anchor, text: text.into(), face });
    }

    /// Adds a text, unless it lies over one that is there or outside the field.
    pub fn text_if_free(&mut self, x: f64, y: f64, anchor: Anchor, face: Face, text: impl Into<String>) -> bool {
        let new = Text { at: Point { x, y }, anchor, text: text.into(), face };
        let area = new.area();
        let inside = area.left >= 0.0 && area.top >= 0.0 && area.right <= self.width && area.bottom <= self.height;
        let free = inside && !self.texts.iter().any(|known| known.area().shrunk(-1.0).overlaps(area));
        if free {
            self.texts.push(new);
        }
        free
    }
}
