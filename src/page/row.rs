//! Long lists: a row for each pairing, drawn a stretch at a time, with room kept while the circuits are solved.

use super::attributes::Part;
use super::route::Route;
use super::state::app;
use super::listed::Listed;
use super::svg::{Mark, plain};
use fit::Verdict;
use leptos::prelude::*;
use solver::Row;
use std::sync::Arc;

/// How many rows are drawn at once: what fills a screen and a little more.
const STRETCH: usize = 40;

/// The rows of a list. More of them are drawn in each frame, so that hundreds do not hold up the first.
#[component]
pub fn Rows(
    /// The list that they are of.
    listed: Listed,
    /// Those that are shown of it.
    rows: Signal<Vec<Arc<Row>>>,
    /// Whether it is the part of it that is still being solved.
    #[prop(default = true)]
    grows: bool,
) -> impl IntoView {
    let drawn = RwSignal::new(STRETCH);
    Effect::new(move |_| {
        if drawn.get() < rows.with(Vec::len) {
            request_animation_frame(move || {
                drawn.try_update(|drawn| *drawn += STRETCH);
            });
        }
    });
    let in_frame = move || {
        let mut all = rows.get();
        all.truncate(drawn.get());
        all
    };
    let solving = move || grows && listed.is_solving();
    // What an answer to another question left standing keeps no room.
    let to_come = move || {
        let (checked, total) = listed.now.with(|now| (now.checked, now.total));
        if total == 0 { 8 } else { (total - checked).min(STRETCH) }
    };
    let touch = move || listed.touch();
    view! {
        <ul class="list fits" class:old=move || listed.is_old.get() aria-busy=move || solving().to_string()
            on:pointerdown=move |_| touch() on:focusin=move |_| touch() on:wheel=move |_| touch()>
            <For each=in_frame key=|row| (row.carrier.clone(), row.head.clone(), row.unsaid, row.price.clone(), row.below.clone()) let:row>
                <PairingRow row/>
            </For>
        </ul>
        {move || (solving() && !listed.is_old.get()).then(|| view! {
            <div class="rows-to-come" aria-hidden="true">
                {(0..to_come()).map(|_| view! { <div></div> }).collect_view()}
            </div>
        })}
    }
}

/// A pairing in a list: the verdict in words, the tightest margin in words and drawn, the changes and what they cost.
#[component]
#[allow(clippy::needless_pass_by_value)] // A prop is owned.
pub fn PairingRow(row: Arc<Row>) -> impl IntoView {
    let app = app();
    let address = app.href(&Route::sheet(&row.carrier, &row.head));
    let pair = (row.carrier.clone(), row.head.clone());
    let ticked = {
        let pair = pair.clone();
        Memo::new(move |_| app.is_ticked(&pair))
    };
    let full = move || !ticked.get() && !app.may_tick();
    let turn = move |_| app.turn_tick(&pair);
    let (verdict, tick_name) = (row.verdict, format!("Compare {}", row.name));
    let mark = move || {
        let (turn, tick_name) = (turn.clone(), tick_name.clone());
        if app.shows(Part::Compare) {
            view! {
                <label class="tick">
                    <Mark verdict/>
                    <input type="checkbox" prop:checked=ticked disabled=full on:change=turn aria-label=tick_name/>
                    <span class="hint" aria-hidden="true">"compare"</span>
                </label>
            }
            .into_any()
        } else {
            view! { <span class="tick"><Mark verdict/></span> }.into_any()
        }
    };
    let fails = verdict == Verdict::DoesNotFit;
    let Row { name, what, stock, price, has_changes, time, says, below, unsaid, margin, .. } = (*row).clone();
    view! {
        <li class="fit" class:no-fit=fails>
            {mark}
            <a class="row" href=address>
                <span class="name">{name}</span>
                {(!fails).then(|| view! { <span class="end" class:price=has_changes>{price}</span> })}
                " "
                <span class="what quiet">
                    {what.into_iter().map(|kind| view! { <span class="kind">{kind}</span> }).collect_view()}
                    {stock.map(|note| view! { <span class="stock">{note}</span> })}
                </span>
                {(!fails).then(|| view! { <span class="end quiet">{time}</span> })}
                <span class="says">
                    <span class="verdict">{says}</span>
                    <span class="quiet below">{below}</span>
                    {unsaid.then_some(view! { <span class="quiet below">"its maker does not say whether it does that"</span> })}
                </span>
                <span class="drawn">{margin.map(plain)}</span>
            </a>
        </li>
    }
}
