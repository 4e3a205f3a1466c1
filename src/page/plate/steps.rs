//! The first two steps: what stands on the machine's plate, and the questions that decide most, one by one.

use super::super::document::Plain;
use super::super::field::{Field, problems};
use super::super::route::Route;
use super::super::state::app;
use super::desk::{Desk, Step, so_far, tally};
use super::photo::{PlatePhoto, Shown};
use document::Block;
use drawing::Place;
use leptos::prelude::*;
use record::plate::{self, Figure, Plate, Question};

/// The steps, and in which one is.
#[component]
pub fn Steps(desk: Desk) -> impl IntoView {
    let at = move |place: usize| {
        let here = match desk.step.get() {
            Step::Plate => 0,
            Step::Question(_) => 1,
            Step::Answer => 2,
        };
        (here == place).then_some("step")
    };
    let to = [("1 Plate", Step::Plate), ("2 On the machine", Step::Question(0)), ("3 Answer", Step::Answer)];
    view! {
        <ol class="three-steps no-print">
            {to.into_iter().enumerate().map(|(place, (name, step))| view! {
                <li><button type="button" class="quiet" aria-current=move || at(place) on:click=move |_| desk.go(step)>{name}</button></li>
            }).collect_view()}
        </ol>
    }
}

/// Whose plate it is, and what it is called.
#[component]
pub fn Name(desk: Desk) -> impl IntoView {
    let rename = move |event| {
        if let Some(name) = record::sound_name(&event_target_value(&event)) {
            desk.plate.update(|plate| plate.name = name);
        }
    };
    view! {
        <p class="field">
            <label for="plate-name">"Name"</label>
            <input id="plate-name" type="text" autocomplete="off" maxlength=record::LONGEST_NAME.to_string()
                prop:value=move || desk.plate.with(|plate| plate.name.clone()) on:change=rename aria-describedby="plate-name-where"/>
            <span class="where" id="plate-name-where">"maker and model, or what you call it"</span>
        </p>
    }
}

/// What stands on the machine's own plate, and a first answer as soon as its mass is there.
#[component]
pub fn OnThePlate(desk: Desk) -> impl IntoView {
    let words = move || desk.app.words();
    let problems = problems(desk.plate);
    let other = Memo::new(move |_| desk.plate.with(Plate::other_size));
    let take = move |size| {
        // What is asked goes by the class.
        desk.asking.set_value(None);
        desk.plate.update(|plate| *plate = plate.clone().in_class(size));
    };
    let first = move || {
        match desk.typical.get() {
        Some(typical) => view! {
            <p class="tally">{words().tally(&typical.verdicts)}</p>
            <p class="quiet">{words().typical_as(&typical.name)}" "<a href=desk.app.href(&Route::machine(&typical.carrier))>"See what fits that one"</a></p>
        }
        .into_any(),
        None if desk.busy.get() && !desk.plate.with(|plate| plate.typed(Figure::OperatingMass).is_empty()) => {
            view! { <p class="quiet">{move || so_far(desk)}</p> }.into_any()
        }
        None => view! { <p class="quiet">{words().no_first_answer_yet()}</p> }.into_any(),
    }
    };
    view! {
        <h1 tabindex="-1">"What stands on its plate?"</h1>
        <Sketch place=Place::Plate/>
        <PlatePhoto desk shown=Shown::Kept/>
        <Name desk/>
        <div class="figures-of-plate two">
            {Figure::ON_THE_PLATE.map(|figure| view! { <Field plate=desk.plate figure problems lettered=true/> }).collect_view()}
        </div>
        {move || other.get().map(|size| view! {
            <p class="missing">{words().other_size(size)}" "<button type="button" on:click=move |_| take(size)>"Take it as one"</button></p>
        })}
        <section class="typical" aria-labelledby="typical" aria-busy=move || desk.busy.get().to_string()>
            <h2 id="typical">"First answer, typical for this class"</h2>
            {first}
        </section>
        <p class="actions no-print">
            <button type="button" class="strong" on:click=move |_| desk.go(Step::Question(0))>"Next"</button>
            <button type="button" on:click=move |_| desk.go(Step::Answer)>"To the answer"</button>
        </p>
    }
}

/// One of the questions.
#[component]
pub fn OneQuestion(desk: Desk, at: usize) -> impl IntoView {
    // Which questions there are does not change while one answers them: they are those of a machine with nothing known but its class.
    let all = Memo::new(move |_| desk.asked.get().map(|asked| plate::questions(&asked)));
    move || {
        match all.get() {
        None => view! {
            <h1 tabindex="-1">"On the machine"</h1>
            <p role="status" class="quiet">"Asking the attachments what they need to know …"</p>
            <p class="quiet">{move || so_far(desk)}</p>
        }
        .into_any(),
        Some(all) => match all.get(at).cloned() {
            Some(question) => {
                // Who waits on the heading for the question stands on it when it comes.
                if desk.app.host.heading_has_focus() {
                    desk.app.host.focus_heading();
                }
                view! { <Asked desk at question count=all.len()/> }.into_any()
            }
            None => view! {
                <h1 tabindex="-1">"On the machine"</h1>
                <p class="quiet">"Nothing more is asked for."</p>
                <p class="actions"><button type="button" class="strong" on:click=move |_| desk.go(Step::Answer)>"To the answer"</button></p>
            }
            .into_any(),
        },
    }
    }
}

#[component]
fn Asked(desk: Desk, at: usize, question: Question, count: usize) -> impl IntoView {
    let words = move || desk.app.words();
    let Question { fact, figures, heads } = question;
    let problems = problems(desk.plate);
    let of = move || desk.rows.with(Vec::len).max(heads);
    let place = figures.iter().copied().find_map(Place::of);
    let many = figures.len() > 2;
    let next = if at + 1 < count { Step::Question(at + 1) } else { Step::Answer };
    let back = if at == 0 { Step::Plate } else { Step::Question(at - 1) };
    let typed = {
        let figures = figures.clone();
        Memo::new(move |_| desk.plate.with(|plate| figures.iter().any(|figure| !plate.typed(*figure).is_empty())))
    };
    view! {
        <h1 tabindex="-1" class="capital">{move || words().fact(fact)}</h1>
        <p class="quiet">{format!("Question {} of {count}. ", at + 1)}{move || words().decides_for(heads, of())}</p>
        {place.map(|place| view! { <Sketch place/> })}
        <PlatePhoto desk shown=Shown::Alone/>
        <div class="figures-of-plate" class:two=many>
            {figures.into_iter().map(|figure| view! { <Field plate=desk.plate figure problems lettered=place.is_some()/> }).collect_view()}
        </div>
        <p class="actions no-print">
            <button type="button" class="strong" on:click=move |_| desk.go(next)>
                {move || match (typed.get(), next) {
                    (false, _) => "Cannot see it",
                    (true, Step::Answer) => "To the answer",
                    (true, _) => "Next question",
                }}
            </button>
            <button type="button" on:click=move |_| desk.go(back)>"Back"</button>
        </p>
        <p class="quiet">{move || words().still_to_ask(count - at - 1)}</p>
        <p role="status" class="quiet tally" aria-busy=move || desk.busy.get().to_string()>{move || tally(desk)}</p>
        <Again desk/>
    }
}

/// How far it has come when what stands above is being solved again. Its room is kept, so that nothing jumps.
#[component]
pub fn Again(desk: Desk) -> impl IntoView {
    let again = move || desk.busy.get() && desk.rows.with(|rows| !rows.is_empty());
    view! { <p class="quiet again">{move || again().then(|| so_far(desk))}</p> }
}

/// A sketch of the place where a figure is read; the words beside its fields say what it shows.
#[component]
fn Sketch(place: Place) -> impl IntoView {
    let app = app();
    let blocks = Signal::derive(move || {
        let words = app.words();
        vec![Block::Picture { picture: place.picture(&words), said: words.sketch_of_place().to_owned() }]
    });
    view! { <Plain blocks/> }
}
