//! The search of the first screen, for a script.

use intl::INTL;
use quantity::{Named, UnitSystem};
use table::{CarrierClass, Table};
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;
use wording::{MachinesAsked, Search, Words};

/// A table, ready to be searched.
#[wasm_bindgen]
pub struct Finder(Table);

#[wasm_bindgen]
impl Finder {
    /// Reads a table.
    ///
    /// # Errors
    /// When it cannot be used: the app will say why.
    #[wasm_bindgen(constructor)]
    pub fn new(text: &str) -> Result<Self, JsValue> {
        table::read(text).table.map(Self).ok_or_else(|| JsValue::from_str("the table cannot be used"))
    }

    /// The machines that are meant by what was typed, of one class or of any, as JSON of a [`wording::MachineList`].
    pub fn find(&self, typed: &str, class: Option<String>, all: bool, units: Option<String>) -> String {
        let units = units.and_then(|name| UnitSystem::from_name(&name)).unwrap_or(UnitSystem::Metric);
        let class = class.and_then(|name| CarrierClass::from_name(&name));
        let asked = MachinesAsked { search: Search::of(typed, units), class, all };
        let list = Words { numbers: &INTL, units }.machine_list(&self.0.carriers, &asked);
        serde_json::to_string(&list).unwrap_or_default()
    }
}
