//! Side by side: two to six pairings, a card each, every row as a table; saved under a name.

mod cards;
mod save;
mod table;

use super::attributes::Part;
use super::document::Document;
use super::loaded::Loaded;
use super::missing::NoMachine;
use super::missing::NoTable;
use super::names::label;
use super::path::PathToMachines;
use super::route::{Pair, Route};
use super::send::Send;
use super::setting::Setting;
use super::solved::Solved;
use super::state::{MOST_COMPARED, app};
use super::whose_figures::WhoseFigures;
use ::table::Carrier;
use fit::Pairing;
use leptos::prelude::*;
use save::SaveForm;
use std::sync::Arc;
use table::Table;

/// The screen.
#[component]
pub fn Compare(pairs: Vec<Pair>) -> impl IntoView {
    let app = app();
    let ids: Vec<_> = pairs.iter().map(|(carrier, _)| carrier.clone()).collect();
    // Drawn anew only when one of these very machines is another.
    let machines = Memo::new(move |_| {
        let loaded = app.table()?;
        Some(ids.iter().map(|id| app.carrier(&loaded, id)).collect::<Vec<_>>())
    });
    move || {
        let (Some(loaded), Some(machines)) = (app.table(), machines.get()) else {
            return view! { <h1 tabindex="-1">"Side by side"</h1><NoTable/> }.into_any();
        };
        let known: Vec<_> = pairs.iter().cloned().zip(machines).collect();
        match known.iter().find(|(_, machine)| machine.is_some()) {
            Some(_) => {
                let both = |((_, head), machine): &(Pair, Option<Carrier>)| {
                    Some((machine.clone()?, loaded.table.head(head)?.clone()))
                };
                let pairs = known.iter().filter_map(both).take(MOST_COMPARED).collect();
                let of = loaded.clone();
                view! {
                    <Solved loaded pairs title="Side by side"
                        show=move || view! { <Columns loaded=of.clone() known=known.clone()/> }.into_any()/>
                }
                .into_any()
            }
            None => view! { <NoMachine id=pairs.first().map(|(carrier, _)| carrier.clone()).unwrap_or_default()/> }
                .into_any(),
        }
    }
}

#[component]
fn Columns(loaded: Arc<Loaded>, known: Vec<(Pair, Option<Carrier>)>) -> impl IntoView {
    let app = app();
    let found = |(pair, machine): &(Pair, Option<Carrier>)| {
        let attachment = loaded.table.head(&pair.1)?;
        Some(app.pairing(&loaded, machine.as_ref()?, attachment))
    };
    let pairings: Vec<_> = known.iter().filter_map(found).take(MOST_COMPARED).collect();
    let gone: Vec<_> =
        known
            .iter()
            .filter_map(|((carrier, head), machine)| {
                if machine.is_none() { Some(carrier) } else { loaded.table.head(head).is_none().then_some(head) }
            })
            .cloned()
            .collect();
    let Some(first) = pairings.first().cloned() else {
        let machine = known.iter().find_map(|((carrier, _), machine)| machine.as_ref().map(|_| carrier.clone()));
        return view! {
            <h1 tabindex="-1">"Side by side"</h1>
            <p>"None of these attachments is in the table in use."</p>
            <p><a class="button" href=app.href(&Route::machine(&machine.unwrap_or_default()))>"See what fits this machine"</a></p>
        }
        .into_any();
    };
    // On one machine the machine is in the heading; else in each column.
    let one = pairings.iter().all(|pairing| pairing.carrier.id == first.carrier.id);
    let machine = label(first.carrier.maker.as_ref(), &first.carrier.model);
    let heading = if one { format!("Side by side on {machine}") } else { "Side by side".to_owned() };
    app.host.title(&heading);
    let pairs: Vec<Pair> = pairings.iter().map(|p| (p.carrier.id.to_string(), p.head.id.to_string())).collect();
    let kept = app.saved.with_untracked(|saved| {
        let of = pairs.iter().map(|(carrier, head)| (carrier.as_str(), head.as_str()));
        saved.iter().find(|saved| saved.pairs().eq(of.clone())).cloned()
    });
    let mut names: Vec<_> = pairings.iter().map(|p| p.head.model.clone()).collect();
    names.dedup();
    let proposal = if one {
        format!("{machine}: {}", names.join(", "))
    } else {
        let machines: Vec<_> = pairings.iter().map(|p| p.carrier.model.clone()).collect();
        format!("{} on {}", names.join(", "), machines.join(", "))
    };
    let of_heads = known.iter().filter_map(|((_, head), machine)| Some((machine.as_ref()?, loaded.table.head(head)?)));
    let of_heads: Vec<_> = of_heads.take(pairings.len()).collect();
    let heads: Vec<_> = of_heads.iter().map(|(_, head)| (*head).clone()).collect();
    let settings = pairings.iter().zip(of_heads).map(|(pairing, (machine, attachment))| {
        StoredValue::new(Setting::new(pairing, machine, attachment, loaded.conditions.clone()))
    });
    let settings: Vec<_> = settings.collect();
    let stored = StoredValue::new(pairings.clone());
    let of_first = settings[0];
    let hazards = Signal::derive(move || {
        stored.with_value(|pairings| {
            let of: Vec<&Pairing> = pairings.iter().map(AsRef::as_ref).collect();
            vec![document::sheet::hazards(&app.words(), &of)]
        })
    });
    // Where the screen has room for its columns the table stands open.
    let wide = app.host.is_wide();
    view! {
        <p class="path"><PathToMachines/>
            {one.then(|| view! { " / "<a href=app.href(&Route::machine(first.carrier.id.as_str()))>{machine.clone()}</a> })}</p>
        <h1 tabindex="-1">{heading}</h1>
        <WhoseFigures carriers=pairs.iter().map(|(carrier, _)| carrier.clone()).collect()/>
        {(!gone.is_empty()).then(|| view! { <p class="quiet">"Not in the table in use: "{gone.join(", ")}"."</p> })}
        {(pairings.len() == 1).then(|| view! { <p>"One stands by itself. Add another to compare."</p> })}
        <section class="danger" aria-labelledby="danger">
            <h2 id="danger">"Danger"</h2>
            <Document name="danger" blocks=hazards setting=of_first/>
        </section>
        <cards::Matrix pairings=pairings.clone()/>
        <ul class="compared">
            {pairings.iter().zip(&heads).map(|(pairing, head)| view! {
                <cards::Card pairing=pairing.clone() head=head.clone() pairs=pairs.clone() one/>
            }).collect_view()}
        </ul>
        {move || stored.with_value(|pairings| {
            let pairings: Vec<&Pairing> = pairings.iter().map(AsRef::as_ref).collect();
            app.words().comparison_to_send(&pairings).totals
        }).into_iter().map(|total| view! { <p><strong>{total}</strong></p> }).collect_view()}
        <details class="fold of-sheet all-rows" open=wide>
            <summary><h2 class="name">"All rows as a table"</h2><span class="sum">{app.words().rows_that_differ()}</span></summary>
            <Table pairings=pairings.clone() settings one/>
        </details>
        {(pairings.len() < MOST_COMPARED).then(|| view! { <AddMore pairs=pairs.clone() first=first.clone()/> })}
        {kept.as_ref().map(|saved| view! {
            <p class="quiet">"Saved as “"{saved.name.clone()}"”."</p>
            {(!saved.note.is_empty()).then(|| view! { <p class="note">{saved.note.clone()}</p> })}
        })}
        {
            let (loaded, pairings) = (loaded.clone(), pairings.clone());
            move || app.shows(Part::Saved).then(|| view! {
                <SaveForm loaded=loaded.clone() proposal=proposal.clone() pairings=pairings.clone() known=kept.clone()/>
            })
        }
        {(app.host.is_page() && pairs.len() > 1).then(|| view! {
            <p class="actions no-print"><a class="button" href=app.href(&Route::Quotation { pairs: pairs.clone() })>"Quotation"</a></p>
        })}
        {move || app.shows(Part::Share).then(|| view! { <Send loaded=loaded.clone() pairings=pairings.clone()/> })}
    }
    .into_any()
}

/// Leads to where one more can be chosen; what is here stays chosen.
#[component]
fn AddMore(pairs: Vec<Pair>, first: Arc<Pairing>) -> impl IntoView {
    let app = app();
    let machine = label(first.carrier.maker.as_ref(), &first.carrier.model);
    let attachment = label(first.head.maker.as_ref(), &first.head.model);
    let pairs = StoredValue::new(pairs);
    let choose = move |route: Route| {
        move |_| {
            app.ticked.set(pairs.get_value());
            app.go(route.clone());
        }
    };
    view! {
        <p class="actions no-print">
            <button type="button" on:click=choose(Route::machine(first.carrier.id.as_str()))>"Add an attachment on "{machine}</button>
            {move || app.shows(Part::Machines).then(|| view! {
                <button type="button" on:click=choose(Route::attachment(first.head.id.as_str()))>"Add a machine for "{attachment.clone()}</button>
            })}
        </p>
    }
}
