//! What is kept and cannot be read: moved aside, never overwritten, and told.

use super::local_storage::{raw, under};
use super::notice::{Notice, Offer, Topic};
use super::state::App;
use leptos::prelude::*;
use leptos::web_sys;
use record::ASIDE_PREFIX as ASIDE;
use record::bundle::Kind;

/// Tells of things of a kind that a newer version wrote: with key, text and version of each.
pub fn tell_newer(app: App, kind: Kind, mut found: Vec<(String, String, u32)>) {
    let newest = found.iter().map(|(.., version)| *version).max();
    let told = app.unread.try_update_value(|unread| {
        unread.note_newer(kind, newest.map(|version| (found.len(), version)));
        let (kinds, newest) = unread.newer();
        (app.words_untracked().newer(&kinds, newest), kinds.len() == 1)
    });
    let (Some(_), Some((told, one_kind))) = (newest, told) else { return };
    let only = one_kind && found.len() == 1;
    let notice = Notice::fault(told).about(Topic::Newer);
    app.tell(match found.pop().filter(|_| only) {
        Some((key, text, _)) => notice.offering(Offer::download(format!("{key}.json"), text)),
        None => notice,
    });
}

/// A key under which a text can be put aside.
pub fn aside_key(storage: &web_sys::Storage, key: &str) -> Option<String> {
    let mut keys = (0..1000).map(|number| format!("{ASIDE}{key}.{number}"));
    keys.find(|aside| storage.get_item(aside).ok().flatten().is_none())
}

/// Moves values that cannot be read to keys of their own, and says so once for all of them.
pub fn move_aside(app: App, storage: &web_sys::Storage, damaged: &[(String, String)], kind: Kind) {
    let mut left = 0;
    for (key, text) in damaged {
        // Only what is safe elsewhere is taken away.
        if aside_key(storage, key).is_some_and(|aside| storage.set_item(&aside, text).is_ok()) {
            let _ = storage.remove_item(key);
        } else {
            left += 1;
        }
    }
    list_aside(app);
    let told = app.unread.try_update_value(|unread| {
        unread.note_aside(kind, damaged.len() - left, left);
        let (kinds, moved) = unread.damaged();
        (app.words_untracked().damaged(&kinds, moved), kinds.iter().map(|(_, count)| count).sum::<usize>())
    });
    let Some((told, total)) = told else { return };
    let mut notice = Notice::fault(told).about(Topic::Aside);
    if let ([(key, text)], 1) = (damaged, total) {
        notice = notice.offering(Offer::download(format!("{key}.json"), text.clone()));
    }
    app.tell(notice);
}

/// Reads what was put aside.
pub fn list_aside(app: App) {
    if let Some(storage) = raw() {
        app.aside.set(under(&storage, ASIDE));
    }
}

/// Deletes something that was put aside, as the person asks for it.
pub fn delete_aside(app: App, key: &str) {
    if let Some(storage) = raw().filter(|_| key.starts_with(ASIDE)) {
        let _ = storage.remove_item(key);
        list_aside(app);
    }
}
