//! A machine of one's own as a spec plate, in three steps: what stands on its plate, the questions that decide most one by one, the
//! answer. Every other question comes on a sheet, when it decides there.

// The desk is a handful of handles, made to be copied.
#![allow(clippy::large_types_passed_by_value)]

mod answer;
mod desk;
mod photo;
mod steps;

pub use desk::like;

use super::breath::Pause;
use super::loaded::Loaded;
use super::missing::{NoMachine, NoTable};
use super::path::PathToMachines;
use super::route::Route;
use super::state::app;
use super::{photos, storage, time};
use desk::{Desk, Standing, Step, keep, named_by_itself, solve};
use leptos::prelude::*;
use leptos::task::spawn_local;
use quantity::Named;
use record::plate::Plate;
use std::collections::BTreeMap;
use std::sync::Arc;
use std::time::Duration;
use table::CarrierClass;

/// How long a person pauses before the circuits are solved again.
const PAUSE: Duration = Duration::from_millis(250);

/// Which class is it?
#[component]
pub fn ChooseClass() -> impl IntoView {
    let app = app();
    app.host.title("A machine of your own");
    view! {
        <p class="path"><PathToMachines/></p>
        <h1 tabindex="-1">"What kind of machine is it?"</h1>
        <p>"Then you are asked only for the figures that decide, and where on the machine to read them."</p>
        <ul class="list">
            {CarrierClass::ALL.iter().map(|&class| view! {
                <li><a class="row" href=app.href(&Route::new_plate(class.name()))>
                    <span class="name capital">{app.words().carrier_class(class)}</span>
                </a></li>
            }).collect_view()}
        </ul>
    }
}

/// A plate with nothing on it yet. It is kept as soon as something is typed.
#[component]
pub fn FreshPlate(class: Option<CarrierClass>) -> impl IntoView {
    let app = app();
    let blank =
        class.map(|class| Plate::blank(time::fresh_id(), class, app.words().own_name(class, None), time::now()));
    let standing = Standing::new(Step::Plate);
    // What a machine was looked for by stands on its plate too.
    let sought = app.sought.with_value(|sought| sought.mass.is_some() || sought.power.is_some());
    standing.plate.set_value(blank.clone().filter(|_| sought).map(|mut plate| {
        let units = app.units.get_untracked();
        app.sought.with_value(|sought| plate.write_sought(sought.mass, sought.power, units));
        plate
    }));
    move || match (blank.clone(), app.table()) {
        (None, _) => view! { <ChooseClass/> }.into_any(),
        (Some(_), None) => view! { <h1 tabindex="-1">"Spec plate"</h1><NoTable/> }.into_any(),
        (Some(plate), Some(loaded)) => view! { <Sheet loaded plate standing/> }.into_any(),
    }
}

/// A plate that begins as a machine of the table.
#[component]
pub fn PlateLike(carrier: String) -> impl IntoView {
    let app = app();
    let standing = Standing::new(Step::Answer);
    let id = time::fresh_id();
    move || {
        let Some(loaded) = app.table() else {
            return view! { <h1 tabindex="-1">"Spec plate"</h1><NoTable/> }.into_any();
        };
        // What was typed on it since stays when another table comes in under it.
        match standing.plate.get_value().or_else(|| like(app, &loaded, &carrier, &id)) {
            Some(plate) => {
                // Whoever asked for it wants it kept.
                standing.plate.set_value(Some(plate.clone()));
                let blank = Plate { figures: BTreeMap::new(), ..plate };
                view! { <Sheet loaded plate=blank standing/> }.into_any()
            }
            None => view! { <NoMachine id=carrier.clone()/> }.into_any(),
        }
    }
}

/// A plate that was kept.
#[component]
pub fn KeptPlate(id: String) -> impl IntoView {
    let app = app();
    // Read once: what is typed here comes back through the list, and must not put up the form anew.
    let found = Memo::new(move |before: Option<&Option<Plate>>| {
        let kept = app.own.with(|own| own.iter().find(|plate| plate.id == id).cloned());
        before.cloned().flatten().or(kept)
    });
    let standing = Standing::new(Step::Answer);
    move || {
        match (found.get(), app.table()) {
        (None, _) => view! {
            <h1 tabindex="-1">"No such machine"</h1>
            <p>"This browser keeps no machine of your own under this address."</p>
            <p class="actions"><a class="button" href=app.href(&Route::Own)>"Describe a machine"</a><a class="button" href=app.href(&Route::Start)>"Choose a machine"</a></p>
        }
        .into_any(),
        (Some(_), None) => view! { <h1 tabindex="-1">"Spec plate"</h1><NoTable/> }.into_any(),
        (Some(plate), Some(loaded)) => view! { <Sheet loaded plate standing/> }.into_any(),
    }
    }
}

#[component]
fn Sheet(loaded: Arc<Loaded>, plate: Plate, standing: Standing) -> impl IntoView {
    let app = app();
    let first = StoredValue::new(plate.clone());
    let plate = standing.plate.get_value().unwrap_or(plate);
    let desk = Desk {
        app,
        step: standing.step,
        chosen: RwSignal::new(plate.heads.clone()),
        asked: RwSignal::new(None),
        asking: StoredValue::new(None),
        typical: RwSignal::new(None),
        rows: RwSignal::new(Vec::new()),
        busy: RwSignal::new(true),
        done: RwSignal::new((0, 0)),
        waiting: StoredValue::new_local(None),
        by_itself: StoredValue::new(Vec::new()),
        photo: RwSignal::new(None),
        plate: RwSignal::new(plate),
    };
    desk.by_itself.update_value(|names| names.push(named_by_itself(desk)));
    photo::look_up(desk);
    app.host.title("Spec plate");
    let class = Memo::new(move |_| desk.plate.with(Plate::class));
    {
        let loaded = loaded.clone();
        let pause = Pause::new();
        Effect::new(move |before: Option<Vec<String>>| {
            let (plate, chosen) = (desk.plate.get(), desk.chosen.get());
            let (loaded, now) = (loaded.clone(), chosen.clone());
            pause.end();
            // Rows come in the reader's units.
            app.units.track();
            desk.busy.set(true);
            // A name that nobody gave follows the mass.
            let name = named_by_itself(desk);
            if plate.name != name && desk.is_nameless(&plate) {
                desk.by_itself.update_value(|names| names.push(name.clone()));
                desk.plate.update(|plate| plate.name = name);
            }
            // Kept with every key, so that nothing is lost whatever becomes of the page.
            keep(desk, &first.get_value(), standing);
            if before.as_ref() == Some(&chosen) {
                pause.then(PAUSE, move || solve(desk, &loaded, plate, chosen));
            } else {
                solve(desk, &loaded, plate, chosen);
            }
            now
        });
    }
    {
        let loaded = loaded.clone();
        Effect::new(move |before: Option<bool>| {
            let here = !matches!(desk.step.get(), Step::Question(_));
            // Whoever comes back to the first answer finds one.
            if here && before == Some(false) && desk.typical.with_untracked(Option::is_none) {
                solve(desk, &loaded, desk.plate.get_untracked(), desk.chosen.get_untracked());
            }
            here
        });
    }
    let mine = move || {
        let plate = desk.plate.get_untracked();
        // A name that nobody gave gives way to one that somebody gives it elsewhere.
        let name =
            untrack(|| desk.kept()).filter(|_| desk.is_nameless(&plate)).map_or(plate.name.clone(), |kept| kept.name);
        Plate { name, heads: desk.chosen.get_untracked(), ..plate }
    };
    let take = move |now: &Plate| {
        if desk.plate.with_untracked(|plate| !now.says_the_same(plate) || now.is_unchecked() != plate.is_unchecked()) {
            desk.plate.set(now.clone());
        }
        if desk.chosen.with_untracked(|chosen| *chosen != now.heads) {
            desk.chosen.set(now.heads.clone());
        }
    };
    storage::follow_one(app, move || desk.plate.with_untracked(|plate| plate.id.clone()), mine, take);
    let delete = Callback::new(move |()| {
        let plate = desk.plate.get_untracked();
        desk.waiting.set_value(None);
        let first = first.get_value();
        desk.chosen.set(first.heads.clone());
        desk.plate.set(first);
        storage::delete(app, &plate);
        spawn_local(photos::gone_with(plate.id));
        app.go(if app.shows(super::attributes::Part::Machines) { Route::Start } else { Route::Own });
    });
    view! {
        <p class="path"><PathToMachines/>{move || class.get().map(|class| view! { " / "<span class="class-of">{app.words().carrier_class_plain(class)}</span> })}</p>
        <steps::Steps desk/>
        {move || match desk.step.get() {
            Step::Plate => view! { <steps::OnThePlate desk/> }.into_any(),
            Step::Question(at) => view! { <steps::OneQuestion desk at/> }.into_any(),
            Step::Answer => view! { <answer::Answer desk loaded=loaded.clone() delete/> }.into_any(),
        }}
    }
}
