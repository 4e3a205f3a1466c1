//! Start: which machine?

use super::attributes::Part;
use super::missing::NoTable;
use super::names::{label, machines_of};
use super::route::Route;
use super::state::app;
use fit::holds_words;
use leptos::prelude::*;
use quantity::{Amount, Named};
use table::{Carrier, CarrierClass};

/// Choose a machine.
#[component]
pub fn Start() -> impl IntoView {
    let app = app();
    app.host.title("Choose a machine");
    view! {
        <h1 tabindex="-1">"Which machine?"</h1>
        {move || match app.table() {
            Some(_) => view! {
                <OtherWays/>
                <Machines/>
            }.into_any(),
            None => view! { <NoTable/> }.into_any(),
        }}
    }
}

/// The search and the machines by class.
#[component]
fn Machines() -> impl IntoView {
    let app = app();
    let (search, class) = (RwSignal::new(String::new()), RwSignal::new(None::<CarrierClass>));
    let found = Memo::new(move |_| {
        let asked = search.get();
        app.table().map_or_else(Vec::new, |loaded| {
            let words = app.words();
            let matches = |carrier: &&Carrier| {
                let text = format!(
                    "{} {} {}",
                    label(carrier.maker.as_ref(), &carrier.model),
                    words.carrier_class(carrier.class),
                    carrier.class.name()
                );
                holds_words(&text, &asked)
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
        <div class="search">
            <label for="search">"Search maker, model or class"</label>
            <input id="search" type="search" autocomplete="off" prop:value=search
                on:input=move |event| {
                    class.set(None);
                    search.set(event_target_value(&event));
                }/>
        </div>
        <p role="status" class="quiet">{move || match found.get().len() {
            0 => "No machine of the table matches. Shorten the search, load another table, or describe your own.".to_owned(),
            1 => "1 machine".to_owned(),
            count => format!("{count} machines"),
        }}</p>
        {move || app.shows(Part::Own).then(|| view! { <Own search/> })}
        {move || app.shows(Part::Saved).then(|| view! { <AtHand/> })}
        <ClassChips chosen=class/>
        <div class="columns">{move || {
            let wanted = class.get();
            let all = CarrierClass::ALL.iter().filter(move |class| wanted.is_none_or(|wanted| wanted == **class));
            all.map(|&class| of_class(class)).collect_view()
        }}</div>
    }
}

/// The classes; pressing one shows its machines alone, pressing it again shows all.
#[component]
fn ClassChips(chosen: RwSignal<Option<CarrierClass>>) -> impl IntoView {
    let app = app();
    let there = move || {
        app.table().map_or_else(Vec::new, |loaded| {
            let has = |class: &CarrierClass| loaded.table.carriers.iter().any(|carrier| carrier.class == *class);
            CarrierClass::ALL.iter().copied().filter(has).collect::<Vec<_>>()
        })
    };
    view! {
        <div class="chips" role="group" aria-label="Class">
            {move || there().into_iter().map(|class| view! {
                <button type="button" class="chip capital" aria-pressed=move || (chosen.get() == Some(class)).to_string()
                    on:click=move |_| chosen.update(|chosen| *chosen = if *chosen == Some(class) { None } else { Some(class) })>
                    {app.words().carrier_class(class)}
                </button>
            }).collect_view()}
        </div>
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
        let (asked, mut own) = (search.get(), app.own.get());
        own.retain(|plate| holds_words(&plate.name, &asked));
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

/// The other ways in: by the attachment, by the work.
#[component]
fn OtherWays() -> impl IntoView {
    let app = app();
    view! {
        <p class="other-ways">"Or begin with "<a href=app.href(&Route::Attachments)>"the attachment"</a>", or with "
            <a href=app.href(&Route::Work { asked: String::new() })>"the work"</a>"."</p>
    }
}

/// What was opened last, and the newest saved comparisons.
#[component]
fn AtHand() -> impl IntoView {
    let app = app();
    let opened = move || {
        let entries = app.recent.with(|recent| recent.entries().to_vec());
        (app.host.is_page() && !entries.is_empty()).then(|| {
            view! {
                <section class="class" aria-labelledby="recent">
                    <h2 id="recent">"Opened last"</h2>
                    <ul class="list">
                        {entries.into_iter().map(|entry| {
                            let route = match &entry.head {
                                Some(head) => Route::sheet(&entry.carrier, head),
                                None => Route::machine(&entry.carrier),
                            };
                            view! { <li><a class="row" href=app.href(&route)><span class="name">{entry.name}</span></a></li> }
                        }).collect_view()}
                    </ul>
                    <p class="actions"><button type="button" class="quiet" on:click=move |_| app.forget_recent()>"Forget these"</button></p>
                </section>
            }
        })
    };
    let saved = move || {
        let newest: Vec<_> = app.saved.get().into_iter().take(3).collect();
        (!newest.is_empty()).then(|| {
            view! {
                <section class="class" aria-labelledby="newest">
                    <h2 id="newest">"Saved comparisons"</h2>
                    <ul class="list">
                        {newest.into_iter().map(|saved| view! {
                            <li>
                                <a class="row" href=app.href(&Route::of_saved(&saved))>
                                    <span class="name">{saved.name.clone()}</span>
                                    <span class="quiet">{machines_of(&saved)}</span>
                                </a>
                            </li>
                        }).collect_view()}
                    </ul>
                </section>
            }
        })
    };
    view! {
        {opened}
        {saved}
    }
}
