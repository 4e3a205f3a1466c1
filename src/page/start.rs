//! Start: which machine?

use super::load::{self, Loading};
use super::place::Part;
use super::route::Route;
use super::state::{app, label};
use crate::quantity::{Amount, Named};
use crate::table::{Carrier, CarrierClass};
use leptos::prelude::*;

/// Choose a machine.
#[component]
pub fn Start() -> impl IntoView {
    let app = app();
    app.place.title("Choose a machine");
    view! {
        <h1 tabindex="-1">"Which machine?"</h1>
        {move || match app.table() {
            Some(_) => view! { <Machines/> }.into_any(),
            None => view! { <NoTable/> }.into_any(),
        }}
    }
}

/// What stands where a table is needed and there is none: that it comes, or why not and what to do.
#[component]
pub fn NoTable() -> impl IntoView {
    let app = app();
    move || {
        match app.loading.get() {
        Loading::Failed(why) => view! {
            <div class="notice fault" role="alert">
                <p>{why}</p>
                <div class="actions">
                    <button type="button" on:click=move |_| load::again(app)>"Try again"</button>
                    {app.place.is_page().then(|| view! { <a class="button" href=app.href(&Route::Table)>"Load another table"</a> })}
                </div>
            </div>
        }
        .into_any(),
        Loading::Waiting | Loading::Ready(_) => view! { <p role="status" class="waiting">"Loading the table …"</p> }.into_any(),
    }
    }
}

/// The search and the machines by class.
#[component]
fn Machines() -> impl IntoView {
    let app = app();
    let search = RwSignal::new(String::new());
    let found = Memo::new(move |_| {
        let asked: Vec<String> = search.get().to_lowercase().split_whitespace().map(str::to_owned).collect();
        app.table().map_or_else(Vec::new, |loaded| {
            let words = app.words();
            let matches = |carrier: &&Carrier| {
                let text = format!(
                    "{} {} {}",
                    label(carrier.maker.as_ref(), &carrier.model),
                    words.carrier_class(carrier.class),
                    carrier.class.name()
                )
                .to_lowercase();
                asked.iter().all(|word| text.contains(word))
            };
            loaded.table.carriers.iter().filter(matches).cloned().collect::<Vec<_>>()
        })
    });
    let of_class = move |class: CarrierClass| {
        let machines: Vec<_> = found.get().into_iter().filter(|carrier| carrier.class == class).collect();
        (!machines.is_empty()).then(|| {
            view! {
                <section class="class">
                    <h2>{app.words().carrier_class(class)}</h2>
                    <ul class="list">
                        {machines.into_iter().map(|carrier| view! { <Machine carrier/> }).collect_view()}
                    </ul>
                </section>
            }
        })
    };
    view! {
        <p class="search">
            <label for="search">"Search maker, model or class"</label>
            <input id="search" type="search" autocomplete="off" prop:value=search
                on:input=move |event| search.set(event_target_value(&event))/>
        </p>
        <p role="status" class="quiet">{move || match found.get().len() {
            0 => "No machine of the table matches. Shorten the search, load another table, or describe your own.".to_owned(),
            1 => "1 machine".to_owned(),
            count => format!("{count} machines"),
        }}</p>
        {move || app.shows(Part::Own).then(|| view! { <Own search/> })}
        {move || app.shows(Part::Saved).then(|| view! { <Recent/> })}
        {move || CarrierClass::ALL.iter().map(|&class| of_class(class)).collect_view()}
    }
}

/// One machine with what its brochure says.
#[component]
fn Machine(carrier: Carrier) -> impl IntoView {
    let app = app();
    let words = app.words();
    let mut says = Vec::new();
    if let Some(mass) = &carrier.operating_mass {
        says.push(words.amount(Amount::of(mass.nominal)));
    }
    for circuit in &carrier.circuits {
        let flow = circuit.flow.as_ref().map(|flow| words.amount(Amount::of(flow.nominal)));
        let relief = circuit.relief.as_ref().map(|relief| words.amount(Amount::of(relief.nominal)));
        says.extend(flow.zip(relief).map(|(flow, relief)| format!("{flow}, {relief}")));
    }
    if carrier.generic {
        says.push("only what is usual for its class".to_owned());
    }
    view! {
        <li>
            <a class="row" href=app.href(&Route::machine(carrier.id.as_str()))>
                <span class="name">{label(carrier.maker.as_ref(), &carrier.model)}</span>
                <span class="quiet">{says.join(" · ")}</span>
            </a>
        </li>
    }
}

/// Machines of one's own, and the way to describe one.
#[component]
fn Own(search: RwSignal<String>) -> impl IntoView {
    let app = app();
    let found = move || {
        let asked: Vec<String> = search.get().to_lowercase().split_whitespace().map(str::to_owned).collect();
        let mut own = app.own.get();
        own.retain(|plate| asked.iter().all(|word| plate.name.to_lowercase().contains(word)));
        own
    };
    view! {
        <section class="class" aria-labelledby="own">
            <h2 id="own">"Your own"</h2>
            <ul class="list">
                <For each=found key=|plate| plate.clone().encode() let:plate>
                    <li class="fit">
                        <a class="row" href=app.href(&Route::machine(&plate.carrier_id()))>
                            <span class="name">{plate.name.clone()}</span>
                            <span class="quiet">{plate.class().map(|class| app.words().carrier_class(class))}</span>
                        </a>
                        <a class="button quiet" href=app.href(&Route::plate(&plate.id)) aria-label=format!("Edit {}", plate.name)>"Edit"</a>
                    </li>
                </For>
            </ul>
            <p class="actions"><a class="button" href=app.href(&Route::Own)>"My machine is not here: read its spec plate"</a></p>
        </section>
    }
}

/// The newest saved comparisons.
#[component]
fn Recent() -> impl IntoView {
    let app = app();
    move || {
        let newest: Vec<_> = app.saved.get().into_iter().take(3).collect();
        (!newest.is_empty()).then(|| {
            view! {
                <section class="class">
                    <h2>"Saved comparisons"</h2>
                    <ul class="list">
                        {newest.into_iter().map(|saved| view! {
                            <li>
                                <a class="row" href=app.href(&super::saved::route(&saved))>
                                    <span class="name">{saved.name.clone()}</span>
                                    <span class="quiet">{saved.carrier.name.clone()}</span>
                                </a>
                            </li>
                        }).collect_view()}
                    </ul>
                </section>
            }
        })
    }
}
