//! A screen that needs pairings solved: at once where they are known, else when they are, with a word meanwhile.

use super::breath::{Breath, breathe};
use super::loaded::Loaded;
use super::state::app;
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::sync::Arc;
use table::{Carrier, Head};

/// Shows what needs pairings solved. A search may take a second on a phone: the screen answers meanwhile.
#[component]
pub fn Solved(
    /// The table.
    loaded: Arc<Loaded>,
    /// Machine and attachment of each.
    pairs: Vec<(Carrier, Head)>,
    /// What stands in the heading meanwhile.
    #[prop(into)]
    title: String,
    /// Draws it; every pairing is known by then.
    show: impl Fn() -> AnyView + Send + 'static,
) -> impl IntoView {
    let app = app();
    let ready = RwSignal::new(pairs.iter().all(|(carrier, head)| app.is_solved(carrier, head)));
    if !ready.get_untracked() {
        spawn_local(async move {
            // The word first, then what takes time.
            breathe().await;
            let breath = Breath::new();
            for (carrier, head) in &pairs {
                if ready.is_disposed() {
                    return;
                }
                app.pairing_in_stretches(&loaded, carrier, head, &breath).await;
            }
            if ready.is_disposed() {
                return;
            }
            // Who stands on the heading stands on the next one.
            let stands_on_it = app.place.heading_has_focus();
            ready.set(true);
            if stands_on_it {
                app.place.focus_heading();
            }
        });
    }
    move || {
        if ready.get() {
            show()
        } else {
            view! {
                <h1 tabindex="-1">{title.clone()}</h1>
                <p role="status" class="waiting" aria-busy="true">"Solving the circuit …"</p>
            }
            .into_any()
        }
    }
}
