//! The JSON Schema (draft 2020-12) of the table, generated from its types.
//!
//! Field names, lists of names and descriptions come from the types and their doc comments; the texts of quantities get
//! a pattern made from the closed list of units. The schema is stricter than the reader in one thing: it refuses fields
//! that the format does not know, so that an editor marks a misspelt one, where the reader warns and goes on. What a
//! schema cannot say (ids that must be unique, references, windows that rise, figures that are possible) only the
//! reader checks. Native only: the page has no use for it.

use super::{
    Assumption, AssumptionId, Cleanliness, Currency, Date, FORMAT, Id, Limits, Money, Table, VERSION, docs::objects,
    read::LONGEST_TEXT,
};
use quantity::schema::{NUMBER, TO, definition_name, unit_pattern};
use quantity::{Dimension, Named, Quantity, Stated};
use schemars::generate::SchemaSettings;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde_json::{Map, Value, json};
use std::borrow::Cow;

/// Where the schema is published beside the app; its identifier is relative, as the app runs in any folder.
pub const FILE: &str = "schema.json";

/// The schema of a whole table.
pub fn schema() -> Value {
    let mut schema = SchemaSettings::draft2020_12().into_generator().into_root_schema_for::<Table>().to_value();
    schema["$id"] = json!(FILE);
    schema["title"] = json!("Pairwright spec table");
    schema["properties"]["format"] = json!({ "const": FORMAT, "description": "Says that this is a spec table." });
    schema["properties"]["version"] = json!({ "const": VERSION, "description": "The version of the format." });
    schema["properties"]["$schema"] = json!({ "type": "string", "description": "Where editors find this schema." });
    may_be_left_out(&mut schema["properties"], &["parts", "assumptions"]);
    for (name, rows) in objects() {
        let optional: Vec<_> = rows().iter().filter(|row| !row.must_be_there).map(|row| row.name).collect();
        let definition = &mut schema["$defs"][name];
        if let Some(Value::Array(required)) = definition.get_mut("required") {
            let left: Vec<_> =
                required.extract_if(.., |field| optional.contains(&field.as_str().unwrap_or(""))).collect();
            let fields: Vec<_> = left.iter().filter_map(Value::as_str).collect();
            may_be_left_out(&mut definition["properties"], &fields);
        }
    }
    finish(&mut schema);
    schema["required"] = json!(["format", "version", "title", "carriers", "heads"]);
    schema
}

/// Lets fields whose types are no `Option` be `null` all the same: lists, and objects that may be empty.
fn may_be_left_out(properties: &mut Value, fields: &[&str]) {
    for field in fields {
        properties[field] = or_null(properties[field].take());
    }
}

/// What the types alone do not say: texts have a length, unknown fields are refused.
fn finish(schema: &mut Value) {
    match schema {
        Value::Object(object) => {
            plain_text(object);
            let is_object = object.get("type").is_some_and(|of| *of == "object" || *of == json!(["object", "null"]));
            if is_object && object.contains_key("properties") {
                object.insert("additionalProperties".to_owned(), json!(false));
                if object.get("required").is_some_and(|required| *required == json!([])) {
                    object.remove("required");
                }
                if let Some(link) = object.get_mut("properties").and_then(|all| all.get_mut("link")) {
                    link["pattern"] = json!(r"^https?://[\p{L}\p{N}\[][^\s\u0000-\u001f\u007f-\u009f]*$");
                    link["maxLength"] = json!(LONGEST_TEXT);
                }
            }
            object.values_mut().for_each(finish);
        }
        Value::Array(values) => values.iter_mut().for_each(finish),
        _ => {}
    }
}

/// A text on one line, of at least one character that can be seen.
fn plain_text(object: &mut Map<String, Value>) {
    let is_text = object.get("type").is_some_and(|of| *of == "string" || *of == json!(["string", "null"]));
    let is_open = ["pattern", "enum", "const"].iter().all(|key| !object.contains_key(*key));
    if is_text && is_open {
        object.insert("maxLength".to_owned(), json!(LONGEST_TEXT));
        object.insert(
            "pattern".to_owned(),
            json!(r"^[^\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff]*$"),
        );
        // At least one character that is no space; JSON Schema has one pattern a schema.
        object.insert("allOf".to_owned(), json!([{ "pattern": r"\S" }]));
    }
}

fn or_null(mut property: Value) -> Value {
    let description = property.as_object_mut().and_then(|object| object.remove("description"));
    let mut either = json!({ "anyOf": [property, { "type": "null" }] });
    if let Some(description) = description {
        either["description"] = description;
    }
    either
}

/// A text of a fixed form.
fn text(pattern: &str, example: &str) -> Schema {
    json_schema!({ "type": "string", "pattern": pattern, "examples": [example] })
}

macro_rules! texts {
    ($($Type:ty, $name:literal: $pattern:expr, $example:literal;)+) => {$(
        impl JsonSchema for $Type {
            fn schema_name() -> Cow<'static, str> {
                $name.into()
            }
            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                text($pattern, $example)
            }
        }
    )+};
}

texts! {
    Id, "Id": "^[a-z0-9_.-]{1,64}$", "yard-08";
    // The days of each month; whether February has 29 only the reader knows.
    Date, "Date": "^(19|20|21)[0-9]{2}-(0[13578]-(0[1-9]|[12][0-9]|3[01])|1[02]-(0[1-9]|[12][0-9]|3[01])|(0[469]|11)-(0[1-9]|[12][0-9]|30)|02-(0[1-9]|[12][0-9]))$", "2026-11-25";
    Money, "Money": r"^[0-9]{1,8}(\.[0-9]{2})?$", "1240.50";
    Currency, "Currency": "^[A-Z]{3}$", "EUR";
    // Each number to 28; whether they never rise only the reader knows.
    Cleanliness, "Cleanliness": r"^\s*([01]?[0-9]|2[0-8])\s*/\s*([01]?[0-9]|2[0-8])\s*/\s*([01]?[0-9]|2[0-8])\s*$", "20/18/15";
}

impl<Q: Quantity> JsonSchema for Limits<Q> {
    fn schema_name() -> Cow<'static, str> {
        format!("Window{}", definition_name(Q::DIMENSION.name())).into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let figure = generator.subschema_for::<Option<Stated<Q>>>();
        json_schema!({
            "type": "object",
            "description": "A window that a maker names: least, rated and greatest figure, rising.",
            "properties": { "least": figure, "rated": figure, "greatest": figure },
        })
    }
}

impl JsonSchema for Assumption {
    fn schema_name() -> Cow<'static, str> {
        "Assumption".into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        // What the range measures depends on the figure.
        let of = |dimension: Dimension| {
            let ids: Vec<_> =
                AssumptionId::ALL.iter().filter(|id| id.dimension() == dimension).map(|id| id.name()).collect();
            let unit = unit_pattern(dimension);
            let pattern = format!(r"^\s*{NUMBER}(\s*{unit})?{TO}{NUMBER}\s*{unit}\s*$");
            (!ids.is_empty()).then(|| {
                json!({
                    "if": { "properties": { "id": { "enum": ids } } },
                    "then": { "properties": { "range": { "pattern": pattern } } },
                })
            })
        };
        let each: Vec<_> = Dimension::ALL.iter().filter_map(|dimension| of(*dimension)).collect();
        let (class, motor) = (
            generator.subschema_for::<Option<super::CarrierClass>>(),
            generator.subschema_for::<Option<super::MotorKind>>(),
        );
        let mut schema = json_schema!({
            "type": "object",
            "description": "A typical range that this table's publisher uses instead of the built-in one.",
            "properties": {
                "id": AssumptionId::json_schema(generator),
                "class": class,
                "motor": motor,
                "range": { "type": "string", "pattern": ".", "description": "From the least to the greatest value." },
            },
            "required": ["id", "range"],
        });
        schema.insert("allOf".to_owned(), json!(each));
        schema
    }
}
