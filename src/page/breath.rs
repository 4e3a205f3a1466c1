//! Long work in short stretches, so that the browser can draw and answer in between; and work that waits for a person to pause.

use fit::Pace;
use leptos::prelude::{GetValue, SetValue, StoredValue, TimeoutHandle, UpdateValue, set_timeout_with_handle, window};
use std::cell::Cell;
use std::pin::Pin;
use std::time::Duration;
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

/// Work that waits until a person pauses: what comes later takes the place of what still waits.
#[derive(Clone, Copy)]
pub struct Pause(StoredValue<Option<TimeoutHandle>>);

impl Pause {
    /// Nothing waits yet.
    pub fn new() -> Self {
        Self(StoredValue::new(None))
    }

    /// Takes back what waits.
    pub fn end(self) {
        if let Some(timer) = self.0.get_value() {
            timer.clear();
        }
        self.0.set_value(None);
    }

    /// Has work done after a while, unless other work comes before, or the screen is left.
    pub fn then(self, wait: Duration, work: impl FnOnce() + 'static) {
        self.end();
        let waits = move || {
            if self.0.try_update_value(|timer| *timer = None).is_some() {
                work();
            }
        };
        self.0.set_value(set_timeout_with_handle(waits, wait).ok());
    }
}
