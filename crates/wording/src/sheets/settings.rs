//! The setting sheet in words.

use super::{Line, Section, only_if_needed, section};
use crate::{Words, capital};
use explain::FigureId;
use fit::{Bound, SettingId};
use handover::{Planned, Step};
use quantity::{Named, UnitSystem};
use table::ChangeId;
use workshop::{
    Gauge, GaugePoint, Instrument, Item, OffValue, Position, Protection, Reading, SettingSheet, State, Value,
};

/// A value to set, as a row of a table.
#[derive(Clone, Debug, PartialEq)]
pub struct ValueRow {
    /// What it sets.
    pub name: String,
    /// To what, with the ends between which it may lie.
    pub set_to: String,
    /// Where it is read.
    pub read: String,
    /// What it is with the attachment off.
    pub off: String,
    /// That it is set only where what is found out first does not spare it; empty of most.
    pub only_if_needed: String,
    /// What the value is of.
    pub of: FigureId,
}

impl Words<'_> {
    /// What to set, how everything stands on and off, where instruments go and what they should read.
    pub fn setting_sheet(&self, sheet: &SettingSheet, planned: &[Planned]) -> Vec<Section> {
        let mut values: Vec<_> = sheet.values.iter().map(|value| self.value_line(value)).collect();
        values.extend(
            sheet
                .sharing
                .as_ref()
                .map(|sharing| Line::new("Share of the pumps' oil (a result, not a setting)", self.sharing(sharing))),
        );
        let positions = sheet.positions.iter().map(|state| self.position_line(state)).collect();
        let gauges = self.instruments(sheet, planned);
        let at = self.readings_at(sheet);
        let list = |step: Step| {
            let lines = planned
                .iter()
                .filter(|planned| Step::of(planned.what) == step)
                .map(|planned| self.planned_line(planned));
            section(format!("{}, {at}", self.step_of_hand_over(step)), false, lines.collect())
        };
        [
            section("What to set", true, values),
            section("How it stands, attachment on and off", false, positions),
            section("Where instruments go", false, gauges),
        ]
        .into_iter()
        .chain(Step::ALL.iter().copied().map(list))
        .flatten()
        .collect()
    }

    /// For which oil and engine the readings hold.
    pub fn readings_at(&self, sheet: &SettingSheet) -> String {
        let engine = sheet.engine.map_or_else(String::new, |speed| format!(", engine at {}", self.amount(speed)));
        format!("oil at {}{engine}", self.amount(sheet.oil))
    }

    /// Which instruments go where: those of the readings, and those by which something is set or proved besides; last what the readings
    /// allow for.
    pub fn instruments(&self, sheet: &SettingSheet, planned: &[Planned]) -> Vec<Line> {
        let mut all: Vec<&Gauge> = Vec::new();
        let besides = |gauge: &&Gauge| {
            matches!(gauge.at, GaugePoint::Tool | GaugePoint::Return)
                || matches!(gauge.instrument, Instrument::Vacuum { .. })
        };
        for gauge in
            planned.iter().filter_map(|planned| planned.gauge.as_ref()).chain(sheet.gauges.iter().filter(besides))
        {
            // One thermometer is enough for oil and air.
            let known = |other: &&Gauge| {
                *other == gauge || [other, &gauge].iter().all(|gauge| gauge.instrument == Instrument::Thermometer)
            };
            if !all.iter().any(known) {
                all.push(gauge);
            }
        }
        let mut lines: Vec<_> = all.into_iter().map(|gauge| self.gauge_line(gauge)).collect();
        if !lines.is_empty() {
            lines.push(self.instruments_allowed_for());
        }
        lines
    }

    /// What the readings allow for, and how they are read.
    fn instruments_allowed_for(&self) -> Line {
        let [class, flow, speed] = self.usual_instruments();
        let class = match self.units {
            UnitSystem::Metric => format!("class {class}"),
            UnitSystem::UsCustomary => "grade 1A (1 % of full scale)".to_owned(),
        };
        Line::new(
            "What the readings allow for",
            format!(
                "Gauges of {class}, read in the middle third of their dial where it can be; a flow tester to {flow} %, a \
                 tachometer to {speed} % of its reading (common practice, no published source). A limit has that taken \
                 off already: the figure is what the instrument shows. All are transmitters with their display in the closed cab, or \
                 gauges outside its window: no hose under pressure in a cab."
            ),
        )
    }

    /// What is read, where and with which limit, and what should be found.
    fn planned_line(&self, planned: &Planned) -> Line {
        let limit = self.limit_of_reading(&planned.reading).map(|limit| format!("Limit: {limit}."));
        let said = [Some(self.measurement_place(planned)), limit, self.reading_remark(&planned.reading)];
        let said: Vec<_> = said.into_iter().flatten().collect();
        let expected = self.expected_of(&planned.reading).unwrap_or_default();
        Line::with(self.measurement(planned.what), said.join(" "), expected)
    }

    /// What is to be known of a reading near its limit or beyond it; none of most.
    pub fn reading_remark(&self, reading: &Reading) -> Option<String> {
        if reading.is_beyond() {
            return Some("With oil at this temperature it must not run.".to_owned());
        }
        let finer = reading.finer?;
        Some(format!("Read with an instrument that is off by less than {}: it is near the limit.", self.at_most(finer)))
    }

    /// Where limits are rounded to, once on a paper.
    pub fn rounded_to_the_safe_side(&self) -> &'static str {
        "Figures are rounded to the safe side: what must not be exceeded down, what must be reached up."
    }

    /// What is set, to what, where it is read, and what it is with the attachment off.
    pub fn value_row(&self, value: &Value) -> ValueRow {
        let name = match (value.what, value.change) {
            (SettingId::Flow, Some(ChangeId::PriorityShare | ChangeId::DividerFlow)) => {
                "flow of the priority divider, all of it together"
            }
            (SettingId::Flow, Some(ChangeId::FlowLimit)) => "flow of the sealed regulator",
            (SettingId::Relief, Some(ChangeId::PriorityShare | ChangeId::DividerRelief)) => {
                "relief on the divider's port, all flow over it"
            }
            (what, _) => self.setting_name(what),
        };
        let off = match value.off {
            OffValue::Was { value: off } if value.change == Some(ChangeId::PriorityShare) => {
                format!("the divider is vented, and the valve's own is {} as before", self.set_to(off))
            }
            OffValue::Was { value } => format!("back to {}", self.set_to(value)),
            OffValue::ReadFirst => "back as it was: read it and write it down before the first change".to_owned(),
            OffValue::Stays => "stays as set".to_owned(),
            OffValue::Nothing => "nothing is asked".to_owned(),
        };
        let shown = match value.bound {
            Some(Bound::AtLeast) => format!("at least {}", self.at_least(value.on.nominal)),
            Some(Bound::AtMost) => format!("at most {}", self.at_most(value.on.nominal)),
            None => self.set_within(&value.on),
        };
        let how = if value.at == GaugePoint::Bench { "set and sealed" } else { "read" };
        ValueRow {
            name: capital(name),
            set_to: shown,
            read: format!("{how} {}", self.gauge_point(value.at)),
            off,
            only_if_needed: only_if_needed(value.only_if_needed).trim().to_owned(),
            of: FigureId::Setting(value.change, value.what),
        }
    }

    fn value_line(&self, value: &Value) -> Line {
        let ValueRow { name, set_to, read, off, only_if_needed, of } = self.value_row(value);
        let apart = if only_if_needed.is_empty() { "" } else { " " };
        Line::with(name, format!("{only_if_needed}{apart}{}. Off: {off}.", capital(&read)), set_to).of(of)
    }

    /// Something that stands one way with the attachment on and another way with it off: its name, on, off.
    pub fn position_row(&self, state: &State) -> [String; 3] {
        let off = if state.moves() { self.position(&state.item, state.off) } else { "the same".to_owned() };
        [capital(&self.item(&state.item)), self.position(&state.item, state.on), off]
    }

    fn position_line(&self, state: &State) -> Line {
        let off = if state.moves() {
            format!("Off: {}.", self.position(&state.item, state.off))
        } else {
            "Off: the same.".to_owned()
        };
        Line::new(capital(&self.item(&state.item)), format!("On: {}. {off}", self.position(&state.item, state.on)))
    }

    /// Something that stands one way or the other.
    pub(super) fn item(&self, item: &Item) -> String {
        match item {
            Item::Plug => "the attachment's plug".to_owned(),
            Item::Couplings { .. } => "pressure and return couplings".to_owned(),
            Item::CaseLine => "case drain".to_owned(),
            Item::Mounting { coupler: true } => "coupler".to_owned(),
            Item::Mounting { coupler: false } => "pins".to_owned(),
            Item::Changeover => "changeover valve of the return".to_owned(),
            Item::Isolation { tool } => format!("isolating valve of the {tool}, both lines"),
            Item::Tool { tool } => format!("the {tool} itself"),
            Item::Divider => "priority flow divider".to_owned(),
            Item::Demand => "signal to the pump".to_owned(),
            Item::ReverseLock => "lock of the reverse direction".to_owned(),
            Item::Diverter => "diverter for the attachment's other functions".to_owned(),
            Item::Guards => "guards".to_owned(),
            Item::FlowSetting => "the machine's own flow setting".to_owned(),
            Item::Relief => "relief of the circuit".to_owned(),
            Item::EngineSpeed => "engine speed at work".to_owned(),
        }
    }

    /// How it stands.
    pub(super) fn position(&self, item: &Item, position: Position) -> String {
        match (item, position) {
            (Item::CaseLine, Position::Connected) => "connected, no cock in it".to_owned(),
            (Item::Couplings { screwed: true }, Position::Connected) => "screwed down to their stop".to_owned(),
            (Item::Plug, Position::Capped) => "out and capped, the attachment's buttons without current".to_owned(),
            (Item::Diverter, Position::InService) => "to the motor, moved by its button".to_owned(),
            (Item::Mounting { coupler: false }, Position::Attachment) => "in the attachment, secured".to_owned(),
            (Item::Mounting { coupler: false }, Position::Bucket) => "in the bucket, secured".to_owned(),
            (_, Position::Attachment) => "on the attachment, locked".to_owned(),
            (_, Position::Bucket) => "on the bucket, locked".to_owned(),
            (Item::Demand, Position::InService) | (_, Position::Connected) => "connected".to_owned(),
            (_, Position::Capped) => "parted, both ends capped".to_owned(),
            (_, Position::Direct) => "to the direct line, locked".to_owned(),
            (_, Position::ThroughSpool) => "to the control valve, locked".to_owned(),
            (_, Position::Shut) => "shut".to_owned(),
            (_, Position::Open) => "open".to_owned(),
            (_, Position::Stowed) => "stowed or pinned".to_owned(),
            (_, Position::Free) => "free".to_owned(),
            (_, Position::InService) => "in service".to_owned(),
            (_, Position::Vented) => "vented or switched off, never capped".to_owned(),
            (_, Position::Locked) => "locked".to_owned(),
            (_, Position::Unlocked) => "not locked".to_owned(),
            (_, Position::AtRest) => "at rest, without current".to_owned(),
            (_, Position::Fitted) => "fitted".to_owned(),
            (_, Position::At { value }) => self.set_to(value),
            (_, Position::AsFound) => "as it was before the first change (see what was written down)".to_owned(),
        }
    }

    fn gauge_line(&self, gauge: &Gauge) -> Line {
        let place = capital(self.gauge_point(gauge.at));
        match gauge.instrument {
            Instrument::Pressure { full_scale, protection, bears } => {
                let how = match protection {
                    Protection::Snubber => "With a snubber.",
                    Protection::SnubberAndCock => {
                        "With a snubber and a cock: open only while it turns steadily, shut before the flow is switched off; \
                         the line can reach far more than this dial shows."
                    }
                };
                let bears = bears.map_or_else(String::new, |bears| {
                    format!(" It must be rated for {}, which can reach it.", self.at_least(bears))
                });
                Line::with(place, format!("{how}{bears}"), format!("gauge {}", self.full_scale(full_scale)))
            }
            Instrument::FlowTester { takes } => Line::with(
                place,
                "With a load valve and a burst disc.",
                format!("flow tester for {} or more", self.at_least(takes)),
            ),
            Instrument::Vacuum { full_scale } => Line::with(
                place,
                "Shows vacuum, and is rated for the inlet's pressure as well: for the first stop, from the lowest flow.",
                format!(
                    "transmitter {} to {}",
                    self.either("−1 bar", "−15 psi"),
                    self.full_scale(full_scale).trim_start_matches("0 to ")
                ),
            ),
            Instrument::Tachometer => {
                Line::with(place, "Without contact, fixed before the start and read from the closed cab.", "tachometer")
            }
            Instrument::Bucket => Line::with(
                place,
                "The hose's end tied down in the bucket before the start; timed from outside the throw zone, nobody near.",
                "bucket and stopwatch",
            ),
            Instrument::Thermometer => Line::with("In the tank", "In its oil, or on its wall.", "thermometer"),
        }
    }

    /// Where an instrument goes.
    fn gauge_point(&self, at: GaugePoint) -> &'static str {
        match at {
            GaugePoint::Pump => "at the pumps' test port",
            GaugePoint::HeadInlet => "at a tee in the attachment's inlet",
            GaugePoint::HeadOutlet => "at a tee in the attachment's outlet",
            GaugePoint::Case => "at a tee in the case drain, at the motor",
            GaugePoint::Flow => "in the line to the attachment",
            GaugePoint::Rotor => "at the rotor",
            GaugePoint::Tool => "at the other tool's lines, the tool at its stop",
            GaugePoint::Bench => "on the bench or by a hand pump, before it is fitted",
            GaugePoint::Engine => "on the machine's display",
            GaugePoint::Return => "in the return, at its relief",
            GaugePoint::Oil => "on the oil thermometer",
            GaugePoint::CaseFlow => "at the end of the case drain, into a bucket",
            GaugePoint::Motor => "at the motor's shaft",
            GaugePoint::Air => "in the air around the machine",
        }
    }

    /// What is read, and under which load.
    pub fn reading_title(&self, reading: &Reading) -> String {
        format!("{}, {}", capital(self.what_is_read(reading)), self.load(reading.load))
    }

    fn what_is_read(&self, reading: &Reading) -> &'static str {
        match reading.at {
            GaugePoint::Pump => "pressure at the pumps",
            GaugePoint::HeadInlet => "pressure at the inlet",
            GaugePoint::HeadOutlet => "back pressure at the outlet",
            GaugePoint::Case => "pressure in the case drain",
            GaugePoint::Flow => "flow",
            GaugePoint::Rotor => "rotor speed",
            GaugePoint::CaseFlow => "flow of the case drain",
            GaugePoint::Motor => "motor speed",
            GaugePoint::Engine => "engine speed",
            GaugePoint::Oil => "oil temperature",
            GaugePoint::Air => "air temperature",
            other => self.gauge_point(other),
        }
    }
}
