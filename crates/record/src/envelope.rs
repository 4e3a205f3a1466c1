//! The versioned envelope around everything that is kept: `{"format", "version", FIELD}`.

use super::RecordFault;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value, json};

/// A step that lifts a thing from one version to the next; none when it cannot, as what it was given is no thing of its
/// version.
pub type Step = fn(Value) -> Option<Value>;

/// What says of a kept text what it is.
#[derive(Clone, Copy)]
pub struct Envelope {
    /// The name of the format.
    pub format: &'static str,
    /// The field in which the thing itself stands, in every version.
    pub field: &'static str,
    /// How a thing comes from each version to the next, from version 1 on.
    pub steps: &'static [Step],
}

#[derive(Deserialize)]
struct Opened {
    format: String,
    version: u32,
    #[serde(flatten)]
    rest: Map<String, Value>,
}

impl Envelope {
    /// The version that is written, and the newest that is read: one more than there are steps.
    pub const fn version(&self) -> u32 {
        // There are not four thousand million steps.
        #[allow(clippy::cast_possible_truncation)]
        let steps = self.steps.len() as u32;
        1 + steps
    }

    /// The text to keep.
    pub fn encode(self, thing: &impl Serialize) -> String {
        json!({ "format": self.format, "version": self.version(), self.field: thing }).to_string()
    }

    /// Reads a kept text; one of an older version is lifted step by step.
    ///
    /// # Errors
    /// [`RecordFault`] when it is damaged, of another kind, or newer than this build.
    pub fn decode<T: DeserializeOwned>(self, text: &str) -> Result<T, RecordFault> {
        let mut opened: Opened = serde_json::from_str(text).map_err(|_| RecordFault::Damaged)?;
        let mut thing = opened.rest.remove(self.field).ok_or(RecordFault::Damaged)?;
        if opened.format != self.format {
            return Err(RecordFault::Foreign);
        }
        if opened.version > self.version() {
            return Err(RecordFault::Newer { found: opened.version });
        }
        // Version 1 is the first: there is nothing before it.
        let done = opened.version.checked_sub(1).ok_or(RecordFault::Damaged)?;
        for step in self.steps.iter().skip(done as usize) {
            thing = step(thing).ok_or(RecordFault::Damaged)?;
        }
        serde_json::from_value(thing).map_err(|_| RecordFault::Damaged)
    }
}

/// How a thing is written and read whose file has its `ENVELOPE`.
macro_rules! encloses {
    ($Thing:ident) => {
        impl $Thing {
            /// The text to keep.
            pub fn encode(&self) -> String {
                ENVELOPE.encode(self)
            }

            /// Reads a kept text.
            ///
            /// # Errors
            /// [`RecordFault`] when it is damaged, of another kind, or newer than this build.
            pub fn decode(text: &str) -> Result<Self, RecordFault> {
                ENVELOPE.decode(text)
            }
        }
    };
}
pub(crate) use encloses;

#[cfg(test)]
mod tests {
    use super::*;

    /// A jar: at first a bare number of grams, then with its unit, and now with a name too.
    #[derive(Debug, PartialEq, Serialize, Deserialize)]
    struct Jar {
        grams: u32,
        name: String,
    }

    fn with_unit(thing: Value) -> Option<Value> {
        let Value::Number(grams) = thing else { return None };
        Some(json!({ "grams": grams }))
    }

    fn with_name(mut thing: Value) -> Option<Value> {
        thing.as_object_mut()?.insert("name".to_owned(), json!("jar"));
        Some(thing)
    }

    const JAR: Envelope = Envelope { format: "test.jar", field: "jar", steps: &[with_unit, with_name] };

    fn decode(version: u64, jar: &Value) -> Result<Jar, RecordFault> {
        JAR.decode(&json!({ "format": "test.jar", "version": version, "jar": jar }).to_string())
    }

    #[test]
    fn every_older_version_is_lifted_and_the_newest_is_written() {
        let jar = || Jar { grams: 250, name: "jar".to_owned() };
        assert_eq!(decode(1, &json!(250)), Ok(jar()));
        assert_eq!(decode(2, &json!({ "grams": 250 })), Ok(jar()));
        assert_eq!(decode(3, &json!({ "grams": 250, "name": "jar" })), Ok(jar()));
        let written: Value = serde_json::from_str(&JAR.encode(&jar())).expect("JSON");
        assert_eq!(written, json!({ "format": "test.jar", "version": 3, "jar": { "grams": 250, "name": "jar" } }));
    }

    #[test]
    fn a_thing_is_not_lifted_past_its_version() {
        let named = json!({ "grams": 250, "name": "plum" });
        assert_eq!(decode(3, &named), Ok(Jar { grams: 250, name: "plum".to_owned() }));
    }

    #[test]
    fn what_a_step_cannot_lift_is_damaged() {
        assert_eq!(decode(1, &json!("much")), Err(RecordFault::Damaged));
        assert_eq!(decode(2, &json!(250)), Err(RecordFault::Damaged));
        assert_eq!(decode(0, &json!(250)), Err(RecordFault::Damaged));
        assert_eq!(decode(4, &json!(250)), Err(RecordFault::Newer { found: 4 }));
        let foreign = json!({ "format": "test.cup", "version": 9, "jar": 250 }).to_string();
        assert_eq!(JAR.decode::<Jar>(&foreign), Err(RecordFault::Foreign));
    }
}
