//! Everything that is kept in this browser. The only module that touches local storage.
//!
//! One key for each saved thing, so that two tabs do not overwrite each other's list. What cannot be read is moved aside,
//! never overwritten. gloo-storage's raw interface is used: the values are texts in an envelope of our own.

use super::notice::{Notice, Offer, tell};
use super::state::App;
use crate::record::{RecordFault, Saved};
use gloo_storage::{LocalStorage, Storage};
use leptos::ev;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;

const SAVED: &str = "pairwright.saved.";
const ASIDE: &str = "pairwright.aside.";
const PREFERENCE: &str = "pairwright.preference.";

/// Local storage, when the browser lets us have it: even asking for it can be denied.
fn raw() -> Option<web_sys::Storage> {
    window().local_storage().ok().flatten().map(|_| LocalStorage::raw())
}

/// A preference kept under a name.
pub fn preference(name: &str) -> Option<String> {
    raw()?.get_item(&format!("{PREFERENCE}{name}")).ok().flatten()
}

/// Keeps a preference. When it cannot be kept it holds until the page is closed, which is no loss worth a message.
pub fn keep_preference(name: &str, value: &str) {
    if let Some(storage) = raw() {
        let _ = storage.set_item(&format!("{PREFERENCE}{name}"), value);
    }
}

/// Reads what is saved and follows what other tabs save.
pub fn follow(app: App) {
    refresh(app);
    let handle = window_event_listener(ev::storage, move |event: web_sys::StorageEvent| {
        if event.key().is_none_or(|key| key.starts_with(SAVED)) {
            refresh(app);
        }
    });
    on_cleanup(move || handle.remove());
}

/// Reads every saved comparison, newest first.
fn refresh(app: App) {
    let Some(storage) = raw() else { return };
    let keys: Vec<String> = (0..storage.length().unwrap_or(0))
        .filter_map(|index| storage.key(index).ok().flatten())
        .filter(|key| key.starts_with(SAVED))
        .collect();
    let mut all = Vec::new();
    for key in keys {
        let Some(text) = storage.get_item(&key).ok().flatten() else { continue };
        match Saved::decode(&text) {
            Ok(saved) => all.push(saved),
            // Another tab may run a newer version: its things are left where they are.
            Err(RecordFault::Newer { found }) => tell(
                app,
                Notice::fault(format!(
                    "A saved comparison is of version {found}, newer than this app. Reload the page to get the newest app; it is kept as it is."
                ))
                .offering(Offer::Download { name: format!("{key}.json"), text }),
            ),
            Err(RecordFault::Damaged | RecordFault::Foreign) => move_aside(app, &storage, &key, text),
        }
    }
    all.sort_by(|a, b| b.created.cmp(&a.created).then_with(|| a.id.cmp(&b.id)));
    app.saved.set(all);
}

/// Moves a value that cannot be read to a key of its own and offers it as a file.
fn move_aside(app: App, storage: &web_sys::Storage, key: &str, text: String) {
    let aside = (0..1000)
        .map(|number| format!("{ASIDE}{key}.{number}"))
        .find(|aside| storage.get_item(aside).ok().flatten().is_none());
    let moved = aside.is_some_and(|aside| storage.set_item(&aside, &text).is_ok());
    // Only what is safe elsewhere is taken away.
    if moved {
        let _ = storage.remove_item(key);
    }
    let words = "A saved comparison is damaged and cannot be read. It is put aside, nothing is deleted.".to_owned();
    tell(app, Notice::fault(words).offering(Offer::Download { name: format!("{key}.json"), text }));
}

/// Saves a comparison; whether it worked.
pub fn save(app: App, saved: &Saved) -> bool {
    let text = saved.encode();
    let kept = raw().map(|storage| storage.set_item(&format!("{SAVED}{}", saved.id), &text));
    let why = match kept {
        Some(Ok(())) => {
            refresh(app);
            return true;
        }
        Some(Err(_)) => "The browser's storage for this page is full: delete something under Saved, then save again.",
        None => "The browser keeps nothing for this page: allow local storage for it, then save again.",
    };
    let name = format!("{}.json", saved.name);
    tell(app, Notice::fault(format!("Not saved. {why}")).offering(Offer::Download { name, text }));
    false
}

/// Deletes a saved comparison and offers to take that back.
pub fn delete(app: App, saved: &Saved) {
    if let Some(storage) = raw()
        && storage.remove_item(&format!("{SAVED}{}", saved.id)).is_ok()
    {
        refresh(app);
        let words = format!("“{}” is deleted.", saved.name);
        tell(app, Notice::news(words).offering(Offer::Undo(Box::new(saved.clone()))));
    }
}

/// Gives the person a text as a file.
pub fn download(name: &str, text: &str) {
    let parts = js_sys::Array::of1(&text.into());
    let Ok(blob) = web_sys::Blob::new_with_str_sequence(&parts) else { return };
    let Ok(address) = web_sys::Url::create_object_url_with_blob(&blob) else { return };
    if let Ok(link) = document().create_element("a")
        && let Ok(link) = link.dyn_into::<web_sys::HtmlAnchorElement>()
    {
        link.set_href(&address);
        link.set_download(name);
        link.click();
    }
    let _ = web_sys::Url::revoke_object_url(&address);
}
