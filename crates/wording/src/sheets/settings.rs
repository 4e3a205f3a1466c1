//! The setting sheet in words.

use super::{Line, Section, only_if_needed, section};
use crate::{Words, capital};
use explain::FigureId;
use fit::{Bound, Load, SettingId};
use quantity::UnitSystem;
use table::ChangeId;
use workshop::{
    Found, Gauge, GaugePoint, Instrument, Item, OffValue, Position, Protection, ReadWith, Reading, SettingSheet, State,
    Value,
};

impl Words<'_> {
    /// What to set, how everything stands on and off, where instruments go and what they should read.
    pub fn setting_sheet(&self, sheet: &SettingSheet) -> Vec<Section> {
        let mut values: Vec<_> = sheet.values.iter().map(|value| self.value_line(value)).collect();
        values.extend(
            sheet
                .sharing
                .as_ref()
                .map(|sharing| Line::new("Share of the pumps' oil (a result, not a setting)", self.sharing(sharing))),
        );
        let positions = sheet.positions.iter().map(|state| self.position_line(state)).collect();
        let mut gauges: Vec<_> = sheet.gauges.iter().map(|gauge| self.gauge_line(gauge)).collect();
        if !gauges.is_empty() {
            let [class, flow, speed] = self.usual_instruments();
            let class = match self.units {
                UnitSystem::Metric => format!("class {class}"),
                UnitSystem::UsCustomary => "grade 1A (1 % of full scale)".to_owned(),
            };
            gauges.push(Line::new(
                "What the readings allow for",
                format!(
                    "Gauges of {class}, read in the middle third of their dial where it can be; a flow tester to {flow} %, a \
                     tachometer to {speed} % of its reading (common practice, no published source). Where it says stop, that is taken \
                     off already: the figure is what the instrument shows. All are transmitters with their display in the closed cab, or \
                     gauges outside its window: no hose under pressure in a cab."
                ),
            ));
        }
        let engine = sheet.engine.map_or_else(String::new, |speed| format!(", engine at {}", self.amount(speed)));
        let at = format!("oil at {}{engine}", self.amount(sheet.oil));
        let list = |with: ReadWith| self.reading_lines(&sheet.readings, with);
        [
            section("What to set", true, values),
            section("How it stands, attachment on and off", false, positions),
            section("Where instruments go", false, gauges),
            section(
                format!("List A: what they should read with the tester, attachment not connected, {at}"),
                false,
                list(ReadWith::Tester),
            ),
            section(
                format!("List B: what they should read with the attachment connected, never with its lines shut, {at}"),
                false,
                list(ReadWith::Attachment),
            ),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    fn value_line(&self, value: &Value) -> Line {
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
                format!("Off: the divider is vented, and the valve's own is {} as before.", self.set_to(off))
            }
            OffValue::Was { value } => format!("Off: back to {}.", self.set_to(value)),
            OffValue::ReadFirst => {
                "Off: back as it was; read it and write it here before the first change: ______".to_owned()
            }
            OffValue::Stays => "Off: stays as set.".to_owned(),
            OffValue::Nothing => "Off: nothing is asked.".to_owned(),
        };
        let shown = match value.bound {
            Some(Bound::AtLeast) => format!("at least {}", self.at_least(value.on.nominal)),
            Some(Bound::AtMost) => format!("at most {}", self.at_most(value.on.nominal)),
            None => self.set_within(&value.on),
        };
        let at = self.gauge_point(value.at);
        let how = if value.at == GaugePoint::Bench { "Set and sealed" } else { "Read" };
        let detail = format!("{}{how} {at}. {off}", only_if_needed(value.only_if_needed));
        Line::with(capital(name), detail, shown).of(FigureId::Setting(value.change, value.what))
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
            Instrument::Thermometer => Line::with(place, "In the tank's oil, or on its wall.", "thermometer"),
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

    /// The readings of one list; what is the same free and working is written once.
    fn reading_lines(&self, readings: &[Reading], with: ReadWith) -> Vec<Line> {
        let mut lines: Vec<(GaugePoint, Vec<&str>, Line)> = Vec::new();
        for reading in readings.iter().filter(|reading| reading.is_read(with)) {
            let line = self.reading_line(reading);
            let same = |known: &&mut (GaugePoint, Vec<&str>, Line)| {
                known.0 == reading.at && known.2.value == line.value && known.2.detail == line.detail
            };
            match lines.iter_mut().find(same) {
                Some((_, loads, _)) => loads.push(load(reading.load, with)),
                None => lines.push((reading.at, vec![load(reading.load, with)], line)),
            }
        }
        let titled = |(_, loads, line): (_, Vec<&str>, Line)| Line {
            title: format!("{}, {}", line.title, loads.join("; ")),
            ..line
        };
        lines.into_iter().map(titled).collect()
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

    fn reading_line(&self, reading: &Reading) -> Line {
        let what = self.what_is_read(reading);
        let value = match &reading.found {
            Found::Expected { reads } => self.expected(reads),
            Found::NotKnown { missing } => self.unknown(missing),
        };
        let below = reading.not_below.map(|limit| format!("Below {} it does not work.", self.at_least(limit)));
        let above = reading.stop.map(|limit| format!("Above {} stop, whatever was expected.", self.at_most(limit)));
        let limits: Vec<_> = below.into_iter().chain(above).chain(self.at_its_limit(reading)).collect();
        Line::with(capital(what), limits.join(" "), value)
    }

    /// What is to be minded where the likely figure lies near its limit, or beyond it.
    pub fn at_its_limit(&self, reading: &Reading) -> Option<String> {
        if reading.is_beyond() {
            return Some("With oil at this temperature it must not run.".to_owned());
        }
        let off = reading.finer?;
        Some(format!("Read with an instrument that is off by less than {}: it is near the limit.", self.at_most(off)))
    }
}

/// Under which load, as it is made in a list.
fn load(load: Load, with: ReadWith) -> &'static str {
    match (load, with) {
        (Load::Free, ReadWith::Tester) => "load valve at the inlet's pressure free running",
        (Load::Free, ReadWith::Attachment) => "free running, once warm",
        (Load::Working, ReadWith::Tester) => "load valve at the attachment's working pressure",
        (Load::Working, ReadWith::Attachment) => "working, only while it works",
        (Load::Stalled, _) => "load valve shut, a few seconds at the most",
    }
}
