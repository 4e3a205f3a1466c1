//! The hand-over at the machine: readings typed beside the gauge, each judged at once; what is tried; who stands for it. What is
//! read, what should be found and what is wrong is the core's; here it is laid out, and kept with every key.

// The desk is a handful of handles, made to be copied.
#![allow(clippy::large_types_passed_by_value)]

mod entries;
mod lessons;
mod paper;
mod reading;
mod records;
mod steps;
mod suspects;
mod tried;

pub use paper::Paper;
pub use records::{OfComparison, OfPairing, OfSaved};

use super::PathToMachines;
use super::loaded::Loaded;
use super::route::Route;
use super::sheet::of_pairing;
use super::state::{App, app, label};
use super::{files, share, storage, when};
use fit::Pairing;
use handover::{
    Circumstances, Diagnosis, FunctionCheck, Planned, Read, Standing, State, Step, function_checks, plan, standing,
};
use leptos::prelude::*;
use quantity::Named;
use record::plate::OWN;
use record::{HandOver, Made};
use std::sync::Arc;
use table::{Carrier, Head};

/// A fresh record. It is kept as soon as something is typed.
#[component]
pub fn Begin(carrier: String, head: String) -> impl IntoView {
    of_pairing(carrier, head, "Hand-over", |loaded, machine, attachment| {
        view! { <Sheet loaded machine attachment id=None/> }.into_any()
    })
}

/// A record that is kept.
#[component]
pub fn Kept(carrier: String, head: String, id: String) -> impl IntoView {
    of_pairing(carrier, head, "Hand-over", move |loaded, machine, attachment| {
        view! { <Sheet loaded machine attachment id=Some(id.clone())/> }.into_any()
    })
}

/// One attachment on one machine, judged.
#[derive(Clone)]
pub(super) struct Job {
    pub(super) loaded: Arc<Loaded>,
    pub(super) machine: Carrier,
    pub(super) attachment: Head,
    pub(super) pairing: Arc<Pairing>,
}

impl Job {
    pub(super) fn of(app: App, loaded: Arc<Loaded>, machine: Carrier, attachment: Head) -> Self {
        let pairing = app.pairing(&loaded, &machine, &attachment);
        Self { loaded, machine, attachment, pairing }
    }

    pub(super) fn plan(&self, at: &Circumstances) -> Vec<Planned> {
        plan(&self.pairing, &self.machine, &self.attachment, &self.loaded.conditions, at)
    }

    pub(super) fn asked(&self) -> Vec<FunctionCheck> {
        function_checks(&self.pairing, &self.attachment)
    }

    /// How a record of it stands.
    pub(super) fn state(&self, record: &HandOver) -> State {
        let planned = self.plan(&record.circumstances());
        stands(&planned, &record.reads(), &self.asked(), record).state(&planned)
    }
}

fn stands(planned: &[Planned], read: &[Read], asked: &[FunctionCheck], record: &HandOver) -> Standing {
    standing(planned, read, asked, |check| record.answer(check), record.is_signed())
}

/// What the screen works on.
#[derive(Clone, Copy)]
struct Desk {
    app: App,
    job: StoredValue<Job>,
    record: RwSignal<HandOver>,
    /// Solved anew only when the circumstances of the readings are others.
    planned: Memo<Vec<Planned>>,
    read: Memo<Vec<Read>>,
    asked: StoredValue<Vec<FunctionCheck>>,
    standing: Memo<Standing>,
    /// What may be wrong; none until every fault is solved.
    diagnosis: RwSignal<Option<Diagnosis>>,
}

impl Desk {
    fn new(app: App, job: Job, record: HandOver) -> Self {
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
        let diagnosis = suspects::diagnosed(job, at, read);
        Self { app, job, record, planned, read, asked, standing, diagnosis }
    }
}

/// Keeps the record whenever it says something else than what is kept, and follows what another tab writes on it.
fn keep(desk: Desk, first: HandOver) {
    let app = desk.app;
    Effect::new(move |_| {
        let record = desk.record.get();
        let known = app.handovers.with_untracked(|all| all.iter().find(|known| known.id == record.id).cloned());
        let before = known.as_ref().unwrap_or(&first);
        if says_the_same(before, &record) {
            return;
        }
        let changed = HandOver { changed: when::now(), ..record };
        let there = known.is_some() || storage::keep_visiting(app, &[&changed.carrier.id]);
        if there && storage::save_merged(app, before, &changed).is_some() && known.is_none() {
            // A reload comes back to what was kept.
            app.place.replace(&Route::hand_over(&changed.carrier.id, &changed.head.id, Some(&changed.id)));
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

fn says_the_same(a: &HandOver, b: &HandOver) -> bool {
    HandOver { changed: String::new(), ..a.clone() } == HandOver { changed: String::new(), ..b.clone() }
}

#[component]
fn Sheet(loaded: Arc<Loaded>, machine: Carrier, attachment: Head, id: Option<String>) -> impl IntoView {
    let app = app();
    let (machine_name, head_name) =
        (label(machine.maker.as_ref(), &machine.model), label(attachment.maker.as_ref(), &attachment.model));
    app.place.title(&format!("Hand-over: {head_name} on {machine_name}"));
    let sheet = app.href(&Route::sheet(machine.id.as_str(), attachment.id.as_str()));
    let path = view! {
        <p class="path"><PathToMachines/>" / "<a href=sheet.clone()>{head_name.clone()}" on "{machine_name.clone()}</a></p>
    };
    let heading = view! {
        <h1 tabindex="-1">"Hand-over: "{head_name}<span class="on">" on "</span>{machine_name}</h1>
    };
    let job = Job::of(app, loaded, machine, attachment);
    let blank = |id| {
        HandOver::blank(
            id,
            when::now(),
            (&job.loaded.table, &job.loaded.mark),
            &job.pairing,
            app.made(&job.loaded, &job.pairing),
        )
    };
    let record = match &id {
        None => Some(blank(when::fresh_id())),
        Some(id) => app.handovers.with_untracked(|all| all.iter().find(|known| known.id == *id).cloned()),
    };
    let Some(record) = record else {
        return view! {
            {path}
            {heading}
            <p>"This browser keeps no record under this address."</p>
            <p class="actions"><a class="button" href=sheet>"Back to the sheet"</a></p>
        }
        .into_any();
    };
    if job.asked().is_empty() {
        let words = app.words().sentence(&job.pairing);
        return view! {
            {path}
            {heading}
            <p>{words}</p>
            <p>"There is nothing to hand over before that is settled."</p>
            {(!record.is_blank()).then(|| view! {
                <p>"What stands on this record stays as it was typed."</p>
                <p class="actions"><a class="button" href=paper_of(app, &record)>"See what stands on it"</a></p>
            })}
            <p class="actions"><a class="button" href=sheet>"Back to the sheet"</a></p>
        }
        .into_any();
    }
    let desk = Desk::new(app, job.clone(), record.clone());
    keep(desk, record);
    let steps = Step::ALL.iter().map(|&step| view! { <Group desk step/> }).collect_view();
    view! {
        {path}
        {heading}
        <Stands desk/>
        <steps::Steps desk/>
        <div class="hand-over">
            {steps}
            <suspects::Suspects desk/>
            <tried::Tried desk/>
            <entries::Entries desk/>
        </div>
        <lessons::Lessons desk/>
        <Actions desk/>
    }
    .into_any()
}

/// The address of a record as a paper.
fn paper_of(app: App, record: &HandOver) -> String {
    let (carrier, head, id) = (record.carrier.id.clone(), record.head.id.clone(), record.id.clone());
    app.href(&Route::HandOverPaper { carrier, head, id })
}

/// How it stands, in a sentence.
#[component]
fn Stands(desk: Desk) -> impl IntoView {
    let words = move || desk.app.words();
    let leans = Memo::new(move |_| {
        let suspected = desk.diagnosis.with(|found| found.as_ref().is_some_and(Diagnosis::suspects_something));
        suspected && !desk.standing.with(Standing::reads_off)
    });
    let begun = desk.record.with_untracked(|record| {
        desk.job.with_value(|job| {
            let same_table =
                record.table.mark.as_ref() == Some(&job.loaded.mark) && !record.carrier.id.starts_with(OWN);
            Made::since(record.made.as_ref(), desk.app.made(&job.loaded, &job.pairing).as_ref(), same_table)
        })
    });
    let state = Memo::new(move |_| desk.planned.with(|planned| desk.standing.with(|standing| standing.state(planned))));
    view! {
        <div class="standing" class:beyond=move || state.get() == State::Stop class:proven=move || state.get() == State::Proven role="status">
            <p class="verdict">{move || words().state_of_hand_over(state.get())}</p>
            <p>{move || desk.planned.with(|planned| desk.standing.with(|standing| words().standing(standing, planned)))}</p>
            {move || leans.get().then(|| view! { <p>{words().leans_all_the_same()}</p> })}
            {begun.map(|changed| view! { <p class="quiet">{words().begun_with(changed)}</p> })}
            <share::WhoseFigures carriers=vec![desk.record.with_untracked(|record| record.carrier.id.clone())]/>
        </div>
    }
}

/// The readings that are taken together.
#[component]
fn Group(desk: Desk, step: Step) -> impl IntoView {
    let words = move || desk.app.words();
    let id = steps::id_of(step);
    // Which readings there are does not hang on how warm the oil is.
    let which = desk.planned.with_untracked(|planned| {
        planned.iter().map(|planned| planned.what).filter(|what| Step::of(*what) == step).collect::<Vec<_>>()
    });
    (!which.is_empty()).then(|| {
        view! {
            <section class="step" aria-labelledby=id.clone()>
                <h2 id=id.clone() tabindex="-1">{move || words().step_of_hand_over(step)}</h2>
                <p class="quiet">{move || words().caution_of_step(step)}</p>
                <div class="readings-to-take">
                    {which.into_iter().map(|what| view! { <reading::Reading desk what/> }).collect_view()}
                </div>
                {(step == Step::Start).then(|| view! { <entries::InstrumentsUsed desk/> })}
            </section>
        }
    })
}

/// What is done with the record.
#[component]
fn Actions(desk: Desk) -> impl IntoView {
    let app = desk.app;
    let job = desk.job.get_value();
    let id = move || desk.record.with(|record| record.id.clone());
    let kept = Memo::new(move |_| app.handovers.with(|all| all.iter().any(|known| known.id == id())));
    // Where there was no room, what is kept is older than what stands here, or is not there at all.
    let as_it_stands = Memo::new(move |_| {
        desk.record.with(|record| app.handovers.with(|all| all.iter().any(|known| says_the_same(known, record))))
    });
    let blank = Memo::new(move |_| desk.record.with(HandOver::is_blank));
    let download = move |_| {
        desk.record.with_untracked(|record| files::download(&format!("{}.json", record.name), &record.encode()));
    };
    let paper = move || desk.record.with(|record| paper_of(app, record));
    let delete = move |_| {
        let record = desk.record.get_untracked();
        app.go(Route::sheet(&record.carrier.id, &record.head.id));
        storage::delete(app, &record);
    };
    let (loaded, pairings) = (job.loaded.clone(), vec![job.pairing.clone()]);
    let record = Signal::derive(move || Some(desk.record.get()));
    view! {
        <p role="status" class:quiet=move || as_it_stands.get() || blank.get()>{move || if as_it_stands.get() {
            "Kept in this browser."
        } else if blank.get() && !kept.get() {
            "Nothing is kept until something is typed."
        } else {
            "Not kept as it stands here: download it, or make room and type on."
        }}</p>
        {move || (!as_it_stands.get() && !blank.get()).then(|| view! {
            <p class="actions"><button type="button" on:click=download>"Download the record as a file"</button></p>
        })}
        {move || kept.get().then(|| view! {
            <p class="actions">
                {as_it_stands.get().then(|| view! { <a class="button strong" href=paper>"As a paper to sign"</a> })}
                <button type="button" on:click=delete>"Delete this record"</button>
            </p>
        })}
        <share::Send loaded pairings record/>
    }
}
