//! Start: which machine?

use super::attributes::Part;
use super::loaded::Loading;
use super::missing::NoTable;
use super::names::{label, machines_of};
use super::route::Route;
use super::state::app;
use leptos::html::Input;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;
use quantity::{Amount, Named};
use std::cell::Cell;
use std::sync::Arc;
use table::{Carrier, CarrierClass};
use wording::Search;

/// Choose a machine.
#[component]
pub fn Start() -> impl IntoView {
    let app = app();
    app.host.title("Choose a machine");
    let failed = Memo::new(move |_| app.loading.with(|loading| matches!(loading, Loading::Failed(_))));
    view! {
        <h1 tabindex="-1">"Which machine?"</h1>
        <p class="quiet">"See which powered attachments really fit it, what must change, and what that costs."</p>
        {move || if failed.get() {
            view! { <NoTable/> }.into_any()
        } else {
            view! {
                <div class="beside">
                    <OtherWays/>
                    <Machines/>
                </div>
            }.into_any()
        }}
    }
}

thread_local! {
    /// What was typed before the app was there, and whether it was being typed.
    static BEFORE: Cell<Option<(String, bool)>> = const { Cell::new(None) };
}

/// Keeps what was typed into the page's own markup, to go on with it.
pub fn take_over() {
    let Some(field) = document().get_element_by_id("search") else { return };
    let is_typed_into = document().active_element().as_ref() == Some(&field);
    let typed = field.dyn_into::<web_sys::HtmlInputElement>().map(|field| field.value()).unwrap_or_default();
    BEFORE.set(Some((typed, is_typed_into)));
}

/// How many machines are shown before more are asked for: a screen of them.
const FIRST: usize = 8;

/// The search and the machines.
#[component]
fn Machines() -> impl IntoView {
    let app = app();
    let (before, goes_on) = BEFORE.take().unwrap_or_default();
    let (typed, class, all) = (RwSignal::new(before), RwSignal::new(None::<CarrierClass>), RwSignal::new(false));
    let field = NodeRef::<Input>::new();
    Effect::new(move |_| {
        if let Some(field) = field.get().filter(|_| goes_on) {
            let _ = field.focus();
            // Behind what is typed; a search field may refuse it.
            let end = u32::try_from(field.value().encode_utf16().count()).unwrap_or(0);
            let _ = field.set_selection_range(end, end);
        }
    });
    let is_there = Memo::new(move |_| app.table().is_some());
    let search = Memo::new(move |_| Search::of(&typed.get(), app.units.get()));
    let found = Memo::new(move |_| {
        app.table().map_or_else(Vec::new, |loaded| {
            search.with(|search| {
                app.words().machines_found(&loaded.table.carriers, search).into_iter().cloned().collect::<Vec<_>>()
            })
        })
    });
    let of_class = Memo::new(move |_| {
        let wanted = class.get();
        let mut of_class = found.get();
        of_class.retain(|carrier| wanted.is_none_or(|wanted| wanted == carrier.class));
        of_class
    });
    let rows = move || {
        let mut rows = of_class.get();
        rows.truncate(if all.get() { rows.len() } else { FIRST });
        rows
    };
    let more = move || of_class.with(Vec::len).saturating_sub(FIRST);
    view! {
        <div class="mainly">
            <div class="search">
                <label for="search">"Search maker, model, class, mass or power"</label>
                <input id="search" type="search" autocomplete="off" placeholder=move || app.words().search_example() prop:value=typed node_ref=field
                    on:input=move |event| {
                        class.set(None);
                        all.set(false);
                        typed.set(event_target_value(&event));
                    }/>
            </div>
            {move || if is_there.get() {
                view! {
                    <ClassChips chosen=class found/>
                    <p role="status" class="quiet">{move || search.with(|search| app.words().machines_count(of_class.with(Vec::len), search))}</p>
                    <ul class="list machines">
                        <For each=rows key=move |carrier| (carrier.id.to_string(), search.with(|search| search.mass.is_some())) let:carrier>
                            <Machine carrier search/>
                        </For>
                    </ul>
                    {move || (more() > 0 && !all.get()).then(|| view! {
                        <p class="actions"><button type="button" on:click=move |_| all.set(true)>{format!("Show {} more", more())}</button></p>
                    })}
                }.into_any()
            } else {
                view! { <p role="status" class="quiet waiting" aria-busy="true">"Loading the table …"</p> }.into_any()
            }}
        </div>
        {move || is_there.get().then(|| view! {
            <div class="side">
                {move || app.shows(Part::Own).then(|| view! { <Own search/> })}
                {move || app.shows(Part::Saved).then(|| view! { <AtHand/> })}
            </div>
        })}
    }
}

/// The classes of what is found, with how many there are of each; pressing one shows its machines alone, pressing it again shows all.
#[component]
fn ClassChips(chosen: RwSignal<Option<CarrierClass>>, found: Memo<Vec<Carrier>>) -> impl IntoView {
    let app = app();
    let count =
        move |class: CarrierClass| found.with(|all| all.iter().filter(|carrier| carrier.class == class).count());
    let there =
        Memo::new(move |_| CarrierClass::ALL.iter().copied().filter(|class| count(*class) > 0).collect::<Vec<_>>());
    view! {
        <div class="chips" role="group" aria-label="Class">
            <For each=move || there.get() key=|class| class.name() let:class>
                <button type="button" class="chip" aria-pressed=move || (chosen.get() == Some(class)).to_string()
                    on:click=move |_| chosen.update(|chosen| *chosen = if *chosen == Some(class) { None } else { Some(class) })>
                    <span class="capital">{move || app.words().carrier_class(class)}</span>" "<span class="count">{move || count(class)}</span>
                </button>
            </For>
        </div>
    }
}

/// One machine with what its brochure says, and how far it is from the mass that was asked for.
#[component]
fn Machine(carrier: Carrier, search: Memo<Search>) -> impl IntoView {
    let app = app();
    let carrier = Arc::new(carrier);
    let of = carrier.clone();
    let mass = move || of.operating_mass.as_ref().map(|mass| app.words().amount(Amount::of(mass.nominal)));
    let of = carrier.clone();
    // In the reader's units, also when they change.
    let says = move || {
        let words = app.words();
        let mut says = vec![words.carrier_class_plain(of.class).to_owned()];
        for circuit in of.circuits.iter().take(1) {
            let flow = circuit.flow.as_ref().map(|flow| words.amount(Amount::of(flow.nominal)));
            let relief = circuit.relief.as_ref().map(|relief| words.amount(Amount::of(relief.nominal)));
            // A figure keeps its unit beside it.
            says.extend(flow.into_iter().chain(relief).map(|figure| figure.replace(' ', "\u{a0}")));
        }
        if of.generic {
            says.push("only typical values of its class".to_owned());
        }
        says.join(" · ")
    };
    let address = app.href(&Route::machine(carrier.id.as_str()));
    let name = label(carrier.maker.as_ref(), &carrier.model);
    let apart = move || search.with(|search| app.words().lighter_or_heavier(&carrier, search));
    view! {
        <li>
            <a class="row" href=address>
                <span class="name">{name}</span>" "
                <span class="end name">{mass}</span>
                <span class="quiet">{says}</span>
                <span class="end quiet">{apart}</span>
            </a>
        </li>
    }
}

/// Machines of one's own, and the way to describe one.
#[component]
fn Own(search: Memo<Search>) -> impl IntoView {
    let app = app();
    let found = move || {
        let (search, mut own) = (search.get(), app.own.get());
        own.retain(|plate| app.words().is_own_found(plate, &search));
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
                            <span class="quiet">{plate.class().map(|class| move || app.words().carrier_class(class))}</span>
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
