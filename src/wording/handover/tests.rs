use super::*;
use crate::pairing::handover::{Circumstances, Read, function_checks, plan, standing};
use crate::pairing::{Conditions, pair};
use crate::quantity::{Kind, Named, Pressure, UnitSystem, VolumeRate};
use crate::record::HandOver;
use crate::wording::PlainNumbers;

const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

fn litres(value: f64) -> Amount {
    Amount::of(VolumeRate::from_si(value / 60_000.0))
}

#[test]
fn every_name_is_said_once() {
    let all_differ = |mut names: Vec<String>| {
        let count = names.len();
        names.sort();
        names.dedup();
        assert_eq!(names.len(), count);
    };
    all_differ(Measurement::ALL.iter().map(|what| WORDS.measurement(*what).to_owned()).collect());
    all_differ(FunctionCheck::ALL.iter().map(|check| WORDS.function_check(*check).to_owned()).collect());
    all_differ(FunctionCheck::ALL.iter().map(|check| WORDS.item_of_hand_over(Item::Function(*check))).collect());
    all_differ(Entry::ALL.iter().map(|entry| WORDS.entry_of_record(*entry).to_owned()).collect());
}

#[test]
fn how_it_stands_is_said_with_what_is_to_be_done() {
    let planned = Vec::new();
    let open = |items: &[Item]| Standing { open: items.to_vec(), ..Standing::default() };
    let (flow, relief) = (Item::Reading(Measurement::FlowFree), Item::Reading(Measurement::Relief));
    let (leaks, door) = (Item::Function(FunctionCheck::NoLeaks), Item::Function(FunctionCheck::Door));
    assert_eq!(WORDS.standing(&open(&[leaks]), &planned), "1 item still to be read or tried: leaks.");
    assert_eq!(
        WORDS.standing(&open(&[flow, relief, leaks, door]), &planned),
        "4 items still to be read or tried: flow, unloaded, relief, dead-ended, leaks and 1 more."
    );
    assert_eq!(
        WORDS.standing(&Standing { stop: vec![leaks], off: vec![door], ..open(&[flow]) }, &planned),
        "Beyond what may be: leaks. Switch it off, let it come to rest, and mend that before anybody goes on."
    );
    assert_eq!(
        WORDS.standing(&Standing { off: vec![relief], ..open(&[flow]) }, &planned),
        "Not as it should be: relief, dead-ended. It must not go to work like this."
    );
}

#[test]
fn a_lesson_is_a_figure_with_its_name() {
    let value = Amount::of(Pressure::from_si(6.2e5));
    assert_eq!(
        WORDS.lesson(&Lesson { what: Learned::Return, value, at: Some(litres(60.0)) }),
        "Pressure in the return: 6.2 bar at 60 L/min"
    );
    assert_eq!(
        WORDS.lesson(&Lesson { what: Learned::Flow, value: litres(60.0), at: None }),
        "Auxiliary flow: 60 L/min"
    );
}

/// The paper of a record: everything that stands on it, and a place to write where nothing does.
#[test]
fn the_paper_holds_everything_that_was_typed() {
    let table = crate::table::read(include_str!("../../../public/table/demo.json")).table.expect("a table");
    let (carrier, head) = table.carrier("quern-q56").zip(table.head("thistlecut-r90")).expect("in the table");
    let conditions = Conditions::of_table(&table);
    let pairing = pair(carrier, head, &conditions);
    let mut record = HandOver::blank("a".to_owned(), "2026-11-27T10:00:00Z".to_owned(), (&table, "m"), &pairing);
    record.write(Measurement::FlowFree, "64", UnitSystem::Metric);
    record.write(Measurement::Relief, "about 230", UnitSystem::Metric);
    record.write_entry(Entry::By, "A. Fitter");
    record.write_entry(Entry::Note, "Second gauge borrowed.");
    record.write_answer(FunctionCheck::Stops, Some(false));
    record.write_instrument(InstrumentKind::Pressure, "1");
    let at = record.circumstances();
    assert_ne!(at, Circumstances::default());
    let (planned, asked) = (plan(&pairing, carrier, head, &conditions, &at), function_checks(&pairing, head));
    let stands = standing(&planned, &record.reads(), &asked, |check| record.answer(check), record.is_signed());
    let paper = WORDS.hand_over(&record, &planned, &asked, &stands, None);
    let titles: Vec<_> = paper.iter().map(|section| section.title.as_str()).collect();
    assert_eq!(titles, ["Record of the hand-over", "Which machine, who and when", "What was read", "What was tried"]);
    let line = |title: &str| paper.iter().flat_map(|section| &section.lines).find(|line| line.title == title);
    let value = |title: &str| line(title).map(|line| line.value.as_str());
    assert_eq!(value("How it stands"), Some("stop"));
    assert_eq!(value("Set and proved by"), Some("A. Fitter"));
    assert_eq!(value("Handed over to"), Some("__________"));
    assert_eq!(line("Remarks").map(|line| line.detail.as_str()), Some("Second gauge borrowed."));
    assert_eq!(value("Flow, unloaded"), Some("64 L/min"));
    assert!(line("Flow, unloaded").is_some_and(|line| line.detail.ends_with("Read: 64 L/min, as expected.")));
    assert_eq!(value("Relief, dead-ended"), Some("about 230"));
    assert!(line("Relief, dead-ended").is_some_and(|line| line.detail.ends_with("no figure that can be read.")));
    assert_eq!(value("Case flow, at work"), Some("__________"));
    assert_eq!(value("Does it stop when the operator lets go, leaves the seat, and without current?"), Some("no"));
    assert_eq!(
        line("Instruments used").map(|line| line.detail.as_str()),
        Some("Gauges: class, % of full scale: 1.0 %")
    );
    // Of a machine that does not go to work any more nothing is computed, and nothing is lost.
    let later = WORDS.hand_over(&record, &[], &[], &stands, None);
    let read = later.iter().find(|section| section.title == "What was read").expect("readings");
    let kept: Vec<_> = read.lines.iter().map(|line| line.value.as_str()).collect();
    assert_eq!(kept, ["64 L/min", "about 230", ""]);
    let _: Vec<Read> = record.reads();
}
