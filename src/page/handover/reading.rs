//! One reading: what and where, a field to type it in beside the gauge, and at once how it lies on the drawn dial.

use super::desk::Desk;
use crate::page::drawings::svg;
use drawing;
use handover::{Measurement, Planned};
use leptos::prelude::*;
use quantity::text::TextFault;
use quantity::{Amount, Named, Unit};
use workshop::Judged;

#[component]
pub fn Reading(desk: Desk, what: Measurement) -> impl IntoView {
    let words = move || desk.app.words();
    let id = format!("read-{}", what.name());
    let (input, place, said) = (id.clone(), format!("{id}-where"), format!("{id}-said"));
    let described = format!("{place} {said}");
    let planned = Memo::new(move |_| desk.planned.with(|all| all.iter().find(|planned| planned.what == what).cloned()));
    let read: Memo<Result<Option<Amount>, TextFault>> =
        Memo::new(move |_| desk.record.with(|record| record.amount(what)));
    let typed = typed(desk, what);
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
    let unit = move || words().unit(Unit::shown(what.dimension(), desk.app.units.get()));
    let is = move |judgement: Judged| judged.get() == Some(judgement);
    let dial = move || {
        let read = read.get().ok().flatten();
        planned.with(|planned| {
            let Planned { reading, gauge, .. } = planned.as_ref()?;
            let words = words();
            let dial = drawing::gauge(reading, gauge.as_ref(), read, &words)?;
            Some(view! { <div class="drawing">{svg(dial.picture, "dial", words.dial_of(what))}</div> })
        })
    };
    view! {
        <div class="reading" class:inside=move || is(Judged::Inside) class:off=move || is(Judged::Below) || is(Judged::Above)
            class:beyond=move || is(Judged::Beyond) class:wrong=move || read.with(Result::is_err)>
            <label for=input.clone()>{move || words().measurement(what)}</label>
            <p class="where" id=place>{move || planned.with(|planned| planned.as_ref().map(|planned| words().measurement_place(planned)))}</p>
            <span class="with-unit">
                <input id=input type="text" inputmode="decimal" autocomplete="off" autocapitalize="off" spellcheck="false"
                    aria-describedby=described aria-invalid=move || read.with(Result::is_err).to_string() prop:value=typed
                    on:input=move |event| write(event_target_value(&event))/>
                <span class="unit" aria-hidden="true">{unit}</span>
            </span>
            <p class="read-as" role="status">{move || desk.record.with(|record| record.read_as(what)).map(|(value, unit)| {
                words().read_as(&format!("{value} {}", words().unit(unit)))
            })}</p>
            <p class="judged" id=said role="status">
                {move || match read.get() {
                    Err(_) if !meant.with(Vec::is_empty) => "A comma or a space means thousands to one reader and a decimal to another. Did you mean".to_owned(),
                    Err(fault) => format!("Not read yet. To fix it: {}.", words().text_fault(what.dimension(), &fault).1),
                    Ok(read) => planned.with(|planned| planned.as_ref().map(|planned| words().reading_said(planned, read)).unwrap_or_default()),
                }}
            </p>
            {move || (!meant.with(Vec::is_empty)).then(|| view! {
                <p class="actions">{meant.get().into_iter().map(|text| {
                    let shown = text.clone();
                    view! { <button type="button" class="chip" on:click=move |_| write(text.clone())>{shown}</button> }
                }).collect_view()}</p>
            })}
            {dial}
        </div>
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
