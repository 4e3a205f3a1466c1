//! One reading: what is told of it, a field to type it in, and at once how it lies.

use super::desk::{Desk, HERE};
use super::walk_on::{Here, WalkOn};
use crate::page::document::Plain;
use document::handover::{behind, reading};
use handover::{Item, Measurement, Station};
use leptos::html::Input;
use leptos::prelude::*;
use quantity::text::TextFault;
use quantity::{Amount, Unit};
use workshop::Judged;

#[component]
pub fn Reading(desk: Desk, what: Measurement) -> impl IntoView {
    let words = move || desk.app.words();
    let item = Item::Reading(what);
    let planned = Memo::new(move |_| desk.planned.with(|all| all.iter().find(|planned| planned.what == what).cloned()));
    let read: Memo<Result<Option<Amount>, TextFault>> =
        Memo::new(move |_| desk.record.with(|record| record.amount(what)));
    let (typed, input) = (typed(desk, what), NodeRef::<Input>::new());
    let write = move |text: String| {
        typed.set(text.clone());
        let system = desk.app.units.get_untracked();
        desk.record.update(|record| record.write(what, &text, system));
    };
    let meant = Memo::new(move |_| desk.record.with(|record| record.likely_meant(what, desk.app.units.get())));
    let judged = Memo::new(move |_| {
        let read = read.get().ok()??;
        planned.with(|planned| planned.as_ref()?.reading.judge(read))
    });
    let is = move |judgement: Judged| judged.get() == Some(judgement);
    let off = move || judged.get().is_some_and(|judged| judged != Judged::Inside);
    let told = Signal::derive(move || {
        let read = read.get().ok().flatten();
        planned.with(|planned| planned.as_ref().map(|planned| reading(&words(), planned, read)).unwrap_or_default())
    });
    let said = move || match read.get() {
        Err(_) if !meant.with(Vec::is_empty) => words().thousands_or_decimal().to_owned(),
        Err(fault) => words().reading_fault(what, &fault),
        Ok(None) => desk.standing.with(|standing| words().not_read(standing, item)).to_owned(),
        Ok(Some(read)) => planned
            .with(|planned| planned.as_ref().map(|planned| words().judged(&planned.reading, read)).unwrap_or_default()),
    };
    let wrong = Signal::derive(move || {
        if !off() {
            return Vec::new();
        }
        desk.diagnosis.with(|found| behind(&words(), found.as_ref(), what))
    });
    let note = move || {
        if is(Judged::Beyond) {
            desk.record.update(|record| record.note_beyond(item));
        }
    };
    let stopped = Signal::derive(move || desk.standing.with(|standing| standing.stop.contains(&item)));
    let again = move || {
        note();
        if let Some(input) = input.get_untracked() {
            let _ = input.focus();
            input.select();
        }
    };
    // What says its unit itself needs none behind it.
    let has_unit = Memo::new(move |_| typed.with(|typed| typed.chars().any(char::is_alphabetic)));
    let keys = move |event: leptos::ev::KeyboardEvent| {
        if event.key() == "Enter" && !stopped.get_untracked() {
            desk.next(Station::At(item));
        }
    };
    view! {
        <section class="station reading" aria-labelledby=HERE class:as-expected=move || is(Judged::Inside)
            class:off=move || off() && !is(Judged::Beyond) class:beyond=move || is(Judged::Beyond) class:wrong=move || read.with(Result::is_err)>
            <Here desk item/>
            <h2 id=HERE tabindex="-1"><label for="read">{move || words().measurement(what)}</label></h2>
            <div class="told" id="read-where"><Plain blocks=told/></div>
            <div class="answer">
                <p class="judged" id="read-said" role="status">{said}</p>
                <p class="read-as" role="status">{move || desk.record.with(|record| record.read_as(what)).map(|(value, unit)| {
                    words().read_as(&format!("{value} {}", words().unit(unit)))
                })}</p>
                {move || (!meant.with(Vec::is_empty)).then(|| view! {
                    <p class="actions">{meant.get().into_iter().map(|text| {
                        let shown = text.clone();
                        view! { <button type="button" class="chip" on:click=move |_| write(text.clone())>{shown}</button> }
                    }).collect_view()}</p>
                })}
                <span class="with-unit">
                    <input id="read" node_ref=input type="text" inputmode="decimal" enterkeyhint="next" autocomplete="off" autocapitalize="off" spellcheck="false"
                        aria-describedby="read-where read-said" aria-invalid=move || read.with(Result::is_err).to_string() prop:value=typed
                        on:input=move |event| write(event_target_value(&event)) on:change=move |_| note() on:keydown=keys/>
                    <span class="unit" aria-hidden="true" hidden=move || has_unit.get()>{move || words().unit(Unit::shown(what.dimension(), desk.app.units.get()))}</span>
                </span>
                <div class="behind"><Plain blocks=wrong/></div>
                <WalkOn desk item stopped again/>
            </div>
        </section>
    }
}

/// What stands in the field. It keeps what was typed, to the letter, as long as it means what is on the record; what another
/// tab writes comes into it.
fn typed(desk: Desk, what: Measurement) -> RwSignal<String> {
    let typed = RwSignal::new(desk.record.with_untracked(|record| record.typed(what).to_owned()));
    Effect::new(move |_| {
        let now = desk.record.with(|record| record.typed(what).to_owned());
        let means = desk.record.with_untracked(|record| {
            let mut record = record.clone();
            typed.with_untracked(|typed| record.write(what, typed, desk.app.units.get_untracked()));
            record.typed(what).to_owned()
        });
        if now != means {
            typed.set(now);
        }
    });
    typed
}
