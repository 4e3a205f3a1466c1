//! Shapes of `drawing` as SVG.

use drawing::{self, Picture, Qr};
use fit::{Check, Verdict};
use leptos::prelude::*;
use quantity::Named;

/// The joint mark of a verdict. Words stand beside it, so it is hidden from screen readers.
#[component]
pub fn Mark(verdict: Verdict) -> impl IntoView {
    let paths = drawing::mark(verdict).paths;
    view! {
        <svg class="mark" viewBox="0 0 32 24" width="32" height="24" aria-hidden="true">
            {paths.into_iter().map(|(path, stroke)| view! { <path d=path class=stroke.name()/> }).collect_view()}
        </svg>
    }
}

/// A code to be scanned: dark on light in every theme, as scanners need it.
#[component]
pub fn QrCode(code: Qr) -> impl IntoView {
    view! {
        <svg class="qr" viewBox=format!("0 0 {0} {0}", code.side) role="img" aria-label="The link as a code to be scanned">
            <rect width=code.side height=code.side/>
            <path d=code.path shape-rendering="crispEdges"/>
        </svg>
    }
}

/// A margin as a dimension line; the numbers stand in the text beside it.
pub fn margin_line(check: &Check) -> impl IntoView + use<> {
    drawing::margin_line(check).map(plain)
}

/// A picture without words, which stand beside it: hidden from screen readers.
#[allow(clippy::needless_pass_by_value)] // It is drawn and gone.
pub fn plain(picture: Picture) -> impl IntoView + use<> {
    view! {
        <svg class="margin drawing" viewBox=format!("0 0 {} {}", picture.width, picture.height) aria-hidden="true">
            {picture.paths.into_iter().map(|path| view! { <path d=path.d class=path.stroke.name()/> }).collect_view()}
        </svg>
    }
}
