//! The screen of a hand-over: how it stands, its groups of readings, what may be wrong, and what is done with the record.

use super::desk::{Desk, keep, says_the_same};
use super::job::Job;
use super::{entries, lessons, reading, steps, suspects, tried};
use crate::page::loaded::Loaded;
use crate::page::names::label;
use crate::page::path::PathToMachines;
use crate::page::route::Route;
use crate::page::send::Send;
use crate::page::solved::of_pairing;
use crate::page::state::{App, app};
use crate::page::whose_figures::WhoseFigures;
use crate::page::{files, storage, time};
use handover::{Diagnosis, Standing, State, Step};
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

#[component]
fn Sheet(loaded: Arc<Loaded>, machine: Carrier, attachment: Head, id: Option<String>) -> impl IntoView {
    let app = app();
    let (machine_name, head_name) =
        (label(machine.maker.as_ref(), &machine.model), label(attachment.maker.as_ref(), &attachment.model));
    app.host.title(&format!("Hand-over: {head_name} on {machine_name}"));
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
            time::now(),
            (&job.loaded.table, &job.loaded.mark),
            &job.pairing,
            app.made(&job.loaded, &job.pairing),
        )
    };
    let record = match &id {
        None => Some(blank(time::fresh_id())),
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
            <WhoseFigures carriers=vec![desk.record.with_untracked(|record| record.carrier.id.clone())]/>
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
        <Send loaded pairings record/>
    }
}
