//! A hand-over in words: what is read where, what is tried, how it stands, what it teaches of the machine.

mod faults;
mod paper;
#[cfg(test)]
mod tests;
mod walk;

pub use paper::{ENTRIES, READ, TRIED};
pub use walk::Row;

use super::{Words, capital, counted, small};
use fit::Pairing;
use handover::{FunctionCheck, Instruments, Item, Learned, Lesson, Measurement, Planned, Standing, State, Step};
use quantity::{Amount, Quantity, Unit, UnitSystem};
use record::HandOver;
use record::handover::{Entry, InstrumentKind, MOST_OFF};
use workshop::Found;

/// How many open items are named in a sentence.
const NAMED: usize = 3;

impl Words<'_> {
    /// What a reading is called.
    pub fn measurement(&self, what: Measurement) -> &'static str {
        match what {
            Measurement::EngineFree => "Engine speed without load",
            Measurement::EngineWorking => "Engine speed at work",
            Measurement::FlowFree => "Flow, unloaded",
            Measurement::FlowWorking => "Flow, loaded as at work",
            Measurement::FlowNearRelief => "Flow, loaded to near the relief",
            Measurement::FlowBusy => "Flow, loaded as at work, while a function moves",
            Measurement::Relief => "Relief, nothing connected",
            Measurement::PumpFree => "Pressure at the pumps, free running",
            Measurement::PumpWorking => "Pressure at the pumps, at work",
            Measurement::InletFree => "Pressure at the inlet, free running",
            Measurement::InletWorking => "Pressure at the inlet, at work",
            Measurement::OutletFree => "Back pressure, free running",
            Measurement::OutletWorking => "Back pressure, at work",
            Measurement::CaseFree => "Case pressure, free running",
            Measurement::CaseWorking => "Case pressure, at work",
            Measurement::CaseFlow => "Case flow, at work",
            Measurement::RotorFree => "Rotor speed, free running",
            Measurement::RotorWorking => "Rotor speed, at work",
            Measurement::MotorWorking => "Speed of the motor's shaft, at work",
            Measurement::OilStart => "Oil at the start of the readings",
            Measurement::OilAfter => "Oil after 30 minutes at work",
            Measurement::Air => "Air",
        }
    }

    /// What a drawn dial is called for whoever does not see it.
    pub fn dial_of(&self, what: Measurement) -> String {
        format!("Dial: {}", small(self.measurement(what)))
    }

    /// Where and how it is read.
    pub fn measurement_place(&self, planned: &Planned) -> String {
        let set = |otherwise: &str| match planned.set_to {
            Some(pressure) => format!("Flow tester in the line, load valve at {}.", self.set_about(pressure)),
            None => format!("Flow tester in the line, load valve {otherwise}."),
        };
        match planned.what {
            Measurement::EngineFree | Measurement::EngineWorking => "On the machine's display.".to_owned(),
            Measurement::FlowFree => set("open"),
            Measurement::FlowWorking => set("at the attachment's working pressure"),
            Measurement::FlowNearRelief => set("at 90 % of the relief"),
            Measurement::FlowBusy => format!("{} Move one function of the machine meanwhile.", set("as at work")),
            Measurement::Relief => {
                "Tester before the attachment, load valve shut for a few seconds at the most.".to_owned()
            }
            Measurement::PumpFree | Measurement::PumpWorking => "Gauge at the pumps' test port.".to_owned(),
            Measurement::InletFree | Measurement::InletWorking => {
                "Gauge at a tee in the attachment's inlet.".to_owned()
            }
            Measurement::OutletFree | Measurement::OutletWorking => {
                "Gauge at a tee in the attachment's outlet.".to_owned()
            }
            Measurement::CaseFree | Measurement::CaseWorking => {
                "Gauge at a tee in the case drain, at the motor.".to_owned()
            }
            Measurement::CaseFlow => {
                "Case drain led into a bucket at the tank, its end tied down before the start; timed with a stopwatch from outside the throw zone, nobody \
                 near line or attachment."
                    .to_owned()
            }
            Measurement::RotorFree | Measurement::RotorWorking => {
                "Tachometer without contact at the rotor, fixed before the start, read from the closed cab.".to_owned()
            }
            Measurement::MotorWorking => {
                "Tachometer without contact at the motor's shaft, fixed before the start, read from the closed cab; only where a belt or gear lies between."
                    .to_owned()
            }
            Measurement::OilStart => "Thermometer in the tank. What is expected below is solved for it.".to_owned(),
            Measurement::OilAfter => "Thermometer in the tank, after 30 minutes of the work it is sold for.".to_owned(),
            Measurement::Air => "Thermometer in the shade.".to_owned(),
        }
    }

    /// What a group of readings is called.
    pub fn step_of_hand_over(&self, step: Step) -> &'static str {
        match step {
            Step::Start => "Before anything is read",
            Step::Tester => "List A: with the tester, attachment not connected",
            Step::Attachment => "List B: with the attachment connected, never with its lines shut",
            Step::After => "After half an hour of work",
        }
    }

    /// The heading of a step in a word or two.
    pub fn step_short(&self, step: Step) -> &'static str {
        match step {
            Step::Start => "Before",
            Step::Tester => "List A",
            Step::Attachment => "List B",
            Step::After => "Oil after work",
        }
    }

    /// What is to be kept in mind while a group is read.
    pub fn caution_of_step(&self, step: Step) -> &'static str {
        match step {
            Step::Start => {
                "Makers' manuals, local codes and licensed practice come first. Engine off and pressure let out before a line is opened."
            }
            Step::Tester => {
                "Burst disc in the tester. No hand near a line under pressure: a fine jet goes through a glove."
            }
            Step::Attachment => {
                "Everybody out of the throw zone, cab shut. Transmitters with their display in the cab, or gauges outside its window: no hose under \
                 pressure in a cab. Nobody walks to a turning rotor."
            }
            Step::After => "Oil and lines are hot. Engine off, rotor at rest, before anybody goes near.",
        }
    }

    /// What should be found, and how a figure that was read lies to it; nothing of what is only to be known before the start.
    pub fn reading_said(&self, planned: &Planned, read: Option<Amount>) -> String {
        match &planned.reading.found {
            Found::NotKnown { missing } if missing.is_empty() => String::new(),
            _ => self.gauge_text(&planned.reading, read),
        }
    }

    /// What is tried, as a question.
    pub fn function_check(&self, check: FunctionCheck) -> &'static str {
        match check {
            FunctionCheck::Locked => "Are coupler and pins seen to be locked?",
            FunctionCheck::Guards => "Are the guards on that the attachment demands?",
            FunctionCheck::HosesFree => "Are the hoses free in every position, neither pinched nor pulled?",
            FunctionCheck::NoLeaks => "Is everything tight, looked for before the rotor turned?",
            FunctionCheck::Direction => "Does it turn the way its arrow shows?",
            FunctionCheck::Stops => "Does it stop when the operator lets go, leaves the seat, and without current?",
            FunctionCheck::StaysOff => "Does it stay off when the current is back?",
            FunctionCheck::RunsDown => "Does the rotor coast down without a jerk?",
            FunctionCheck::Door => "Do door, tilt or rotation move both ways, and hold?",
            FunctionCheck::Functions => "Do boom, slew and travel move as the customer was told?",
            FunctionCheck::SwitchedBack => {
                "Back to the bucket: do the other tools work, and is every setting as it was?"
            }
            FunctionCheck::Instructed => {
                "Has the operator been shown how to stop it, the throw zone, and how to go back to the bucket?"
            }
        }
    }

    /// What an entry is called.
    pub fn entry_of_record(&self, entry: Entry) -> &'static str {
        match entry {
            Entry::Serial => "Serial or yard number of the machine",
            Entry::Hours => "Hours on the clock",
            Entry::Day => "Day",
            Entry::By => "Set and proved by",
            Entry::To => "Handed over to",
            Entry::Note => "Remarks",
        }
    }

    /// What stands for an entry, a day as its reader writes it.
    pub fn entry_told(&self, record: &HandOver, entry: Entry) -> String {
        let text = record.entry(entry);
        if entry == Entry::Day { self.numbers.day(text) } else { text.to_owned() }
    }

    /// What instruments may be off.
    pub fn instrument_off(&self, kind: InstrumentKind) -> &'static str {
        match kind {
            InstrumentKind::Pressure => "Gauges: class, % of full scale",
            InstrumentKind::Flow => "Flow tester: % of its reading",
            InstrumentKind::Speed => "Tachometer: % of its reading",
        }
    }

    /// What instruments are taken to be off where nothing is typed.
    pub fn instruments_left_empty(&self) -> String {
        let [class, flow, speed] = self.usual_instruments();
        let gauges = match self.units {
            UnitSystem::Metric => format!("class {class} gauges"),
            UnitSystem::UsCustomary => format!("gauges to {class} % of full scale"),
        };
        format!("Empty: {gauges}, a flow tester to {flow} %, a tachometer to {speed} %. Their certificates say.")
    }

    /// That what was typed of an instrument is no such figure.
    pub fn instrument_fault(&self) -> String {
        let [class, ..] = self.usual_instruments();
        let most = self.numbers.decimal(MOST_OFF, 0);
        format!("Not used yet. To fix it: write a figure like {class}, above 0 and up to {most}.")
    }

    /// What gauges, flow tester and tachometer usually may be off, in percent.
    pub(crate) fn usual_instruments(&self) -> [String; 3] {
        let Instruments { pressure, flow, speed } = Instruments::default();
        [pressure, flow, speed].map(|share| {
            let percent = Unit::Percent.of_si(share.si());
            self.numbers.decimal(percent, usize::from(percent.fract().abs() > 1e-9))
        })
    }

    /// An item that is read or tried, short.
    pub fn item_of_hand_over(&self, item: Item) -> String {
        match item {
            Item::Reading(what) => small(self.measurement(what)),
            Item::Function(check) => match check {
                FunctionCheck::Locked => "lock of coupler and pins",
                FunctionCheck::Guards => "guards",
                FunctionCheck::HosesFree => "hoses free in every position",
                FunctionCheck::NoLeaks => "leaks",
                FunctionCheck::Direction => "direction of turning",
                FunctionCheck::Stops => "stop without operator or current",
                FunctionCheck::StaysOff => "no start by itself",
                FunctionCheck::RunsDown => "coast-down",
                FunctionCheck::Door => "door, tilt or rotation",
                FunctionCheck::Functions => "the machine's functions",
                FunctionCheck::SwitchedBack => "back to the bucket",
                FunctionCheck::Instructed => "instruction of the operator",
            }
            .to_owned(),
        }
    }

    /// The state of a hand-over, in a word or two.
    pub fn state_of_hand_over(&self, state: State) -> &'static str {
        match state {
            State::Stop => "stop",
            State::Off => "not as computed",
            State::Open => "not finished",
            State::Unsigned => "nobody stands for it yet",
            State::Proven => "proven",
        }
    }

    /// What is pressed once what stopped it is put right.
    pub fn fixed(&self, item: Item) -> &'static str {
        match item {
            Item::Reading(_) => "Fixed: read again",
            Item::Function(_) => "Fixed: try again",
        }
    }

    /// What is to prove before work besides what a hand-over reads and tries; none where nothing is.
    pub fn to_prove_before_work(&self, pairing: &Pairing) -> Option<String> {
        (!pairing.before_work.is_empty())
            .then(|| format!("To prove before work, besides: {}.", self.named_checks(&pairing.before_work)))
    }

    /// How a hand-over stands and what is to be done, in a sentence or two.
    pub fn standing(&self, standing: &Standing, planned: &[Planned]) -> String {
        let named = |items: &[Item]| {
            let named: Vec<_> = items.iter().take(NAMED).map(|item| self.item_of_hand_over(*item)).collect();
            let more = items.len().saturating_sub(NAMED);
            let more = if more > 0 { format!(" and {more} more") } else { String::new() };
            format!("{}{more}", named.join(", "))
        };
        match standing.state(planned) {
            State::Stop => format!(
                "Over the limit: {}. Switch it off, let it come to rest, and fix that before anybody goes on.",
                named(&standing.stop)
            ),
            State::Off => format!("Not as it should be: {}. It must not go to work like this.", named(&standing.off)),
            State::Open => format!(
                "{} still to be read or tried: {}.",
                capital(&counted(standing.open.len(), "item", "items")),
                named(&standing.open)
            ),
            State::Unsigned => {
                "Every reading lies within its limits, and every trial went as it should. Write who stands for it and on which day: then \
                 the machine fits."
                    .to_owned()
            }
            State::Proven => "Proven: the machine fits, and somebody stands for it.".to_owned(),
        }
    }

    /// That a record came with a link.
    pub fn record_came(&self, readings: usize) -> String {
        format!("A record of a hand-over came with it, with {}.", counted(readings, "reading", "readings"))
    }

    /// What a reading teaches of the machine.
    pub fn lesson(&self, lesson: &Lesson) -> String {
        let name = match lesson.what {
            Learned::Flow => "Auxiliary flow",
            Learned::Relief => "Auxiliary relief",
            Learned::WorkingSpeed => "Engine speed at work",
            Learned::HighIdle => "Engine speed without load",
            Learned::Return => "Pressure in the return",
        };
        let at = lesson.at.map(|flow: Amount| format!(" at {}", self.amount(flow))).unwrap_or_default();
        format!("{name}: {}{at}", self.amount(lesson.value))
    }
}
