//! Everything that is kept in this browser. The only module that touches local storage.
//!
//! One key for each saved thing, so that two tabs do not overwrite each other's list. What cannot be read is moved aside,
//! never overwritten. gloo-storage's raw interface is used: the values are texts in an envelope of our own.

use super::notice::{Notice, Offer, Undo, tell};
use super::state::App;
use crate::record::{KeptTable, Plate, RecordFault, Saved};
use gloo_storage::{LocalStorage, Storage};
use leptos::ev;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;

const ASIDE: &str = "pairwright.aside.";
const PREFERENCE: &str = "pairwright.preference.";
const TABLE: &str = "pairwright.table";

/// A thing that is kept under a key of its own and listed on a screen.
pub trait Kept: Clone + Send + Sync + 'static {
    /// What its keys begin with.
    const PREFIX: &'static str;
    /// What it is called in a message.
    const WHAT: &'static str;
    /// Its id, the rest of its key.
    fn id(&self) -> &str;
    /// What the person calls it.
    fn name(&self) -> &str;
    /// Its text.
    fn encode(&self) -> String;
    /// Reads a text.
    fn decode(text: &str) -> Result<Self, RecordFault>;
    /// What a list of them is sorted by, newest first.
    fn newest(&self) -> &str;
    /// The list on the screens.
    fn list(app: App) -> RwSignal<Vec<Self>>;
    /// How a deletion is taken back.
    fn undo(self) -> Undo;
}

impl Kept for Saved {
    const PREFIX: &'static str = "pairwright.saved.";
    const WHAT: &'static str = "A saved comparison";
    fn id(&self) -> &str {
        &self.id
    }
    fn name(&self) -> &str {
        &self.name
    }
    fn encode(&self) -> String {
        self.encode()
    }
    fn decode(text: &str) -> Result<Self, RecordFault> {
        Self::decode(text)
    }
    fn newest(&self) -> &str {
        &self.created
    }
    fn list(app: App) -> RwSignal<Vec<Self>> {
        app.saved
    }
    fn undo(self) -> Undo {
        Undo::Saved(self)
    }
}

impl Kept for Plate {
    const PREFIX: &'static str = "pairwright.machine.";
    const WHAT: &'static str = "A machine of your own";
    fn id(&self) -> &str {
        &self.id
    }
    fn name(&self) -> &str {
        &self.name
    }
    fn encode(&self) -> String {
        self.encode()
    }
    fn decode(text: &str) -> Result<Self, RecordFault> {
        Self::decode(text)
    }
    fn newest(&self) -> &str {
        &self.changed
    }
    fn list(app: App) -> RwSignal<Vec<Self>> {
        app.own
    }
    fn undo(self) -> Undo {
        Undo::Machine(self)
    }
}

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
    refresh::<Saved>(app);
    refresh::<Plate>(app);
    let handle = window_event_listener(ev::storage, move |event: web_sys::StorageEvent| {
        let concerns = |prefix: &str| event.key().is_none_or(|key| key.starts_with(prefix));
        if concerns(Saved::PREFIX) {
            refresh::<Saved>(app);
        }
        if concerns(Plate::PREFIX) {
            app.forget_solved();
            refresh::<Plate>(app);
        }
    });
    on_cleanup(move || handle.remove());
}

/// Reads every kept thing of a kind, newest first.
fn refresh<T: Kept>(app: App) {
    let Some(storage) = raw() else { return };
    let keys: Vec<String> = (0..storage.length().unwrap_or(0))
        .filter_map(|index| storage.key(index).ok().flatten())
        .filter(|key| key.starts_with(T::PREFIX))
        .collect();
    let mut all: Vec<T> = Vec::new();
    for key in keys {
        let Some(text) = storage.get_item(&key).ok().flatten() else { continue };
        match T::decode(&text) {
            Ok(kept) => all.push(kept),
            // Another tab may run a newer version: its things are left where they are.
            Err(RecordFault::Newer { found }) => tell(
                app,
                Notice::fault(format!(
                    "{} is of version {found}, newer than this app. Reload the page to get the newest app; it is kept as it is.",
                    T::WHAT
                ))
                .offering(Offer::Download { name: format!("{key}.json"), text }),
            ),
            Err(RecordFault::Damaged | RecordFault::Foreign) => move_aside(app, &storage, &key, text, T::WHAT),
        }
    }
    all.sort_by(|a, b| b.newest().cmp(a.newest()).then_with(|| a.id().cmp(b.id())));
    T::list(app).set(all);
}

/// Moves a value that cannot be read to a key of its own and offers it as a file.
fn move_aside(app: App, storage: &web_sys::Storage, key: &str, text: String, what: &str) {
    let aside = (0..1000)
        .map(|number| format!("{ASIDE}{key}.{number}"))
        .find(|aside| storage.get_item(aside).ok().flatten().is_none());
    let moved = aside.is_some_and(|aside| storage.set_item(&aside, &text).is_ok());
    // Only what is safe elsewhere is taken away.
    if moved {
        let _ = storage.remove_item(key);
    }
    let words = format!("{what} is damaged and cannot be read. It is put aside, nothing is deleted.");
    tell(app, Notice::fault(words).offering(Offer::Download { name: format!("{key}.json"), text }));
}

/// Keeps a thing; whether it worked.
pub fn save<T: Kept>(app: App, thing: &T) -> bool {
    let text = thing.encode();
    let kept = raw().map(|storage| storage.set_item(&format!("{}{}", T::PREFIX, thing.id()), &text));
    let why = match kept {
        Some(Ok(())) => {
            refresh::<T>(app);
            return true;
        }
        Some(Err(_)) => "The browser's storage for this page is full: delete something under Saved, then save again.",
        None => "The browser keeps nothing for this page: allow local storage for it, then save again.",
    };
    let name = format!("{}.json", thing.name());
    tell(app, Notice::fault(format!("Not saved. {why}")).offering(Offer::Download { name, text }));
    false
}

/// Deletes a kept thing and offers to take that back.
pub fn delete<T: Kept>(app: App, thing: &T) {
    if let Some(storage) = raw()
        && storage.remove_item(&format!("{}{}", T::PREFIX, thing.id())).is_ok()
    {
        refresh::<T>(app);
        let words = format!("“{}” is deleted.", thing.name());
        tell(app, Notice::news(words).offering(Offer::Undo(Box::new(thing.clone().undo()))));
    }
}

/// The table that was kept for this time; what cannot be read is moved aside.
pub fn kept_table(app: App) -> Option<KeptTable> {
    let storage = raw()?;
    let text = storage.get_item(TABLE).ok().flatten()?;
    match KeptTable::decode(&text) {
        Ok(kept) => Some(kept),
        Err(RecordFault::Newer { .. }) => None,
        Err(RecordFault::Damaged | RecordFault::Foreign) => {
            move_aside(app, &storage, TABLE, text, "The table that you loaded last");
            None
        }
    }
}

/// Keeps a table for the next time; whether there was room for it.
pub fn keep_table(kept: &KeptTable) -> bool {
    raw().is_some_and(|storage| storage.set_item(TABLE, &kept.encode()).is_ok())
}

/// Keeps no table any more.
pub fn forget_table() {
    if let Some(storage) = raw() {
        let _ = storage.remove_item(TABLE);
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
