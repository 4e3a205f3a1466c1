//! What fits a machine: every attachment, ranked.

use super::breath::Breath;
use super::load::Loaded;
use super::place::Part;
use super::route::Route;
use super::start::NoTable;
use super::state::{App, app, label};
use super::svg::Mark;
use crate::pairing::{Pairing, Verdict, order};
use crate::quantity::Named;
use crate::record::plate::{self, OWN};
use crate::table::{Carrier, HeadKind};
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::sync::Arc;

/// How many may stand side by side.
pub const MOST_COMPARED: usize = 6;

/// The screen.
#[component]
pub fn Fits(carrier: String) -> impl IntoView {
    let app = app();
    let known = app.machine(carrier.clone());
    move || {
        let Some(loaded) = app.table() else {
            return view! { <h1 tabindex="-1">"What fits"</h1><NoTable/> }.into_any();
        };
        match known.get() {
            Some(machine) => view! { <Ranked loaded machine/> }.into_any(),
            None => view! { <NoMachine id=carrier.clone()/> }.into_any(),
        }
    }
}

/// An address with a machine that the table does not have.
#[component]
pub fn NoMachine(id: String) -> impl IntoView {
    let app = app();
    view! {
        <h1 tabindex="-1">"Not in this table"</h1>
        <p>"The table in use has no machine “"{id}"”. It may stand in another table."</p>
        <p class="actions">
            {app.shows(Part::Machines).then(|| view! { <a class="button" href=app.href(&Route::Start)>"Choose a machine"</a> })}
            {app.place.is_page().then(|| view! { <a class="button" href=app.href(&Route::Table)>"Load another table"</a> })}
        </p>
    }
}

/// Solves every pairing of a machine, a stretch at a time.
fn solve_all(
    app: App,
    loaded: Arc<Loaded>,
    machine: Carrier,
    ranked: RwSignal<Vec<Arc<Pairing>>>,
    alive: StoredValue<bool>,
) {
    spawn_local(async move {
        let (mut all, mut breath) = (Vec::new(), Breath::new());
        for head in &loaded.table.heads {
            all.push(app.pairing(&loaded, &machine, head));
            // The person may have gone to another screen meanwhile.
            if breath.take().await && alive.try_get_value() != Some(true) {
                return;
            }
        }
        all.sort_by(|a, b| order(a, b));
        ranked.try_set(all);
    });
}

#[component]
fn Ranked(loaded: Arc<Loaded>, machine: Carrier) -> impl IntoView {
    let app = app();
    let name = label(machine.maker.as_ref(), &machine.model);
    app.place.title(&name);
    let id = machine.id.to_string();
    app.ticked.update(|(of, ticked)| {
        if *of != id {
            of.clone_from(&id);
            ticked.clear();
        }
    });
    let ranked = RwSignal::new(Vec::new());
    let alive = StoredValue::new(true);
    let total = loaded.table.heads.len();
    let (verdict, kind) = (RwSignal::new(None::<Verdict>), RwSignal::new(None::<HeadKind>));
    let mut kinds: Vec<HeadKind> = loaded.table.heads.iter().map(|head| head.kind).collect();
    kinds.sort_unstable();
    kinds.dedup();
    solve_all(app, loaded, machine.clone(), ranked, alive);
    // Of a machine of one's own, what was chosen on its plate; all on request.
    let chosen = app.own.with_untracked(|own| {
        own.iter().find(|plate| plate.carrier_id() == id).map(|plate| plate.heads.clone()).unwrap_or_default()
    });
    let (few, chosen, everything) = (chosen.len(), StoredValue::new(chosen), RwSignal::new(false));
    let in_view = move || {
        let mut all = ranked.get();
        let chosen = chosen.get_value();
        all.retain(|pairing| everything.get() || chosen.is_empty() || chosen.contains(&pairing.head.id.to_string()));
        all
    };
    let shown = move || {
        let mut all = in_view();
        all.retain(|pairing| verdict.get().is_none_or(|wanted| pairing.verdict == wanted));
        all.retain(|pairing| kind.get().is_none_or(|wanted| pairing.head.kind == wanted));
        all
    };
    let tally = move || {
        let all = in_view();
        if ranked.with(Vec::is_empty) && total > 0 {
            return format!("Solving the circuits of {total} attachments …");
        }
        let verdicts: Vec<_> = all.iter().map(|pairing| pairing.verdict).collect();
        app.words().tally(&verdicts)
    };
    let own_plate = id.strip_prefix(OWN).map(str::to_owned);
    let stands_for_class = machine.generic && own_plate.is_none();
    let machine_id = StoredValue::new(id);
    view! {
        {move || app.shows(Part::Machines).then(|| view! { <p class="path"><a href=app.href(&Route::Start)>"Machines"</a></p> })}
        <h1 tabindex="-1">{name}</h1>
        <p class="quiet">{move || app.words().carrier_class(machine.class)}
            {stands_for_class.then_some(" · nothing but its class is known: certain no's, and what to ask for")}</p>
        <p class="actions">
            {move || (stands_for_class && app.shows(Part::Own)).then(|| view! {
                <a class="button" href=app.href(&Route::new_plate(machine.class.name()))>"This is like mine: fill in its spec plate"</a>
            })}
            {own_plate.map(|id| {
                // What came in a link is kept first, and edited then.
                let kept = app.own.with_untracked(|own| own.iter().any(|plate| plate.id == id));
                kept.then(|| view! { <a class="button" href=app.href(&Route::plate(&id))>"Edit its spec plate"</a> })
            })}
        </p>
        {move || stands_for_class.then(|| view! { <Decide pairings=ranked.get()/> })}
        <p role="status" class="tally">{tally}</p>
        {move || app.shows(Part::Filters).then(|| view! { <Filters verdict kind kinds=kinds.clone()/> })}
        {(few > 0).then(|| view! {
            <p class="actions">
                <button type="button" aria-pressed=move || (!everything.get()).to_string()
                    on:click=move |_| everything.update(|all| *all = !*all)>
                    {move || if everything.get() { "Only those chosen on its plate" } else { "Chosen on its plate; show all" }}
                </button>
            </p>
        })}
        <ul class="list fits" aria-busy=move || (ranked.with(Vec::is_empty) && total > 0).to_string()>
            <For each=shown key=|pairing| pairing.head.id.to_string() let:pairing>
                <Row pairing/>
            </For>
        </ul>
        {move || (ranked.with(|all| !all.is_empty()) && shown().is_empty()).then(|| view! {
            <p>"Nothing passes these filters. "
                <button type="button" on:click=move |_| { verdict.set(None); kind.set(None); }>"Show all"</button></p>
        })}
        {move || (total == 0).then(|| view! { <p>"The table has no attachments. "<a href=app.href(&Route::Table)>"Load another table"</a></p> })}
        <CompareBar carrier=machine_id/>
    }
}

/// The figures that decide most of a machine of which only the class is known, and where to read them.
#[component]
fn Decide(pairings: Vec<Arc<Pairing>>) -> impl IntoView {
    let words = app().words();
    let asked = plate::asked(pairings.iter().map(AsRef::as_ref));
    (!asked.is_empty()).then(|| {
        view! {
            <div class="missing">
                <p class="name">"Three figures decide most. Read them on your machine:"</p>
                <ul>
                    {asked.into_iter().take(3).map(|(fact, _)| view! {
                        <li>{format!("{}: {}", words.fact(fact), words.place(fact))}</li>
                    }).collect_view()}
                </ul>
            </div>
        }
    })
}

/// Verdict and kind.
#[component]
fn Filters(
    verdict: RwSignal<Option<Verdict>>,
    kind: RwSignal<Option<HeadKind>>,
    kinds: Vec<HeadKind>,
) -> impl IntoView {
    let words = app().words();
    let options = move |name: &'static str, text: &'static str, chosen: bool| {
        view! { <option value=name selected=chosen>{text}</option> }
    };
    view! {
        <div class="filters">
            <label>"Verdict"
                <select prop:value=move || verdict.get().map_or("", Verdict::name)
                    on:change=move |event| verdict.set(Verdict::from_name(&event_target_value(&event)))>
                    {options("", "all", true)}
                    {Verdict::ALL.iter().map(|v| options(v.name(), words.verdict(*v), false)).collect_view()}
                </select>
            </label>
            <label>"Kind"
                <select prop:value=move || kind.get().map_or("", HeadKind::name)
                    on:change=move |event| kind.set(HeadKind::from_name(&event_target_value(&event)))>
                    {options("", "all", true)}
                    {kinds.into_iter().map(|k| options(k.name(), words.head_kind(k), false)).collect_view()}
                </select>
            </label>
        </div>
    }
}

/// One attachment of the list.
#[component]
fn Row(pairing: Arc<Pairing>) -> impl IntoView {
    let app = app();
    let id = pairing.head.id.to_string();
    let name = label(pairing.head.maker.as_ref(), &pairing.head.model);
    let tick_name = format!("Compare {name}");
    let address = app.href(&Route::sheet(pairing.carrier.id.as_str(), pairing.head.id.as_str()));
    let ticked = {
        let id = id.clone();
        Memo::new(move |_| app.ticked.with(|(_, ticked)| ticked.contains(&id)))
    };
    let full = move || !ticked.get() && app.ticked.with(|(_, ticked)| ticked.len() >= MOST_COMPARED);
    let turn = move |_| {
        app.ticked.update(|(_, ticked)| match ticked.iter().position(|known| *known == id) {
            Some(place) => {
                ticked.remove(place);
            }
            None => ticked.push(id.clone()),
        });
    };
    let (verdict, kind) = (pairing.verdict, pairing.head.kind);
    view! {
        <li class="fit">
            <a class="row" href=address>
                <Mark verdict/>
                <span class="text">
                    <span class="name">{name}</span>
                    <span class="verdict">{move || app.words().verdict(verdict)}</span>
                    <span class="quiet">{move || app.words().head_kind(kind)}" · "{move || app.words().row(&pairing)}</span>
                </span>
            </a>
            {move || app.shows(Part::Compare).then(|| view! {
                <label class="tick">
                    <input type="checkbox" prop:checked=ticked disabled=full on:change=turn.clone() aria-label=tick_name.clone()/>
                    <span aria-hidden="true">"compare"</span>
                </label>
            })}
        </li>
    }
}

/// Opens the comparison of what is ticked.
#[component]
fn CompareBar(carrier: StoredValue<String>) -> impl IntoView {
    let app = app();
    move || {
        let ticked = app.ticked.with(|(_, ticked)| ticked.clone());
        (!ticked.is_empty()).then(|| {
            let text = match ticked.len() {
                1 => "Tick one more to compare".to_owned(),
                count => format!("Compare {count} side by side"),
            };
            let ready = ticked.len() > 1;
            view! {
                <div class="bar">
                    {if ready {
                        view! { <a class="button strong" href=app.href(&Route::compare(&carrier.get_value(), &ticked))>{text}</a> }.into_any()
                    } else {
                        view! { <span>{text}</span> }.into_any()
                    }}
                    <button type="button" class="quiet" on:click=move |_| app.ticked.update(|(_, ticked)| ticked.clear())>"Clear"</button>
                </div>
            }
        })
    }
}
