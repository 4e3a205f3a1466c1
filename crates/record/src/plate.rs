//! A person's own machine as its spec plate: the class, and figures as texts, just as they were typed.
//!
//! A plate becomes a carrier by way of a table of one machine, read by the same reader as every table: what it takes and
//! refuses, and in which words, is the same everywhere. A figure that is refused is left out of the carrier and stays on
//! the plate.

mod ask;
mod holds;
mod like;

pub use ask::{Question, asked, figures, nearest, questions};
pub use holds::Holds;

use super::envelope::Envelope;
pub use super::figure::{Answer, BY_PINS, Figure};
use super::{RecordFault, merge};
use handover::{Learned, Lesson};
use quantity::text::{self, TextFault};
use quantity::{Amount, Mass, Named, Power, Quantity, Unit, UnitSystem};
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;
use table::{Carrier, CarrierClass, Fault, Guard, OutputKind, Problem, Severity, bounds};

/// The name by which a kept text says what it is.
pub const FORMAT: &str = "pairwright.machine";
/// What the ids of own machines begin with; no table has such ids unless it was written here.
pub const OWN: &str = "own.";
/// What another tool on the same spool is called on a plate.
const OTHER_TOOL: &str = "other tool";
/// The greatest number of spare outputs that is believed, and how it is expected.
const MOST_OUTPUTS: u64 = 20;
const COUNT_OF_OUTPUTS: &str = "a whole number from 0 to 20";

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
    /// Whether it came in a link, and nobody has checked its figures since.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub somebody_elses: bool,
    /// The machine of a table that it began as, as long as nobody has checked its figures on this one; else empty.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub taken_from: String,
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

const ENVELOPE: Envelope = Envelope { format: FORMAT, field: "machine", steps: &[] };

/// The figures of a plate that a lesson gives.
fn learns(lesson: &Lesson) -> [Option<(Figure, Amount)>; 2] {
    let figure = match lesson.what {
        Learned::Flow => Figure::Flow,
        Learned::Relief => Figure::Relief,
        Learned::WorkingSpeed => Figure::WorkingSpeed,
        Learned::HighIdle => Figure::HighIdle,
        Learned::Return => Figure::ReturnLoss,
    };
    [Some((figure, lesson.value)), lesson.at.map(|flow| (Figure::ReturnLossFlow, flow))]
}

/// A measured figure as it is typed. More than four digits no instrument on a machine shows.
fn measured(value: Amount) -> String {
    let (figure, unit) = value.in_system(UnitSystem::Metric);
    let figure: f64 = format!("{figure:.3e}").parse().unwrap_or(figure);
    format!("{figure} {} (measured)", unit.name())
}

impl Plate {
    /// A plate with nothing on it but the class.
    pub fn blank(id: String, class: CarrierClass, name: String, now: String) -> Self {
        Self {
            id,
            name,
            class: class.name().to_owned(),
            figures: BTreeMap::new(),
            heads: Vec::new(),
            somebody_elses: false,
            taken_from: String::new(),
            changed: now,
        }
    }

    /// The class, when this build knows it.
    pub fn class(&self) -> Option<CarrierClass> {
        CarrierClass::from_name(&self.class)
    }

    /// The size of excavator that its mass is of, where that is another than its class.
    pub fn other_size(&self) -> Option<CarrierClass> {
        let sizes = [
            CarrierClass::MicroExcavator,
            CarrierClass::MiniExcavator,
            CarrierClass::MidiExcavator,
            CarrierClass::Excavator,
        ];
        let class = self.class().filter(|class| sizes.contains(class))?;
        let mass = self.read().carrier?.operating_mass?.nominal;
        Some(bounds::excavator_of(Unit::Kilogram.of_si(mass.si()))).filter(|size| *size != class)
    }

    /// The same machine in another class.
    #[must_use]
    pub fn in_class(self, class: CarrierClass) -> Self {
        Self { class: class.name().to_owned(), ..self }
    }

    /// Writes mass and power by which a machine was looked for, in units that the reader uses.
    pub fn write_sought(&mut self, mass: Option<Mass>, power: Option<Power>, units: UnitSystem) {
        let figures = [(Figure::OperatingMass, mass.map(Amount::of)), (Figure::EnginePower, power.map(Amount::of))];
        for (figure, sought) in figures {
            if let Some(sought) = sought {
                let (value, unit) = sought.in_system(units);
                let value: f64 = format!("{value:.3e}").parse().unwrap_or(value);
                self.write(figure, &format!("{value} {}", unit.spoken().first().unwrap_or(&unit.name())));
            }
        }
    }

    /// Whether another plate says the same of a machine, whatever it is called by its keeper's browser and when.
    pub fn says_the_same(&self, other: &Self) -> bool {
        self.name == other.name && self.class == other.class && self.figures == other.figures
    }

    /// What stands here put together with what another tab has kept meanwhile, figure by figure.
    pub(super) fn merged(base: &Self, mine: &Self, theirs: &Self) -> Self {
        Self {
            id: mine.id.clone(),
            name: merge::field(&base.name, &mine.name, &theirs.name),
            class: merge::field(&base.class, &mine.class, &theirs.class),
            figures: merge::fields(&base.figures, &mine.figures, &theirs.figures),
            heads: merge::field(&base.heads, &mine.heads, &theirs.heads),
            somebody_elses: merge::field(&base.somebody_elses, &mine.somebody_elses, &theirs.somebody_elses),
            taken_from: merge::field(&base.taken_from, &mine.taken_from, &theirs.taken_from),
            changed: mine.changed.clone().max(theirs.changed.clone()),
        }
    }

    /// The plate as one that came in a link: its figures are somebody else's until somebody here has checked them.
    #[must_use]
    pub fn came_in_a_link(&self) -> Self {
        Self { somebody_elses: true, ..self.clone() }
    }

    /// The plate with its figures checked at the machine.
    #[must_use]
    pub fn checked(&self) -> Self {
        Self { somebody_elses: false, taken_from: String::new(), ..self.clone() }
    }

    /// Whether nobody has checked its figures on the machine itself.
    pub fn is_unchecked(&self) -> bool {
        self.somebody_elses || !self.taken_from.is_empty()
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

    /// Writes a figure that was measured, marked so.
    pub fn learn(&mut self, lesson: &Lesson) {
        let figures = learns(lesson);
        for (figure, value) in figures.into_iter().flatten() {
            self.write(figure, &measured(value));
        }
    }

    /// Whether a figure that was measured stands on it already.
    pub fn has_learned(&self, lesson: &Lesson) -> bool {
        learns(lesson).into_iter().flatten().all(|(figure, value)| self.typed(figure) == measured(value))
    }

    /// Whether a figure has a meaning, given the class and what stands on the plate.
    pub fn applies(&self, figure: Figure) -> bool {
        let of_class = self.class().is_none_or(|class| figure.is_for(class));
        // Of a machine with two ends only the figures of the end that its circuit feeds.
        let other_end = figure.end().is_some_and(|end| {
            let typed = self.typed(Figure::End).trim();
            self.class().is_some_and(|class| class.only_end().is_none()) && !typed.is_empty() && typed != end.name()
        });
        of_class
            && !other_end
            && figure.depends_on().is_none_or(|(on, answer)| {
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
                if figure == Figure::SpareOutputs && matches!(problem.fault, Fault::WrongType { .. }) {
                    problem.fault = Fault::WrongType { expected: COUNT_OF_OUTPUTS };
                }
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
            // Pins are a mounting of their own, without a standard; the list of guards is put whole.
            let apart = figure == Figure::Mounting && self.typed(figure).trim() == BY_PINS
                || matches!(figure, Figure::FrontGuard | Figure::ImpactWindow | Figure::OutputCurrent);
            let whole = figure.counts_with().is_none_or(has) && figure.depends_on().is_none_or(|(on, _)| has(on));
            if has(figure) && whole && !apart {
                put(&mut carrier, figure.pointer(), self.value(figure));
            }
        }
        let guards = [(Figure::FrontGuard, Guard::FrontGuard), (Figure::ImpactWindow, Guard::ImpactWindow)];
        if guards.iter().all(|(figure, _)| has(*figure) && ["yes", "no"].contains(&self.typed(*figure).trim())) {
            let fitted = guards.iter().filter(|(figure, _)| self.typed(*figure).trim() == "yes");
            let fitted: Value = fitted.map(|(_, guard)| json!(guard.name())).collect();
            put(&mut carrier, Figure::FrontGuard.pointer(), fitted);
        }
        let mut put_beside = |there: &str, beside: &str, value: Value| {
            if carrier.pointer(there).is_some() {
                put(&mut carrier, beside, value);
            }
        };
        // What a table asks for besides, and no person need say.
        put_beside("/pumps/0", "/pumps/0/id", json!("pump"));
        put_beside("/pumps/0", "/circuits/0/pumps", json!(["pump"]));
        put_beside("/circuits/0", "/circuits/0/id", json!("aux"));
        // The least figure of the farthest column holds at ground level too.
        put_beside("/lifting/chart/0", "/lifting/chart/0/height", json!("0 m"));
        put_beside("/lifting/chart/0", "/lifting/greatest_reach", self.value(Figure::LiftReach));
        if has(Figure::End) {
            for place in ["/mounting/0", "/coupler"] {
                put_beside(place, &format!("{place}/end"), self.value(Figure::End));
            }
        }
        put_beside("/lifting/chart/0", "/lifting/chart/0/over_side", json!(true));
        let outputs = carrier.pointer_mut(Figure::SpareOutputs.pointer()).and_then(Value::as_array_mut);
        for output in outputs.into_iter().flatten().filter(|_| has(Figure::OutputCurrent)) {
            output["current"] = self.value(Figure::OutputCurrent);
        }
        json!({
            "format": table::FORMAT, "version": table::VERSION, "title": self.name,
            "carriers": [carrier], "heads": [],
        })
    }

    /// A figure as a table has it. What is no answer to its question goes there as it stands, for the reader to name.
    fn value(&self, figure: Figure) -> Value {
        let typed = self.typed(figure).trim();
        // A table has points alone; what a person types may have commas.
        let with_points =
            matches!(figure.answer(), Answer::Quantity(_) | Answer::Range(_)).then(|| text::with_points(typed));
        let typed = with_points.as_deref().unwrap_or(typed);
        let count = typed.parse::<u64>().ok();
        match (figure, figure.answer()) {
            (Figure::OtherTool, _) if typed == "no" => json!([]),
            (Figure::OtherTool, _) if typed == "yes" => json!([{ "name": OTHER_TOOL }]),
            (Figure::SpareOutputs, _) => match count.filter(|count| *count <= MOST_OUTPUTS) {
                Some(count) => (0..count).map(|_| json!({ "kind": OutputKind::Switched.name() })).collect(),
                None => json!(typed),
            },
            (_, Answer::YesNo) if typed == "yes" || typed == "no" => json!(typed == "yes"),
            (_, Answer::Count) => count.map_or_else(|| json!(typed), |count| json!(count)),
            (_, Answer::Quantity(_)) if !typed.contains('(') => json!(format!("{typed} (plate)")),
            _ => json!(typed),
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
        text::likely_meant(typed, |text| {
            let mut plate = self.clone();
            plate.write(figure, text);
            // The unit is asked for next.
            let is_open = |fault: &Fault| matches!(fault, Fault::Quantity { fault: TextFault::NoUnit, .. });
            plate.problems().iter().all(|(of, problem)| *of != figure || is_open(&problem.fault))
        })
    }

    /// How a figure with a decimal comma is read, with its point; none where none stands there, or it is not read.
    pub fn read_as(&self, figure: Figure) -> Option<String> {
        let typed = self.typed(figure).trim();
        let read =
            matches!(figure.answer(), Answer::Quantity(_) | Answer::Range(_)).then(|| text::with_points(typed))?;
        let refused =
            || self.problems().iter().any(|(of, problem)| *of == figure && problem.severity == Severity::Error);
        (read != typed && !refused()).then_some(read)
    }

    /// Reads the plate.
    pub fn read(&self) -> Reading {
        let (table, problems) = self.first_reading();
        let refused = Self::refused(&problems);
        let without = || table::read(&self.table_without(&refused).to_string()).table;
        let table = if refused.is_empty() { table } else { without() };
        Reading { carrier: table.and_then(|table| table.carriers.into_iter().next()), problems }
    }
}

super::envelope::encloses!(Plate);

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
