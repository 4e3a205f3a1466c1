//! What was saved in this browser: opened, renamed, noted upon, deleted; and how it comes out differently now.

use super::breath::breathe;
use super::handover;
use super::loaded::Loaded;
use super::names::machines_of;
use super::notice::Notice;
use super::own_machines::OwnMachines;
use super::route::Route;
use super::state::{App, app};
use super::svg::Mark;
use super::{files, import, put_aside, storage};
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;
use record::plate::OWN;
use record::{Changed, Difference, LONGEST_NAME, Made, Saved};
use std::sync::Arc;

/// The screen.
#[component]
pub fn SavedList() -> impl IntoView {
    let app = app();
    app.host.title("Saved");
    view! {
        <h1 tabindex="-1">"Saved"</h1>
        <p class="quiet">"Kept in this browser only. Nothing is sent anywhere."</p>
        {move || app.saved.with(Vec::is_empty).then(|| view! {
            <p>"No comparison saved yet. Choose a machine, tick two attachments, compare them, and save."</p>
            <p><a class="button" href=app.href(&Route::Start)>"Choose a machine"</a></p>
        })}
        <ul class="list">
            <For each=move || app.saved.with(|all| all.iter().map(|saved| saved.id.clone()).collect::<Vec<_>>())
                key=Clone::clone let:id>
                <SavedRow id/>
            </For>
        </ul>
        {app.host.is_page().then(|| view! {
            <handover::OfSaved/>
            {move || app.own.with(|own| !own.is_empty()).then(|| view! { <OwnMachines/> })}
            <InOneFile/>
        })}
        <Aside/>
    }
}

/// Everything as one file, out and in.
#[component]
fn InOneFile() -> impl IntoView {
    let app = app();
    let choose = move |event: leptos::ev::Event| {
        let input = event.target().and_then(|target| target.dyn_into::<web_sys::HtmlInputElement>().ok());
        let Some(input) = input else { return };
        if let Some(file) = input.files().and_then(|files| files.get(0)) {
            import::import(app, file);
        }
        // The same file can be chosen again.
        input.set_value("");
    };
    view! {
        <section aria-labelledby="one-file">
            <h2 id="one-file">"Everything as one file"</h2>
            <p class="quiet">"Comparisons, hand-overs, machines of your own, the table you loaded: for another device, or to be safe. Importing overwrites nothing."</p>
            <p class="actions">
                <button type="button" on:click=move |_| files::export()>"Export everything"</button>
            </p>
            <p class="field">
                <label for="import">"Import a file"</label>
                <input id="import" type="file" accept=".json,application/json" on:change=choose/>
            </p>
        </section>
    }
}

/// What could not be read: to be downloaded, and deleted by whoever knows that it is not needed.
#[component]
fn Aside() -> impl IntoView {
    let app = app();
    move || {
        let aside = app.aside.get();
        (!aside.is_empty()).then(|| view! {
            <section aria-labelledby="aside">
                <h2 id="aside">"Put aside"</h2>
                <p class="quiet">"These were kept here and cannot be read any more. Download one before you delete it: somebody may be able to fix it."</p>
                <ul class="list">
                    {aside.into_iter().map(|(key, text)| {
                        let (file, gone, shown) = (format!("{key}.json"), key.clone(), key.trim_start_matches("pairwright.aside.").to_owned());
                        let (download, delete) = (format!("Download {shown}"), format!("Delete {shown}"));
                        view! {
                            <li class="fit">
                                <span class="text">{shown}</span>
                                <span class="actions">
                                    <button type="button" class="quiet" aria-label=download on:click=move |_| files::download(&file, &text)>"Download"</button>
                                    <button type="button" class="quiet" aria-label=delete on:click=move |_| put_aside::delete_aside(app, &gone)>"Delete"</button>
                                </span>
                            </li>
                        }
                    }).collect_view()}
                </ul>
            </section>
        })
    }
}

/// One comparison. It stands for an id, so that what is typed here stays when another tab writes.
#[component]
fn SavedRow(id: String) -> impl IntoView {
    let app = app();
    let editing = RwSignal::new(false);
    let saved = Memo::new(move |before: Option<&Option<Saved>>| {
        let now = app.saved.with(|all| all.iter().find(|saved| saved.id == id).cloned());
        now.or_else(|| before.cloned().flatten())
    });
    let row = move || {
        let saved = saved.get()?;
        let table = match &saved.table.date {
            Some(date) => format!("{}, {}", saved.table.title, super::time::day(date)),
            None => saved.table.title.clone(),
        };
        let (delete_name, edit_name) =
            (format!("Delete {}", saved.name), format!("Edit {}: name and notes", saved.name));
        let stored = StoredValue::new(saved.clone());
        Some(view! {
            <div class="fit">
                <a class="row" href=app.href(&Route::of_saved(&saved))>
                    <span class="text">
                        <span class="name">{saved.name.clone()}</span>
                        {saved.heads.iter().map(|head| view! {
                            <span class="then">
                                {head.verdict().map(|verdict| view! { <Mark verdict/> })}
                                {head.name.clone()}{head.carrier.as_ref().map(|carrier| format!(" on {}", carrier.name))}": "{head.verdict().map(|verdict| app.words().verdict(verdict))}
                            </span>
                        }).collect_view()}
                        <span class="quiet">{machines_of(&saved)}" · "{super::time::day(&saved.created)}" · "{table}</span>
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
            <handover::OfComparison saved/>
        })
    };
    view! {
        <li class="kept">
            {row}
            {move || editing.get().then(|| saved.get_untracked().map(|saved| view! { <Edit saved editing/> }))}
            {move || saved.get().map(|saved| view! { <Since saved/> })}
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
            // Another tab may have written on it meanwhile.
            Some(renamed) => {
                if let Some(kept) = storage::save_merged(app, &saved, &renamed) {
                    app.host.tell("saved", kept.encode());
                    editing.try_set(false);
                }
            }
            None => app.tell(Notice::fault("Give the comparison a name, then keep it.".to_owned())),
        }
    };
    view! {
        <form class="save" on:submit=keep>
            <label for=name_id.clone()>"Name"</label>
            <input id=name_id type="text" maxlength=LONGEST_NAME.to_string() prop:value=name
                on:input=move |event| name.set(event_target_value(&event))/>
            <label for=note_id.clone()>"Notes"</label>
            <textarea id=note_id rows="4" maxlength=record::LONGEST_NOTE.to_string() prop:value=note
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
    let found = RwSignal::new(None::<Vec<Differing>>);
    let stored = StoredValue::new(saved.clone());
    Effect::new(move |_| {
        let Some(loaded) = app.table() else { return };
        let saved = stored.get_value();
        spawn_local(async move {
            // The list first, then what takes time.
            breathe().await;
            // The app may be shown no more.
            if found.is_disposed() {
                return;
            }
            found.try_set(Some(differences(app, &loaded, &saved)));
        });
    });
    move || {
        let loaded = app.table()?;
        let same = saved.table.mark.as_ref() == Some(&loaded.mark);
        let found = found.get()?;
        let words = app.words();
        let lost = saved.carriers().into_iter().find(|carrier| app.carrier(&loaded, &carrier.id).is_none());
        if let Some(carrier) = lost {
            let words = format!("{} is not here any more: it stands in another table, or was deleted.", carrier.name);
            return Some(view! { <p class="missing since">{words}</p> }.into_any());
        }
        if found.is_empty() {
            return (!same).then(|| {
                view! { <p class="quiet">"The table has changed since; solved again, this comparison comes out the same."</p> }
                    .into_any()
            });
        }
        Some(
            view! {
                <div class="missing since">
                    <p class="name">"Solved again, it comes out differently:"</p>
                    <ul>
                        {found.into_iter().map(|Differing { head, differences, changed, own }| {
                            let told: Vec<_> = differences.iter().map(|difference| words.difference(difference)).collect();
                            let changed = changed.map(|changed| format!(" {}", words.changed(changed, own)));
                            view! { <li>{head}": "{told.join("; ")}"."{changed}</li> }
                        }).collect_view()}
                    </ul>
                </div>
            }
            .into_any(),
        )
    }
}

/// An attachment that comes out differently.
#[derive(Clone)]
struct Differing {
    head: String,
    differences: Vec<Difference>,
    /// What has changed; none where machine or attachment is not there any more.
    changed: Option<Changed>,
    /// Whether the machine is one's own.
    own: bool,
}

/// The attachments that come out differently.
fn differences(app: App, loaded: &Arc<Loaded>, saved: &Saved) -> Vec<Differing> {
    let same_table = saved.table.mark.as_ref() == Some(&loaded.mark);
    let of_head = |head: &record::HeadThen| {
        let machine = app.carrier(loaded, &saved.carrier_of(head).id);
        let attachment = loaded.table.head(&head.id);
        let pairing =
            machine.as_ref().zip(attachment).map(|(machine, attachment)| app.pairing(loaded, machine, attachment));
        let differences = head.differences(pairing.as_deref());
        let own = saved.carrier_of(head).id.starts_with(OWN);
        let changed = pairing
            .map(|pairing| Made::changed(head.made.as_ref(), app.made(loaded, &pairing).as_ref(), same_table && !own));
        (!differences.is_empty()).then(|| Differing { head: head.name.clone(), differences, changed, own })
    };
    saved.heads.iter().filter_map(of_head).collect()
}
