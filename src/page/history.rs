//! Back and forward: the route follows the address, a new screen begins at its heading, and one that is come back to stands
//! where it was left.

use super::route;
use super::state::App;
use leptos::ev;
use leptos::prelude::*;
use leptos::wasm_bindgen::{JsCast, JsValue};
use leptos::web_sys;
use std::collections::HashMap;

/// How long a list may take to be there again before the place on it is given up, in milliseconds.
const PATIENCE: f64 = 4000.0;

/// Where the eye was on a screen.
#[derive(Clone, Debug, Default)]
struct Left {
    /// How far down.
    y: f64,
    /// The link that was followed.
    link: Option<String>,
}

#[derive(Default)]
struct Trail {
    /// The number of the entry that is shown.
    here: u32,
    /// The greatest number given.
    last: u32,
    left: HashMap<u32, Left>,
}

/// Keeps the route in step with the page's address.
pub fn follow(app: App) {
    let Ok(history) = window().history() else { return };
    // The browser would go back before the list is there.
    let _ = history.set_scroll_restoration(web_sys::ScrollRestoration::Manual);
    let trail = StoredValue::new(Trail::default());
    let number = numbered(&history);
    trail.update_value(|trail| {
        trail.here = number.unwrap_or(0);
        trail.last = trail.here;
    });
    if number.is_none() {
        number_it(&history, 0);
    }
    app.route.set(route::current());
    let handle = window_event_listener(ev::hashchange, move |_| {
        let Ok(history) = window().history() else { return };
        let left = Left { y: window().scroll_y().unwrap_or(0.0), link: link_in_use() };
        let come_back = numbered(&history);
        let back_at = trail.try_update_value(|trail| {
            trail.left.insert(trail.here, left);
            trail.here = come_back.unwrap_or(trail.last + 1);
            trail.last = trail.last.max(trail.here);
            if come_back.is_none() {
                number_it(&history, trail.here);
            }
            come_back.and_then(|number| trail.left.get(&number).cloned())
        });
        app.route.set(route::current());
        if let Some(left) = back_at.flatten() {
            go_back_to(left);
        } else {
            window().scroll_to_with_x_and_y(0.0, 0.0);
            app.host.arrive();
        }
    });
    on_cleanup(move || handle.remove());
}

/// The number of the present entry, once it has one.
fn numbered(history: &web_sys::History) -> Option<u32> {
    let number = history.state().ok()?.as_f64()?;
    // Numbers are whole and small: they were given here.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    Some(number as u32)
}

fn number_it(history: &web_sys::History, number: u32) {
    let _ = history.replace_state(&JsValue::from(number), "");
}

fn link_in_use() -> Option<String> {
    document().active_element()?.get_attribute("href")
}

/// Goes to where the eye was as soon as the screen is long enough again, unless the person does something meanwhile.
fn go_back_to(left: Left) {
    let touched = StoredValue::new(false);
    let watched = ["wheel", "touchstart", "keydown", "pointerdown"];
    let handles = watched.map(|name| {
        window_event_listener_untyped(name, move |_| {
            touched.try_set_value(true);
        })
    });
    let handles = StoredValue::new_local(Some(handles));
    let begun = js_sys::Date::now();
    try_to_go(left, touched, begun, move || {
        if let Some(handles) = handles.try_update_value(Option::take).flatten() {
            for handle in handles {
                handle.remove();
            }
        }
    });
}

fn try_to_go(left: Left, touched: StoredValue<bool>, begun: f64, done: impl FnOnce() + 'static) {
    request_animation_frame(move || {
        let root = document().document_element();
        let reach = root.map_or(0, |root| root.scroll_height() - root.client_height());
        let there =
            f64::from(reach) >= left.y && document().query_selector("[aria-busy='true']").ok().flatten().is_none();
        let late = js_sys::Date::now() - begun > PATIENCE;
        if touched.try_get_value().unwrap_or(true) {
            done();
        } else if there || late {
            focus_link(left.link.as_deref());
            window().scroll_to_with_x_and_y(0.0, left.y);
            done();
        } else {
            try_to_go(left, touched, begun, done);
        }
    });
}

/// The link that was followed, or the heading when it is not there any more.
fn focus_link(link: Option<&str>) {
    let all = document().query_selector_all("main a[href]").ok();
    let found = all.zip(link).and_then(|(all, link)| {
        let mut nodes = (0..all.length()).filter_map(|place| all.get(place)?.dyn_into::<web_sys::Element>().ok());
        nodes.find(|element| element.get_attribute("href").as_deref() == Some(link))
    });
    let found = found.or_else(|| document().query_selector("main h1").ok().flatten());
    if let Some(element) = found.and_then(|element| element.dyn_into::<web_sys::HtmlElement>().ok()) {
        let options = web_sys::FocusOptions::new();
        options.set_prevent_scroll(true);
        let _ = element.focus_with_options(&options);
    }
}
