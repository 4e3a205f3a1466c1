//! The screens. They show what the core says and compute nothing of the trade.
//!
//! `state` holds what all screens share, `route` the addresses, `place` where the app stands (a page of its own, or an
//! element in another), `load` gets tables, `storage` keeps things in this browser, `offline` has the app kept on the device,
//! `hand` hands texts to the device, `numbers` writes numbers in the reader's way; each screen has a file of its own.

mod asked;
mod attachment;
mod attributes;
mod bar;
mod breath;
mod checks;
mod circuit;
mod compare;
mod drawings;
mod enquiry;
mod fault;
mod files;
mod filters;
mod fits;
mod hand;
mod handover;
mod hazards;
mod history;
mod import;
mod kept_table;
mod load;
mod loaded;
mod local_storage;
mod notice;
mod notices;
mod numbers;
mod offline;
mod paper;
mod place;
mod plate;
mod points;
mod problems;
mod put_aside;
mod ranking;
mod reasoning;
mod route;
mod row;
mod saved;
mod share;
mod sheet;
mod snippet;
mod solved;
mod start;
mod state;
mod storage;
mod svg;
mod table_screen;
mod theme;
mod translated;
mod unread;
mod when;
mod work;

pub use attributes::Settings;
pub use fault::{tell_at as tell_faults_at, tell_no_more_at as tell_faults_no_more_at, watch as watch_for_faults};
pub use numbers::INTL;
pub use place::Around;
pub use state::KeptState;

use attributes::Part;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;
use loaded::Loading;
use place::Place;
use quantity::Named;
use route::Route;
use state::App;
use table::CarrierClass;
use wording::Words;

/// Mounts the app into the element `#app` of its own page.
pub fn open() {
    let Some(root) = document().get_element_by_id("app").and_then(|root| root.dyn_into::<web_sys::HtmlElement>().ok())
    else {
        return;
    };
    if let Some(body) = document().body() {
        fault::tell_at(&body);
    }
    root.set_inner_text("");
    translated::follow(&root);
    leptos::mount::mount_to(root, Shell).forget();
}

/// The frame around all screens.
#[component]
fn Shell() -> impl IntoView {
    let app = App::new(Place::page());
    provide_context(app);
    history::follow(app);
    load::first(app);
    storage::follow(app);
    offline::start(app);
    Effect::new(move |_| theme::apply(app.theme.get()));
    view! {
        <a class="skip" href="#main" on:click=move |event| { event.prevent_default(); app.place.focus_heading(); }>
            "Skip to the content"
        </a>
        <Head/>
        <InUse/>
        <notices::Notices/>
        <main id="main">
            <Screen/>
            <bar::CompareBar/>
        </main>
        // It would be pushed down by what comes.
        {move || (!matches!(app.loading.get(), Loading::Waiting)).then(|| view! { <Foot/> })}
    }
}

/// Says of a demo table that it is one, on every screen and every paper: nobody must take invented machines for real ones. Until it
/// is known which table is used its room is kept, so that nothing jumps.
#[component]
fn InUse() -> impl IntoView {
    let app = state::app();
    let to_table = move || {
        view! { " "<a class="no-print" href=app.href(&Route::Table)>"Load your own"</a> }
    };
    move || match app.loading.get() {
        Loading::Waiting => {
            view! { <p class="in-use to-come" aria-hidden="true">{Words::INVENTED}" Load your own"</p> }.into_any()
        }
        Loading::Failed(_) => ().into_any(),
        Loading::Ready(loaded) => {
            let Some(words) = app.words().invented(&loaded.table) else { return ().into_any() };
            if app.place.is_page() {
                view! { <aside class="in-use" aria-label="The table in use">{words}{to_table()}</aside> }.into_any()
            } else {
                // The landmarks of a page are its own.
                view! { <p class="in-use">{words}</p> }.into_any()
            }
        }
    }
}

#[component]
fn Foot() -> impl IntoView {
    let app = state::app();
    view! {
        <footer class="foot">
            <p>"Makers' manuals, local codes and licensed practice come first. All figures are to be proved at the machine."</p>
            {move || app.table().map(|loaded| {
                let date = loaded.table.date.map_or_else(|| "not stated".to_owned(), |date| date.to_string());
                view! {
                    <dl class="block">
                        <div><dt>"Table"</dt><dd>{loaded.table.title.clone()}</dd></div>
                        <div><dt>"Date"</dt><dd>{date}{loaded.is_unasked.then_some(loaded::NO_ANSWER)}</dd></div>
                    </dl>
                }
            })}
        </footer>
    }
}

/// Metric or US.
#[component]
fn UnitSwitch() -> impl IntoView {
    let app = state::app();
    view! {
        <button type="button" on:click=move |_| app.turn_units()
            aria-label=move || format!("Units: {}. Change", app.units_name())>
            {move || app.units_name()}
        </button>
    }
}

/// The screen of the route.
#[component]
fn Screen() -> impl IntoView {
    let app = state::app();
    let only = app.place.only_head();
    move || match app.route.get() {
        Route::Start => view! { <start::Start/> }.into_any(),
        Route::Attachments => view! { <attachment::Attachments/> }.into_any(),
        Route::Attachment { head } => view! { <attachment::RunsOn head/> }.into_any(),
        Route::Work { asked } => view! { <work::Work asked/> }.into_any(),
        Route::Machine { carrier, asked } => match only.get() {
            Some(head) => view! { <sheet::Sheet carrier head/> }.into_any(),
            None => view! { <fits::Fits carrier asked/> }.into_any(),
        },
        Route::Sheet { carrier, head } => view! { <sheet::Sheet carrier head/> }.into_any(),
        Route::Paper { carrier, head, whose } => view! { <paper::Paper carrier head whose/> }.into_any(),
        Route::HandOver { carrier, head, id: None } => view! { <handover::Begin carrier head/> }.into_any(),
        Route::HandOver { carrier, head, id: Some(id) } => view! { <handover::Kept carrier head id/> }.into_any(),
        Route::HandOverPaper { carrier, head, id } => view! { <handover::Paper carrier head id/> }.into_any(),
        Route::Compare { pairs } => view! { <compare::Compare pairs/> }.into_any(),
        Route::Own => view! { <plate::ChooseClass/> }.into_any(),
        Route::NewPlate { class } => view! { <plate::FreshPlate class=CarrierClass::from_name(&class)/> }.into_any(),
        Route::Plate { id } => view! { <plate::KeptPlate id/> }.into_any(),
        Route::Saved => view! { <saved::SavedList/> }.into_any(),
        Route::Table => view! { <table_screen::TableScreen/> }.into_any(),
        Route::Snippet => view! { <snippet::Snippet/> }.into_any(),
        Route::Link { path } => view! { <share::Opened path/> }.into_any(),
        Route::Stamped { to, stamp, .. } => view! { <share::Stamped to=*to stamp/> }.into_any(),
        Route::Unknown => view! { <Lost/> }.into_any(),
    }
}

/// A place to go; marked when one is there.
#[component]
fn Way(to: Route, name: &'static str) -> impl IntoView {
    let app = state::app();
    let address = app.href(&to);
    view! { <a href=address aria-current=move || here(app, &to)>{name}</a> }
}

/// Marks the place of the present screen among the places to go.
fn here(app: App, to: &Route) -> Option<&'static str> {
    let route = app.route.get();
    let is_there = match (to, &route) {
        (Route::Work { .. }, Route::Work { .. }) => true,
        (Route::Attachments, Route::Attachment { .. }) | (Route::Start, Route::Machine { .. }) => return Some("true"),
        (to, route) => to == route,
    };
    is_there.then_some("page")
}

/// Name, places to go, units, and light or dark.
#[component]
fn Head() -> impl IntoView {
    let app = state::app();
    view! {
        <header class="head">
            <a class="word" href=app.href(&Route::Start)>"Pairwright"</a>
            <nav aria-label="Main">
                <Way to=Route::Start name="Machines"/>
                <Way to=Route::Attachments name="Attachments"/>
                <Way to=Route::Work { asked: String::new() } name="Work"/>
                <a href=app.href(&Route::Saved) aria-current=move || here(app, &Route::Saved)>"Saved"{move || {
                    let count = app.saved.with(Vec::len);
                    (count > 0).then(|| view! { <span class="count">{count}</span> })
                }}</a>
                <Way to=Route::Table name="Table"/>
            </nav>
            <div class="switches">
                <UnitSwitch/>
                <button type="button" on:click=move |_| app.turn_theme()
                    aria-label=move || format!("Look: {}. Change", app.theme.get().name())>
                    {move || app.theme.get().name()}
                </button>
            </div>
        </header>
    }
}

/// The way back to the choice of a machine, where there is one.
#[component]
fn PathToMachines() -> impl IntoView {
    let app = state::app();
    move || app.shows(Part::Machines).then(|| view! { <a href=app.href(&Route::Start)>"Machines"</a> })
}

#[component]
fn Lost() -> impl IntoView {
    let app = state::app();
    view! {
        <h1 tabindex="-1">"Nothing here"</h1>
        <p>"This address leads to no screen of the app."</p>
        <p><a class="button" href=app.href(&Route::Start)>"Choose a machine"</a></p>
    }
}

/// The frame around all screens within an element.
#[component]
pub fn ElementShell(
    /// The element around it.
    around: Around,
    /// What its attributes set.
    settings: Settings,
    /// Where it stood when it was taken out of a page before.
    kept: Option<KeptState>,
    /// Gets the means to reach it from outside.
    reach: impl FnOnce(Reach) + 'static,
    /// Is told whether there is something to show.
    ready: impl Fn(bool) + 'static,
) -> impl IntoView {
    let app = App::new(Place::element(around, settings));
    provide_context(app);
    storage::follow(app);
    let goes_on = kept.is_some();
    if let Some(kept) = kept {
        app.go_on(kept);
    }
    let setting = move |part: fn(&Settings) -> Option<String>| Memo::new(move |_| app.place.settings.with(part));
    let (table, carrier, head) =
        (setting(|all| all.table.clone()), setting(|all| all.carrier.clone()), setting(|all| all.head.clone()));
    Effect::new(move |_| load::for_element(app, table.get()));
    Effect::new(move |before: Option<()>| {
        let route = match (carrier.get(), head.get()) {
            (Some(carrier), Some(head)) => Route::Sheet { carrier, head },
            (Some(carrier), None) => Route::machine(&carrier),
            (None, _) => Route::Start,
        };
        // Back in a page, it goes on where it stood.
        if before.is_some() || !goes_on {
            app.route.set(route);
        }
    });
    let units = Memo::new(move |_| app.place.settings.with(|settings| settings.units));
    Effect::new(move |before: Option<()>| {
        if let Some(units) = units.get()
            && (before.is_some() || !goes_on)
        {
            app.units.set(units);
        }
    });
    Effect::new(move |_| {
        app.loading.with(|loading| match loading {
            Loading::Waiting => {}
            Loading::Ready(_) => ready(true),
            Loading::Failed(_) => ready(false),
        });
    });
    reach(Reach { app });
    app.place.follow_translation();
    view! {
        <div class="inside" on:click=move |event| app.follow_click(&event)>
            <ElementHead/>
            <InUse/>
            <notices::Notices/>
            <div class="main" part="screen"><Screen/><bar::CompareBar/></div>
            <Foot/>
        </div>
    }
}

/// Reaches into an element from the page around it.
#[derive(Clone, Copy)]
pub struct Reach {
    app: App,
}

impl Reach {
    /// Sets an attribute.
    pub fn set(self, name: &str, value: Option<String>, folder: &str) {
        let settings = self.app.place.settings.get_untracked().with(name, value, folder);
        self.app.place.settings.set(settings);
    }

    /// Where it stands, to go on there later.
    pub fn state(self) -> KeptState {
        self.app.state()
    }
}

/// Places to go and units, as far as they are shown.
#[component]
fn ElementHead() -> impl IntoView {
    let app = state::app();
    view! {
        {move || {
            let (machines, saved, units) = (app.shows(Part::Machines), app.shows(Part::Saved), app.shows(Part::Units));
            (machines || saved || units).then(|| view! {
                <div class="head" part="head">
                    <nav aria-label="Attachments and machines">
                        {machines.then(|| view! { <a href=app.href(&Route::Start)>"Machines"</a> })}
                        {saved.then(|| view! { <a href=app.href(&Route::Saved)>"Saved"</a> })}
                    </nav>
                    {units.then(|| view! { <div class="switches"><UnitSwitch/></div> })}
                </div>
            })
        }}
    }
}
