//! Which machine, who and when; and what the instruments may be off.

use super::desk::Desk;
use crate::page::time;
use leptos::prelude::*;
use quantity::Named;
use record::handover::{Entry, InstrumentKind};

#[component]
pub fn Entries(desk: Desk) -> impl IntoView {
    let app = desk.app;
    let field = move |entry: Entry| {
        let id = format!("entry-{}", entry.name());
        let value = move || desk.record.with(|record| record.entry(entry).to_owned());
        let write = move |event: leptos::ev::Event| {
            let text = event_target_value(&event);
            desk.record.update(|record| record.write_entry(entry, &text));
        };
        let input = match entry {
            Entry::Note => view! { <textarea id=id.clone() rows="3" prop:value=value on:input=write></textarea> }.into_any(),
            Entry::Day => view! {
                <input id=id.clone() type="date" prop:value=value on:input=write max=time::today()/>
            }
            .into_any(),
            Entry::Hours => view! {
                <input id=id.clone() type="text" inputmode="decimal" autocomplete="off" prop:value=value on:input=write/>
            }
            .into_any(),
            Entry::Serial | Entry::By | Entry::To => view! {
                <input id=id.clone() type="text" autocomplete="off" prop:value=value on:input=write/>
            }
            .into_any(),
        };
        view! { <p class="field"><label for=id>{move || app.words().entry_of_record(entry)}</label>{input}</p> }
    };
    view! {
        <section class="step" aria-labelledby="who">
            <h2 id="who">"Which machine, who and when"</h2>
            <p class="quiet">"Kept in this browser only. A link or a paper made from here holds them too."</p>
            <div class="figures-of-plate">{Entry::ALL.iter().map(|&entry| field(entry)).collect_view()}</div>
        </section>
    }
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
