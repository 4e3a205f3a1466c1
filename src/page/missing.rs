//! What stands where a screen lacks its table, its machine or its attachment.

use super::attributes::Part;
use super::load;
use super::loaded::Loading;
use super::route::Route;
use super::state::app;
use leptos::prelude::*;

/// What stands where a table is needed and there is none: that it comes, or why not and what to do.
#[component]
pub fn NoTable() -> impl IntoView {
    let app = app();
    move || {
        match app.loading.get() {
        Loading::Failed(why) => view! {
            <div class="notice fault" role="alert">
                <p>{why}</p>
                <div class="actions">
                    <button type="button" on:click=move |_| load::again(app)>"Try again"</button>
                    {app.host.is_page().then(|| view! { <a class="button" href=app.href(&Route::Table)>"Load another table"</a> })}
                </div>
            </div>
        }
        .into_any(),
        Loading::Waiting | Loading::Ready(_) => view! { <p role="status" class="waiting" aria-busy="true">"Loading the table …"</p> }.into_any(),
    }
    }
}

/// An address with something that the table does not have.
#[component]
#[allow(clippy::needless_pass_by_value)] // A prop is owned.
pub fn NotInTable(
    /// What it is.
    what: &'static str,
    /// Its id.
    id: String,
    /// Where another is chosen, and what leads there.
    choose: Option<(Route, &'static str)>,
) -> impl IntoView {
    let app = app();
    view! {
        <h1 tabindex="-1">"Not in this table"</h1>
        <p>{format!("The table in use has no {what} “{id}”. It may stand in another table.")}</p>
        <p class="actions">
            {choose.map(|(route, words)| view! { <a class="button" href=app.href(&route)>{words}</a> })}
            {app.host.is_page().then(|| view! { <a class="button" href=app.href(&Route::Table)>"Load another table"</a> })}
        </p>
    }
}

/// An address with a machine that the table does not have.
#[component]
pub fn NoMachine(id: String) -> impl IntoView {
    let choose = app().shows(Part::Machines).then_some((Route::Start, "Choose a machine"));
    view! { <NotInTable what="machine" id choose/> }
}
