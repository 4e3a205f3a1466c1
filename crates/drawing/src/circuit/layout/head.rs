//! From the couplings to the motor: the attachment itself, and its drain.

use super::super::draft::Seat;
use super::super::symbol;
use super::machine::CASE_DROP;
use super::{Form, GAP, Layout};
use crate::shape::Stroke;
use workshop::schema::{Part, State};

impl Layout<'_> {
    /// The attachment.
    pub(super) fn head(&mut self, model: &str) {
        let coupled = self.couplings();
        if self.ever(Part::HeadRelief) {
            self.head_relief();
        }
        if self.ever(Part::OnOff) {
            let half = self.half(Part::OnOff).max(12.0);
            let at = self.station(half, half);
            if self.shows(Part::OnOff) {
                self.own_supply(at - 11.0, at + 11.0);
                self.put(Part::OnOff, symbol::on_off(self.state(Part::OnOff)), (at, self.tracks.s));
                let block = self.block(Part::OnOff);
                self.draft.block(Part::OnOff, block, Seat::After(at, self.tracks.s + 26.0));
            }
        }
        if self.ever(Part::DoorBlock) {
            self.door_block();
        }
        let case = if self.ever(Part::CaseLine) { Part::CaseLine } else { Part::CasePlug };
        if self.ever(Part::RunDownCheck) || self.ever(case) {
            let half =
                self.half(Part::RunDownCheck).max(self.half(Part::CaseLine)).max(self.half(Part::CasePlug)).max(10.0);
            let at = self.station(half, half);
            self.run_down_check(at);
            let label = if self.shows(Part::CasePlug) { Part::CasePlug } else { Part::CaseLine };
            let block = self.block(label);
            self.draft.block(label, block, Seat::Before(at, self.tracks.c - 10.0));
        }
        self.motor(model, coupled);
    }

    /// The couplings in supply and return; where they are.
    fn couplings(&mut self) -> f64 {
        let (s, r, c) = (self.tracks.s, self.tracks.r, self.tracks.c);
        let back = self.half_of(Part::ReturnLine, |own, schema| own.writer.return_line(schema, own.form));
        let half = self.half(Part::Couplings).max(back).max(12.0);
        let at = self.station(half, half);
        let state = self.state(Part::Couplings);
        self.supply(Part::SupplyLine, at - 10.0, at + 10.0);
        self.back_to(at - 10.0, at + 10.0);
        self.put(Part::Couplings, symbol::coupling(state), (at, s));
        self.put(Part::Couplings, symbol::coupling(state), (at, r));
        if self.shows(Part::CaseLine) {
            self.put(Part::CaseLine, symbol::coupling(self.state(Part::CaseLine)), (at, c));
            let stroke = self.drain_stroke(Part::CaseLine);
            self.ends_in_tank(Part::CaseLine, stroke, (at - 10.0, c), CASE_DROP);
        } else if self.shows(Part::CasePlug) {
            self.put(Part::CasePlug, symbol::plug(self.state(Part::CasePlug)), (at + 4.0, c));
        }
        self.before_supply(Part::Couplings, at, 8.0);
        let block = self.writer.return_line(self.shown, self.form);
        self.draft.block(Part::ReturnLine, block, Seat::After(at, r + 13.0));
        let border = self.station(0.0, 0.0);
        self.draft.border(border);
        let note = self.writer.border();
        let place = border + 4.0 + self.along(Part::Couplings, &note) / 2.0;
        self.draft.block(Part::Couplings, note.clone(), Seat::Amid(place, f64::midpoint(s, r)));
        self.free = border + self.along(Part::Couplings, &note) + GAP;
        at
    }

    /// The hose on the attachment goes on to a place.
    fn own_supply(&mut self, to: f64, begins: f64) {
        let s = self.tracks.s;
        self.draft.line(Part::Motor, Stroke::Thin, &[self.supply_from, (to, s)]);
        self.supply_from = (begins, s);
    }

    /// A relief of the head's own, from supply to return.
    fn head_relief(&mut self) {
        let (s, r) = (self.tracks.s, self.tracks.r);
        let half = self.half(Part::HeadRelief);
        let at = self.station(half.max(48.0), half.max(6.0));
        if !self.shows(Part::HeadRelief) {
            return;
        }
        let stroke = self.stroke(Part::HeadRelief);
        let place = (at - 24.0, s + 34.0);
        let out = place.0 - 22.0;
        self.draft.dot((at, s), stroke);
        self.draft.line(Part::HeadRelief, stroke, &[(at, s), (at, place.1), (place.0 + 16.0, place.1)]);
        self.put(Part::HeadRelief, symbol::relief(self.state(Part::HeadRelief)), place);
        self.draft.line(Part::HeadRelief, stroke, &[(place.0 - 14.0, place.1), (out, place.1), (out, r)]);
        self.draft.dot((out, r), stroke);
        self.before_supply(Part::HeadRelief, at - 12.0, 0.0);
    }

    /// The valve block for the door, with the door.
    fn door_block(&mut self) {
        let (s, r) = (self.tracks.s, self.tracks.r);
        let middle = f64::midpoint(s, r);
        let half = self.half(Part::DoorBlock);
        let door = self.half(Part::Door);
        let at = self.station(half.max(24.0), half.max(50.0 + 2.0 * door + 6.0));
        if !self.shows(Part::DoorBlock) {
            return;
        }
        let stroke = self.stroke(Part::DoorBlock);
        self.put(Part::DoorBlock, symbol::block(self.state(Part::DoorBlock)), (at, middle));
        let below = at - 20.0;
        self.draft.dot((below, s), stroke);
        self.draft.dot((below, r), stroke);
        self.draft.line(Part::DoorBlock, stroke, &[(below, s), (below, middle - 6.0), (at - 11.0, middle - 6.0)]);
        self.draft.line(Part::DoorBlock, stroke, &[(below, r), (below, middle + 6.0), (at - 11.0, middle + 6.0)]);
        let door_at = at + 32.0;
        for side in [-1.0, 1.0] {
            let (port, end) = (middle + 6.0 * side, middle + 24.0 * side);
            let beyond = end + 8.0 * side;
            let points = [(at + 11.0, port), (at + 17.0, port), (at + 17.0, beyond), (door_at, beyond), (door_at, end)];
            self.draft.line(Part::Door, stroke, &points);
        }
        self.put(Part::Door, symbol::cylinder(self.state(Part::Door)), (door_at, middle));
        let block = self.block(Part::Door);
        let above = door_at + 13.0 + self.along(Part::Door, &block) / 2.0;
        self.draft.block(Part::Door, block, Seat::Amid(above, middle));
        self.before_supply(Part::DoorBlock, at, 0.0);
    }

    fn run_down_check(&mut self, at: f64) {
        if !self.shows(Part::RunDownCheck) {
            return;
        }
        let (s, r) = (self.tracks.s, self.tracks.r);
        let (stroke, middle) = (self.stroke(Part::RunDownCheck), f64::midpoint(s, r));
        self.put(Part::RunDownCheck, symbol::check(self.state(Part::RunDownCheck)), (at, middle));
        self.draft.line(Part::RunDownCheck, stroke, &[(at, s), (at, middle - 11.0)]);
        self.draft.line(Part::RunDownCheck, stroke, &[(at, middle + 11.0), (at, r)]);
        self.draft.dot((at, s), stroke);
        self.draft.dot((at, r), stroke);
        self.before_supply(Part::RunDownCheck, at, 0.0);
    }

    fn motor(&mut self, model: &str, coupled: f64) {
        let (s, r, c) = (self.tracks.s, self.tracks.r, self.tracks.c);
        let (inlet, outlet) = (self.writer.inlet(), self.writer.outlet());
        let half = self.along(Part::Motor, &inlet).max(self.along(Part::Motor, &outlet)) / 2.0;
        let at = self.station(half.max(18.0), half.max(30.0));
        let middle = f64::midpoint(s, r);
        let state = self.state(Part::Motor);
        let glyph = if self.shown.strikes { symbol::striker(state) } else { symbol::motor(state, self.shown.drains) };
        self.put(Part::Motor, glyph, (at, middle));
        self.draft.line(Part::Motor, Stroke::Thin, &[self.supply_from, (at, s), (at, middle - 17.0)]);
        self.draft.line(Part::Motor, Stroke::Thin, &[(at, middle + 17.0), (at, r), self.return_from]);
        self.draft.block(Part::Motor, inlet, Seat::Before(at, s - 8.0));
        self.draft.block(Part::Motor, outlet, Seat::After(at, r + 8.0));
        let case = if self.shows(Part::CasePlug) { Part::CasePlug } else { Part::CaseLine };
        // The drain goes round what is written at the outlet.
        let over = if self.form == Form::Wide { at + half.max(30.0) + 6.0 } else { at + 34.0 };
        if self.shows(case) {
            let end = coupled + 10.0;
            let stroke = match (case, self.state(case)) {
                (Part::CaseLine, State::Added) => Stroke::HeavyDrain,
                (Part::CaseLine, State::NotStated) => Stroke::Dotted,
                _ => Stroke::Drain,
            };
            self.draft.line(case, stroke, &[(at + 26.0, middle + 11.0), (over, middle + 11.0), (over, c), (end, c)]);
        }
        let name = self.writer.motor(self.shown, model, self.form);
        let place = over + 6.0 + self.along(Part::Motor, &name) / 2.0;
        self.draft.block(Part::Motor, name, Seat::Amid(place, middle));
    }
}
