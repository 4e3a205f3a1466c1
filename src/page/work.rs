//! The other way round: the work first, then the attachments made for it, each with the smallest machine that runs it.

use super::asked::{of_query, query};
use super::asking::{Asking, ask, reader};
use super::filters::WorkFields;
use super::loaded::Loaded;
use super::missing::NoTable;
use super::names::label;
use super::route::Route;
use super::state::{App, app};
use fit::Outcome;
use leptos::prelude::*;
use quantity::put_in_order_by;
use solver::{Answer, Request, length};
use std::collections::HashMap;
use std::sync::Arc;
use table::Head;

/// The screen.
#[component]
pub fn Work(asked: String) -> impl IntoView {
    let app = app();
    app.host.title("Begin with the work");
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
    let asked = RwSignal::new(of_query(&asked));
    Effect::new(move |before: Option<String>| {
        let now = asked.with(query);
        if before.is_some_and(|before| before != now) {
            app.host.replace(&Route::Work { asked: now.clone() });
        }
        now
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
        put_in_order_by(&mut all, |row| !row.said);
        all
    });
    let answers = RwSignal::new(Answers::new());
    ask_all(app, loaded.clone(), rows, answers);
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
                <ForIt row answers/>
            </For>
        </ul>
        {move || (named() && rows.with(Vec::is_empty)).then(|| view! {
            <p>"No attachment of the table in use is made for that. Ask for a smaller diameter or width, or "
                <a href=app.href(&Route::Table)>"load another table"</a>"."</p>
        })}
        <p class="quiet">"You have the machine already? "<a href=app.href(&Route::Start)>"Choose it"</a>", then narrow its list by the work."</p>
    }
}

/// What came out for the attachments that were asked about, by id.
type Answers = HashMap<String, String>;

/// One attachment, and which machines run it.
#[component]
fn ForIt(row: Row, answers: RwSignal<Answers>) -> impl IntoView {
    let app = app();
    let Row { head, said } = row;
    let (of, kind) = (head.clone(), head.kind);
    let id = head.id.to_string();
    let known = Memo::new(move |_| answers.with(|answers| answers.get(&id).cloned()));
    let answer = move || known.get().unwrap_or_else(|| "asking the machines …".to_owned());
    view! {
        <li>
            <a class="row for-it" href=app.href(&Route::attachment(head.id.as_str()))>
                <span><span class="name">{label(head.maker.as_ref(), &head.model)}</span>" "
                    <span class="quiet kind">{move || app.words().head_kind(kind)}</span>
                    {head.stock.clone().map(|note| view! { <span class="stock">{note}</span> })}</span>
                <span class="says quiet">{move || app.words().work_of(&of)}</span>
                {(!said).then(|| view! { <span class="says quiet">"its maker does not say whether it does that"</span> })}
                <span class="answer">{answer}</span>
            </a>
        </li>
    }
}

/// Asks every machine about one attachment after the other, in their order, as long as the same ones are asked about.
fn ask_all(app: App, loaded: Arc<Loaded>, rows: Memo<Vec<Row>>, answers: RwSignal<Answers>) {
    let asking = StoredValue::new_local(None::<Asking>);
    Effect::new(move |_| {
        let heads: Vec<_> = rows.with(|rows| rows.iter().map(|row| row.head.id.to_string()).collect());
        let request = Request::RunsOn { reader: reader(app, &loaded), heads, own: app.own.get() };
        asking.set_value(ask(&request, move |answer| {
            if let Answer::RunsOn { head, says } = answer {
                answers.try_update(|answers| answers.insert(head, says));
            }
        }));
    });
}
