//! Where the parts of a circuit stand: four tracks along the way of the oil (to the head, back through the valve, back from the head,
//! drain), and stations one after another from the tank to the head. A station takes as much room as its largest part or label does
//! in either stage, so that before and after lie one over the other.

use super::super::shape::Stroke;
use super::block::Block;
use super::draft::{Draft, Seat};
use super::label::Writer;
use super::sheet::{Form, Sheet, TALL_WIDTH};
use super::symbol;
use table::ReturnRoute;
use workshop::schema::{Part, Schema, State};

mod head;
mod machine;
mod valves;

/// How far labels stay from a line without a symbol.
pub const PLAIN: f64 = 14.0;
/// Between stations.
const GAP: f64 = 12.0;

/// The tracks' places across the way of the oil.
#[derive(Clone, Copy)]
struct Tracks {
    /// Supply.
    s: f64,
    /// Return through the valve, below the spool.
    t: f64,
    /// Return from the head.
    r: f64,
    /// Drain of the motor's housing.
    c: f64,
    /// The far edge.
    breadth: f64,
}

impl Tracks {
    fn of(form: Form) -> Self {
        match form {
            Form::Tall => Self { s: 92.0, t: 146.0, r: 232.0, c: 318.0, breadth: TALL_WIDTH },
            Form::Wide => Self { s: 112.0, t: 172.0, r: 262.0, c: 342.0, breadth: 352.0 },
        }
    }
}

/// Lays a circuit out. `all` are the stages for which room is kept; `shown`, one of them, is drawn.
pub fn lay_out(shown: &Schema, all: &[&Schema], writer: &Writer, form: Form, model: &str) -> Sheet {
    let tracks = Tracks::of(form);
    let mut layout = Layout {
        shown,
        all,
        writer,
        form,
        tracks,
        draft: Draft::new(form),
        free: 0.0,
        supply_from: (0.0, tracks.s),
        dips: Vec::new(),
        placed: Vec::new(),
        joint: 0.0,
        return_from: (0.0, tracks.r),
    };
    layout.source();
    layout.valves();
    layout.head(model);
    layout.tank();
    layout.draft.sheet(tracks.breadth)
}

struct Layout<'a> {
    shown: &'a Schema,
    all: &'a [&'a Schema],
    writer: &'a Writer<'a>,
    form: Form,
    tracks: Tracks,
    draft: Draft,
    /// Up to where the way of the oil is taken.
    free: f64,
    /// From where the supply goes on.
    supply_from: (f64, f64),
    /// Where lines dip into the tank.
    dips: Vec<((f64, f64), Stroke)>,
    /// What stands in the ways back: whether in the head's own, and where.
    placed: Vec<(Part, bool, f64)>,
    /// Where a return past the valve joins the machine's.
    joint: f64,
    /// From where the head's return goes on down.
    return_from: (f64, f64),
}

impl Layout<'_> {
    /// Whether a part is there in any stage: then it has a place.
    fn ever(&self, part: Part) -> bool {
        self.all.iter().any(|schema| schema.has(part))
    }

    /// Whether the return ever goes through the valve, so that there is a way back from it.
    fn through_valve(&self) -> bool {
        self.all.iter().any(|schema| schema.route != Some(ReturnRoute::Direct))
    }

    fn shows(&self, part: Part) -> bool {
        self.shown.has(part)
    }

    fn state(&self, part: Part) -> State {
        self.shown.get(part).map_or(State::Stands, |fitted| fitted.state)
    }

    fn numbers(&self, part: Part) -> Vec<usize> {
        self.shown.get(part).map_or_else(Vec::new, |fitted| fitted.numbers.clone())
    }

    /// How a line of a part is drawn.
    fn stroke(&self, part: Part) -> Stroke {
        match self.state(part) {
            State::Stands => Stroke::Thin,
            State::Added => Stroke::Heavy,
            State::NotStated => Stroke::Dotted,
        }
    }

    /// How a drain or a pilot line of a part is drawn.
    fn drain_stroke(&self, part: Part) -> Stroke {
        match self.state(part) {
            State::Stands => Stroke::Drain,
            State::Added => Stroke::HeavyDrain,
            State::NotStated => Stroke::Dotted,
        }
    }

    fn block(&self, part: Part) -> Block {
        self.writer.block(self.shown, part, self.form)
    }

    /// How far a label reaches along the way of the oil.
    fn along(&self, part: Part, block: &Block) -> f64 {
        if block.is_empty() {
            return 0.0;
        }
        let (wide, high) = block.size(self.form.label(part));
        match self.form {
            Form::Tall => high,
            Form::Wide => wide,
        }
    }

    /// Half of what a part's label may take along the way, in any stage.
    fn half(&self, part: Part) -> f64 {
        let blocks = self.all.iter().map(|schema| self.along(part, &self.writer.block(schema, part, self.form)));
        blocks.fold(0.0, f64::max) / 2.0
    }

    /// Half of what a label put together of several parts' may take along the way, in any stage.
    fn half_of(&self, part: Part, block: impl Fn(&Self, &Schema) -> Block) -> f64 {
        self.all.iter().map(|schema| self.along(part, &block(self, schema))).fold(0.0, f64::max) / 2.0
    }

    /// A part's label with the numbers of another that has none of its own.
    fn block_with(&self, schema: &Schema, part: Part, other: Part) -> Block {
        let mut block = self.writer.block(schema, part, self.form);
        block.numbers.extend(schema.get(other).iter().flat_map(|fitted| &fitted.numbers));
        block.numbers.sort_unstable();
        block.numbers.dedup();
        block
    }

    /// Takes room along the way: so much before and behind the place that is given back.
    fn station(&mut self, before: f64, behind: f64) -> f64 {
        let at = self.free + before;
        self.free = at + behind + GAP;
        at
    }

    /// The supply goes on to a place; behind it it begins anew.
    fn supply(&mut self, part: Part, to: f64, begins: f64) {
        let stroke = self.stroke(part);
        let end = (to, self.tracks.s);
        self.draft.line(part, stroke, &[self.supply_from, end]);
        self.supply_from = (begins, self.tracks.s);
    }

    /// A label before the supply, at a symbol that reaches so far from it.
    fn before_supply(&mut self, part: Part, at: f64, reach: f64) {
        let block = self.block(part);
        self.draft.block(part, block, Seat::Before(at, self.tracks.s - (reach + 6.0).max(PLAIN)));
    }

    fn put(&mut self, part: Part, glyph: symbol::Glyph, at: (f64, f64)) {
        let (state, numbers) = (self.state(part), self.numbers(part));
        self.draft.symbol(part, state, &numbers, glyph, at);
    }

    /// A relief that branches off a line at (u, v) and opens into the tank, on the side of higher v.
    fn relief_to_tank(&mut self, part: Part, (u, v): (f64, f64)) {
        let stroke = self.stroke(part);
        let place = (u - 24.0, v + 27.0);
        self.draft.dot((u, v), stroke);
        self.draft.line(part, stroke, &[(u, v), (u, place.1), (place.0 + 16.0, place.1)]);
        self.put(part, symbol::relief(self.state(part)), place);
        self.draft.drained(part, stroke, (place.0 - 14.0, place.1));
    }

    /// The tank at the foot of it all.
    fn tank(&mut self) {
        let t = self.tracks;
        let block = self.block(Part::Tank);
        let (state, numbers) = (self.state(Part::Tank), self.numbers(Part::Tank));
        let dips = std::mem::take(&mut self.dips);
        match self.form {
            Form::Tall => {
                self.draft.trough(
                    state,
                    &numbers,
                    ((TROUGH_TALL, t.s - 28.0), (TROUGH_TALL - 24.0, t.breadth - 4.0), dips),
                );
                self.draft.block(Part::Tank, block, Seat::Before(TROUGH_TALL - 12.0, t.s - 34.0));
            }
            Form::Wide => {
                self.draft.trough(state, &numbers, ((8.0, TROUGH_WIDE), (132.0, TROUGH_WIDE + 26.0), dips));
                let at = 140.0 + self.along(Part::Tank, &block) / 2.0;
                self.draft.block(Part::Tank, block, Seat::After(at, TROUGH_WIDE - 4.0));
            }
        }
    }

    /// A line that comes down a track ends in the tank. `drop` is where it goes down on a wide sheet.
    fn ends_in_tank(&mut self, part: Part, stroke: Stroke, from: (f64, f64), drop: f64) {
        let points = match self.form {
            Form::Tall => vec![from, (TROUGH_TALL, from.1)],
            Form::Wide => vec![from, (drop, from.1), (drop, TROUGH_WIDE)],
        };
        self.draft.line(part, stroke, &points);
        self.dips.extend(points.last().map(|&end| (end, stroke)));
    }
}

/// The tank's upper edge on a tall sheet, along the way of the oil.
const TROUGH_TALL: f64 = -26.0;
/// The tank's upper edge on a wide sheet, across it.
const TROUGH_WIDE: f64 = 372.0;
