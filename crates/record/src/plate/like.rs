//! A plate that begins as a machine of a table: what is on that machine's entry and has a place on a plate.

use super::{BY_PINS, Plate};
use crate::figure::{Answer, Figure};
use quantity::Named;
use serde_json::Value;
use table::{CarrierClass, Guard, full_name};

impl Plate {
    /// A plate with the figures of a machine of a table, for one like it; they are that machine's until somebody has read them on this
    /// one. `text` is the table's. None when the table has no such machine, or it has no class.
    pub fn like(text: &str, carrier: &str, (id, name, now): (String, String, String)) -> Option<Self> {
        let table: Value = serde_json::from_str(text).ok()?;
        let entry = table["carriers"].as_array()?.iter().find(|entry| entry["id"] == carrier)?;
        let class = CarrierClass::from_name(entry["class"].as_str()?)?;
        let mut plate = Self::blank(id, class, name, now);
        plate.taken_from = full_name(entry["maker"].as_str(), entry["model"].as_str()?);
        for &figure in Figure::ALL {
            if let Some(text) = stated(entry, figure) {
                plate.write(figure, &text);
            }
        }
        // What the plate's own form does not take is left to be read on the machine.
        for (figure, _) in plate.problems() {
            plate.write(figure, "");
        }
        Some(plate)
    }
}

/// A figure of an entry as it would be typed; none where it is not stated, or has no place on a plate.
fn stated(entry: &Value, figure: Figure) -> Option<String> {
    let at = |pointer: &str| entry.pointer(pointer).filter(|value| !value.is_null());
    let list = |pointer: &str| at(pointer).and_then(Value::as_array);
    // A plate has room for one piece of a line, and for one pump.
    let one_piece = |pointer: &str| list(pointer).is_none_or(|pieces| pieces.len() == 1);
    let answers_for = match figure {
        Figure::SupplyBore | Figure::SupplyLength | Figure::SupplyStandard | Figure::SupplyRating => {
            one_piece("/circuits/0/supply")
        }
        Figure::ReturnBore | Figure::ReturnLength | Figure::ReturnStandard | Figure::ReturnRating => {
            one_piece("/circuits/0/return_path/line")
        }
        Figure::CaseBore | Figure::CaseLength => one_piece("/case_line/line"),
        Figure::PumpControl | Figure::PumpPressure => at("/pumps/0/id").is_some_and(|pump| {
            list("/circuits/0/pumps").is_some_and(|pumps| pumps.iter().all(|of_circuit| of_circuit == pump))
        }),
        _ => true,
    };
    if !answers_for {
        return None;
    }
    let yes_no = |is: bool| Some(if is { "yes" } else { "no" }.to_owned());
    let guard = |guard: Guard| list("/guards").and_then(|all| yes_no(all.iter().any(|known| known == guard.name())));
    match figure {
        Figure::Mounting if at(Figure::Pin.pointer()).is_some() => Some(BY_PINS.to_owned()),
        Figure::OtherTool => list(figure.pointer()).and_then(|tools| yes_no(!tools.is_empty())),
        Figure::SpareOutputs => list(figure.pointer()).map(|outputs| outputs.len().to_string()),
        Figure::FrontGuard => guard(Guard::FrontGuard),
        Figure::ImpactWindow => guard(Guard::ImpactWindow),
        Figure::LiftReach | Figure::LiftMass => {
            let point = farthest_over_side(list("/lifting/chart")?)?;
            typed(if figure == Figure::LiftReach { &point["reach"] } else { &point["mass"] }, figure)
        }
        _ => typed(at(figure.pointer())?, figure),
    }
}

/// The point of a lift chart that a plate asks for: over the side, at the greatest reach with a figure, the least there.
fn farthest_over_side(chart: &[Value]) -> Option<&Value> {
    let metres = |point: &Value| {
        quantity::text::read::<quantity::Length>(point["reach"].as_str()?).ok().map(|reach| reach.nominal)
    };
    let kilograms =
        |point: &Value| quantity::text::read::<quantity::Mass>(point["mass"].as_str()?).ok().map(|mass| mass.nominal);
    let over_side = chart.iter().filter(|point| point["over_side"] == true);
    let read = over_side.filter_map(|point| Some((point, metres(point)?, kilograms(point)?)));
    read.reduce(|best, next| if next.1 > best.1 || (next.1 == best.1 && next.2 < best.2) { next } else { best })
        .map(|(point, ..)| point)
}

/// A value of a table as it would be typed. A published figure says that it is one, or it would count as read off the plate.
fn typed(value: &Value, figure: Figure) -> Option<String> {
    match (figure.answer(), value) {
        (Answer::YesNo, Value::Bool(is)) => Some(if *is { "yes" } else { "no" }.to_owned()),
        (Answer::Count, Value::Number(count)) => Some(count.to_string()),
        (Answer::Quantity(_), Value::String(text)) if !text.contains('(') => Some(format!("{text} (published)")),
        (Answer::Choice(names), Value::String(name)) => names.contains(&name.as_str()).then(|| name.clone()),
        (Answer::Quantity(_) | Answer::Range(_) | Answer::Code, Value::String(text)) => Some(text.clone()),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const DEMO: &str = include_str!("../../../../public/table/demo.json");

    fn like(id: &str) -> Plate {
        Plate::like(DEMO, id, ("a1".to_owned(), "Mine".to_owned(), "2026-11-30T08:00:00Z".to_owned())).unwrap()
    }

    #[test]
    fn a_plate_like_any_machine_of_the_table_is_taken_by_its_own_form() {
        let table = table::read(DEMO).table.unwrap();
        for carrier in &table.carriers {
            let plate = like(carrier.id.as_str());
            let reading = plate.read();
            assert!(reading.problems.is_empty(), "{}: {:?}", carrier.id, reading.problems);
            let mine = reading.carrier.unwrap();
            assert_eq!(mine.class, carrier.class);
            assert_eq!(mine.operating_mass, carrier.operating_mass, "{}", carrier.id);
            if let (Some(mine), Some(theirs)) = (mine.circuits.first(), carrier.circuits.first()) {
                assert_eq!(
                    (&mine.flow, &mine.relief, mine.ways),
                    (&theirs.flow, &theirs.relief, theirs.ways),
                    "{}",
                    carrier.id
                );
            }
        }
    }

    #[test]
    fn the_figures_are_those_of_the_entry_and_said_to_be() {
        let plate = like("quern-q27");
        assert_eq!(plate.taken_from, "Quern QU 27");
        assert_eq!(plate.class(), Some(CarrierClass::MiniExcavator));
        for (figure, text) in [
            (Figure::OperatingMass, "2680 kg (plate)"),
            (Figure::Flow, "46 L/min (published)"),
            (Figure::Mounting, "pins"),
            (Figure::Pin, "35 mm (published)"),
            (Figure::LiftReach, "3.6 m (published)"),
            (Figure::LiftMass, "910 kg (published)"),
            (Figure::OtherTool, "no"),
            (Figure::FrontGuard, "yes"),
            (Figure::CaseLine, "no"),
            (Figure::SpareOutputs, "1"),
            (Figure::PumpControl, "load-sensing"),
        ] {
            assert_eq!(plate.typed(figure), text, "{figure:?}");
        }
    }

    #[test]
    fn what_a_plate_has_no_room_for_is_left_out() {
        let mut table: Value = serde_json::from_str(DEMO).unwrap();
        let machines = table["carriers"].as_array_mut().unwrap();
        let machine = machines.iter_mut().find(|machine| machine["id"] == "quern-q27").unwrap();
        let pieces = machine["circuits"][0]["supply"].as_array_mut().unwrap();
        pieces.push(pieces[0].clone());
        let of = || ("a1".to_owned(), "Mine".to_owned(), String::new());
        let plate = Plate::like(&table.to_string(), "quern-q27", of()).unwrap();
        assert_eq!(plate.typed(Figure::SupplyBore), "");
        assert!(!plate.typed(Figure::ReturnBore).is_empty());
        assert!(Plate::like(DEMO, "nobody", of()).is_none());
    }
}
