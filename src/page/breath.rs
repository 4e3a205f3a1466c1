//! Long work in short stretches, so that the browser can draw and answer in between.

use crate::pairing::Pace;
use leptos::prelude::window;
use std::cell::Cell;
use std::pin::Pin;
use wasm_bindgen_futures::JsFuture;

/// How long the browser may be kept waiting, in milliseconds: with what a browser does besides, two frames.
const STRETCH: f64 = 24.0;

/// Work that pauses when it has gone on for long enough.
pub struct Breath {
    since: Cell<f64>,
}

impl Breath {
    /// Begins now.
    pub fn new() -> Self {
        Self { since: Cell::new(js_sys::Date::now()) }
    }
}

impl Pace for Breath {
    fn rest(&self) -> Option<Pin<Box<dyn Future<Output = ()> + '_>>> {
        if js_sys::Date::now() - self.since.get() < STRETCH {
            return None;
        }
        Some(Box::pin(async {
            breathe().await;
            self.since.set(js_sys::Date::now());
        }))
    }
}

/// Lets the browser draw before the work goes on.
pub async fn breathe() {
    let pause = js_sys::Promise::new(&mut |resolve, _| {
        let _ = window().set_timeout_with_callback(&resolve);
    });
    let _ = JsFuture::from(pause).await;
}
