//! A pairing as a mail or a message to a dealer. Nothing is sent from here: the person's own mail program does that.

use super::attributes::PAGE;
use super::loaded::Loaded;
use super::names::label;
use super::share::{self, CopyButton};
use super::state::app;
use super::{events, local_storage, send};
use fit::Pairing;
use leptos::prelude::*;
use serde_json::json;
use std::sync::Arc;
use wording::{Enquiry, is_mail_address};

/// The name under which the dealer's address is kept.
const PREFERENCE: &str = "enquiry";

/// Asks the dealer.
#[component]
pub fn Ask(loaded: Arc<Loaded>, pairing: RwSignal<Arc<Pairing>>) -> impl IntoView {
    let app = app();
    let set = move || app.host.settings.with(|settings| settings.enquiry.clone());
    let typed = RwSignal::new(local_storage::preference(PREFERENCE).unwrap_or_default());
    // What the reader once typed in the app is not where another's page sends its enquiries.
    let own_page = app.host.is_page();
    let to = move || match set() {
        Some(address) => address,
        None if own_page => typed.get().trim().to_owned(),
        None => String::new(),
    };
    let of_sheet = StoredValue::new(loaded);
    let own = pairing.with_untracked(|pairing| app.plate(pairing.carrier.id.as_str()).is_some());
    let with_figures = RwSignal::new(false);
    let enquiry = Memo::new(move |_| {
        let pairings = [pairing.get()];
        let link = of_sheet.with_value(|loaded| send::link(app, loaded, &pairings, with_figures.get()));
        let link = link.and_then(|link| link.address(&app.host.whole_app()).ok());
        let enquiry =
            of_sheet.with_value(|loaded| app.words().enquiry_from(&loaded.table, &pairings[0], link.as_deref()));
        (enquiry, link)
    });
    let written = Signal::derive(move || enquiry.get().0);
    // The page around an element may take the enquiry itself.
    let left_to_us = move || {
        let (enquiry, link) = enquiry.get_untracked();
        let pairing = pairing.get_untracked();
        let detail = json!({
            "to": to(), "subject": enquiry.subject, "body": enquiry.body, "link": link,
            "carrier": { "id": pairing.carrier.id.as_str(), "name": label(pairing.carrier.maker.as_ref(), &pairing.carrier.model) },
            "head": { "id": pairing.head.id.as_str(), "name": label(pairing.head.maker.as_ref(), &pairing.head.model) },
        });
        app.host.emit("enquiry", &detail.to_string())
    };
    let ways = move || {
        if set().as_deref() == Some(PAGE) {
            return view! { <button type="button" class="strong" on:click=move |_| { left_to_us(); }>"Send this enquiry"</button> }
                .into_any();
        }
        let address = written.get().mailto(&to());
        view! {
            {address.map(|address| view! {
                <a class="button strong" href=address on:click=move |event| if !left_to_us() { event.prevent_default() }>
                    "Write it as a mail"
                </a>
            })}
            {share::can_share().then(|| view! {
                <button type="button" on:click=move |_| {
                    if left_to_us() {
                        let enquiry = written.get_untracked();
                        share::share(app, &enquiry.subject, Some(&enquiry.message()), None);
                    }
                }>"Share the text …"</button>
            })}
            <CopyButton label="Copy the text" done="The text is copied."
                text=Callback::new(move |()| left_to_us().then(|| written.get_untracked().message()))/>
        }
        .into_any()
    };
    let open = RwSignal::new(false);
    view! {
        <details class="more send" id="ask" part="enquiry" on:toggle=move |event| open.set(events::is_open(&event))>
            <summary>"Ask your dealer"</summary>
            {move || open.get().then(|| view! {
                {own.then(|| view! { <send::WithFigures with_figures/> })}
                {own_page.then(|| view! { <Address typed/> })}
                <Letter enquiry=written/>
                <p class="actions">{ways}</p>
                <p class="quiet">"Nothing is sent from here: your own program does that, when you say so there."</p>
            })}
        </details>
    }
}

/// The dealer's address, kept for the next time.
#[component]
fn Address(typed: RwSignal<String>) -> impl IntoView {
    let write = move |event: leptos::ev::Event| {
        typed.set(event_target_value(&event));
        local_storage::keep_preference(PREFERENCE, &typed.get_untracked());
    };
    let odd = move || {
        let to = typed.get().trim().to_owned();
        !to.is_empty() && !is_mail_address(&to)
    };
    view! {
        <p class="field">
            <label for="dealer">"Your dealer's mail address"</label>
            <input id="dealer" type="email" autocomplete="off" placeholder="name@example.com" prop:value=typed
                aria-invalid=move || odd().to_string() on:input=write/>
        </p>
        {move || odd().then(|| view! { <p>"This is no mail address: it is written name@place."</p> })}
        {move || typed.with(|to| to.trim().is_empty()).then(|| view! { <p class="quiet">"Without an address the text can be copied."</p> })}
    }
}

/// What is sent, to be read before.
#[component]
fn Letter(enquiry: Signal<Enquiry>) -> impl IntoView {
    view! {
        <p class="name">{move || enquiry.get().subject}</p>
        <p class="note letter">{move || enquiry.get().body}</p>
    }
}
