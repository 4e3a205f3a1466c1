//! What the person is told when the app comes upon a fault of its own.

use super::local_storage;
use js_sys::{Array, Function, Reflect};
use leptos::prelude::{document, location};
use leptos::wasm_bindgen::{JsCast, JsValue};
use leptos::web_sys::{Blob, Element, HtmlElement, Url};
use std::cell::RefCell;

const WORDS: &str =
    "The app has come upon a fault of its own. Reload this page to go on; what you saved is still there.";

thread_local! {
    /// Where the app is shown: a fault stops it everywhere at once.
    static SHOWN: RefCell<Vec<HtmlElement>> = const { RefCell::new(Vec::new()) };
}

/// From now on a fault leaves a trace in the console and is told wherever the app is shown.
pub fn watch() {
    std::panic::set_hook(Box::new(|info| {
        console_error_panic_hook::hook(info);
        let places = SHOWN.try_with(|places| places.try_borrow().map(|places| places.clone()).unwrap_or_default());
        let banners: Vec<Element> = places.unwrap_or_default().iter().filter_map(tell).collect();
        // Last: should it not work, the rest stands.
        if !banners.is_empty() {
            offer_everything(&banners);
        }
    }));
}

/// A fault is told here too.
pub fn tell_at(place: &HtmlElement) {
    SHOWN.with_borrow_mut(|places| places.push(place.clone()));
}

/// The app is shown here no more.
pub fn tell_no_more_at(place: &HtmlElement) {
    SHOWN.with_borrow_mut(|places| places.retain(|known| known != place));
}

/// Tells it above all else, wherever the eye is; the place for what can be done. Nothing in it needs the app, which is gone.
fn tell(place: &HtmlElement) -> Option<Element> {
    if place.query_selector("#fault").ok().flatten().is_some() {
        return None;
    }
    let make = |name: &str| document().create_element(name).ok();
    let (banner, words, actions, reload) = (make("div")?, make("p")?, make("div")?, make("button")?);
    banner.set_id("fault");
    banner.set_class_name("fault");
    let _ = banner.set_attribute("role", "alert");
    words.set_text_content(Some(WORDS));
    actions.set_class_name("actions");
    let _ = reload.set_attribute("type", "button");
    reload.set_text_content(Some("Reload"));
    // The browser's own function: none of ours is called any more.
    if let Ok(function) = Reflect::get(&location(), &"reload".into()).and_then(JsCast::dyn_into::<Function>) {
        let _ = reload.add_event_listener_with_callback("click", &function.bind0(&location()));
    }
    let _ = actions.append_child(&reload);
    for part in [&words, &actions] {
        let _ = banner.append_child(part);
    }
    place.prepend_with_node_1(&banner).ok()?;
    // Above everything else of a page, whatever holds the element in it.
    let _ = banner.set_attribute("popover", "manual");
    let shown = Reflect::get(&banner, &"showPopover".into()).and_then(JsCast::dyn_into::<Function>);
    if shown.and_then(|show| show.call0(&banner)).is_err() {
        let _ = banner.remove_attribute("popover");
    }
    Some(actions)
}

/// Everything that is kept, as a file that is made now; photos stay where they are, for they are not to be had at once.
fn offer_everything(places: &[Element]) {
    let (name, text) = local_storage::exported(Vec::new());
    let file = Blob::new_with_str_sequence(&Array::of1(&JsValue::from(text)));
    let Ok(address) = file.and_then(|file| Url::create_object_url_with_blob(&file)) else { return };
    for place in places {
        let Ok(link) = document().create_element("a") else { return };
        link.set_class_name("button");
        link.set_text_content(Some("Export everything"));
        for (attribute, value) in [("href", &address), ("download", &name)] {
            let _ = link.set_attribute(attribute, value);
        }
        let _ = place.append_child(&link);
    }
}
