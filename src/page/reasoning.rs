//! Numbers that open: each figure of a sentence is a button, and what it was worked out from opens in place below.

use super::document::Plain;
use super::setting::Setting;
use super::state::app;
use document::reasoning;
use explain::FigureId;
use leptos::ev::KeyboardEvent;
use leptos::html::Div;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Document, DocumentFragment, HtmlElement, Node};
use wording::Part;

/// The place of the button that is no figure.
const HOW: usize = usize::MAX;

/// What is open: in which place, what it is of, and whose.
#[derive(Clone, Copy, PartialEq)]
struct Open {
    place: usize,
    of: FigureId,
    setting: StoredValue<Setting>,
}

/// A place where numbers open: one at a time, in one panel.
#[derive(Clone, Copy)]
pub struct Opener {
    id: StoredValue<String>,
    open: RwSignal<Option<Open>>,
}

impl Opener {
    /// A place with a panel of this id.
    pub fn new(id: String) -> Self {
        Self { id: StoredValue::new(id), open: RwSignal::new(None) }
    }

    /// A figure that opens; `place` tells it from the others here.
    pub fn number(self, setting: StoredValue<Setting>, place: usize, of: FigureId, text: String) -> impl IntoView {
        let open = Open { place, of, setting };
        view! {
            <button type="button" class="number" aria-expanded=move || self.expanded(place) aria-controls=self.id.get_value()
                on:click=move |_| self.press(open) on:keydown=move |event| self.keys(&event)>{text}</button>
        }
    }

    /// Pieces of text whose figures open, in places from `first` on.
    pub fn pieces(self, setting: StoredValue<Setting>, first: usize, parts: Vec<Part>) -> AnyView {
        let piece = move |(place, part): (usize, Part)| match part {
            Part::Text(text) => text.into_any(),
            Part::Figure { text, of } => self.number(setting, first + place, of, text).into_any(),
        };
        parts.into_iter().enumerate().map(piece).collect_view().into_any()
    }

    /// The button below a check; `about` tells a screen reader what it is about.
    pub fn how(self, setting: StoredValue<Setting>, of: FigureId, about: &'static str) -> impl IntoView {
        let app = app();
        let open = Open { place: HOW, of, setting };
        view! {
            <button type="button" class="how quiet no-print" aria-expanded=move || self.expanded(HOW) aria-controls=self.id.get_value()
                on:click=move |_| self.press(open)>
                {move || app.words().reasoning_opens()}<span class="unseen">{format!(": {about}")}</span>
            </button>
        }
    }

    /// Closes it, without moving the focus.
    pub fn close(self) {
        self.open.set(None);
    }

    /// What is open is of something else now, in the same place.
    pub fn follow(self, to: impl Fn(FigureId) -> FigureId) {
        if let Some(open) = self.open.get_untracked() {
            self.open.set(Some(Open { of: to(open.of), ..open }));
        }
    }

    /// Whether what is open stands in one of these places.
    pub fn is_within(self, from: usize, to: usize) -> bool {
        self.open.with(|open| open.is_some_and(|open| (from..to).contains(&open.place)))
    }

    fn expanded(self, place: usize) -> String {
        self.open.with(|open| open.is_some_and(|open| open.place == place)).to_string()
    }

    fn press(self, pressed: Open) {
        let closes = self.open.with_untracked(|open| open.is_some_and(|open| open.place == pressed.place));
        self.open.set((!closes).then_some(pressed));
    }

    /// Escape closes it, in its panel and on its numbers.
    fn keys(self, event: &KeyboardEvent) {
        if event.key() == "Escape" && self.open.with_untracked(Option::is_some) {
            event.prevent_default();
            self.leave(event.current_target().and_then(|target| target.dyn_into().ok()).as_ref());
        }
    }

    /// Closes it from inside: the focus goes back to where it came from. Its button may have been drawn anew meanwhile, in other units
    /// or for another oil, so that it is looked for.
    fn leave(self, from: Option<&Node>) {
        let expanded = format!("[aria-controls=\"{}\"][aria-expanded=\"true\"]", self.id.get_value());
        let button = from.map(Node::get_root_node).and_then(|root| match root.dyn_ref::<Document>() {
            Some(document) => document.query_selector(&expanded).ok()?,
            // Within an element the root is its shadow.
            None => root.dyn_ref::<DocumentFragment>()?.query_selector(&expanded).ok()?,
        });
        self.close();
        if let Some(button) = button.and_then(|button| button.dyn_into::<HtmlElement>().ok()) {
            // Gone with what it stood in, it takes no focus.
            let _ = button.focus();
        }
    }
}

/// What a number was worked out from, there only while a number of these places is open: where one opener has many rows, it opens below
/// its row.
#[component]
pub fn PanelWithin(
    /// The place.
    opener: Opener,
    /// The first place of the row.
    from: usize,
    /// The first behind it.
    to: usize,
) -> impl IntoView {
    let here = Memo::new(move |_| opener.is_within(from, to));
    move || here.get().then(|| view! { <Panel opener/> })
}

/// What a number was worked out from.
#[component]
pub fn Panel(
    /// The place.
    opener: Opener,
) -> impl IntoView {
    let app = app();
    let panel = NodeRef::<Div>::new();
    let open = Memo::new(move |_| opener.open.get());
    // A number of what has just been taken out has nothing to tell any more.
    let why = Memo::new(move |_| {
        open.get().map(|open| open.setting.try_with_value(|setting| setting.why(open.of)).flatten())
    });
    let leave = move |_| opener.leave(panel.get_untracked().as_deref().map(AsRef::as_ref));
    view! {
        <div id=opener.id.get_value() class="why" role="group" aria-label=move || app.words().reasoning_opens()
            hidden=move || opener.open.get().is_none() on:keydown=move |event| opener.keys(&event) node_ref=panel>
            {move || why.get().map(|why| view! {
                <p class="name">{app.words().reasoning_opens()}</p>
                {match why {
                    Some(why) => view! { <Plain blocks=reasoning(app.words().reasoning(&why))/> }.into_any(),
                    None => view! { <p>"It cannot be said here: the checks tell what is missing."</p> }.into_any(),
                }}
                <button type="button" class="quiet no-print" on:click=leave>"Close"</button>
            })}
        </div>
    }
}
