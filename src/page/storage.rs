//! What is kept in this browser for its reader: comparisons, machines of one's own, records of hand-overs.
//!
//! One key for each saved thing, so that two tabs do not overwrite each other's list. What cannot be read is moved aside,
//! never overwritten.

use super::local_storage::{persist_storage, raw, under};
use super::notice::{Notice, Offer, Undo};
use super::put_aside::{list_aside, move_aside, tell_newer};
use super::state::App;
use leptos::ev;
use leptos::prelude::*;
use leptos::web_sys;
use quantity::put_in_order;
use record::bundle::Kind;
use record::{ASIDE_PREFIX as ASIDE, HandOver, Keyed, Plate, RecordFault, Saved};
use std::cell::RefCell;

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

/// All apps in this page read all kept things anew.
pub fn refresh_everything(app: App) {
    refresh_all::<Saved>();
    refresh_all::<Plate>();
    refresh_all::<HandOver>();
    list_aside(app);
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
    put_in_order(&mut all, |a, b| b.newest().cmp(a.newest()).then_with(|| a.id().cmp(b.id())));
    T::list(app).set(all);
    tell_newer(app, T::KIND, newer);
    if !damaged.is_empty() {
        move_aside(app, &storage, &damaged, T::KIND);
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
            persist_storage();
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
    app.tell(if full { notice.offering(Offer::Everything) } else { notice });
    // Once: whoever types on must not be taken away from the field.
    if app.notices.with_untracked(Vec::len) > told {
        app.host.to_top();
    }
    false
}

/// Keeps what stands here together with what another tab has kept meanwhile, field by field; `base` is what both began with. What is
/// kept now; none when it did not work.
pub fn save_merged<T: Kept>(app: App, base: &T, mine: &T) -> Option<T> {
    let merged = newest::<T>(mine.id()).map_or_else(|| mine.clone(), |theirs| T::merged(base, mine, &theirs));
    save(app, &merged).then_some(merged)
}

/// Deletes a kept thing and offers to take that back.
pub fn delete<T: Kept>(app: App, thing: &T) {
    if let Some(storage) = raw()
        && storage.remove_item(&format!("{}{}", T::PREFIX, thing.id())).is_ok()
    {
        refresh_all::<T>();
        let words = format!("“{}” is deleted.", thing.name());
        app.tell(Notice::news(words).offering(Offer::Undo(Box::new(thing.clone().undo()))));
    }
}
