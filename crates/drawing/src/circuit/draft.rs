//! A drawing in the making: symbols, lines and labels along the way of the oil, turned into a sheet at the end.
//!
//! u runs along the oil's way from the tank to the head, v across it. A tall sheet has the head on top (u goes up, v to the right), a
//! wide one on the right (u to the right, v down): both are turns of the same, so that no symbol is ever mirrored.

use super::super::shape::{Anchor, Area, Point, Stroke, Text};
use super::super::text::{TEXT, width};
use super::block::{Block, LEADING, LEADING_NUMBERED, ROUND};
use super::sheet::{Form, Line, Shape, Sheet, Symbol, TALL_WIDTH};
use super::symbol::{Glyph, Mark};
use workshop::schema::{Part, State};

/// Room around what is drawn.
const MARGIN: f64 = 4.0;

/// Where a label stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Seat {
    /// At this u, on the side of lower v, ending at this v.
    Before(f64, f64),
    /// At this u, on the side of higher v, beginning at this v.
    After(f64, f64),
    /// Centred.
    Amid(f64, f64),
}

/// A place (u, v).
type Place = (f64, f64);

/// A sheet in the making.
#[derive(Debug)]
pub struct Draft {
    form: Form,
    symbols: Vec<(Part, State, Vec<usize>, Glyph, Place)>,
    tanks: Vec<(f64, f64)>,
    tank: Option<(State, Vec<usize>, Trough)>,
    lines: Vec<(Part, Stroke, Vec<Place>)>,
    dots: Vec<((f64, f64), Stroke)>,
    blocks: Vec<(Part, Block, Seat)>,
    borders: Vec<f64>,
}

/// The tank: a trough between two corners (u, v), and where lines dip into it.
type Trough = ((f64, f64), (f64, f64), Vec<((f64, f64), Stroke)>);

impl Draft {
    pub fn new(form: Form) -> Self {
        Self {
            form,
            symbols: Vec::new(),
            tanks: Vec::new(),
            tank: None,
            lines: Vec::new(),
            dots: Vec::new(),
            blocks: Vec::new(),
            borders: Vec::new(),
        }
    }

    pub fn symbol(&mut self, part: Part, state: State, numbers: &[usize], glyph: Glyph, at: (f64, f64)) {
        self.symbols.push((part, state, numbers.to_vec(), glyph, at));
    }

    pub fn line(&mut self, part: Part, stroke: Stroke, points: &[(f64, f64)]) {
        let mut kept: Vec<(f64, f64)> = Vec::new();
        for &point in points {
            if kept.last() != Some(&point) {
                kept.push(point);
            }
        }
        if kept.len() > 1 {
            self.lines.push((part, stroke, kept));
        }
    }

    /// Where lines meet.
    pub fn dot(&mut self, at: (f64, f64), stroke: Stroke) {
        let fill = if stroke == Stroke::Heavy { Stroke::HeavySolid } else { Stroke::Solid };
        self.dots.push((at, fill));
    }

    /// A line that ends in the tank right there: the small trough of a drain.
    pub fn drained(&mut self, part: Part, stroke: Stroke, (u, v): (f64, f64)) {
        let end = match self.form {
            Form::Tall => (u - 6.0, v),
            Form::Wide => {
                self.line(part, stroke, &[(u, v), (u - 8.0, v), (u - 8.0, v + 8.0)]);
                self.tanks.push((u - 8.0, v + 8.0));
                return;
            }
        };
        self.line(part, stroke, &[(u, v), end]);
        self.tanks.push(end);
    }

    pub fn trough(&mut self, state: State, numbers: &[usize], trough: Trough) {
        self.tank = Some((state, numbers.to_vec(), trough));
    }

    pub fn block(&mut self, part: Part, block: Block, seat: Seat) {
        if !block.is_empty() {
            self.blocks.push((part, block, seat));
        }
    }

    /// A line across everything, where machine and head meet.
    pub fn border(&mut self, u: f64) {
        self.borders.push(u);
    }

    fn at(&self, (u, v): (f64, f64)) -> Point {
        match self.form {
            Form::Tall => Point { x: v, y: -u },
            Form::Wide => Point { x: u, y: v },
        }
    }

    /// The sheet; `breadth` is the whole extent across the oil's way.
    pub fn sheet(&self, breadth: f64) -> Sheet {
        let mut sheet = Sheet::default();
        for (part, state, numbers, glyph, place) in &self.symbols {
            sheet.symbols.push(self.placed(*part, *state, numbers, glyph, *place));
        }
        if let Some((state, numbers, trough)) = &self.tank {
            sheet.symbols.push(self.tank(*state, numbers, trough));
        }
        for tank in &self.tanks {
            sheet.symbols.push(self.small_tank(*tank));
        }
        for (part, stroke, points) in &self.lines {
            let points: Vec<_> = points.iter().map(|&point| self.at(point)).collect();
            sheet.lines.push(Line { part: *part, stroke: *stroke, points });
        }
        for (at, stroke) in &self.dots {
            sheet.dots.push((self.at(*at), *stroke));
        }
        for (part, block, seat) in &self.blocks {
            self.seat(&mut sheet, *part, block, *seat);
        }
        for &u in &self.borders {
            sheet.lines.push(Line {
                part: Part::Couplings,
                stroke: Stroke::Chain,
                points: vec![self.at((u, 0.0)), self.at((u, breadth))],
            });
        }
        let fixed = (self.form == Form::Tall).then_some(TALL_WIDTH);
        sheet.settle(MARGIN, fixed);
        sheet
    }

    fn placed(&self, part: Part, state: State, numbers: &[usize], glyph: &Glyph, (u, v): (f64, f64)) -> Symbol {
        let at = |(a, b): (f64, f64)| self.at((u + a, v + b));
        let corners = [(glyph.along.0, glyph.across.0), (glyph.along.1, glyph.across.1)].map(at);
        let marks = glyph.marks.iter().map(|(mark, stroke)| match mark {
            Mark::Along(points, closed) => (Shape::Along(points.iter().map(|&p| at(p)).collect(), *closed), *stroke),
            Mark::Round(centre, radius) => (Shape::Round(at(*centre), *radius), *stroke),
        });
        let area = Area::around(corners).unwrap_or(Area { left: 0.0, top: 0.0, right: 0.0, bottom: 0.0 });
        Symbol { part, state, numbers: numbers.to_vec(), area, shapes: marks.collect() }
    }

    fn tank(&self, state: State, numbers: &[usize], (one, other, dips): &Trough) -> Symbol {
        let area = Area::around([self.at(*one), self.at(*other)]);
        let area = area.unwrap_or(Area { left: 0.0, top: 0.0, right: 0.0, bottom: 0.0 });
        let stroke = if state == State::NotStated { Stroke::Dotted } else { Stroke::Thin };
        let corner = |x: f64, y: f64| Point { x, y };
        let walls = [
            corner(area.left, area.top),
            corner(area.left, area.bottom),
            corner(area.right, area.bottom),
            corner(area.right, area.top),
        ];
        let mut shapes = vec![(Shape::Along(walls.to_vec(), false), stroke)];
        for &(dip, stroke) in dips {
            let top = self.at(dip);
            let below = Point { x: top.x, y: area.bottom - 5.0 };
            shapes.push((Shape::Along(vec![Point { y: area.top, ..top }, below], false), stroke));
        }
        Symbol { part: Part::Tank, state, numbers: numbers.to_vec(), area, shapes }
    }

    fn small_tank(&self, place: (f64, f64)) -> Symbol {
        let top = self.at(place);
        let area = Area { left: top.x - 8.0, top: top.y, right: top.x + 8.0, bottom: top.y + 9.0 };
        let walls = [(area.left, area.top + 1.0), (area.left, area.bottom), (area.right, area.bottom)];
        let mut walls: Vec<_> = walls.map(|(x, y)| Point { x, y }).to_vec();
        walls.push(Point { x: area.right, y: area.top + 1.0 });
        let dip = vec![top, Point { y: top.y + 5.0, ..top }];
        let shapes = vec![(Shape::Along(walls, false), Stroke::Thin), (Shape::Along(dip, false), Stroke::Thin)];
        Symbol { part: Part::Tank, state: State::Stands, numbers: Vec::new(), area, shapes }
    }

    /// Sets a label's rows.
    fn seat(&self, sheet: &mut Sheet, part: Part, block: &Block, seat: Seat) {
        let most = self.form.label(part);
        let (wide, high) = block.size(most);
        let (anchor, x, top) = match (self.form, seat) {
            (Form::Tall, Seat::Before(u, v)) => (Anchor::End, v, -u - high / 2.0),
            (Form::Tall, Seat::After(u, v)) => (Anchor::Start, v, -u - high / 2.0),
            (Form::Tall, Seat::Amid(u, v)) => (Anchor::Middle, v, -u - high / 2.0),
            (Form::Wide, Seat::Before(u, v)) => (Anchor::Middle, u, v - high),
            (Form::Wide, Seat::After(u, v)) => (Anchor::Middle, u, v),
            (Form::Wide, Seat::Amid(u, v)) => (Anchor::Middle, u, v - high / 2.0),
        };
        let left = match anchor {
            Anchor::Start => x,
            Anchor::Middle => x - wide / 2.0,
            Anchor::End => x - wide,
        };
        let mut y = top;
        for (numbered, line) in block.rows(most) {
            let leading = if numbered { LEADING_NUMBERED } else { LEADING };
            let baseline = y + leading / 2.0 + 0.27 * TEXT;
            let mut begin = left;
            if numbered {
                let own = line.map_or(0.0, |(text, face)| width(text, *face)) + block.numbers_wide();
                begin = match anchor {
                    Anchor::Start => left,
                    Anchor::Middle => x - own / 2.0,
                    Anchor::End => x - own,
                };
                for number in &block.numbers {
                    let centre = Point { x: begin + ROUND, y: y + leading / 2.0 };
                    sheet.rounds.push((centre, *number));
                    begin += 2.0 * (ROUND + 1.5);
                }
            }
            if let Some((text, face)) = line {
                let (at, anchor) = if numbered { (begin, Anchor::Start) } else { (x, anchor) };
                let at = Point { x: at, y: baseline };
                sheet.labels.push((part, Text { at, anchor, text: text.clone(), face: *face }));
            }
            y += leading;
        }
    }
}
