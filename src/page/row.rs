//! Long lists: a row for each pairing, drawn a stretch at a time, with room kept while the circuits are solved.

use super::attributes::Part;
use super::names::label;
use super::route::Route;
use super::state::app;
use super::svg::{Mark, margin_line};
use fit::{Pairing, Verdict};
use leptos::prelude::*;
use quantity::Amount;
use std::hash::Hash;
use std::sync::Arc;

/// How many rows are drawn at once: what fills a screen and a little more.
const STRETCH: usize = 40;

/// The rows of a list. More of them are drawn in each frame, so that hundreds do not hold up the first.
#[component]
pub fn Rows<T, K>(
    /// Whether the list is still being solved.
    solving: Signal<bool>,
    /// For how many rows room is kept meanwhile.
    total: usize,
    /// The rows.
    rows: Signal<Vec<T>>,
    /// What tells one from another.
    key: impl Fn(&T) -> K + Clone + Send + 'static,
    /// Draws one.
    each: impl Fn(T) -> AnyView + Clone + Send + 'static,
) -> impl IntoView
where
    T: Clone + Send + Sync + 'static,
    K: Eq + Hash + Send + 'static,
{
    let drawn = RwSignal::new(STRETCH);
    // Another list begins with what fills a screen.
    Effect::new(move |_| {
        rows.track();
        drawn.set(STRETCH);
    });
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
    view! {
        <ul class="list fits" aria-busy=move || solving.get().to_string()>
            <For each=in_frame key=move |row| key(row) let:row>{each(row)}</For>
        </ul>
        {move || solving.get().then(|| view! {
            <div class="rows-to-come" aria-hidden="true">
                {(0..total.min(STRETCH)).map(|_| view! { <div></div> }).collect_view()}
            </div>
        })}
    }
}

/// A pairing in a list: the verdict in words, the tightest margin in words and drawn, the changes and what they cost.
#[component]
pub fn PairingRow(
    /// What came out.
    pairing: Arc<Pairing>,
    /// Whether it is named by its machine: in a list of machines.
    #[prop(optional)]
    by_machine: bool,
    /// The machine's mass.
    #[prop(default = None)]
    mass: Option<Amount>,
    /// Whether the attachment's maker does not say what is looked for.
    #[prop(optional)]
    unsaid: bool,
    /// A note on stock.
    #[prop(default = None)]
    stock: Option<String>,
) -> impl IntoView {
    let app = app();
    let (carrier, head) = (&pairing.carrier, &pairing.head);
    let name = if by_machine {
        label(carrier.maker.as_ref(), &carrier.model)
    } else {
        label(head.maker.as_ref(), &head.model)
    };
    let tick_name = format!("Compare {name}");
    let address = app.href(&Route::sheet(carrier.id.as_str(), head.id.as_str()));
    let pair = (carrier.id.to_string(), head.id.to_string());
    let ticked = {
        let pair = pair.clone();
        Memo::new(move |_| app.is_ticked(&pair))
    };
    let told = pairing.clone();
    let full = move || !ticked.get() && !app.may_tick();
    let turn = move |_| app.turn_tick(&pair);
    let (verdict, kind) = (pairing.verdict, pairing.head.kind);
    let drawn = pairing.tightest_check().map(margin_line);
    let fails = verdict == Verdict::DoesNotFit;
    let (priced, timed) = (pairing.clone(), pairing.clone());
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
    view! {
        <li class="fit" class:no-fit=fails>
            {mark}
            <a class="row" href=address>
                <span class="name">{name}</span>
                {(!fails).then(|| view! { <span class="end" class:price=!pairing.changes.is_empty()>{move || app.words().row_price(&priced)}</span> })}
                " "
                <span class="what quiet">
                    {(!by_machine).then(|| view! { <span class="kind">{move || app.words().head_kind(kind)}</span> })}
                    {mass.map(|mass| view! { <span class="kind">{move || app.words().amount(mass)}</span> })}
                    {stock.map(|note| view! { <span class="stock">{note}</span> })}
                </span>
                {(!fails).then(|| view! { <span class="end quiet">{move || app.words().row_time(&timed)}</span> })}
                <span class="says">
                    <span class="verdict">{move || app.words().verdict_of(&told)}</span>
                    <span class="quiet below">{move || app.words().row_below(&pairing)}</span>
                    {unsaid.then_some(view! { <span class="quiet below">"its maker does not say whether it does that"</span> })}
                </span>
                <span class="drawn">{drawn}</span>
            </a>
        </li>
    }
}
