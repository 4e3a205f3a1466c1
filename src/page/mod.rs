//! The screens. They show what the core says and compute nothing of the trade.

use leptos::prelude::*;

/// Mounts the app into the element `#app` of the document.
pub fn start() {
    console_error_panic_hook::set_once();
    leptos::mount::mount_to_body(|| view! { <main><h1>"Pairwright"</h1></main> });
}
