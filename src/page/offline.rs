//! Without a signal: has the app kept on this device, and offers a newer version.
//!
//! What is kept and which version answers is the worker's business (`public/worker.js`). Nothing takes over by itself: a
//! newer version waits until it is asked for here, or until the app is opened anew.

use super::notice::{Notice, Offer};
use super::state::App;
use leptos::ev;
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_bindgen::closure::Closure;
use leptos::wasm_bindgen::{JsCast, JsValue};
use leptos::web_sys::{RegistrationOptions, ServiceWorker, ServiceWorkerContainer, ServiceWorkerRegistration};
use leptos::web_sys::{ServiceWorkerState, ServiceWorkerUpdateViaCache};
use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen_futures::JsFuture;

/// How seldom a newer version is looked for.
const SELDOM: Duration = Duration::from_hours(1);

/// How long after the app is kept the rest is kept too.
const REST: Duration = Duration::from_secs(30);

/// Whether the app opens without a signal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// This browser keeps no app.
    Unable,
    /// Not yet.
    NotYet,
    /// Yes.
    Kept,
}

impl Status {
    /// In a sentence or two.
    pub fn words(self) -> &'static str {
        match self {
            Self::Unable => "This browser does not keep the app: it needs a signal to open.",
            Self::NotYet => "The app is not kept on this device yet: it needs a signal to open.",
            Self::Kept => "Kept on this device: the app opens without a signal.",
        }
    }
}

/// Has the app kept, follows what becomes of it, and provides its [`Status`] to all components below.
pub fn start(app: App) {
    let status = RwSignal::new(Status::Unable);
    provide_context(status.read_only());
    // A development build changes by the minute.
    if cfg!(debug_assertions) {
        return;
    }
    let Some(container) = container() else { return };
    spawn_local(async move {
        let Some(registration) = register(&container).await else { return };
        status.set(Status::NotYet);
        follow(app, registration);
        if let Ok(ready) = container.ready()
            && JsFuture::from(ready).await.is_ok()
        {
            status.set(Status::Kept);
            set_timeout(keep_the_rest, REST);
        }
    });
}

/// Has the rest kept too, which is large and which few need: not where the browser is told to save data.
fn keep_the_rest() {
    let member = |of: &JsValue, name: &str| js_sys::Reflect::get(of, &name.into()).unwrap_or(JsValue::UNDEFINED);
    let connection = member(&window().navigator(), "connection");
    let saves_data = connection.is_object() && member(&connection, "saveData").is_truthy();
    if let Some(worker) = container().and_then(|container| container.controller())
        && !saves_data
    {
        let message = js_sys::Object::new();
        let _ = js_sys::Reflect::set(&message, &"keep".into(), &"the rest".into());
        let _ = worker.post_message(&message);
    }
}

/// Whether the app opens without a signal, for [`start`]'s components.
pub fn status() -> ReadSignal<Status> {
    expect_context()
}

/// What registers workers. Browsers leave it away where they keep nothing, and where the connection is not secure.
fn container() -> Option<ServiceWorkerContainer> {
    let navigator = window().navigator();
    let there = js_sys::Reflect::get(&navigator, &"serviceWorker".into()).is_ok_and(|found| found.is_object());
    there.then(|| navigator.service_worker())
}

/// Registers the worker beside the page. A browser that refuses it works as before.
async fn register(container: &ServiceWorkerContainer) -> Option<ServiceWorkerRegistration> {
    let options = RegistrationOptions::new();
    options.set_update_via_cache(ServiceWorkerUpdateViaCache::None);
    let registered = JsFuture::from(container.register_with_options("worker.js", &options)).await;
    registered.ok()?.dyn_into().ok()
}

/// Offers what waits, now and later, and looks for something newer now and then.
fn follow(app: App, registration: ServiceWorkerRegistration) {
    offer(app, &registration);
    let found = registration.clone();
    on_update_found(&registration, move || {
        let Some(coming) = found.installing() else { return };
        let found = found.clone();
        on_state(&coming, move |_| offer(app, &found));
    });
    // The browser itself looks when the page is opened.
    let last = Rc::new(Cell::new(js_sys::Date::now()));
    let look = move || {
        let now = js_sys::Date::now();
        let due = now - last.get() >= SELDOM.as_secs_f64() * 1000.0;
        if due && !document().hidden() && window().navigator().on_line() {
            last.set(now);
            if let Ok(looked) = registration.update() {
                // Without a signal there is nothing new to be found, and nothing to be said.
                spawn_local(async move { drop(JsFuture::from(looked).await) });
            }
        }
    };
    let looks = look.clone();
    set_interval(looks, SELDOM);
    // For as long as the page is open.
    let _ = window_event_listener(ev::visibilitychange, move |_| look());
}

/// Tells of a newer version that waits for its turn. The very first one does not wait.
fn offer(app: App, registration: &ServiceWorkerRegistration) {
    if registration.waiting().is_some() && registration.active().is_some() {
        app.tell(Notice::news("A newer version of the app is ready.".to_owned()).offering(Offer::NewVersion));
    }
}

/// Lets the newer version take over and reloads this tab, and no other, as soon as it has.
pub fn use_it_now() {
    spawn_local(async {
        let waiting = waiting().await;
        // Another tab has asked already: a reload is all that this one lacks.
        let Some(waiting) = waiting else { return reload() };
        // Not the change of the controller: a tab that was reloaded past the worker has none.
        on_state(&waiting, |state| {
            if matches!(state, ServiceWorkerState::Activated | ServiceWorkerState::Redundant) {
                reload();
            }
        });
        let message = js_sys::Object::new();
        let _ = js_sys::Reflect::set(&message, &"use".into(), &"now".into());
        let _ = waiting.post_message(&message);
    });
}

/// The newer version that waits.
async fn waiting() -> Option<ServiceWorker> {
    let registration = JsFuture::from(container()?.get_registration()).await.ok()?;
    registration.dyn_into::<ServiceWorkerRegistration>().ok()?.waiting()
}

fn reload() {
    let _ = window().location().reload();
}

/// Runs a function whenever a worker's state changes.
fn on_state(worker: &ServiceWorker, act: impl Fn(ServiceWorkerState) + 'static) {
    let of = worker.clone();
    let changed = Closure::<dyn Fn()>::new(move || act(of.state())).into_js_value();
    let _ = worker.add_event_listener_with_callback("statechange", changed.unchecked_ref());
}

/// Runs a function whenever a newer version is found.
fn on_update_found(registration: &ServiceWorkerRegistration, act: impl Fn() + 'static) {
    let found: JsValue = Closure::<dyn Fn()>::new(act).into_js_value();
    let _ = registration.add_event_listener_with_callback("updatefound", found.unchecked_ref());
}
