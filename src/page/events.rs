//! What is read off the element that an event comes from, or done with it.

use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;

/// Marks all of a field, so that it can be copied at once.
pub fn select_all(event: &web_sys::FocusEvent) {
    let field = event.current_target().and_then(|field| field.dyn_into::<web_sys::HtmlInputElement>().ok());
    if let Some(field) = field {
        field.select();
    }
}

/// Whether a part that unfolds is open, by the event of its turning.
pub fn is_open(event: &web_sys::Event) -> bool {
    let part = event.current_target().and_then(|part| part.dyn_into::<web_sys::Element>().ok());
    part.is_some_and(|part| part.has_attribute("open"))
}
