//! The local storage of this browser: texts under keys, and nothing of what they mean. The only module that asks for it.
//!
//! gloo-storage's raw interface is used: the values are texts in an envelope of our own.

use super::time;
use gloo_storage::{LocalStorage, Storage};
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::web_sys;
use record::bundle::Bundle;
use record::{LAYOUTS_KEY as LAYOUTS, Layouts, PREFERENCE_PREFIX as PREFERENCE, RECENT_KEY as RECENT, Recent};
use std::sync::atomic::{AtomicBool, Ordering};
use wasm_bindgen_futures::JsFuture;

/// What every key begins with.
const ANY: &str = "pairwright.";

/// Local storage, when the browser lets us have it: even asking for it can be denied.
pub fn raw() -> Option<web_sys::Storage> {
    window().local_storage().ok().flatten().map(|_| LocalStorage::raw())
}

/// A preference kept under a name.
pub fn preference(name: &str) -> Option<String> {
    raw()?.get_item(&format!("{PREFERENCE}{name}")).ok().flatten()
}

/// What was opened last.
pub fn recent() -> Recent {
    let text = raw().and_then(|storage| storage.get_item(RECENT).ok().flatten());
    text.map(|text| Recent::decode(&text)).unwrap_or_default()
}

/// Keeps what was opened last; it is no loss when it cannot be kept.
pub fn keep_recent(recent: &Recent) {
    if let Some(storage) = raw() {
        let _ = storage.set_item(RECENT, &recent.encode());
    }
}

/// What was answered about files, by their layouts.
pub fn layouts() -> Layouts {
    let text = raw().and_then(|storage| storage.get_item(LAYOUTS).ok().flatten());
    text.map(|text| Layouts::decode(&text)).unwrap_or_default()
}

/// Keeps what was answered about files; it is asked once more when it cannot be kept.
pub fn keep_layouts(layouts: &Layouts) {
    if let Some(storage) = raw() {
        let _ = storage.set_item(LAYOUTS, &layouts.encode());
    }
}

/// Keeps a preference. When it cannot be kept it holds until the page is closed, which is no loss worth a message.
pub fn keep_preference(name: &str, value: &str) {
    if let Some(storage) = raw() {
        let _ = storage.set_item(&format!("{PREFERENCE}{name}"), value);
    }
}

/// Every value whose key begins so.
pub fn under(storage: &web_sys::Storage, prefix: &str) -> Vec<(String, String)> {
    let keys = (0..storage.length().unwrap_or(0)).filter_map(|index| storage.key(index).ok().flatten());
    let keys: Vec<String> = keys.filter(|key| key.starts_with(prefix)).collect();
    let value = |key: String| storage.get_item(&key).ok().flatten().map(|text| (key, text));
    keys.into_iter().filter_map(value).collect()
}

/// Everything that is kept here, by key.
pub fn everything() -> Vec<(String, String)> {
    raw().map_or_else(Vec::new, |storage| under(&storage, ANY))
}

/// Everything that is kept here as one file, with what is kept beside local storage: its name and its text.
pub fn exported(beside: Vec<(String, String)>) -> (String, String) {
    let now = time::now();
    let day = now.get(..10).unwrap_or_default().to_owned();
    (format!("pairwright-{day}.json"), Bundle::gather(now, everything().into_iter().chain(beside)).encode())
}

/// Asks the browser, once, not to throw away what is kept when room gets scarce: there is something of the person's now.
pub fn persist_storage() {
    static ASKED: AtomicBool = AtomicBool::new(false);
    let navigator = window().navigator();
    let there = js_sys::Reflect::get(&navigator, &"storage".into()).is_ok_and(|found| found.is_object());
    if !there || ASKED.swap(true, Ordering::Relaxed) {
        return;
    }
    if let Ok(asked) = navigator.storage().persist() {
        // Whatever it answers: what is saved is there for now.
        spawn_local(async move { drop(JsFuture::from(asked).await) });
    }
}
