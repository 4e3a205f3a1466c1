//! Saving a comparison under a name.

use super::super::loaded::Loaded;
use super::super::notice::Notice;
use super::super::state::app;
use super::super::{storage, time};
use fit::Pairing;
use leptos::prelude::*;
use record::Saved;
use std::sync::Arc;

/// Saves the comparison under a name. Under another name than it has it becomes another one; to give it another name is asked for.
#[component]
pub fn SaveForm(
    loaded: Arc<Loaded>,
    proposal: String,
    pairings: Vec<Arc<Pairing>>,
    /// The same comparison as it was saved before.
    known: Option<Saved>,
) -> impl IntoView {
    let app = app();
    let name = RwSignal::new(known.as_ref().map_or(proposal, |saved| saved.name.clone()));
    let done = RwSignal::new(String::new());
    let known = RwSignal::new(known);
    let pairings = StoredValue::new(pairings);
    // The one that is saved anew: that of the same name.
    let onto = move || {
        pairings.with_value(|pairings| {
            let pairs: Vec<_> = pairings.iter().map(|p| (p.carrier.id.as_str(), p.head.id.as_str())).collect();
            app.saved.with(|all| Saved::onto(all, &pairs, &name.get()).cloned())
        })
    };
    let write = StoredValue::new(move |before: Option<Saved>| {
        done.set(String::new());
        let new = pairings.with_value(|pairings| {
            let of: Vec<&Pairing> = pairings.iter().map(AsRef::as_ref).collect();
            let id = before.as_ref().map_or_else(time::fresh_id, |saved| saved.id.clone());
            Saved::new(id, &name.get_untracked(), time::now(), (&loaded.table, &loaded.mark), &of, |pairing| {
                app.made(&loaded, pairing)
            })
        });
        let Some(new) = new else {
            return app.tell(Notice::fault("Give the comparison a name, then save it.".to_owned()));
        };
        let note = before.as_ref().map(|saved| saved.note.clone()).unwrap_or_default();
        let saved = Saved { note, ..new };
        let carriers: Vec<_> = saved.carriers().into_iter().map(|carrier| carrier.id.as_str()).collect();
        if !storage::keep_visiting(app, &carriers) {
            return;
        }
        // Another tab may have written on it since.
        if let Some(saved) = storage::save_merged(app, before.as_ref().unwrap_or(&saved), &saved) {
            // Where the eye is, not at the top of the page.
            app.host.tell("saved", saved.encode());
            done.set(format!("Saved as “{}” in this browser.", saved.name));
            known.set(Some(saved));
        }
    });
    let save = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        write.with_value(|write| write(untrack(onto)));
    };
    // What has the name already is saved anew; only where none has, the one that was opened may be given it.
    let renames = move || known.get().filter(|_| onto().is_none());
    let rename = move |_| write.with_value(|write| write(known.get_untracked()));
    view! {
        <form class="save" on:submit=save>
            <label for="name">"Save under a name"</label>
            <input id="name" type="text" maxlength=record::LONGEST_NAME.to_string() prop:value=name
                on:input=move |event| name.set(event_target_value(&event))/>
            <button type="submit" class="strong">{move || match (onto(), known.get()) {
                (Some(_), _) => "Save it anew",
                (None, Some(_)) => "Save as another one",
                (None, None) => "Save",
            }}</button>
            {move || renames().map(|saved| view! {
                <button type="button" on:click=rename>{format!("Rename “{}” to this", saved.name)}</button>
            })}
            <p role="status">{done}</p>
        </form>
    }
}
