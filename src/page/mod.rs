//! The screens. They show what the core says and compute nothing of the trade.
//!
//! `state` holds what all screens share, `route` the addresses, `host` where the app stands (a page of its own, or an element in
//! another) and `attributes` what that element sets, `loaded` the table in use and `load` how it is got, `local_storage` the texts
//! that this browser keeps and `storage` what they mean, `offline` has the app kept on the device, `share` hands texts to the
//! device, `screen` says which screen an address shows, and each has a file of its own.
//!
//! No file needs, over however many others, itself: what several need lies in a file below them.

mod asked;
mod asking;
mod attachment;
mod attributes;
mod bar;
mod breath;
mod circuit;
mod compare;
mod deciding_fact;
mod document;
mod drawings;
mod edit;
mod element;
mod enquiry;
mod events;
mod fault;
mod field;
mod file_choice;
mod file_read;
mod files;
mod fill_next;
mod filters;
mod fold;
mod frame;
mod handover;
mod history;
mod host;
mod import;
mod kept_table;
mod listed;
mod load;
mod loaded;
mod local_storage;
mod missing;
mod names;
mod notice;
mod notices;
mod offline;
mod opened;
mod own_machines;
mod paper;
mod path;
mod photos;
mod plate;
mod problems;
mod put_aside;
mod results;
mod route;
mod row;
mod running;
mod saved;
mod screen;
mod send;
mod setting;
mod share;
mod sheet;
mod snippet;
mod solved;
mod spreadsheet;
mod start;
mod state;
mod stay;
mod storage;
mod svg;
mod table_screen;
mod theme;
mod time;
mod translated;
mod unread;
mod whose_figures;
mod work;

pub use asking::{Line, connect};
pub use attributes::Settings;
pub use element::{ElementShell, Reach};
pub use fault::{tell_at as tell_faults_at, tell_no_more_at as tell_faults_no_more_at, watch as watch_for_faults};
pub use host::Around;
pub use load::take_over as take_table;
pub use state::KeptState;

use frame::{Foot, Head, InUse};
use host::Host;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;
use loaded::Loading;
use state::App;

/// Mounts the app into the element `#app` of its own page.
pub fn open() {
    let Some(root) = document().get_element_by_id("app").and_then(|root| root.dyn_into::<web_sys::HtmlElement>().ok())
    else {
        return;
    };
    if let Some(body) = document().body() {
        fault::tell_at(&body);
    }
    start::take_over();
    root.set_inner_text("");
    translated::follow(&root);
    leptos::mount::mount_to(root, Shell).forget();
}

/// The frame around all screens.
#[component]
fn Shell() -> impl IntoView {
    let app = App::new(Host::page());
    provide_context(app);
    history::follow(app);
    load::first(app);
    storage::follow(app);
    offline::start(app);
    Effect::new(move |_| theme::apply(app.theme.get()));
    view! {
        <a class="skip" href="#main" on:click=move |event| { event.prevent_default(); app.host.focus_heading(); }>
            "Skip to the content"
        </a>
        <Head/>
        <InUse/>
        <notices::Notices/>
        <main id="main">
            <screen::Screen/>
            <bar::CompareBar/>
        </main>
        // It would be pushed down by what comes.
        {move || (!matches!(app.loading.get(), Loading::Waiting)).then(|| view! { <Foot/> })}
    }
}
