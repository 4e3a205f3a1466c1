//! The papers of a pairing: the fitter's sheet, the parts list, the customer's quotation and the card for the cab. What stands on them is the
//! core's; here it is laid out for screen and print.

mod letter;
mod marks;
mod quotation;

pub use letter::{Dealer, letter};
pub use marks::{Marks, marks};
pub use quotation::Quotation;

use super::breath::{Breath, breathe};
use super::circuit::{celsius, in_celsius};
use super::document::Document;
use super::files;
use super::loaded::Loaded;
use super::names::label;
use super::path::PathToMachines;
use super::route::{Route, Whose};
use super::running::{Repeated, running};
use super::setting::Setting;
use super::solved::of_pairing;
use super::state::{App, app};
use super::svg::Mark;
use super::time;
use super::whose_figures::WhoseFigures;
use document::{Block, Given, Papers, titles};
use drawing::thermometer;
use explain::deciding_fact::settles_in_stretches;
use fit::{Pairing, Verdict};
use handover::{Circumstances, plan};
use leptos::html::Article;
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::HtmlElement;
use quantity::{Amount, Named};
use record::JobMarks;
use std::sync::Arc;
use table::{Carrier, Head};
use workshop::Sheets;

/// The screen.
#[component]
pub fn Paper(carrier: String, head: String, whose: Whose) -> impl IntoView {
    of_pairing(carrier, head, whose.title(), move |loaded, machine, attachment| {
        view! { <Sheet loaded machine attachment whose/> }.into_any()
    })
}

#[component]
fn Sheet(loaded: Arc<Loaded>, machine: Carrier, attachment: Head, whose: Whose) -> impl IntoView {
    let app = app();
    let pairing = app.pairing(&loaded, &machine, &attachment);
    let names = (label(machine.maker.as_ref(), &machine.model), label(attachment.maker.as_ref(), &attachment.model));
    app.host.title(&format!("{}: {} on {}", whose.title(), names.1, names.0));
    let oil = RwSignal::new(in_celsius(loaded.conditions.working));
    let (carrier_id, head_id) = (machine.id.to_string(), attachment.id.to_string());
    let back = app.href(&Route::sheet(&carrier_id, &head_id));
    let others = Whose::ALL
        .iter()
        .filter(|&&other| other != whose)
        .map(|&other| (app.href(&Route::paper(&carrier_id, &head_id, other)), other.title()));
    let others: Vec<_> = others.collect();
    let of = StoredValue::new((loaded.clone(), pairing.clone(), machine.clone(), attachment.clone()));
    // Solved anew for another oil, and not for other units.
    let sheets = Memo::new(move |_| {
        of.with_value(|(loaded, pairing, machine, attachment)| {
            Sheets::at(pairing, machine, attachment, &loaded.conditions, celsius(oil.get()))
        })
    });
    let planned = Memo::new(move |_| {
        let at = Circumstances { oil: Some(celsius(oil.get())), ..Circumstances::default() };
        of.with_value(|(loaded, pairing, machine, attachment)| {
            plan(pairing, machine, attachment, &loaded.conditions, &at)
        })
    });
    let told = with_branches(&pairing, &machine, &attachment, &loaded);
    let typed = marks(&carrier_id, &head_id);
    let now = time::shown(&time::now());
    let given = Memo::new(move |_| {
        let typed = typed.get();
        of.with_value(|(loaded, ..)| given(loaded, &typed, &now))
    });
    let own = RwSignal::new(letter::kept());
    let offered = letter::Offered::fresh();
    let made = Memo::new(move |_| {
        let (pairing, given) = (told.get(), given.get());
        of.with_value(|(loaded, _, carrier, head)| {
            planned.with(|planned| {
                sheets.with(|sheets| {
                    let (words, conditions, given) = (app.words(), &loaded.conditions, &given);
                    let papers = Papers { words, pairing: &pairing, carrier, head, conditions, sheets, planned, given };
                    let blocks = match whose {
                        Whose::Fitter => papers.fitters(),
                        Whose::Stores => papers.for_the_stores(),
                        Whose::Cab => papers.for_the_cab(),
                        Whose::Customer => papers.for_the_customer(&letter(&own.get(), loaded, &offered)),
                    };
                    (blocks, papers.running_head(whose.title()))
                })
            })
        })
    });
    let blocks = Signal::derive(move || made.with(|(blocks, _)| blocks.clone()));
    let head = Signal::derive(move || made.with(|(_, head)| head.clone()));
    running(head);
    let csv = move |_| {
        let rows = sheets.with_untracked(|sheets| app.words_untracked().parts_list(&sheets.changes));
        let name = format!(
            "parts-{}.csv",
            of.with_value(|(_, _, machine, attachment)| format!("{}-{}", machine.id, attachment.id))
        );
        files::download(&name, &app.words_untracked().parts_csv(&rows));
    };
    let verdict = pairing.verdict;
    let place = NodeRef::<Article>::new();
    let setting = StoredValue::new(Setting::new(&pairing, &machine, &attachment, loaded.conditions.clone()));
    view! {
        <div class="path no-print"><PathToMachines/>" / "<a href=back>{names.1.clone()}" on "{names.0.clone()}</a></div>
        <div class="tools no-print">
            <p class="actions">
                <button type="button" class="strong" on:click=move |_| { let _ = window().print(); }>"Print it"</button>
                {(whose == Whose::Stores).then(|| view! { <button type="button" on:click=csv>"Download as CSV"</button> })}
                {others.into_iter().map(|(to, title)| view! { <a class="button" href=to>{title}</a> }).collect_view()}
            </p>
            <Marks typed carrier=carrier_id head=head_id/>
            {(whose == Whose::Customer).then(|| view! { <Dealer own offered loaded=loaded.clone()/> })}
            {(whose == Whose::Fitter).then(|| view! { <Oil app oil/> })}
        </div>
        {(whose == Whose::Fitter).then(|| view! { <Index blocks place/> })}
        <article class="paper" class:half=whose == Whose::Cab node_ref=place>
            <Repeated head/>
            <div class="body">
                <header>
                    <Invented loaded=loaded.clone()/>
                    <h1 tabindex="-1">{whose.title()}": "{names.1.clone()}<span class="on">" on "</span>{names.0.clone()}</h1>
                    {(whose == Whose::Fitter).then(|| view! {
                        <p class="sentence-of-paper"><Mark verdict/><span>{move || told.with(|pairing| app.words().to_send(pairing))}</span></p>
                    })}
                    <WhoseFigures carriers=vec![machine.id.to_string()]/>
                </header>
                <Document name="paper" blocks setting/>
            </div>
        </article>
    }
}

/// The pairing with what either answer to an open question comes to: found by pairing again many times, so the rest stands first.
fn with_branches(
    pairing: &Arc<Pairing>,
    machine: &Carrier,
    attachment: &Head,
    loaded: &Arc<Loaded>,
) -> RwSignal<Arc<Pairing>> {
    let told = RwSignal::new(pairing.clone());
    if pairing.verdict == Verdict::CannotSay {
        let (loaded, pairing, machine, attachment) =
            (loaded.clone(), pairing.clone(), machine.clone(), attachment.clone());
        spawn_local(async move {
            breathe().await;
            let found = settles_in_stretches(&machine, &attachment, &loaded.conditions, &pairing, &Breath::new()).await;
            let branches = found.and_then(|settling| settling.branches());
            told.try_set(Arc::new(Pairing { branches, ..(*pairing).clone() }));
        });
    }
    told
}

/// What a paper says of itself.
pub fn given(loaded: &Loaded, typed: &JobMarks, made: &str) -> Given {
    let date = loaded.table.date.map(|date| format!(", {}", time::day(&date.to_string()))).unwrap_or_default();
    let JobMarks { machine_serial, attachment_serial, job } = typed.clone();
    Given {
        machine_serial,
        attachment_serial,
        job,
        made: made.to_owned(),
        table: format!("{}{date}", loaded.table.title),
        mark: loaded.mark.clone(),
        program: format!("Pairwright {}", env!("CARGO_PKG_VERSION")),
    }
}

/// The parts of a long paper, each leading to its own, on the screen alone.
#[component]
fn Index(blocks: Signal<Vec<Block>>, place: NodeRef<Article>) -> impl IntoView {
    let titles = Memo::new(move |_| blocks.with(|blocks| titles(blocks)));
    let go_to = move |at: usize| {
        let all = place.get_untracked().and_then(|paper| paper.query_selector_all(".document h2").ok());
        let at = u32::try_from(at).unwrap_or(u32::MAX);
        if let Some(title) = all.and_then(|all| all.item(at)).and_then(|title| title.dyn_into::<HtmlElement>().ok()) {
            let _ = title.set_attribute("tabindex", "-1");
            title.scroll_into_view();
            let _ = title.focus();
        }
    };
    view! {
        <details class="fold more index no-print">
            <summary><span class="name">"Parts of this sheet"</span></summary>
            <ol>{move || titles.get().into_iter().enumerate().map(|(at, title)| view! {
                <li><button type="button" class="quiet" on:click=move |_| go_to(at)>{title}</button></li>
            }).collect_view()}</ol>
        </details>
    }
}

/// Says on the paper itself of a demo table that it is one.
#[component]
#[allow(clippy::needless_pass_by_value)] // A prop is owned.
pub fn Invented(loaded: Arc<Loaded>) -> impl IntoView {
    app().words().invented(&loaded.table).map(|words| view! { <p class="in-use">{words}</p> })
}

/// At which temperature of the oil the readings are expected.
#[component]
fn Oil(app: App, oil: RwSignal<f64>) -> impl IntoView {
    let shown = move || app.words().amount(Amount::of(celsius(oil.get())));
    let moved = move |event: leptos::ev::Event| {
        if let Ok(value) = event_target_value(&event).parse() {
            oil.set(value);
        }
    };
    view! {
        <p class="field">
            <label for="oil">"Readings with the oil at "{shown}</label>
            <input id="oil" type="range" min=thermometer::RANGE.0 max=thermometer::RANGE.1 step="5"
                prop:value=move || oil.get().to_string() aria-valuetext=shown on:change=moved/>
        </p>
    }
}
