//! The path above a screen, back to where it came from.

use super::attributes::Part;
use super::route::Route;
use super::state::app;
use leptos::prelude::*;

/// The way back to the choice of a machine, where there is one.
#[component]
pub fn PathToMachines() -> impl IntoView {
    let app = app();
    move || app.shows(Part::Machines).then(|| view! { <a href=app.href(&Route::Start)>"Machines"</a> })
}
