//! Whose figures a verdict rests on.

use super::state::app;
use leptos::prelude::*;

/// Says of machines whose figures nobody has checked on them whose they are, wherever a verdict rests on them.
#[component]
pub fn WhoseFigures(carriers: Vec<String>) -> impl IntoView {
    let app = app();
    move || {
        let first = carriers.iter().find_map(|carrier| app.whose_figures(carrier));
        first.map(|whose| view! { <p class="missing whose">{whose}</p> })
    }
}
