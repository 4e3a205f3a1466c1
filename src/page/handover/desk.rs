//! What the screen of a hand-over works on: the record as it is typed, what is judged of it at once, where one stands on the walk, and
//! that it is kept.

use super::diagnosed::diagnosed;
use super::job::{Job, stands};
use crate::page::route::{Route, Whose};
use crate::page::state::App;
use crate::page::{storage, time};
use handover::{Diagnosis, Item, Planned, Progress, Read, Standing, Station, Step, Walk};
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::HtmlElement;
use record::HandOver;

/// The id of the heading of where one stands.
pub const HERE: &str = "station";

/// The id of the heading of the list of all.
pub const ALL: &str = "all-items";

/// What the screen works on.
#[derive(Clone, Copy)]
pub struct Desk {
    pub app: App,
    pub job: StoredValue<Job>,
    pub record: RwSignal<HandOver>,
    /// Solved anew only when the circumstances of the readings are others.
    pub planned: Memo<Vec<Planned>>,
    pub read: Memo<Vec<Read>>,
    pub standing: Memo<Standing>,
    /// What may be wrong; none until every fault is solved.
    pub diagnosis: RwSignal<Option<Diagnosis>>,
    pub walk: Memo<Walk>,
    pub at: RwSignal<Station>,
    /// Whether the list of all stands in the place of the station, where there is no room for both.
    pub listing: RwSignal<bool>,
    heard: RwSignal<Vec<Step>>,
    later: RwSignal<Vec<Item>>,
}

impl Desk {
    /// A desk for a record. It begins where the record goes on, with what is to be heard before.
    pub fn new(app: App, job: Job, record: HandOver) -> Self {
        let asked = job.asked();
        let (job, record) = (StoredValue::new(job), RwSignal::new(record));
        let at = Memo::new(move |_| record.with(HandOver::circumstances));
        let planned = Memo::new(move |_| job.with_value(|job| at.with(|at| job.plan(at))));
        let read = Memo::new(move |_| record.with(HandOver::reads));
        let (heard, later) = (RwSignal::new(Vec::new()), RwSignal::new(Vec::new()));
        let standing = {
            let asked = asked.clone();
            Memo::new(move |_| planned.with(|planned| record.with(|record| stands(planned, &asked, record))))
        };
        let walk = Memo::new(move |_| {
            planned.with(|planned| {
                standing.with(|standing| later.with(|later| Walk::of(planned, &asked, standing, later)))
            })
        });
        let diagnosis = diagnosed(job, at, read);
        // What is over its limit comes before all that is open.
        let stopped = standing.with_untracked(|standing| standing.stop.first().copied());
        let at = RwSignal::new(match stopped {
            Some(item) => Station::At(item),
            None => walk.with_untracked(|walk| walk.towards(walk.next(None), &[])),
        });
        let listing = RwSignal::new(false);
        Self { app, job, record, planned, read, standing, diagnosis, walk, at, listing, heard, later }
    }

    /// Goes to an item, past what is to be heard before it; without one to who stands for it.
    pub fn go(self, item: Option<Item>) {
        self.show(self.walk.with_untracked(|walk| self.heard.with_untracked(|heard| walk.towards(item, heard))));
    }

    /// Shows a station, with the eye and the focus on its heading.
    pub fn show(self, station: Station) {
        self.listing.set(false);
        self.at.set(station);
        self.app.host.to_top();
        focus(HERE);
    }

    /// Goes on from a station. What is passed unread is put off.
    pub fn next(self, from: Station) {
        // Nobody goes on past what is over its limit; who looks for the fault chooses from the list what else to read.
        let stopped = self.standing.with_untracked(|standing| standing.stop.first().copied());
        let goes_on = !matches!(from, Station::Before { .. });
        if let Some(stopped) = stopped.filter(|stopped| goes_on && from != Station::At(*stopped)) {
            self.show(Station::At(stopped));
            return;
        }
        match from {
            Station::Before { step, then } => {
                self.heard.update(|heard| heard.push(step));
                self.go(Some(then));
            }
            Station::At(item) => {
                if self.walk.with_untracked(|walk| walk.progress(item)) == Some(Progress::Open) {
                    self.later.update(|later| later.push(item));
                }
                self.go(self.walk.with_untracked(|walk| walk.next(Some(item))));
            }
            Station::End => self.go(self.walk.with_untracked(|walk| walk.next(None))),
        }
    }

    /// The record as a paper.
    pub fn paper(self, whose: Whose) -> String {
        self.record.with(|record| self.app.href(&Route::record(&record.carrier.id, &record.head.id, &record.id, whose)))
    }
}

/// Puts the focus on what has this id, once it stands there.
pub fn focus(id: &'static str) {
    request_animation_frame(move || {
        if let Some(there) = document().get_element_by_id(id).and_then(|found| found.dyn_into::<HtmlElement>().ok()) {
            let _ = there.focus();
        }
    });
}

/// Keeps the record whenever it says something else than what is kept, and follows what another tab writes on it.
pub fn keep(desk: Desk, first: HandOver) {
    let app = desk.app;
    Effect::new(move |_| {
        let record = desk.record.get();
        let known = app.handovers.with_untracked(|all| all.iter().find(|known| known.id == record.id).cloned());
        let before = known.as_ref().unwrap_or(&first);
        if says_the_same(before, &record) {
            return;
        }
        let changed = HandOver { changed: time::now(), ..record };
        let there = known.is_some() || storage::keep_visiting(app, &[&changed.carrier.id]);
        if there && storage::save_merged(app, before, &changed).is_some() && known.is_none() {
            // A reload comes back to what was kept.
            app.host.replace(&Route::hand_over(&changed.carrier.id, &changed.head.id, Some(&changed.id)));
        }
    });
    let take = move |now: &HandOver| {
        if desk.record.with_untracked(|record| !says_the_same(record, now)) {
            desk.record.set(now.clone());
        }
    };
    let id = move || desk.record.with_untracked(|record| record.id.clone());
    storage::follow_one(app, id, move || desk.record.get_untracked(), take);
}

/// Whether two records hold the same, whenever they were changed.
pub fn says_the_same(a: &HandOver, b: &HandOver) -> bool {
    HandOver { changed: String::new(), ..a.clone() } == HandOver { changed: String::new(), ..b.clone() }
}
