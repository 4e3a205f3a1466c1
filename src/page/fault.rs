//! What the person is told when the app comes upon a fault of its own.

use leptos::prelude::document;
use leptos::web_sys;
use std::cell::RefCell;

const WORDS: &str =
    "The app has come upon a fault of its own. Reload this page to go on; what you saved is still there.";

thread_local! {
    /// Where the app is shown: a fault stops it everywhere at once.
    static SHOWN: RefCell<Vec<web_sys::HtmlElement>> = const { RefCell::new(Vec::new()) };
}

/// From now on a fault leaves a trace in the console and is told wherever the app is shown.
pub fn watch() {
    std::panic::set_hook(Box::new(|info| {
        console_error_panic_hook::hook(info);
        let places = SHOWN.try_with(|places| places.try_borrow().map(|places| places.clone()).unwrap_or_default());
        for place in places.unwrap_or_default() {
            tell(&place);
        }
    }));
}

/// A fault is told here too.
pub fn tell_at(place: &web_sys::HtmlElement) {
    SHOWN.with_borrow_mut(|places| places.push(place.clone()));
}

/// The app is shown here no more.
pub fn tell_no_more_at(place: &web_sys::HtmlElement) {
    SHOWN.with_borrow_mut(|places| places.retain(|known| known != place));
}

fn tell(place: &web_sys::HtmlElement) {
    if place.query_selector("#fault").ok().flatten().is_some() {
        return;
    }
    if let Ok(words) = document().create_element("p") {
        words.set_id("fault");
        words.set_class_name("fault");
        let _ = words.set_attribute("role", "alert");
        words.set_text_content(Some(WORDS));
        let _ = place.prepend_with_node_1(&words);
    }
}
