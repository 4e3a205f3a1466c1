//! What the screens of a spec plate work on: the plate, what it is asked, what comes out of it.

// The desk is a handful of handles, made to be copied.
#![allow(clippy::large_types_passed_by_value)]

use super::super::asking::{Asking, ask, reader};
use super::super::loaded::Loaded;
use super::super::route::Route;
use super::super::state::App;
use super::super::{storage, time};
use fit::{FactId, Verdict};
use leptos::prelude::*;
use record::Photo;
use record::plate::Plate;
use solver::{Answer, Request, Row, Typical};
use table::CarrierClass;

/// Where one is.
#[derive(Clone, Copy, PartialEq)]
pub enum Step {
    /// What stands on the machine's own plate.
    Plate,
    /// One of the questions, counted from the first.
    Question(usize),
    /// What comes out, and all that was written.
    Answer,
}

/// What stands when another table comes in under the screen: what was typed is not asked for again.
#[derive(Clone, Copy)]
pub struct Standing {
    pub plate: StoredValue<Option<Plate>>,
    pub step: RwSignal<Step>,
}

impl Standing {
    pub fn new(step: Step) -> Self {
        Self { plate: StoredValue::new(None), step: RwSignal::new(step) }
    }
}

/// What the screen works on.
#[derive(Clone, Copy)]
pub struct Desk {
    pub app: App,
    pub plate: RwSignal<Plate>,
    /// Where one is.
    pub step: RwSignal<Step>,
    /// Ids of the chosen attachments; all when empty.
    pub chosen: RwSignal<Vec<String>>,
    /// What attachments ask of a machine of this class; none until it is known.
    pub asked: RwSignal<Option<Vec<(FactId, usize)>>>,
    /// The chosen attachments that ask it.
    pub asking: StoredValue<Option<Vec<String>>>,
    /// A first answer, until the figures are read.
    pub typical: RwSignal<Option<Typical>>,
    /// The attachments with what comes out, in the order of the table.
    pub rows: RwSignal<Vec<Row>>,
    /// Whether they are being solved.
    pub busy: RwSignal<bool>,
    /// How many are solved of how many.
    pub done: RwSignal<(usize, usize)>,
    /// What is being solved; what takes its place stops it.
    pub waiting: StoredValue<Option<Asking>, LocalStorage>,
    /// The names that nobody gave it.
    pub by_itself: StoredValue<Vec<String>>,
    /// The photo of its plate.
    pub photo: RwSignal<Option<Photo>>,
}

impl Desk {
    /// Goes to a step; who listens is told where he is.
    pub fn go(self, step: Step) {
        self.step.set(step);
        self.app.host.focus_heading();
    }

    /// Whether nobody has given it a name.
    pub fn is_nameless(self, plate: &Plate) -> bool {
        self.by_itself.with_value(|names| names.contains(&plate.name))
    }

    /// The plate as it is kept, which may be older than it stands here.
    pub fn kept(self) -> Option<Plate> {
        self.app.own.with(|own| self.plate.with(|plate| own.iter().find(|known| known.id == plate.id).cloned()))
    }
}

/// A machine of one's own like one of the table.
pub fn like(app: App, loaded: &Loaded, carrier: &str, id: &str) -> Option<Plate> {
    let of = loaded.table.carrier(carrier)?;
    let mass = of.operating_mass.as_ref().map(|mass| mass.nominal);
    let name = app.words().own_name(of.class, mass);
    Plate::like(&loaded.text, carrier, (id.to_owned(), name, time::now()))
}

/// The name that the machine has as long as nobody gives it one.
pub fn named_by_itself(desk: Desk) -> String {
    let (class, mass) = desk.plate.with_untracked(|plate| {
        let mass = plate.read().carrier.and_then(|carrier| Some(carrier.operating_mass?.nominal));
        (plate.class().unwrap_or(CarrierClass::MiniExcavator), mass)
    });
    desk.app.words().own_name(class, mass)
}

/// Keeps the plate when something on it has changed since the screen was opened.
pub fn keep(desk: Desk, first: &Plate, standing: Standing) {
    let plate = desk.plate.get_untracked();
    let heads = desk.chosen.get_untracked();
    let changed = Plate { heads, ..plate };
    standing.plate.set_value(Some(changed.clone()));
    let known = untrack(|| desk.kept());
    let before = known.as_ref().unwrap_or(first);
    if changed.says_the_same(before) && changed.is_unchecked() == before.is_unchecked() && changed.heads == before.heads
    {
        return;
    }
    // The choice of attachments alone makes no machine.
    if known.is_none() && changed.name == first.name && changed.figures.is_empty() {
        return;
    }
    let changed = Plate { changed: time::now(), ..changed };
    // What another tab has typed meanwhile stays.
    if storage::save_merged(desk.app, before, &changed).is_some() {
        // A reload comes back to what was kept.
        if known.is_none() {
            desk.app.host.replace(&Route::plate(&changed.id));
        }
    }
}

/// Has the chosen attachments solved; before them, where others asked before, what they ask of a machine of which nothing but the class is
/// known. The first answer is solved where it is shown alone, and there before all else.
pub fn solve(desk: Desk, loaded: &Loaded, plate: Plate, chosen: Vec<String>) {
    let typical = !matches!(desk.step.get_untracked(), Step::Question(_));
    if !typical {
        desk.typical.set(None);
    }
    desk.busy.set(true);
    let questions = desk.asking.with_value(|asking| asking.as_ref() != Some(&chosen));
    let reader = reader(desk.app, loaded);
    let request = Request::Plate { reader, plate, among: chosen.clone(), questions, typical };
    let take = move |answer| match answer {
        Answer::Questions(asked) => {
            desk.asked.try_set(Some(asked));
            desk.asking.try_set_value(Some(chosen.clone()));
        }
        Answer::Rows { rows, checked, total } => {
            desk.done.try_set((checked, total));
            if !rows.is_empty() {
                desk.rows.try_set(rows);
            }
        }
        Answer::Typical(found) => {
            desk.typical.try_set(found);
        }
        Answer::Done => {
            desk.busy.try_set(false);
        }
        Answer::Sorted { .. }
        | Answer::RunsOn { .. }
        | Answer::SoFar { .. }
        | Answer::FillNext(_)
        | Answer::Json(_) => {}
    };
    desk.waiting.set_value(ask(&request, take));
}

/// How far the solving has come.
pub fn so_far(desk: Desk) -> String {
    let (done, total) = desk.done.get();
    desk.app.words().solving(done, total)
}

/// How many attachments come out how, so far.
pub fn tally(desk: Desk) -> String {
    let verdicts: Vec<Verdict> = desk.rows.with(|rows| rows.iter().map(|row| row.verdict).collect());
    if verdicts.is_empty() {
        return if desk.busy.get() { so_far(desk) } else { "No attachments".to_owned() };
    }
    desk.app.words().tally(&verdicts)
}
