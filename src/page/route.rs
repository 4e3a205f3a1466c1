//! Addresses: everything behind the `#`, so that the app runs in any folder of any static host.

use leptos::ev;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;

/// A screen with what it shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Route {
    /// Choose a machine.
    Start,
    /// What fits a machine.
    Machine { carrier: String },
    /// One attachment on it.
    Sheet { carrier: String, head: String },
    /// Several side by side.
    Compare { carrier: String, heads: Vec<String> },
    /// Describe a machine of one's own: choose its class.
    Own,
    /// A fresh spec plate of a class.
    NewPlate { class: String },
    /// A spec plate.
    Plate { id: String },
    /// What was saved.
    Saved,
    /// The table.
    Table,
    /// Anything else.
    Unknown,
}

impl Route {
    fn of_fragment(fragment: &str) -> Self {
        let path = fragment.trim_start_matches('#').trim_matches('/');
        let parts: Vec<String> = path.split('/').map(decoded).collect();
        let parts: Vec<&str> = parts.iter().map(String::as_str).collect();
        match parts.as_slice() {
            [""] => Self::Start,
            ["machine", carrier] => Self::Machine { carrier: (*carrier).to_owned() },
            ["machine", carrier, head] => Self::Sheet { carrier: (*carrier).to_owned(), head: (*head).to_owned() },
            ["compare", carrier, heads] => Self::Compare {
                carrier: (*carrier).to_owned(),
                heads: heads.split(',').filter(|id| !id.is_empty()).map(str::to_owned).collect(),
            },
            ["own"] => Self::Own,
            ["own", "new", class] => Self::NewPlate { class: (*class).to_owned() },
            ["own", id] => Self::Plate { id: (*id).to_owned() },
            ["saved"] => Self::Saved,
            ["table"] => Self::Table,
            _ => Self::Unknown,
        }
    }
}

fn decoded(part: &str) -> String {
    js_sys::decode_uri_component(part).map_or_else(|_| part.to_owned(), String::from)
}

/// The address of what fits a machine.
pub fn to_machine(carrier: &str) -> String {
    format!("#/machine/{carrier}")
}

/// The address of a fresh spec plate.
pub fn to_new_plate(class: &str) -> String {
    format!("#/own/new/{class}")
}

/// The address of a spec plate.
pub fn to_plate(id: &str) -> String {
    format!("#/own/{id}")
}

/// Puts another address in the place of the present one without going there.
pub fn replace(address: &str) {
    if let Ok(history) = window().history() {
        let _ = history.replace_state_with_url(&leptos::wasm_bindgen::JsValue::NULL, "", Some(address));
    }
}

/// The address of a sheet.
pub fn to_sheet(carrier: &str, head: &str) -> String {
    format!("#/machine/{carrier}/{head}")
}

/// The address of a comparison.
pub fn to_compare(carrier: &str, heads: &[String]) -> String {
    format!("#/compare/{carrier}/{}", heads.join(","))
}

fn current() -> Route {
    Route::of_fragment(&location().hash().unwrap_or_default())
}

/// Keeps the route in step with the address. On every change but the first the focus goes to the heading.
pub fn follow(route: RwSignal<Route>) {
    route.set(current());
    let handle = window_event_listener(ev::hashchange, move |_| {
        route.set(current());
        window().scroll_to_with_x_and_y(0.0, 0.0);
        request_animation_frame(focus_heading);
    });
    on_cleanup(move || handle.remove());
}

/// Puts the focus on the screen's heading.
pub fn focus_heading() {
    if let Ok(Some(heading)) = document().query_selector("main h1")
        && let Some(heading) = heading.dyn_ref::<web_sys::HtmlElement>()
    {
        let _ = heading.focus();
    }
}

/// Sets the window's title.
pub fn title(text: &str) {
    document().set_title(&format!("{text} · Pairwright"));
}
