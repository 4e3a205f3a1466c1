//! Long lists: a row for each pairing, drawn a stretch at a time, with room kept while the circuits are solved.

use super::attributes::Part;
use super::listed::{Listed, Shown};
use super::route::Route;
use super::state::app;
use super::svg::{Mark, plain};
use fit::Verdict;
use leptos::prelude::*;
use solver::Row;
use std::sync::Arc;

/// How many rows are drawn at once: what fills a screen and a little more.
const STRETCH: usize = 12;

/// How far down one may have gone, in pixels, so that what fills a screen is enough to be drawn at first.
const FAR: f64 = 800.0;

/// A line of a list, or the room for one.
#[derive(Clone)]
enum Item {
    Row(Arc<Row>),
    Room(usize),
}

/// The rows of a list. More of them are drawn in each frame, so that hundreds do not hold up the first.
#[component]
pub fn Rows(
    /// The list that they are of.
    listed: Listed,
    /// What is shown of it.
    shown: Memo<Shown>,
    /// Whether it is the part of it that is still being solved.
    #[prop(default = true)]
    grows: bool,
) -> impl IntoView {
    let drawn = RwSignal::new(STRETCH);
    let solving = move || grows && listed.is_solving();
    let is_all_drawn = move || drawn.get() >= shown.with(Shown::count);
    // While it is being solved what fills a screen is enough.
    Effect::new(move |_| {
        if !solving() && !is_all_drawn() {
            request_animation_frame(move || {
                drawn.try_update(|drawn| *drawn += STRETCH);
            });
        }
    });
    // Put in order, rows are drawn anew: none is seen to move from place to place. Those far below come later.
    let was_in_order = StoredValue::new(false);
    let in_frame = move || {
        let Shown { above, room, below, is_in_order } = shown.get();
        if was_in_order.try_update_value(|was| std::mem::replace(was, is_in_order)) != Some(is_in_order)
            && window().scroll_y().unwrap_or(0.0) < FAR
        {
            drawn.set(STRETCH);
        }
        let room = if solving() { room.min(STRETCH) } else { 0 };
        let rows = |rows: Vec<Arc<Row>>| rows.into_iter().map(Item::Row);
        rows(above).chain((0..room).map(Item::Room)).chain(rows(below)).take(drawn.get()).collect::<Vec<_>>()
    };
    let key = move |item: &Item| match item {
        Item::Row(row) => {
            (format!("{} {} {} {}", row.carrier, row.head, row.price, row.below), usize::from(was_in_order.get_value()))
        }
        Item::Room(place) => (String::new(), *place),
    };
    let touch = move || listed.touch();
    view! {
        <ul class="list fits" class:old=move || listed.is_old.get() aria-busy=move || (solving() || !is_all_drawn()).to_string()
            on:pointerdown=move |_| touch() on:focusin=move |_| touch() on:wheel=move |_| touch()>
            <For each=in_frame key let:item>{match item {
                Item::Row(row) => view! { <PairingRow row/> }.into_any(),
                Item::Room(_) => view! { <li class="to-come" aria-hidden="true"></li> }.into_any(),
            }}</For>
        </ul>
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
