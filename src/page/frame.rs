//! What stands around every screen: the head with the places to go, which table is in use, and the foot.

use super::loaded::{Loading, NO_ANSWER};
use super::route::Route;
use super::state::{App, app};
use leptos::prelude::*;
use wording::Words;

/// Says of a demo table that it is one, on every screen and every paper: nobody must take invented machines for real ones. Until it
/// is known which table is used its room is kept, so that nothing jumps.
#[component]
pub fn InUse() -> impl IntoView {
    let app = app();
    let to_table = move || {
        view! { " "<a class="no-print" href=app.href(&Route::Table)>"Load your own"</a> }
    };
    move || match app.loading.get() {
        Loading::Waiting => {
            view! { <p class="in-use to-come" aria-hidden="true">{Words::INVENTED}" Load your own"</p> }.into_any()
        }
        Loading::Failed(_) => ().into_any(),
        Loading::Ready(loaded) => {
            let Some(words) = app.words().invented(&loaded.table) else { return ().into_any() };
            if app.host.is_page() {
                view! { <aside class="in-use" aria-label="The table in use">{words}{to_table()}</aside> }.into_any()
            } else {
                // The landmarks of a page are its own.
                view! { <p class="in-use">{words}</p> }.into_any()
            }
        }
    }
}

#[component]
pub fn Foot() -> impl IntoView {
    let app = app();
    view! {
        <footer class="foot">
            <p>"Makers' manuals, local codes and licensed practice come first. All figures are to be proved at the machine."</p>
            {move || app.table().map(|loaded| {
                let date = loaded.table.date.map_or_else(|| "not stated".to_owned(), |date| app.words().numbers.day(&date.to_string()));
                view! {
                    <dl class="block">
                        <div><dt>"Table"</dt><dd>{loaded.table.title.clone()}</dd></div>
                        <div><dt>"Date"</dt><dd>{date}{loaded.is_unasked.then_some(NO_ANSWER)}</dd></div>
                    </dl>
                }
            })}
        </footer>
    }
}

/// Metric or US.
#[component]
pub fn UnitSwitch() -> impl IntoView {
    let app = app();
    view! {
        <button type="button" on:click=move |_| app.turn_units()
            aria-label=move || format!("Units: {}. Change", app.units_name())>
            {move || app.units_name()}
        </button>
    }
}

/// A place to go; marked when one is there.
#[component]
fn Way(to: Route, name: &'static str) -> impl IntoView {
    let app = app();
    let address = app.href(&to);
    view! { <a href=address aria-current=move || here(app, &to)>{name}</a> }
}

/// Marks the place of the present screen among the places to go.
fn here(app: App, to: &Route) -> Option<&'static str> {
    let route = app.route.get();
    let is_there = match (to, &route) {
        (Route::Work { .. }, Route::Work { .. }) => true,
        (Route::Attachments, Route::Attachment { .. })
        | (Route::Start, Route::Machine { .. })
        | (Route::Table, Route::Import) => return Some("true"),
        (to, route) => to == route,
    };
    is_there.then_some("page")
}

/// Name, places to go, units, and light or dark.
#[component]
pub fn Head() -> impl IntoView {
    let app = app();
    view! {
        <header class="head">
            <a class="word" href=app.href(&Route::Start)>"Pairwright"</a>
            <nav aria-label="Main">
                <Way to=Route::Start name="Machines"/>
                <Way to=Route::Attachments name="Attachments"/>
                <Way to=Route::Work { asked: String::new() } name="Work"/>
                <a href=app.href(&Route::Saved) aria-current=move || here(app, &Route::Saved)>"Saved"{move || {
                    let count = app.saved.with(Vec::len);
                    (count > 0).then(|| view! { <span class="count">{count}</span> })
                }}</a>
                <Way to=Route::Table name="Table"/>
            </nav>
            <div class="switches">
                <UnitSwitch/>
                <button type="button" on:click=move |_| app.turn_theme()
                    aria-label=move || format!("Look: {}. Change", app.theme.get().name())>
                    {move || app.theme.get().name()}
                </button>
            </div>
        </header>
    }
}
