//! Numbers that open: each figure of a sentence is a button, and what it was worked out from opens in place below. And what
//! helps where nothing can be said yet.

use super::breath::{Breath, breathe};
use super::circuit::Setting;
use super::place::Part as Shown;
use super::route::Route;
use super::state::app;
use crate::pairing::reasoning::{BrochureFigure, PointFigure};
use crate::pairing::settle::{first_to_find_out, settles_in_stretches};
use crate::pairing::{CheckId, Pairing, Stage};
use crate::quantity::Named;
use crate::wording::{FormulaText, InputText, Part, ReasoningText};
use leptos::ev::{KeyboardEvent, MouseEvent};
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::sync::Arc;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// What a number is of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Whence {
    /// A check on the machine of a stage.
    Check(CheckId, Stage),
    /// An operating point, oil and load at work, of the machine of a stage.
    Point(PointFigure, Stage),
    /// What is left of a brochure's figure.
    Brochure(BrochureFigure),
}

/// The place of the button that is no figure.
const HOW: usize = usize::MAX;

/// A place where numbers open: one at a time, in one panel.
#[derive(Clone, Copy)]
pub struct Opener {
    id: StoredValue<String>,
    /// The button that opened it, and what of.
    open: RwSignal<Option<(usize, Whence)>>,
    /// To which the focus goes back.
    button: StoredValue<Option<HtmlElement>, LocalStorage>,
}

impl Opener {
    /// A place with a panel of this id.
    pub fn new(id: String) -> Self {
        Self { id: StoredValue::new(id), open: RwSignal::new(None), button: StoredValue::new_local(None) }
    }

    /// A figure that opens; `place` tells it from the others here.
    pub fn number(self, place: usize, whence: Whence, text: String) -> impl IntoView {
        view! {
            <button type="button" class="number" aria-expanded=move || self.expanded(place) aria-controls=self.id.get_value()
                on:click=move |event| self.press(&event, place, whence)>{text}</button>
        }
    }

    /// The button below a check; `of` tells a screen reader what it is about.
    pub fn how(self, whence: Whence, of: &'static str) -> impl IntoView {
        let app = app();
        view! {
            <button type="button" class="how quiet no-print" aria-expanded=move || self.expanded(HOW) aria-controls=self.id.get_value()
                on:click=move |event| self.press(&event, HOW, whence)>
                {move || app.words().reasoning_opens()}<span class="unseen">{format!(": {of}")}</span>
            </button>
        }
    }

    /// Closes it, without moving the focus.
    pub fn close(self) {
        self.open.set(None);
    }

    fn expanded(self, place: usize) -> String {
        self.open.get().is_some_and(|(open, _)| open == place).to_string()
    }

    fn press(self, event: &MouseEvent, place: usize, whence: Whence) {
        self.button.set_value(event.current_target().and_then(|target| target.dyn_into().ok()));
        let closes = self.open.get_untracked().is_some_and(|(open, _)| open == place);
        self.open.set((!closes).then_some((place, whence)));
    }

    /// Closes it from inside: the focus goes back to where it came from.
    fn leave(self) {
        self.close();
        self.button.with_value(|button| {
            if let Some(button) = button {
                // Gone with what it stood in, it takes no focus.
                let _ = button.focus();
            }
        });
    }
}

/// A sentence whose figures open.
#[component]
pub fn Told(
    /// Its pieces.
    #[prop(into)]
    parts: Signal<Vec<Part>>,
    /// Where its figures open.
    opener: Opener,
) -> impl IntoView {
    let piece = move |(place, part): (usize, Part)| match part {
        Part::Text(text) => text.into_any(),
        Part::Figure { text, check, stage } => opener.number(place, Whence::Check(check, stage), text).into_any(),
    };
    view! { <p class="told">{move || parts.get().into_iter().enumerate().map(piece).collect_view()}</p> }
}

/// What a number was worked out from.
#[component]
pub fn Panel(
    /// The place.
    opener: Opener,
    /// What the sheet is about.
    setting: StoredValue<Setting>,
) -> impl IntoView {
    let app = app();
    let why = Memo::new(move |_| {
        let (_, whence) = opener.open.get()?;
        setting.with_value(|setting| setting.why(whence))
    });
    let keys = move |event: KeyboardEvent| {
        if event.key() == "Escape" {
            event.prevent_default();
            opener.leave();
        }
    };
    view! {
        <div id=opener.id.get_value() class="why" role="group" aria-label=move || app.words().reasoning_opens()
            hidden=move || opener.open.get().is_none() on:keydown=keys>
            {move || why.get().map(|why| {
                let ReasoningText { formulas, inputs, result } = app.words().reasoning(&why);
                let mut formulas = formulas.into_iter();
                let (first, others) = (formulas.next(), formulas.collect::<Vec<_>>());
                let count = others.len();
                view! {
                    <p class="name">{app.words().reasoning_opens()}</p>
                    <ul class="formulas">{first.map(|formula| view! { <Relation formula/> })}</ul>
                    {(count > 0).then(|| view! {
                        <details>
                            <summary>{if count == 1 { "With 1 more relation".to_owned() } else { format!("With {count} more relations") }}</summary>
                            <ul class="formulas">{others.into_iter().map(|formula| view! { <Relation formula/> }).collect_view()}</ul>
                        </details>
                    })}
                    {(!inputs.is_empty()).then(|| view! {
                        <p class="name">"What went into it"</p>
                        <ul class="inputs">{inputs.into_iter().map(|input| view! { <Input input/> }).collect_view()}</ul>
                    })}
                    {(!result.is_empty()).then(|| view! {
                        <p class="name">"What came out"</p>
                        <p>{result.join(" ")}</p>
                    })}
                    <button type="button" class="quiet no-print" on:click=move |_| opener.leave()>"Close"</button>
                }
            })}
        </div>
    }
}

/// A relation with its source.
#[component]
fn Relation(
    /// The relation.
    formula: FormulaText,
) -> impl IntoView {
    let FormulaText { line, symbols, holds, source } = formula;
    // A rule is a sentence, a relation is written in figures.
    let class = if symbols.is_empty() { "" } else { "formula" };
    view! {
        <li>
            <p class=class>{line}</p>
            {(!symbols.is_empty()).then(|| view! { <p class="quiet">{symbols}"."</p> })}
            {(!holds.is_empty()).then(|| view! { <p class="quiet">{holds}</p> })}
            <p class="quiet">"Source: "{source}</p>
        </li>
    }
}

/// An input with who says so.
#[component]
fn Input(
    /// The input.
    input: InputText,
) -> impl IntoView {
    let InputText { name, value, source } = input;
    view! { <li>{name}": "<strong>{value}</strong><span class="quiet">" ("{source}")"</span></li> }
}

/// Where nothing can be said yet: the one fact to find out first, and what it decides.
#[component]
pub fn SettleFirst(
    /// The pairing.
    pairing: StoredValue<Arc<Pairing>>,
    /// What the sheet is about.
    setting: StoredValue<Setting>,
) -> impl IntoView {
    let app = app();
    let first = pairing.with_value(|pairing| first_to_find_out(pairing))?;
    // A plate holds facts of the machine alone.
    let of_machine = first.fact.is_of_machine();
    // What it decides is found by pairing again many times: the box stands first.
    let (settling, working) = (RwSignal::new(first), RwSignal::new(true));
    spawn_local(async move {
        breathe().await;
        let Some(of) = setting.try_with_value(Setting::to_settle) else { return };
        let Some(pairing) = pairing.try_get_value() else { return };
        let found = settles_in_stretches(&of.0, &of.1, &of.2, &pairing, &Breath::new()).await;
        if let Some(found) = found {
            settling.try_set(found);
        }
        working.try_set(false);
    });
    let (id, class) = setting.with_value(Setting::of_machine);
    let plate = move || {
        let own =
            app.own.with(|plates| plates.iter().find(|plate| plate.carrier_id() == id).map(|plate| plate.id.clone()));
        (of_machine && app.shows(Shown::Own)).then(|| match own {
            Some(id) => view! { <a class="button" href=app.href(&Route::Plate { id })>"Write it on its spec plate"</a> },
            None => view! {
                <a class="button" href=app.href(&Route::new_plate(class.name()))>"Describe a machine of your own of this class"</a>
            },
        })
    };
    let text = move || {
        let text = app.words().settling(&settling.get());
        view! {
            <p class="name">{text.first}</p>
            <p>{text.place}</p>
            <div class="turns" aria-busy=move || working.get().to_string()>
                {working.get().then(|| view! { <p class="quiet">{app.words().working_it_out()}</p> })}
                {text.turns.into_iter().map(|turn| view! { <p>{turn}</p> }).collect_view()}
            </div>
            {text.more.map(|more| view! {
                <details>
                    <summary>{more}</summary>
                    <ul>{text.others.into_iter().map(|other| view! { <li>{other}</li> }).collect_view()}</ul>
                </details>
            })}
        }
    };
    Some(view! {
        <section class="settling" aria-labelledby="settling">
            <h2 id="settling">"What would settle it"</h2>
            {text}
            <p class="actions">{plate}</p>
        </section>
    })
}
