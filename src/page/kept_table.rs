//! The table that is kept for the next time.

use super::local_storage::raw;
use super::put_aside::{aside_key, list_aside, move_aside, tell_newer};
use super::state::App;
use record::bundle::Kind;
use record::{KeptTable, RecordFault, TABLE_KEY as TABLE};

/// The table that was kept for this time. One of a newer version is told and stays; what cannot be read is moved aside.
pub fn read(app: App) -> Option<KeptTable> {
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
pub fn keep(app: App, kept: &KeptTable) -> TableKept {
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
pub fn forget() -> Option<String> {
    let storage = raw()?;
    let before = storage.get_item(TABLE).ok().flatten();
    let _ = storage.remove_item(TABLE);
    before
}

/// Keeps again what was kept before of a table; whether there was room for it.
pub fn restore(before: Option<&str>) -> bool {
    let Some(text) = before else {
        forget();
        return true;
    };
    raw().is_some_and(|storage| storage.set_item(TABLE, text).is_ok())
}
