//! Who offers: what the table states of its dealer, and what is typed in its place and kept in this browser.

use crate::page::files;
use crate::page::loaded::Loaded;
use crate::page::local_storage;
use crate::page::time;
use document::Letter;
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::HtmlInputElement;
use record::{LETTERHEAD, Letterhead};
use std::sync::Arc;

/// What stands on one quotation alone.
#[derive(Clone, Copy)]
pub struct Offered {
    /// For whom it is.
    pub customer: RwSignal<String>,
    /// Its number.
    pub number: RwSignal<String>,
    /// Its day, as a form writes it.
    pub day: RwSignal<String>,
}

impl Offered {
    /// Of today, numbered by the time of day.
    pub fn fresh() -> Self {
        Self {
            customer: RwSignal::new(String::new()),
            number: RwSignal::new(time::number()),
            day: RwSignal::new(time::today()),
        }
    }
}

/// What is kept in this browser.
pub fn kept() -> Letterhead {
    local_storage::preference(LETTERHEAD).map(|text| Letterhead::decode(&text)).unwrap_or_default()
}

/// Who offers, with what stands on this quotation.
pub fn letter(own: &Letterhead, loaded: &Loaded, offered: &Offered) -> Letter {
    let both = own.clone().or_of(loaded.table.dealer.as_ref());
    let (tax, days, day) = (both.tax(), both.valid_days(), offered.day.get());
    let Letterhead { name, address, contact, logo, tax_name, .. } = both;
    Letter {
        name,
        address,
        contact,
        logo,
        tax_name,
        tax,
        customer: offered.customer.get(),
        number: offered.number.get(),
        day: time::day(&day),
        valid_until: time::day(&time::days_after(&day, days)),
    }
}

/// Where it is typed.
#[component]
#[allow(clippy::needless_pass_by_value)] // A prop is owned.
pub fn Dealer(own: RwSignal<Letterhead>, offered: Offered, loaded: Arc<Loaded>) -> impl IntoView {
    let stated = StoredValue::new(Letterhead::default().or_of(loaded.table.dealer.as_ref()));
    let said = RwSignal::new("");
    let keep = move || own.with_untracked(|own| local_storage::keep_preference(LETTERHEAD, &own.encode()));
    let field = move |id: &'static str, label: &'static str, of: fn(&mut Letterhead) -> &mut String| {
        let value = move || own.with(|own| of(&mut own.clone()).clone());
        let meanwhile = stated.with_value(|stated| of(&mut stated.clone()).clone());
        let write = move |event: leptos::ev::Event| {
            own.update(|own| {
                *of(own) = event_target_value(&event);
                *own = own.clone().sound();
            });
            keep();
        };
        view! {
            <p class="field"><label for=id>{label}</label>
                <input id=id type="text" autocomplete="off" placeholder=meanwhile prop:value=value on:change=write/></p>
        }
    };
    let chosen = move |event: leptos::ev::Event| {
        let input = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok());
        let Some(file) = input.and_then(|input| input.files()).and_then(|files| files.get(0)) else { return };
        spawn_local(async move {
            match files::picture_of(&file).await {
                Some(picture) => {
                    own.update(|own| own.logo = picture);
                    said.set("");
                    keep();
                }
                None => said.set("Not used. To fix it: choose a PNG, JPEG or SVG of 100 KB at the most."),
            }
        });
    };
    let forget = move |_| {
        own.update(|own| own.logo.clear());
        keep();
    };
    let typed = |of: RwSignal<String>| move |event: leptos::ev::Event| of.set(event_target_value(&event));
    let wrong = move || own.with(Letterhead::tax_is_wrong);
    view! {
        <div class="figures-of-plate">
            <p class="field"><label for="quotation-for">"For"</label>
                <input id="quotation-for" type="text" autocomplete="off" placeholder="customer's name and place"
                    prop:value=move || offered.customer.get() on:change=typed(offered.customer)/></p>
            <p class="field"><label for="quotation-number">"Number of the quotation"</label>
                <input id="quotation-number" type="text" autocomplete="off" prop:value=move || offered.number.get() on:change=typed(offered.number)/></p>
            <p class="field"><label for="quotation-day">"Its day"</label>
                <input id="quotation-day" type="date" prop:value=move || offered.day.get() on:change=typed(offered.day)/></p>
        </div>
        <details class="fold more">
            <summary><span class="name">"Who offers: name, address, logo, tax"</span></summary>
            <p class="quiet">"Kept in this browser only. What is left empty stands as in the table."</p>
            <div class="figures-of-plate">
                {field("dealer-name", "Name", |own| &mut own.name)}
                {field("dealer-address", "Address", |own| &mut own.address)}
                {field("dealer-contact", "Phone or mail", |own| &mut own.contact)}
                {field("dealer-tax-name", "What the tax is called", |own| &mut own.tax_name)}
                <div>
                    {field("dealer-tax", "Tax, %", |own| &mut own.tax)}
                    <p class="judged" role="status">{move || wrong().then_some("Not used. To fix it: write a percentage from 0 to 100.")}</p>
                </div>
                {field("dealer-days", "Valid for, days", |own| &mut own.valid_days)}
                <p class="field"><label for="dealer-logo">"Logo: PNG, JPEG or SVG"</label>
                    <input id="dealer-logo" type="file" accept="image/png,image/jpeg,image/svg+xml" on:change=chosen/></p>
            </div>
            <p role="status">{move || said.get()}</p>
            {move || own.with(|own| !own.logo.is_empty()).then(|| view! {
                <p class="actions"><button type="button" on:click=forget>"Take the logo off"</button></p>
            })}
        </details>
    }
}
