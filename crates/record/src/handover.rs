//! What was read and tried when a machine was handed over with an attachment: texts as they were typed, each figure with its
//! unit, kept as one goes. What the figures mean is `pairing::handover`'s.

mod signature;

pub use signature::{HIGH, Signature, WIDE, path};

use super::envelope::Envelope;
use super::saved::{CarrierThen, TableThen};
use super::{LONGEST_NOTE, Made, RecordFault, mark, merge, sound_name};
use fit::Pairing;
use handover::{Circumstances, FunctionCheck, Instruments, Item, Measurement, Read};
use quantity::text::{TextFault, likely_meant, read_amount, read_figure, with_points};
use quantity::{Amount, Dimension, Named, Ratio, Unit, UnitSystem, string_enum};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use table::Table;

/// The name by which a kept text says what it is.
pub const FORMAT: &str = "pairwright.handover";
/// The longest text of a figure, in characters.
const LONGEST_FIGURE: usize = 60;
/// What stands in the place of a figure or an answer where there is nothing to read or to try.
pub const NOT_APPLICABLE: &str = "not applicable";
/// No instrument is off by more than this, in percent; one that is measures nothing.
pub const MOST_OFF: f64 = 20.0;

const ENVELOPE: Envelope = Envelope { format: FORMAT, field: "handover", steps: &[] };

string_enum! {
    /// What stands on a record beside readings and answers.
    "entry of a record" pub enum Entry {
        /// Which machine it is of its kind: serial or yard number.
        Serial = "serial",
        /// Hours on its clock.
        Hours = "hours",
        /// The day.
        Day = "day",
        /// Who set and proved it.
        By = "by",
        /// To whom it was handed over.
        To = "to",
        /// Remarks.
        Note = "note",
    }
}

string_enum! {
    /// Instruments of one kind.
    "instruments" pub enum InstrumentKind {
        /// Pressure gauges: their class, in percent of the full scale.
        Pressure = "pressure",
        /// The flow tester, in percent of what it shows.
        Flow = "flow",
        /// The tachometer, in percent of what it shows.
        Speed = "speed",
    }
}

/// A record of a hand-over.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct HandOver {
    /// Unique among the records; part of the key under which it is kept.
    pub id: String,
    /// Attachment and machine.
    pub name: String,
    /// The machine.
    pub carrier: CarrierThen,
    /// The attachment.
    pub head: CarrierThen,
    /// The table as it was when the record was begun.
    pub table: TableThen,
    /// With what it was begun; none when a build began it that did not keep that.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub made: Option<Made>,
    /// When it was begun, ISO 8601.
    pub created: String,
    /// When it was last changed, ISO 8601.
    pub changed: String,
    /// What stands on it.
    #[serde(flatten)]
    pub written: Written,
    /// The signature of who took the machine over; none where nobody has signed, or on paper only.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "signature::sound")]
    pub signature: Option<Signature>,
}

/// What stands on a record, as texts by their names. Names that this build does not know are kept.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Written {
    /// Who, when, which machine.
    pub entries: BTreeMap<String, String>,
    /// What instruments may be off, in percent.
    pub instruments: BTreeMap<String, String>,
    /// Readings, as typed.
    pub readings: BTreeMap<String, String>,
    /// Answers `yes` and `no` to what was tried.
    pub functions: BTreeMap<String, String>,
    /// Readings over their limit and trials that failed, by the names of what was read or tried: they stand until it is read or tried
    /// again, and are told after that.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub beyond: BTreeMap<String, String>,
}

impl HandOver {
    /// A record with nothing on it yet, given with what its pairing was made.
    pub fn blank(
        id: String,
        now: String,
        (table, mark): (&Table, &str),
        pairing: &Pairing,
        made: Option<Made>,
    ) -> Self {
        let (carrier, head) = (CarrierThen::of_carrier(&pairing.carrier), CarrierThen::of_head(&pairing.head));
        let name = format!("{} on {}", head.name, carrier.name);
        Self {
            id,
            name: sound_name(&name).unwrap_or_default(),
            carrier,
            head,
            table: TableThen::of(table, mark),
            made,
            created: now.clone(),
            changed: now,
            written: Written::default(),
            signature: None,
        }
    }

    /// What stands here put together with what another tab has kept meanwhile, reading by reading.
    pub(super) fn merged(base: &Self, mine: &Self, theirs: &Self) -> Self {
        let of = |pick: fn(&Written) -> &BTreeMap<String, String>| {
            merge::fields(pick(&base.written), pick(&mine.written), pick(&theirs.written))
        };
        Self {
            name: merge::field(&base.name, &mine.name, &theirs.name),
            table: merge::field(&base.table, &mine.table, &theirs.table),
            made: merge::field(&base.made, &mine.made, &theirs.made),
            changed: mine.changed.clone().max(theirs.changed.clone()),
            signature: merge::field(&base.signature, &mine.signature, &theirs.signature),
            written: Written {
                entries: of(|written| &written.entries),
                instruments: of(|written| &written.instruments),
                readings: of(|written| &written.readings),
                functions: of(|written| &written.functions),
                beyond: of(|written| &written.beyond),
            },
            ..mine.clone()
        }
    }

    /// Whether anything stands on it; a day alone, as it is preset, says nothing.
    pub fn is_blank(&self) -> bool {
        let Written { entries, instruments, readings, functions, beyond } = &self.written;
        let is_day = |name: &String| name == Entry::Day.name();
        entries.keys().all(is_day) && [instruments, readings, functions, beyond].iter().all(|texts| texts.is_empty())
    }

    /// A mark of what a person signs: everything that stands on it, machine and attachment.
    fn to_sign(&self) -> String {
        let written = serde_json::to_string(&self.written).unwrap_or_default();
        mark(&format!("{} {} {} {written}", self.carrier.id, self.head.id, self.created))
    }

    /// Signs it as it stands; without strokes it is not signed any more.
    pub fn sign(&mut self, strokes: &[Vec<signature::Point>]) {
        self.signature = Signature::of_strokes(strokes, self.to_sign());
    }

    /// Whether it was signed as it stands, or something was written since. None where nobody has signed.
    pub fn is_signed_as_it_stands(&self) -> Option<bool> {
        self.signature.as_ref().map(|signature| signature.is_of(&self.to_sign()))
    }

    /// What was said not to be applicable on this machine.
    pub fn not_applicable(&self) -> Vec<Item> {
        let readings = Measurement::ALL.iter().filter(|&&what| self.typed(what) == NOT_APPLICABLE);
        let functions =
            FunctionCheck::ALL.iter().filter(|&&check| text_of(&self.written.functions, check) == NOT_APPLICABLE);
        readings.map(|&what| Item::Reading(what)).chain(functions.map(|&check| Item::Function(check))).collect()
    }

    /// Says that there is nothing to read or to try.
    pub fn write_not_applicable(&mut self, item: Item) {
        match item {
            Item::Reading(what) => write(&mut self.written.readings, what, NOT_APPLICABLE),
            Item::Function(check) => write(&mut self.written.functions, check, NOT_APPLICABLE),
        }
    }

    /// Notes what stands there as over its limit, or failed: it must not go without a trace.
    pub fn note_beyond(&mut self, item: Item) {
        match item {
            Item::Reading(what) => {
                let typed = self.typed(what).to_owned();
                write(&mut self.written.beyond, what, &typed);
            }
            Item::Function(check) => write(&mut self.written.beyond, check, "no"),
        }
    }

    /// What was over its limit, or failed, before it was read or tried again: as it was typed.
    pub fn was_beyond(&self, item: Item) -> Option<&str> {
        let (name, now) = match item {
            Item::Reading(what) => (what.name(), self.typed(what)),
            Item::Function(check) => (check.name(), text_of(&self.written.functions, check)),
        };
        self.written.beyond.get(name).map(String::as_str).filter(|before| *before != now)
    }

    /// All that was over its limit, or failed, before.
    pub fn all_beyond_before(&self) -> Vec<Item> {
        let readings = Measurement::ALL.iter().map(|&what| Item::Reading(what));
        let all = readings.chain(FunctionCheck::ALL.iter().map(|&check| Item::Function(check)));
        all.filter(|item| self.was_beyond(*item).is_some()).collect()
    }

    /// Whether it says the same as another one, whatever it is called by its keeper's browser and when that was changed.
    pub fn says_the_same(&self, other: &Self) -> bool {
        let of = |record: &Self| (record.carrier.id.clone(), record.head.id.clone(), record.created.clone());
        self.written == other.written && of(self) == of(other)
    }

    /// Whether it belongs to this machine and attachment.
    pub fn is_of(&self, carrier: &str, head: &str) -> bool {
        self.carrier.id == carrier && self.head.id == head
    }

    /// What was typed for an entry; empty when nothing was.
    pub fn entry(&self, entry: Entry) -> &str {
        text_of(&self.written.entries, entry)
    }

    /// Writes an entry, or takes it off when there is nothing in it.
    pub fn write_entry(&mut self, entry: Entry, text: &str) {
        let most = if entry == Entry::Note { LONGEST_NOTE } else { LONGEST_FIGURE };
        let sound = |c: &char| !c.is_control() || *c == '\n' && entry == Entry::Note;
        write(&mut self.written.entries, entry, &text.chars().filter(sound).take(most).collect::<String>());
    }

    /// What was typed for a reading; empty when nothing was.
    pub fn typed(&self, what: Measurement) -> &str {
        text_of(&self.written.readings, what)
    }

    /// Writes a reading, or takes it off when there is nothing in it. A bare number is in the unit in which a reader of `system`
    /// was asked for it, and is kept with that unit: another reader must not take it for something else.
    pub fn write(&mut self, what: Measurement, text: &str, system: UnitSystem) {
        let dimension = what.dimension();
        let text: String = text.trim().chars().filter(|c| !c.is_control()).take(LONGEST_FIGURE).collect();
        let bare = read_amount(&with_points(&text), dimension) == Err(TextFault::NoUnit);
        let whole = format!("{text} {}", Unit::shown(dimension, system).name());
        let takes = bare && read_amount(&with_points(&whole), dimension).is_ok();
        write(&mut self.written.readings, what, if takes { &whole } else { &text });
    }

    /// A reading as an amount; none where nothing was typed, or there is nothing to read.
    ///
    /// # Errors
    /// [`TextFault`] of a text that is no figure of it.
    pub fn amount(&self, what: Measurement) -> Result<Option<Amount>, TextFault> {
        let typed = self.typed(what);
        if typed.is_empty() || typed == NOT_APPLICABLE {
            return Ok(None);
        }
        read_amount(&with_points(typed), what.dimension()).map(Some)
    }

    /// How a reading with a decimal comma is read, in the unit of the text; none where none stands there, or it is not read.
    pub fn read_as(&self, what: Measurement) -> Option<(f64, Unit)> {
        let typed = self.typed(what);
        let read = with_points(typed);
        if read == typed { None } else { read_figure(&read, what.dimension()).ok() }
    }

    /// What a reading with a comma, or with spaces between its digits, likely means; none for one that is read, or wrong in
    /// another way. A bare number is in the unit in which a reader of `system` was asked for it.
    pub fn likely_meant(&self, what: Measurement, system: UnitSystem) -> Vec<String> {
        let Err(TextFault::Comma | TextFault::BadNumber { .. }) = self.amount(what) else { return Vec::new() };
        likely_meant(self.typed(what), |text| {
            let mut record = self.clone();
            record.write(what, text, system);
            matches!(record.amount(what), Ok(Some(_)))
        })
    }

    /// Every reading that can be read.
    pub fn reads(&self) -> Vec<Read> {
        let read = |what: &Measurement| Some(Read { what: *what, value: self.amount(*what).ok()?? });
        Measurement::ALL.iter().filter_map(read).collect()
    }

    /// What was typed of instruments; empty for the usual ones.
    pub fn instrument(&self, kind: InstrumentKind) -> &str {
        text_of(&self.written.instruments, kind)
    }

    /// Writes what instruments may be off, in percent, or takes it off when there is nothing in it.
    pub fn write_instrument(&mut self, kind: InstrumentKind, text: &str) {
        let text: String = text.trim().chars().filter(|c| !c.is_control()).take(LONGEST_FIGURE).collect();
        write(&mut self.written.instruments, kind, &text);
    }

    /// What instruments may be off; none where nothing was typed.
    ///
    /// # Errors
    /// [`TextFault`] of a text that is no percentage, or of one that nobody would call an instrument's.
    pub fn off(&self, kind: InstrumentKind) -> Result<Option<Ratio>, TextFault> {
        let typed = self.instrument(kind);
        if typed.is_empty() {
            return Ok(None);
        }
        let with_points = with_points(typed);
        let read = match read_amount(&with_points, Dimension::Ratio) {
            Err(TextFault::NoUnit) => read_amount(&format!("{with_points} %"), Dimension::Ratio)?,
            read => read?,
        };
        let percent = Unit::Percent.of_si(read.si());
        if percent > 0.0 && percent <= MOST_OFF {
            Ok(read.quantity())
        } else {
            Err(TextFault::BadTolerance { found: typed.to_owned() })
        }
    }

    /// Under which circumstances the readings were taken, for what is computed against them.
    pub fn circumstances(&self) -> Circumstances {
        let temperature = |what| self.amount(what).ok().flatten().and_then(Amount::quantity);
        let usual = Instruments::default();
        let off = |kind, usual| self.off(kind).ok().flatten().unwrap_or(usual);
        Circumstances {
            oil: temperature(Measurement::OilStart),
            air: temperature(Measurement::Air),
            instruments: Instruments {
                pressure: off(InstrumentKind::Pressure, usual.pressure),
                flow: off(InstrumentKind::Flow, usual.flow),
                speed: off(InstrumentKind::Speed, usual.speed),
            },
        }
    }

    /// The answer to what was tried; none where nobody gave one.
    pub fn answer(&self, check: FunctionCheck) -> Option<bool> {
        match text_of(&self.written.functions, check) {
            "yes" => Some(true),
            "no" => Some(false),
            _ => None,
        }
    }

    /// Writes an answer, or takes it back.
    pub fn write_answer(&mut self, check: FunctionCheck, answer: Option<bool>) {
        let text = answer.map_or("", |yes| if yes { "yes" } else { "no" });
        write(&mut self.written.functions, check, text);
    }

    /// Whether somebody stands for it, and on which day.
    pub fn is_signed(&self) -> bool {
        !self.entry(Entry::By).is_empty() && !self.entry(Entry::Day).is_empty()
    }
}

super::envelope::encloses!(HandOver);

fn text_of<N: Named>(texts: &BTreeMap<String, String>, name: N) -> &str {
    texts.get(name.name()).map_or("", String::as_str)
}

fn write<N: Named>(texts: &mut BTreeMap<String, String>, name: N, text: &str) {
    if text.trim().is_empty() {
        texts.remove(name.name());
    } else {
        texts.insert(name.name().to_owned(), text.to_owned());
    }
}

#[cfg(test)]
mod tests;
