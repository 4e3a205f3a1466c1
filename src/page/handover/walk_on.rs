//! Where a reading or a trial stands on the walk, and the ways on from it.

use super::desk::Desk;
use handover::{Item, Progress, Station};
use leptos::prelude::*;

/// Where an item stands on the walk.
#[component]
pub fn Here(desk: Desk, item: Item) -> impl IntoView {
    view! { <p class="place">{move || desk.walk.with(|walk| desk.app.words().place_on_walk(walk, item))}</p> }
}

/// The ways on from an item.
#[component]
pub fn WalkOn(
    desk: Desk,
    item: Item,
    /// Whether what was read here is over its limit: it is fixed and read again before anything else.
    stopped: Signal<bool>,
    /// Reads it again.
    again: impl Fn() + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let unread = move || desk.walk.with(|walk| walk.progress(item).is_some_and(Progress::is_unread));
    let without = move |_| {
        desk.record.update(|record| record.write_not_applicable(item));
        if desk.standing.with_untracked(|standing| !standing.open.contains(&item)) {
            desk.next(Station::At(item));
        }
    };
    view! {
        <p class="actions walk-on no-print">
            {move || if stopped.get() {
                view! {
                    <button type="button" class="strong" on:click=move |_| again()>{desk.app.words().fixed(item)}</button>
                    <button type="button" on:click=move |_| desk.go(None)>"Cannot fix it"</button>
                }.into_any()
            } else {
                view! {
                    <button type="button" class="strong" on:click=move |_| desk.next(Station::At(item))>"Next"</button>
                    <button type="button" disabled=move || !unread() on:click=without>"Not applicable"</button>
                    <button type="button" on:click=move |_| desk.next(Station::At(item))>"Later"</button>
                }.into_any()
            }}
        </p>
    }
}
