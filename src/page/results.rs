//! What fits a machine: every attachment, ranked, as far as it is looked for.

use super::asked::Asked;
use super::attributes::Part;
use super::filters::{Filters, VerdictChips, YardAndOrder};
use super::loaded::Loaded;
use super::missing::{NoMachine, NoTable};
use super::names::label;
use super::ranking::{Ranked, Ranking, of_verdict, verdicts};
use super::route::Route;
use super::row::{PairingRow, Rows};
use super::state::app;
use super::whose_figures::WhoseFigures;
use fit::{Outcome, Pairing, Wanted, order};
use leptos::prelude::*;
use quantity::Named;
use record::RecentEntry;
use record::plate::{self, OWN};
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
    let asked = RwSignal::new(Asked::of_query(&asked));
    // The address says what is looked for, so that back and a copy of it lead here again.
    let carrier = id.clone();
    Effect::new(move |before: Option<String>| {
        let query = asked.get().query();
        if before.is_some_and(|before| before != query) {
            app.host.replace(&Route::Machine { carrier: carrier.clone(), asked: query.clone() });
        }
        query
    });
    let carrier = Arc::new(machine.clone());
    let pairs = loaded.table.heads.iter().map(|head| (carrier.clone(), Arc::new(head.clone()))).collect();
    let ranking = Ranking::of(app, loaded.clone(), pairs, |a, b| order(&a.pairing, &b.pairing));
    let (ranked, total) = (ranking.all, ranking.total);
    // Of a machine of one's own, what was chosen on its plate; all on request.
    let chosen = app.own.with_untracked(|own| {
        own.iter().find(|plate| plate.carrier_id() == id).map(|plate| plate.heads.clone()).unwrap_or_default()
    });
    let (few, chosen, everything) = (chosen.len(), StoredValue::new(chosen), RwSignal::new(false));
    let wanted = Memo::new(move |_| asked.get().wanted(app.units.get()));
    // Among what is looked for but for the verdict, as the chips count by verdict.
    let in_view = Memo::new(move |_| {
        let wanted = Wanted { verdict: None, ..wanted.get() };
        let shows = |row: &&Ranked| {
            let on_plate = everything.get()
                || chosen.with_value(|chosen| chosen.is_empty() || chosen.contains(&row.head.id.to_string()));
            on_plate && wanted.admits(&row.pairing) && wanted.suits(&row.head) != Outcome::NotMet
        };
        ranked.with(|all| all.iter().filter(shows).cloned().collect::<Vec<_>>())
    });
    let shown = Memo::new(move |_| {
        let (verdict, by) = asked.with(|asked| (asked.verdict, asked.order));
        let mut shown = of_verdict(in_view.get(), verdict);
        shown.sort_by(|a, b| by.compare((&a.pairing, &a.head), (&b.pairing, &b.head)));
        shown
    });
    let verdicts = Signal::derive(move || in_view.with(|all| verdicts(all)));
    let solving = Signal::derive(move || ranking.is_solving());
    // Whether its maker does not say what is looked for.
    let is_unsaid = move |row: &Ranked| wanted.with(|wanted| wanted.suits(&row.head)) == Outcome::NotKnown;
    // Those whose makers do not say stand folded behind the others.
    let parted = move |unsaid: bool| {
        let mut rows = shown.get();
        rows.retain(|row| is_unsaid(row) == unsaid);
        rows
    };
    let key = move |row: &Ranked| (row.head.id.to_string(), is_unsaid(row));
    let row = move |row: Ranked| {
        let unsaid = is_unsaid(&row);
        view! { <PairingRow pairing=row.pairing unsaid stock=row.head.stock.clone()/> }.into_any()
    };
    let tally = move || {
        if solving.get() {
            return ranking.so_far();
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
            {own_plate.map(|id| {
                // What came in a link is kept first, and edited then.
                let kept = app.own.with_untracked(|own| own.iter().any(|plate| plate.id == id));
                kept.then(|| view! { <a class="button" href=app.href(&Route::plate(&id))>"Edit its spec plate"</a> })
            })}
        </p>
        {move || stands_for_class.then(|| view! { <Decide pairings=ranked.with(|all| all.iter().map(|row| row.pairing.clone()).collect::<Vec<_>>())/> })}
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
        <Rows solving total rows=Signal::derive(move || parted(false)) key each=row/>
        {move || Some(parted(true).len()).filter(|count| *count > 0).map(|count| view! {
            <details class="fold more not-stated">
                <summary><span class="name">{app.words().not_stated(count)}</span></summary>
                <Rows solving=Signal::derive(|| false) total rows=Signal::derive(move || parted(true)) key each=row/>
            </details>
        })}
        {move || (!solving.get() && total > 0 && shown.with(Vec::is_empty)).then(|| view! {
            <p>"Nothing passes these filters. "
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
