//! What fits a machine: every attachment, ranked, as far as it is looked for.

use super::asked::{Asked, of_query, query};
use super::asking::reader;
use super::attributes::Part;
use super::edit::EditIt;
use super::filters::{Filters, VerdictChips, YardAndOrder};
use super::listed::{Listed, PutInOrder, Shown};
use super::loaded::Loaded;
use super::missing::{NoMachine, NoTable};
use super::names::label;
use super::route::Route;
use super::row::Rows;
use super::state::app;
use super::whose_figures::WhoseFigures;
use entry::Role;
use leptos::prelude::*;
use quantity::Named;
use record::RecentEntry;
use record::plate::OWN;
use solver::{Listing, Machine, Request};
use std::sync::Arc;
use table::Carrier;

/// The screen.
#[component]
pub fn Results(carrier: String, asked: String) -> impl IntoView {
    let app = app();
    let known = app.machine(carrier.clone());
    move || {
        let Some(loaded) = app.table() else {
            return view! { <h1 tabindex="-1">"What fits"</h1><NoTable/> }.into_any();
        };
        match known.get() {
            Some(machine) => view! { <List loaded machine asked=asked.clone()/> }.into_any(),
            None => view! { <NoMachine id=carrier.clone()/> }.into_any(),
        }
    }
}

#[component]
fn List(loaded: Arc<Loaded>, machine: Carrier, asked: String) -> impl IntoView {
    let app = app();
    let name = label(machine.maker.as_ref(), &machine.model);
    app.host.title(&name);
    let id = machine.id.to_string();
    app.note_recent(RecentEntry { carrier: id.clone(), head: None, name: name.clone() });
    let asked = RwSignal::new(of_query(&asked));
    // The address says what is looked for, so that back and a copy of it lead here again.
    let carrier = id.clone();
    Effect::new(move |before: Option<String>| {
        let now = asked.with(query);
        if before.is_some_and(|before| before != now) {
            app.host.replace(&Route::Machine { carrier: carrier.clone(), asked: now.clone() });
        }
        now
    });
    // Of a machine of one's own, what was chosen on its plate; all on request.
    let chosen = app.own.with_untracked(|own| {
        own.iter().find(|plate| plate.carrier_id() == id).map(|plate| plate.heads.clone()).unwrap_or_default()
    });
    let (few, chosen, everything) = (chosen.len(), StoredValue::new(chosen), RwSignal::new(false));
    let total = loaded.table.heads.len();
    let of = loaded.clone();
    let own = app.plate(&id);
    let listed = {
        let id = id.clone();
        Listed::of(move || {
            // The chips count by verdict, so all verdicts are asked for.
            let asked = Asked { verdict: None, ..asked.get() };
            let machine = own.clone().map_or_else(|| Machine::OfTable(id.clone()), Machine::Own);
            let among = if everything.get() { Vec::new() } else { chosen.get_value() };
            Some(Request::Fits { reader: reader(app, &of), machine, asked, among })
        })
    };
    // Those whose makers do not say stand folded behind the others.
    let parted = move |unsaid: bool| {
        let verdict = asked.with(|asked| asked.verdict);
        listed.shown(|row| row.unsaid == unsaid && verdict.is_none_or(|verdict| row.verdict == verdict))
    };
    let (shown, not_stated) = (Memo::new(move |_| parted(false)), Memo::new(move |_| parted(true)));
    let count = move || shown.with(Shown::count) + not_stated.with(Shown::count);
    let verdicts = Signal::derive(move || listed.verdicts());
    let solving = Signal::derive(move || listed.is_solving());
    let tally = move || {
        if solving.get() {
            return listed.so_far();
        }
        // The chips say how many there are of each verdict, where they are shown.
        if app.shows(Part::Filters) {
            app.words().in_list(shown.with(Shown::count), total)
        } else {
            app.words().tally(&verdicts.get())
        }
    };
    let own_plate = id.strip_prefix(OWN).map(str::to_owned);
    let stands_for_class = machine.generic && own_plate.is_none();
    let class = machine.class;
    let table = StoredValue::new(loaded);
    view! {
        {move || app.shows(Part::Machines).then(|| view! { <p class="path"><a href=app.href(&Route::Start)>"Machines"</a></p> })}
        <h1 tabindex="-1">{name}</h1>
        <p class="quiet">{move || app.words().carrier_class(class)}
            {stands_for_class.then_some(" · only its class is known: what certainly does not fit, and what to ask for")}
            {machine.stock.clone().map(|note| format!(" · {note}"))}</p>
        <WhoseFigures carriers=vec![id.clone()]/>
        <p class="actions">
            {(own_plate.is_none()).then(|| {
                let to = if stands_for_class { Route::new_plate(class.name()) } else { Route::PlateLike { carrier: id.clone() } };
                move || app.shows(Part::Own).then(|| view! { <a class="button" href=app.href(&to)>"Mine is like this one"</a> })
            })}
            {own_plate.is_none().then(|| view! { <EditIt role=Role::Machines id=id.clone()/> })}
            {own_plate.map(|id| {
                // What came in a link is kept first, and edited then.
                let kept = app.own.with_untracked(|own| own.iter().any(|plate| plate.id == id));
                kept.then(|| view! { <a class="button" href=app.href(&Route::plate(&id))>"Edit its spec plate"</a> })
            })}
        </p>
        <Decide listed/>
        <div class="sieved">
        {move || app.shows(Part::Filters).then(|| view! { <div class="sieve">
            <VerdictChips asked verdicts solving/>
            <YardAndOrder asked/>
            {table.with_value(|loaded| view! { <Filters asked table=loaded.clone()/> })}
        </div> })}
        <div class="mainly">
        <p role="status" class="tally">{tally}</p>
        {(few > 0).then(|| view! {
            <p class="actions">
                <button type="button" aria-pressed=move || (!everything.get()).to_string()
                    on:click=move |_| everything.update(|all| *all = !*all)>
                    {move || if everything.get() { "Only those chosen on its plate" } else { "Chosen on its plate; show all" }}
                </button>
            </p>
        })}
        <p class="quiet prices">{move || app.words().what_prices_are_of()}</p>
        <PutInOrder listed/>
        <Rows listed shown/>
        {move || Some(not_stated.with(Shown::count)).filter(|count| *count > 0).map(|count| view! {
            <details class="fold more not-stated">
                <summary><span class="name">{app.words().not_stated(count)}</span></summary>
                <Rows listed shown=not_stated grows=false/>
            </details>
        })}
        {move || (!solving.get() && total > 0 && count() == 0).then(|| view! {
            <p>"Nothing passes these filters. "{listed.now.with(|now| now.loosen.join(" "))}" "
                <button type="button" on:click=move |_| asked.set(Asked::default())>"Show all"</button></p>
        })}
        {move || (total == 0).then(|| view! { <p>"The table has no attachments. "
            {app.host.is_page().then(|| view! { <a href=app.href(&Route::Table)>"Load another table"</a> })}</p> })}
        </div>
        </div>
    }
}

/// The figures that decide most of a machine of which only the class is known, and where to read them.
#[component]
fn Decide(listed: Listed) -> impl IntoView {
    move || {
        let decide = listed.now.with(|now: &Listing| now.decide.clone());
        (!decide.is_empty()).then(|| {
            view! {
                <div class="missing">
                    <p class="name">"Three figures decide most. Read them on your machine:"</p>
                    <ul>{decide.into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}</ul>
                </div>
            }
        })
    }
}
