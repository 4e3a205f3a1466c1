//! Every row of a comparison as a table: the figures open their reasoning below their row.

use super::super::document::Document;
use super::super::names::label;
use super::super::route::Route;
use super::super::setting::Setting;
use super::super::state::app;
use document::{Column, compared};
use fit::Pairing;
use leptos::prelude::*;
use std::sync::Arc;

/// The table.
#[component]
pub fn Table(
    pairings: Vec<Arc<Pairing>>,
    /// What each column is about.
    settings: Vec<StoredValue<Setting>>,
    /// Whether all are on one machine, which stands above.
    one: bool,
) -> impl IntoView {
    let app = app();
    let first = *settings.first()?;
    let many = pairings.len() > 1;
    let differing = RwSignal::new(false);
    let blocks = Signal::derive(move || {
        let column =
            |pairing: &Arc<Pairing>| (label(pairing.head.maker.as_ref(), &pairing.head.model), pairing.clone());
        let named: Vec<_> = pairings.iter().map(column).collect();
        let columns: Vec<Column> = named
            .iter()
            .map(|(name, pairing)| {
                let (carrier, head) = (pairing.carrier.id.as_str(), pairing.head.id.as_str());
                Column {
                    pairing,
                    name: name.clone(),
                    on: (!one).then(|| label(pairing.carrier.maker.as_ref(), &pairing.carrier.model)),
                    to: app.href(&Route::sheet(carrier, head)),
                    is_unchecked: app.whose_figures(carrier).is_some(),
                }
            })
            .collect();
        vec![compared(&app.words(), &columns, differing.get())]
    });
    Some(view! {
        {many.then(|| view! {
            <label class="check-line no-print">
                <input type="checkbox" prop:checked=differing on:change=move |event| differing.set(event_target_checked(&event))/>
                "Only what differs"
            </label>
        })}
        <Document name="compared" blocks setting=first columns=settings/>
    })
}
