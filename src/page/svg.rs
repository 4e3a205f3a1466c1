//! Shapes of `drawing` as SVG.

use crate::drawing::{self, Margin, Qr};
use crate::pairing::{Check, Verdict};
use crate::quantity::Named;
use leptos::prelude::*;

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

/// Width of a dimension line in user units.
const WIDE: f64 = 240.0;

/// A margin as a dimension line; the numbers stand in the text beside it.
pub fn margin_line(check: &Check) -> impl IntoView + use<> {
    drawing::margin(check).map(|margin| {
        let at = |place: f64| 6.0 + place * (WIDE - 12.0);
        let Margin { limit, worst, value, right_is_good, good, cut } = margin;
        let (limit, worst) = (at(limit), at(worst));
        let (from, to) = if limit < worst { (limit, worst) } else { (worst, limit) };
        let arrow = |x: f64, towards: f64| format!("M{x} 15L{} 12M{x} 15L{} 18", x + 5.0 * towards, x + 5.0 * towards);
        // Arrows point outwards on a narrow gap, as on a drawing.
        let inwards = if to - from > 16.0 { 1.0 } else { -1.0 };
        let shade = if right_is_good { format!("M{limit} 24H{}", WIDE - 6.0) } else { format!("M6 24H{limit}") };
        view! {
            <svg class="margin" class:bad=!good viewBox=format!("0 0 {WIDE} 30") aria-hidden="true">
                <path class="axis" d=format!("M6 24H{}", WIDE - 6.0)/>
                <path class="allowed" d=shade/>
                <path class="limit" d=format!("M{limit} 4V28")/>
                <path class="worst" d=format!("M{worst} 9V28")/>
                <path class="gap" d=format!("M{from} 15H{to}{}{}", arrow(from, inwards), arrow(to, -inwards))/>
                {value.map(|value| view! { <circle class="value" cx=at(value) cy="24" r="2.6"/> })}
                {cut.then(|| view! { <path class="axis" d=format!("M{} 20l3 4-3 4M{} 20l3 4-3 4", WIDE - 14.0, WIDE - 9.0)/> })}
            </svg>
        }
    })
}
