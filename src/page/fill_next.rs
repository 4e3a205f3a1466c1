//! What to fill in next in the table in use: asked of the solver when it is unfolded.

use super::asking::{Asking, ask, reader};
use super::fold::Fold;
use super::loaded::Loaded;
use super::state::app;
use leptos::prelude::*;
use solver::{Answer, Request};
use std::sync::Arc;
use wording::{FillNextText, NextText};

/// How many columns and facts are told at most.
const MOST: usize = 60;
/// How many of them are shown before somebody asks for more.
const SHOWN: usize = 8;

/// The part of the table's screen.
#[component]
pub fn FillNext(loaded: Arc<Loaded>) -> impl IntoView {
    if loaded.table.carriers.is_empty() || loaded.table.heads.is_empty() {
        return None;
    }
    Some(view! {
        <Fold id="fill-next" name="What to fill in next" summary="the facts that hold up most verdicts">
            <Facts loaded=loaded.clone()/>
        </Fold>
    })
}

/// The facts, as soon as every pairing was looked at.
#[component]
fn Facts(loaded: Arc<Loaded>) -> impl IntoView {
    let app = app();
    let so_far = RwSignal::new((0, 0));
    let found = RwSignal::new(None::<FillNextText>);
    let asking = StoredValue::new_local(None::<Asking>);
    Effect::new(move || {
        let request = Request::FillNext { reader: reader(app, &loaded), most: MOST };
        found.set(None);
        so_far.set((0, 0));
        let take = move |answer| match answer {
            Answer::SoFar { checked, total } => {
                so_far.try_set((checked, total));
            }
            Answer::FillNext(text) => {
                found.try_set(Some(text));
            }
            _ => {}
        };
        asking.set_value(ask(&request, take));
    });
    let says = move || {
        if let Some(says) = found.with(|found| found.as_ref().map(|found| found.says.join(" "))) {
            return says;
        }
        let (checked, total) = so_far.get();
        app.words().looking_at(checked, total)
    };
    view! {
        <p role="status" aria-busy=move || found.with(Option::is_none).then_some("true")>{says}</p>
        {move || found.get().map(|found| view! {
            <List title="By column" facts=found.columns/>
            <List title="By machine and attachment" facts=found.entries/>
        })}
    }
}

/// Facts in their order, the first of them until somebody asks for more.
#[component]
fn List(title: &'static str, facts: Vec<NextText>) -> impl IntoView {
    let all = RwSignal::new(facts.len() <= SHOWN);
    let (more, first) = (facts.len().saturating_sub(SHOWN), facts.iter().take(SHOWN).cloned().collect::<Vec<_>>());
    (!facts.is_empty()).then(|| {
        view! {
            <h3>{title}</h3>
            <ol class="next-facts">
                {move || (if all.get() { facts.clone() } else { first.clone() }).into_iter().map(fact).collect_view()}
            </ol>
            {move || (!all.get()).then(|| view! {
                <p class="actions"><button type="button" on:click=move |_| all.set(true)>{format!("Show {more} more")}</button></p>
            })}
        }
    })
}

fn fact(next: NextText) -> impl IntoView {
    let NextText { of, what, place, worth } = next;
    view! {
        <li>
            <p>{of.map(|of| view! { <strong>{of}": "</strong> })}<strong>{what}</strong></p>
            <p>{worth}</p>
            <p class="quiet">"Where: "{place}</p>
        </li>
    }
}
