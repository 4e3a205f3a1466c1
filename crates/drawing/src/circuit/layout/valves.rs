//! From the spool to the couplings: what limits and sends the oil, other tools on the same spool, the way past the spool.

use super::super::draft::Seat;
use super::super::symbol;
use super::{Form, Layout};
use crate::shape::Stroke;
use table::ReturnRoute;
use workshop::schema::{Part, State};

impl Layout<'_> {
    /// All that stands between spool and couplings.
    pub(super) fn valves(&mut self) {
        let ports = self.spool();
        if self.all.iter().any(|schema| !schema.guards_valve) {
            let half = self.half(Part::Relief);
            let at = self.station(half.max(60.0), half.max(6.0));
            if !self.shown.guards_valve {
                self.relief_to_tank(Part::Relief, (at, self.tracks.s));
                self.before_supply(Part::Relief, at, 0.0);
            }
        }
        if self.ever(Part::FlowLimit) {
            let half = self.half(Part::FlowLimit).max(13.0);
            let at = self.station(half, half);
            if self.shows(Part::FlowLimit) {
                self.supply(Part::SupplyLine, at - 13.0, at + 13.0);
                self.put(Part::FlowLimit, symbol::flow_limit(self.state(Part::FlowLimit)), (at, self.tracks.s));
                self.before_supply(Part::FlowLimit, at, 13.0);
            }
        }
        self.line_and_changeover(ports);
        if self.ever(Part::Tool) {
            self.tool();
        }
        if self.ever(Part::ReturnRelief) {
            let half = self.half(Part::ReturnRelief);
            let at = self.station(half.max(60.0), half.max(6.0));
            if self.shows(Part::ReturnRelief) {
                self.relief_to_tank(Part::ReturnRelief, (at, self.tracks.r));
                let block = self.block(Part::ReturnRelief);
                self.draft.block(Part::ReturnRelief, block, Seat::Before(at, self.tracks.r - 8.0));
            }
        }
        if self.ever(Part::Diverter) {
            self.diverter();
        }
    }

    /// The spool: where it stands, and how far its ports are from there; not at all without a spool.
    fn spool(&mut self) -> (f64, f64) {
        let s = self.tracks.s;
        if !self.ever(Part::Spool) {
            // A return through the valve comes down here all the same.
            return (self.station(8.0, 8.0), 0.0);
        }
        let half = self.half_of(Part::Spool, |own, schema| own.block_with(schema, Part::Spool, Part::ReverseLock));
        let at = match self.form {
            // The label lies beside the spool, below the line that leaves above it.
            Form::Tall => self.station((2.0 * half - 24.0).max(28.0), 32.0),
            Form::Wide => self.station(half.max(28.0), half.max(32.0)),
        };
        if !self.shows(Part::Spool) {
            return (at, 0.0);
        }
        self.supply(Part::Pump, at - 13.0, at + 13.0);
        let glyph = symbol::spool(self.state(Part::Spool), self.shown.two_way);
        let reach = glyph.across.1;
        self.put(Part::Spool, glyph, (at, s));
        if self.shows(Part::ReverseLock) {
            let v = if self.shown.two_way { s + 32.0 } else { s - 20.0 };
            self.put(Part::ReverseLock, symbol::reverse_lock(self.state(Part::ReverseLock)), (at + 13.0, v));
        }
        let block = self.block_with(self.shown, Part::Spool, Part::ReverseLock);
        let seat = match self.form {
            Form::Tall => {
                let along = self.along(Part::Spool, &block);
                // Right of the way back, too, which goes down from below the spool.
                Seat::After(at + (24.0 - along / 2.0).min(0.0), (s + reach + 4.0).max(self.tracks.t + 6.0))
            }
            Form::Wide => Seat::Before(at, s - 47.0),
        };
        self.draft.block(Part::Spool, block, seat);
        (at, 13.0)
    }

    /// What a stage without a changeover does with the return, and what one with it does; the label of the line to the head.
    fn line_and_changeover(&mut self, (spool, reach): (f64, f64)) {
        let (s, t, r) = (self.tracks.s, self.tracks.t, self.tracks.r);
        let half = self.half(Part::SupplyLine).max(self.half(Part::Changeover));
        let half = if self.ever(Part::Changeover) { half.max(24.0) } else { half };
        let at = self.station(half, half);
        self.before_supply(Part::SupplyLine, at, 0.0);
        let direct = self.shown.route == Some(ReturnRoute::Direct);
        // The port towards the head lies above the spool; without one the machine's way back goes on straight.
        let port = if reach > 0.0 { s + 12.0 } else { t };
        let level = spool + reach + 16.0;
        let standing = if self.shown.route.is_none() { Stroke::Dotted } else { Stroke::Thin };
        let up = |to: f64| vec![(spool + reach, port), (level, port), (level, to)];
        let mut valve_port = self.through_valve().then_some((spool - reach, port));
        if self.shows(Part::Changeover) {
            let glyph = symbol::changeover(self.state(Part::Changeover), -1.0, -1.0, -1.0);
            let block = self.block(Part::Changeover);
            self.put(Part::Changeover, glyph, (at, r));
            self.draft.block(Part::Changeover, block, Seat::Before(at, r - 26.0));
            let mut points = up(r - 12.0);
            points.push((at - 13.0, r - 12.0));
            self.draft.line(Part::Changeover, self.stroke(Part::Changeover), &points);
            self.return_from = (at + 13.0, r);
            let down = (at - 13.0, r);
            if valve_port.is_none() {
                // Through the valve the oil finds the tank by its own way.
                valve_port = Some((spool - reach, port));
            }
            self.finish_ways_back(valve_port, Some(down));
        } else if direct {
            // What the spool sends back is not this circuit's.
            self.return_from = (level, r);
            self.finish_ways_back(None, Some((level, r)));
        } else {
            let stroke = if self.state(Part::ReturnLine) == State::Added { Stroke::Heavy } else { standing };
            self.draft.line(Part::ReturnLine, stroke, &up(r));
            self.return_from = (level, r);
            self.finish_ways_back(valve_port, None);
        }
    }

    fn finish_ways_back(&mut self, valve_port: Option<(f64, f64)>, head_from: Option<(f64, f64)>) {
        if !self.through_valve()
            && let Some((u, v)) = valve_port
        {
            self.draft.drained(Part::ReturnLine, Stroke::Thin, (u, v));
            self.ways_back(None, head_from);
            return;
        }
        self.ways_back(valve_port, head_from);
    }

    /// Another tool between supply and return, with what shuts it off and relieves it.
    fn tool(&mut self) {
        let (s, r) = (self.tracks.s, self.tracks.r);
        let relieved = self.ever(Part::ToolRelief);
        let half = self.half_of(Part::Tool, |own, schema| own.block_with(schema, Part::Tool, Part::ShutOff));
        let relief_half = self.half(Part::ToolRelief);
        let before = if relieved { (half + 2.0 * relief_half + 8.0).max(78.0) } else { half.max(14.0) };
        let at = self.station(before, half.max(14.0));
        if !self.shows(Part::Tool) {
            return;
        }
        let stroke = self.stroke(Part::Tool);
        let middle = f64::midpoint(s, r);
        self.put(Part::Tool, symbol::cylinder(self.state(Part::Tool)), (at, middle));
        self.draft.dot((at, s), stroke);
        self.draft.dot((at, r), stroke);
        if self.shows(Part::ShutOff) {
            let (one, other) = (s + 18.0, r - 18.0);
            for v in [one, other] {
                self.put(Part::ShutOff, symbol::shut_off(self.state(Part::ShutOff)), (at, v));
            }
            self.draft.line(Part::Tool, stroke, &[(at, s), (at, one - 10.0)]);
            self.draft.line(Part::Tool, stroke, &[(at, one + 10.0), (at, middle - 24.0)]);
            self.draft.line(Part::Tool, stroke, &[(at, middle + 24.0), (at, other - 10.0)]);
            self.draft.line(Part::Tool, stroke, &[(at, other + 10.0), (at, r)]);
        } else {
            self.draft.line(Part::Tool, stroke, &[(at, s), (at, middle - 24.0)]);
            self.draft.line(Part::Tool, stroke, &[(at, middle + 24.0), (at, r)]);
        }
        let block = self.block_with(self.shown, Part::Tool, Part::ShutOff);
        self.draft.block(Part::Tool, block.clone(), Seat::Before(at, s - 10.0));
        if self.shows(Part::ToolRelief) {
            let tap = middle - 29.0;
            let stroke = self.stroke(Part::ToolRelief);
            let place = (at - 34.0, tap);
            self.draft.dot((at, tap), stroke);
            self.draft.line(Part::ToolRelief, stroke, &[(at, tap), (place.0 + 16.0, tap)]);
            self.put(Part::ToolRelief, symbol::relief(self.state(Part::ToolRelief)), place);
            self.draft.drained(Part::ToolRelief, stroke, (place.0 - 14.0, tap));
            let own = self.block(Part::ToolRelief);
            let lower = at - f64::midpoint(self.along(Part::Tool, &block), self.along(Part::ToolRelief, &own)) - 6.0;
            self.draft.block(Part::ToolRelief, own, Seat::Before(lower, s - 10.0));
        }
    }

    /// Two valves moved as one, that send the oil to the door instead of the motor.
    fn diverter(&mut self) {
        let (s, r) = (self.tracks.s, self.tracks.r);
        let half = self.half(Part::Diverter).max(20.0);
        let door = self.half(Part::Door);
        let at = self.station(half, half.max(36.0 + 2.0 * door + 8.0));
        if !self.shows(Part::Diverter) {
            return;
        }
        let (state, stroke) = (self.state(Part::Diverter), self.stroke(Part::Diverter));
        let middle = f64::midpoint(s, r);
        self.supply(Part::SupplyLine, at - 13.0, at + 13.0);
        self.put(Part::Diverter, symbol::changeover(state, 1.0, 1.0, 1.0), (at, s));
        self.put(Part::Diverter, symbol::changeover(state, -1.0, 1.0, -1.0), (at, r));
        self.back_to(at - 13.0, at + 13.0);
        let linked = if stroke == Stroke::Heavy { Stroke::HeavyDrain } else { Stroke::Drain };
        self.draft.line(Part::Diverter, linked, &[(at, s + 20.0), (at, r - 20.0)]);
        let door_at = at + 26.0;
        let side = |from: f64, to: f64| vec![(at + 13.0, from), (door_at, from), (door_at, to)];
        self.draft.line(Part::Door, stroke, &side(s + 12.0, middle - 24.0));
        self.draft.line(Part::Door, stroke, &side(r - 12.0, middle + 24.0));
        self.put(Part::Door, symbol::cylinder(self.state(Part::Door)), (door_at, middle));
        let block = self.block(Part::Door);
        let above = door_at + 13.0 + self.along(Part::Door, &block) / 2.0;
        self.draft.block(Part::Door, block, Seat::Amid(above, middle));
        let block = self.block(Part::Diverter);
        self.draft.block(Part::Diverter, block, Seat::Before(at, s - 40.0));
    }

    /// The head's return comes down to a place, and begins anew above it.
    pub(super) fn back_to(&mut self, to: f64, begins: f64) {
        let stroke = self.stroke(Part::ReturnLine);
        let r = self.tracks.r;
        self.draft.line(Part::ReturnLine, stroke, &[self.return_from, (to, r)]);
        self.return_from = (begins, r);
    }
}
