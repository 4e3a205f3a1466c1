//! Draws any document: the one renderer of what the core says. A document is drawn by plain calls, and what stands on the screen is
//! brought in line with it, so that folds stay open and the focus stays where it is when units, oil or figures change.

mod draw;
mod patch;

use super::setting::Setting;
use super::state::app;
use document::{Block, Look, figures, reasoning};
use draw::{Drawn, Opened};
use explain::FigureId;
use leptos::ev::{KeyboardEvent, MouseEvent};
use leptos::html::Div;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::{Element, HtmlElement, ScrollIntoViewOptions, ScrollLogicalPosition};

/// What is open in a document: which of its figures, counted from the first.
type Open = Option<usize>;

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
    /// What those of a table are of, by its columns.
    #[prop(optional)]
    columns: Vec<StoredValue<Setting>>,
) -> impl IntoView {
    let app = app();
    let place = NodeRef::<Div>::new();
    let open = RwSignal::new(Open::None);
    // How many figures there were, and what the open one was of.
    let was = StoredValue::new(None::<(usize, (usize, FigureId))>);
    Effect::new(move |before: Option<Open>| {
        let (place, blocks, words) = (place.get()?, blocks.get(), app.words());
        let all: Vec<_> = figures(&blocks).collect();
        // What was open may be gone, or stand elsewhere as rows have come or gone.
        let stood = was.try_get_value().flatten().filter(|(count, _)| *count != all.len());
        let now = open.get().and_then(|at| match stood {
            Some((_, of)) => all.iter().position(|figure| *figure == of).map(|at| (at, of)),
            None => all.get(at).map(|of| (at, *of)),
        });
        was.set_value(now.map(|(_, of)| (all.len(), of)));
        if open.get_untracked() != now.map(|(at, _)| at) {
            open.set(now.map(|(at, _)| at));
        }
        let opened = now.map(|(at, of)| {
            let (column, of) = of;
            let setting = columns.get(column).copied().unwrap_or(setting);
            let why = setting.try_with_value(|setting| setting.why(of)).flatten();
            let blocks = why.map_or_else(
                || vec![Block::says(Look::Plain, "It cannot be said here: the checks tell what is missing.")],
                |why| reasoning(words.reasoning(&why)),
            );
            Opened { at, title: words.reasoning_opens(), blocks }
        });
        let now = now.map(|(at, _)| at);
        let drawn = Drawn::of(&blocks, name, opened);
        patch::children(&place, &drawn);
        if now.is_some() && now != before.flatten() {
            show(&place);
        }
        now
    });
    let press = move |event: MouseEvent| {
        let Some(pressed) = event.target().and_then(|target| target.dyn_into::<Element>().ok()) else { return };
        if pressed.closest("[data-close]").ok().flatten().is_some() {
            leave(place, open);
        } else if let Some(at) = figure(&pressed) {
            open.update(|open| *open = Some(at).filter(|_| *open != Some(at)));
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

/// Which figure is meant, counted from the first of its document: that which is pressed, or the only one of a row.
fn figure(pressed: &Element) -> Option<usize> {
    let figure = pressed.closest("[data-figure]").ok()?.or_else(|| only_one_of_row(pressed));
    figure?.get_attribute("data-figure")?.parse().ok()
}

/// The only figure of the row that was pressed: a figure is small, its row is what a thumb meets.
fn only_one_of_row(pressed: &Element) -> Option<Element> {
    if pressed.closest(".why, a, button, input, summary").ok()?.is_some() {
        return None;
    }
    let row = pressed.closest(".prove > li, .facts > div").ok()??;
    let figures = row.query_selector_all("[data-figure]").ok()?;
    (figures.length() == 1).then(|| figures.item(0)?.dyn_into().ok())?
}

/// Brings what has just been opened into sight.
fn show(place: &Element) {
    // In a table, which scrolls within its own frame, what stands above stays where it is.
    if let Ok(Some(panel)) = place.query_selector(".why")
        && panel.closest("table").ok().flatten().is_none()
    {
        let to = ScrollIntoViewOptions::new();
        to.set_block(ScrollLogicalPosition::Nearest);
        panel.scroll_into_view_with_scroll_into_view_options(&to);
    }
}

/// Closes what is open; the focus goes back to its figure.
fn leave(place: NodeRef<Div>, open: RwSignal<Open>) {
    let Some(at) = open.get_untracked() else { return };
    open.set(None);
    let figure = place.get_untracked().and_then(|it| it.query_selector(&format!("[data-figure=\"{at}\"]")).ok()?);
    if let Some(figure) = figure.and_then(|figure| figure.dyn_into::<HtmlElement>().ok()) {
        // Gone meanwhile, it takes no focus.
        let _ = figure.focus();
    }
}
