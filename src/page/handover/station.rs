//! Where one stands on the walk of a hand-over: the bar while it is stopped, how far it is, and what is heard, tried and signed there.

use super::desk::{ALL, Desk, HERE, focus};
use super::entries::{Entries, InstrumentsUsed};
use super::job::Job;
use super::reading::Reading;
use super::walk_on::{Here, WalkOn};
use crate::page::document::Plain;
use crate::page::frame::UnitSwitch;
use crate::page::route::{Route, Whose};
use document::handover::before;
use document::sheet::Sheet;
use handover::{FunctionCheck, Item, Station, Step};
use leptos::prelude::*;
use quantity::Named;
use record::handover::Entry;
use workshop::Sheets;

/// Bar, progress and the station.
#[component]
pub fn Stations(desk: Desk) -> impl IntoView {
    let words = move || desk.app.words();
    let stopped = move || {
        desk.standing.with(|standing| {
            desk.planned.with(|planned| desk.record.with(|record| words().stopped(standing, planned, record)))
        })
    };
    let list = move |_| {
        let listing = !desk.listing.get_untracked();
        desk.listing.set(listing);
        desk.app.host.to_top();
        focus(if listing { ALL } else { HERE });
    };
    let way =
        move || if desk.listing.get() { "Back".to_owned() } else { desk.walk.with(|walk| words().all_items(walk)) };
    view! {
        <div class="top no-print">
            <button type="button" class="quiet" on:click=list>{way}</button>
            <UnitSwitch/>
        </div>
        <div class="stop" role="status">{move || stopped().map(|(what, why)| view! {
            <p><strong>{what}</strong>" "<span>{why}</span></p>
        })}</div>
        <div class="progress no-print" aria-hidden="true">{move || desk.walk.with(|walk| walk.items().iter().map(|(item, progress)| view! {
            <span class=progress.name() class:here=desk.at.get() == Station::At(*item)></span>
        }).collect_view())}</div>
        {move || match desk.at.get() {
            Station::Before { step, then } => view! { <Before desk step then/> }.into_any(),
            Station::At(Item::Reading(what)) => view! { <Reading desk what/> }.into_any(),
            Station::At(Item::Function(check)) => view! { <Trial desk check/> }.into_any(),
            Station::End => view! { <End desk/> }.into_any(),
        }}
    }
}

/// What is to be heard before a group is begun; before the first one also which machine it is.
#[component]
fn Before(desk: Desk, step: Step, then: Item) -> impl IntoView {
    let words = move || desk.app.words();
    let Job { loaded, machine, attachment, pairing } = desk.job.get_value();
    let sheets = Sheets::of(&pairing, &machine, &attachment, &loaded.conditions);
    let first_start = sheets.job.map(|job| job.first_start).unwrap_or_default();
    let fitters = desk.app.href(&Route::paper(machine.id.as_str(), attachment.id.as_str(), Whose::Fitter));
    let begins = step == Step::Start;
    let told = Signal::derive(move || {
        let words = words();
        let sheet = Sheet { words: &words, pairing: &pairing, machine: &machine, attachment: &attachment };
        let danger = if begins { sheet.danger() } else { Vec::new() };
        danger.into_iter().chain(before(&words, step, &first_start)).collect::<Vec<_>>()
    });
    view! {
        <section class="station caution" aria-labelledby=HERE>
            <h2 id=HERE tabindex="-1">{move || words().step_of_hand_over(step)}</h2>
            <Plain blocks=told/>
            {begins.then(|| view! {
                <Entries desk which=&[Entry::Serial, Entry::Hours]/>
                <InstrumentsUsed desk/>
                <p class="actions"><a class="button" href=fitters>"Fitter's sheet"</a></p>
            })}
            <p class="actions walk-on no-print">
                <button type="button" class="strong" on:click=move |_| desk.next(Station::Before { step, then })>"Next"</button>
            </p>
        </section>
    }
}

/// What is tried and answered by yes or no.
#[component]
fn Trial(desk: Desk, check: FunctionCheck) -> impl IntoView {
    let words = move || desk.app.words();
    let item = Item::Function(check);
    let answer = move || desk.record.with(|record| record.answer(check));
    let stopped = Signal::derive(move || desk.standing.with(|standing| standing.stop.contains(&item)));
    let button = move |to: bool, shown: &'static str| {
        let turn = move |_| {
            let was_stopped = stopped.get_untracked();
            desk.record.update(|record| {
                if was_stopped && record.answer(check) == Some(false) {
                    record.note_beyond(item);
                }
                record.write_answer(check, Some(to).filter(|_| record.answer(check) != Some(to)));
            });
        };
        view! {
            <button type="button" aria-pressed=move || (answer() == Some(to)).to_string()
                class:no=move || !to && answer() == Some(false) on:click=turn>{shown}</button>
        }
    };
    view! {
        <section class="station trial" aria-labelledby=HERE>
            <Here desk item/>
            <h2 id=HERE tabindex="-1">{move || words().function_check(check)}</h2>
            <p class="where">{move || desk.job.with_value(|job| words().function_place(check, &job.pairing))}</p>
            <div class="answer">
                <p class="judged" role="status">{move || desk.standing.with(|standing| words().not_read(standing, item))}</p>
                <div class="yes-no" role="group" aria-labelledby=HERE>{button(true, "Yes")}{button(false, "No")}</div>
                <WalkOn desk item stopped again=move || desk.record.update(|record| {
                    record.note_beyond(item);
                    record.write_answer(check, None);
                })/>
            </div>
        </section>
    }
}

/// Who stands for it, and the way back to what is still to be read or tried.
#[component]
fn End(desk: Desk) -> impl IntoView {
    let open = move || desk.walk.with(|walk| walk.next(None).is_some());
    view! {
        <section class="station end" aria-labelledby=HERE>
            <h2 id=HERE tabindex="-1">{move || desk.app.words().who_stands_for_it()}</h2>
            <p class="quiet">{move || desk.app.words().about_entries()}</p>
            {move || desk.job.with_value(|job| desk.app.words().to_prove_before_work(&job.pairing)).map(|besides| view! { <p>{besides}</p> })}
            <Entries desk which=&[Entry::By, Entry::Day, Entry::To, Entry::Note]/>
            {move || open().then(|| view! {
                <p class="actions no-print"><button type="button" on:click=move |_| desk.next(Station::End)>"Go on with what is open"</button></p>
            })}
        </section>
    }
}
