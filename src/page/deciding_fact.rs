//! Where nothing can be said yet: the one fact to find out, where, what either answer comes to; and on a machine of one's own a field
//! for it right there.

use super::attributes::Part;
use super::breath::{Breath, breathe};
use super::field::{Field, problems};
use super::plate::like;
use super::route::Route;
use super::setting::Setting;
use super::state::app;
use super::{storage, time};
use entry::Target;
use explain::deciding_fact::{first_to_find_out, settles_in_stretches};
use fit::{FactId, Pairing};
use leptos::html::H2;
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::web_sys::{self, FocusOptions, ScrollIntoViewOptions, ScrollLogicalPosition};
use quantity::Named;
use record::plate::{self, OWN, Plate};
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
    // Who has just answered goes on at the next question, where there is one, not at the top of the sheet.
    let goes_on = app.goes_on.get_value();
    app.goes_on.set_value(false);
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
    // A plate holds facts of the machine alone. On one of the table, what is typed makes a machine of one's own like it.
    let field = fact.is_of_machine() && !plate::figures(&[(fact, 1)]).is_empty();
    let here = if fact.is_of_machine() { plate_of(setting) } else { None };
    // A field says itself where it is read.
    let says_where = move || !(field && app.shows(Part::Own));
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
    let heading = NodeRef::<H2>::new();
    Effect::new(move |_| {
        if let Some(heading) = heading.get().filter(|_| goes_on) {
            // Behind the focus of the screen's own heading.
            request_animation_frame(move || request_animation_frame(move || go_on_at(&heading)));
        }
    });
    let own = move || {
        let (kept, head) = here.clone()?;
        app.shows(Part::Own).then(|| view! { <Here kept head fact/> })
    };
    Some(view! {
        <section class="settling" aria-labelledby="settling">
            <h2 id="settling" tabindex="-1" node_ref=heading>"What would settle it"</h2>
            {goes_on.then(|| view! { <p role="status" class="quiet">"Your answer is used. It cannot be said yet; next:"</p> })}
            {text}
            {own}
            {into_table(setting, fact, field)}
        </section>
    })
}

/// Brings a heading into sight and puts the focus on it.
fn go_on_at(heading: &web_sys::HtmlElement) {
    let middle = ScrollIntoViewOptions::new();
    middle.set_block(ScrollLogicalPosition::Center);
    heading.scroll_into_view_with_scroll_into_view_options(&middle);
    let calm = FocusOptions::new();
    calm.set_prevent_scroll(true);
    let _ = heading.focus_with_options(&calm);
}

/// Leads to the fact's field in the form of its entry, where the table can say it and no field for it stands here.
fn into_table(setting: StoredValue<Setting>, fact: FactId, field: bool) -> Option<impl IntoView> {
    let app = app();
    let (role, targets) = entry::of_fact(fact.name()).filter(|_| app.host.is_page() && !field)?;
    let id = setting.with_value(|setting| {
        let (machine, head) = setting.of();
        if fact.is_of_machine() { machine.id.to_string() } else { head.id.to_string() }
    });
    // A machine of one's own stands in no table.
    if id.starts_with(OWN) {
        return None;
    }
    let fields = targets.iter().map(Target::name).collect::<Vec<_>>().join(",");
    let to = app.href(&Route::Entry { role, id: Some(id), fields });
    Some(view! { <p class="actions no-print"><a class="button" href=to>"Write it into the table"</a></p> })
}

/// The plate on which an answer is written, and the attachment: the machine's own, else a fresh one like the machine.
fn plate_of(setting: StoredValue<Setting>) -> Option<(Plate, String)> {
    let app = app();
    let (machine, head) = setting.with_value(|setting| {
        let (machine, head) = setting.of();
        (machine.clone(), head.id.to_string())
    });
    let id = machine.id.as_str();
    if let Some(kept) = app.own.with_untracked(|plates| plates.iter().find(|plate| plate.carrier_id() == id).cloned()) {
        return Some((kept, head));
    }
    let loaded = app.table()?;
    let fresh = like(app, &loaded, id, &time::fresh_id())?;
    // What stands for a class is like no machine.
    let taken_from = if machine.generic { String::new() } else { fresh.taken_from };
    Some((Plate { taken_from, ..fresh }, head))
}

/// The fields that settle a fact: what is typed is used at once, and the next question comes.
#[component]
fn Here(kept: Plate, head: String, fact: FactId) -> impl IntoView {
    let app = app();
    let figures = plate::figures(&[(fact, 1)]);
    let is_kept = app.own.with_untracked(|own| own.iter().any(|known| known.id == kept.id));
    let all = app.href(&if is_kept { Route::plate(&kept.id) } else { Route::new_plate(&kept.class) });
    let told = (!is_kept).then(|| app.words().becomes_own(&kept));
    let (base, typed) = (StoredValue::new(kept.clone()), RwSignal::new(kept));
    let problems = problems(typed);
    let changed = Memo::new(move |_| typed.with(|typed| base.with_value(|base| typed.figures != base.figures)));
    let use_it = move || {
        let mine = Plate { changed: time::now(), ..typed.get_untracked() };
        if base.with_value(|base| storage::save_merged(app, base, &mine)).is_some() {
            app.goes_on.set_value(true);
            if !is_kept {
                app.go(Route::sheet(&mine.carrier_id(), &head));
            }
            app.host.focus_heading();
        }
    };
    let some = !figures.is_empty();
    view! {
        <form on:submit=move |event| {
            event.prevent_default();
            if changed.get_untracked() {
                use_it();
            }
        }>
            {figures.into_iter().map(|figure| view! { <Field plate=typed figure problems/> }).collect_view()}
            {told.filter(|_| some).map(|told| view! { <p class="quiet">{told}</p> })}
            <p class="actions">
                {some.then(|| view! { <button type="submit" class="strong" disabled=move || !changed.get()>"Use it"</button> })}
                {(is_kept || !some).then(|| view! { <a class="button" href=all>{if is_kept { "All on its spec plate" } else { "Describe a machine of your own" }}</a> })}
            </p>
        </form>
    }
}
