//! Handing texts to the device: its clipboard, its own ways of sharing, its mail program. Only ever at a person's click.

use super::notice::Notice;
use super::state::App;
use js_sys::{Function, Object, Promise, Reflect};
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_bindgen::{JsCast, JsValue};
use leptos::web_sys;
use wasm_bindgen_futures::JsFuture;

/// Puts a text into the clipboard; whether it could.
async fn copy(text: &str) -> bool {
    let clipboard = Reflect::get(&window().navigator(), &"clipboard".into()).ok().filter(JsValue::is_object);
    match clipboard.map(JsCast::unchecked_into::<web_sys::Clipboard>) {
        Some(clipboard) => JsFuture::from(clipboard.write_text(text)).await.is_ok(),
        // A page that is not served securely has none.
        None => false,
    }
}

/// A button that puts a text into the clipboard, and says beside it what came of it.
#[component]
pub fn CopyButton(
    label: &'static str,
    /// What is said when it worked.
    done: &'static str,
    /// The text; none where it is not to be copied.
    text: Callback<(), Option<String>>,
    #[prop(optional)] strong: bool,
) -> impl IntoView {
    let told = RwSignal::new("");
    let press = move |_| {
        let Some(text) = text.run(()) else { return };
        spawn_local(async move {
            let refused = "The browser does not let the page copy. Mark the text and copy it yourself.";
            told.try_set(if copy(&text).await { done } else { refused });
        });
    };
    view! {
        <button type="button" class:strong=strong on:click=press>{label}</button>
        <span role="status" class="quiet copied">{told}</span>
    }
}

/// The device's own way of sharing, when it has one.
fn sharing() -> Option<Function> {
    Reflect::get(&window().navigator(), &"share".into()).ok()?.dyn_into().ok()
}

/// Whether the device has its own way of sharing.
pub fn can_share() -> bool {
    sharing().is_some()
}

/// Opens the device's own way of sharing.
pub fn share(app: App, title: &str, text: Option<&str>, address: Option<&str>) {
    let Some(share) = sharing() else { return };
    let what = Object::new();
    for (name, value) in [("title", Some(title)), ("text", text), ("url", address)] {
        if let Some(value) = value {
            // Setting a property of a fresh object cannot fail.
            let _ = Reflect::set(&what, &name.into(), &value.into());
        }
    }
    let Ok(asked) = share.call1(&window().navigator(), &what) else { return };
    spawn_local(async move {
        let outcome = JsFuture::from(asked.unchecked_into::<Promise>()).await;
        // Closing the sheet without choosing is no fault.
        let closed = |fault: &JsValue| {
            Reflect::get(fault, &"name".into()).is_ok_and(|name| name.as_string().as_deref() == Some("AbortError"))
        };
        if outcome.is_err_and(|fault| !closed(&fault)) && !app.notices.is_disposed() {
            app.tell(Notice::fault("This device could not share it. Copy it instead.".to_owned()));
        }
    });
}
