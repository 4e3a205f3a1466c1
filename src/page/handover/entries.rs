//! Which machine, who and when; and what the instruments may be off.

use super::desk::Desk;
use crate::page::time;
use leptos::prelude::*;
use quantity::Named;
use record::handover::{Entry, InstrumentKind};

/// Some of what stands on a record beside readings and answers.
#[component]
pub fn Entries(desk: Desk, which: &'static [Entry]) -> impl IntoView {
    let app = desk.app;
    let field = move |entry: Entry| {
        let id = format!("entry-{}", entry.name());
        let value = move || desk.record.with(|record| record.entry(entry).to_owned());
        let write = move |event: leptos::ev::Event| {
            let text = event_target_value(&event);
            desk.record.update(|record| record.write_entry(entry, &text));
        };
        let line = move |id: String, kind: &'static str, mode: &'static str, latest: Option<String>| {
            view! { <input id=id type=kind inputmode=mode autocomplete="off" max=latest prop:value=value on:input=write/> }
        };
        let input = match entry {
            Entry::Note => {
                view! { <textarea id=id.clone() rows="3" prop:value=value on:input=write></textarea> }.into_any()
            }
            Entry::Day => line(id.clone(), "date", "none", Some(time::today())).into_any(),
            Entry::Hours => line(id.clone(), "text", "decimal", None).into_any(),
            Entry::Serial | Entry::By | Entry::To => line(id.clone(), "text", "text", None).into_any(),
        };
        view! { <p class="field"><label for=id>{move || app.words().entry_of_record(entry)}</label>{input}</p> }
    };
    view! { <div class="figures-of-plate">{which.iter().map(|&entry| field(entry)).collect_view()}</div> }
}

/// What a person's own instruments may be off.
#[component]
pub fn InstrumentsUsed(desk: Desk) -> impl IntoView {
    let app = desk.app;
    view! {
        <details class="more">
            <summary>"Instruments used"</summary>
            <p class="quiet">{move || app.words().instruments_left_empty()}</p>
            <div class="figures-of-plate">
                {InstrumentKind::ALL.iter().map(|&kind| {
                    let (id, said) = (format!("off-{}", kind.name()), format!("off-{}-said", kind.name()));
                    let wrong = move || desk.record.with(|record| record.off(kind).is_err());
                    view! {
                        <div class="field">
                            <label for=id.clone()>{move || app.words().instrument_off(kind)}</label>
                            <input id=id type="text" inputmode="decimal" autocomplete="off" aria-describedby=said.clone()
                                aria-invalid=move || wrong().to_string()
                                prop:value=move || desk.record.with(|record| record.instrument(kind).to_owned())
                                on:input=move |event| {
                                    let text = event_target_value(&event);
                                    desk.record.update(|record| record.write_instrument(kind, &text));
                                }/>
                            <p id=said class="judged" role="status">{move || wrong().then(|| app.words().instrument_fault())}</p>
                        </div>
                    }
                }).collect_view()}
            </div>
        </details>
    }
}
