//! The machines of one's own that are kept, and the way to describe one more.

use super::route::Route;
use super::state::app;
use leptos::prelude::*;

/// Machines of one's own, which stay whatever table is in use.
#[component]
pub fn OwnMachines() -> impl IntoView {
    let app = app();
    view! {
        <section aria-labelledby="own">
            <h2 id="own">"Machines of your own"</h2>
            <p class="quiet">"They stay, whatever table is in use."</p>
            <ul class="list">
                <For each=move || app.own.get() key=|plate| plate.clone().encode() let:plate>
                    <li><a class="row" href=app.href(&Route::plate(&plate.id))><span class="name">{plate.name.clone()}</span></a></li>
                </For>
            </ul>
            <p><a class="button" href=app.href(&Route::Own)>"Describe a machine of your own"</a></p>
        </section>
    }
}
