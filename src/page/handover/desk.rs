//! What the screen of a hand-over works on: the record as it is typed, what is judged of it at once, and that it is kept.

use super::diagnosed::diagnosed;
use super::job::{Job, stands};
use crate::page::route::Route;
use crate::page::state::App;
use crate::page::{storage, time};
use handover::{Diagnosis, FunctionCheck, Planned, Read, Standing};
use leptos::prelude::*;
use record::HandOver;

/// What the screen works on.
#[derive(Clone, Copy)]
pub struct Desk {
    pub app: App,
    pub job: StoredValue<Job>,
    pub record: RwSignal<HandOver>,
    /// Solved anew only when the circumstances of the readings are others.
    pub planned: Memo<Vec<Planned>>,
    pub read: Memo<Vec<Read>>,
    pub asked: StoredValue<Vec<FunctionCheck>>,
    pub standing: Memo<Standing>,
    /// What may be wrong; none until every fault is solved.
    pub diagnosis: RwSignal<Option<Diagnosis>>,
}

impl Desk {
    /// A desk for a record.
    pub fn new(app: App, job: Job, record: HandOver) -> Self {
        let asked = StoredValue::new(job.asked());
        let (job, record) = (StoredValue::new(job), RwSignal::new(record));
        let at = Memo::new(move |_| record.with(HandOver::circumstances));
        let planned = Memo::new(move |_| job.with_value(|job| at.with(|at| job.plan(at))));
        let read = Memo::new(move |_| record.with(HandOver::reads));
        let standing = Memo::new(move |_| {
            let of = |record: &HandOver| {
                planned.with(|planned| read.with(|read| asked.with_value(|asked| stands(planned, read, asked, record))))
            };
            record.with(of)
        });
        let diagnosis = diagnosed(job, at, read);
        Self { app, job, record, planned, read, asked, standing, diagnosis }
    }
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
