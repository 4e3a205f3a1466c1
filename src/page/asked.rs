//! What is looked for, as it is typed and chosen, and as it stands in an address.

use super::state::App;
use fit::{ListOrder, Verdict, Wanted, WorkAsked};
use leptos::prelude::*;
use leptos::web_sys::UrlSearchParams;
use quantity::{Kind, Length, Named, UnitSystem, text};
use table::HeadKind;

/// What is looked for. Lengths stand as they were typed, so that half a figure is not another one.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Asked {
    /// Words of the name.
    pub name: String,
    /// How it must come out.
    pub verdict: Option<Verdict>,
    /// What it does.
    pub kind: Option<HeadKind>,
    /// What is to be worked.
    pub material: String,
    /// Its diameter or thickness.
    pub thickness: String,
    /// The working width that it must have at least.
    pub width: String,
    /// The most changes.
    pub changes: Option<usize>,
    /// Whether it must be in stock.
    pub stock: bool,
    /// In which order the list stands.
    pub order: ListOrder,
}

/// The most changes that can be chosen as a bound.
pub const MOST_CHANGES: usize = 5;

impl Asked {
    /// From the part of an address behind its `?`. What is not understood is not asked.
    pub fn of_query(query: &str) -> Self {
        let Ok(all) = UrlSearchParams::new_with_str(query) else { return Self::default() };
        let text = |name: &str| all.get(name).map(|text| text.chars().take(60).collect()).unwrap_or_default();
        Self {
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
    pub fn query(&self) -> String {
        let Ok(all) = UrlSearchParams::new() else { return String::new() };
        let set = |name: &str, text: &str| {
            if !text.trim().is_empty() {
                all.append(name, text.trim());
            }
        };
        set("name", &self.name);
        set("verdict", self.verdict.map_or("", Verdict::name));
        set("kind", self.kind.map_or("", HeadKind::name));
        set("material", &self.material);
        set("thickness", &self.thickness);
        set("width", &self.width);
        set("changes", &self.changes.map_or_else(String::new, |most| most.to_string()));
        set("stock", if self.stock { "yes" } else { "" });
        if self.order != ListOrder::default() {
            set("order", self.order.name());
        }
        String::from(all.to_string())
    }

    /// What the core is asked. A length that cannot be read is not asked; the field says why.
    pub fn wanted(&self, units: UnitSystem) -> Wanted {
        let thickness = length(&self.thickness, units).ok().flatten();
        let material = Some(self.material.clone()).filter(|name| !name.is_empty());
        Wanted {
            name: self.name.clone(),
            verdict: self.verdict,
            kind: self.kind,
            work: material.map(|material| WorkAsked { material, thickness }),
            width: length(&self.width, units).ok().flatten(),
            most_changes: self.changes,
            in_stock: self.stock,
        }
    }

    /// How many filters are set, but for the verdict, which has a place of its own.
    pub fn filters(&self) -> usize {
        let set = [
            !self.name.trim().is_empty(),
            self.kind.is_some(),
            !self.material.is_empty(),
            !self.width.trim().is_empty(),
            self.changes.is_some(),
        ];
        set.into_iter().filter(|set| *set).count()
    }
}

/// A length as typed; a bare number is in millimetres or inches, as the reader measures.
///
/// # Errors
/// What is wrong with it and what is wanted, in words.
pub fn length(typed: &str, units: UnitSystem) -> Result<Option<Length>, String> {
    let typed = typed.trim();
    if typed.is_empty() {
        return Ok(None);
    }
    let unit = unit(units);
    let bare = typed.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ','));
    let whole = if bare { format!("{typed} {unit}") } else { typed.to_owned() };
    match text::read::<Length>(&whole) {
        Ok(stated) if stated.nominal.si() > 0.0 => Ok(Some(stated.nominal)),
        _ => Err(format!("“{typed}” is no length. Write it like 80 {unit}.")),
    }
}

/// In which unit a bare number is meant.
pub fn unit(units: UnitSystem) -> &'static str {
    match units {
        UnitSystem::Metric => "mm",
        UnitSystem::UsCustomary => "in",
    }
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
