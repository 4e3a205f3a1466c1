//! The screen of a hand-over: where one stands, and beside it or in its place how it stands, the list of all, what may be wrong, and what
//! is done with the record.

use super::desk::{ALL, Desk, keep, says_the_same};
use super::job::Job;
use super::{lessons, station};
use crate::page::document::Plain;
use crate::page::loaded::Loaded;
use crate::page::names::label;
use crate::page::path::PathToMachines;
use crate::page::route::{Route, Whose};
use crate::page::send::Send;
use crate::page::solved::of_pairing;
use crate::page::state::app;
use crate::page::whose_figures::WhoseFigures;
use crate::page::{files, storage, time};
use document::handover::suspects;
use handover::{Diagnosis, Item, Progress, Standing, State, Station, Step};
use leptos::prelude::*;
use quantity::Named;
use record::handover::Entry;
use record::plate::OWN;
use record::{HandOver, Made};
use std::sync::Arc;
use table::{Carrier, Head};

/// A fresh record, which is kept as soon as something is typed, or one that is kept.
#[component]
pub fn HandOverOf(carrier: String, head: String, id: Option<String>) -> impl IntoView {
    of_pairing(carrier, head, "Hand-over", move |loaded, machine, attachment| {
        view! { <Sheet loaded machine attachment id=id.clone()/> }.into_any()
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
        None => {
            let mut fresh = blank(time::fresh_id());
            fresh.write_entry(Entry::Day, &time::today());
            Some(fresh)
        }
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
                <p class="actions"><a class="button" href=app.href(&Route::record(&record.carrier.id, &record.head.id, &record.id, Whose::Fitter))>"See what stands on it"</a></p>
            })}
            <p class="actions"><a class="button" href=sheet>"Back to the sheet"</a></p>
        }
        .into_any();
    }
    let desk = Desk::new(app, job.clone(), record.clone());
    keep(desk, record);
    // Beside the machine there is room for one thing.
    let walking = move || match desk.at.get() {
        Station::Before { step, .. } => step != Step::Start,
        Station::At(_) => true,
        Station::End => false,
    };
    view! {
        <div class="hand-over" class:walking=walking class:listing=desk.listing>
            <div class="of-what">{path}{heading}</div>
            <station::Stations desk/>
            <Stands desk/>
            <All desk/>
            <div class="rest"><lessons::Lessons desk/><Actions desk/></div>
        </div>
    }
    .into_any()
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

/// All that is read and tried, with what came of it; each leads to its place. And what may be wrong by all of it.
#[component]
fn All(desk: Desk) -> impl IntoView {
    let words = move || desk.app.words();
    let row = move |(item, progress): (Item, Progress)| {
        let row = desk
            .planned
            .with(|planned| desk.record.with(|record| words().row_of_item(record, planned, item, progress)));
        let here = move || (desk.at.get() == Station::At(item)).then_some("step");
        view! {
            <li><button type="button" class=progress.name() aria-current=here on:click=move |_| desk.go(Some(item))>
                <span class="name">{row.name}</span>
                <span class="expected">{row.expected}</span>
                <span class="limit">{row.limit}</span>
                <strong class="read">{row.read}</strong>
                <span class="result">{row.result}</span>
            </button></li>
        }
    };
    let group = move |step: Step| {
        let rows = move || {
            desk.walk.with(|walk| {
                walk.items().iter().filter(|(item, _)| item.step() == step).copied().map(row).collect_view()
            })
        };
        let before = move |_| {
            if let Some(then) = desk.walk.with_untracked(|walk| walk.first_of(step)) {
                desk.show(Station::Before { step, then });
            }
        };
        let any = desk.walk.with_untracked(|walk| walk.first_of(step).is_some());
        any.then(|| view! {
            <h3><button type="button" class="quiet" on:click=before>{move || words().step_of_hand_over(step)}</button></h3>
            <ul class="items">{rows}</ul>
        })
    };
    let told = Signal::derive(move || {
        let off = desk.standing.with(Standing::reads_off);
        desk.diagnosis.with(|found| suspects(&words(), found.as_ref(), off))
    });
    view! {
        <section class="all" aria-labelledby=ALL>
            <h2 id=ALL tabindex="-1">{move || desk.walk.with(|walk| words().all_items(walk))}</h2>
            {Step::ALL.iter().copied().map(group).collect_view()}
            <p class="station-link"><button type="button" class="quiet" on:click=move |_| desk.go(None)>{move || words().who_stands_for_it()}</button></p>
        </section>
        <section class="suspects" aria-labelledby="suspects" aria-busy=move || desk.diagnosis.with(Option::is_none).to_string()>
            <h2 id="suspects">{move || words().what_may_be_wrong()}</h2>
            <Plain blocks=told/>
        </section>
    }
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
    let delete = move |_| {
        let record = desk.record.get_untracked();
        app.go(Route::sheet(&record.carrier.id, &record.head.id));
        storage::delete(app, &record);
    };
    let (loaded, pairings) = (job.loaded.clone(), vec![job.pairing.clone()]);
    let may_be_signed = move || {
        let state = desk.planned.with(|planned| desk.standing.with(|standing| standing.state(planned)));
        !matches!(state, State::Stop | State::Off)
    };
    let record = Signal::derive(move || Some(desk.record.get()));
    view! {
        <p role="status" class:quiet=move || as_it_stands.get() || blank.get()>{move || {
            app.words().record_is_kept(as_it_stands.get(), blank.get() && !kept.get())
        }}</p>
        {move || (!as_it_stands.get() && !blank.get()).then(|| view! {
            <p class="actions"><button type="button" on:click=download>"Download the record as a file"</button></p>
        })}
        {move || kept.get().then(|| view! {
            <p class="actions">
                {as_it_stands.get().then(|| view! {
                    <a class="button" class:strong=may_be_signed href=move || desk.paper(Whose::Customer)>"Customer's page, to sign"</a>
                    <a class="button" href=move || desk.paper(Whose::Fitter)>"The whole record"</a>
                })}
                <button type="button" on:click=delete>"Delete this record"</button>
            </p>
        })}
        <Send loaded pairings record/>
    }
}
