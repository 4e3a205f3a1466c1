//! A part of a screen that is folded: its name and summary answer without opening, and what is in it is made when it is first
//! opened, or printed.

use super::events;
use leptos::html::Div;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::Element;

/// A folded part of a sheet.
#[component]
pub fn Fold(
    /// An id, unique on the screen.
    id: &'static str,
    /// What it is called.
    name: &'static str,
    /// A summary that one can read; may be empty.
    #[prop(into)]
    summary: Signal<String>,
    /// What is in it.
    children: ChildrenFn,
) -> impl IntoView {
    let opened = RwSignal::new(false);
    // Once made it stays: what was set in it is still set when it is opened again.
    let open = move |event| {
        if events::is_open(&event) {
            opened.set(true);
        }
    };
    // A print waits for no event of what it opens.
    let before = window_event_listener_untyped("beforeprint", move |_| opened.set(true));
    on_cleanup(move || before.remove());
    view! {
        <details class="fold of-sheet" id=id on:toggle=open>
            <summary>
                <h2 class="name">{name}</h2>
                {move || Some(summary.get()).filter(|text| !text.is_empty()).map(|text| view! { <span class="sum">{text}</span> })}
            </summary>
            <div class="within">{move || opened.get().then(|| children())}</div>
        </details>
    }
}

/// What is folded on the screen and open on paper: every fold within is opened before a print and folded again behind it.
pub fn open_on_paper(place: NodeRef<Div>) {
    // What the print opened, so that it is folded again.
    let opened = StoredValue::new_local(Vec::<Element>::new());
    let before = window_event_listener_untyped("beforeprint", move |_| {
        let Some(place) = place.get_untracked() else { return };
        let Ok(folds) = place.query_selector_all("details.fold:not([open])") else { return };
        let folds = (0..folds.length()).filter_map(|at| folds.item(at)?.dyn_into::<Element>().ok());
        opened.set_value(folds.filter(|fold| fold.set_attribute("open", "").is_ok()).collect());
    });
    let after = window_event_listener_untyped("afterprint", move |_| {
        for fold in opened.try_update_value(std::mem::take).unwrap_or_default() {
            let _ = fold.remove_attribute("open");
        }
    });
    on_cleanup(move || {
        before.remove();
        after.remove();
    });
}
