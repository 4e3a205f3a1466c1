//! Units mixed up in a whole column: seen by what the table's own reader says of its figures, in the unit that stands there and in others.

use crate::answers::Answers;
use crate::build::{Built, Readings};
use crate::stage::{Stage, place_of};
use crate::tree::Node;
use crate::{Cell, Place, Question};
use quantity::{Dimension, Named, Unit};
use std::collections::BTreeMap;
use table::bounds::class_mass;
use table::row::Form;
use table::{CarrierClass, Contradiction, Fault};

/// Whether a problem may come of a wrong unit.
fn may_be_unit(fault: &Fault) -> bool {
    match fault {
        Fault::Impossible { .. } | Fault::Improbable { .. } | Fault::OtherUnit { .. } => true,
        Fault::Contradiction(contradiction) => matches!(
            contradiction,
            Contradiction::PowerAboveEngine
                | Contradiction::FlowAbovePumps
                | Contradiction::FlowAboveEngine
                | Contradiction::MassOutsideClass
                | Contradiction::FlowAgainstDisplacement
                | Contradiction::WindowAgainstDisplacement
        ),
        _ => false,
    }
}

/// The cells of each column whose figures may be in a wrong unit.
fn unusual(stage: &Stage, readings: &Readings) -> Vec<Place> {
    let (built, _, outcome, places) = stage.read(readings);
    let mut found: Vec<Place> = outcome
        .problems
        .iter()
        .filter(|problem| may_be_unit(&problem.fault))
        .filter_map(|problem| place_of(&problem.pointer, &places, &built))
        .chain(outside_class(&built, &places))
        .filter(|place| place.column.is_some())
        .collect();
    found.sort();
    found.dedup();
    found
}

/// The masses that are none of their machines' classes. The reader warns of what is twice as heavy; in a whole column less tells.
fn outside_class(built: &Built, places: &BTreeMap<String, Place>) -> Vec<Place> {
    let Some(Node::List(machines)) = built.root.member("carriers") else { return Vec::new() };
    let is_outside = |machine: &Node| {
        let class = machine.text("class").and_then(CarrierClass::from_name);
        let mass =
            machine.text("operating_mass").and_then(|text| quantity::text::read_stated(text, Dimension::Mass).ok());
        class.zip(mass).is_some_and(|(class, mass)| {
            let (least, _, greatest) = class_mass(class);
            !(least..=greatest).contains(&Unit::Kilogram.of_si(mass.nominal.si()))
        })
    };
    let outside = machines.values().enumerate().filter(|(_, machine)| is_outside(machine));
    outside.filter_map(|(index, _)| places.get(&format!("/carriers/{index}/operating_mass")).cloned()).collect()
}

fn dimension(form: Form) -> Option<Dimension> {
    match form {
        Form::Figure(dimension, _) | Form::Range(dimension, _) | Form::Window(dimension, _) => Some(dimension),
        _ => None,
    }
}

/// The columns at least half of whose figures are unusual, and at most a quarter of these would be in another unit; with what is asked.
pub fn mixed_up(stage: &Stage, readings: &Readings, answers: &Answers) -> Vec<((usize, usize), Question)> {
    let all = unusual(stage, readings);
    let mut asked = Vec::new();
    for (index, sheet) in stage.sheets.iter().enumerate() {
        for column in &sheet.columns {
            let Some(target) = column.target.as_ref().filter(|_| column.same_as.is_none()) else { continue };
            let Some(dimension) = dimension(target.field.form) else { continue };
            // Whoever writes the format's own names with a unit in each cell says what he means.
            if column.exact && column.unit.is_none() {
                continue;
            }
            let cells = stage.book.sheets[index]
                .rows
                .iter()
                .skip(sheet.first_row)
                .filter_map(|row| row.cells.get(column.number - 1));
            let figures: Vec<&Cell> =
                cells.filter(|cell| !cell.is_empty() && !crate::cell::says_nothing(&cell.text())).collect();
            let here = |place: &&Place| place.sheet == sheet.name && place.column == Some(column.number);
            let odd = all.iter().filter(here).count();
            let first = all.iter().find(here);
            let written = column.unit.or_else(|| unit_of_cells(&figures));
            let answered = answers.column(&sheet.name, column.number).is_some_and(|answer| answer.meant.is_some());
            let (Some(first), Some(written)) = (first, written.filter(|_| !answered && odd * 2 >= figures.len()))
            else {
                continue;
            };
            let others = Unit::ALL.iter().copied().filter(|unit| unit.dimension() == dimension && *unit != written);
            let tried = others.map(|meant| {
                let mut readings = readings.clone();
                let reading = readings.entry((index, column.number)).or_default();
                (reading.meant, reading.unit) = (Some((written, meant)), Some(meant));
                (unusual(stage, &readings).iter().filter(here).count(), meant)
            });
            let best = tried.min_by_key(|(left, _)| *left);
            if let Some((_, meant)) = best.filter(|(left, _)| left * 4 <= odd) {
                let question = Question::OtherUnit {
                    place: first.clone(),
                    header: column.header.clone(),
                    found: stage.text(first),
                    written,
                    meant,
                    unusual: odd,
                    of: figures.len(),
                };
                asked.push(((index, column.number), question));
            }
        }
    }
    asked
}

/// The unit that stands in most cells of a column.
pub fn unit_of_cells(figures: &[&Cell]) -> Option<Unit> {
    let mut counts: Vec<(usize, Unit)> = Vec::new();
    for cell in figures {
        let text = cell.text();
        let begin = text.find(|c: char| c.is_alphabetic() || c == '[');
        let Some(unit) =
            begin.and_then(|begin| crate::header::unit(text[begin..].split(['(', '±']).next().unwrap_or_default()))
        else {
            continue;
        };
        match counts.iter_mut().find(|(_, known)| *known == unit) {
            Some((count, _)) => *count += 1,
            None => counts.push((1, unit)),
        }
    }
    counts
        .into_iter()
        .max_by_key(|(count, _)| *count)
        .filter(|(count, _)| count * 2 > figures.iter().filter(|cell| !cell.is_empty()).count())
        .map(|(_, unit)| unit)
}

/// The units in which a column without one may be, those first in which fewest figures are unusual.
pub fn likely_units(stage: &Stage, (index, number): (usize, usize)) -> Vec<Unit> {
    let sheet = &stage.sheets[index];
    let column = sheet.columns.iter().find(|column| column.number == number);
    let Some(dimension) = column.and_then(|column| dimension(column.target.as_ref()?.field.form)) else {
        return Vec::new();
    };
    let mut units: Vec<(usize, Unit)> = Unit::ALL
        .iter()
        .copied()
        .filter(|unit| unit.dimension() == dimension)
        .map(|unit| {
            let reading = crate::cell::Reading {
                unit: Some(unit),
                decimal: Some(crate::Mark::Point),
                ..crate::cell::Reading::default()
            };
            let readings = Readings::from([((index, number), reading)]);
            let odd = unusual(stage, &readings);
            (odd.iter().filter(|place| place.sheet == sheet.name && place.column == Some(number)).count(), unit)
        })
        .collect();
    units.sort_by_key(|(odd, _)| *odd);
    units.into_iter().map(|(_, unit)| unit).collect()
}
