//! Sound tables: the frozen example of version 1, the documented one, the demo.

use crate::{carrier, head, sound, table};
use quantity::{Dimension, Named, Quantity, Source, Spread, Unit};
use serde_json::Value;
use std::collections::BTreeMap;
use table::*;

/// Version 1 with every field. From the first release on it is never changed, and every later build must read it.
const VERSION_1: &str = include_str!("version-1.json");

/// The fields that came since: the frozen example has none of them.
const SINCE: &str = include_str!("since-version-1.json");

const DEMO: &str = include_str!("../../../../public/table/demo.json");

const PAGE: &str = include_str!("../../../../docs/table.md");

#[test]
fn version_1_is_read_as_it_is_written() {
    let table = sound(VERSION_1);
    let carrier = table.carrier("quern-q27").expect("the carrier");
    let mass = carrier.operating_mass.expect("its mass");
    assert_eq!((mass.source, mass.unit), (Source::Plate, Unit::Kilogram));
    assert!((mass.nominal.si() - 2680.0).abs() < 1e-9);
    let circuit = &carrier.circuits[0];
    assert_eq!(circuit.pumps, [carrier.pumps[0].id.clone(), carrier.pumps[1].id.clone()]);
    assert!(matches!(circuit.supply.segments[0].length.expect("a length").spread, Spread::Range { .. }));
    assert!(matches!(carrier.mounting[..], [Mounting::Pins { .. }, Mounting::Standard { .. }]));
    assert_eq!(carrier.guards.as_deref().map(<[_]>::len), Some(2));
    let generic = table.carrier("any-skid-steer").expect("the class");
    assert!(
        generic.generic && generic.guards.is_none() && generic.operating_mass.is_none() && generic.pumps.is_empty()
    );
    let head = table.head("marram-m90").expect("the head");
    assert!((head.flow.rated.expect("a rated flow").nominal.si() - 0.045 / 60.0).abs() < 1e-12);
    let range = &table.assumptions[0];
    assert!((range.low.in_system(quantity::UnitSystem::Metric).0 - 3000.0).abs() < 1e-9);
    let warm = circuit.warm_up.expect("an oil temperature");
    assert_eq!(warm.unit, Unit::Celsius);
    assert!((warm.nominal.si() - 308.15).abs() < 1e-9);
    let warm = table.assumptions.iter().find(|a| a.id == AssumptionId::WarmEnough).expect("another one");
    let nominal = warm.nominal.in_system(quantity::UnitSystem::Metric);
    assert!((nominal.0 - 30.0).abs() < 1e-9 && nominal.1 == Unit::Celsius);
    let ahead = &carrier.circuits[1];
    let divider = ahead.divider.as_ref().expect("a divider");
    assert_eq!((ahead.fed_from, divider.vented_when_off), (Some(FedFrom::PumpLine), Some(true)));
    let travel = carrier.travel_speed.expect("travel speeds");
    assert!(travel.low.si().abs() < 1e-12 && (travel.high.si() - 4.3 / 3.6).abs() < 1e-9);
}

/// Where a list may say that there is nothing, one that is left out says something else.
#[test]
fn invariant_an_empty_list_says_none_and_one_left_out_says_nothing() {
    let read = |list: &str| {
        let field = |name: &str| if list.is_empty() { String::new() } else { format!(", \"{name}\": {list}") };
        let carrier = carrier(&format!(
            "\"pumps\": [{{\"id\": \"p\"{}}}], \"circuits\": [{{\"id\": \"c\"{}}}]{}",
            field("also_feeds"),
            field("shared_with"),
            field("guards"),
        ));
        let demands = format!("\"demands\": {{\"return_filter\": true{}}}", field("guards"));
        sound(&table(&carrier, &head(&demands)))
    };
    let lengths = |table: &Table| {
        let carrier = &table.carriers[0];
        [
            carrier.pumps[0].also_feeds.as_ref().map(Vec::len),
            carrier.circuits[0].shared_with.as_ref().map(Vec::len),
            carrier.guards.as_ref().map(Vec::len),
            table.heads[0].demands.guards.as_ref().map(Vec::len),
        ]
    };
    for (list, expected) in [("[]", Some(0)), ("", None), ("null", None)] {
        let table = read(list);
        assert_eq!(lengths(&table), [expected; 4], "{list:?}");
        // Written back, each still says what it said.
        assert_eq!(lengths(&sound(&serde_json::to_string(&table).expect("JSON"))), [expected; 4], "{list:?}");
    }
}

#[test]
fn what_is_read_is_written_and_reads_back_the_same() {
    for text in [VERSION_1, SINCE, DEMO] {
        let table = sound(text);
        let written = serde_json::to_string(&table).expect("JSON");
        assert_eq!(sound(&written), table);
    }
}

#[test]
fn a_byte_order_mark_and_windows_line_ends_are_no_problem() {
    let text = format!("\u{feff}{}", VERSION_1.replace('\n', "\r\n"));
    assert_eq!(sound(&text), sound(VERSION_1));
}

#[test]
fn the_documented_example_is_sound() {
    let (_, behind) = PAGE.split_once("```json\n").expect("an example");
    let (example, rest) = behind.split_once("```").expect("its end");
    assert!(!rest.contains("```json\n"), "one example of a table, which is tested");
    let table = sound(example);
    assert!(!table.carriers.is_empty() && !table.heads.is_empty());
}

/// The paths of all fields, list indices left out, and whether any entry fills the field.
fn fields(value: &Value, path: &str, filled: &mut BTreeMap<String, bool>) {
    match value {
        Value::Object(members) => {
            for (key, member) in members {
                let path = format!("{path}/{key}");
                let empty = member.is_null() || member.as_array().is_some_and(Vec::is_empty);
                *filled.entry(path.clone()).or_default() |= !empty;
                fields(member, &path, filled);
            }
        }
        Value::Array(items) => items.iter().for_each(|item| fields(item, path, filled)),
        _ => {}
    }
}

fn fields_of(tables: [&str; 2]) -> BTreeMap<String, bool> {
    let mut filled = BTreeMap::new();
    for table in tables {
        fields(&serde_json::to_value(sound(table)).expect("JSON"), "", &mut filled);
    }
    filled
}

/// Couplings and losses stand in many places; the example fills them at one at least.
fn shared_type(path: &str) -> Option<&str> {
    ["/coupling/", "/loss/", "/filter/", "/return_filter/", "/line/", "/supply/"]
        .iter()
        .filter_map(|part| path.rfind(part))
        .max()
        .map(|at| &path[at..])
        .map(|tail| tail.rsplit('/').next().unwrap_or(tail))
}

#[test]
fn the_frozen_example_and_what_came_since_fill_every_field_of_the_format() {
    let filled = fields_of([VERSION_1, SINCE]);
    let elsewhere = |path: &str| {
        shared_type(path)
            .is_some_and(|name| filled.iter().any(|(other, full)| *full && shared_type(other) == Some(name)))
    };
    let empty: Vec<_> =
        filled.iter().filter(|(path, full)| !**full && !elsewhere(path)).map(|(path, _)| path).collect();
    assert!(empty.is_empty(), "fields that the example leaves out: {empty:?}");
    assert!(filled.len() > 150, "the walk found only {} fields", filled.len());
}

#[test]
fn invariant_the_page_of_the_format_has_the_rows_of_the_declarations() {
    assert!(PAGE == table::docs::with_rows(PAGE), "docs/table.md is behind the declarations: make schema");
}

#[test]
fn invariant_the_page_of_the_format_names_every_field() {
    let names: std::collections::BTreeSet<_> = fields_of([VERSION_1, SINCE])
        .into_keys()
        .filter_map(|path| path.rsplit('/').next().map(str::to_owned))
        .collect();
    let missing: Vec<_> = names.iter().filter(|name| !PAGE.contains(&format!("`{name}`"))).collect();
    assert!(missing.is_empty(), "fields that docs/table.md leaves out: {missing:?}");
}

#[test]
fn invariant_the_page_of_the_format_names_every_value_of_every_closed_list_and_every_unit() {
    fn names<T: Named>() -> Vec<&'static str> {
        T::NAMES.to_vec()
    }
    let lists = [
        names::<CarrierClass>(),
        names::<MachineEnd>(),
        names::<HeadKind>(),
        names::<PumpKind>(),
        names::<PumpControl>(),
        names::<LimiterSum>(),
        names::<Ways>(),
        names::<ReturnRoute>(),
        names::<FedFrom>(),
        names::<PriorityUser>(),
        names::<ReliefRole>(),
        names::<ExtraValve>(),
        names::<Centre>(),
        names::<MotorKind>(),
        names::<LineStandard>(),
        names::<CouplingStandard>(),
        names::<PortStandard>(),
        names::<MountingStandard>(),
        names::<OilGrade>(),
        names::<OilKind>(),
        names::<Guard>(),
        names::<OutputKind>(),
        names::<Drive>(),
        names::<ExtraKind>(),
        names::<PressureBasis>(),
        names::<ChangeId>(),
        names::<AssumptionId>(),
        names::<Source>(),
    ];
    let words: std::collections::HashSet<_> =
        PAGE.split(|c: char| !(c.is_alphanumeric() || c == '-')).map(|word| word.trim_matches('-')).collect();
    let missing: Vec<_> = lists.iter().flatten().filter(|name| !words.contains(*name)).collect();
    assert!(missing.is_empty(), "names that docs/table.md leaves out: {missing:?}");
    // No field of a table measures a density.
    let units = Unit::ALL.iter().filter(|unit| unit.dimension() != Dimension::Density);
    let missing: Vec<_> = units.map(|unit| unit.name()).filter(|name| !PAGE.contains(&format!("`{name}`"))).collect();
    assert!(missing.is_empty(), "units that docs/table.md leaves out: {missing:?}");
}
