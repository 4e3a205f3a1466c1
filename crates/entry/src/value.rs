//! A value of the table as a person types it in a form, and what is typed as a value of the table.

use quantity::text;
use serde_json::{Value, json};
use spreadsheet::Target;
use table::row::Form;

/// What is typed where it is known that there is none.
pub const NONE: &str = "none";

/// What stands at a field as it would be typed; empty where nothing is stated.
pub fn typed(value: &Value, target: &Target) -> String {
    match value {
        Value::Null => String::new(),
        Value::String(text) => text.clone(),
        Value::Bool(true) if matches!(target.field.form, Form::YesNo) => "yes".to_owned(),
        Value::Bool(false) if matches!(target.field.form, Form::YesNo) => "no".to_owned(),
        Value::Array(items) if items.is_empty() => NONE.to_owned(),
        Value::Array(items) if items.iter().all(Value::is_string) => {
            items.iter().filter_map(Value::as_str).collect::<Vec<_>>().join(", ")
        }
        other => other.to_string(),
    }
}

/// What was typed as the table has it. What is no answer to the question goes there as it stands, for the reader of tables to refuse.
pub fn value(typed: &str, target: &Target) -> Value {
    let typed = typed.trim();
    if !target.is_whole_list() {
        return one(typed, target.field.form);
    }
    if typed == NONE {
        return json!([]);
    }
    typed
        .split([',', ';'])
        .map(str::trim)
        .filter(|part| !part.is_empty())
        .map(|part| one(part, target.field.form))
        .collect()
}

fn one(typed: &str, form: Form) -> Value {
    match form {
        Form::YesNo if typed == "yes" || typed == "no" => json!(typed == "yes"),
        Form::Count => typed.parse::<u64>().map_or_else(|_| json!(typed), |count| json!(count)),
        // A table has points alone; what a person types may have commas.
        Form::Figure(..) | Form::Range(..) => json!(text::with_points(typed)),
        _ => json!(typed),
    }
}
