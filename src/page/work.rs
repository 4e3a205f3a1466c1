//! The other way round: the work first, then the attachments made for it, each with the smallest machine that runs it.

use super::asked::{Asked, length};
use super::breath::breathe;
use super::filters::WorkFields;
use super::load::Loaded;
use super::route::Route;
use super::start::NoTable;
use super::state::{App, app, label};
use crate::pairing::{Judge, Outcome, RunsOn};
use crate::table::{Carrier, Head};
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::sync::Arc;

/// The screen.
#[component]
pub fn Work(asked: String) -> impl IntoView {
    let app = app();
    app.place.title("Begin with the work");
    view! {
        <h1 tabindex="-1">"What work?"</h1>
        {move || match app.table() {
            Some(loaded) => view! { <Found loaded asked=asked.clone()/> }.into_any(),
            None => view! { <NoTable/> }.into_any(),
        }}
    }
}

/// An attachment made for the work.
#[derive(Clone, PartialEq)]
struct Row {
    head: Arc<Head>,
    /// Whether its maker says that it does it.
    said: bool,
}

#[component]
fn Found(loaded: Arc<Loaded>, asked: String) -> impl IntoView {
    let app = app();
    let asked = RwSignal::new(Asked::of_query(&asked));
    Effect::new(move |before: Option<String>| {
        let query = asked.get().query();
        if before.is_some_and(|before| before != query) {
            app.place.replace(&Route::Work { asked: query.clone() });
        }
        query
    });
    let table = StoredValue::new(loaded.clone());
    let named = move || asked.with(|asked| !asked.material.is_empty() || !asked.width.trim().is_empty());
    let rows = Memo::new(move |_| {
        if !named() {
            return Vec::new();
        }
        let wanted = asked.get().wanted(app.units.get());
        let row = |head: &Head| match wanted.suits(head) {
            Outcome::NotMet => None,
            outcome => Some(Row { head: Arc::new(head.clone()), said: outcome == Outcome::Met }),
        };
        let mut all: Vec<_> = table.with_value(|loaded| loaded.table.heads.iter().filter_map(row).collect());
        // Those that are said to do it come first.
        all.sort_by_key(|row| !row.said);
        all
    });
    let tally = move || {
        let units = app.units.get();
        let unread =
            asked.with(|asked| length(&asked.thickness, units).is_err() || length(&asked.width, units).is_err());
        match (named(), unread) {
            (false, _) => "Name the material, or the width that is wanted.".to_owned(),
            (true, true) => "One of the lengths cannot be read yet.".to_owned(),
            (true, false) => {
                let said = rows.with(|rows| rows.iter().filter(|row| row.said).count());
                app.words().made_for_it(said, rows.with(Vec::len) - said)
            }
        }
    };
    view! {
        <div class="filters work-asked"><WorkFields asked table=loaded.clone()/></div>
        <p role="status" class="tally">{tally}</p>
        <ul class="list">
            <For each=move || rows.get() key=|row| (row.head.id.to_string(), row.said) let:row>
                <ForIt loaded=loaded.clone() row/>
            </For>
        </ul>
        {move || (named() && rows.with(Vec::is_empty)).then(|| view! {
            <p>"No attachment of the table in use is made for that. Ask for a smaller diameter or width, or "
                <a href=app.href(&Route::Table)>"load another table"</a>"."</p>
        })}
        <p class="quiet">"You have the machine already? "<a href=app.href(&Route::Start)>"Choose it"</a>", then narrow its list by the work."</p>
    }
}

/// One attachment, and which machines run it.
#[component]
fn ForIt(loaded: Arc<Loaded>, row: Row) -> impl IntoView {
    let app = app();
    let Row { head, said } = row;
    let runs = RwSignal::new(None);
    ask(app, loaded, head.clone(), runs);
    let (of, kind) = (head.clone(), head.kind);
    let answer = move || match runs.get() {
        Some((runs, smallest)) => app.words().runs_on(&runs, smallest.as_ref()),
        None => "…".to_owned(),
    };
    view! {
        <li>
            <a class="row for-it" href=app.href(&Route::attachment(head.id.as_str()))>
                <span class="name">{label(head.maker.as_ref(), &head.model)}</span>
                <span class="quiet">{move || app.words().head_kind(kind)}
                    {(!said).then_some(" · its maker does not say whether it does that")}</span>
                <span class="says">{move || app.words().work_of(&of)}</span>
                <span class="answer">{answer}</span>
            </a>
        </li>
    }
}

/// Asks every machine, in its own time: the list stands first.
fn ask(app: App, loaded: Arc<Loaded>, head: Arc<Head>, answer: RwSignal<Option<(RunsOn, Option<Carrier>)>>) {
    spawn_local(async move {
        breathe().await;
        if answer.is_disposed() {
            return;
        }
        let machines = untrack(|| app.machines(&loaded));
        let runs = app.runs_on(&head, || RunsOn::of(&Judge::new(&loaded.conditions), &machines, &head));
        let smallest = runs.smallest.and_then(|(place, _)| machines.get(place).cloned());
        answer.try_set(Some((runs, smallest)));
    });
}
