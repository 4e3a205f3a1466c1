//! Entries of the demo table, written to as a form does.

use entry::{Draft, Entry, asked_first, left_out, of_fact, of_table, without};
use fit::FactId;
use proptest::prelude::*;
use quantity::{Named, Quantity};
use serde_json::{Value, json};
use spreadsheet::{Role, Target};
use std::collections::HashSet;
use table::row::Form;
use table::{Fault, Severity, Table};

const DEMO: &str = include_str!("../../../public/table/demo.json");
const LISTS: [Role; 2] = [Role::Machines, Role::Attachments];

fn demo() -> Table {
    table::read(DEMO).table.expect("the demo table")
}

fn ids(role: Role) -> Vec<String> {
    let table = demo();
    if role == Role::Machines {
        table.carriers.iter().map(|carrier| carrier.id.to_string()).collect()
    } else {
        table.heads.iter().map(|head| head.id.to_string()).collect()
    }
}

fn entries() -> impl Iterator<Item = Entry> {
    let of = |role| ids(role).into_iter().map(move |id| of_table(DEMO, role, &id).expect("an entry"));
    LISTS.into_iter().flat_map(of)
}

fn target(role: Role, name: &str) -> Target {
    Target::named(role, name).unwrap_or_else(|| panic!("{name}"))
}

fn draft(role: Role, id: &str, typed: &[(&str, &str)]) -> Draft {
    let mut draft = Draft::of(of_table(DEMO, role, id).expect("an entry"));
    for (name, text) in typed {
        draft.write(&target(role, name), text);
    }
    draft
}

fn put(draft: &Draft) -> String {
    draft.put_into(DEMO).expect("it is in the table").0
}

/// The fields at which something is told, with how bad it is.
fn told(draft: &Draft) -> Vec<(String, Severity)> {
    let name = |(at, problem): (Option<Target>, table::Problem)| {
        (at.map_or_else(|| problem.pointer.clone(), |target| target.name()), problem.severity)
    };
    draft.problems().into_iter().map(name).collect()
}

#[test]
fn invariant_writing_what_stands_there_changes_nothing() {
    let mut tried = 0;
    for entry in entries() {
        let mut draft = Draft::of(entry.clone());
        for target in entry.stated() {
            draft.write(&target, &entry.typed(&target));
            tried += 1;
        }
        assert_eq!((draft.count(), put(&draft)), (0, DEMO.to_owned()));
    }
    assert!(tried > 2000, "{tried}");
}

/// A table with nothing in it but an entry of the demo's.
fn alone(entry: &Entry) -> String {
    let demo: Value = serde_json::from_str(DEMO).expect("JSON");
    let list = entry.role.list();
    let found = demo[list].as_array().into_iter().flatten().find(|one| one["id"].as_str() == entry.id().as_deref());
    let mut text = json!({ "format": table::FORMAT, "version": 1, "title": "t", "carriers": [], "heads": [] });
    text[list] = json!([found]);
    text.to_string()
}

/// What is typed becomes the very value of which it was made.
#[test]
fn a_field_that_is_taken_out_and_written_again_says_the_same() {
    let mut tried = 0;
    for entry in entries() {
        let (table, id) = (alone(&entry), entry.id().expect("an id"));
        let before: Value = serde_json::from_str(&table).expect("JSON");
        for target in entry.stated() {
            let typed = entry.typed(&target);
            let mut draft = Draft::of(entry.clone());
            draft.write(&target, "");
            let (gone, _) = draft.put_into(&table).expect("it is there");
            assert_ne!(gone, table, "{}", target.name());
            let mut again = Draft::of(of_table(&gone, entry.role, &id).expect("it is there"));
            again.write(&target, &typed);
            let (text, _) = again.put_into(&gone).expect("it is there");
            // A piece of a line that said nothing else is gone with its figure, and comes back behind the others.
            let has_id = ["circuits.", "pumps."].iter().any(|list| target.field.name.starts_with(list));
            if target.field.lists_above() == usize::from(has_id) {
                assert_eq!(serde_json::from_str::<Value>(&text).expect("JSON"), before, "{}", target.name());
                tried += 1;
            }
        }
    }
    assert!(tried > 1500, "{tried}");
}

#[test]
fn all_else_in_the_table_stays_byte_by_byte() {
    let draft = draft(Role::Attachments, "thistlecut-r60", &[("mass", "301 kg"), ("flow.least", "")]);
    let text = put(&draft);
    let (before, after) = DEMO.split_at(DEMO.find("\"thistlecut-r60\"").expect("the entry"));
    assert!(text.starts_with(before));
    let next = after.find("\"thistlecut-r90\"").expect("the next");
    assert!(text.ends_with(&after[next..]));
    let head = table::read(&text).table.expect("a table").head("thistlecut-r60").cloned().expect("the attachment");
    assert_eq!(head.mass.map(|mass| mass.nominal.si()), Some(301.0));
    assert!(head.flow.least.is_none() && head.flow.greatest.is_some());
}

#[test]
fn what_nobody_knows_and_how_it_is_written_stays() {
    let text = "\u{feff}{\"format\": \"pairwright.table\", \"version\": 1, \"title\": \"t\",\r\n \"colour\": \"red\", \"carriers\": [],\r\n \"heads\": [\r\n  {\"model\": \"A\", \"shade\": {\"x\": [1]}, \"id\": \"a\", \"kind\": \"flail\"},\r\n  {\"id\": \"b\"}\r\n]}";
    let mut draft = Draft::of(of_table(text, Role::Attachments, "a").expect("the entry"));
    draft.write(&target(Role::Attachments, "mass"), "320 kg");
    let (after, id) = draft.put_into(text).expect("it is there");
    assert_eq!(id, "a");
    assert_eq!(after, text.replace("\"flail\"}", "\"flail\", \"mass\": \"320 kg\"}"));
}

#[test]
fn a_form_and_a_file_refuse_the_same_at_the_same_field() {
    let machine = |typed: &[(&str, &str)]| told(&draft(Role::Machines, "quern-q27", typed));
    let attachment = |typed: &[(&str, &str)]| told(&draft(Role::Attachments, "thistlecut-r60", typed));
    let error = |name: &str| vec![(name.to_owned(), Severity::Error)];
    assert_eq!(machine(&[]), []);
    assert_eq!(machine(&[("circuits.flow", "62")]), error("circuits.flow"));
    assert_eq!(machine(&[("class", "dumper")]), error("class"));
    let loader = draft(Role::Machines, "skerry-w72", &[("coupler.fitted", "")]);
    assert_eq!(told(&loader), error("coupler.fitted"));
    assert_eq!(machine(&[("case_line.fitted", "perhaps")]), error("case_line.fitted"));
    assert_eq!(machine(&[("guards", "rops, umbrella")]), error("guards"));
    assert_eq!(attachment(&[("model", "")]), error("model"));
    assert_eq!(
        attachment(&[("flow.least", "900 L/min"), ("flow.rated", "20 L/min")]).first(),
        error("flow.least").first()
    );
    assert_eq!(attachment(&[("demands.filter_fineness_um", "ten")]), error("demands.filter_fineness_um"));
    assert_eq!(attachment(&[("mass", "300,5 kg")]), [], "a decimal comma can be nothing else");
    let draft = draft(Role::Attachments, "thistlecut-r60", &[("mass", "320")]);
    assert!(matches!(draft.problems()[0].1.fault, Fault::Quantity { .. }));
    assert_eq!(draft.problems()[0].1.found, "320");
    assert!(!draft.may_be_saved());
}

#[test]
fn both_readings_of_a_comma_are_offered() {
    let draft =
        draft(Role::Attachments, "thistlecut-r60", &[("carrier_mass.greatest", "6,300 kg"), ("flow.least", "20")]);
    assert_eq!(draft.likely_meant(&target(Role::Attachments, "carrier_mass.greatest")), ["6300 kg"]);
    assert_eq!(draft.likely_meant(&target(Role::Attachments, "flow.least")), [""; 0]);
}

#[test]
fn only_what_is_sound_is_saved_and_an_old_fault_keeps_nothing_back() {
    let may = |typed: &[(&str, &str)]| draft(Role::Attachments, "thistlecut-r60", typed).may_be_saved();
    assert!(!may(&[]), "nothing is typed");
    assert!(may(&[("mass", "301 kg")]));
    assert!(!may(&[("mass", "301 kg"), ("flow.least", "20")]));
    let broken = DEMO.replacen("\"thistlecut-r60\",", "\"thistlecut-r60\", \"duty\": 7,", 1);
    let mut draft = Draft::of(of_table(&broken, Role::Attachments, "thistlecut-r60").expect("the entry"));
    assert!(table::read(&broken).table.expect("a table").head("thistlecut-r60").is_none(), "it is left out");
    let listed = left_out(&broken, &table::read(&broken).problems);
    assert_eq!(listed, [(Role::Attachments, "thistlecut-r60".to_owned(), draft.base().name().expect("a name"))]);
    draft.write(&target(Role::Attachments, "mass"), "301 kg");
    assert!(draft.may_be_saved());
    draft.write(&target(Role::Attachments, "duty"), "an hour");
    let (text, _) = draft.put_into(&broken).expect("it is there");
    assert!(table::read(&text).table.expect("a table").head("thistlecut-r60").is_some());
}

#[test]
fn a_new_entry_gets_an_id_of_its_own_and_stands_behind_the_others() {
    for (role, kind, value) in [(Role::Machines, "class", "skid-steer"), (Role::Attachments, "kind", "flail")] {
        let mut draft = Draft::of(Entry::blank(role));
        assert!(!draft.may_be_saved());
        draft.write(&target(role, "model"), "New 1");
        assert_eq!(told(&draft), [(kind.to_owned(), Severity::Error)]);
        draft.write(&target(role, kind), value);
        assert!(draft.may_be_saved());
        let (once, id) = draft.put_into(DEMO).expect("a new one");
        let (twice, second) = draft.put_into(&once).expect("another one");
        assert_eq!((id.as_str(), second.as_str()), ("new-1", "new-1-2"));
        assert_eq!(table::read(&twice).problems.len(), table::read(DEMO).problems.len());
        assert_eq!(of_table(&twice, role, "new-1-2").and_then(|entry| entry.name()).as_deref(), Some("New 1"));
        let back = without(&without(&twice, role, "new-1").expect("there"), role, "new-1-2").expect("there");
        assert_eq!(back, DEMO);
    }
}

#[test]
fn the_first_figure_of_a_circuit_makes_the_circuit() {
    let mut draft = Draft::of(of_table(DEMO, Role::Machines, "any-skid-steer").expect("a class"));
    draft.write(&target(Role::Machines, "circuits.flow"), "62 L/min");
    draft.write(&target(Role::Machines, "circuits.2.flow"), "90 L/min");
    draft.write(&target(Role::Machines, "pumps.greatest_flow"), "95 L/min");
    assert_eq!(told(&draft), []);
    assert_eq!(draft.entry().ids_in("circuits"), ["aux", "aux-2"]);
    assert_eq!(draft.entry().ids_in("pumps"), ["p1"]);
}

#[test]
fn none_is_a_statement_and_nothing_is_none() {
    let role = Role::Machines;
    let mut draft = Draft::of(of_table(DEMO, role, "any-skid-steer").expect("a class"));
    draft.write(&target(role, "guards"), "none");
    draft.write(&target(role, "circuits.shared_with"), "none");
    draft.write(&target(role, "circuits.flow"), "62 L/min");
    let carrier =
        table::read(&put(&draft)).table.and_then(|table| table.carrier("any-skid-steer").cloned()).expect("it");
    assert_eq!(carrier.guards, Some(Vec::new()));
    assert_eq!(carrier.circuits[0].shared_with, Some(Vec::new()));
    draft.write(&target(role, "guards"), "");
    let carrier =
        table::read(&put(&draft)).table.and_then(|table| table.carrier("any-skid-steer").cloned()).expect("it");
    assert_eq!(carrier.guards, None);
}

/// What another tab has written meanwhile stays, and an entry that it has deleted does not come back by itself.
#[test]
fn what_changed_meanwhile_stays() {
    let mine = draft(Role::Attachments, "thistlecut-r60", &[("mass", "301 kg")]);
    let theirs = put(&draft(Role::Attachments, "thistlecut-r60", &[("duty", "an hour"), ("mass", "299 kg")]));
    let (text, _) = mine.put_into(&theirs).expect("it is there");
    let entry = of_table(&text, Role::Attachments, "thistlecut-r60").expect("it is there");
    assert_eq!(entry.typed(&target(Role::Attachments, "duty")), "an hour");
    assert_eq!(entry.typed(&target(Role::Attachments, "mass")), "301 kg");
    let gone = without(DEMO, Role::Attachments, "thistlecut-r60").expect("it was there");
    assert_eq!(mine.put_into(&gone), None);
}

#[test]
fn the_last_entry_of_a_list_leaves_the_list() {
    let mut text = DEMO.to_owned();
    for id in ids(Role::Machines) {
        text = without(&text, Role::Machines, &id).expect("it is there");
    }
    let outcome = table::read(&text);
    let table = outcome.table.expect("a table");
    assert!(table.carriers.is_empty() && table.heads.len() == demo().heads.len() && outcome.problems.is_empty());
}

#[test]
fn what_is_stated_stands_item_by_item() {
    let entry = of_table(DEMO, Role::Attachments, "thistlecut-r60").expect("an entry");
    let names: Vec<_> = entry.stated().iter().map(Target::name).filter(|name| name.starts_with("mounting")).collect();
    let of = |item: &str| ["pin", "width", "centres"].map(|end| format!("mounting{item}.{end}"));
    assert_eq!(names, ["", ".2", ".3", ".4"].map(of).concat());
}

#[test]
fn every_field_asked_first_exists_and_is_asked_once() {
    for role in LISTS {
        let names: Vec<_> = asked_first(role).iter().map(Target::name).collect();
        assert!(names.len() >= 18, "{names:?}");
        assert_eq!(names.iter().collect::<HashSet<_>>().len(), names.len());
        let writable: HashSet<_> = Entry::blank(role).writable().iter().map(Target::name).collect();
        assert!(names.iter().all(|name| writable.contains(name)), "{names:?}");
        // Whatever a file may say a form can.
        let leaves = role.fields().0.iter().filter(|field| !matches!(field.form, Form::Object(_) | Form::Window(..)));
        let missing: Vec<_> = leaves.map(|field| field.name.clone()).filter(|name| !writable.contains(name)).collect();
        let ids =
            if role == Role::Machines { vec!["id", "pumps.id", "power_groups.id", "circuits.id"] } else { vec!["id"] };
        assert_eq!(missing, ids);
    }
}

/// Nearly every fact leads to a field; the others are figures of practice that no table states.
#[test]
fn a_fact_leads_to_its_field() {
    let names = |fact: FactId| {
        let (role, targets) = of_fact(fact.name())?;
        Some((role, targets.iter().map(Target::name).collect::<Vec<_>>().join(" ")))
    };
    let of = |role, names: &str| Some((role, names.to_owned()));
    assert_eq!(
        names(FactId::CarrierMassWindow),
        of(Role::Attachments, "carrier_mass.least carrier_mass.rated carrier_mass.greatest")
    );
    assert_eq!(names(FactId::OutletLimit), of(Role::Attachments, "outlet.back_pressure"));
    assert_eq!(names(FactId::CircuitFlow), of(Role::Machines, "circuits.flow"));
    assert_eq!(names(FactId::ReturnRoute), of(Role::Machines, "circuits.return_path.route"));
    assert_eq!(
        names(FactId::SupplyLine),
        of(
            Role::Machines,
            "circuits.supply.bore circuits.supply.length circuits.supply.standard circuits.supply.rating"
        )
    );
    let without: Vec<_> =
        FactId::ALL.iter().filter(|fact| of_fact(fact.name()).is_none()).map(|fact| fact.name()).collect();
    assert_eq!(
        without,
        [
            "carrier.pumps.leak",
            "carrier.oil.temperature",
            "head.outlet.pulsation",
            "head.run_down_check.loss",
            "carrier.circuit.relief.override",
            "head.pressure.free"
        ]
    );
}

proptest! {
    // Each case reads the whole demo table several times.
    #![proptest_config(ProptestConfig::with_cases(if std::env::var_os("LONG").is_some() { 1000 } else { 60 }))]

    /// A figure that is written into a field is what the reader of tables finds there.
    #[test]
    fn a_written_figure_is_the_one_that_is_read(kilograms in 50_u32..4000, tenths in 0_u32..10, pounds: bool, which in 0_usize..40) {
        let role = Role::Attachments;
        let all = ids(role);
        let id = &all[which % all.len()];
        let unit = if pounds { "lb" } else { "kg" };
        let text = format!("{kilograms}.{tenths} {unit}");
        let draft = draft(role, id, &[("mass", &text)]);
        let after = put(&draft);
        prop_assert_eq!(of_table(&after, role, id).map(|entry| entry.typed(&target(role, "mass"))), Some(text.clone()));
        let head = table::read(&after).table.and_then(|table| table.head(id).cloned()).expect("the attachment");
        let wanted = (f64::from(kilograms) + f64::from(tenths) / 10.0) * if pounds { 0.453_592_37 } else { 1.0 };
        let found = head.mass.expect("a mass").nominal.si();
        prop_assert!((found - wanted).abs() < 1e-9 * wanted, "{} {}", found, wanted);
    }

    /// Whatever is typed anywhere, the text stays a table that can be read, and every other entry in it stays.
    #[test]
    fn no_text_breaks_a_table(typed in ".{0,30}", which in 0_usize..400, entry in 0_usize..60) {
        let role = LISTS[entry % 2];
        let all = ids(role);
        let id = &all[entry % all.len()];
        let fields = of_table(DEMO, role, id).expect("an entry").writable();
        let target = &fields[which % fields.len()];
        let mut draft = Draft::of(of_table(DEMO, role, id).expect("an entry"));
        draft.write(target, &typed);
        let after = put(&draft);
        let outcome = table::read(&after);
        let table = outcome.table.expect("a table");
        prop_assert!(table.carriers.len() + table.heads.len() + 1 >= demo().carriers.len() + demo().heads.len());
        prop_assert_eq!(outcome.problems.iter().any(|problem| problem.severity == Severity::Error), told(&draft).iter().any(|(_, severity)| *severity == Severity::Error));
    }
}
