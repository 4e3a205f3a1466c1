//! What the person must be told: news, faults, and what to do about them.

use super::state::{App, app};
use super::table_screen::ProblemList;
use super::{load, offline, storage};
use leptos::prelude::*;
use record::{HandOver, Plate, Saved};
use std::sync::{Arc, Mutex};
use table::Problem;

/// Something to tell.
#[derive(Clone)]
pub struct Notice {
    id: usize,
    text: String,
    fault: bool,
    problems: Vec<Problem>,
    offers: Vec<Offer>,
    /// What it is about: a newer notice of the same topic takes the place of the older ones.
    topic: Option<Topic>,
}

/// What a notice is about.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Topic {
    /// Loading a table.
    Table,
    /// Bringing back an exported file.
    Import,
    /// Things that were put aside.
    Aside,
    /// Things of a newer version.
    Newer,
}

/// What the person can do right in the notice.
#[derive(Clone)]
pub enum Offer {
    /// Take back a deletion.
    Undo(Box<Undo>),
    /// Use the newer version of the app that is ready.
    NewVersion,
    /// Get a text as a file.
    Download {
        /// The file's name.
        name: String,
        /// What is in it.
        text: Arc<Mutex<String>>,
    },
    /// Get everything that this browser keeps as one file.
    Everything,
}

/// What was deleted and can be brought back.
#[derive(Clone)]
pub enum Undo {
    /// A saved comparison.
    Saved(Saved),
    /// A machine of one's own.
    Machine(Plate),
    /// A record of a hand-over.
    HandOver(HandOver),
    /// The table that was kept before, as its text; none where none was.
    Table(Option<String>),
}

impl Undo {
    /// Brings it back; whether there was room for it.
    fn bring_back(&self, app: App) -> bool {
        match self {
            Self::Saved(saved) => storage::save(app, saved),
            Self::Machine(plate) => storage::save(app, plate),
            Self::HandOver(record) => storage::save(app, record),
            Self::Table(before) => {
                let restored = storage::restore_table(before.as_deref());
                if restored {
                    load::first(app);
                }
                restored
            }
        }
    }
}

impl Offer {
    /// A text as a file.
    pub fn download(name: String, text: String) -> Self {
        Self::Download { name, text: Arc::new(Mutex::new(text)) }
    }
}

impl Notice {
    /// Good news.
    pub fn news(text: String) -> Self {
        Self { id: 0, text, fault: false, problems: Vec::new(), offers: Vec::new(), topic: None }
    }

    /// Something went wrong.
    pub fn fault(text: String) -> Self {
        Self { fault: true, ..Self::news(text) }
    }

    /// A table that cannot be used, with its problems.
    pub fn problems(text: String, problems: Vec<Problem>) -> Self {
        Self { problems, ..Self::fault(text) }
    }

    /// Whether another one says the same, newer: then this one's file becomes that one's, and nothing is told anew. What
    /// cannot be kept is told with every key.
    fn takes_over(&self, newer: &Self) -> bool {
        match (self.offers.as_slice(), newer.offers.as_slice()) {
            ([Offer::Download { name, text }, ..], [Offer::Download { name: newer_name, text: newer_text }, ..])
                if self.text == newer.text && name == newer_name && self.topic == newer.topic =>
            {
                let newest = newer_text.lock().map(|text| text.clone());
                if let (Ok(mut text), Ok(newest)) = (text.lock(), newest) {
                    *text = newest;
                }
                true
            }
            _ => false,
        }
    }

    /// The same about a topic.
    pub fn about(self, topic: Topic) -> Self {
        Self { topic: Some(topic), ..self }
    }

    /// The same with something to do.
    pub fn offering(mut self, offer: Offer) -> Self {
        self.offers.push(offer);
        self
    }
}

/// Tells something; the same words do not stand twice.
pub fn tell(app: App, notice: Notice) {
    if app.notices.with_untracked(|notices| notices.iter().any(|known| known.takes_over(&notice))) {
        return;
    }
    app.notices.update(|notices| {
        // Never the number of one that goes: what has the same number is not drawn anew.
        let id = notices.iter().map(|known| known.id).max().unwrap_or(0) + 1;
        notices.retain(|known| known.text != notice.text && (notice.topic.is_none() || known.topic != notice.topic));
        notices.push(Notice { id, ..notice });
        // The newest three are enough for a small screen.
        let surplus = notices.len().saturating_sub(3);
        notices.drain(..surplus);
    });
}

/// Says in a notice that what it offers could not be brought back.
fn not_brought_back(app: App, id: usize) {
    app.notices.update(|all| {
        let next = all.iter().map(|known| known.id).max().unwrap_or(0) + 1;
        if let Some(notice) = all.iter_mut().find(|known| known.id == id && !known.text.ends_with(NOT_BACK)) {
            notice.text = format!("{} {NOT_BACK}", notice.text);
            notice.fault = true;
            // What has the same number is not drawn anew.
            notice.id = next;
        }
    });
}

/// What is said where something cannot be brought back.
const NOT_BACK: &str =
    "It could not be brought back, as the browser has no room for it: make room, then press Undo once more.";

/// All notices.
#[component]
pub fn Notices() -> impl IntoView {
    let app = app();
    view! {
        <div class="notices" role="status" aria-live="polite">
            <For each=move || app.notices.get() key=|notice| notice.id let:notice>
                <div class="notice" class:fault=notice.fault>
                    <p>{notice.text.clone()}</p>
                    {(!notice.problems.is_empty()).then(|| view! { <ProblemList problems=notice.problems.clone()/> })}
                    <div class="actions">
                        {notice.offers.iter().cloned().map(|offer| view! { <OfferButton offer id=notice.id/> }).collect_view()}
                        <button type="button" class="quiet"
                            on:click=move |_| app.notices.update(|all| all.retain(|known| known.id != notice.id))>
                            "Close"
                        </button>
                    </div>
                </div>
            </For>
        </div>
    }
}

#[component]
fn OfferButton(offer: Offer, id: usize) -> impl IntoView {
    let app = app();
    let name = match &offer {
        Offer::Undo(_) => "Undo",
        Offer::NewVersion => "Use it now",
        Offer::Download { .. } => "Download it as a file",
        Offer::Everything => "Export everything as one file",
    };
    let act = move |_| match &offer {
        // As long as it is not back, the way back stays, and why it is not stands beside it.
        Offer::Undo(gone) => {
            if gone.bring_back(app) {
                app.notices.update(|all| all.retain(|known| known.id != id));
            } else {
                not_brought_back(app, id);
            }
        }
        Offer::NewVersion => offline::use_it_now(),
        Offer::Download { name, text } => {
            if let Ok(text) = text.lock() {
                storage::download(name, &text);
            }
        }
        Offer::Everything => storage::export(),
    };
    view! { <button type="button" on:click=act>{name}</button> }
}
