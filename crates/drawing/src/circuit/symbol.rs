//! Symbols of hydraulic parts, drawn by ourselves after the general rules of ISO 1219-1 as they are taught: a circle for what
//! turns oil into motion or back, a filled triangle for the way of the oil, square envelopes for valves, a diamond for what
//! conditions the oil, short dashes for drains and pilots, zigzags for springs. From memory of those rules; no conformity is
//! claimed.
//!
//! A symbol stands on a line: a along it, towards the head; b across it. Whoever places it turns it.

use super::super::shape::Stroke;
use workshop::schema::State;

/// A mark of a symbol, in its own coordinates.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A stroke through points, perhaps closed.
    Along(Vec<(f64, f64)>, bool),
    /// A circle.
    Round((f64, f64), f64),
}

/// A symbol in its own coordinates.
#[derive(Clone, Debug, PartialEq)]
pub struct Glyph {
    /// From where to where along the line.
    pub along: (f64, f64),
    /// From where to where across it.
    pub across: (f64, f64),
    /// Its marks, the lowest first.
    pub marks: Vec<(Mark, Stroke)>,
}

/// Builds glyphs of parts in one state.
struct Pen {
    glyph: Glyph,
    line: Stroke,
    fill: Stroke,
}

impl Pen {
    fn new(state: State, along: (f64, f64), across: (f64, f64)) -> Self {
        let (line, fill) = match state {
            State::Stands => (Stroke::Thin, Stroke::Solid),
            State::Added => (Stroke::Heavy, Stroke::HeavySolid),
            State::NotStated => (Stroke::Dotted, Stroke::Dotted),
        };
        Self { glyph: Glyph { along, across, marks: Vec::new() }, line, fill }
    }

    fn line(mut self, points: &[(f64, f64)]) -> Self {
        self.glyph.marks.push((Mark::Along(points.to_vec(), false), self.line));
        self
    }

    fn shape(mut self, points: &[(f64, f64)]) -> Self {
        self.glyph.marks.push((Mark::Along(points.to_vec(), true), self.line));
        self
    }

    fn solid(mut self, points: &[(f64, f64)]) -> Self {
        self.glyph.marks.push((Mark::Along(points.to_vec(), true), self.fill));
        self
    }

    fn round(mut self, centre: (f64, f64), radius: f64) -> Self {
        self.glyph.marks.push((Mark::Round(centre, radius), self.line));
        self
    }

    /// A pilot line within the symbol.
    fn pilot(mut self, points: &[(f64, f64)]) -> Self {
        self.glyph.marks.push((Mark::Along(points.to_vec(), false), Stroke::Drain));
        self
    }

    fn square(self, (a0, a1): (f64, f64), (b0, b1): (f64, f64)) -> Self {
        self.shape(&[(a0, b0), (a1, b0), (a1, b1), (a0, b1)])
    }

    /// A spring across, from b0 to b1 at a.
    fn spring(self, a: f64, b0: f64, b1: f64) -> Self {
        let step = (b1 - b0) / 4.0;
        let zigzag: Vec<_> =
            (0..=4).map(|i| (a + if i % 2 == 0 { -4.0 } else { 4.0 }, b0 + step * f64::from(i))).collect();
        self.line(&zigzag)
    }

    /// A shaft with the tip of an arrow.
    fn arrow(self, from: (f64, f64), to: (f64, f64)) -> Self {
        let (da, db) = (to.0 - from.0, to.1 - from.1);
        let length = da.hypot(db);
        let (ea, eb) = (da / length, db / length);
        let back = (to.0 - 6.0 * ea, to.1 - 6.0 * eb);
        let tip = [to, (back.0 - 2.6 * eb, back.1 + 2.6 * ea), (back.0 + 2.6 * eb, back.1 - 2.6 * ea)];
        self.line(&[from, back]).solid(&tip)
    }

    fn end(self) -> Glyph {
        self.glyph
    }
}

/// A pump: a circle with the triangle pointing out; across it an arrow where its flow is commanded.
pub fn pump(state: State, variable: bool) -> Glyph {
    let pen = Pen::new(state, (-14.0, 14.0), (-14.0, 14.0));
    let pen = pen.round((0.0, 0.0), 13.0).line(&[(-14.0, 0.0), (-13.0, 0.0)]).line(&[(13.0, 0.0), (14.0, 0.0)]);
    let pen = pen.solid(&[(13.0, 0.0), (4.0, -5.5), (4.0, 5.5)]);
    if variable { pen.arrow((-11.0, -13.0), (12.0, 13.0)).end() } else { pen.end() }
}

/// A motor on a line across: oil comes in at b −17 and leaves at +17; its shaft goes on along the line, its drain leaves beside it.
pub fn motor(state: State, drains: bool) -> Glyph {
    let pen = Pen::new(state, (-17.0, 26.0), (-17.0, 17.0));
    let pen = pen.round((0.0, 0.0), 16.0).line(&[(0.0, -17.0), (0.0, -16.0)]).line(&[(0.0, 16.0), (0.0, 17.0)]);
    let pen = pen.solid(&[(0.0, -7.0), (-5.5, -16.0), (5.5, -16.0)]);
    // The shaft, as two lines, with the way it turns.
    let pen = pen.line(&[(16.0, -2.0), (26.0, -2.0)]).line(&[(16.0, 2.0), (26.0, 2.0)]);
    let mut pen = pen;
    if drains {
        pen.glyph.marks.push((Mark::Along(vec![(12.0, 11.0), (26.0, 11.0)], false), Stroke::Drain));
    }
    pen.end()
}

/// What strikes: a cylinder whose piston drives a tool out along the line.
pub fn striker(state: State) -> Glyph {
    let pen = Pen::new(state, (-17.0, 26.0), (-17.0, 17.0)).square((-12.0, 10.0), (-12.0, 12.0));
    let pen = pen.line(&[(0.0, -17.0), (0.0, -12.0)]).line(&[(0.0, 12.0), (0.0, 17.0)]);
    let pen = pen.line(&[(-2.0, -12.0), (-2.0, 12.0)]).line(&[(2.0, -12.0), (2.0, 12.0)]);
    pen.line(&[(2.0, -2.5), (26.0, -2.5)]).line(&[(2.0, 2.5), (26.0, 2.5)]).end()
}

/// A relief that opens against a spring; oil comes in at a +12 and leaves at −12.
pub fn relief(state: State) -> Glyph {
    let pen = Pen::new(state, (-14.0, 16.0), (-18.0, 20.0)).square((-11.0, 11.0), (-11.0, 11.0));
    let pen = pen.line(&[(11.0, 0.0), (16.0, 0.0)]).line(&[(-11.0, 0.0), (-14.0, 0.0)]);
    let pen = pen.arrow((11.0, 4.0), (-11.0, 4.0)).spring(0.0, 11.0, 20.0);
    pen.pilot(&[(14.0, 0.0), (14.0, -17.0), (0.0, -17.0), (0.0, -11.0)]).end()
}

/// A priority flow divider: what comes in at a −15 goes on along the line first; the rest leaves at b −15.
pub fn divider(state: State) -> Glyph {
    let pen = Pen::new(state, (-15.0, 15.0), (-15.0, 15.0)).square((-15.0, 15.0), (-15.0, 15.0));
    let pen = pen.line(&[(-15.0, 0.0), (15.0, 0.0)]).arrow((-4.0, 0.0), (-4.0, -15.0));
    // The metering throat of the side that comes first.
    let left = [(11.0, -6.0), (8.0, -3.0), (4.0, -3.0), (1.0, -6.0)];
    let right = [(11.0, 6.0), (8.0, 3.0), (4.0, 3.0), (1.0, 6.0)];
    pen.line(&left).line(&right).end()
}

/// A flow regulator: a throat with the arrow of what is set, in an envelope.
pub fn flow_limit(state: State) -> Glyph {
    let pen = Pen::new(state, (-13.0, 13.0), (-13.0, 13.0)).square((-13.0, 13.0), (-13.0, 13.0));
    let pen = pen.line(&[(-13.0, 0.0), (13.0, 0.0)]);
    let left = [(7.0, -7.0), (3.0, -3.5), (-3.0, -3.5), (-7.0, -7.0)];
    let right = [(7.0, 7.0), (3.0, 3.5), (-3.0, 3.5), (-7.0, 7.0)];
    pen.line(&left).line(&right).arrow((-9.0, -10.0), (10.0, 9.0)).end()
}

/// A spool valve: P and T at a −13 and A and B at +13, on b 0 and 12; the box at rest shut, the next with the oil straight through,
/// a third with it crossed where the oil can be sent both ways. A lever on one side, springs that centre it.
pub fn spool(state: State, two_way: bool) -> Glyph {
    let end = if two_way { 45.0 } else { 19.0 };
    let pen = Pen::new(state, (-13.0, 13.0), (-43.0, end + 10.0));
    let pen = pen.square((-13.0, 13.0), (-33.0, -7.0)).square((-13.0, 13.0), (-7.0, 19.0));
    // Shut at rest.
    let mut pen = pen;
    for b in [0.0, 12.0] {
        pen = pen.line(&[(-13.0, b), (-7.0, b)]).line(&[(-7.0, b - 3.0), (-7.0, b + 3.0)]);
        pen = pen.line(&[(13.0, b), (7.0, b)]).line(&[(7.0, b - 3.0), (7.0, b + 3.0)]);
    }
    pen = pen.arrow((-13.0, -26.0), (13.0, -26.0)).arrow((13.0, -14.0), (-13.0, -14.0));
    if two_way {
        pen = pen.square((-13.0, 13.0), (19.0, 45.0));
        pen = pen.arrow((-13.0, 26.0), (13.0, 38.0)).arrow((13.0, 26.0), (-13.0, 38.0));
    }
    // The lever and the spring.
    pen.line(&[(0.0, -33.0), (0.0, -40.0)]).line(&[(-5.0, -43.0), (5.0, -37.0)]).spring(0.0, end, end + 10.0).end()
}

/// A lock of the reverse: a bolt on the box whose way it bars, from a 1 on.
pub fn reverse_lock(state: State) -> Glyph {
    let pen = Pen::new(state, (0.6, 11.0), (-9.0, 9.0));
    pen.line(&[(2.0, -9.0), (2.0, 9.0)]).square((2.0, 9.5), (-5.0, 5.0)).end()
}

/// A valve between one line and two: at one end of its box a port at b 0 and one beside it at b 12·`side`, at the other end one
/// at b 0. At rest the oil goes straight; in its other box, which lies on the other side, from or to the port beside. `two_at`
/// says at which end the two ports are, `towards` which way the oil goes: 1 for the head's, −1 for the machine's.
pub fn changeover(state: State, side: f64, two_at: f64, towards: f64) -> Glyph {
    let (near, far) = (20.0 * side, -8.0 * side);
    let other = far - 28.0 * side;
    let pen = Pen::new(state, (-13.0, 13.0), (near.min(other), near.max(other)));
    let pen = pen.square((-13.0, 13.0), (far, near)).square((-13.0, 13.0), (other, far));
    let end = 13.0 * two_at;
    let shut = |pen: Pen, b: f64| {
        pen.line(&[(end, b), (end - 6.0 * two_at, b)])
            .line(&[(end - 6.0 * two_at, b - 3.0), (end - 6.0 * two_at, b + 3.0)])
    };
    let (straight, beside) = (far - 20.0 * side, far - 8.0 * side);
    let pen = pen.arrow((-13.0 * towards, 0.0), (13.0 * towards, 0.0));
    let crossed = [(-end, straight), (end, beside)];
    let (from, to) =
        if (two_at > 0.0) == (towards > 0.0) { (crossed[0], crossed[1]) } else { (crossed[1], crossed[0]) };
    shut(shut(pen.arrow(from, to), straight), 12.0 * side).end()
}

/// A valve on a line that shuts it off: two triangles, tip to tip.
pub fn shut_off(state: State) -> Glyph {
    let pen = Pen::new(state, (-8.0, 8.0), (-10.0, 10.0));
    pen.shape(&[(-7.0, -10.0), (7.0, -10.0), (-7.0, 10.0), (7.0, 10.0)]).end()
}

/// A double-acting cylinder across the line, its ports at its ends.
pub fn cylinder(state: State) -> Glyph {
    let pen = Pen::new(state, (-9.0, 9.0), (-24.0, 24.0)).square((-9.0, 9.0), (-24.0, 16.0));
    let pen = pen.line(&[(-9.0, -6.0), (9.0, -6.0)]).line(&[(-9.0, -2.0), (9.0, -2.0)]);
    pen.line(&[(-2.0, -2.0), (-2.0, 24.0)]).line(&[(2.0, -2.0), (2.0, 24.0)]).end()
}

/// A valve on and off: shut at rest, straight through when switched.
pub fn on_off(state: State) -> Glyph {
    let pen = Pen::new(state, (-11.0, 11.0), (-33.0, 20.0));
    let pen = pen.square((-11.0, 11.0), (-11.0, 11.0)).square((-11.0, 11.0), (-33.0, -11.0));
    let pen = pen.line(&[(-11.0, 0.0), (-6.0, 0.0)]).line(&[(-6.0, -3.0), (-6.0, 3.0)]);
    let pen = pen.line(&[(11.0, 0.0), (6.0, 0.0)]).line(&[(6.0, -3.0), (6.0, 3.0)]);
    pen.arrow((-11.0, -22.0), (11.0, -22.0)).spring(0.0, 11.0, 20.0).end()
}

/// A valve block with three boxes: P and T at a −11, on b −6 and 6; A and B at +11.
pub fn block(state: State) -> Glyph {
    let pen = Pen::new(state, (-11.0, 11.0), (-36.0, 36.0));
    let pen = pen.square((-11.0, 11.0), (-36.0, -12.0)).square((-11.0, 11.0), (-12.0, 12.0));
    let mut pen = pen.square((-11.0, 11.0), (12.0, 36.0));
    for b in [-6.0, 6.0] {
        pen = pen.line(&[(-11.0, b), (-6.0, b)]).line(&[(-6.0, b - 2.5), (-6.0, b + 2.5)]);
        pen = pen.line(&[(11.0, b), (6.0, b)]).line(&[(6.0, b - 2.5), (6.0, b + 2.5)]);
    }
    pen = pen.arrow((-11.0, -30.0), (11.0, -30.0)).arrow((11.0, -18.0), (-11.0, -18.0));
    pen.arrow((-11.0, 18.0), (11.0, 30.0)).arrow((11.0, 18.0), (-11.0, 30.0)).end()
}

/// A coupled pair with its check valves.
pub fn coupling(state: State) -> Glyph {
    let pen = Pen::new(state, (-10.0, 10.0), (-8.0, 8.0));
    let pen = pen.line(&[(-10.0, 0.0), (-7.0, 0.0)]).line(&[(7.0, 0.0), (10.0, 0.0)]);
    let pen = pen.line(&[(-1.5, -8.0), (-7.0, 0.0), (-1.5, 8.0)]).line(&[(1.5, -8.0), (7.0, 0.0), (1.5, 8.0)]);
    pen.line(&[(-1.5, -8.0), (-1.5, 8.0)]).line(&[(1.5, -8.0), (1.5, 8.0)]).end()
}

/// A filter: a diamond with its dashed element, and the check valve of its bypass beside it.
pub fn filter(state: State) -> Glyph {
    let pen = Pen::new(state, (-19.0, 19.0), (-29.0, 15.0));
    let pen = pen.shape(&[(-15.0, 0.0), (0.0, 15.0), (15.0, 0.0), (0.0, -15.0)]).pilot(&[(0.0, -15.0), (0.0, 15.0)]);
    let pen = pen.line(&[(-19.0, 0.0), (-15.0, 0.0)]).line(&[(15.0, 0.0), (19.0, 0.0)]);
    let pen =
        pen.line(&[(17.0, 0.0), (17.0, -23.0), (6.0, -23.0)]).line(&[(-17.0, 0.0), (-17.0, -23.0), (-5.0, -23.0)]);
    pen.round((2.0, -23.0), 4.0).line(&[(4.0, -29.0), (-5.0, -23.0), (4.0, -17.0)]).end()
}

/// A cooler: a diamond with the arrows of the heat that leaves.
pub fn cooler(state: State) -> Glyph {
    let pen = Pen::new(state, (-19.0, 19.0), (-19.0, 19.0));
    let pen = pen.shape(&[(-15.0, 0.0), (0.0, 15.0), (15.0, 0.0), (0.0, -15.0)]);
    let pen = pen.line(&[(-19.0, 0.0), (19.0, 0.0)]);
    pen.arrow((0.0, 5.0), (0.0, 19.0)).arrow((0.0, -5.0), (0.0, -19.0)).end()
}

/// A check valve on a line across: oil passes from b +11 to −11.
pub fn check(state: State) -> Glyph {
    let pen = Pen::new(state, (-8.0, 8.0), (-11.0, 11.0));
    let pen = pen.line(&[(0.0, 11.0), (0.0, 7.0)]).round((0.0, 1.0), 4.5).line(&[(0.0, -6.0), (0.0, -11.0)]);
    pen.line(&[(-7.5, 7.0), (0.0, -6.0), (7.5, 7.0)]).end()
}

/// An end that leads nowhere.
pub fn plug(state: State) -> Glyph {
    let pen = Pen::new(state, (-6.0, 6.0), (-6.0, 6.0));
    pen.line(&[(-5.0, -5.0), (5.0, 5.0)]).line(&[(-5.0, 5.0), (5.0, -5.0)]).line(&[(0.0, 0.0), (6.0, 0.0)]).end()
}

/// The tip of a line that goes on elsewhere, along b towards −6.
pub fn elsewhere(state: State) -> Glyph {
    Pen::new(state, (-5.0, 5.0), (-6.0, 6.0)).shape(&[(-5.0, 6.0), (0.0, -6.0), (5.0, 6.0)]).end()
}
