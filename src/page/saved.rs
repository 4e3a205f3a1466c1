//! What was saved in this browser.

use super::route;
use super::state::app;
use super::storage;
use super::svg::Mark;
use crate::record::Saved;
use leptos::prelude::*;

/// The address of a saved comparison.
pub fn address(saved: &Saved) -> String {
    let heads: Vec<String> = saved.heads.iter().map(|head| head.id.clone()).collect();
    route::to_compare(&saved.carrier.id, &heads)
}

/// The screen.
#[component]
pub fn SavedList() -> impl IntoView {
    let app = app();
    route::title("Saved");
    view! {
        <h1 tabindex="-1">"Saved comparisons"</h1>
        <p class="quiet">"Kept in this browser only. Nothing is sent anywhere."</p>
        {move || app.saved.with(Vec::is_empty).then(|| view! {
            <p>"Nothing saved yet. Choose a machine, tick two attachments, compare them, and save."</p>
            <p><a class="button" href="#/">"Choose a machine"</a></p>
        })}
        <ul class="list">
            <For each=move || app.saved.get() key=|saved| saved.id.clone() let:saved>
                <SavedRow saved/>
            </For>
        </ul>
    }
}

#[component]
fn SavedRow(saved: Saved) -> impl IntoView {
    let app = app();
    let words = app.words();
    let table = saved
        .table
        .date
        .as_ref()
        .map_or_else(|| saved.table.title.clone(), |date| format!("{}, {date}", saved.table.title));
    let delete_name = format!("Delete {}", saved.name);
    let stored = StoredValue::new(saved.clone());
    view! {
        <li class="fit">
            <a class="row" href=address(&saved)>
                <span class="text">
                    <span class="name">{saved.name.clone()}</span>
                    {saved.heads.iter().map(|head| view! {
                        <span class="then">
                            {head.verdict().map(|verdict| view! { <Mark verdict/> })}
                            {head.name.clone()}": "{head.verdict().map(|verdict| words.verdict(verdict))}
                        </span>
                    }).collect_view()}
                    <span class="quiet">{saved.carrier.name.clone()}" · "{saved.created.get(..10).unwrap_or_default().to_owned()}" · "{table}</span>
                </span>
            </a>
            <button type="button" class="quiet" aria-label=delete_name
                on:click=move |_| storage::delete(app, &stored.get_value())>"Delete"</button>
        </li>
    }
}
