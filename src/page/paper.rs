//! Sheets of paper: what a fitter works from, and one page for a customer. What stands on them is `wording`'s; here it is
//! laid out for screen and print, with a title block as on a drawing.

use super::breath::{Breath, breathe};
use super::circuit::{celsius, in_celsius};
use super::document::Document;
use super::drawings::Dials;
use super::loaded::Loaded;
use super::names::label;
use super::path::PathToMachines;
use super::route::{Route, Whose};
use super::setting::Setting;
use super::solved::of_pairing;
use super::state::{App, app};
use super::svg::Mark;
use super::time;
use super::whose_figures::WhoseFigures;
use document::{Block, paper};
use drawing::thermometer;
use explain::settle::settles_in_stretches;
use fit::{Pairing, Verdict};
use leptos::html::Article;
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::HtmlElement;
use quantity::Amount;
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
    let (back, other) = (
        app.href(&Route::sheet(machine.id.as_str(), attachment.id.as_str())),
        app.href(&Route::paper(machine.id.as_str(), attachment.id.as_str(), whose.other())),
    );
    let sheets = {
        let (loaded, pairing, machine, attachment) =
            (loaded.clone(), pairing.clone(), machine.clone(), attachment.clone());
        // Solved anew for another oil, and not for other units.
        Memo::new(move |_| Sheets::at(&pairing, &machine, &attachment, &loaded.conditions, celsius(oil.get())))
    };
    // What either answer to an open question comes to is found by pairing again many times: the rest stands first.
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
    let blocks = Signal::derive(move || {
        let pairing = told.get();
        sheets.with(|sheets| match whose {
            Whose::Customer => paper(vec![app.words().for_customer(&pairing, sheets)], false),
            Whose::Fitter => paper(app.words().sheets(&pairing, sheets), true),
        })
    });
    let verdict = pairing.verdict;
    let place = NodeRef::<Article>::new();
    let setting = StoredValue::new(Setting::new(&pairing, &machine, &attachment, loaded.conditions.clone()));
    view! {
        <div class="path no-print"><PathToMachines/>" / "<a href=back>{names.1.clone()}" on "{names.0.clone()}</a></div>
        <div class="tools no-print">
            <p class="actions">
                <button type="button" class="strong" on:click=move |_| { let _ = window().print(); }>"Print it"</button>
                <a class="button" href=other>{whose.other().title()}</a>
            </p>
            {(whose == Whose::Fitter).then(|| view! { <Oil app oil/> })}
        </div>
        {(whose == Whose::Fitter).then(|| view! { <Index blocks place/> })}
        <article class="paper" node_ref=place>
            <header>
                <Invented loaded=loaded.clone()/>
                <h1 tabindex="-1">{whose.title()}": "{names.1.clone()}<span class="on">" on "</span>{names.0.clone()}</h1>
                <p class="sentence-of-paper"><Mark verdict/><span>{move || told.with(|pairing| app.words().to_send(pairing))}</span></p>
                <WhoseFigures carriers=vec![machine.id.to_string()]/>
            </header>
            <Document name="paper" blocks setting/>
            {(whose == Whose::Fitter).then(|| view! {
                <Dials sheets/>
                <Signed/>
            })}
            <TitleBlock loaded machine attachment title=whose.title()/>
        </article>
    }
}

/// The parts of a long paper, each leading to its own, on the screen alone.
#[component]
fn Index(blocks: Signal<Vec<Block>>, place: NodeRef<Article>) -> impl IntoView {
    let titles = Memo::new(move |_| {
        let title = |block: Block| if let Block::Heading { text, .. } = block { Some(text) } else { None };
        blocks.get().into_iter().filter_map(title).collect::<Vec<_>>()
    });
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

/// Who did it and when, by hand.
#[component]
pub fn Signed() -> impl IntoView {
    view! {
        <dl class="block signed">
            {["Changed by, date", "Set and proved by, date", "Hours on the clock", "Handed over to"].map(|what| view! {
                <div><dt>{what}</dt><dd></dd></div>
            })}
        </dl>
    }
}

/// What this paper is about and what it rests on, as at the foot of a drawing.
#[component]
#[allow(clippy::needless_pass_by_value)] // A prop is owned.
pub fn TitleBlock(loaded: Arc<Loaded>, machine: Carrier, attachment: Head, title: &'static str) -> impl IntoView {
    let date = loaded.table.date.map(|date| format!(", {}", super::time::day(&date.to_string()))).unwrap_or_default();
    view! {
        <dl class="block">
            <div><dt>"Machine"</dt><dd>{label(machine.maker.as_ref(), &machine.model)}</dd></div>
            <div><dt>"Attachment"</dt><dd>{label(attachment.maker.as_ref(), &attachment.model)}</dd></div>
            <div><dt>"Sheet"</dt><dd>{title}</dd></div>
            <div><dt>"Made"</dt><dd>{time::shown(&time::now())}</dd></div>
            <div><dt>"Table"</dt><dd>{loaded.table.title.clone()}{date}</dd></div>
            <div><dt>"State of the table"</dt><dd>{loaded.mark.clone()}</dd></div>
            <div><dt>"Solved by"</dt><dd>"Pairwright "{env!("CARGO_PKG_VERSION")}</dd></div>
        </dl>
    }
}
