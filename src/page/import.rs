//! Bringing back what an exported file holds.

use super::files::text_of;
use super::local_storage::{everything, preference, raw};
use super::notice::{Notice, Topic};
use super::state::App;
use super::{load, photos, storage, time};
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::web_sys;
use quantity::{Named, UnitSystem};
use record::bundle::{self, Bundle, Kind};
use std::collections::BTreeMap;

/// Brings back what a chosen file holds.
pub fn import(app: App, file: web_sys::File) {
    spawn_local(async move {
        match text_of(&file, record::bundle::LARGEST).await {
            Ok(text) => bring_back(app, &file.name(), &text).await,
            Err(why) => app.tell(Notice::fault(format!("{} {why}", file.name())).about(Topic::Import)),
        }
        app.host.to_top();
    });
}

/// Brings back what the text of an exported file holds, and tells what came of it. Nothing that is kept here is overwritten.
async fn bring_back(app: App, name: &str, text: &str) {
    let words = app.words();
    let bundle = match Bundle::decode(text) {
        Ok(bundle) => bundle,
        Err(fault) => {
            app.tell(Notice::fault(format!("{name}: {}", words.record_fault(&fault))).about(Topic::Import));
            return;
        }
    };
    let Some(storage) = raw() else {
        let words = "The browser keeps nothing for this page: allow local storage for it, then import the file again.";
        app.tell(Notice::fault(words.to_owned()).about(Topic::Import));
        return;
    };
    let here: BTreeMap<String, String> = everything().into_iter().chain(photos::all().await).collect();
    let steps = bundle::plan(&bundle, &here, &mut time::fresh_id);
    let mut no_room = Vec::new();
    let mut done = Vec::new();
    for step in steps {
        let kept = match step.text() {
            None => true,
            Some(text) if step.what == Kind::Photo => photos::keep(&step.key, text).await,
            Some(text) => storage.set_item(&step.key, text).is_ok(),
        };
        if kept { done.push(step) } else { no_room.push(step.name) }
    }
    storage::refresh_everything(app);
    // Taken into use at once, or it would come as a surprise at the next opening.
    if done.iter().any(|step| step.what == Kind::Table && step.text().is_some()) {
        load::first(app);
    }
    if let Some(units) = preference("units").and_then(|name| UnitSystem::from_name(&name)) {
        app.units.set(units);
    }
    let mut told = words.imported(&done);
    if !no_room.is_empty() {
        let all = no_room.join(", ");
        told = format!("{told} There was no room for: {all}. Delete something, then import the file again.");
    }
    let notice = if no_room.is_empty() { Notice::news(told) } else { Notice::fault(told) };
    app.tell(notice.about(Topic::Import));
}
