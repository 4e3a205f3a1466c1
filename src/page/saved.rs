//! What was saved in this browser: opened, renamed, noted upon, deleted; and how it comes out differently now.

use super::fits::breathe;
use super::load::Loaded;
use super::notice::{Notice, tell};
use super::route;
use super::state::{App, app};
use super::storage;
use super::svg::Mark;
use crate::record::{Difference, LONGEST_NAME, Saved};
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::sync::Arc;

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
            <For each=move || app.saved.get() key=Saved::encode let:saved>
                <SavedRow saved/>
            </For>
        </ul>
    }
}

#[component]
fn SavedRow(saved: Saved) -> impl IntoView {
    let app = app();
    let table = saved
        .table
        .date
        .as_ref()
        .map_or_else(|| saved.table.title.clone(), |date| format!("{}, {date}", saved.table.title));
    let (delete_name, edit_name) = (format!("Delete {}", saved.name), format!("Rename {} or write notes", saved.name));
    let editing = RwSignal::new(false);
    let stored = StoredValue::new(saved.clone());
    view! {
        <li class="kept">
            <div class="fit">
                <a class="row" href=address(&saved)>
                    <span class="text">
                        <span class="name">{saved.name.clone()}</span>
                        {saved.heads.iter().map(|head| view! {
                            <span class="then">
                                {head.verdict().map(|verdict| view! { <Mark verdict/> })}
                                {head.name.clone()}": "{head.verdict().map(|verdict| app.words().verdict(verdict))}
                            </span>
                        }).collect_view()}
                        <span class="quiet">{saved.carrier.name.clone()}" · "{saved.created.get(..10).unwrap_or_default().to_owned()}" · "{table}</span>
                    </span>
                </a>
                <span class="actions">
                    <button type="button" class="quiet" aria-label=edit_name aria-expanded=move || editing.get().to_string()
                        on:click=move |_| editing.update(|open| *open = !*open)>"Edit"</button>
                    <button type="button" class="quiet" aria-label=delete_name
                        on:click=move |_| storage::delete(app, &stored.get_value())>"Delete"</button>
                </span>
            </div>
            {(!saved.note.is_empty()).then(|| view! { <p class="note">{saved.note.clone()}</p> })}
            {move || editing.get().then(|| view! { <Edit saved=stored.get_value() editing/> })}
            <Since saved=saved.clone()/>
        </li>
    }
}

/// Another name, and notes.
#[component]
fn Edit(saved: Saved, editing: RwSignal<bool>) -> impl IntoView {
    let app = app();
    let (name, note) = (RwSignal::new(saved.name.clone()), RwSignal::new(saved.note.clone()));
    let (name_id, note_id) = (format!("name-{}", saved.id), format!("note-{}", saved.id));
    let keep = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        match saved.renamed(&name.get_untracked(), &note.get_untracked()) {
            Some(renamed) => {
                if storage::save(app, &renamed) {
                    editing.try_set(false);
                }
            }
            None => tell(app, Notice::fault("Give the comparison a name, then keep it.".to_owned())),
        }
    };
    view! {
        <form class="save" on:submit=keep>
            <label for=name_id.clone()>"Name"</label>
            <input id=name_id type="text" maxlength=LONGEST_NAME.to_string() prop:value=name
                on:input=move |event| name.set(event_target_value(&event))/>
            <label for=note_id.clone()>"Notes"</label>
            <textarea id=note_id rows="4" maxlength=crate::record::LONGEST_NOTE.to_string() prop:value=note
                on:input=move |event| note.set(event_target_value(&event))></textarea>
            <span class="actions">
                <button type="submit" class="strong">"Keep"</button>
                <button type="button" on:click=move |_| editing.set(false)>"Leave it as it was"</button>
            </span>
        </form>
    }
}

/// How the comparison comes out differently with the table and the machine as they are now.
#[component]
fn Since(saved: Saved) -> impl IntoView {
    let app = app();
    let found = RwSignal::new(None::<Differences>);
    let stored = StoredValue::new(saved.clone());
    Effect::new(move |_| {
        let Some(loaded) = app.table() else { return };
        let saved = stored.get_value();
        spawn_local(async move {
            // The list first, then what takes time.
            breathe().await;
            found.try_set(Some(differences(app, &loaded, &saved)));
        });
    });
    move || {
        let loaded = app.table()?;
        let same = saved.table.mark.as_ref() == Some(&loaded.mark);
        let found = found.get()?;
        let words = app.words();
        if found.is_empty() {
            return (!same).then(|| {
                view! { <p class="quiet">"The table has changed since; solved again, this comparison comes out the same."</p> }
                    .into_any()
            });
        }
        Some(
            view! {
                <div class="missing since">
                    <p class="name">{if same { "Solved again, it comes out differently" } else { "The table has changed since. Solved again:" }}</p>
                    <ul>
                        {found.into_iter().map(|(head, differences)| {
                            let told: Vec<_> = differences.iter().map(|difference| words.difference(difference)).collect();
                            view! { <li>{head}": "{told.join("; ")}"."</li> }
                        }).collect_view()}
                    </ul>
                </div>
            }
            .into_any(),
        )
    }
}

/// The attachments that come out differently, each with how.
type Differences = Vec<(String, Vec<Difference>)>;

fn differences(app: App, loaded: &Arc<Loaded>, saved: &Saved) -> Differences {
    let machine = app.carrier(loaded, &saved.carrier.id);
    let of_head = |head: &crate::record::HeadThen| {
        let attachment = loaded.table.head(&head.id);
        let pairing =
            machine.as_ref().zip(attachment).map(|(machine, attachment)| app.pairing(loaded, machine, attachment));
        let found = head.differences(pairing.as_deref());
        (!found.is_empty()).then(|| (head.name.clone(), found))
    };
    saved.heads.iter().filter_map(of_head).collect()
}
