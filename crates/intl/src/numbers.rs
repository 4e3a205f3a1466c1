//! Numbers in the reader's own way of writing, by the browser's `Intl.NumberFormat`.

use js_sys::{Array, Function, Intl, Object, Reflect};
use std::cell::RefCell;
use wasm_bindgen::{JsCast, JsValue};
use wording::{Numbers, PlainNumbers};

/// The browser's numbers.
pub static INTL: IntlNumbers = IntlNumbers;

/// Numbers by `Intl.NumberFormat`.
pub struct IntlNumbers;

/// Formats are slow to make and quick to use: one for each number of decimals.
const MOST_DECIMALS: usize = 4;

/// A format for each number of decimals.
type Formats = RefCell<[Option<Function>; MOST_DECIMALS + 1]>;

thread_local! {
    static FORMATS: Formats = const { RefCell::new([const { None }; MOST_DECIMALS + 1]) };
    static MONEY: Formats = const { RefCell::new([const { None }; MOST_DECIMALS + 1]) };
}

fn format_with(decimals: usize, grouping: &str) -> Function {
    let options = Object::new();
    let set = |name: &str, value: JsValue| {
        // Setting a property of a fresh object cannot fail.
        let _ = Reflect::set(&options, &JsValue::from_str(name), &value);
    };
    let digits = u32::try_from(decimals).unwrap_or(0);
    set("minimumFractionDigits", JsValue::from(digits));
    set("maximumFractionDigits", JsValue::from(digits));
    set("useGrouping", JsValue::from_str(grouping));
    Intl::NumberFormat::new(&Array::new(), &options).format()
}

impl Numbers for IntlNumbers {
    fn decimal(&self, value: f64, decimals: usize) -> String {
        // Four-digit figures such as 1750 rpm stay together.
        let written = FORMATS.with(|formats| written(formats, "min2", value, decimals));
        written.unwrap_or_else(|| PlainNumbers.decimal(value, decimals))
    }

    fn money(&self, value: f64, decimals: usize) -> String {
        let written = MONEY.with(|formats| written(formats, "always", value, decimals));
        written.unwrap_or_else(|| PlainNumbers.money(value, decimals))
    }

    fn day(&self, iso: &str) -> String {
        crate::days::day(iso)
    }
}

fn written(formats: &Formats, grouping: &str, value: f64, decimals: usize) -> Option<String> {
    let decimals = decimals.min(MOST_DECIMALS);
    // −0 would be written with a sign.
    let value = if value == 0.0 { 0.0 } else { value };
    let mut formats = formats.borrow_mut();
    let format = formats[decimals].get_or_insert_with(|| format_with(decimals, grouping));
    let text = format.call1(&JsValue::UNDEFINED, &JsValue::from_f64(value)).ok()?;
    text.dyn_into::<js_sys::JsString>().ok().map(String::from)
}
