//! The running head of printed pages: in the margins where the browser has boxes for it, else repeated at the top of each page like the head
//! of a table. `@page` has no effect within an element, so papers are shown by the app as a page of its own alone.

use document::RunningHead;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::{CssStyleSheet, window};

/// Puts it at the edge of every page that is printed while this lives.
pub fn running(head: Signal<RunningHead>) {
    if !has_margin_boxes() {
        return;
    }
    let place = StoredValue::new(None::<u32>);
    let clear = move || {
        if let (Some(at), Some(sheet)) = (place.try_update_value(Option::take).flatten(), style()) {
            let _ = sheet.delete_rule(at);
        }
    };
    Effect::new(move |_| {
        let rule = rule(&head.get());
        clear();
        let Some(sheet) = style() else { return };
        let end = sheet.css_rules().map_or(0, |rules| rules.length());
        place.set_value(sheet.insert_rule_with_index(&rule, end).ok());
    });
    on_cleanup(clear);
}

/// Whether the margins of a page can hold something (Chromium from 131 on).
pub fn has_margin_boxes() -> bool {
    window().is_some_and(|window| js_sys::Reflect::has(&window, &"CSSMarginRule".into()).unwrap_or(false))
}

/// The app's own style sheet.
fn style() -> Option<CssStyleSheet> {
    document().style_sheets().get(0)?.dyn_into().ok()
}

fn rule(head: &RunningHead) -> String {
    let both = |[first, second]: &[String; 2]| format!("{} \"\\A\" {}", quoted(first), quoted(second));
    format!(
        "@page {{ @top-left {{ content: {}; }} @top-right {{ content: {}; }} @bottom-left {{ content: {}; }} }}",
        both(&head.start),
        both(&head.end),
        quoted(&head.foot)
    )
}

/// A text as a string of a style sheet.
fn quoted(text: &str) -> String {
    let one = |c: char| match c {
        '"' | '\\' => format!("\\{:x} ", u32::from(c)),
        c if c.is_control() => " ".to_owned(),
        c => c.to_string(),
    };
    format!("\"{}\"", text.chars().map(one).collect::<String>())
}

/// The running head at the top of each page, for browsers without boxes in the margins.
#[component]
pub fn Repeated(head: Signal<RunningHead>) -> impl IntoView {
    (!has_margin_boxes()).then(|| {
        view! {
            <div class="running">
                <p>{move || head.with(|head| head.start.join(" · "))}</p>
                <p>{move || head.with(|head| format!("{} · {}", head.end.join(" · "), head.foot))}</p>
            </div>
        }
    })
}
