//! The line of a sheet that stays in sight: its verdict, and the way to each of its parts.

use super::state::app;
use super::svg::Mark;
use fit::Pairing;
use leptos::ev::{FocusEvent, KeyboardEvent};
use leptos::html::{Details, Div};
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::{HtmlElement, Node};
use std::sync::Arc;

/// The line. Parts that are not there are left out when it is opened.
#[component]
pub fn Stay(
    /// The pairing.
    #[prop(into)]
    pairing: Signal<Arc<Pairing>>,
    /// What the parts lie in.
    sheet: NodeRef<Div>,
    /// The parts: id and name.
    parts: &'static [(&'static str, &'static str)],
) -> impl IntoView {
    let app = app();
    let (menu, open) = (NodeRef::<Details>::new(), RwSignal::new(false));
    let verdict = pairing.with_untracked(|pairing| pairing.verdict);
    let go = move |id: &'static str| {
        if let Some(menu) = menu.get_untracked() {
            menu.set_open(false);
        }
        go_to(sheet, id);
    };
    // Escape shuts the menu, and whoever goes on elsewhere leaves it shut.
    let keys = move |event: KeyboardEvent| {
        if let Some(menu) = menu.get_untracked().filter(|menu| event.key() == "Escape" && menu.open()) {
            menu.set_open(false);
            if let Ok(Some(line)) = menu.query_selector("summary") {
                let _ = line.unchecked_into::<HtmlElement>().focus();
            }
        }
    };
    let left = move |event: FocusEvent| {
        let to = event.related_target().and_then(|to| to.dyn_into::<Node>().ok());
        if let Some(menu) = menu.get_untracked().filter(|menu| !menu.contains(to.as_ref())) {
            menu.set_open(false);
        }
    };
    let ways = move || {
        let there = parts.iter().filter(|(id, _)| find(sheet, id).is_some());
        there
            .map(|&(id, name)| view! { <li><button type="button" on:click=move |_| go(id)>{name}</button></li> })
            .collect_view()
    };
    view! {
        <div class="stay no-print">
            <Mark verdict/>
            <span class="v">{move || pairing.with(|pairing| app.words().verdict_line(pairing))}</span>
            <details class="jump" node_ref=menu on:keydown=keys on:focusout=left on:toggle=move |event| open.set(super::events::is_open(&event))>
                <summary>"Go to"</summary>
                {move || open.get().then(|| view! { <ul>{ways()}</ul> })}
            </details>
        </div>
    }
}

fn find(sheet: NodeRef<Div>, id: &str) -> Option<HtmlElement> {
    sheet.get_untracked()?.query_selector(&format!("#{id}")).ok()??.dyn_into().ok()
}

/// Shows a part of a sheet, unfolded, with the focus on its heading or on the line that folds it: a reader goes on from there.
pub fn go_to(sheet: NodeRef<Div>, id: &str) {
    let Some(there) = find(sheet, id) else { return };
    if there.tag_name() == "DETAILS" {
        let _ = there.set_attribute("open", "");
    }
    there.scroll_into_view();
    let line = there.query_selector("summary").ok().flatten().and_then(|line| line.dyn_into::<HtmlElement>().ok());
    let line = line.unwrap_or_else(|| {
        there.set_tab_index(-1);
        there
    });
    let _ = line.focus();
}
