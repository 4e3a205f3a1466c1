//! Filters above a list: the verdicts with how many there are of each, and what else is looked for.

use super::asked::{Asked, LengthField, MOST_CHANGES};
use super::loaded::Loaded;
use super::state::app;
use super::svg::Mark;
use fit::{ListOrder, Verdict, materials};
use leptos::prelude::*;
use quantity::Named;
use std::sync::Arc;
use table::HeadKind;

/// The verdicts with their marks and counts; pressing one shows it alone, pressing it again shows all.
#[component]
pub fn VerdictChips(
    /// What is looked for.
    asked: RwSignal<Asked>,
    /// The verdicts of what passes the other filters.
    verdicts: Signal<Vec<Verdict>>,
    /// Whether they are still being solved.
    solving: Signal<bool>,
) -> impl IntoView {
    let app = app();
    let chip = move |verdict: Verdict| {
        let count = move || verdicts.with(|all| all.iter().filter(|of| **of == verdict).count());
        let pressed = move || asked.with(|asked| asked.verdict == Some(verdict));
        let turn = move |_| {
            asked.update(|asked| asked.verdict = if asked.verdict == Some(verdict) { None } else { Some(verdict) });
        };
        view! {
            <button type="button" class="chip-verdict" aria-pressed=move || pressed().to_string() on:click=turn>
                <Mark verdict/>
                <span class="words">{app.words().verdict(verdict)}</span>
                <span class="number">{move || if solving.get() { "…".to_owned() } else { count().to_string() }}</span>
            </button>
        }
    };
    view! {
        <div class="verdicts" role="group" aria-label="Verdict">
            {Verdict::ALL.iter().map(|verdict| chip(*verdict)).collect_view()}
        </div>
    }
}

/// What stands in the yard alone, in one tap, and the order of the list.
#[component]
pub fn YardAndOrder(asked: RwSignal<Asked>) -> impl IntoView {
    let app = app();
    let order = move || asked.with(|asked| asked.order);
    view! {
        <div class="yard-and-order">
            <button type="button" class="chip" aria-pressed=move || asked.with(|asked| asked.stock).to_string()
                on:click=move |_| asked.update(|asked| asked.stock = !asked.stock)>"In the yard"</button>
            <label for="list-order">"Order"</label>
            <select id="list-order" prop:value=move || order().name()
                on:change=move |event| asked.update(|asked| asked.order = ListOrder::from_name(&event_target_value(&event)).unwrap_or_default())>
                {ListOrder::ALL.iter().map(|&by| view! {
                    <option value=by.name() selected=move || order() == by>{app.words().list_order(by)}</option>
                }).collect_view()}
            </select>
        </div>
    }
}

/// Name, kind, work, width, changes and stock.
#[component]
#[allow(clippy::needless_pass_by_value)] // A prop is owned.
pub fn Filters(
    /// What is looked for.
    asked: RwSignal<Asked>,
    /// The table with the attachments.
    table: Arc<Loaded>,
) -> impl IntoView {
    let app = app();
    let kinds = table.table.head_kinds();
    let set = move || asked.with(Asked::filters);
    // What is set already must be seen; later it opens and closes as its reader likes.
    let open = set() > 0;
    view! {
        <details class="narrow" open=open>
            <summary>"Narrow the list"<span class="quiet">{move || match set() {
                0 => String::new(),
                1 => " · 1 filter set".to_owned(),
                count => format!(" · {count} filters set"),
            }}</span></summary>
            <div class="filters">
                <div>
                    <label for="filter-name">"Name"</label>
                    <input id="filter-name" type="search" autocomplete="off" prop:value=move || asked.with(|asked| asked.name.clone())
                        on:input=move |event| asked.update(|asked| asked.name = event_target_value(&event))/>
                </div>
                <Choice id="filter-kind" label="Kind" none="all" value=Signal::derive(move || asked.with(|asked| asked.kind.map_or("", HeadKind::name).to_owned()))
                    options=kinds.into_iter().map(|kind| (kind.name().to_owned(), app.words().head_kind(kind).to_owned())).collect()
                    set=move |chosen| asked.update(|asked| asked.kind = HeadKind::from_name(&chosen))/>
                <WorkFields asked table=table.clone()/>
                <Choice id="filter-changes" label="Changes, at most" none="any number"
                    value=Signal::derive(move || asked.with(|asked| asked.changes.map_or_else(String::new, |most| most.to_string())))
                    options=(0..=MOST_CHANGES).map(|most| (most.to_string(), if most == 0 { "none".to_owned() } else { most.to_string() })).collect()
                    set=move |chosen| asked.update(|asked| asked.changes = chosen.parse().ok())/>
            </div>
            {move || (set() > 0).then(|| view! {
                <p class="actions"><button type="button" class="quiet"
                    on:click=move |_| asked.update(|asked| *asked = Asked { verdict: asked.verdict, order: asked.order, ..Asked::default() })>"Take all filters away"</button></p>
            })}
        </details>
    }
}

/// What is to be worked, how thick, and how wide.
#[component]
#[allow(clippy::needless_pass_by_value)] // A prop is owned.
pub fn WorkFields(
    /// What is looked for.
    asked: RwSignal<Asked>,
    /// The table, whose attachments name the materials.
    table: Arc<Loaded>,
) -> impl IntoView {
    let all = materials(&table.table);
    let measured: Vec<_> = all.iter().filter(|(_, measured)| *measured).map(|(name, _)| name.clone()).collect();
    // Of a material for which no maker names a greatest diameter there is nothing to ask.
    let has_thickness =
        move || asked.with(|asked| measured.iter().any(|name| name.eq_ignore_ascii_case(&asked.material)));
    view! {
        <Choice id="filter-material" label="Work: material" none="any" value=Signal::derive(move || asked.with(|asked| asked.material.clone()))
            options=all.into_iter().map(|(name, _)| (name.clone(), name)).collect()
            set=move |chosen| asked.update(|asked| {
                // What is no thicker than a stem is no thickness of asphalt.
                asked.thickness.clear();
                asked.material = chosen;
            })/>
        <div hidden=move || !has_thickness()>
            <LengthField id="filter-thickness" label="Its diameter or thickness" value=Signal::derive(move || asked.with(|asked| asked.thickness.clone()))
                set=move |typed| asked.update(|asked| asked.thickness = typed)/>
        </div>
        <LengthField id="filter-width" label="Working width, at least" value=Signal::derive(move || asked.with(|asked| asked.width.clone()))
            set=move |typed| asked.update(|asked| asked.width = typed)/>
    }
}

/// One of several, or none.
#[component]
pub fn Choice(
    /// Unique on the screen.
    id: &'static str,
    /// What is asked.
    label: &'static str,
    /// What it is called when nothing is chosen.
    none: &'static str,
    /// What is chosen; empty when nothing is.
    value: Signal<String>,
    /// Values with their names.
    options: Vec<(String, String)>,
    /// Takes what is chosen.
    set: impl Fn(String) + 'static,
) -> impl IntoView {
    let option = move |(name, text): (String, String)| {
        let of = name.clone();
        view! { <option value=name selected=move || value.with(|value| *value == of)>{text}</option> }
    };
    view! {
        <div>
            <label for=id>{label}</label>
            <select id=id prop:value=value on:change=move |event| set(event_target_value(&event))>
                <option value="">{none}</option>
                {options.into_iter().map(option).collect_view()}
            </select>
        </div>
    }
}
