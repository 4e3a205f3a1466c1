//! How a person gives a table: a file chosen or dropped, or cells pasted.

use super::file_read::FileRead;
use super::spreadsheet;
use super::state::App;
use leptos::ev;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;

/// The kinds of files that are taken.
const KINDS: &str = ".xlsx,.ods,.csv,.tsv,.txt,.zip,.json,application/json,text/csv";

/// A file, chosen or dropped here.
#[component]
pub fn GiveFile(app: App) -> impl IntoView {
    let is_over = RwSignal::new(false);
    let choose = move |event: leptos::ev::Event| {
        let input = event.target().and_then(|target| target.dyn_into::<web_sys::HtmlInputElement>().ok());
        let Some(input) = input else { return };
        if let Some(file) = input.files().and_then(|files| files.get(0)) {
            spreadsheet::give(app, file);
        }
        // The same file can be chosen again once it is mended.
        input.set_value("");
    };
    // Wherever it is dropped on this screen: a browser would open it in the app's place.
    let over = window_event_listener(ev::dragover, move |event| {
        event.prevent_default();
        is_over.set(true);
    });
    let leave = window_event_listener(ev::dragleave, move |_| is_over.set(false));
    let drop = window_event_listener(ev::drop, move |event| {
        event.prevent_default();
        is_over.set(false);
        if let Some(file) = event.data_transfer().and_then(|data| data.files()).and_then(|files| files.get(0)) {
            spreadsheet::give(app, file);
        }
    });
    on_cleanup(move || {
        for listener in [over, leave, drop] {
            listener.remove();
        }
    });
    view! {
        <div class="drop" class:over=is_over>
            <label for="file">"From a file"</label>
            <input id="file" type="file" accept=KINDS on:change=choose aria-describedby="file-kinds"/>
            <p class="quiet" id="file-kinds">"Choose it or drop it here: .xlsx, .ods, .csv or JSON."</p>
            <p role="status">{move || match app.file.get() {
                FileRead::Busy(name) => Some(view! { <span aria-busy="true">"Reading "{name}" …"</span> }.into_any()),
                FileRead::Ready(read) => Some(view! {
                    <a class="button" href="#/table/import">"Go on with "{read.name.clone()}</a>
                }.into_any()),
                FileRead::None => None,
            }}</p>
        </div>
    }
}

/// Cells that were copied out of a spreadsheet.
#[component]
pub fn PasteCells(app: App) -> impl IntoView {
    let text = RwSignal::new(String::new());
    let read = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        let pasted = text.get_untracked();
        if !pasted.trim().is_empty() {
            spreadsheet::paste(app, pasted);
            text.set(String::new());
        }
    };
    view! {
        <form class="field" on:submit=read>
            <label for="cells">"From copied cells, with their headers"</label>
            <textarea id="cells" rows="3" prop:value=text on:input=move |event| text.set(event_target_value(&event))></textarea>
            <button type="submit" disabled=move || text.with(|text| text.trim().is_empty())>"Read the cells"</button>
        </form>
    }
}
