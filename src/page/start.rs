//! Start: which machine?

use super::attributes::Part;
use super::loaded::Loading;
use super::missing::NoTable;
use super::names::machines_of;
use super::route::Route;
use super::state::app;
use leptos::html::Input;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;
use quantity::Named;
use std::cell::Cell;
use table::CarrierClass;
use wording::{MachineList, MachineRow, MachinesAsked, Search};

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

/// What was done on the first screen before the app was there.
#[derive(Default)]
struct Before {
    typed: String,
    /// Whether it was being typed.
    is_typed_into: bool,
    class: Option<CarrierClass>,
    all: bool,
}

thread_local! {
    static BEFORE: Cell<Option<Before>> = const { Cell::new(None) };
}

/// Keeps what was typed and chosen in the page's own markup (`public/first.js`), to go on with it.
pub fn take_over() {
    let Some(field) = document().get_element_by_id("search") else { return };
    let is_typed_into = document().active_element().as_ref() == Some(&field);
    let typed = field.dyn_into::<web_sys::HtmlInputElement>().map(|field| field.value()).unwrap_or_default();
    let chosen = |what: &str| document().get_element_by_id("first-screen")?.get_attribute(what);
    let class = chosen("data-class").and_then(|name| CarrierClass::from_name(&name));
    BEFORE.set(Some(Before { typed, is_typed_into, class, all: chosen("data-all").is_some() }));
}

/// The search and the machines.
#[component]
fn Machines() -> impl IntoView {
    let app = app();
    let before = BEFORE.take().unwrap_or_default();
    let goes_on = before.is_typed_into;
    let (typed, class, all) = (RwSignal::new(before.typed), RwSignal::new(before.class), RwSignal::new(before.all));
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
    Effect::new(move |_| app.sought.set_value(search.get()));
    let found = Memo::new(move |_| {
        let asked = MachinesAsked { search: search.get(), class: class.get(), all: all.get() };
        app.table().map_or_else(MachineList::default, |loaded| app.words().machine_list(&loaded.table.carriers, &asked))
    });
    let more = move || found.with(|found| found.more);
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
                    <p role="status" class="quiet">{move || found.with(|found| found.says.clone())}</p>
                    <ul class="list machines">
                        <For each=move || found.with(|found| found.rows.clone()) key=Clone::clone let:row><Machine row/></For>
                    </ul>
                    {move || (more() > 0).then(|| view! {
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
fn ClassChips(chosen: RwSignal<Option<CarrierClass>>, found: Memo<MachineList>) -> impl IntoView {
    let turn = move |class: &str| {
        let class = CarrierClass::from_name(class);
        chosen.update(|chosen| *chosen = class.filter(|_| *chosen != class));
    };
    view! {
        <div class="chips" role="group" aria-label="Class">
            <For each=move || found.with(|found| found.classes.clone()) key=Clone::clone let:found>
                <button type="button" class="chip" aria-pressed=move || (chosen.get().is_some_and(|class| class.name() == found.class)).to_string()
                    on:click=move |_| turn(found.class)>
                    <span class="capital">{found.name}</span>" "<span class="count">{found.count}</span>
                </button>
            </For>
        </div>
    }
}

/// One machine with what its brochure says, and how far it is from the mass that was asked for.
#[component]
fn Machine(row: MachineRow) -> impl IntoView {
    let address = app().href(&Route::machine(&row.id));
    view! {
        <li>
            <a class="row" href=address>
                <span class="name">{row.name}</span>" "
                <span class="end name">{row.mass}</span>" "
                <span class="quiet">{row.says}</span>" "
                <span class="end quiet">{row.apart}</span>
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
