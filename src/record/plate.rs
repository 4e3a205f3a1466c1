//! A person's own machine as its spec plate: the class, and figures as texts, just as they were typed.
//!
//! A plate becomes a carrier by way of a table of one machine, read by the same reader as every table: what it takes and
//! refuses, and in which words, is the same everywhere. A figure that is refused is left out of the carrier and stays on
//! the plate.

use super::RecordFault;
use super::envelope::Envelope;
use crate::pairing::{Class, FactId, Outcome, Pairing};
use crate::quantity::text::TextFault;
use crate::quantity::{Dimension, Named, names};
use crate::table::{
    self, Carrier, CarrierClass, Fault, MountingStandard, OilGrade, Problem, ReturnRoute, Severity, bounds,
};
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;

/// The name by which a kept text says what it is.
pub const FORMAT: &str = "pairwright.machine";
/// The version that is written.
pub const VERSION: u32 = 1;
/// What the ids of own machines begin with; no table has such ids unless it was written here.
pub const OWN: &str = "own.";

names! {
    /// A figure of the plate.
    "plate figure" pub enum Figure {
        /// Operating mass.
        OperatingMass = "operating-mass",
        /// Greatest flow of the auxiliary circuit.
        Flow = "flow",
        /// Relief of the auxiliary circuit.
        Relief = "relief",
        /// How heads are mounted.
        Mounting = "mounting",
        /// Diameter of the pins.
        Pin = "pin",
        /// Width of the stick between the head's ears.
        StickWidth = "stick-width",
        /// Distance of the pin centres.
        PinCentres = "pin-centres",
        /// Net engine power.
        EnginePower = "engine-power",
        /// Engine speed at work.
        WorkingSpeed = "working-speed",
        /// Engine speed without load.
        HighIdle = "high-idle",
        /// To which flows the machine itself can be set.
        FlowSetting = "flow-setting",
        /// Whether that setting can be locked.
        FlowLocked = "flow-locked",
        /// To which pressures the relief may be set.
        ReliefRange = "relief-range",
        /// Whether the return goes through the valve.
        ReturnRoute = "return-route",
        /// Pressure lost on the way back.
        ReturnLoss = "return-loss",
        /// At which flow that was measured.
        ReturnLossFlow = "return-loss-flow",
        /// Whether the return passes the machine's filter.
        ReturnFilter = "return-filter",
        /// Bore of the supply line.
        SupplyBore = "supply-bore",
        /// Length of the supply line.
        SupplyLength = "supply-length",
        /// Bore of the return line.
        ReturnBore = "return-bore",
        /// Length of the return line.
        ReturnLength = "return-length",
        /// Whether there is a case line.
        CaseLine = "case-line",
        /// Bore of the case line.
        CaseBore = "case-bore",
        /// Length of the case line.
        CaseLength = "case-length",
        /// Grade of the oil.
        OilGrade = "oil-grade",
    }
}

/// The mounting by pins, among the names of standards.
pub const BY_PINS: &str = "pins";

/// How a figure is answered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Answer {
    /// By a figure with its unit.
    Quantity(Dimension),
    /// By the least and the greatest figure.
    Range(Dimension),
    /// By yes or no.
    YesNo,
    /// By one of these names.
    Choice(Vec<&'static str>),
}

impl Figure {
    /// How it is answered.
    pub fn answer(self) -> Answer {
        fn choice<T: Named>() -> Vec<&'static str> {
            T::ALL.iter().map(|value| value.name()).collect()
        }
        match self {
            Self::OperatingMass => Answer::Quantity(bounds::CARRIER_MASS.unit.dimension()),
            Self::EnginePower => Answer::Quantity(Dimension::Power),
            Self::WorkingSpeed | Self::HighIdle => Answer::Quantity(Dimension::RotationalSpeed),
            Self::Flow | Self::ReturnLossFlow => Answer::Quantity(Dimension::Flow),
            Self::Relief | Self::ReturnLoss => Answer::Quantity(Dimension::Pressure),
            Self::FlowSetting => Answer::Range(Dimension::Flow),
            Self::ReliefRange => Answer::Range(Dimension::Pressure),
            Self::SupplyBore
            | Self::SupplyLength
            | Self::ReturnBore
            | Self::ReturnLength
            | Self::CaseBore
            | Self::CaseLength
            | Self::Pin
            | Self::StickWidth
            | Self::PinCentres => Answer::Quantity(Dimension::Length),
            Self::FlowLocked | Self::ReturnFilter | Self::CaseLine => Answer::YesNo,
            Self::ReturnRoute => Answer::Choice(choice::<ReturnRoute>()),
            Self::OilGrade => Answer::Choice(choice::<OilGrade>()),
            Self::Mounting => Answer::Choice([BY_PINS].into_iter().chain(choice::<MountingStandard>()).collect()),
        }
    }

    /// The fact that it settles, alone or with others.
    pub fn settles(self) -> FactId {
        match self {
            Self::OperatingMass => FactId::OperatingMass,
            Self::Flow | Self::FlowSetting => FactId::CircuitFlow,
            Self::FlowLocked => FactId::FlowSettingLocked,
            Self::Relief | Self::ReliefRange => FactId::CircuitRelief,
            Self::Mounting | Self::Pin | Self::StickWidth | Self::PinCentres => FactId::CarrierMounting,
            Self::EnginePower => FactId::EnginePower,
            Self::WorkingSpeed | Self::HighIdle => FactId::HighIdle,
            // Unstated, the oil comes back through the valve, which loses more.
            Self::ReturnRoute | Self::ReturnLoss | Self::ReturnLossFlow => FactId::ReturnLoss,
            Self::ReturnFilter => FactId::ReturnFilter,
            Self::SupplyBore | Self::SupplyLength => FactId::SupplyLine,
            Self::ReturnBore | Self::ReturnLength => FactId::ReturnLine,
            Self::CaseLine => FactId::CaseLine,
            Self::CaseBore | Self::CaseLength => FactId::CaseLineSize,
            Self::OilGrade => FactId::OilGrade,
        }
    }

    /// The figure without whose answer this one has no meaning, and the answer that gives it one (any, when `None`).
    pub fn depends_on(self) -> Option<(Self, Option<&'static str>)> {
        match self {
            Self::Pin => Some((Self::Mounting, Some(BY_PINS))),
            Self::StickWidth | Self::PinCentres => Some((Self::Pin, None)),
            Self::FlowLocked => Some((Self::FlowSetting, None)),
            Self::ReturnLossFlow => Some((Self::ReturnLoss, None)),
            Self::CaseBore | Self::CaseLength => Some((Self::CaseLine, Some("yes"))),
            _ => None,
        }
    }

    /// Where it stands in a carrier, as a JSON Pointer from the carrier on.
    fn pointer(self) -> &'static str {
        match self {
            Self::OperatingMass => "/operating_mass",
            Self::Flow => "/circuits/0/flow",
            Self::Relief => "/circuits/0/relief",
            Self::Mounting => "/mounting/0/standard",
            Self::Pin => "/mounting/0/pin",
            Self::StickWidth => "/mounting/0/width",
            Self::PinCentres => "/mounting/0/centres",
            Self::EnginePower => "/engine/power",
            Self::WorkingSpeed => "/engine/working_speed",
            Self::HighIdle => "/engine/high_idle",
            Self::FlowSetting => "/circuits/0/flow_setting/range",
            Self::FlowLocked => "/circuits/0/flow_setting/locked",
            Self::ReliefRange => "/circuits/0/relief_range",
            Self::ReturnRoute => "/circuits/0/return_path/route",
            Self::ReturnLoss => "/circuits/0/return_path/loss/loss",
            Self::ReturnLossFlow => "/circuits/0/return_path/loss/flow",
            Self::ReturnFilter => "/circuits/0/return_path/through_filter",
            Self::SupplyBore => "/circuits/0/supply/0/bore",
            Self::SupplyLength => "/circuits/0/supply/0/length",
            Self::ReturnBore => "/circuits/0/return_path/line/0/bore",
            Self::ReturnLength => "/circuits/0/return_path/line/0/length",
            Self::CaseLine => "/case_line/fitted",
            Self::CaseBore => "/case_line/line/0/bore",
            Self::CaseLength => "/case_line/line/0/length",
            Self::OilGrade => "/oil/grade",
        }
    }
}

/// A person's own machine.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Plate {
    /// Unique among the own machines; part of the key under which it is kept.
    pub id: String,
    /// What the person calls it.
    pub name: String,
    /// The name of its class.
    pub class: String,
    /// The figures by their names, as typed. Names that this build does not know are kept.
    pub figures: BTreeMap<String, String>,
    /// Ids of the attachments for which it asks; all of the table when empty.
    #[serde(default)]
    pub heads: Vec<String>,
    /// When it was last changed, ISO 8601.
    pub changed: String,
}

/// What becomes of a plate.
#[derive(Clone, Debug)]
pub struct Reading {
    /// The machine, with every figure that can be used.
    pub carrier: Option<Carrier>,
    /// What is wrong or improbable, by figure.
    pub problems: Vec<(Figure, Problem)>,
}

const ENVELOPE: Envelope = Envelope { format: FORMAT, version: VERSION, field: "machine" };

impl Plate {
    /// A plate with nothing on it but the class.
    pub fn blank(id: String, class: CarrierClass, name: String, now: String) -> Self {
        Self { id, name, class: class.name().to_owned(), figures: BTreeMap::new(), heads: Vec::new(), changed: now }
    }

    /// The class, when this build knows it.
    pub fn class(&self) -> Option<CarrierClass> {
        CarrierClass::from_name(&self.class)
    }

    /// The id of its carrier.
    pub fn carrier_id(&self) -> String {
        format!("{OWN}{}", self.id)
    }

    /// What was typed for a figure; empty when nothing was.
    pub fn typed(&self, figure: Figure) -> &str {
        self.figures.get(figure.name()).map_or("", String::as_str)
    }

    /// Writes a figure, or takes it off when there is nothing in it.
    pub fn write(&mut self, figure: Figure, text: &str) {
        if text.trim().is_empty() {
            self.figures.remove(figure.name());
        } else {
            self.figures.insert(figure.name().to_owned(), text.to_owned());
        }
    }

    /// Whether a figure has a meaning, given what stands on the plate.
    pub fn applies(&self, figure: Figure) -> bool {
        figure.depends_on().is_none_or(|(on, answer)| {
            let typed = self.typed(on).trim();
            !typed.is_empty() && answer.is_none_or(|answer| typed == answer) && self.applies(on)
        })
    }

    /// The plate as a table of one machine, without the figures that are refused. Figures read off a plate are marked so,
    /// unless the text names its source.
    pub fn table(&self) -> Value {
        self.table_without(&Self::refused(&self.problems()))
    }

    /// What is wrong or improbable, by figure.
    fn problems(&self) -> Vec<(Figure, Problem)> {
        self.first_reading().1
    }

    /// The plate with every figure on it as the reader takes it, and what it says of them by figure.
    fn first_reading(&self) -> (Option<table::Table>, Vec<(Figure, Problem)>) {
        let outcome = table::read(&self.table_without(&[]).to_string());
        let mut problems: Vec<(Figure, Problem)> = outcome
            .problems
            .into_iter()
            .filter_map(|mut problem| {
                let place = problem.pointer.strip_prefix("/carriers/0")?;
                let figure = *Figure::ALL.iter().find(|figure| figure.pointer() == place)?;
                // What was typed, not what was made of it.
                self.typed(figure).trim().clone_into(&mut problem.found);
                Some((figure, problem))
            })
            .collect();
        problems.dedup_by_key(|(figure, _)| *figure);
        (outcome.table, problems)
    }

    fn refused(problems: &[(Figure, Problem)]) -> Vec<Figure> {
        problems.iter().filter(|(_, p)| p.severity == Severity::Error).map(|(figure, _)| *figure).collect()
    }

    fn table_without(&self, left_out: &[Figure]) -> Value {
        let mut carrier = json!({ "id": self.carrier_id(), "model": self.name, "class": self.class, "generic": true });
        let has = |figure: Figure| {
            !self.typed(figure).trim().is_empty() && self.applies(figure) && !left_out.contains(&figure)
        };
        for &figure in Figure::ALL {
            // A loss without its flow says nothing, nor does a lock without a setting.
            let whole = match figure {
                Figure::ReturnLoss => has(Figure::ReturnLossFlow),
                Figure::ReturnLossFlow => has(Figure::ReturnLoss),
                Figure::FlowLocked => has(Figure::FlowSetting),
                Figure::StickWidth | Figure::PinCentres => has(Figure::Pin),
                Figure::Mounting => self.typed(figure).trim() != BY_PINS,
                _ => true,
            };
            if whole && has(figure) {
                put(&mut carrier, figure.pointer(), self.value(figure));
            }
        }
        if let Some(circuit) = carrier.pointer_mut("/circuits/0").and_then(Value::as_object_mut) {
            circuit.insert("id".to_owned(), json!("aux"));
        }
        json!({
            "format": table::FORMAT, "version": table::VERSION, "title": self.name,
            "carriers": [carrier], "heads": [],
        })
    }

    fn value(&self, figure: Figure) -> Value {
        let typed = self.typed(figure).trim();
        match figure.answer() {
            Answer::YesNo => json!(typed == "yes"),
            Answer::Quantity(_) if !typed.contains('(') => json!(format!("{typed} (plate)")),
            Answer::Quantity(_) | Answer::Range(_) | Answer::Choice(_) => json!(typed),
        }
    }

    /// What a figure with a comma, or with spaces between its digits, likely means: each reading that would be taken
    /// without a word. None for a figure that is sound or wrong in another way.
    pub fn likely_meant(&self, figure: Figure) -> Vec<String> {
        let typed = self.typed(figure).trim();
        let Some((_, problem)) = self.problems().into_iter().find(|(of, _)| *of == figure) else { return Vec::new() };
        let Fault::Quantity { fault: TextFault::Comma | TextFault::BadNumber { .. }, .. } = problem.fault else {
            return Vec::new();
        };
        let digits = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
        let letters: Vec<char> = typed.chars().collect();
        // A sign between two digits: a decimal point, or nothing.
        let between = |index: usize| {
            digits(letters.get(index.wrapping_sub(1)).copied()) && digits(letters.get(index + 1).copied())
        };
        let read_as = |point: &str| {
            let piece = |(index, c): (usize, &char)| match c {
                ',' if between(index) => point.to_owned(),
                ' ' | '\u{a0}' | '\u{202f}' if between(index) => String::new(),
                c => c.to_string(),
            };
            letters.iter().enumerate().map(piece).collect::<String>()
        };
        let mut readings = vec![read_as("."), read_as("")];
        readings.dedup();
        let is_taken = |text: &String| {
            let mut plate = self.clone();
            plate.write(figure, text);
            plate.problems().iter().all(|(of, _)| *of != figure)
        };
        readings.retain(is_taken);
        readings
    }

    /// Reads the plate.
    pub fn read(&self) -> Reading {
        let (table, problems) = self.first_reading();
        let refused = Self::refused(&problems);
        let without = || table::read(&self.table_without(&refused).to_string()).table;
        let table = if refused.is_empty() { table } else { without() };
        Reading { carrier: table.and_then(|table| table.carriers.into_iter().next()), problems }
    }

    /// The text to keep.
    pub fn encode(&self) -> String {
        ENVELOPE.encode(self)
    }

    /// Reads a kept text.
    ///
    /// # Errors
    /// [`RecordFault`] when it is damaged, of another kind, or newer than this build.
    pub fn decode(text: &str) -> Result<Self, RecordFault> {
        ENVELOPE.decode(text)
    }
}

/// Puts a value at a JSON Pointer, making objects and lists on the way.
fn put(root: &mut Value, pointer: &str, value: Value) {
    let mut place = root;
    for step in pointer.split('/').skip(1) {
        place = if step == "0" {
            if !place.is_array() {
                *place = json!([{}]);
            }
            &mut place[0]
        } else {
            if !place.is_object() {
                *place = Value::Object(Map::new());
            }
            &mut place[step]
        };
    }
    *place = value;
}

/// What pairings ask of the machine: the facts that keep a check open, the one that decides most first, each with the
/// number of pairings that wait for it.
///
/// A check names what it misses with the deciding fact first, so the first counts whole, the second half, the third a
/// third, and so on: a fact that merely makes an answer finer comes behind one that makes it, and one that opens several
/// checks before one that opens a single one.
pub fn asked<'a>(pairings: impl IntoIterator<Item = &'a Pairing>) -> Vec<(FactId, usize)> {
    let mut tally: BTreeMap<FactId, (f64, usize)> = BTreeMap::new();
    for pairing in pairings {
        let mut here: BTreeMap<FactId, f64> = BTreeMap::new();
        for check in pairing.final_checks().iter().filter(|check| check.outcome == Outcome::NotKnown && check.blocks) {
            // What can hurt people comes first.
            let weight = if check.class == Class::Safety { 1.5 } else { 1.0 };
            for (place, missing) in (1_u32..).zip(check.missing.iter().filter(|missing| missing.fact.is_of_machine())) {
                *here.entry(missing.fact).or_default() += weight / f64::from(place);
            }
        }
        for (fact, weight) in here {
            let entry = tally.entry(fact).or_default();
            entry.0 += weight;
            entry.1 += 1;
        }
    }
    let mut facts: Vec<_> = tally.into_iter().collect();
    facts.sort_by(|(a, (x, _)), (b, (y, _))| y.total_cmp(x).then_with(|| a.cmp(b)));
    facts.into_iter().map(|(fact, (_, pairings))| (fact, pairings)).collect()
}

/// The figures to ask for, in the order of what they decide. Facts that no plate shows (leakage, override, losses of
/// couplings and filter) are left to what practice assumes.
pub fn figures(asked: &[(FactId, usize)]) -> Vec<Figure> {
    let mut figures = Vec::new();
    for (fact, _) in asked {
        // The engine's power is what a person can read of what the pumps may take; a circuit begins with its flow.
        let fact = match fact {
            FactId::PowerLimit => FactId::EnginePower,
            FactId::Circuit => FactId::CircuitFlow,
            // The way back is asked for with what it loses.
            FactId::ReturnRoute => FactId::ReturnLoss,
            other => *other,
        };
        let of_fact = Figure::ALL.iter().filter(|figure| figure.settles() == fact && !figures.contains(*figure));
        let mut of_fact: Vec<_> = of_fact.copied().collect();
        figures.append(&mut of_fact);
    }
    figures
}
