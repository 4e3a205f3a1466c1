//! The notices as they stand above a screen, and what is done when one of their buttons is pressed.

use super::notice::{Offer, Undo, next_id};
use super::problems::ProblemList;
use super::state::{App, app};
use super::{files, kept_table, load, offline, photos, storage};
use leptos::prelude::*;
use leptos::task::spawn_local;

/// Brings back what was deleted; whether there was room for it.
fn bring_back(app: App, gone: &Undo) -> bool {
    match gone {
        Undo::Saved(saved) => storage::save(app, saved),
        Undo::Machine(plate) => {
            let is_back = storage::save(app, plate);
            if is_back {
                spawn_local(photos::back_with(plate.id.clone()));
            }
            is_back
        }
        Undo::HandOver(record) => storage::save(app, record),
        Undo::Table(before) => {
            let restored = kept_table::restore(before.as_deref());
            if restored {
                load::first(app);
            }
            restored
        }
    }
}

/// Says in a notice that what it offers could not be brought back.
fn not_brought_back(app: App, id: usize) {
    app.notices.update(|all| {
        let next = next_id(all);
        if let Some(notice) = all.iter_mut().find(|known| known.id == id && !known.text.ends_with(NOT_BACK)) {
            notice.text = format!("{} {NOT_BACK}", notice.text);
            notice.fault = true;
            // What has the same number is not drawn anew.
            notice.id = next;
        }
    });
}

/// What is said where something cannot be brought back.
const NOT_BACK: &str =
    "It could not be brought back, as the browser has no room for it: make room, then press Undo once more.";

/// All notices.
#[component]
pub fn Notices() -> impl IntoView {
    let app = app();
    view! {
        <div class="notices" role="status" aria-live="polite">
            <For each=move || app.notices.get() key=|notice| notice.id let:notice>
                <div class="notice" class:fault=notice.fault>
                    <p>{notice.text.clone()}</p>
                    {(!notice.problems.is_empty()).then(|| view! { <ProblemList problems=notice.problems.clone()/> })}
                    <div class="actions">
                        {notice.offers.iter().cloned().map(|offer| view! { <OfferButton offer id=notice.id/> }).collect_view()}
                        <button type="button" class="quiet"
                            on:click=move |_| app.notices.update(|all| all.retain(|known| known.id != notice.id))>
                            "Close"
                        </button>
                    </div>
                </div>
            </For>
        </div>
    }
}

#[component]
fn OfferButton(offer: Offer, id: usize) -> impl IntoView {
    let app = app();
    let name = match &offer {
        Offer::Undo(_) => "Undo",
        Offer::NewVersion => "Use it now",
        Offer::Download { .. } => "Download it as a file",
        Offer::Everything => "Export everything as one file",
    };
    let act = move |_| match &offer {
        // As long as it is not back, the way back stays, and why it is not stands beside it.
        Offer::Undo(gone) => {
            if bring_back(app, gone) {
                app.notices.update(|all| all.retain(|known| known.id != id));
            } else {
                not_brought_back(app, id);
            }
        }
        Offer::NewVersion => offline::use_it_now(),
        Offer::Download { name, text } => {
            if let Ok(text) = text.lock() {
                files::download(name, &text);
            }
        }
        Offer::Everything => files::export(),
    };
    view! { <button type="button" on:click=act>{name}</button> }
}
