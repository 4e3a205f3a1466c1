//! A machine of one's own as a spec plate to fill in: it asks only what the chosen attachments need, says where on the
//! machine to read it, and shows how the verdicts settle while one types.

// The desk is a handful of handles, made to be copied.
#![allow(clippy::large_types_passed_by_value)]

use super::attributes::Part;
use super::breath::{Breath, Pause};
use super::field::{Field, problems};
use super::loaded::Loaded;
use super::missing::NoTable;
use super::names::label;
use super::path::PathToMachines;
use super::route::Route;
use super::state::{App, app};
use super::svg::Mark;
use super::{files, storage, time};
use fit::{FactId, Pairing, Verdict, pair, step};
use leptos::prelude::*;
use leptos::task::spawn_local;
use quantity::Named;
use record::plate::{self, Figure, Plate};
use std::sync::Arc;
use std::time::Duration;
use table::{CarrierClass, Head, HeadKind};

/// How long a person pauses before the circuits are solved again.
const PAUSE: Duration = Duration::from_millis(250);
/// How many facts are put first.
const FIRST: usize = 3;

/// Which class is it?
#[component]
pub fn ChooseClass() -> impl IntoView {
    let app = app();
    app.host.title("A machine of your own");
    view! {
        <p class="path"><PathToMachines/></p>
        <h1 tabindex="-1">"What kind of machine is it?"</h1>
        <p>"Then you are asked only for the figures that decide, and where on the machine to read them."</p>
        <ul class="list">
            {CarrierClass::ALL.iter().map(|&class| view! {
                <li><a class="row" href=app.href(&Route::new_plate(class.name()))>
                    <span class="name capital">{app.words().carrier_class(class)}</span>
                </a></li>
            }).collect_view()}
        </ul>
    }
}

/// A plate with nothing on it yet. It is kept as soon as something is typed.
#[component]
pub fn FreshPlate(class: Option<CarrierClass>) -> impl IntoView {
    let app = app();
    let blank = class.map(|class| {
        let name = format!("My {}", app.words().carrier_class_plain(class));
        Plate::blank(time::fresh_id(), class, name, time::now())
    });
    let stands = StoredValue::new(None);
    move || match (blank.clone(), app.table()) {
        (None, _) => view! { <ChooseClass/> }.into_any(),
        (Some(_), None) => view! { <h1 tabindex="-1">"Spec plate"</h1><NoTable/> }.into_any(),
        (Some(plate), Some(loaded)) => view! { <Sheet loaded plate stands/> }.into_any(),
    }
}

/// A plate that was kept.
#[component]
pub fn KeptPlate(id: String) -> impl IntoView {
    let app = app();
    // Read once: what is typed here comes back through the list, and must not put up the form anew.
    let found = Memo::new(move |before: Option<&Option<Plate>>| {
        let kept = app.own.with(|own| own.iter().find(|plate| plate.id == id).cloned());
        before.cloned().flatten().or(kept)
    });
    let stands = StoredValue::new(None);
    move || {
        match (found.get(), app.table()) {
        (None, _) => view! {
            <h1 tabindex="-1">"No such machine"</h1>
            <p>"This browser keeps no machine of your own under this address."</p>
            <p class="actions"><a class="button" href=app.href(&Route::Own)>"Describe a machine"</a><a class="button" href=app.href(&Route::Start)>"Choose a machine"</a></p>
        }
        .into_any(),
        (Some(_), None) => view! { <h1 tabindex="-1">"Spec plate"</h1><NoTable/> }.into_any(),
        (Some(plate), Some(loaded)) => view! { <Sheet loaded plate stands/> }.into_any(),
    }
    }
}

/// What the screen works on.
#[derive(Clone, Copy)]
struct Desk {
    app: App,
    plate: RwSignal<Plate>,
    /// Ids of the chosen attachments; all when empty.
    chosen: RwSignal<Vec<String>>,
    /// What the chosen attachments ask of a machine of this class.
    /// None until it is known.
    asked: RwSignal<Option<Vec<(FactId, usize)>>>,
    /// What they ask besides of the machine as it is filled in so far: an answer may open a question.
    besides: RwSignal<Vec<(FactId, usize)>>,
    /// The verdicts, in the order of the table.
    verdicts: RwSignal<Vec<Arc<Pairing>>>,
    /// Whether they are being solved.
    busy: RwSignal<bool>,
    /// The newest round of solving; an older one stops.
    round: StoredValue<u32>,
}

#[component]
fn Sheet(
    loaded: Arc<Loaded>,
    plate: Plate,
    /// The plate as it stood when another table came in under it: what was typed is not asked for again.
    stands: StoredValue<Option<Plate>>,
) -> impl IntoView {
    let app = app();
    let plate = stands.get_value().unwrap_or(plate);
    let class = plate.class().unwrap_or(CarrierClass::MiniExcavator);
    let desk = Desk {
        app,
        chosen: RwSignal::new(plate.heads.clone()),
        asked: RwSignal::new(None),
        besides: RwSignal::new(Vec::new()),
        verdicts: RwSignal::new(Vec::new()),
        busy: RwSignal::new(true),
        round: StoredValue::new(0),
        plate: RwSignal::new(plate.clone()),
    };
    app.host.title("Spec plate");
    let first = StoredValue::new(plate);
    {
        let loaded = loaded.clone();
        let pause = Pause::new();
        Effect::new(move |before: Option<Vec<String>>| {
            let (plate, chosen) = (desk.plate.get(), desk.chosen.get());
            let (loaded, now) = (loaded.clone(), chosen.clone());
            pause.end();
            desk.busy.set(true);
            // Kept with every key, so that nothing is lost whatever becomes of the page.
            keep(desk, &first.get_value(), stands);
            if before.as_ref() == Some(&chosen) {
                pause.then(PAUSE, move || solve(desk, loaded, plate, chosen, false));
            } else {
                solve(desk, loaded, plate, chosen, true);
            }
            now
        });
    }
    let mine = move || Plate { heads: desk.chosen.get_untracked(), ..desk.plate.get_untracked() };
    let take = move |now: &Plate| {
        let differs = |plate: &Plate| {
            now.name != plate.name || now.figures != plate.figures || now.somebody_elses != plate.somebody_elses
        };
        if desk.plate.with_untracked(differs) {
            desk.plate.set(now.clone());
        }
        if desk.chosen.with_untracked(|chosen| *chosen != now.heads) {
            desk.chosen.set(now.heads.clone());
        }
    };
    storage::follow_one(app, move || desk.plate.with_untracked(|plate| plate.id.clone()), mine, take);
    let delete = move |_| {
        let plate = desk.plate.get_untracked();
        desk.round.update_value(|round| *round += 1);
        let first = first.get_value();
        desk.chosen.set(first.heads.clone());
        desk.plate.set(first);
        storage::delete(app, &plate);
        app.go(if app.shows(Part::Machines) { Route::Start } else { Route::Own });
    };
    let download = move |_| {
        let plate = desk.plate.get_untracked();
        let text = serde_json::to_string_pretty(&plate.table()).unwrap_or_default();
        files::download(&format!("{}.json", plate.name), &text);
    };
    let fits = move || app.href(&Route::machine(&desk.plate.with(Plate::carrier_id)));
    let found =
        move || app.own.with(|own| desk.plate.with(|plate| own.iter().find(|known| known.id == plate.id).cloned()));
    // What the sheets are solved from is what is kept, which may be older where there was no room.
    let as_it_stands = move || {
        found().is_some_and(|known| desk.plate.with(|plate| known.name == plate.name && known.figures == plate.figures))
    };
    let kept = Memo::new(move |_| as_it_stands());
    view! {
        <p class="path"><PathToMachines/></p>
        <h1 tabindex="-1">"Spec plate"</h1>
        <Chosen desk loaded=loaded.clone()/>
        <div class="drawing-board">
        <div class="plate">
            <p class="field">
                <label for="plate-name">"Name"</label>
                <input id="plate-name" type="text" autocomplete="off" maxlength=record::LONGEST_NAME.to_string()
                    prop:value=move || desk.plate.with(|plate| plate.name.clone())
                    on:change=move |event| rename(desk, &event_target_value(&event))/>
            </p>
            <p class="class-of">{app.words().carrier_class(class)}</p>
            {move || desk.plate.with(|plate| plate.somebody_elses).then(|| view! {
                <p class="missing">{app.words().somebody_elses()}</p>
                <p class="actions"><button type="button" on:click=move |_| desk.plate.update(|plate| plate.somebody_elses = false)>
                    "I have checked them at the machine"
                </button></p>
            })}
            <Fields desk/>
        </div>
        <section class="settling" aria-labelledby="settling">
            <h2 id="settling">"What fits it"</h2>
            <ul class="list" aria-busy=move || desk.busy.get().to_string()>
                <For each=move || desk.verdicts.get() key=move |pairing| (pairing.head.id.to_string(), app.words().row(pairing)) let:pairing>
                    <Settling desk pairing/>
                </For>
            </ul>
        </section>
        </div>
        <section aria-labelledby="keep">
            <h2 id="keep">"Keep it"</h2>
            <p role="status" class="quiet">{move || if kept.get() {
                "Kept in this browser. Nothing is sent anywhere."
            } else if desk.plate.with(|plate| plate.figures.is_empty()) {
                "It is kept in this browser as soon as you fill in a figure."
            } else {
                "Not kept as it stands here: download it, or make room and type on."
            }}</p>
            <p class="actions">
                {move || kept.get().then(|| view! { <a class="button strong" href=fits>"See what fits, with reasons"</a> })}
                <button type="button" on:click=download>"Download it as a table"</button>
                {move || found().is_some().then(|| view! { <button type="button" on:click=delete>"Delete it"</button> })}
            </p>
        </section>
        <div class="bar">
            <span role="status" class="tally">{move || tally(desk)}</span>
            {move || kept.get().then(|| view! { <a class="button" href=fits>"Reasons"</a> })}
        </div>
    }
}

fn tally(desk: Desk) -> String {
    let verdicts: Vec<Verdict> = desk.verdicts.with(|all| all.iter().map(|pairing| pairing.verdict).collect());
    if verdicts.is_empty() {
        return if desk.busy.get() {
            "Asking the circuits what they need …".to_owned()
        } else {
            "No attachments".to_owned()
        };
    }
    desk.app.words().tally(&verdicts)
}

fn rename(desk: Desk, name: &str) {
    if let Some(name) = record::sound_name(name) {
        desk.plate.update(|plate| plate.name = name);
    }
}

/// Keeps the plate when something on it has changed since the screen was opened.
fn keep(desk: Desk, first: &Plate, stands: StoredValue<Option<Plate>>) {
    let plate = desk.plate.get_untracked();
    stands.set_value(Some(Plate { heads: desk.chosen.get_untracked(), ..plate.clone() }));
    let known = desk.app.own.with_untracked(|own| own.iter().find(|known| known.id == plate.id).cloned());
    let before = known.as_ref().unwrap_or(first);
    let heads = desk.chosen.get_untracked();
    let same_figures = plate.figures == before.figures && plate.somebody_elses == before.somebody_elses;
    if plate.name == before.name && same_figures && heads == before.heads {
        return;
    }
    // The choice of attachments alone makes no machine.
    if known.is_none() && plate.name == first.name && plate.figures.is_empty() {
        return;
    }
    let changed = Plate { changed: time::now(), heads, ..plate };
    // What another tab has typed meanwhile stays.
    if storage::save_merged(desk.app, before, &changed).is_some() {
        // A reload comes back to what was kept.
        if known.is_none() {
            desk.app.host.replace(&Route::plate(&changed.id));
        }
    }
}

/// Solves the chosen attachments a stretch at a time; with `anew` also what they ask of a machine of which nothing but the
/// class is known.
fn solve(desk: Desk, loaded: Arc<Loaded>, plate: Plate, chosen: Vec<String>, anew: bool) {
    desk.round.update_value(|round| *round += 1);
    let round = desk.round.get_value();
    let stale = move || desk.round.try_get_value() != Some(round);
    spawn_local(async move {
        let wanted = |head: &&Head| chosen.is_empty() || chosen.iter().any(|id| head.id.as_str() == id);
        let heads: Vec<&Head> = loaded.table.heads.iter().filter(wanted).collect();
        let mut blank = plate.clone();
        blank.figures.clear();
        let rounds = if anew { vec![(blank, true), (plate.clone(), false)] } else { vec![(plate.clone(), false)] };
        let only_blank = plate.figures.is_empty();
        let breath = Breath::new();
        for (plate, is_blank) in rounds {
            let Some(carrier) = plate.read().carrier else { break };
            let mut all = Vec::new();
            for head in &heads {
                all.push(Arc::new(pair(&carrier, head, &loaded.conditions)));
                step(&breath).await;
                if stale() {
                    return;
                }
            }
            let asked = plate::asked(all.iter().map(AsRef::as_ref));
            if is_blank {
                desk.besides.try_set(Vec::new());
                desk.asked.try_set(Some(asked));
            } else {
                desk.besides.try_set(asked);
            }
            if !is_blank || only_blank {
                desk.verdicts.try_set(all);
            }
            if is_blank && only_blank {
                break;
            }
        }
        if !stale() {
            desk.busy.try_set(false);
        }
    });
}

/// One attachment of the list, whose mark settles.
#[component]
fn Settling(desk: Desk, pairing: Arc<Pairing>) -> impl IntoView {
    let (verdict, name) = (pairing.verdict, label(pairing.head.maker.as_ref(), &pairing.head.model));
    let row = desk.app.words().row(&pairing);
    // Only a machine that is kept has sheets.
    let head = pairing.head.id.to_string();
    let address = move || {
        let (id, carrier) = desk.plate.with(|plate| (plate.id.clone(), plate.carrier_id()));
        desk.app
            .own
            .with(|own| own.iter().any(|known| known.id == id))
            .then(|| desk.app.href(&Route::sheet(&carrier, &head)))
    };
    view! {
        <li><a class="settle" href=address>
            <Mark verdict/>
            <span class="text">
                <span class="name">{name}</span>
                <span class="quiet">{desk.app.words().head_kind(pairing.head.kind)}" · "
                    <span class="verdict">{desk.app.words().verdict_of(&pairing)}</span></span>
                <span class="quiet">{row}</span>
            </span>
        </a></li>
    }
}

/// For which attachments.
#[component]
fn Chosen(desk: Desk, loaded: Arc<Loaded>) -> impl IntoView {
    let kinds = loaded.table.head_kinds();
    let heads = StoredValue::new(
        loaded
            .table
            .heads
            .iter()
            .map(|head| (head.kind, head.id.to_string(), label(head.maker.as_ref(), &head.model)))
            .collect::<Vec<_>>(),
    );
    let of_kind = move |kind: HeadKind| -> Vec<String> {
        heads.with_value(|all| all.iter().filter(|(of, ..)| *of == kind).map(|(_, id, _)| id.clone()).collect())
    };
    let turn = move |ids: Vec<String>| {
        desk.chosen.update(|chosen| {
            let all = ids.iter().all(|id| chosen.contains(id));
            chosen.retain(|id| !ids.contains(id));
            if !all {
                chosen.extend(ids);
            }
        });
    };
    let has = move |ids: &[String]| desk.chosen.with(|chosen| ids.iter().all(|id| chosen.contains(id)));
    view! {
        <details class="chosen">
            <summary>{move || match desk.chosen.with(Vec::len) {
                0 => "For all attachments. Choose some, and only what they need is asked".to_owned(),
                1 => "For 1 attachment".to_owned(),
                count => format!("For {count} attachments"),
            }}</summary>
            <p class="actions">
                {kinds.into_iter().map(|kind| {
                    let pressed = move || has(&of_kind(kind)).to_string();
                    view! {
                        <button type="button" class="chip" aria-pressed=pressed on:click=move |_| turn(of_kind(kind))>
                            {desk.app.words().head_kind(kind)}
                        </button>
                    }
                }).collect_view()}
            </p>
            <details>
                <summary>"One by one"</summary>
                <ul class="ticks">
                    {heads.get_value().into_iter().map(|(_, id, name)| {
                        let (own, turned) = (vec![id.clone()], vec![id]);
                        view! {
                            <li><label><input type="checkbox" prop:checked=move || has(&own) on:change=move |_| turn(turned.clone())/>" "{name}</label></li>
                        }
                    }).collect_view()}
                </ul>
            </details>
        </details>
    }
}

/// The figures: the three facts that decide most first.
#[component]
fn Fields(desk: Desk) -> impl IntoView {
    let parts = Memo::new(move |before: Option<&Parts>| {
        let asked = desk.asked.get().unwrap_or_default();
        let all = plate::figures(&asked);
        let mut facts = settled(&all);
        facts.truncate(FIRST);
        let (first, rest): (Vec<_>, Vec<_>) =
            all.into_iter().partition(|figure| facts.contains(&figure.root().settles()));
        let mut parts = Parts { first, rest, asked };
        // What stands there keeps its place: a field under the finger must not move. Figures on the plate stay on it, even
        // when nobody asks for them any more.
        if let Some(before) = before.filter(|before| before.asked == parts.asked) {
            parts.rest.clone_from(&before.rest);
        }
        let typed = |figure: &Figure| desk.plate.with(|plate| !plate.typed(*figure).is_empty());
        parts.add(Figure::ALL.iter().copied().filter(typed));
        parts.add(plate::figures(&desk.besides.get()));
        parts
    });
    let problems = problems(desk.plate);
    // Keyed: a field under the finger must never become another one.
    let list = move |of: fn(&Parts) -> &Vec<Figure>| {
        view! {
            <For each=move || parts.with(|parts| of(parts).clone()) key=|figure| figure.name() let:figure>
                <Field plate=desk.plate figure problems/>
            </For>
        }
    };
    // Until it is known what is asked nothing is shown: fields that come later would push away those that are there.
    let waiting = Memo::new(move |_| desk.asked.with(Option::is_none));
    let (none, more) = (
        Memo::new(move |_| parts.with(|parts| parts.first.is_empty() && parts.rest.is_empty())),
        Memo::new(move |_| parts.with(|parts| !parts.rest.is_empty())),
    );
    view! {
        {move || {
            if waiting.get() || none.get() {
                let words = if waiting.get() { "Asking the attachments what they need to know …" } else { "Nothing more is asked for." };
                return view! { <p role="status" class="quiet">{words}</p> }.into_any();
            }
            view! {
                <fieldset class="first">
                    <legend>"Read these first"</legend>
                    <p class="quiet">{move || parts.with(|parts| first_words(desk, &parts.first))}</p>
                    <div class="figures-of-plate">{list(|parts| &parts.first)}</div>
                </fieldset>
                {move || more.get().then(|| view! {
                    <fieldset>
                        <legend>"Then these, as far as you can"</legend>
                        <div class="figures-of-plate">{list(|parts| &parts.rest)}</div>
                    </fieldset>
                })}
            }
            .into_any()
        }}
    }
}

/// The figures to fill in.
#[derive(Clone, PartialEq)]
struct Parts {
    /// Those of the facts that decide most.
    first: Vec<Figure>,
    /// The others.
    rest: Vec<Figure>,
    /// What is asked of a machine of the class.
    asked: Vec<(FactId, usize)>,
}

impl Parts {
    /// Adds figures that are not there yet at the end.
    fn add(&mut self, figures: impl IntoIterator<Item = Figure>) {
        for figure in figures {
            if !self.first.contains(&figure) && !self.rest.contains(&figure) {
                self.rest.push(figure);
            }
        }
    }
}

/// The facts that figures settle, each once, in their order; what depends on an answer goes with its question.
fn settled(figures: &[Figure]) -> Vec<FactId> {
    let mut facts: Vec<FactId> = Vec::new();
    for fact in figures.iter().map(|figure| figure.root().settles()) {
        if !facts.contains(&fact) {
            facts.push(fact);
        }
    }
    facts
}

/// Names the facts that decide most.
fn first_words(desk: Desk, first: &[Figure]) -> String {
    let names: Vec<_> = settled(first).iter().map(|fact| desk.app.words().fact(*fact)).collect();
    format!("These decide most: {}.", names.join("; "))
}
