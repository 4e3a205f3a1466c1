//! A record of a hand-over as a paper: the whole of it, or the page that a customer signs.

use super::diagnosed::diagnosed;
use super::job::{Job, stands};
use super::signature::Sign;
use crate::page::document::Document;
use crate::page::names::label;
use crate::page::paper::{Invented, Signed, TitleBlock};
use crate::page::path::PathToMachines;
use crate::page::route::{Route, Whose};
use crate::page::setting::Setting;
use crate::page::solved::of_pairing;
use crate::page::state::app;
use document::paper;
use handover::{Diagnosis, State};
use leptos::prelude::*;
use record::HandOver;

/// The screen.
#[component]
pub fn Paper(carrier: String, head: String, id: String, whose: Whose) -> impl IntoView {
    let title = if whose == Whose::Fitter { "Hand-over record" } else { "Hand-over" };
    of_pairing(carrier, head, title, move |loaded, machine, attachment| {
        let app = app();
        let id = id.clone();
        let names =
            (label(machine.maker.as_ref(), &machine.model), label(attachment.maker.as_ref(), &attachment.model));
        app.host.title(&format!("{title}: {} on {}", names.1, names.0));
        let (carrier, head) = (machine.id.as_str(), attachment.id.as_str());
        let back = app.href(&Route::hand_over(carrier, head, Some(&id)));
        let other = app.href(&Route::record(carrier, head, &id, whose.other()));
        let job = StoredValue::new(Job::of(app, loaded.clone(), machine.clone(), attachment.clone()));
        let record = Memo::new(move |_| app.handovers.with(|all| all.iter().find(|record| record.id == id).cloned()));
        // Nothing on it opens yet; a paper's lines are laid out as on the others.
        let setting = StoredValue::new(
            job.with_value(|job| Setting::new(&job.pairing, &machine, &attachment, loaded.conditions.clone())),
        );
        // What may be wrong is solved for the whole record only.
        let diagnosis: Signal<Option<Diagnosis>> = match whose {
            Whose::Customer => Signal::derive(|| None),
            Whose::Fitter => {
                let of =
                    move |record: &Option<HandOver>| record.as_ref().map(HandOver::circumstances).unwrap_or_default();
                let at = Memo::new(move |_| record.with(of));
                let reads = move |record: &Option<HandOver>| record.as_ref().map(HandOver::reads).unwrap_or_default();
                diagnosed(job, at, Memo::new(move |_| record.with(reads))).into()
            }
        };
        let told = Memo::new(move |_| {
            let record = record.get()?;
            let job = job.get_value();
            let (planned, asked) = (job.plan(&record.circumstances()), job.asked());
            let standing = stands(&planned, &asked, &record);
            let state = standing.state(&planned);
            let (words, pairing) = (app.words(), &job.pairing);
            let sections = match whose {
                Whose::Customer => words.hand_over_for_customer(pairing, &record, &planned, &asked, &standing),
                Whose::Fitter => diagnosis
                    .with(|found| words.hand_over(pairing, &record, &planned, &asked, &standing, found.as_ref())),
            };
            Some((sections, state))
        });
        let may_be_signed = Signal::derive(move || {
            told.with(|told| told.as_ref().is_some_and(|told| !matches!(told.1, State::Stop | State::Off)))
        });
        let blocks = Signal::derive(move || told.get().map(|(sections, _)| paper(sections, true)).unwrap_or_default());
        let is_kept = Memo::new(move |_| told.with(Option::is_some));
        view! {
            <div class="path no-print"><PathToMachines/>" / "<a href=back>"Hand-over"</a></div>
            <div class="tools no-print">
                <p class="actions">
                    <button type="button" class:strong=whose == Whose::Fitter on:click=move |_| { let _ = window().print(); }>"Print it"</button>
                    <a class="button" href=other>{if whose == Whose::Fitter { "Customer's page, to sign" } else { "The whole record" }}</a>
                </p>
            </div>
            <article class="paper">
                <header><Invented loaded=loaded.clone()/><h1 tabindex="-1">{title}": "{names.1}<span class="on">" on "</span>{names.0}</h1></header>
                {move || if is_kept.get() {
                    view! { <Document name="paper" blocks setting/> }.into_any()
                } else {
                    view! { <p>"This browser keeps no record under this address."</p> }.into_any()
                }}
                {if whose == Whose::Fitter { view! { <Signed/> }.into_any() } else { view! { <Sign record may_be_signed/> }.into_any() }}
                <TitleBlock loaded machine attachment title/>
            </article>
        }
        .into_any()
    })
}
