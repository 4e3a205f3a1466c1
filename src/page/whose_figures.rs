//! Whose figures a verdict rests on.

use super::state::app;
use leptos::prelude::*;

/// Says of machines whose figures came in a link that they are somebody else's, wherever a verdict rests on them.
#[component]
pub fn WhoseFigures(carriers: Vec<String>) -> impl IntoView {
    let app = app();
    move || {
        let any = carriers.iter().any(|carrier| app.is_somebody_elses(carrier));
        any.then(|| view! { <p class="missing whose">{app.words().somebody_elses()}</p> })
    }
}
