//! A screen that needs pairings solved: at once where they are known, else when they are, with a word meanwhile.

use super::breath::{Breath, breathe};
use super::loaded::Loaded;
use super::missing::{NoMachine, NoTable};
use super::names::label;
use super::route::Route;
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
    let (done, total) = (RwSignal::new(0), pairs.len());
    let ready = RwSignal::new(pairs.iter().all(|(carrier, head)| app.is_solved(carrier, head)));
    if !ready.get_untracked() {
        spawn_local(async move {
            // The word first, then what takes time.
            breathe().await;
            let breath = Breath::new();
            for (place, (carrier, head)) in pairs.iter().enumerate() {
                done.try_set(place);
                if ready.is_disposed() {
                    return;
                }
                app.pairing_in_stretches(&loaded, carrier, head, &breath).await;
            }
            if ready.is_disposed() {
                return;
            }
            // Who stands on the heading stands on the next one.
            let stands_on_it = app.host.heading_has_focus();
            ready.set(true);
            if stands_on_it {
                app.host.arrive();
            }
        });
    }
    move || {
        if ready.get() {
            show()
        } else {
            view! {
                <h1 tabindex="-1">{title.clone()}</h1>
                <p role="status" class="waiting" aria-busy="true">{move || if total > 1 {
                    app.words().solving(done.get(), total)
                } else {
                    "Solving the circuit …".to_owned()
                }}</p>
            }
            .into_any()
        }
    }
}

/// A screen about one attachment on one machine; or what is to be done where the table lacks one of them, or is not there.
pub fn of_pairing(
    carrier: String,
    head: String,
    title: &'static str,
    show: impl Fn(Arc<Loaded>, Carrier, Head) -> AnyView + Send + Sync + 'static,
) -> impl IntoView {
    let app = app();
    let show = Arc::new(show);
    let machine = app.machine(carrier.clone());
    move || {
        let Some(loaded) = app.table() else {
            return view! { <h1 tabindex="-1">{title}</h1><NoTable/> }.into_any();
        };
        let Some(machine) = machine.get() else {
            return view! { <NoMachine id=carrier.clone()/> }.into_any();
        };
        match loaded.table.head(&head).cloned() {
            Some(attachment) => {
                let (show, pairs) = (show.clone(), vec![(machine.clone(), attachment.clone())]);
                let heading = label(attachment.maker.as_ref(), &attachment.model);
                let of = loaded.clone();
                view! {
                    <Solved loaded pairs title=heading show=move || show(of.clone(), machine.clone(), attachment.clone())/>
                }
                .into_any()
            }
            None => view! {
                <h1 tabindex="-1">"Not in this table"</h1>
                <p>"The table in use has no attachment “"{head.clone()}"”."</p>
                <p><a class="button" href=app.href(&Route::machine(&carrier))>"See what fits this machine"</a></p>
            }
            .into_any(),
        }
    }
}
