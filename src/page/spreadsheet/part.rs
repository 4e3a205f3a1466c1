//! What of an open file a part of the screen follows.

use crate::page::state::App;
use leptos::prelude::*;
use wording::FileReading;

/// A part of what the open file was read as; drawn anew only when that part is another.
pub fn part<T: Clone + Default + PartialEq + Send + Sync + 'static>(
    app: App,
    of: impl Fn(&FileReading) -> T + Send + Sync + 'static,
) -> Memo<T> {
    Memo::new(move |_| app.file.with(|file| file.ready().map(|read| of(&read.reading)).unwrap_or_default()))
}
