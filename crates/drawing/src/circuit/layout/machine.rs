//! From the tank to the spool, and the way back below it.

use super::super::draft::Seat;
use super::super::sheet::Form;
use super::super::symbol;
use super::{Layout, PLAIN};
use crate::shape::Stroke;
use table::ReturnRoute;
use workshop::schema::Part;

/// Where lines of a wide sheet go down to the tank.
const SUCTION: f64 = 22.0;
const BACK_DROP: f64 = 56.0;
const HEAD_DROP: f64 = 90.0;
pub(super) const CASE_DROP: f64 = 120.0;

/// Something in the way back.
type InReturn = (Part, bool);

impl Layout<'_> {
    /// Pumps, what has its oil first, relief, divider, functions; beside them what stands in the return.
    pub(super) fn source(&mut self) {
        self.pumps();
        if self.form == Form::Wide {
            // The lines that go down to the tank stand before everything else.
            self.free = self.free.max(CASE_DROP + 20.0);
        }
        let mut back = self.in_return();
        back.reverse();
        self.pump_label(&mut back);
        if self.ever(Part::First) {
            let (before, behind) = self.room_of_branch(Part::First);
            let at = self.both(before, behind, &mut back, true);
            if self.shows(Part::First) {
                self.branch(Part::First, at, 0.0);
            }
        }
        if self.ever(Part::Relief) && self.all.iter().any(|schema| schema.guards_valve) {
            let half = self.half(Part::Relief);
            let at = self.both(half.max(60.0), half.max(6.0), &mut back, false);
            if self.shown.guards_valve {
                self.relief_to_tank(Part::Relief, (at, self.tracks.s));
                self.before_supply(Part::Relief, at, 0.0);
            }
        }
        self.functions(&mut back);
        if self.ever(Part::Demand) {
            let half = self.half(Part::Demand);
            let at = self.both(half, half.max(6.0), &mut back, true);
            self.demand(at);
        }
        // What is left in the return stands by itself.
        while !back.is_empty() {
            let _ = self.both(0.0, 0.0, &mut back, true);
        }
    }

    fn pumps(&mut self) {
        let at = match self.form {
            Form::Tall => self.station(14.0, 14.0),
            Form::Wide => self.station(54.0, 14.0),
        };
        let s = self.tracks.s;
        let most = self.all.iter().map(|schema| schema.pumps).max().unwrap_or(1).min(2);
        let two = self.shown.pumps > 1;
        // The first keeps its place where a change brings a second in.
        let places: &[f64] = match (most, two) {
            (1, _) => &[0.0],
            (_, false) => &[-20.0],
            _ => &[-20.0, 20.0],
        };
        let (state, stroke) = (self.state(Part::Pump), self.stroke(Part::Pump));
        for off in places {
            let v = s + off;
            self.put(Part::Pump, symbol::pump(state, self.shown.variable), (at, v));
            if self.form == Form::Tall {
                self.draft.line(Part::Pump, stroke, &[(super::TROUGH_TALL, v), (at - 14.0, v)]);
                self.dips.push(((super::TROUGH_TALL, v), stroke));
            } else if places.len() == 1 || *off > 0.0 {
                self.draft.line(Part::Pump, stroke, &[(at - 14.0, v), (SUCTION, v), (SUCTION, super::TROUGH_WIDE)]);
                self.dips.push(((SUCTION, super::TROUGH_WIDE), stroke));
            } else {
                self.draft.line(Part::Pump, stroke, &[(at - 14.0, v), (SUCTION, v), (SUCTION, s + places[1])]);
                self.draft.dot((SUCTION, s + places[1]), stroke);
            }
            if *off != 0.0 {
                self.draft.line(Part::Pump, stroke, &[(at + 14.0, v), (at + 24.0, v), (at + 24.0, s)]);
            }
        }
        let joint = if most > 1 { at + 24.0 } else { at + 14.0 };
        if places.len() > 1 {
            self.draft.dot((joint, s), stroke);
        }
        self.free = self.free.max(joint + 8.0);
        self.supply_from = (joint, s);
    }

    /// The pumps' label: beside the line above them, or on a wide sheet above themselves.
    fn pump_label(&mut self, back: &mut Vec<InReturn>) {
        if self.form == Form::Wide {
            let block = self.block(Part::Pump);
            self.draft.block(Part::Pump, block, Seat::Before(54.0, self.tracks.s - 40.0));
            return;
        }
        let half = self.half(Part::Pump);
        let at = self.both(half, half, back, true);
        self.before_supply(Part::Pump, at, 0.0);
    }

    /// What stands in the ways back, from the tank on; whether it is in that of the head's own rather than the valve's.
    fn in_return(&self) -> Vec<InReturn> {
        let through_valve = self.through_valve();
        // The way of what is fitted is that of the stage in which it is there.
        let own = |part: Part| {
            let last = self.all.iter().rev().find(|schema| schema.has(part));
            last.is_some_and(|schema| schema.route == Some(ReturnRoute::Direct) && !(schema.joins && through_valve))
        };
        [
            (Part::MachineFilter, !through_valve),
            (Part::MachineCooler, !through_valve),
            (Part::OwnFilter, own(Part::OwnFilter)),
            (Part::OwnCooler, own(Part::OwnCooler)),
        ]
        .into_iter()
        .filter(|(part, _)| self.ever(*part))
        .collect()
    }

    /// A station with something of the supply, and where there is room what comes next in the return.
    fn both(&mut self, before: f64, behind: f64, back: &mut Vec<InReturn>, room: bool) -> f64 {
        let next = if room { back.pop() } else { None };
        let half = next.map_or(0.0, |(part, _)| self.half(part).max(19.0));
        let at = self.station(before.max(half), behind.max(half));
        if let Some((part, own)) = next {
            self.stands_in_return(part, own, at);
        }
        at
    }

    fn stands_in_return(&mut self, part: Part, own: bool, at: f64) {
        self.placed.push((part, own, at));
        if !own {
            self.joint = at + self.half(part).max(19.0) + 6.0;
        }
        if !self.shows(part) {
            return;
        }
        let v = if own { self.tracks.r } else { self.tracks.t };
        let state = self.state(part);
        let filter = matches!(part, Part::MachineFilter | Part::OwnFilter);
        let glyph = if filter { symbol::filter(state) } else { symbol::cooler(state) };
        let block = self.block(part);
        let reach = glyph.across.1;
        self.put(part, glyph, (at, v));
        self.draft.block(part, block, Seat::After(at, v + reach + 4.0));
    }

    /// A line that leaves the supply for elsewhere, from a symbol that reaches so far.
    fn branch(&mut self, part: Part, at: f64, reach: f64) {
        let s = self.tracks.s;
        let tip = s - 40.0;
        let stroke = self.stroke(part);
        if reach == 0.0 {
            self.draft.dot((at, s), stroke);
        }
        self.draft.line(part, stroke, &[(at, s - reach), (at, tip + 6.0)]);
        self.put(part, symbol::elsewhere(self.state(part)), (at, tip));
        let block = self.block(part);
        let seat = match self.form {
            Form::Tall => Seat::Before(at - 10.0_f64.max(reach + 4.0) - self.along(part, &block) / 2.0, s - PLAIN),
            // Left of its tip, where a divider's label needs the other side.
            Form::Wide if reach > 0.0 => Seat::Before(at - 4.0 - self.along(part, &block) / 2.0, tip - 8.0),
            Form::Wide => Seat::Before(at, tip - 8.0),
        };
        self.draft.block(part, block, seat);
    }

    /// The room that a branch and its label take before and behind it.
    fn room_of_branch(&self, part: Part) -> (f64, f64) {
        let half = self.half(part);
        match self.form {
            Form::Tall => ((2.0 * half + 20.0).max(18.0), 8.0),
            Form::Wide => (half.max(8.0), half.max(8.0)),
        }
    }

    /// The machine's functions, and the divider that lets the head have its oil first.
    fn functions(&mut self, back: &mut Vec<InReturn>) {
        let (before, behind) = self.room_of_branch(Part::Functions);
        let divider = if self.ever(Part::Divider) { (2.0 * self.half(Part::Divider) + 12.0).max(18.0) } else { 0.0 };
        let divided = if divider > 0.0 { 18.0 } else { 0.0 };
        let before = if self.form == Form::Wide && divider > 0.0 { 2.0 * before + 4.0 } else { before };
        let at = self.both(before.max(divided), behind.max(divider), back, true);
        if !self.shows(Part::Divider) {
            self.branch(Part::Functions, at, 0.0);
            return;
        }
        self.supply(Part::Pump, at - 15.0, at + 15.0);
        self.put(Part::Divider, symbol::divider(self.state(Part::Divider)), (at, self.tracks.s));
        self.branch(Part::Functions, at, 15.0);
        let own = self.block(Part::Divider);
        let place = Seat::Before(at + 10.0 + self.along(Part::Divider, &own) / 2.0, self.tracks.s - PLAIN - 6.0);
        self.draft.block(Part::Divider, own, place);
    }

    /// The line that tells the pump.
    fn demand(&mut self, at: f64) {
        if !self.shows(Part::Demand) {
            return;
        }
        let (s, stroke) = (self.tracks.s, self.drain_stroke(Part::Demand));
        let (foot, middle) = match self.form {
            Form::Tall => (28.0, 14.0),
            Form::Wide => (68.0, 54.0),
        };
        self.draft.dot((at, s), stroke);
        // Past a divider on its inner side, where no branch leaves.
        let points = if !self.shows(Part::Divider) {
            vec![(at, s), (at, s - 10.0), (foot, s - 10.0)]
        } else if self.shown.pumps > 1 {
            vec![(at, s), (at, s + 20.0), (foot, s + 20.0)]
        } else {
            let edge = if self.all.iter().any(|schema| schema.pumps > 1) { s - 6.0 } else { s + 14.0 };
            vec![(at, s), (at, s + 20.0), (middle, s + 20.0), (middle, edge)]
        };
        self.draft.line(Part::Demand, stroke, &points);
        self.before_supply(Part::Demand, at, 6.0);
    }

    /// The way back below the spool: from the valve, and from the head where it goes past the valve.
    pub(super) fn ways_back(&mut self, valve_port: Option<(f64, f64)>, head_from: Option<(f64, f64)>) {
        let (t, r) = (self.tracks.t, self.tracks.r);
        let placed = std::mem::take(&mut self.placed);
        let stations = |own: bool| {
            let mut all: Vec<_> =
                placed.iter().filter(|(part, of, _)| *of == own && self.shows(*part)).map(|(.., at)| *at).collect();
            all.sort_by(|a, b| b.total_cmp(a));
            all
        };
        let (through, past) = (stations(false), stations(true));
        if let Some(port) = valve_port {
            // Only the machine's own line lies below the valve: a new one ends at it.
            let unknown = self.shown.route.is_none();
            let stroke = if unknown { Stroke::Dotted } else { Stroke::Thin };
            let mut from = (port.0 - 12.0, t);
            self.draft.line(Part::ReturnLine, stroke, &[port, (port.0 - 12.0, port.1), from]);
            for at in &through {
                self.draft.line(Part::ReturnLine, stroke, &[from, (at + 19.0, t)]);
                from = (at - 19.0, t);
            }
            self.ends_in_tank(Part::ReturnLine, stroke, from, BACK_DROP);
        }
        if let Some(mut from) = head_from {
            let stroke = self.stroke(Part::ReturnLine);
            if self.shown.joins && valve_port.is_some() {
                // Into the manifold, before what the machine's own oil passes.
                let joint = self.joint;
                self.draft.line(Part::ReturnLine, stroke, &[from, (joint, r), (joint, t)]);
                self.draft.dot((joint, t), stroke);
                return;
            }
            for at in &past {
                self.draft.line(Part::ReturnLine, stroke, &[from, (at + 19.0, r)]);
                from = (at - 19.0, r);
            }
            self.ends_in_tank(Part::ReturnLine, stroke, from, HEAD_DROP);
        }
    }
}
