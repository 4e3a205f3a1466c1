//! Files and pasted cells on their way to a table: read by the program for spreadsheets, read anew with every answer, used when the person
//! says so.

use super::program::{self, Answered, Fault, object};
use crate::page::file_read::{FileRead, ReadFile};
use crate::page::loaded::Loaded;
use crate::page::local_storage::{keep_layouts, layouts};
use crate::page::notice::{Notice, Topic};
use crate::page::route::Route;
use crate::page::state::App;
use crate::page::{files, load};
use js_sys::{Object, Reflect};
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_bindgen::JsValue;
use leptos::web_sys;
use quantity::Named;
use spreadsheet::{Answers, LARGEST};
use std::sync::Arc;
use wasm_bindgen_futures::JsFuture;

/// What is said where the program cannot be had.
const AWAY: &str = "what reads and writes spreadsheets is not on this device yet: it needs a signal once, then works without. A table as JSON is loaded all the same.";
/// What pasted cells are called.
const PASTED: &str = "pasted cells";

/// Takes a file of any kind: JSON is loaded as ever, anything else is read and shown first.
pub fn give(app: App, file: web_sys::File) {
    spawn_local(async move {
        if is_json(&file).await {
            return load::from_file(app, file);
        }
        let name = file.name();
        let bytes = if file.size() > LARGEST as f64 {
            Err(format!("is larger than {} MB: split it.", LARGEST / (1024 * 1024)))
        } else {
            JsFuture::from(file.array_buffer()).await.map_err(|_| "cannot be read: choose it again.".to_owned())
        };
        match bytes {
            Ok(bytes) => open(app, name, "open", bytes).await,
            Err(why) => refuse(app, &format!("{name} {why}")),
        }
    });
}

/// Takes pasted cells.
pub fn paste(app: App, text: String) {
    if text.trim_start().starts_with(['{', '[']) {
        return load::from_text(app, text, format!("{PASTED}.json"));
    }
    spawn_local(open(app, PASTED.to_owned(), "paste", text.into()));
}

/// Whether a file is JSON, by its name, or else by how it begins.
async fn is_json(file: &web_sys::File) -> bool {
    let name = file.name().to_lowercase();
    let ends = |endings: &[&str]| endings.iter().any(|ending| name.ends_with(ending));
    if ends(&[".json"]) || ends(&[".csv", ".tsv", ".txt", ".xlsx", ".ods", ".zip"]) {
        return ends(&[".json"]);
    }
    let Ok(begin) = file.slice_with_i32_and_i32(0, 64) else { return false };
    let text = JsFuture::from(begin.text()).await.ok().and_then(|text| text.as_string()).unwrap_or_default();
    text.trim_start_matches('\u{feff}').trim_start().starts_with(['{', '[', '<'])
}

/// What cannot be read is told, and the table in use stays.
fn refuse(app: App, why: &str) {
    app.tell(Notice::fault(format!("{why} The table in use stays.")).about(Topic::Table));
    app.host.to_top();
}

fn tell(app: App, name: &str, fault: Fault) {
    match fault {
        Fault::Away => refuse(app, &format!("{name} cannot be read: {AWAY}")),
        Fault::Said(words) => refuse(app, &format!("{name} cannot be read: {words}.")),
    }
}

/// Opens a file and reads it with what was answered about its layout before.
async fn open(app: App, name: String, how: &'static str, what: JsValue) {
    let asked = app.ask();
    app.file.set(FileRead::Busy(name.clone()));
    let known = Object::new();
    for entry in layouts().entries() {
        let answers = serde_json::to_string(&entry.answers).unwrap_or_default();
        let _ = Reflect::set(&known, &entry.layout.as_str().into(), &answers.into());
    }
    let units = app.units.get_untracked().name();
    let members = [(how, what), ("name", name.as_str().into()), ("layouts", known.into()), ("units", units.into())];
    let outcome = program::read(object(members)).await;
    // Another file may have been given meanwhile.
    if !app.is_newest(asked) {
        return;
    }
    match outcome {
        Ok(answered) => {
            let answers = answered.known.as_deref().and_then(|text| serde_json::from_str(text).ok());
            let is_remembered = answers.is_some();
            take(app, name, answered, answers.unwrap_or_default(), is_remembered);
            // What was said about an earlier file is done with.
            app.notices.update(|all| all.retain(|known| !known.is_about(Topic::Table)));
            app.go(Route::Import);
        }
        Err(fault) => {
            app.file.set(FileRead::None);
            tell(app, &name, fault);
        }
    }
}

fn take(app: App, name: String, answered: Answered, answers: Answers, is_remembered: bool) {
    let Ok(reading) = serde_json::from_str(&answered.reading) else { return };
    let (table, layout) = (answered.table, answered.layout);
    app.file.set(FileRead::Ready(Arc::new(ReadFile { name, reading, table, layout, answers, is_remembered })));
}

/// Reads the open file anew with other answers, and keeps these for the next file of its layout.
pub fn answer(app: App, change: impl FnOnce(&mut Answers)) {
    let Some(read) = app.file.get_untracked().ready() else { return };
    let mut answers = read.answers.clone();
    change(&mut answers);
    keep_layouts(&layouts().with(&read.layout, &answers));
    again(app, read, answers);
}

/// Reads the open file anew, as the units are others.
pub fn again(app: App, read: Arc<ReadFile>, answers: Answers) {
    let asked = app.ask();
    spawn_local(async move {
        let text = serde_json::to_string(&answers).unwrap_or_default();
        let units = app.units.get_untracked().name();
        let outcome = program::read(object([("answers", text.into()), ("units", units.into())])).await;
        if !app.is_newest(asked) {
            return;
        }
        match outcome {
            Ok(answered) => {
                let is_remembered = read.is_remembered && !answers.is_empty();
                take(app, read.name.clone(), answered, answers, is_remembered);
            }
            Err(fault) => tell(app, &read.name, fault),
        }
    });
}

/// Uses the table that the open file was read as.
pub fn use_it(app: App) {
    let Some(read) = app.file.get_untracked().ready() else { return };
    app.file.set(FileRead::None);
    app.go(Route::Table);
    load::from_text(app, read.table.clone(), read.name.clone());
}

/// Leaves the open file unused.
pub fn leave(app: App) {
    app.file.set(FileRead::None);
    app.go(Route::Table);
}

/// Gives the person the table in use as a workbook, or as texts packed together.
pub fn hand_out(app: App, loaded: Arc<Loaded>, packed: bool, done: impl FnOnce() + 'static) {
    spawn_local(async move {
        let ending = if packed { "csv.zip" } else { "xlsx" };
        let name = format!("pairwright-{}.{ending}", loaded.origin.stem());
        match program::write(&loaded.text, packed).await {
            Ok(bytes) => files::download_bytes(&name, &bytes),
            Err(Fault::Away) => refuse(app, &format!("{name} cannot be written: {AWAY}")),
            Err(Fault::Said(words)) => refuse(app, &format!("{name} cannot be written ({words}).")),
        }
        done();
    });
}
