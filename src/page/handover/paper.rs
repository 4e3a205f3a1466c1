//! A record of a hand-over as a paper: the whole of it, or the page that a customer signs.

use super::diagnosed::diagnosed;
use super::job::{Job, stands};
use super::signature::Sign;
use crate::page::document::Document;
use crate::page::names::label;
use crate::page::paper::{Invented, given, marks};
use crate::page::path::PathToMachines;
use crate::page::route::{Route, Whose};
use crate::page::running::{Repeated, running};
use crate::page::setting::Setting;
use crate::page::solved::of_pairing;
use crate::page::state::app;
use crate::page::time;
use document::Papers;
use handover::{Diagnosis, State};
use leptos::prelude::*;
use record::HandOver;
use record::handover::Entry;
use workshop::Sheets;

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
        let typed = marks(carrier, head);
        let back = app.href(&Route::hand_over(carrier, head, Some(&id)));
        let other = if whose == Whose::Fitter { Whose::Customer } else { Whose::Fitter };
        let other = app.href(&Route::record(carrier, head, &id, other));
        let job = StoredValue::new(Job::of(app, loaded.clone(), machine.clone(), attachment.clone()));
        let record = Memo::new(move |_| app.handovers.with(|all| all.iter().find(|record| record.id == id).cloned()));
        let sheets =
            StoredValue::new(job.with_value(|job| Sheets::of(&job.pairing, &machine, &attachment, &loaded.conditions)));
        // Nothing on it opens yet; a paper's lines are laid out as on the others.
        let setting = StoredValue::new(
            job.with_value(|job| Setting::new(&job.pairing, &machine, &attachment, loaded.conditions.clone())),
        );
        // What may be wrong is solved for the whole record only.
        let diagnosis: Signal<Option<Diagnosis>> = match whose {
            Whose::Customer | Whose::Stores | Whose::Cab => Signal::derive(|| None),
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
            // The serial number that stands on the record is the machine's.
            let mut typed = typed.get();
            if !record.entry(Entry::Serial).is_empty() {
                record.entry(Entry::Serial).clone_into(&mut typed.machine_serial);
            }
            let given = given(&job.loaded, &typed, &time::shown(&record.changed));
            sheets.with_value(|sheets| {
                let papers = Papers {
                    words: app.words(),
                    pairing: &job.pairing,
                    carrier: &job.machine,
                    head: &job.attachment,
                    conditions: &job.loaded.conditions,
                    sheets,
                    planned: &planned,
                    given: &given,
                };
                let blocks = if whose == Whose::Customer {
                    papers.record_for_customer(&record, &asked, &standing)
                } else {
                    diagnosis.with(|found| papers.record(&record, &asked, &standing, found.as_ref()))
                };
                Some((blocks, state, papers.running_head(title)))
            })
        });
        let may_be_signed = Signal::derive(move || {
            told.with(|told| told.as_ref().is_some_and(|told| !matches!(told.1, State::Stop | State::Off)))
        });
        let blocks = Signal::derive(move || told.get().map(|(blocks, ..)| blocks).unwrap_or_default());
        let head = Signal::derive(move || told.get().map(|(.., head)| head).unwrap_or_default());
        running(head);
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
                <Repeated head/>
                <div class="body">
                <header><Invented loaded=loaded.clone()/><h1 tabindex="-1">{title}": "{names.1}<span class="on">" on "</span>{names.0}</h1></header>
                {move || if is_kept.get() {
                    view! { <Document name="paper" blocks setting/> }.into_any()
                } else {
                    view! { <p>"This browser keeps no record under this address."</p> }.into_any()
                }}
                {(whose != Whose::Fitter).then(|| view! { <Sign record may_be_signed/> })}
                </div>
            </article>
        }
        .into_any()
    })
}
