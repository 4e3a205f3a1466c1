//! What the readings teach of a machine of one's own: kept on its plate as measured, and the verdict solved anew.

use super::desk::Desk;
use crate::page::notice::Notice;
use crate::page::route::Route;
use crate::page::{storage, time};
use handover::{Lesson, learned};
use leptos::prelude::*;
use record::Plate;
use record::plate::OWN;

#[component]
pub fn Lessons(desk: Desk) -> impl IntoView {
    let app = desk.app;
    let carrier = desk.job.with_value(|job| job.machine.id.to_string());
    let is_own = carrier.starts_with(OWN);
    let plate = Memo::new(move |_| app.own.with(|own| own.iter().find(|plate| plate.carrier_id() == carrier).cloned()));
    let lessons = Memo::new(move |_| {
        desk.job.with_value(|job| {
            let circuit = job.machine.circuits.iter().find(|circuit| Some(&circuit.id) == job.pairing.circuit.as_ref());
            circuit.map(|circuit| desk.read.with(|read| learned(&job.pairing, circuit, read))).unwrap_or_default()
        })
    });
    let row = move |lesson: Lesson| {
        let kept = move || plate.with(|plate| plate.as_ref().is_some_and(|plate| plate.has_learned(&lesson)));
        view! {
            <li>
                <span>{move || app.words().lesson(&lesson)}</span>
                {move || plate.get().map(|plate| if kept() {
                    view! { <span class="quiet">"on its plate, as measured"</span> }.into_any()
                } else {
                    view! { <button type="button" on:click=move |_| keep(desk, plate.clone(), lesson)>"Keep it on the machine"</button> }.into_any()
                })}
            </li>
        }
    };
    move || {
        let lessons = lessons.get();
        (!lessons.is_empty()).then(|| view! {
            <section aria-labelledby="lessons">
                <h2 id="lessons">"What this teaches of the machine"</h2>
                <p class="quiet">{app.words().about_lessons(is_own)}</p>
                {(!is_own).then(|| view! { <p><a class="button" href=app.href(&Route::Own)>"Describe a machine"</a></p> })}
                <ul class="lessons">{lessons.into_iter().map(row).collect_view()}</ul>
            </section>
        })
    }
}

/// Keeps a figure on the plate and tells what that makes of the verdict.
fn keep(desk: Desk, plate: Plate, lesson: Lesson) {
    let app = desk.app;
    let mut changed = Plate { changed: time::now(), ..plate };
    changed.learn(&lesson);
    let job = desk.job.get_value();
    if !storage::save(app, &changed) {
        return;
    }
    let Some(machine) = changed.read().carrier else { return };
    let now = app.pairing(&job.loaded, &machine, &job.attachment).verdict;
    app.tell(Notice::news(app.words().lesson_kept(&lesson, job.pairing.verdict, now)));
}
