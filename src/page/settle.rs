//! Where nothing can be said yet: the one fact to find out, where, what either answer comes to; and on a machine of one's own a field
//! for it right there.

use super::attributes::Part;
use super::breath::{Breath, breathe};
use super::field::{Field, problems};
use super::route::Route;
use super::setting::Setting;
use super::state::app;
use super::{storage, time};
use explain::settle::{first_to_find_out, settles_in_stretches};
use fit::{FactId, Pairing};
use leptos::prelude::*;
use leptos::task::spawn_local;
use quantity::Named;
use record::plate::{self, Plate};
use std::sync::Arc;

/// The question.
#[component]
pub fn SettleFirst(
    /// The pairing.
    pairing: StoredValue<Arc<Pairing>>,
    /// What the sheet is about.
    setting: StoredValue<Setting>,
    /// Gets the pairing with what either answer comes to, once that is found.
    told: RwSignal<Arc<Pairing>>,
) -> impl IntoView {
    let app = app();
    let first = pairing.with_value(|pairing| first_to_find_out(pairing))?;
    let fact = first.fact;
    // What it decides is found by pairing again many times: the box stands first.
    let (settling, working) = (RwSignal::new(first), RwSignal::new(true));
    spawn_local(async move {
        breathe().await;
        let Some(of) = setting.try_with_value(Setting::to_settle) else { return };
        let Some(pairing) = pairing.try_get_value() else { return };
        let found = settles_in_stretches(&of.0, &of.1, &of.2, &pairing, &Breath::new()).await;
        if let Some(found) = found {
            // What is sent from this sheet says what either answer comes to as well.
            told.try_set(Arc::new(Pairing { branches: found.branches(), ..(*pairing).clone() }));
            settling.try_set(found);
        }
        working.try_set(false);
    });
    let (id, class) = setting.with_value(Setting::of_machine);
    // A plate holds facts of the machine alone.
    let kept = app.own.with_untracked(|plates| plates.iter().find(|plate| plate.carrier_id() == id).cloned());
    let kept = kept.filter(|_| fact.is_of_machine());
    // A field says itself where it is read.
    let has_field = kept.is_some() && !plate::figures(&[(fact, 1)]).is_empty();
    let says_where = move || !(has_field && app.shows(Part::Own));
    let text = move || {
        let text = app.words().settling(&settling.get());
        view! {
            <p class="name">{text.first}</p>
            {says_where().then(|| view! { <p>{text.place}</p> })}
            <div class="turns" aria-busy=move || working.get().to_string()>
                {working.get().then(|| view! { <p class="quiet">{app.words().working_it_out()}</p> })}
                {text.turns.into_iter().map(|turn| view! { <p>{turn}</p> }).collect_view()}
            </div>
            {text.more.map(|more| view! {
                <details>
                    <summary>{more}</summary>
                    <ul>{text.others.into_iter().map(|other| view! { <li>{other}</li> }).collect_view()}</ul>
                </details>
            })}
        }
    };
    let own = move || {
        (fact.is_of_machine() && app.shows(Part::Own)).then(|| match kept.clone() {
            Some(kept) => view! { <Here kept fact/> }.into_any(),
            None => view! {
                <p class="actions">
                    <a class="button" href=app.href(&Route::new_plate(class.name()))>"Describe a machine of your own of this class"</a>
                </p>
            }
            .into_any(),
        })
    };
    Some(view! {
        <section class="settling" aria-labelledby="settling">
            <h2 id="settling">"What would settle it"</h2>
            {text}
            {own}
        </section>
    })
}

/// The fields that settle a fact, on the machine that is kept: what is typed is used at once, and the next question comes.
#[component]
fn Here(kept: Plate, fact: FactId) -> impl IntoView {
    let app = app();
    let figures = plate::figures(&[(fact, 1)]);
    let (base, typed) = (StoredValue::new(kept.clone()), RwSignal::new(kept.clone()));
    let problems = problems(typed);
    let changed = Memo::new(move |_| typed.with(|typed| base.with_value(|base| typed.figures != base.figures)));
    let use_it = move || {
        let mine = Plate { changed: time::now(), ..typed.get_untracked() };
        if base.with_value(|base| storage::save_merged(app, base, &mine)).is_some() {
            app.host.focus_heading();
        }
    };
    let all = app.href(&Route::plate(&kept.id));
    let some = !figures.is_empty();
    view! {
        <form on:submit=move |event| {
            event.prevent_default();
            if changed.get_untracked() {
                use_it();
            }
        }>
            {figures.into_iter().map(|figure| view! { <Field plate=typed figure problems/> }).collect_view()}
            <p class="actions">
                {some.then(|| view! { <button type="submit" class="strong" disabled=move || !changed.get()>"Use it"</button> })}
                <a class="button" href=all>"Write it on its spec plate"</a>
            </p>
        </form>
    }
}
