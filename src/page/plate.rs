//! A machine of one's own as a spec plate, in three steps: what stands on its plate, the questions that decide most one by one, the
//! answer. Every other question comes on a sheet, when it decides there.

// The desk is a handful of handles, made to be copied.
#![allow(clippy::large_types_passed_by_value)]

mod answer;
mod steps;

use super::breath::{Breath, Pause};
use super::loaded::Loaded;
use super::missing::{NoMachine, NoTable};
use super::path::PathToMachines;
use super::route::Route;
use super::state::{App, app};
use super::{storage, time};
use fit::{FactId, Pairing, Verdict, pair, step};
use leptos::prelude::*;
use leptos::task::spawn_local;
use quantity::Named;
use record::plate::{self, Plate};
use std::collections::BTreeMap;
use std::sync::Arc;
use std::time::Duration;
use table::{CarrierClass, Head};

/// How long a person pauses before the circuits are solved again.
const PAUSE: Duration = Duration::from_millis(250);

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
    let blank =
        class.map(|class| Plate::blank(time::fresh_id(), class, app.words().own_name(class, None), time::now()));
    let standing = Standing::new(Step::Plate);
    move || match (blank.clone(), app.table()) {
        (None, _) => view! { <ChooseClass/> }.into_any(),
        (Some(_), None) => view! { <h1 tabindex="-1">"Spec plate"</h1><NoTable/> }.into_any(),
        (Some(plate), Some(loaded)) => view! { <Sheet loaded plate standing/> }.into_any(),
    }
}

/// A plate that begins as a machine of the table.
#[component]
pub fn PlateLike(carrier: String) -> impl IntoView {
    let app = app();
    let standing = Standing::new(Step::Answer);
    let id = time::fresh_id();
    move || {
        let Some(loaded) = app.table() else {
            return view! { <h1 tabindex="-1">"Spec plate"</h1><NoTable/> }.into_any();
        };
        match like(app, &loaded, &carrier, &id) {
            Some(plate) => {
                // Whoever asked for it wants it kept.
                standing.plate.set_value(Some(plate.clone()));
                let blank = Plate { figures: BTreeMap::new(), ..plate };
                view! { <Sheet loaded plate=blank standing/> }.into_any()
            }
            None => view! { <NoMachine id=carrier.clone()/> }.into_any(),
        }
    }
}

/// A machine of one's own like one of the table.
pub fn like(app: App, loaded: &Loaded, carrier: &str, id: &str) -> Option<Plate> {
    let of = loaded.table.carrier(carrier)?;
    let mass = of.operating_mass.as_ref().map(|mass| mass.nominal);
    let name = app.words().own_name(of.class, mass);
    Plate::like(&loaded.text, carrier, (id.to_owned(), name, time::now()))
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
    let standing = Standing::new(Step::Answer);
    move || {
        match (found.get(), app.table()) {
        (None, _) => view! {
            <h1 tabindex="-1">"No such machine"</h1>
            <p>"This browser keeps no machine of your own under this address."</p>
            <p class="actions"><a class="button" href=app.href(&Route::Own)>"Describe a machine"</a><a class="button" href=app.href(&Route::Start)>"Choose a machine"</a></p>
        }
        .into_any(),
        (Some(_), None) => view! { <h1 tabindex="-1">"Spec plate"</h1><NoTable/> }.into_any(),
        (Some(plate), Some(loaded)) => view! { <Sheet loaded plate standing/> }.into_any(),
    }
    }
}

/// Where one is.
#[derive(Clone, Copy, PartialEq)]
enum Step {
    /// What stands on the machine's own plate.
    Plate,
    /// One of the questions, counted from the first.
    Question(usize),
    /// What comes out, and all that was written.
    Answer,
}

/// What stands when another table comes in under the screen: what was typed is not asked for again.
#[derive(Clone, Copy)]
struct Standing {
    plate: StoredValue<Option<Plate>>,
    step: RwSignal<Step>,
}

impl Standing {
    fn new(step: Step) -> Self {
        Self { plate: StoredValue::new(None), step: RwSignal::new(step) }
    }
}

/// A first answer: that of a machine which is typical for the class.
#[derive(Clone, PartialEq)]
struct Typical {
    /// The machine.
    name: String,
    /// What comes out on it.
    verdicts: Vec<Verdict>,
}

/// What the screen works on.
#[derive(Clone, Copy)]
struct Desk {
    app: App,
    plate: RwSignal<Plate>,
    /// Where one is.
    step: RwSignal<Step>,
    /// Ids of the chosen attachments; all when empty.
    chosen: RwSignal<Vec<String>>,
    /// What attachments ask of a machine of this class; none until it is known.
    asked: RwSignal<Option<Vec<(FactId, usize)>>>,
    /// The chosen attachments that ask it.
    asking: StoredValue<Option<Vec<String>>>,
    /// A first answer, until the figures are read.
    typical: RwSignal<Option<Typical>>,
    /// The verdicts, in the order of the table.
    verdicts: RwSignal<Vec<Arc<Pairing>>>,
    /// Whether they are being solved.
    busy: RwSignal<bool>,
    /// The newest round of solving; an older one stops.
    round: StoredValue<u32>,
    /// The names that nobody gave it.
    by_itself: StoredValue<Vec<String>>,
}

impl Desk {
    /// Goes to a step; who listens is told where he is.
    fn go(self, step: Step) {
        self.step.set(step);
        self.app.host.focus_heading();
    }

    /// Whether nobody has given it a name.
    fn is_nameless(self, plate: &Plate) -> bool {
        self.by_itself.with_value(|names| names.contains(&plate.name))
    }

    /// The plate as it is kept, which may be older than it stands here.
    fn kept(self) -> Option<Plate> {
        self.app.own.with(|own| self.plate.with(|plate| own.iter().find(|known| known.id == plate.id).cloned()))
    }
}

#[component]
fn Sheet(loaded: Arc<Loaded>, plate: Plate, standing: Standing) -> impl IntoView {
    let app = app();
    let first = StoredValue::new(plate.clone());
    let plate = standing.plate.get_value().unwrap_or(plate);
    let desk = Desk {
        app,
        step: standing.step,
        chosen: RwSignal::new(plate.heads.clone()),
        asked: RwSignal::new(None),
        asking: StoredValue::new(None),
        typical: RwSignal::new(None),
        verdicts: RwSignal::new(Vec::new()),
        busy: RwSignal::new(true),
        round: StoredValue::new(0),
        by_itself: StoredValue::new(Vec::new()),
        plate: RwSignal::new(plate),
    };
    desk.by_itself.update_value(|names| names.push(named_by_itself(desk)));
    app.host.title("Spec plate");
    let class = desk.plate.with_untracked(Plate::class);
    {
        let loaded = loaded.clone();
        let pause = Pause::new();
        Effect::new(move |before: Option<Vec<String>>| {
            let (plate, chosen) = (desk.plate.get(), desk.chosen.get());
            let (loaded, now) = (loaded.clone(), chosen.clone());
            pause.end();
            desk.busy.set(true);
            // A name that nobody gave follows the mass.
            let name = named_by_itself(desk);
            if plate.name != name && desk.is_nameless(&plate) {
                desk.by_itself.update_value(|names| names.push(name.clone()));
                desk.plate.update(|plate| plate.name = name);
            }
            // Kept with every key, so that nothing is lost whatever becomes of the page.
            keep(desk, &first.get_value(), standing);
            if before.as_ref() == Some(&chosen) {
                pause.then(PAUSE, move || solve(desk, loaded, plate, chosen));
            } else {
                solve(desk, loaded, plate, chosen);
            }
            now
        });
    }
    let mine = move || {
        let plate = desk.plate.get_untracked();
        // A name that nobody gave gives way to one that somebody gives it elsewhere.
        let name =
            untrack(|| desk.kept()).filter(|_| desk.is_nameless(&plate)).map_or(plate.name.clone(), |kept| kept.name);
        Plate { name, heads: desk.chosen.get_untracked(), ..plate }
    };
    let take = move |now: &Plate| {
        if desk.plate.with_untracked(|plate| !now.says_the_same(plate) || now.is_unchecked() != plate.is_unchecked()) {
            desk.plate.set(now.clone());
        }
        if desk.chosen.with_untracked(|chosen| *chosen != now.heads) {
            desk.chosen.set(now.heads.clone());
        }
    };
    storage::follow_one(app, move || desk.plate.with_untracked(|plate| plate.id.clone()), mine, take);
    let delete = Callback::new(move |()| {
        let plate = desk.plate.get_untracked();
        desk.round.update_value(|round| *round += 1);
        let first = first.get_value();
        desk.chosen.set(first.heads.clone());
        desk.plate.set(first);
        storage::delete(app, &plate);
        app.go(if app.shows(super::attributes::Part::Machines) { Route::Start } else { Route::Own });
    });
    view! {
        <p class="path"><PathToMachines/>{class.map(|class| view! { " / "<span class="class-of">{app.words().carrier_class_plain(class)}</span> })}</p>
        <steps::Steps desk/>
        {move || match desk.step.get() {
            Step::Plate => view! { <steps::OnThePlate desk/> }.into_any(),
            Step::Question(at) => view! { <steps::OneQuestion desk at/> }.into_any(),
            Step::Answer => view! { <answer::Answer desk loaded=loaded.clone() delete/> }.into_any(),
        }}
    }
}

/// The name that the machine has as long as nobody gives it one.
fn named_by_itself(desk: Desk) -> String {
    let (class, mass) = desk.plate.with_untracked(|plate| {
        let mass = plate.read().carrier.and_then(|carrier| Some(carrier.operating_mass?.nominal));
        (plate.class().unwrap_or(CarrierClass::MiniExcavator), mass)
    });
    desk.app.words().own_name(class, mass)
}

/// Keeps the plate when something on it has changed since the screen was opened.
fn keep(desk: Desk, first: &Plate, standing: Standing) {
    let plate = desk.plate.get_untracked();
    let heads = desk.chosen.get_untracked();
    let changed = Plate { heads, ..plate };
    standing.plate.set_value(Some(changed.clone()));
    let known = desk.app.own.with_untracked(|own| own.iter().find(|known| known.id == changed.id).cloned());
    let before = known.as_ref().unwrap_or(first);
    if changed.says_the_same(before) && changed.is_unchecked() == before.is_unchecked() && changed.heads == before.heads
    {
        return;
    }
    // The choice of attachments alone makes no machine.
    if known.is_none() && changed.name == first.name && changed.figures.is_empty() {
        return;
    }
    let changed = Plate { changed: time::now(), ..changed };
    // What another tab has typed meanwhile stays.
    if storage::save_merged(desk.app, before, &changed).is_some() {
        // A reload comes back to what was kept.
        if known.is_none() {
            desk.app.host.replace(&Route::plate(&changed.id));
        }
    }
}

/// Solves the chosen attachments a stretch at a time; first, where others asked before, what they ask of a machine of which nothing but
/// the class is known.
fn solve(desk: Desk, loaded: Arc<Loaded>, plate: Plate, chosen: Vec<String>) {
    desk.round.update_value(|round| *round += 1);
    let round = desk.round.get_value();
    let stale = move || desk.round.try_get_value() != Some(round);
    spawn_local(async move {
        let wanted = |head: &&Head| chosen.is_empty() || chosen.iter().any(|id| head.id.as_str() == id);
        let heads: Vec<&Head> = loaded.table.heads.iter().filter(wanted).collect();
        let breath = Breath::new();
        let all_of = async |plate: &Plate| {
            let carrier = plate.read().carrier?;
            let mut all = Vec::new();
            for head in &heads {
                all.push(Arc::new(pair(&carrier, head, &loaded.conditions)));
                step(&breath).await;
                if stale() {
                    return None;
                }
            }
            Some(all)
        };
        if desk.asking.try_with_value(|asking| asking.as_ref() != Some(&chosen)) == Some(true) {
            let blank = Plate { figures: BTreeMap::new(), ..plate.clone() };
            let Some(all) = all_of(&blank).await else { return };
            desk.asked.try_set(Some(plate::asked(all.iter().map(AsRef::as_ref))));
            desk.asking.try_set_value(Some(chosen.clone()));
        }
        let Some(all) = all_of(&plate).await else { return };
        desk.verdicts.try_set(all);
        let Some((name, typical)) = typical(desk, &loaded, &plate) else {
            desk.typical.try_set(None);
            desk.busy.try_set(false);
            return;
        };
        if let Some(all) = all_of(&typical).await {
            let verdicts = all.iter().map(|pairing| pairing.verdict).collect();
            desk.typical.try_set(Some(Typical { name, verdicts }));
            desk.busy.try_set(false);
        }
    });
}

/// The plate with what is not on it taken from the machine that is nearest in mass, and that machine's name.
fn typical(desk: Desk, loaded: &Loaded, plate: &Plate) -> Option<(String, Plate)> {
    let mass = plate.read().carrier?.operating_mass?.nominal;
    let near = plate::nearest(&loaded.table, plate.class()?, mass)?;
    let like = like(desk.app, loaded, near.id.as_str(), &plate.id)?;
    let name = like.taken_from.clone();
    let figures = like.figures.into_iter().chain(plate.figures.clone()).collect();
    Some((name, Plate { figures, ..plate.clone() }))
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
