//! A card for each pairing of a comparison, and a matrix of marks where there are several machines and attachments.

use super::super::names::label;
use super::super::route::{Pair, Route};
use super::super::state::{MOST_COMPARED, app};
use super::super::svg::{Mark, margin_line};
use ::table::Head;
use fit::Pairing;
use leptos::prelude::*;
use std::sync::Arc;

/// One pairing: what comes out, what it takes, what is tightest.
#[component]
pub fn Card(
    pairing: Arc<Pairing>,
    head: Head,
    /// All that is compared.
    pairs: Vec<Pair>,
    /// Whether all are on one machine, which stands above.
    one: bool,
) -> impl IntoView {
    let app = app();
    let verdict = pairing.verdict;
    let name = label(pairing.head.maker.as_ref(), &pairing.head.model);
    let on = label(pairing.carrier.maker.as_ref(), &pairing.carrier.model);
    let sheet = app.href(&Route::sheet(pairing.carrier.id.as_str(), pairing.head.id.as_str()));
    let others = !one && app.whose_figures(pairing.carrier.id.as_str()).is_some();
    let drawn = pairing.tightest_check().map(margin_line);
    let of = pairing.clone();
    let says = move || {
        let words = app.words();
        let card = words.card(&of, &head);
        view! {
            <p class="verdict">{words.verdict_of(&of)}</p>
            <dl class="sums">
                {card.sums.into_iter().map(|(name, says)| view! { <div><dt>{name}</dt><dd>{says}</dd></div> }).collect_view()}
            </dl>
            {card.below.map(|below| view! { <p>{below}</p> })}
            <p class="quiet">{card.brochure}</p>
        }
    };
    view! {
        <li class="card-of-pairing">
            <Mark verdict/>
            <h2 class="name">{name.clone()}{(!one).then(|| view! { <span class="on">" on "{on}</span> })}</h2>
            {others.then(|| view! { <p class="on">"figures not checked"</p> })}
            {says}
            {drawn}
            <p class="actions no-print">
                <a class="button" href=sheet>"Open its sheet"<span class="unseen">": "{name}</span></a>
                <TakeOut pairing pairs/>
            </p>
        </li>
    }
}

/// Takes one out of the comparison.
#[component]
fn TakeOut(pairing: Arc<Pairing>, pairs: Vec<Pair>) -> impl IntoView {
    let app = app();
    let name = label(pairing.head.maker.as_ref(), &pairing.head.model);
    let this = (pairing.carrier.id.to_string(), pairing.head.id.to_string());
    let take_out = move |_| {
        let mut left = pairs.clone();
        left.retain(|pair| *pair != this);
        app.ticked.set(left.clone());
        app.go(if left.is_empty() { Route::machine(&this.0) } else { Route::compare(&left) });
    };
    view! { <button type="button" class="quiet" on:click=take_out>"Take out"<span class="unseen">" "{name}</span></button> }
}

/// The marks of several machines with several attachments; a machine that lacks some can be added to all.
#[component]
#[allow(clippy::needless_pass_by_value)] // A prop is owned.
pub fn Matrix(pairings: Vec<Arc<Pairing>>) -> impl IntoView {
    let app = app();
    let (mut machines, mut heads): (Vec<Arc<Pairing>>, Vec<Arc<Pairing>>) = (Vec::new(), Vec::new());
    for pairing in &pairings {
        if machines.iter().all(|known| known.carrier.id != pairing.carrier.id) {
            machines.push(pairing.clone());
        }
        if heads.iter().all(|known| known.head.id != pairing.head.id) {
            heads.push(pairing.clone());
        }
    }
    if machines.len() < 2 || heads.len() < 2 {
        return ().into_any();
    }
    let pairs: Vec<Pair> = pairings.iter().map(|p| (p.carrier.id.to_string(), p.head.id.to_string())).collect();
    let row = |machine: &Arc<Pairing>| {
        let cell = |head: &Arc<Pairing>| {
            let found = pairings.iter().find(|p| p.carrier.id == machine.carrier.id && p.head.id == head.head.id);
            match found {
                Some(pairing) => {
                    let sheet = app.href(&Route::sheet(pairing.carrier.id.as_str(), pairing.head.id.as_str()));
                    let verdict = pairing.verdict;
                    view! { <td><a href=sheet><Mark verdict/><span class="unseen">{app.words().verdict_of(pairing)}</span></a></td> }.into_any()
                }
                None => view! { <td>"–"</td> }.into_any(),
            }
        };
        let name = label(machine.carrier.maker.as_ref(), &machine.carrier.model);
        let missing = heads.iter().map(|head| (machine.carrier.id.to_string(), head.head.id.to_string()));
        let missing: Vec<Pair> = missing.filter(|pair| !pairs.contains(pair)).collect();
        let has_room = !missing.is_empty() && pairs.len() + missing.len() <= MOST_COMPARED;
        let all = pairs.iter().cloned().chain(missing).collect::<Vec<_>>();
        let add = move |_| {
            app.ticked.set(all.clone());
            app.go(Route::compare(&all));
        };
        view! {
            <tr>
                <th scope="row">{name}
                    {has_room.then(|| view! { <button type="button" class="quiet no-print" on:click=add>"Add this machine to all"</button> })}</th>
                {heads.iter().map(cell).collect_view()}
            </tr>
        }
    };
    view! {
        <div class="scroll" tabindex="0" role="region" aria-label="Marks">
            <table class="matrix">
                <thead><tr><td></td>
                    {heads.iter().map(|p| view! { <th scope="col">{label(p.head.maker.as_ref(), &p.head.model)}</th> }).collect_view()}
                </tr></thead>
                <tbody>{machines.iter().map(row).collect_view()}</tbody>
            </table>
        </div>
    }
    .into_any()
}
