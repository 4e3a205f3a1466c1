//! A record of a hand-over as a paper to be signed.

use super::diagnosed::diagnosed;
use super::job::{Job, stands};
use crate::page::names::label;
use crate::page::paper::{Invented, PLACES, Part, Signed, TitleBlock};
use crate::page::path::PathToMachines;
use crate::page::reasoning::Opener;
use crate::page::route::Route;
use crate::page::setting::Setting;
use crate::page::solved::of_pairing;
use crate::page::state::app;
use leptos::prelude::*;

/// The screen.
#[component]
pub fn Paper(carrier: String, head: String, id: String) -> impl IntoView {
    of_pairing(carrier, head, "Hand-over record", move |loaded, machine, attachment| {
        let app = app();
        let id = id.clone();
        let names =
            (label(machine.maker.as_ref(), &machine.model), label(attachment.maker.as_ref(), &attachment.model));
        app.host.title(&format!("Hand-over record: {} on {}", names.1, names.0));
        let back = app.href(&Route::hand_over(machine.id.as_str(), attachment.id.as_str(), Some(&id)));
        let job = Job::of(app, loaded.clone(), machine.clone(), attachment.clone());
        let found = {
            let id = id.clone();
            move || app.handovers.with(|all| all.iter().find(|record| record.id == id).cloned())
        };
        let at = {
            let found = found.clone();
            Memo::new(move |_| found().map(|record| record.circumstances()).unwrap_or_default())
        };
        // Nothing on it opens yet; a paper's lines are laid out as on the others.
        let setting = StoredValue::new(Setting::new(&job.pairing, &machine, &attachment, loaded.conditions.clone()));
        let opener = Opener::new("why-paper".to_owned());
        let read = {
            let found = found.clone();
            Memo::new(move |_| found().map(|record| record.reads()).unwrap_or_default())
        };
        let diagnosis = diagnosed(StoredValue::new(job.clone()), at, read);
        let sections = move || {
            let record = found()?;
            let (planned, asked) = (job.plan(&record.circumstances()), job.asked());
            let standing = stands(&planned, &record.reads(), &asked, &record);
            let paper = |found: &Option<_>| {
                app.words().hand_over(&job.pairing, &record, &planned, &asked, &standing, found.as_ref())
            };
            Some(diagnosis.with(paper))
        };
        view! {
            <div class="path no-print"><PathToMachines/>" / "<a href=back>"Hand-over"</a></div>
            <div class="tools no-print">
                <p class="actions">
                    <button type="button" class="strong" on:click=move |_| { let _ = window().print(); }>"Print it"</button>
                </p>
            </div>
            <article class="paper">
                <header><Invented loaded=loaded.clone()/><h1 tabindex="-1">"Hand-over record: "{names.1}<span class="on">" on "</span>{names.0}</h1></header>
                {move || match sections() {
                    Some(sections) => sections.into_iter().enumerate().map(|(index, section)| {
                        view! { <Part section titled=true opener setting first=index * PLACES/> }
                    }).collect_view().into_any(),
                    None => view! { <p>"This browser keeps no record under this address."</p> }.into_any(),
                }}
                <Signed/>
                <TitleBlock loaded machine attachment title="Hand-over record"/>
            </article>
        }
        .into_any()
    })
}
