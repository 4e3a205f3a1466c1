//! A link to a pairing or a comparison, to be sent. What stands in it is `record::link`'s; `opened` shows one that came.

use super::loaded::Loaded;
use super::names::label;
use super::route::Route;
use super::share::{self, CopyButton};
use super::state::{App, app};
use super::svg::QrCode;
use super::{events, files};
use fit::Pairing;
use leptos::prelude::*;
use record::link::{Link, LinkTable};
use record::{HandOver, Made};
use std::sync::Arc;

/// The link to pairings on one machine; with the figures of a machine of one's own only when asked.
pub fn link(app: App, loaded: &Loaded, pairings: &[Arc<Pairing>], with_figures: bool) -> Option<Link> {
    // A link holds one machine.
    let one = pairings.windows(2).all(|pair| pair[0].carrier.id == pair[1].carrier.id);
    if !one {
        return None;
    }
    let table = LinkTable::of(&loaded.table, &loaded.mark, loaded.origin.address());
    let own = pairings.first().and_then(|first| app.plate(first.carrier.id.as_str()));
    let made = made(app, loaded, pairings);
    let pairings: Vec<&Pairing> = pairings.iter().map(AsRef::as_ref).collect();
    let link = Link::of_pairings(table, own.as_ref(), &pairings)?.with_made(made);
    Some(if with_figures { link } else { link.without_own_figures() })
}

/// The fragment of a comparison over several machines of the table: it says of which table they are. A machine of one's own goes in a
/// link by itself.
fn across(app: App, pairings: &[Arc<Pairing>]) -> Option<String> {
    let pair = |pairing: &Arc<Pairing>| (pairing.carrier.id.to_string(), pairing.head.id.to_string());
    let pairs: Vec<_> = pairings.iter().map(pair).collect();
    if pairs.iter().any(|(carrier, _)| app.plate(carrier).is_some()) {
        return None;
    }
    app.stamped(&Route::compare(&pairs))
}

/// With what pairings together are made.
pub fn made(app: App, loaded: &Loaded, pairings: &[Arc<Pairing>]) -> Option<Made> {
    let all: Option<Vec<Made>> = pairings.iter().map(|pairing| app.made(loaded, pairing)).collect();
    Made::of_all(&all?)
}

/// Send it: as a link, by the device's own ways, or as a code to be scanned.
#[component]
pub fn Send(
    loaded: Arc<Loaded>,
    pairings: Vec<Arc<Pairing>>,
    /// A record of a hand-over that goes along.
    #[prop(optional, into)]
    record: Signal<Option<HandOver>>,
) -> impl IntoView {
    let app = app();
    let own = pairings.first().is_some_and(|pairing| app.plate(pairing.carrier.id.as_str()).is_some());
    let (with_figures, open) = (RwSignal::new(false), RwSignal::new(false));
    let title = pairings.first().map(|first| label(first.carrier.maker.as_ref(), &first.carrier.model));
    let title = StoredValue::new(title.unwrap_or_default());
    // An address may be meant for its reader alone: it is shown before it is sent.
    let from = loaded.origin.address().map(|address| app.words_untracked().address(address));
    let invented = app.words_untracked().invented_to_send(&loaded.table);
    let whole_app = app.host.whole_app();
    let sent = StoredValue::new(pairings.clone());
    let across = across(app, &pairings);
    let address = Memo::new(move |_| {
        let Some(link) = link(app, &loaded, &pairings, with_figures.get()) else {
            return across.as_ref().map(|fragment| Ok(format!("{whole_app}{fragment}")));
        };
        let with_record = |link: Link| {
            record.with(|record| record.as_ref().map(|record| link.clone().with_record(record)).unwrap_or(link))
        };
        Some(with_record(link).address(&whole_app))
    });
    let inside = move || {
        let sentence = sentence(app, invented, &sent.get_value());
        let address = match address.get() {
            Some(Ok(address)) => address,
            Some(Err(fault)) => {
                return view! {
                    <p>{app.words().link_fault(&fault)}</p>
                    {move || record.get().map(|record| view! {
                        <p class="actions"><button type="button" on:click=move |_| files::download(&format!("{}.json", record.name), &record.encode())>
                            "Download the record as a file"
                        </button></p>
                    })}
                }
                .into_any();
            }
            None => {
                let to_copy = sentence.clone();
                return view! {
                    <p>"A machine of your own goes in a link by itself. Send this text, or each sheet by itself."</p>
                    <p class="note letter">{sentence}</p>
                    <p class="actions">
                        <CopyButton label="Copy it as text" done="The text is copied." text=Callback::new(move |()| Some(to_copy.clone()))/>
                    </p>
                }
                .into_any();
            }
        };
        let (copied, shared) = (address.clone(), address.clone());
        let to_copy = format!("{sentence}\n{address}");
        let code = drawing::qr(&address);
        view! {
            <p class="field">
                <label for="link">"Link"</label>
                <input id="link" type="text" readonly prop:value=address
                    on:focus=move |event| events::select_all(&event)/>
            </p>
            <p class="actions">
                <CopyButton label="Copy the link" done="The link is copied." text=Callback::new(move |()| Some(copied.clone()))/>
                {share::can_share().then(|| view! {
                    <button type="button" on:click=move |_| share::share(app, &title.get_value(), None, Some(&shared))>"Share …"</button>
                })}
            </p>
            <p class="note letter">{sentence}</p>
            <p class="actions">
                <CopyButton label="Copy it as text" done="The text is copied." text=Callback::new(move |()| Some(to_copy.clone()))/>
            </p>
            {match code {
                Some(code) => view! { <p class="code-to-scan"><QrCode code/></p> }.into_any(),
                None => view! { <p class="quiet">"It is too long for a code that scans well."</p> }.into_any(),
            }}
        }
        .into_any()
    };
    view! {
        <details class="more send" id="send" part="send" on:toggle=move |event| open.set(events::is_open(&event))>
            <summary>"Send a link"</summary>
            <p class="quiet">{if own { "What is to be seen stands in the link, the figures of your own machine only where you say so below: nothing is sent or kept anywhere else." } else { "All of it stands in the link: nothing is sent or kept anywhere else." }}</p>
            {from.map(|address| view! { <p class="quiet">"It says where the table is from: "{address}</p> })}
            {own.then(|| view! { <WithFigures with_figures/> })}
            {move || open.get().then(inside)}
        </details>
    }
}

/// What is sent, in a plain sentence; a comparison with a line for each.
fn sentence(app: App, invented: Option<&str>, pairings: &[Arc<Pairing>]) -> String {
    let of: Vec<&Pairing> = pairings.iter().map(AsRef::as_ref).collect();
    let mut text = app.words().text_to_send(&of);
    // Whoever reads it does not see the screen.
    if let Some(invented) = invented {
        text.push('\n');
        text.push_str(invented);
    }
    text
}

/// Whether the figures of a machine of one's own go along.
#[component]
pub fn WithFigures(with_figures: RwSignal<bool>) -> impl IntoView {
    view! {
        <p><label class="check-line">
            <input type="checkbox" prop:checked=with_figures on:change=move |event| with_figures.set(event_target_checked(&event))/>
            <span>"With the figures of this machine. Without them its reader gets only the verdicts as they are here."</span>
        </label></p>
    }
}
