//! Draws any document: the one renderer of what the core says. A document is drawn by plain calls, and what stands on the screen is
//! brought in line with it, so that folds stay open and the focus stays where it is when units, oil or figures change.

mod draw;
mod patch;

use super::setting::Setting;
use super::state::app;
use document::{Block, reasoning};
use draw::{Drawn, Opened};
use explain::FigureId;
use leptos::ev::{KeyboardEvent, MouseEvent};
use leptos::html::Div;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::{Element, HtmlElement, ScrollIntoViewOptions, ScrollLogicalPosition};

/// What is open in a document: which of its figures, counted from the first, and what that is of.
type Open = Option<(usize, FigureId)>;

/// A document. One of its figures at a time opens its reasoning, below its line.
#[component]
pub fn Document(
    /// A name for it, unique on the screen.
    name: &'static str,
    /// What it says.
    #[prop(into)]
    blocks: Signal<Vec<Block>>,
    /// What its figures are of.
    setting: StoredValue<Setting>,
) -> impl IntoView {
    let app = app();
    let place = NodeRef::<Div>::new();
    let open = RwSignal::new(None::<(usize, FigureId)>);
    Effect::new(move |before: Option<Open>| {
        let (Some(place), blocks, mut now) = (place.get(), blocks.get(), open.get()) else { return None };
        // What was open may be gone, or another figure may stand in its place.
        let of = |at: usize| blocks.iter().flat_map(Block::spans).flatten().filter_map(document::Span::of).nth(at);
        now = now.and_then(|(at, _)| Some((at, of(at)?)));
        let words = app.words();
        let why = now.and_then(|(_, of)| setting.try_with_value(|setting| setting.why(of)).flatten());
        let opened = now.map(|(at, _)| Opened {
            at,
            title: words.reasoning_opens(),
            blocks: why.map_or_else(
                || vec![Block::says(document::Look::Plain, "It cannot be said here: the checks tell what is missing.")],
                |why| reasoning(words.reasoning(&why)),
            ),
        });
        let drawn = Drawn::of(&blocks, name, opened);
        patch::children(&place, &drawn);
        if now.is_some() && now.map(|(at, _)| at) != before.flatten().map(|(at, _)| at) {
            show(&place);
        }
        now
    });
    let press = move |event: MouseEvent| {
        let Some(pressed) = event.target().and_then(|target| target.dyn_into::<Element>().ok()) else { return };
        if pressed.closest("[data-close]").ok().flatten().is_some() {
            leave(place, open);
        } else if let Some(at) = figure(&pressed) {
            let of = blocks.with_untracked(|blocks| {
                blocks.iter().flat_map(Block::spans).flatten().filter_map(document::Span::of).nth(at)
            });
            open.update(|open| *open = if open.is_some_and(|open| open.0 == at) { None } else { Some(at).zip(of) });
        }
    };
    // Escape closes it, on its figure and within.
    let keys = move |event: KeyboardEvent| {
        if event.key() == "Escape" && open.with_untracked(Option::is_some) {
            event.prevent_default();
            leave(place, open);
        }
    };
    view! { <div class="document" node_ref=place on:click=press on:keydown=keys></div> }
}

/// A document without figures that open.
#[component]
pub fn Plain(
    /// What it says.
    #[prop(into)]
    blocks: Signal<Vec<Block>>,
) -> impl IntoView {
    let place = NodeRef::<Div>::new();
    Effect::new(move |_| {
        if let Some(place) = place.get() {
            patch::children(&place, &Drawn::of(&blocks.get(), "plain", None));
        }
    });
    view! { <div node_ref=place></div> }
}

/// Which figure an element is in, counted from the first of its document.
fn figure(pressed: &Element) -> Option<usize> {
    pressed.closest("[data-figure]").ok()??.get_attribute("data-figure")?.parse().ok()
}

/// Brings what has just been opened into sight.
fn show(place: &Element) {
    if let Ok(Some(panel)) = place.query_selector(".why") {
        let to = ScrollIntoViewOptions::new();
        to.set_block(ScrollLogicalPosition::Nearest);
        panel.scroll_into_view_with_scroll_into_view_options(&to);
    }
}

/// Closes what is open; the focus goes back to its figure.
fn leave(place: NodeRef<Div>, open: RwSignal<Open>) {
    let Some((at, _)) = open.get_untracked() else { return };
    open.set(None);
    let figure = place.get_untracked().and_then(|it| it.query_selector(&format!("[data-figure=\"{at}\"]")).ok()?);
    if let Some(figure) = figure.and_then(|figure| figure.dyn_into::<HtmlElement>().ok()) {
        // Gone meanwhile, it takes no focus.
        let _ = figure.focus();
    }
}
