//! Keeping a table that was changed here: the one that is kept changes, any other becomes a copy that is kept.

use super::super::kept_table::{self, TableKept};
use super::super::loaded::{Loaded, Origin, read};
use super::super::names::label;
use super::super::notice::{Notice, Offer, Topic, Undo};
use super::super::route::Route;
use super::super::state::App;
use super::super::time;
use super::desk::Desk;
use entry::{Draft, Role, of_table, without};
use leptos::prelude::*;
use record::KeptTable;

/// The name of a copy of a table that had none.
const OWN_NAME: &str = "my-table.json";

/// What a changed table is called from then on.
fn name_of(origin: &Origin) -> String {
    let last = |address: &str| {
        let path = address.split(['?', '#']).next().unwrap_or_default();
        let name = path.rsplit('/').next().unwrap_or_default();
        name.strip_suffix(".json").filter(|name| !name.is_empty()).map(|_| name.to_owned())
    };
    match origin {
        Origin::File(name) => name.clone(),
        Origin::Address(address) => last(address).unwrap_or_else(|| OWN_NAME.to_owned()),
        Origin::Beside => OWN_NAME.to_owned(),
    }
}

/// The text that is changed: the one that is kept, where it is of this very table: another tab may have written meanwhile.
fn newest(app: App, loaded: &Loaded) -> String {
    let is_of_it = |kept: &KeptTable| !kept.is_address && loaded.origin == Origin::File(kept.origin.clone());
    kept_table::read(app).filter(is_of_it).map_or_else(|| loaded.text.clone(), |kept| kept.text)
}

/// Takes a changed table into use and keeps it; whether it can be used.
fn take(app: App, loaded: &Loaded, text: String, says: &str) -> bool {
    let (name, now) = (name_of(&loaded.origin), time::now());
    let kept = KeptTable { origin: name.clone(), is_address: false, loaded: now.clone(), text };
    match read(kept.text.clone(), Origin::File(name), now) {
        Ok(changed) => {
            // One that is on its way must not take its place.
            app.ask();
            let is_copy = !matches!(loaded.origin, Origin::File(_));
            let copy = if is_copy { " The table in use is a copy of your own now, kept in this browser." } else { "" };
            let notice = match kept_table::keep(app, &kept) {
                TableKept::Yes(before) => {
                    let other = before.as_deref().and_then(|text| KeptTable::decode(text).ok());
                    let other = other.filter(|other| other.origin != kept.origin && is_copy && !other.is_address);
                    let replaced = other.map_or_else(String::new, |other| {
                        format!(
                            " It takes the place of the table that was kept, {}.",
                            app.words_untracked().address(&other.origin)
                        )
                    });
                    Notice::news(format!("{says}{copy}{replaced}")).offering(Offer::Undo(Box::new(Undo::Table(before))))
                }
                TableKept::NoRoom(_) => {
                    let words =
                        " This browser has no room to keep it: it is used until this page is closed. Download it.";
                    Notice::fault(format!("{says}{words}"))
                        .offering(Offer::download(kept.origin.clone(), kept.text.clone()))
                }
            };
            app.take(changed);
            app.tell(notice.about(Topic::Table));
            true
        }
        Err(problems) => {
            let words = "The table could not be used with this change, and stays as it was.";
            app.tell(Notice::problems(words.to_owned(), problems).about(Topic::Table));
            false
        }
    }
}

/// Saves what is typed.
pub fn save(desk: Desk) {
    let app = desk.app;
    let Some(loaded) = untrack(|| app.table()).filter(|_| desk.may_be_saved.get_untracked()) else { return };
    let draft = desk.draft.get_untracked();
    let Some((text, id)) = draft.put_into(&newest(app, &loaded)) else {
        let words = "Another tab has deleted this entry meanwhile: nothing was saved.";
        app.tell(Notice::fault(words.to_owned()).about(Topic::Table));
        return;
    };
    let is_new = draft.base().id().is_none();
    let name = draft.entry().name().unwrap_or_else(|| id.clone());
    let says = if is_new { format!("{name} is in the table.") } else { format!("{name} is changed in the table.") };
    if take(app, &loaded, text, &says) {
        desk.said.set("Saved.".to_owned());
        // What was typed is what stands there now.
        let now = untrack(|| app.table()).and_then(|loaded| of_table(&loaded.text, desk.role, &id));
        desk.draft.update(|draft| *draft = Draft::of(now.filter(|_| !is_new).unwrap_or_else(|| draft.base().clone())));
        if is_new {
            app.go(Route::entry(desk.role, &id));
        }
    }
}

/// Deletes the entry from the table; it comes back by Undo.
pub fn delete(desk: Desk) {
    let app = desk.app;
    let Some(loaded) = untrack(|| app.table()) else { return };
    let Some(id) = desk.id.get_value() else { return };
    let name = name_in_table(desk.role, &id, &loaded);
    let Some(text) = without(&newest(app, &loaded), desk.role, &id) else { return };
    desk.drop_changes();
    let to = if desk.role == Role::Machines { Route::Start } else { Route::Attachments };
    if take(app, &loaded, text, &format!("{name} is deleted from the table.")) {
        app.go(to);
    }
}

/// What an entry of the table in use is called; its id where it has no name.
fn name_in_table(role: Role, id: &str, loaded: &Loaded) -> String {
    let of_machine = || loaded.table.carrier(id).map(|one| label(one.maker.as_ref(), &one.model));
    let of_attachment = || loaded.table.head(id).map(|one| label(one.maker.as_ref(), &one.model));
    let name = if role == Role::Machines { of_machine() } else { of_attachment() };
    name.unwrap_or_else(|| id.to_owned())
}
