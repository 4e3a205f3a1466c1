//! The app in another page: the element live, with the attributes that one chooses, and the lines to paste.

use super::attributes::{Links, Part, resolved};
use super::loaded::Origin;
use super::names::label;
use super::share::CopyButton;
use super::state::app;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;
use quantity::{Named, UnitSystem};
use wording::snippet;

/// The script that defines the element, beside the app.
const SCRIPT: &str = "pairwright-fit.js";

/// The attributes as they are chosen; an empty one is not set.
#[derive(Clone, Copy)]
struct Chosen {
    table: RwSignal<String>,
    carrier: RwSignal<String>,
    head: RwSignal<String>,
    units: RwSignal<String>,
    links: RwSignal<String>,
    enquiry: RwSignal<String>,
    show: RwSignal<Vec<Part>>,
    meanwhile: RwSignal<String>,
}

impl Chosen {
    fn attributes(self) -> Vec<(&'static str, String)> {
        let show = self.show.with(|parts| {
            let names: Vec<_> = parts.iter().map(|part| part.name()).collect();
            match names.len() {
                0 => "none".to_owned(),
                count if count == Part::ALL.len() => String::new(),
                _ => names.join(" "),
            }
        });
        vec![
            ("table", self.table.get()),
            ("carrier", self.carrier.get()),
            ("head", self.head.get()),
            ("units", self.units.get()),
            ("show", show),
            ("enquiry", self.enquiry.get()),
            ("links", self.links.get()),
        ]
    }
}

/// The screen.
#[component]
pub fn Snippet() -> impl IntoView {
    let app = app();
    app.host.title("In your own page");
    // Relative to this page; in another it would lead elsewhere.
    let table = app.table().and_then(|loaded| loaded.origin.address().map(|address| resolved(address.to_owned())));
    let from_file = app.table().is_some_and(|loaded| matches!(loaded.origin, Origin::File(_)));
    let chosen = Chosen {
        table: RwSignal::new(table.unwrap_or_default()),
        carrier: RwSignal::new(String::new()),
        head: RwSignal::new(String::new()),
        units: RwSignal::new(String::new()),
        links: RwSignal::new(String::new()),
        enquiry: RwSignal::new(String::new()),
        show: RwSignal::new(Part::ALL.to_vec()),
        meanwhile: RwSignal::new("Which attachments fit your machine? Call us.".to_owned()),
    };
    // The address of the start page may end in the page's own name.
    let whole_app = app.host.whole_app();
    let folder = whole_app.rfind('/').map_or(String::new(), |slash| whole_app[..=slash].to_owned());
    let lines = Memo::new(move |_| {
        let attributes = chosen.attributes();
        let attributes: Vec<(&str, &str)> = attributes.iter().map(|(name, value)| (*name, value.as_str())).collect();
        snippet(&folder, &attributes, chosen.meanwhile.get().trim())
    });
    view! {
        <h1 tabindex="-1">"In your own page"</h1>
        <p>"Choose what your customers see, try it below, and paste the lines into your page. Nothing has to be installed there."</p>
        {from_file.then(|| view! {
            <p class="missing">"The table in use is a file on this device, which your page cannot load. Put it on your host, and write its address here."</p>
        })}
        <Choices chosen/>
        <section aria-labelledby="lines">
            <h2 id="lines">"The lines to paste"</h2>
            <pre class="scroll lines" tabindex="0"><code>{lines}</code></pre>
            <p class="actions">
                <CopyButton strong=true label="Copy the lines" done="The lines are copied."
                    text=Callback::new(move |()| Some(lines.get_untracked()))/>
            </p>
            <p class="quiet">"Your page needs this app's folder to be reachable from it. If it sends a content policy, the README says which."</p>
        </section>
        <section aria-labelledby="live">
            <h2 id="live">"As your customers see it"</h2>
            <Live chosen/>
        </section>
    }
}

/// One choice of several, each with its name.
#[component]
fn Choice(
    label: &'static str,
    id: &'static str,
    value: RwSignal<String>,
    /// Value and name.
    options: Signal<Vec<(String, String)>>,
) -> impl IntoView {
    view! {
        <p class="field">
            <label for=id>{label}</label>
            <select id=id prop:value=value on:change=move |event| value.set(event_target_value(&event))>
                {move || options.get().into_iter().map(|(value, name)| view! { <option value=value>{name}</option> }).collect_view()}
            </select>
        </p>
    }
}

#[component]
fn Text(
    label: &'static str,
    id: &'static str,
    value: RwSignal<String>,
    #[prop(optional)] placeholder: &'static str,
) -> impl IntoView {
    view! {
        <p class="field">
            <label for=id>{label}</label>
            <input id=id type="text" autocomplete="off" placeholder=placeholder prop:value=value
                on:change=move |event| value.set(event_target_value(&event))/>
        </p>
    }
}

#[component]
fn Choices(chosen: Chosen) -> impl IntoView {
    let app = app();
    let of = |value: &str, name: &str| (value.to_owned(), name.to_owned());
    let carriers = Signal::derive(move || {
        let mut all = vec![of("", "the customer chooses")];
        if let Some(loaded) = app.table() {
            let name = |carrier: &table::Carrier| label(carrier.maker.as_ref(), &carrier.model);
            all.extend(loaded.table.carriers.iter().map(|carrier| (carrier.id.to_string(), name(carrier))));
        }
        all
    });
    let heads = Signal::derive(move || {
        let mut all = vec![of("", "all")];
        if let Some(loaded) = app.table() {
            let name = |head: &table::Head| label(head.maker.as_ref(), &head.model);
            all.extend(loaded.table.heads.iter().map(|head| (head.id.to_string(), name(head))));
        }
        all
    });
    let units = Signal::derive(move || {
        let name = |units: UnitSystem| match units {
            UnitSystem::Metric => "L/min · bar",
            UnitSystem::UsCustomary => "gpm · psi",
        };
        let mut all = vec![of("", "as the customer has chosen before")];
        all.extend(UnitSystem::ALL.iter().map(|units| of(units.name(), name(*units))));
        all
    });
    let links = Signal::derive(move || {
        let name = |links: Links| match links {
            Links::Here => "in your page, as far as they can",
            Links::App => "to the app",
            Links::NewTab => "to the app, in a new tab",
        };
        Links::ALL
            .iter()
            .map(|links| of(if *links == Links::Here { "" } else { links.name() }, name(*links)))
            .collect::<Vec<_>>()
    });
    let turn = move |part: Part| {
        chosen.show.update(|parts| {
            let shown = parts.contains(&part);
            // In their own order, whatever the order of the clicks.
            let wanted = |known: &Part| if *known == part { !shown } else { parts.contains(known) };
            *parts = Part::ALL.iter().copied().filter(wanted).collect();
        });
    };
    view! {
        <div class="choices">
            <Text label="Address of your table" id="of-table" value=chosen.table placeholder="none: the table beside the app"/>
            <Choice label="Machine" id="of-machine" value=chosen.carrier options=carriers/>
            <Choice label="Attachment" id="of-attachment" value=chosen.head options=heads/>
            <Choice label="Units" id="of-units" value=chosen.units options=units/>
            <Choice label="Where links lead" id="of-links" value=chosen.links options=links/>
            <Text label="Mail address for enquiries" id="of-enquiry" value=chosen.enquiry placeholder="name@example.com"/>
            <Text label="Shown until it is ready, or where it cannot run" id="of-meanwhile" value=chosen.meanwhile/>
        </div>
        <fieldset class="parts">
            <legend>"What is shown besides verdict, proof and cautions"</legend>
            <ul class="ticks">
                {Part::ALL.iter().map(|&part| view! {
                    <li><label>
                        <input type="checkbox" prop:checked=move || chosen.show.with(|parts| parts.contains(&part)) on:change=move |_| turn(part)/>
                        {part.title()}
                    </label></li>
                }).collect_view()}
            </ul>
        </fieldset>
    }
}

/// The element itself, as any other page would have it.
#[component]
fn Live(chosen: Chosen) -> impl IntoView {
    let place = NodeRef::<leptos::html::Div>::new();
    // Its own script is what is tried here, so the page loads it like any other.
    let known = document().query_selector("script[data-element]").ok().flatten().is_some();
    if !known && let Ok(script) = document().create_element("script") {
        for (name, value) in [("type", "module"), ("src", SCRIPT), ("data-element", "")] {
            let _ = script.set_attribute(name, value);
        }
        if let Some(head) = document().head() {
            let _ = head.append_child(&script);
        }
    }
    let element = StoredValue::new_local(None::<web_sys::Element>);
    Effect::new(move |_| {
        let Some(place) = place.get() else { return };
        let attributes = chosen.attributes();
        let made = element.with_value(Clone::clone).or_else(|| {
            let made = document().create_element("pairwright-fit").ok()?;
            // What is set is to be seen, wherever the page stands.
            let _ = made.set_attribute("load", "now");
            place.append_child(&made).ok()?;
            element.set_value(Some(made.clone()));
            Some(made)
        });
        let Some(made) = made else { return };
        for (name, value) in attributes {
            let value = value.trim();
            let _ = if value.is_empty() { made.remove_attribute(name) } else { made.set_attribute(name, value) };
        }
        let meanwhile = chosen.meanwhile.get();
        made.unchecked_ref::<web_sys::HtmlElement>().set_inner_text(&meanwhile);
    });
    view! { <div class="live" node_ref=place></div> }
}
