//! The published JSON Schema: it is what the types make of it, and a validator of general purpose says by it what the
//! reader says, as far as a schema can.

use proptest::prelude::*;
use quantity::text::{self, TextFault};
use quantity::{Named, Pressure, ThermodynamicTemperature, Unit, VolumeRate};
use serde_json::{Value, json};
use std::sync::OnceLock;
use table::schema::schema;
use table::{Fault, FormFault, Outcome, Severity};

fn validator() -> &'static jsonschema::Validator {
    static VALIDATOR: OnceLock<jsonschema::Validator> = OnceLock::new();
    VALIDATOR.get_or_init(|| jsonschema::draft202012::new(&schema()).expect("a sound schema"))
}

/// A validator for one of the definitions that the property test looks at.
fn definition(name: &str) -> &'static jsonschema::Validator {
    const NAMES: [&str; 4] = ["Flow", "Pressure", "PressureRange", "Temperature"];
    static VALIDATORS: OnceLock<Vec<jsonschema::Validator>> = OnceLock::new();
    let of = |name: &&str| jsonschema::draft202012::new(&schema()["$defs"][*name]).expect("a sound definition");
    let all = VALIDATORS.get_or_init(|| NAMES.iter().map(of).collect());
    &all[NAMES.iter().position(|known| *known == name).expect("a known definition")]
}

/// What the validator says of a text: none when it is no JSON at all.
fn accepts(text: &str) -> Option<bool> {
    let value: Value = serde_json::from_str(text.strip_prefix("\u{feff}").unwrap_or(text)).ok()?;
    Some(validator().is_valid(&value))
}

/// Why a schema cannot refuse what the reader finds wrong; none when it can and must.
fn beyond_a_schema(fault: &Fault) -> Option<&'static str> {
    match fault {
        Fault::TooLarge { .. } => Some("the size of the text is no matter of its values"),
        Fault::NotJson(_) => Some("what is no JSON has no values to look at"),
        Fault::DuplicateKey => Some("a validator gets the object after one of the two is lost"),
        Fault::DuplicateId => Some("a schema compares whole entries, not one field of them"),
        Fault::UnknownReference { .. } => Some("a schema does not look into another list"),
        Fault::LimitsNotRising => Some("a schema does not compare figures, still less across units"),
        Fault::Impossible { .. } | Fault::Improbable { .. } | Fault::OtherUnit { .. } => {
            Some("a figure is a text to a schema: it has no size")
        }
        Fault::Contradiction(_) => Some("a schema does not compute"),
        Fault::Form(FormFault::NoSuchDay(_)) => Some("which day of February a year has"),
        Fault::Form(FormFault::Cleanliness(_)) => Some("whether three numbers rise"),
        Fault::Quantity { fault, .. } => match fault {
            TextFault::RangeReversed => Some("a schema does not compare the ends of a range"),
            TextFault::RangeWithTolerance => Some("the pattern lets a tolerance follow any figure"),
            TextFault::TwoUnits => Some("the pattern lets each end have its unit"),
            TextFault::BadTolerance { .. } => Some("how large a tolerance is"),
            TextFault::BadNumber { .. } => Some("how large the parts of a fraction are"),
            _ => None,
        },
        _ => None,
    }
}

/// Holds what the reader said of a text against what the validator says.
pub fn agrees(text: &str, outcome: &Outcome) {
    let Some(accepted) = accepts(text) else {
        let named = |problem: &table::Problem| beyond_a_schema(&problem.fault).is_some();
        assert!(outcome.problems.iter().any(named), "no JSON for one parser and JSON for the other: {text}");
        return;
    };
    let must_refuse = outcome.problems.iter().any(|problem| beyond_a_schema(&problem.fault).is_none());
    if must_refuse {
        assert!(!accepted, "the schema accepts {text}\n{:#?}", outcome.problems);
    }
    if outcome.problems.is_empty() {
        assert!(accepted, "the schema refuses {text}\n{}", why(text));
    }
}

fn why(text: &str) -> String {
    let value = serde_json::from_str(text).unwrap_or(Value::Null);
    validator()
        .iter_errors(&value)
        .take(5)
        .map(|error| format!("{}: {error}", error.instance_path))
        .collect::<Vec<_>>()
        .join("\n")
}

#[test]
fn invariant_the_published_schema_is_that_of_the_types() {
    let published: Value = serde_json::from_str(include_str!("../../../../public/table/schema.json")).expect("JSON");
    assert!(published == schema(), "public/table/schema.json is behind the types: make schema");
}

#[test]
fn the_schema_is_sound_by_its_own_draft() {
    assert!(jsonschema::meta::is_valid(&schema()));
    assert_eq!(schema()["$schema"], "https://json-schema.org/draft/2020-12/schema");
}

#[test]
fn it_accepts_the_demo_table_and_the_frozen_version() {
    for text in [include_str!("../../../../public/table/demo.json"), include_str!("version-1.json")] {
        assert!(accepts(text) == Some(true), "{}", why(text));
    }
}

/// What reads as sound writes back as sound, for the schema too.
#[test]
fn it_accepts_a_table_as_it_is_written_back() {
    let table = crate::sound(include_str!("../../../../public/table/demo.json"));
    let text = serde_json::to_string(&table).expect("JSON");
    assert!(accepts(&text) == Some(true), "{}", why(&text));
}

/// Each field that the schema asks for, the reader asks for too, and the other way round.
#[test]
fn invariant_the_schema_asks_for_the_fields_that_the_reader_asks_for() {
    let whole = json!({
        "format": "pairwright.table", "version": 1, "title": "T",
        "carriers": [{ "id": "a", "model": "M", "class": "excavator",
            "pumps": [{ "id": "p" }], "power_groups": [{ "id": "g" }],
            "circuits": [{ "id": "c", "flow_setting": { "range": "10..20 L/min" }, "shared_with": [{ "name": "thumb" }],
                "divider": { "set_flow": "15 L/min" },
                "return_path": { "loss": { "loss": "5 bar", "flow": "20 L/min" } },
                "port": { "standard": "iso-6149", "size": "M27x2" } }],
            "case_line": { "fitted": true }, "coupler": { "fitted": true },
            "lifting": { "chart": [{ "reach": "3 m", "height": "1 m", "over_side": true, "mass": "500 kg" }] },
            "mounting": [{ "pin": "40 mm" }, { "standard": "iso-24410" }] }],
        "heads": [{ "id": "h", "model": "M", "kind": "flail", "work": { "materials": [{ "name": "grass" }] },
            "extra_functions": [{ "kind": "door" }] }],
        "parts": [{ "id": "x", "change": "case-line", "name": "line" }],
        "assumptions": [{ "id": "pump-leak", "range": "2..8 %" }],
    });
    assert_eq!(table::read(&whole.to_string()).problems, []);
    assert!(validator().is_valid(&whole), "{}", why(&whole.to_string()));
    let mut places = Vec::new();
    every_field(&whole, "", &mut places);
    assert!(places.len() > 40);
    for place in places {
        let mut less = whole.clone();
        let (holder, field) = place.rsplit_once('/').expect("a pointer");
        less.pointer_mut(holder).and_then(Value::as_object_mut).expect("an object").remove(field);
        let wrong = table::read(&less.to_string()).problems.iter().any(|p| p.severity == Severity::Error);
        assert_eq!(!wrong, validator().is_valid(&less), "without {place}");
    }
}

fn every_field(value: &Value, place: &str, places: &mut Vec<String>) {
    match value {
        Value::Object(object) => {
            for (key, value) in object {
                let place = format!("{place}/{key}");
                places.push(place.clone());
                every_field(value, &place, places);
            }
        }
        Value::Array(values) => {
            for (index, value) in values.iter().enumerate() {
                every_field(value, &format!("{place}/{index}"), places);
            }
        }
        _ => {}
    }
}

/// Every example in the schema is a text that the reader reads, and that the pattern beside it takes.
#[test]
fn its_examples_of_figures_can_be_read() {
    let schema = schema();
    let mut looked = 0;
    for (name, definition) in schema["$defs"].as_object().expect("definitions") {
        let examples = definition["examples"].as_array().into_iter().flatten();
        for example in examples {
            let validator = jsonschema::draft202012::new(definition).expect("a sound definition");
            assert!(validator.is_valid(example), "{name}: {example}");
            let text = example.as_str().expect("a text");
            match name.as_str() {
                "Flow" => assert!(text::read::<VolumeRate>(text).is_ok(), "{text}"),
                "Pressure" => assert!(text::read::<Pressure>(text).is_ok(), "{text}"),
                "Temperature" => assert!(text::read::<ThermodynamicTemperature>(text).is_ok(), "{text}"),
                _ => {}
            }
            looked += 1;
        }
    }
    assert!(looked > 40, "{looked}");
}

/// A share has no meaning on a scale with an offset: reader and schema say so alike.
#[test]
fn a_temperature_has_no_tolerance_in_percent() {
    for (text, sound) in
        [("35 Cel ±5 Cel", true), ("35 °C -5/+3 °C (measured)", true), ("35 °C ±5 %", false), ("35 °C -5/+3 %", false)]
    {
        assert_eq!(text::read::<ThermodynamicTemperature>(text).is_ok(), sound, "{text}");
        assert_eq!(definition("Temperature").is_valid(&json!(text)), sound, "{text}");
    }
}

/// Texts of quantities made of pieces that may or may not go together.
fn quantity_like() -> impl Strategy<Value = String> {
    let number =
        prop::sample::select(vec!["118", "118.5", ".5", "2 1/2", "3/4", "2½", "½", "-10", "+3", "1,5", "", "1e5", "0"]);
    let joint = prop::sample::select(vec!["..", "...", "…", "–", "-", " to ", " - ", " "]);
    let mut units: Vec<String> = Unit::ALL.iter().map(|unit| unit.name().to_owned()).collect();
    units.extend(Unit::ALL.iter().flat_map(|unit| unit.spoken().iter().map(|spoken| (*spoken).to_owned())));
    units.extend(["GPM", "Bar", "PSI", "mbar", "", "Mpa"].map(str::to_owned));
    let unit = prop::sample::select(units);
    let tolerance = prop::sample::select(vec!["", " ±5 %", " -15/+8 %", " +/- 3 bar", " ±200 %", " ±"]);
    let source = prop::sample::select(vec!["", " (plate)", "(Measured)", " (guess)", " ("]);
    (number.clone(), prop::option::of((joint, number)), unit, tolerance, source).prop_map(
        |(a, to, unit, tolerance, source)| {
            let to = to.map(|(joint, b)| format!("{joint}{b}")).unwrap_or_default();
            format!("{a}{to} {unit}{tolerance}{source}")
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3000))]

    /// A text that the grammar reads is never refused, and what the schema refuses no grammar reads.
    #[test]
    fn the_patterns_refuse_nothing_that_can_be_read(text in quantity_like()) {
        let of = |name| definition(name).is_valid(&json!(text));
        if text::read::<VolumeRate>(&text).is_ok() {
            prop_assert!(of("Flow"), "{text}");
        }
        if text::read::<Pressure>(&text).is_ok() {
            prop_assert!(of("Pressure"), "{text}");
        }
        if text::read_range::<Pressure>(&text).is_ok() {
            prop_assert!(of("PressureRange"), "{text}");
        }
        if text::read::<ThermodynamicTemperature>(&text).is_ok() {
            prop_assert!(of("Temperature"), "{text}");
        }
    }
}
