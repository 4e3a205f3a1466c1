//! The way through a long screen: how much of each group is done, and a jump to it.

use super::desk::Desk;
use handover::{Finding, NAMED, Step};
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;
use quantity::Named;

/// The id of a group's heading.
pub fn id_of(step: Step) -> String {
    format!("step-{}", step.name())
}

#[component]
pub fn Steps(desk: Desk) -> impl IntoView {
    let words = move || desk.app.words();
    let readings = move |step: Step| {
        let of = desk.planned.with(|all| {
            all.iter().map(|planned| planned.what).filter(|what| Step::of(*what) == step).collect::<Vec<_>>()
        });
        let done = desk.read.with(|read| of.iter().filter(|what| read.iter().any(|read| read.what == **what)).count());
        (done, of.len())
    };
    let tried = move || {
        let asked = desk.asked.get_value();
        let done = desk.record.with(|record| asked.iter().filter(|check| record.answer(**check).is_some()).count());
        (done, asked.len())
    };
    let suspected = move || {
        desk.diagnosis.with(|found| match &found.as_ref()?.finding {
            Finding::Suspects { suspects, .. } => Some(suspects.len().min(NAMED)),
            Finding::TooFew { .. } | Finding::NothingWrong { .. } => None,
        })
    };
    let way = move |id: String, name: Signal<String>, count: Signal<(usize, usize)>| {
        view! {
            <li><button type="button" class="chip" on:click=move |_| jump(&id)>
                {name}" "<span class="count">{move || { let (done, of) = count.get(); format!("{done}/{of}") }}</span>
            </button></li>
        }
    };
    let groups = Step::ALL.iter().copied().filter(|step| readings(*step).1 > 0).map(|step| {
        let name = Signal::derive(move || words().step_short(step).to_owned());
        way(id_of(step), name, Signal::derive(move || readings(step)))
    });
    view! {
        <nav aria-label="Steps of the hand-over"><ul class="steps">
            {groups.collect_view()}
            <li><button type="button" class="chip" on:click=move |_| jump("suspects")>
                "What may be wrong"{move || suspected().map(|count| view! { " "<span class="count">{count}</span> })}
            </button></li>
            {way("tried".to_owned(), Signal::derive(|| "Tried".to_owned()), Signal::derive(tried))}
        </ul></nav>
    }
}

/// Goes to a heading of this screen; its address stays, as that is the screen's.
fn jump(id: &str) {
    let Some(heading) =
        document().get_element_by_id(id).and_then(|found| found.dyn_into::<web_sys::HtmlElement>().ok())
    else {
        return;
    };
    heading.scroll_into_view();
    let _ = heading.focus();
}
