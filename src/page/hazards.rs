//! What kills, at the top of a sheet or comparison, on screen and on paper.

use super::state::app;
use super::svg::Sign;
use fit::Pairing;
use leptos::prelude::*;
use std::sync::Arc;

/// What kills with one attachment or several, each with its sign.
#[component]
pub fn Hazards(pairings: Vec<Arc<Pairing>>) -> impl IntoView {
    let app = app();
    let section = move || {
        let of: Vec<&Pairing> = pairings.iter().map(AsRef::as_ref).collect();
        app.words().hazards(&of)
    };
    move || {
        section().map(|section| {
            view! {
                <section class="hazards" aria-labelledby="hazards">
                    <h2 id="hazards">{section.title}</h2>
                    <ul class="cautions">
                        {section.lines.into_iter().map(|line| view! {
                            <li>{line.sign.map(|sign| view! { <Sign sign/> })}{line.title}</li>
                        }).collect_view()}
                    </ul>
                </section>
            }
        })
    }
}
