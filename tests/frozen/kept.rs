//! What people kept and sent with an earlier build: it opens, and nothing of it is lost.

use super::shape::altered;
use super::{KEPT, kept, plate};
use fit::Verdict;
use quantity::{Named, UnitSystem};
use record::bundle::{Action, Bundle, plan};
use record::handover::HandOver;
use record::link::{Link, LinkMachine, LinkTable};
use record::{
    HANDOVER_PREFIX, KeptTable, MACHINE_PREFIX, PREFERENCE_PREFIX, Plate, RECENT_KEY, Recent, RecordFault,
    SAVED_PREFIX, Saved, TABLE_KEY,
};
use serde_json::{Value, json};
use std::collections::BTreeMap;

fn parsed(text: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|error| panic!("{error}: {text}"))
}

/// The thing within an envelope, whatever its version.
fn inside(text: &str) -> Value {
    let Value::Object(mut envelope) = parsed(text) else { panic!("no envelope: {text}") };
    envelope.retain(|name, _| name != "format" && name != "version");
    assert_eq!(envelope.len(), 1, "{text}");
    envelope.into_iter().next().expect("one field").1
}

/// The text as this build would keep it again.
fn kept_again(key: &str, text: &str) -> Result<Option<String>, RecordFault> {
    Ok(Some(if key.starts_with(SAVED_PREFIX) {
        Saved::decode(text)?.encode()
    } else if key.starts_with(MACHINE_PREFIX) {
        Plate::decode(text)?.encode()
    } else if key.starts_with(HANDOVER_PREFIX) {
        HandOver::decode(text)?.encode()
    } else if key == TABLE_KEY {
        KeptTable::decode(text)?.encode()
    } else {
        return Ok(None);
    }))
}

#[test]
fn invariant_whatever_was_kept_opens_and_nothing_of_it_is_lost() {
    let mut count = 0;
    for (key, text) in kept() {
        match kept_again(&key, &text) {
            Ok(Some(again)) => {
                assert_eq!(altered(&inside(&text), &inside(&again)), [""; 0], "{key}");
                // Kept once more, it is no other thing.
                assert_eq!(kept_again(&key, &again), Ok(Some(again.clone())), "{key}");
                count += 1;
            }
            Ok(None) => {}
            Err(fault) => {
                assert_eq!((key.as_str(), fault), ("pairwright.saved.cut", RecordFault::Damaged));
            }
        }
    }
    assert_eq!(count, 24, "of {}", kept().len());
}

#[test]
fn what_was_opened_last_and_preferences_are_known() {
    let kept = kept();
    let recent = Recent::decode(&kept[RECENT_KEY]);
    assert_eq!(altered(&parsed(&kept[RECENT_KEY]), &parsed(&recent.encode())), [""; 0]);
    assert_eq!(recent.entries().len(), 3);
    let units = &kept[&format!("{PREFERENCE_PREFIX}units")];
    assert_eq!(UnitSystem::from_name(units), Some(UnitSystem::UsCustomary));
}

/// What differs from verdict and figures then is found for each kept comparison, also for those of the first form.
#[test]
fn a_saved_comparison_still_tells_what_came_out_then() {
    let all: Vec<Saved> = kept()
        .iter()
        .filter(|(key, _)| key.starts_with(SAVED_PREFIX))
        .filter_map(|(_, text)| Saved::decode(text).ok())
        .collect();
    assert_eq!(all.len(), 5);
    for saved in &all {
        assert!(!saved.heads.is_empty());
        for head in &saved.heads {
            assert!(head.verdict().is_some(), "{}: {}", saved.name, head.verdict);
            assert_eq!(head.figures.is_none(), saved.id == "first", "{}", saved.name);
        }
    }
    let notes: Vec<_> = all.iter().map(|saved| (saved.name.as_str(), saved.note.as_str())).collect();
    assert!(
        notes.contains(&("Flood bank \"north\" <b>", "Fährt am 3.12.\nAsk Ada for the ½ in couplings; 100 % sure?")),
        "{notes:?}"
    );
}

#[test]
fn every_own_machine_reads_with_the_figures_that_it_had() {
    let refused = |id: &str| -> Vec<String> {
        let reading = plate(id).read();
        assert!(reading.carrier.is_some(), "{id}");
        let errors = reading.problems.into_iter().filter(|(_, problem)| problem.severity == table::Severity::Error);
        let mut refused: Vec<_> = errors.map(|(figure, _)| figure.name().to_owned()).collect();
        refused.sort();
        refused
    };
    let ids = kept().into_keys().filter_map(|key| Some(key.strip_prefix(MACHINE_PREFIX)?.to_owned()));
    let found: BTreeMap<String, Vec<String>> =
        ids.map(|id| (id.clone(), refused(&id))).filter(|(_, refused)| !refused.is_empty()).collect();
    // Since a decimal comma is read the mass is understood.
    let half_typed = ["flow", "relief", "spare-outputs"].map(str::to_owned).to_vec();
    assert_eq!(found, BTreeMap::from([("half-typed".to_owned(), half_typed)]));
}

#[test]
fn a_machine_that_was_downloaded_loads_as_a_table() {
    let outcome = table::read(include_str!("downloaded-machine.json"));
    let errors: Vec<_> = outcome.problems.iter().filter(|problem| problem.severity == table::Severity::Error).collect();
    assert!(errors.is_empty(), "{errors:?}");
    let carrier = &outcome.table.expect("a table").carriers[0];
    assert_eq!(carrier.id.as_str(), "own.full-excavator");
    assert!(carrier.generic);
}

#[test]
fn a_file_of_everything_brings_all_of_it_back() {
    let bundle = Bundle::decode(include_str!("everything.json")).expect("a file of everything");
    let kept = kept();
    for thing in &bundle.kept {
        let text = &kept[&thing.key];
        let there = if thing.key.starts_with(PREFERENCE_PREFIX) { Value::String(text.clone()) } else { parsed(text) };
        assert_eq!(thing.thing, there, "{}", thing.key);
    }
    for unreadable in &bundle.unreadable {
        assert_eq!(Some(&unreadable.text), kept.get(&unreadable.key));
    }
    // What was opened last is of one browser alone.
    assert_eq!(bundle.kept.len() + bundle.unreadable.len() + 1, kept.len());
    let mut fresh = || "fresh".to_owned();
    let steps = plan(&bundle, &BTreeMap::new(), &mut fresh);
    assert_eq!(steps.len(), kept.len() - 1);
    for step in &steps {
        let Action::Keep { text } = &step.action else { panic!("{step:?}") };
        let original = kept.get(&step.key).or_else(|| kept.values().find(|kept| *kept == text));
        assert_eq!(original.map(|text| parsed_or_text(text)), Some(parsed_or_text(text)), "{}", step.key);
    }
    // And where it is all kept already nothing is to do.
    for step in plan(&bundle, &kept, &mut fresh) {
        let is_unreadable = step.what == record::bundle::Kind::Unreadable;
        assert!(step.action == Action::Same || is_unreadable, "{step:?}");
    }
    // What this build would export of it holds the same.
    let again = Bundle::gather(bundle.made.clone(), kept.clone());
    assert_eq!(altered(&inside(include_str!("everything.json")), &inside(&again.encode())), [""; 0]);
}

fn parsed_or_text(text: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|_| Value::String(text.to_owned()))
}

/// What a link holds, as plain data.
fn holds(link: &Link) -> Value {
    let machine = match &link.machine {
        LinkMachine::OfTable(id) => json!({ "of_table": id }),
        LinkMachine::Own(plate) => json!({
            "own": { "name": plate.name, "class": plate.class, "figures": plate.figures, "changed": plate.changed }
        }),
    };
    let heads: Vec<Value> =
        link.heads.iter().map(|head| json!({ "id": head.id, "verdict": head.verdict.map(Verdict::name) })).collect();
    let LinkTable { mark, title, date, address, .. } = &link.table;
    let record = link.record.as_ref().map(|record| json!({ "created": record.created, "written": record.written }));
    json!({ "machine": machine, "heads": heads, "table": { "mark": mark, "title": title, "date": date, "address": address }, "record": record })
}

fn list(text: &str) -> Vec<Value> {
    serde_json::from_str(text).expect("a list")
}

fn opens(name: &Value, path: &str, then: &Value) {
    let link = Link::decode(path).unwrap_or_else(|fault| panic!("{name}: {fault:?}"));
    assert_eq!(altered(then, &holds(&link)), [""; 0], "{name}");
    // Sent on, it holds the same.
    let again = Link::decode(&link.path()).unwrap_or_else(|fault| panic!("{name}, sent on: {fault:?}"));
    assert_eq!(holds(&again), holds(&link), "{name}");
}

#[test]
fn invariant_every_link_opens_with_all_that_it_held() {
    let links = list(include_str!("links.json"));
    assert_eq!(links.len(), 17);
    for link in &links {
        opens(&link["name"], link["link"].as_str().expect("a link"), &link["holds"]);
    }
    let of = |begins: &str| {
        links.iter().filter(|link| link["link"].as_str().is_some_and(|path| path.starts_with(begins))).count()
    };
    assert_eq!((of("/link/1/"), of("/link/2/")), (11, 5));
}

/// A dealer finds the link at the end of a mail.
#[test]
fn the_link_in_an_enquiry_opens() {
    let enquiries = list(include_str!("enquiries.json"));
    assert_eq!(enquiries.len(), 3);
    for enquiry in &enquiries {
        let text = enquiry["message"].as_str().expect("a text");
        let path = text.lines().last().and_then(|line| line.split_once('#')).expect("a link at its end").1;
        opens(&enquiry["subject"], path, &enquiry["holds"]);
    }
}

#[test]
fn nothing_kept_stands_here_twice() {
    let keys: Vec<Value> =
        KEPT.lines().filter(|line| line.ends_with("\":")).map(|line| parsed(line.trim_end_matches(':'))).collect();
    assert_eq!(keys.len(), kept().len());
}
