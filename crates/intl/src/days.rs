//! Days and moments in the reader's own way of writing, by the browser's `Intl.DateTimeFormat`.

use js_sys::{Array, Date, Intl, Object, Reflect};
use wasm_bindgen::JsValue;

/// A moment as a reader writes it: date and time of day, in his place and way, without the seconds.
pub fn shown(iso: &str) -> String {
    formatted(iso, &[("dateStyle", "medium"), ("timeStyle", "short")])
}

/// A day as a reader writes it, wherever he is.
pub fn day(iso: &str) -> String {
    formatted(iso, &[("dateStyle", "medium"), ("timeZone", "UTC")])
}

fn formatted(iso: &str, how: &[(&str, &str)]) -> String {
    let date = Date::new(&iso.into());
    if date.get_time().is_nan() {
        return iso.to_owned();
    }
    let options = Object::new();
    for (name, value) in how {
        let _ = Reflect::set(&options, &(*name).into(), &(*value).into());
    }
    let format = Intl::DateTimeFormat::new(&Array::new(), &options).format();
    format.call1(&JsValue::UNDEFINED, &date).ok().and_then(|text| text.as_string()).unwrap_or_else(|| iso.to_owned())
}
