//! What fits a machine: every attachment, ranked, as far as it is looked for.

use super::asked::Asked;
use super::breath::{self, Breath};
use super::filters::{Filters, VerdictChips};
use super::load::Loaded;
use super::place::Part;
use super::route::Route;
use super::row::{PairingRow, Rows};
use super::start::NoTable;
use super::state::{App, app, label};
use crate::pairing::{Outcome, Pairing, Wanted, order};
use crate::quantity::Named;
use crate::record::RecentEntry;
use crate::record::plate::{self, OWN};
use crate::table::Carrier;
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::sync::Arc;

/// The screen.
#[component]
pub fn Fits(carrier: String, asked: String) -> impl IntoView {
    let app = app();
    let known = app.machine(carrier.clone());
    move || {
        let Some(loaded) = app.table() else {
            return view! { <h1 tabindex="-1">"What fits"</h1><NoTable/> }.into_any();
        };
        match known.get() {
            Some(machine) => view! { <Ranked loaded machine asked=asked.clone()/> }.into_any(),
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

/// A pairing of a list, with whether its attachment is what is looked for.
type Ranked = (Arc<Pairing>, usize);

/// Solves every pairing of a machine, a stretch at a time.
fn solve_all(
    app: App,
    loaded: Arc<Loaded>,
    machine: Carrier,
    (ranked, done): (RwSignal<Vec<Ranked>>, RwSignal<usize>),
    alive: StoredValue<bool>,
) {
    spawn_local(async move {
        let (mut all, breath) = (Vec::new(), Breath::new());
        let mut told = 0.0;
        for (place, head) in loaded.table.heads.iter().enumerate() {
            all.push((app.pairing_in_stretches(&loaded, &machine, head, &breath).await, place));
            breath::take(&breath).await;
            // The person may have gone to another screen meanwhile.
            if alive.try_get_value() != Some(true) {
                return;
            }
            if breath::has_passed(&mut told) {
                done.try_set(all.len());
            }
        }
        all.sort_by(|a, b| order(&a.0, &b.0));
        done.try_set(all.len());
        ranked.try_set(all);
    });
}

#[component]
fn Ranked(loaded: Arc<Loaded>, machine: Carrier, asked: String) -> impl IntoView {
    let app = app();
    let name = label(machine.maker.as_ref(), &machine.model);
    app.place.title(&name);
    let id = machine.id.to_string();
    app.note_recent(RecentEntry { carrier: id.clone(), head: None, name: name.clone() });
    let (ranked, done) = (RwSignal::new(Vec::<Ranked>::new()), RwSignal::new(0));
    let alive = StoredValue::new(true);
    let total = loaded.table.heads.len();
    let asked = RwSignal::new(Asked::of_query(&asked));
    // The address says what is looked for, so that back and a copy of it lead here again.
    let carrier = id.clone();
    Effect::new(move |before: Option<String>| {
        let query = asked.get().query();
        if before.is_some_and(|before| before != query) {
            app.place.replace(&Route::Machine { carrier: carrier.clone(), asked: query.clone() });
        }
        query
    });
    solve_all(app, loaded.clone(), machine.clone(), (ranked, done), alive);
    // Of a machine of one's own, what was chosen on its plate; all on request.
    let chosen = app.own.with_untracked(|own| {
        own.iter().find(|plate| plate.carrier_id() == id).map(|plate| plate.heads.clone()).unwrap_or_default()
    });
    let (few, chosen, everything) = (chosen.len(), StoredValue::new(chosen), RwSignal::new(false));
    let wanted = Memo::new(move |_| asked.get().wanted(app.units.get()));
    // Among what is looked for but for the verdict, as the chips count by verdict; with whether it is not known to suit.
    let table = StoredValue::new(loaded.clone());
    let in_view = Memo::new(move |_| {
        let wanted = Wanted { verdict: None, ..wanted.get() };
        let suits = |(pairing, place): &Ranked| {
            let on_plate = everything.get()
                || chosen.with_value(|chosen| chosen.is_empty() || chosen.contains(&pairing.head.id.to_string()));
            let outcome = table.with_value(|loaded| wanted.suits(&loaded.table.heads[*place]));
            (on_plate && wanted.admits(pairing) && outcome != Outcome::NotMet).then(|| Row {
                pairing: pairing.clone(),
                place: *place,
                unsaid: outcome == Outcome::NotKnown,
            })
        };
        ranked.with(|all| all.iter().filter_map(suits).collect::<Vec<_>>())
    });
    let shown = Memo::new(move |_| {
        let verdict = asked.with(|asked| asked.verdict);
        let mut all = in_view.get();
        all.retain(|row| verdict.is_none_or(|wanted| row.pairing.verdict == wanted));
        all
    });
    let verdicts =
        Signal::derive(move || in_view.with(|all| all.iter().map(|row| row.pairing.verdict).collect::<Vec<_>>()));
    let solving = Signal::derive(move || ranked.with(Vec::is_empty) && total > 0);
    let tally = move || {
        if solving.get() {
            return app.words().solving(done.get(), total);
        }
        // The chips say how many there are of each verdict, where they are shown.
        if app.shows(Part::Filters) {
            app.words().in_list(shown.with(Vec::len), total)
        } else {
            app.words().tally(&verdicts.get())
        }
    };
    let own_plate = id.strip_prefix(OWN).map(str::to_owned);
    let stands_for_class = machine.generic && own_plate.is_none();
    let class = machine.class;
    let heads = StoredValue::new(loaded);
    view! {
        {move || app.shows(Part::Machines).then(|| view! { <p class="path"><a href=app.href(&Route::Start)>"Machines"</a></p> })}
        <h1 tabindex="-1">{name}</h1>
        <p class="quiet">{move || app.words().carrier_class(class)}
            {stands_for_class.then_some(" · nothing but its class is known: certain no's, and what to ask for")}
            {machine.stock.clone().map(|note| format!(" · {note}"))}</p>
        <p class="actions">
            {move || (stands_for_class && app.shows(Part::Own)).then(|| view! {
                <a class="button" href=app.href(&Route::new_plate(class.name()))>"This is like mine: fill in its spec plate"</a>
            })}
            {own_plate.map(|id| {
                // What came in a link is kept first, and edited then.
                let kept = app.own.with_untracked(|own| own.iter().any(|plate| plate.id == id));
                kept.then(|| view! { <a class="button" href=app.href(&Route::plate(&id))>"Edit its spec plate"</a> })
            })}
        </p>
        {move || stands_for_class.then(|| view! { <Decide pairings=ranked.with(|all| all.iter().map(|(p, _)| p.clone()).collect::<Vec<_>>())/> })}
        {move || app.shows(Part::Filters).then(|| view! {
            <VerdictChips asked verdicts solving/>
            {heads.with_value(|loaded| view! { <Filters asked table=loaded.clone()/> })}
        })}
        <p role="status" class="tally">{tally}</p>
        {(few > 0).then(|| view! {
            <p class="actions">
                <button type="button" aria-pressed=move || (!everything.get()).to_string()
                    on:click=move |_| everything.update(|all| *all = !*all)>
                    {move || if everything.get() { "Only those chosen on its plate" } else { "Chosen on its plate; show all" }}
                </button>
            </p>
        })}
        <Rows solving total rows=Signal::derive(move || shown.get())
            key=|row: &Row| (row.place, row.unsaid)
            each=move |row: Row| {
                let stock = heads.with_value(|loaded| loaded.table.heads[row.place].stock.clone());
                view! { <PairingRow pairing=row.pairing unsaid=row.unsaid stock/> }.into_any()
            }/>
        {move || (!solving.get() && total > 0 && shown.with(Vec::is_empty)).then(|| view! {
            <p>"Nothing passes these filters. "
                <button type="button" on:click=move |_| asked.set(Asked::default())>"Show all"</button></p>
        })}
        {move || (total == 0).then(|| view! { <p>"The table has no attachments. "<a href=app.href(&Route::Table)>"Load another table"</a></p> })}
    }
}

/// A row of the list.
#[derive(Clone, PartialEq)]
struct Row {
    pairing: Arc<Pairing>,
    /// Of the attachment in the table.
    place: usize,
    /// Whether its maker does not say what is looked for.
    unsaid: bool,
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
