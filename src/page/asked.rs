//! What is looked for, as it stands in an address.

use super::state::App;
use fit::{ListOrder, Verdict};
use leptos::prelude::*;
use leptos::web_sys::UrlSearchParams;
use quantity::Named;
pub use solver::Asked;
use solver::{length, unit};
use table::HeadKind;

/// The most changes that can be chosen as a bound.
pub const MOST_CHANGES: usize = 5;

/// From the part of an address behind its `?`. What is not understood is not asked.
pub fn of_query(query: &str) -> Asked {
    let Ok(all) = UrlSearchParams::new_with_str(query) else { return Asked::default() };
    let text = |name: &str| all.get(name).map(|text| text.chars().take(60).collect()).unwrap_or_default();
    Asked {
        name: text("name"),
        verdict: all.get("verdict").and_then(|name| Verdict::from_name(&name)),
        kind: all.get("kind").and_then(|name| HeadKind::from_name(&name)),
        material: text("material"),
        thickness: text("thickness"),
        width: text("width"),
        changes: all.get("changes").and_then(|most| most.parse().ok()).filter(|most| *most <= MOST_CHANGES),
        stock: all.has("stock"),
        order: all.get("order").and_then(|name| ListOrder::from_name(&name)).unwrap_or_default(),
    }
}

/// As the part of an address behind its `?`; empty when nothing is asked.
pub fn query(asked: &Asked) -> String {
    let Ok(all) = UrlSearchParams::new() else { return String::new() };
    let set = |name: &str, text: &str| {
        if !text.trim().is_empty() {
            all.append(name, text.trim());
        }
    };
    set("name", &asked.name);
    set("verdict", asked.verdict.map_or("", Verdict::name));
    set("kind", asked.kind.map_or("", HeadKind::name));
    set("material", &asked.material);
    set("thickness", &asked.thickness);
    set("width", &asked.width);
    set("changes", &asked.changes.map_or_else(String::new, |most| most.to_string()));
    set("stock", if asked.stock { "yes" } else { "" });
    if asked.order != ListOrder::default() {
        set("order", asked.order.name());
    }
    String::from(all.to_string())
}

/// A length to type, with what is wrong with it.
#[component]
pub fn LengthField(
    /// Unique on the screen.
    id: &'static str,
    /// What is asked.
    #[prop(into)]
    label: String,
    /// What is typed.
    #[prop(into)]
    value: Signal<String>,
    /// Takes what is typed.
    set: impl Fn(String) + 'static,
) -> impl IntoView {
    let app: App = super::state::app();
    let fault = Memo::new(move |_| length(&value.get(), app.units.get()).err());
    view! {
        <div>
            <label for=id>{label}<span class="unit">{move || format!(" ({})", unit(app.units.get()))}</span></label>
            <input id=id type="text" inputmode="decimal" autocomplete="off" prop:value=value aria-describedby=format!("{id}-fault")
                aria-invalid=move || fault.get().is_some().to_string()
                on:input=move |event| set(event_target_value(&event))/>
            <p class="fault-words" id=format!("{id}-fault") role="status">{fault}</p>
        </div>
    }
}
