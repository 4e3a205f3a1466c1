//! The records of hand-overs, where a pairing or a saved comparison is shown.

use super::job::Job;
use crate::page::loaded::Loaded;
use crate::page::route::Route;
use crate::page::state::{App, app};
use crate::page::{storage, time};
use fit::Pairing;
use handover::function_checks;
use leptos::prelude::*;
use record::handover::Entry;
use record::{HandOver, Saved};
use std::sync::Arc;
use table::{Carrier, Head};

/// When a record was made, which machine it was and who did it, as far as it says.
fn told(record: &HandOver) -> String {
    let day = record.entry(Entry::Day);
    let day = if day.is_empty() { time::shown(&record.changed) } else { time::day(day) };
    let rest = [Entry::Serial, Entry::By].map(|entry| record.entry(entry)).into_iter().filter(|text| !text.is_empty());
    std::iter::once(day.as_str()).chain(rest).collect::<Vec<_>>().join(" · ")
}

/// Where a record is opened.
fn address(app: App, record: &HandOver) -> String {
    app.href(&Route::hand_over(&record.carrier.id, &record.head.id, Some(&record.id)))
}

/// Whether there is anything to hand over.
pub fn may_begin(pairing: &Pairing, attachment: &Head) -> bool {
    !function_checks(pairing, attachment).is_empty()
}

/// The hand-overs of a pairing, with how each stands; nothing where there is none.
#[component]
pub fn OfPairing(loaded: Arc<Loaded>, machine: Carrier, attachment: Head, pairing: Arc<Pairing>) -> impl IntoView {
    let app = app();
    let (carrier, head) = (machine.id.to_string(), attachment.id.to_string());
    let job = StoredValue::new(Job { loaded, machine, attachment, pairing });
    let records = Memo::new(move |_| {
        app.handovers.with(|all| all.iter().filter(|record| record.is_of(&carrier, &head)).cloned().collect::<Vec<_>>())
    });
    let row = move |record: HandOver| {
        let state = job.with_value(|job| job.state(&record));
        view! {
            <li><a class="row" href=address(app, &record)>
                <span class="text">
                    <span class="name">{told(&record)}</span>
                    <span class="quiet">{move || app.words().state_of_hand_over(state)}</span>
                </span>
            </a></li>
        }
    };
    move || {
        let records = records.get();
        (!records.is_empty()).then(|| {
            view! {
                <section aria-labelledby="hand-overs">
                    <h2 id="hand-overs">"Hand-overs"</h2>
                    <ul class="list">{records.into_iter().map(row).collect_view()}</ul>
                </section>
            }
        })
    }
}

/// All records that are kept, on the screen of what was saved.
#[component]
pub fn OfSaved() -> impl IntoView {
    let app = app();
    move || {
        let all = app.handovers.get();
        (!all.is_empty()).then(|| view! {
            <section aria-labelledby="hand-overs">
                <h2 id="hand-overs">"Hand-overs"</h2>
                <ul class="list">
                    {all.into_iter().map(|record| {
                        let delete_name = format!("Delete the hand-over of {}", record.name);
                        let (name, told, address) = (record.name.clone(), told(&record), address(app, &record));
                        view! {
                            <li class="kept"><div class="fit">
                                <a class="row" href=address>
                                    <span class="text"><span class="name">{name}</span><span class="quiet">{told}</span></span>
                                </a>
                                <span class="actions">
                                    <button type="button" class="quiet" aria-label=delete_name
                                        on:click=move |_| storage::delete(app, &record)>"Delete"</button>
                                </span>
                            </div></li>
                        }
                    }).collect_view()}
                </ul>
            </section>
        })
    }
}

/// The ways to the hand-overs of what was compared, where there are any.
#[component]
pub fn OfComparison(saved: Saved) -> impl IntoView {
    let app = app();
    move || {
        let own = app.handovers.with(|all| {
            let is_of_it = |record: &&HandOver| saved.pairs().any(|(carrier, head)| record.is_of(carrier, head));
            all.iter().filter(is_of_it).cloned().collect::<Vec<_>>()
        });
        (!own.is_empty()).then(|| view! {
            <p class="actions">
                {own.into_iter().map(|record| {
                    view! { <a class="button" href=address(app, &record)>"Hand-over: "{record.head.name.clone()}", "{told(&record)}</a> }
                }).collect_view()}
            </p>
        })
    }
}
