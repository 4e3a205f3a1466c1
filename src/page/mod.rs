//! The screens. They show what the core says and compute nothing of the trade.
//!
//! `state` holds what all screens share, `route` the addresses, `load` gets tables, `storage` keeps things in this browser,
//! `numbers` writes numbers in the reader's way; each screen has a file of its own.

mod circuit;
mod compare;
mod fits;
mod load;
mod notice;
mod numbers;
mod plate;
mod route;
mod saved;
mod sheet;
mod start;
mod state;
mod storage;
mod svg;
mod table;
mod when;

use crate::quantity::Named;
use crate::table::CarrierClass;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;
use route::Route;
use state::App;

/// Mounts the app into the element `#app` of the document.
pub fn start() {
    std::panic::set_hook(Box::new(|info| {
        console_error_panic_hook::hook(info);
        tell_of_a_fault();
    }));
    let Some(root) = document().get_element_by_id("app").and_then(|root| root.dyn_into::<web_sys::HtmlElement>().ok())
    else {
        return;
    };
    root.set_inner_text("");
    leptos::mount::mount_to(root, Shell).forget();
}

/// Says in the page that the app has a fault of its own, and what to do.
fn tell_of_a_fault() {
    let Some(body) = document().body() else { return };
    if document().get_element_by_id("fault").is_some() {
        return;
    }
    if let Ok(place) = document().create_element("p") {
        place.set_id("fault");
        place.set_class_name("fault");
        let _ = place.set_attribute("role", "alert");
        place.set_text_content(Some(
            "The app has come upon a fault of its own. Reload this page to go on; what you saved is still there.",
        ));
        let _ = body.prepend_with_node_1(&place);
    }
}

/// The frame around all screens.
#[component]
fn Shell() -> impl IntoView {
    let app = App::new();
    provide_context(app);
    route::follow(app.route);
    load::first(app);
    storage::follow(app);
    Effect::new(move |_| state::apply_theme(app.theme.get()));
    view! {
        <a class="skip" href="#main" on:click=|event| { event.prevent_default(); route::focus_heading(); }>
            "Skip to the content"
        </a>
        <Head/>
        <notice::Notices/>
        <main id="main">
            {move || match app.route.get() {
                Route::Start => view! { <start::Start/> }.into_any(),
                Route::Machine { carrier } => view! { <fits::Fits carrier/> }.into_any(),
                Route::Sheet { carrier, head } => view! { <sheet::Sheet carrier head/> }.into_any(),
                Route::Compare { carrier, heads } => view! { <compare::Compare carrier heads/> }.into_any(),
                Route::Own => view! { <plate::ChooseClass/> }.into_any(),
                Route::NewPlate { class } => {
                    view! { <plate::FreshPlate class=CarrierClass::from_name(&class)/> }.into_any()
                }
                Route::Plate { id } => view! { <plate::KeptPlate id/> }.into_any(),
                Route::Saved => view! { <saved::SavedList/> }.into_any(),
                Route::Table => view! { <table::TableScreen/> }.into_any(),
                Route::Unknown => view! { <Lost/> }.into_any(),
            }}
        </main>
        <footer class="foot">
            <p>"Makers' manuals, local codes and licensed practice come first. All figures are to be proved at the machine."</p>
        </footer>
    }
}

/// Name, places to go, units, and light or dark.
#[component]
fn Head() -> impl IntoView {
    let app = state::app();
    view! {
        <header class="head">
            <a class="word" href="#/">"Pairwright"</a>
            <nav aria-label="Main">
                <a href="#/">"Machines"</a>
                <a href="#/saved">"Saved"{move || {
                    let count = app.saved.with(Vec::len);
                    (count > 0).then(|| view! { <span class="count">{count}</span> })
                }}</a>
                <a href="#/table">"Table"</a>
            </nav>
            <div class="switches">
                <button type="button" on:click=move |_| app.turn_units()
                    aria-label=move || format!("Units: {}. Change", app.units_name())>
                    {move || app.units_name()}
                </button>
                <button type="button" on:click=move |_| app.turn_theme()
                    aria-label=move || format!("Look: {}. Change", app.theme.get().name())>
                    {move || app.theme.get().name()}
                </button>
            </div>
        </header>
    }
}

#[component]
fn Lost() -> impl IntoView {
    view! {
        <h1 tabindex="-1">"Nothing here"</h1>
        <p>"This address leads to no screen of the app."</p>
        <p><a class="button" href="#/">"Choose a machine"</a></p>
    }
}
