//! The app within an element of somebody else's page: what stands around its screens, and how it is reached from outside.

use super::attributes::{Part, Settings};
use super::bar::CompareBar;
use super::frame::{Foot, InUse, UnitSwitch};
use super::host::{Around, Host};
use super::load;
use super::loaded::Loading;
use super::notices::Notices;
use super::route::Route;
use super::screen::Screen;
use super::state::{App, KeptState, app};
use super::storage;
use leptos::prelude::*;

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
    let app = App::new(Host::element(around, settings));
    provide_context(app);
    storage::follow(app);
    let goes_on = kept.is_some();
    if let Some(kept) = kept {
        app.go_on(kept);
    }
    let setting = move |part: fn(&Settings) -> Option<String>| Memo::new(move |_| app.host.settings.with(part));
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
    let units = Memo::new(move |_| app.host.settings.with(|settings| settings.units));
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
    app.host.follow_translation();
    view! {
        <div class="inside" on:click=move |event| app.follow_click(&event)>
            <ElementHead/>
            <InUse/>
            <Notices/>
            <div class="main" part="screen"><Screen/><CompareBar/></div>
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
        let settings = self.app.host.settings.get_untracked().with(name, value, folder);
        self.app.host.settings.set(settings);
    }

    /// Where it stands, to go on there later.
    pub fn state(self) -> KeptState {
        self.app.state()
    }
}

/// Places to go and units, as far as they are shown.
#[component]
fn ElementHead() -> impl IntoView {
    let app = app();
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
