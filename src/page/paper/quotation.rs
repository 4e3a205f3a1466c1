//! The quotation of several pairings, on two pages.

use super::letter::{self, Dealer, Offered, letter};
use super::{Invented, given};
use crate::page::document::Plain;
use crate::page::loaded::Loaded;
use crate::page::local_storage;
use crate::page::missing::NoTable;
use crate::page::route::{Pair, Route};
use crate::page::running::{Repeated, running};
use crate::page::solved::Solved;
use crate::page::state::{MOST_COMPARED, app};
use crate::page::time;
use document::{Papers, RunningHead, quotation_of};
use leptos::prelude::*;
use record::JobMarks;
use std::sync::Arc;
use table::{Carrier, Head};
use workshop::Sheets;

/// The screen.
#[component]
pub fn Quotation(pairs: Vec<Pair>) -> impl IntoView {
    let app = app();
    move || {
        let Some(loaded) = app.table() else {
            return view! { <h1 tabindex="-1">"Quotation"</h1><NoTable/> }.into_any();
        };
        let both = |(carrier, head): &Pair| Some((app.carrier(&loaded, carrier)?, loaded.table.head(head)?.clone()));
        let known: Vec<_> = pairs.iter().filter_map(both).take(MOST_COMPARED).collect();
        if known.is_empty() {
            return view! { <h1 tabindex="-1">"Quotation"</h1><p>"None of these pairings is in the table in use."</p> }
                .into_any();
        }
        let (of, back) = (loaded.clone(), app.href(&Route::compare(&pairs)));
        view! {
            <Solved loaded pairs=known.clone() title="Quotation"
                show=move || view! { <Sheet loaded=of.clone() known=known.clone() back=back.clone()/> }.into_any()/>
        }
        .into_any()
    }
}

/// A machine and an attachment with all that their papers are made from.
struct Made {
    carrier: Carrier,
    head: Head,
    pairing: Arc<fit::Pairing>,
    sheets: Sheets,
    given: document::Given,
}

#[component]
fn Sheet(loaded: Arc<Loaded>, known: Vec<(Carrier, Head)>, back: String) -> impl IntoView {
    let app = app();
    app.host.title("Quotation");
    let now = time::shown(&time::now());
    let made = known.into_iter().map(|(carrier, head)| {
        let pairing = app.pairing(&loaded, &carrier, &head);
        let sheets = Sheets::of(&pairing, &carrier, &head, &loaded.conditions);
        let kept = local_storage::preference(&JobMarks::preference(carrier.id.as_str(), head.id.as_str()));
        let given = given(&loaded, &kept.map(|text| JobMarks::decode(&text)).unwrap_or_default(), &now);
        Made { carrier, head, pairing, sheets, given }
    });
    let made = StoredValue::new(made.collect::<Vec<_>>());
    let (own, offered) = (RwSignal::new(letter::kept()), Offered::fresh());
    let of = loaded.clone();
    let blocks = Signal::derive(move || {
        let (words, letter) = (app.words(), letter(&own.get(), &of, &offered));
        made.with_value(|made| {
            let papers: Vec<_> = made
                .iter()
                .map(|Made { carrier, head, pairing, sheets, given }| Papers {
                    words,
                    pairing,
                    carrier,
                    head,
                    conditions: &of.conditions,
                    sheets,
                    planned: &[],
                    given,
                })
                .collect();
            quotation_of(&papers, &letter)
        })
    });
    let of = loaded.clone();
    let head = Signal::derive(move || {
        let letter = letter(&own.get(), &of, &offered);
        let table = format!("Quotation · {} · {}", of.table.title, of.mark);
        RunningHead {
            start: [letter.name, format!("Quotation {}", letter.number)],
            end: [letter.day, format!("valid until {}", letter.valid_until)],
            foot: table,
        }
    });
    running(head);
    view! {
        <div class="path no-print"><a href=back>"Side by side"</a></div>
        <div class="tools no-print">
            <p class="actions"><button type="button" class="strong" on:click=move |_| { let _ = window().print(); }>"Print it"</button></p>
            <Dealer own offered loaded=loaded.clone()/>
        </div>
        <article class="paper">
            <Repeated head/>
            <div class="body">
                <header><Invented loaded/><h1 tabindex="-1">"Quotation"</h1></header>
                <Plain blocks/>
            </div>
        </article>
    }
}
