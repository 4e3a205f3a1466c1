//! Everything that is kept in this browser. The only module that touches local storage.
//!
//! One key for each saved thing, so that two tabs do not overwrite each other's list. What cannot be read is moved aside,
//! never overwritten. gloo-storage's raw interface is used: the values are texts in an envelope of our own.

use super::load;
use super::notice::{Notice, Offer, Topic, Undo, tell};
use super::offline;
use super::state::App;
use super::when;
use gloo_storage::{LocalStorage, Storage};
use leptos::ev;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;
use quantity::{Named, UnitSystem};
use record::bundle::{self, Bundle, Kind};
use record::{ASIDE_PREFIX as ASIDE, PREFERENCE_PREFIX as PREFERENCE, RECENT_KEY as RECENT, TABLE_KEY as TABLE};
use record::{HandOver, KeptTable, Keyed, Plate, Recent, RecordFault, Saved};
use std::cell::RefCell;
use std::collections::BTreeMap;

/// What every key begins with.
const ANY: &str = "pairwright.";

/// A thing that is kept under a key of its own and listed on a screen.
pub trait Kept: Keyed + Send + Sync + 'static {
    /// What it is.
    const KIND: Kind;
    /// What a list of them is sorted by, newest first.
    fn newest(&self) -> &str;
    /// The list on the screens.
    fn list(app: App) -> RwSignal<Vec<Self>>;
    /// How a deletion is taken back.
    fn undo(self) -> Undo;
}

impl Kept for Saved {
    const KIND: Kind = Kind::Comparison;
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
    const KIND: Kind = Kind::Machine;
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

impl Kept for HandOver {
    const KIND: Kind = Kind::HandOver;
    fn newest(&self) -> &str {
        &self.changed
    }
    fn list(app: App) -> RwSignal<Vec<Self>> {
        app.handovers
    }
    fn undo(self) -> Undo {
        Undo::HandOver(self)
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

/// Keeps a preference. When it cannot be kept it holds until the page is closed, which is no loss worth a message.
pub fn keep_preference(name: &str, value: &str) {
    if let Some(storage) = raw() {
        let _ = storage.set_item(&format!("{PREFERENCE}{name}"), value);
    }
}

thread_local! {
    /// The apps in this page: several elements may stand in it, and the browser tells only other tabs what is kept.
    static HERE: RefCell<Vec<(usize, App)>> = const { RefCell::new(Vec::new()) };
}

/// All apps in this page read a kind of kept things anew.
fn refresh_all<T: Kept>() {
    // Copied first: what is read may be told, and telling may ask for more.
    for (_, app) in HERE.with_borrow(Clone::clone) {
        if T::PREFIX == Plate::PREFIX {
            app.forget_solved();
        }
        refresh::<T>(app);
    }
}

/// Reads what is saved and follows what is saved elsewhere.
pub fn follow(app: App) {
    let number = HERE.with_borrow_mut(|here| {
        let number = here.iter().map(|(number, _)| number + 1).max().unwrap_or(0);
        here.push((number, app));
        number
    });
    on_cleanup(move || HERE.with_borrow_mut(|here| here.retain(|(known, _)| *known != number)));
    refresh::<Saved>(app);
    refresh::<Plate>(app);
    refresh::<HandOver>(app);
    list_aside(app);
    let handle = window_event_listener(ev::storage, move |event: web_sys::StorageEvent| {
        let concerns = |prefix: &str| event.key().is_none_or(|key| key.starts_with(prefix));
        if concerns(Saved::PREFIX) {
            refresh::<Saved>(app);
        }
        if concerns(Plate::PREFIX) {
            app.forget_solved();
            refresh::<Plate>(app);
        }
        if concerns(HandOver::PREFIX) {
            refresh::<HandOver>(app);
        }
        if concerns(ASIDE) {
            list_aside(app);
        }
    });
    on_cleanup(move || handle.remove());
}

/// What another tab writes on a kept thing that is open here comes onto it here too, or the next key would write over it. What was
/// typed here since, as it may not have found room, stays: both are put together field by field.
pub fn follow_one<T: Kept>(
    app: App,
    id: impl Fn() -> String + 'static,
    mine: impl Fn() -> T + 'static,
    take: impl Fn(&T) + 'static,
) {
    Effect::new(move |before: Option<Option<T>>| {
        let id = id();
        let now = T::list(app).with(|all| all.iter().find(|known| known.id() == id).cloned());
        if let (Some(now), Some(before)) = (now.as_ref(), before)
            && before.as_ref() != Some(now)
        {
            let base = before.as_ref().filter(|before| before.id() == id).unwrap_or(now);
            take(&T::merged(base, &untrack(&mine), now));
        }
        now
    });
}

/// Keeps those of some machines that came in a link: what is kept of a machine that is nowhere would be worth nothing. Whether all
/// are there.
pub fn keep_visiting(app: App, carriers: &[&str]) -> bool {
    let came = app.visiting.with_untracked(|all| {
        all.iter().filter(|plate| carriers.contains(&plate.carrier_id().as_str())).cloned().collect::<Vec<_>>()
    });
    came.iter().all(|plate| {
        app.own.with_untracked(|own| own.iter().any(|known| known.id == plate.id)) || save(app, &plate.came_in_a_link())
    })
}

/// Reads every kept thing of a kind, newest first.
fn refresh<T: Kept>(app: App) {
    let Some(storage) = raw() else { return };
    let (mut all, mut newer, mut damaged): (Vec<T>, Vec<_>, Vec<_>) = Default::default();
    for (key, text) in under(&storage, T::PREFIX) {
        match T::decode(&text) {
            Ok(kept) => all.push(kept),
            // Another tab may run a newer version: its things are left where they are.
            Err(RecordFault::Newer { found }) => newer.push((key, text, found)),
            Err(_) => damaged.push((key, text)),
        }
    }
    all.sort_by(|a, b| b.newest().cmp(a.newest()).then_with(|| a.id().cmp(b.id())));
    T::list(app).set(all);
    tell_newer(app, T::KIND, newer);
    if !damaged.is_empty() {
        move_aside(app, &storage, &damaged, T::KIND);
    }
}

/// Every value whose key begins so.
fn under(storage: &web_sys::Storage, prefix: &str) -> Vec<(String, String)> {
    let keys = (0..storage.length().unwrap_or(0)).filter_map(|index| storage.key(index).ok().flatten());
    let keys: Vec<String> = keys.filter(|key| key.starts_with(prefix)).collect();
    let value = |key: String| storage.get_item(&key).ok().flatten().map(|text| (key, text));
    keys.into_iter().filter_map(value).collect()
}

/// What could not be read since the page was opened: it is told of all kinds together, or one would take the place of another.
#[derive(Clone, Debug, Default)]
pub struct Unread {
    newer: BTreeMap<Kind, (usize, u32)>,
    /// Put aside, and left where it was as there is no room.
    aside: BTreeMap<Kind, usize>,
    left: BTreeMap<Kind, usize>,
}

fn tell_newer(app: App, kind: Kind, mut found: Vec<(String, String, u32)>) {
    let newest = found.iter().map(|(.., version)| *version).max();
    let told = app.unread.try_update_value(|unread| {
        match newest {
            Some(version) => unread.newer.insert(kind, (found.len(), version)),
            None => unread.newer.remove(&kind),
        };
        let newest = unread.newer.values().map(|(_, version)| *version).max().unwrap_or(0);
        let kinds: Vec<_> = unread.newer.iter().map(|(kind, (count, _))| (*kind, *count)).collect();
        app.words_untracked().newer(&kinds, newest)
    });
    let (Some(_), Some(told)) = (newest, told) else { return };
    let only = app.unread.with_value(|unread| unread.newer.len() == 1) && found.len() == 1;
    let notice = Notice::fault(told).about(Topic::Newer);
    tell(
        app,
        match found.pop().filter(|_| only) {
            Some((key, text, _)) => notice.offering(Offer::download(format!("{key}.json"), text)),
            None => notice,
        },
    );
}

/// A key under which a text can be put aside.
fn aside_key(storage: &web_sys::Storage, key: &str) -> Option<String> {
    let mut keys = (0..1000).map(|number| format!("{ASIDE}{key}.{number}"));
    keys.find(|aside| storage.get_item(aside).ok().flatten().is_none())
}

/// Moves values that cannot be read to keys of their own, and says so once for all of them.
fn move_aside(app: App, storage: &web_sys::Storage, damaged: &[(String, String)], kind: Kind) {
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
        *unread.aside.entry(kind).or_default() += damaged.len() - left;
        unread.left.insert(kind, left);
        let of =
            |kind: Kind| [&unread.aside, &unread.left].map(|all| all.get(&kind).copied().unwrap_or(0)).iter().sum();
        let kinds: Vec<(Kind, usize)> =
            unread.aside.keys().map(|&kind| (kind, of(kind))).filter(|(_, count)| *count > 0).collect();
        let moved = unread.left.values().all(|count| *count == 0);
        (app.words_untracked().damaged(&kinds, moved), kinds.iter().map(|(_, count)| count).sum::<usize>())
    });
    let Some((told, total)) = told else { return };
    let mut notice = Notice::fault(told).about(Topic::Aside);
    if let ([(key, text)], 1) = (damaged, total) {
        notice = notice.offering(Offer::download(format!("{key}.json"), text.clone()));
    }
    tell(app, notice);
}

/// Reads what was put aside.
fn list_aside(app: App) {
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

/// A kept thing as it is at this moment, whatever tab has written it.
pub fn newest<T: Kept>(id: &str) -> Option<T> {
    let text = raw()?.get_item(&format!("{}{id}", T::PREFIX)).ok().flatten()?;
    T::decode(&text).ok()
}

/// Keeps a thing; whether it worked.
pub fn save<T: Kept>(app: App, thing: &T) -> bool {
    let text = thing.encode();
    let kept = raw().map(|storage| storage.set_item(&format!("{}{}", T::PREFIX, thing.id()), &text));
    let (why, full) = match kept {
        Some(Ok(())) => {
            offline::persist_storage();
            refresh_all::<T>();
            return true;
        }
        Some(Err(_)) => {
            ("The browser's storage for this page is full: delete something under Saved, then save again.", true)
        }
        None => ("The browser keeps nothing for this page: allow local storage for it, then save again.", false),
    };
    let name = format!("{}.json", thing.name());
    let notice = Notice::fault(format!("Not saved. {why}")).offering(Offer::download(name, text));
    let told = app.notices.with_untracked(Vec::len);
    tell(app, if full { notice.offering(Offer::Everything) } else { notice });
    // Once: whoever types on must not be taken away from the field.
    if app.notices.with_untracked(Vec::len) > told {
        app.place.to_top();
    }
    false
}

/// Keeps what stands here together with what another tab has kept meanwhile, field by field; `base` is what both began with. What is
/// kept now; none when it did not work.
pub fn save_merged<T: Kept>(app: App, base: &T, mine: &T) -> Option<T> {
    let merged = newest::<T>(mine.id()).map_or_else(|| mine.clone(), |theirs| T::merged(base, mine, &theirs));
    save(app, &merged).then_some(merged)
}

/// Everything that is kept here, by key.
fn everything() -> Vec<(String, String)> {
    raw().map_or_else(Vec::new, |storage| under(&storage, ANY))
}

/// Gives the person everything that is kept here as one file.
pub fn export() {
    let (name, text) = exported();
    download(&name, &text);
}

/// Everything that is kept here as one file: its name and its text.
pub fn exported() -> (String, String) {
    let now = when::now();
    let day = now.get(..10).unwrap_or_default().to_owned();
    (format!("pairwright-{day}.json"), Bundle::gather(now, everything()).encode())
}

/// Brings back what an exported file holds, and tells what came of it. Nothing that is kept here is overwritten.
pub fn import(app: App, name: &str, text: &str) {
    let words = app.words();
    let bundle = match Bundle::decode(text) {
        Ok(bundle) => bundle,
        Err(fault) => {
            tell(app, Notice::fault(format!("{name}: {}", words.record_fault(&fault))).about(Topic::Import));
            return;
        }
    };
    let Some(storage) = raw() else {
        let words = "The browser keeps nothing for this page: allow local storage for it, then import the file again.";
        tell(app, Notice::fault(words.to_owned()).about(Topic::Import));
        return;
    };
    let here: BTreeMap<String, String> = everything().into_iter().collect();
    let steps = bundle::plan(&bundle, &here, &mut when::fresh_id);
    let mut no_room = Vec::new();
    let mut done = Vec::new();
    for step in steps {
        let kept = step.text().is_none_or(|text| storage.set_item(&step.key, text).is_ok());
        if kept { done.push(step) } else { no_room.push(step.name) }
    }
    refresh_all::<Saved>();
    refresh_all::<Plate>();
    refresh_all::<HandOver>();
    list_aside(app);
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
    tell(app, notice.about(Topic::Import));
}

/// Deletes a kept thing and offers to take that back.
pub fn delete<T: Kept>(app: App, thing: &T) {
    if let Some(storage) = raw()
        && storage.remove_item(&format!("{}{}", T::PREFIX, thing.id())).is_ok()
    {
        refresh_all::<T>();
        let words = format!("“{}” is deleted.", thing.name());
        tell(app, Notice::news(words).offering(Offer::Undo(Box::new(thing.clone().undo()))));
    }
}

/// The table that was kept for this time. One of a newer version is told and stays; what cannot be read is moved aside.
pub fn kept_table(app: App) -> Option<KeptTable> {
    let storage = raw()?;
    let text = storage.get_item(TABLE).ok().flatten()?;
    match KeptTable::decode(&text) {
        Ok(kept) => Some(kept),
        Err(RecordFault::Newer { found }) => {
            tell_newer(app, Kind::Table, vec![(TABLE.to_owned(), text, found)]);
            None
        }
        Err(_) => {
            move_aside(app, &storage, &[(TABLE.to_owned(), text)], Kind::Table);
            None
        }
    }
}

/// What came of keeping a table for the next time, with the text that was kept before.
pub enum TableKept {
    /// It is kept, in the place of what was.
    Yes(Option<String>),
    /// There was no room: what was kept before stays.
    NoRoom(Option<String>),
}

/// Keeps a table for the next time. One of a newer version, which this build cannot read, is put aside before.
pub fn keep_table(app: App, kept: &KeptTable) -> TableKept {
    let Some(storage) = raw() else { return TableKept::NoRoom(None) };
    let before = storage.get_item(TABLE).ok().flatten();
    let newer = before.as_ref().filter(|text| matches!(KeptTable::decode(text), Err(RecordFault::Newer { .. })));
    let aside = newer.and_then(|_| aside_key(&storage, TABLE));
    let is_safe = match (newer, &aside) {
        (None, _) => true,
        (Some(text), Some(aside)) => storage.set_item(aside, text).is_ok(),
        (Some(_), None) => false,
    };
    if is_safe && storage.set_item(TABLE, &kept.encode()).is_ok() {
        list_aside(app);
        return TableKept::Yes(before);
    }
    if let Some(aside) = aside {
        let _ = storage.remove_item(&aside);
    }
    TableKept::NoRoom(before)
}

/// Keeps no table any more; the text that was kept.
pub fn forget_table() -> Option<String> {
    let storage = raw()?;
    let before = storage.get_item(TABLE).ok().flatten();
    let _ = storage.remove_item(TABLE);
    before
}

/// Keeps again what was kept before of a table; whether there was room for it.
pub fn restore_table(before: Option<&str>) -> bool {
    let Some(text) = before else {
        forget_table();
        return true;
    };
    raw().is_some_and(|storage| storage.set_item(TABLE, text).is_ok())
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
