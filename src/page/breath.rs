//! Long work in short stretches, so that the browser can draw and answer in between.

use leptos::prelude::window;
use wasm_bindgen_futures::JsFuture;

/// How long the browser may be kept waiting, in milliseconds: half of what a person notices.
const STRETCH: f64 = 50.0;

/// Work that pauses when it has gone on for long enough.
pub struct Breath {
    since: f64,
}

impl Breath {
    /// Begins now.
    pub fn new() -> Self {
        Self { since: js_sys::Date::now() }
    }

    /// Pauses when it is time; whether it did.
    pub async fn take(&mut self) -> bool {
        if js_sys::Date::now() - self.since < STRETCH {
            return false;
        }
        breathe().await;
        self.since = js_sys::Date::now();
        true
    }
}

/// Lets the browser draw before the work goes on.
pub async fn breathe() {
    let pause = js_sys::Promise::new(&mut |resolve, _| {
        let _ = window().set_timeout_with_callback(&resolve);
    });
    let _ = JsFuture::from(pause).await;
}
