//! What a file was read as: what is in it, what is asked, its columns, what is wrong; used when the person says so.

use super::columns::Sheets;
use super::part::part;
use super::reading::{again, answer, leave, use_it};
use crate::page::file_read::FileRead;
use crate::page::route::Route;
use crate::page::state::app;
use leptos::html::{P, Section};
use leptos::prelude::*;
use leptos::web_sys::FocusOptions;
use quantity::UnitSystem;
use spreadsheet::Answers;
use wording::{AnsweredText, CellProblemText, QuestionText};

/// How many problems are shown at once.
const SHOWN: usize = 50;

/// The screen.
#[component]
pub fn ImportScreen() -> impl IntoView {
    let app = app();
    let name = Memo::new(move |_| app.file.with(|file| file.ready().map(|read| read.name.clone())));
    move || match name.get() {
        Some(name) => view! { <Read name/> }.into_any(),
        None => view! { <NoFile/> }.into_any(),
    }
}

/// The page was loaded anew, or the address was opened by itself.
#[component]
fn NoFile() -> impl IntoView {
    let app = app();
    app.host.title("No file");
    view! {
        <h1 tabindex="-1">"No file is open"</h1>
        {move || match app.file.get() {
            FileRead::Busy(name) => view! { <p role="status" aria-busy="true">"Reading "{name}" …"</p> }.into_any(),
            _ => view! { <p>"A file that was chosen is forgotten when the page is loaded anew. Choose it again."</p> }.into_any(),
        }}
        <p><a class="button" href=app.href(&Route::Table)>"Choose a file"</a></p>
    }
}

#[component]
fn Read(name: String) -> impl IntoView {
    let app = app();
    app.host.title(&name);
    let says = part(app, |reading| reading.says.clone());
    let is_of_use = part(app, |reading| reading.is_of_use);
    let lead = NodeRef::<P>::new();
    // What it says has figures in the reader's units.
    Effect::new(move |before: Option<UnitSystem>| {
        let units = app.units.get();
        if before.is_some_and(|before| before != units)
            && let Some(read) = app.file.get_untracked().ready()
        {
            let answers = read.answers.clone();
            again(app, read, answers);
        }
        units
    });
    view! {
        <div class="import">
            <h1 tabindex="-1">{name}</h1>
            <p class="lead" role="status" tabindex="-1" node_ref=lead>{says}</p>
            <Use is_of_use/>
            <p class="quiet">{move || if is_of_use.get() {
                "Nothing of it is used until then: the table in use stays. What is asked or wrong is left out."
            } else {
                "There is no machine and no attachment in it that can be used yet: answer what is asked, or put the columns right."
            }}</p>
            <Questions lead/>
            <Answered lead/>
            <Sheets/>
            <Problems/>
            <div class="end"><Use is_of_use/></div>
        </div>
    }
}

#[component]
fn Use(is_of_use: Memo<bool>) -> impl IntoView {
    let app = app();
    view! {
        <p class="actions">
            <button type="button" class="strong" disabled=move || !is_of_use.get() on:click=move |_| use_it(app)>"Use this table"</button>
            <button type="button" on:click=move |_| leave(app)>"Leave it"</button>
        </p>
    }
}

/// Puts the focus on the sentence that says what a file was read as, without moving the screen: what had it is gone.
fn to_lead(lead: NodeRef<P>) {
    if let Some(lead) = lead.get_untracked() {
        let options = FocusOptions::new();
        options.set_prevent_scroll(true);
        let _ = lead.focus_with_options(&options);
    }
}

/// What is asked, one below the other, each once for a whole column.
#[component]
fn Questions(
    /// What the file was read as, in a sentence.
    lead: NodeRef<P>,
) -> impl IntoView {
    let app = app();
    let questions = part(app, |reading| reading.questions.clone());
    let place = NodeRef::<Section>::new();
    let choose = move |answers: Answers| {
        answer(app, |all| all.take(&answers));
        // What was pressed goes with its question: the next one is heard.
        match place.get_untracked() {
            Some(place) if questions.with_untracked(Vec::len) > 1 => drop(place.focus()),
            _ => to_lead(lead),
        }
    };
    let row = move |question: QuestionText| {
        let choices = question.choices.into_iter().map(|choice| {
            let answers = choice.answers;
            view! { <button type="button" class="chip" on:click=move |_| choose(answers.clone())>{choice.says}</button> }
        });
        view! {
            <fieldset class="asked">
                <legend>{question.says}</legend>
                <p class="actions">{choices.collect_view()}</p>
            </fieldset>
        }
    };
    view! {
        <section aria-labelledby="asked" tabindex="-1" node_ref=place class:empty=move || questions.with(Vec::is_empty)>
            <h2 id="asked">{move || match questions.with(Vec::len) {
                0 => "Nothing is asked".to_owned(),
                1 => "1 question".to_owned(),
                count => format!("{count} questions"),
            }}</h2>
            <For each=move || questions.get() key=|question| question.says.clone() children=row/>
        </section>
    }
}

/// What was answered, each with a way to be asked again.
#[component]
fn Answered(
    /// What the file was read as, in a sentence.
    lead: NodeRef<P>,
) -> impl IntoView {
    let app = app();
    let answered = part(app, |reading| reading.answered.clone());
    let is_remembered = Memo::new(move |_| app.file.with(|file| file.ready().is_some_and(|read| read.is_remembered)));
    let row = move |known: AnsweredText| {
        let (sheet, column) = (known.sheet.clone(), known.column);
        let again = move |_| {
            let sheet = sheet.clone();
            answer(app, move |all| match column {
                Some(column) => all.columns.retain(|known| known.sheet != sheet || known.column != column),
                None => all.sheets.retain(|known| known.sheet != sheet),
            });
            to_lead(lead);
        };
        let label = format!("Take back: {}", known.says);
        view! {
            <li><span>{known.says}</span><button type="button" class="quiet" aria-label=label on:click=again>"Take back"</button></li>
        }
    };
    let forget = move |_| {
        answer(app, |all| *all = Answers::default());
        to_lead(lead);
    };
    move || {
        (!answered.with(Vec::is_empty)).then(|| view! {
            <section aria-labelledby="answered">
                <h2 id="answered">"Answered"</h2>
                <p class="quiet">
                    {move || is_remembered.get().then_some("You answered this about an earlier file with the same headers. ")}
                    "It is kept in this browser for the next file with the same headers."
                </p>
                <ul class="answered">
                    <For each=move || answered.get() key=|known| known.says.clone() children=row/>
                </ul>
                <p><button type="button" on:click=forget>"Forget all answers about such files"</button></p>
            </section>
        })
    }
}

/// What is wrong, by sheet, row and column.
#[component]
fn Problems() -> impl IntoView {
    let app = app();
    let problems = part(app, |reading| reading.problems.clone());
    let count = part(app, |reading| reading.problem_count.clone());
    let unlisted = part(app, |reading| reading.more_problems);
    let row = move |problem: CellProblemText| {
        view! {
            <li class=format!("problem {}", problem.severity)>
                <p><span class="outcome">{problem.severity.clone()}</span>" "{problem.place}</p>
                {(!problem.found.is_empty()).then(|| view! { <p>"Found: "<code>{problem.found.clone()}</code></p> })}
                <p>"Expected: "{problem.expected}</p>
                <p>"To fix it: "{problem.remedy}</p>
            </li>
        }
    };
    move || {
        (!problems.with(Vec::is_empty)).then(|| {
            let more = move || problems.with(Vec::len).saturating_sub(SHOWN) + unlisted.get();
            view! {
                <section aria-labelledby="wrong">
                    <h2 id="wrong">"Problems"</h2>
                    <p>{count}". The rest is used."</p>
                    <ol class="problems">{move || problems.get().into_iter().take(SHOWN).map(row).collect_view()}</ol>
                    {move || (more() > 0).then(|| view! { <p>"And "{more()}" more."</p> })}
                </section>
            }
        })
    }
}
