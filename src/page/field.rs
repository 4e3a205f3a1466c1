//! A field for one figure of a machine: what it is, where it is read, how it was read, what is wrong with it.

use super::state::app;
use drawing::Place;
use leptos::prelude::*;
use quantity::{Named, text::TextFault};
use record::plate::{Answer, Figure, Plate};
use table::{Fault, Problem, Severity};

/// Problems with their figures; compared so that a field is only drawn anew when something about it changed.
#[derive(Clone, PartialEq)]
pub struct Shown(Vec<(Figure, Problem)>);

impl Shown {
    /// Whether what stands for a figure cannot be used.
    pub fn refuses(&self, figure: Figure) -> bool {
        self.0.iter().any(|(of, problem)| *of == figure && problem.severity == Severity::Error)
    }
}

/// What is wrong with what stands on a plate.
pub fn problems(plate: RwSignal<Plate>) -> Memo<Shown> {
    Memo::new(move |_| Shown(plate.get().read().problems))
}

/// One figure: what it is, where it is read, what was typed, what is wrong with it.
#[component]
pub fn Field(
    plate: RwSignal<Plate>,
    figure: Figure,
    problems: Memo<Shown>,
    /// Whether its letter in the sketch of its place stands before it.
    #[prop(optional)]
    lettered: bool,
) -> impl IntoView {
    let app = app();
    let letter = Place::of(figure).and_then(|place| place.letter(figure)).filter(|_| lettered);
    let words = move || app.words();
    let id = format!("plate-{}", figure.name());
    let (input_id, note_id, wrong_id) = (id.clone(), format!("{id}-where"), format!("{id}-wrong"));
    let described = format!("{note_id} {wrong_id}");
    let applies = Memo::new(move |_| plate.with(|plate| plate.applies(figure)));
    let typed = move || plate.with(|plate| plate.typed(figure).to_owned());
    let write = move |text: String| plate.update(|plate| plate.write(figure, &text));
    let problem = Memo::new(move |_| {
        problems.with(|Shown(all)| all.iter().find(|(of, _)| *of == figure).map(|(_, problem)| problem.clone()))
    });
    let wrong = move || problem.with(|problem| problem.as_ref().is_some_and(|p| p.severity == Severity::Error));
    let input = match figure.answer() {
        Answer::Quantity(_) | Answer::Range(_) | Answer::Count | Answer::Code => view! {
            <input id=input_id type="text" autocomplete="off" autocapitalize="off" spellcheck="false"
                inputmode=(figure.answer() == Answer::Count).then_some("numeric")
                placeholder=move || format!("e.g. {}", words().figure_example(figure)) aria-describedby=described
                aria-invalid=move || wrong().to_string() prop:value=typed
                on:input=move |event| write(event_target_value(&event))/>
        }
        .into_any(),
        Answer::YesNo | Answer::Choice(_) => {
            let answers = match figure.answer() {
                Answer::Choice(answers) => answers,
                _ => vec!["yes", "no"],
            };
            view! {
                <select id=input_id aria-describedby=described prop:value=typed on:change=move |event| write(event_target_value(&event))>
                    <option value="">"not known"</option>
                    {answers.into_iter().map(|answer| {
                        let chosen = plate.with_untracked(|plate| plate.typed(figure) == answer);
                        view! { <option value=answer selected=chosen>{words().figure_choice(answer)}</option> }
                    }).collect_view()}
                </select>
            }
            .into_any()
        }
    };
    view! {
        <div class="figure" class:wrong=wrong hidden=move || !applies.get()>
            {letter.map(|letter| view! { <span class="ring" aria-hidden="true">{letter}</span> })}
            <label for=id>{move || words().figure_title(figure)}</label>
            {input}
            <p class="where" id=note_id>{words().figure_place(figure)}</p>
            <p class="read-as" role="status">{move || plate.with(|plate| plate.read_as(figure)).map(|read| words().read_as(&read))}</p>
            <Wrong id=wrong_id problem typed=Signal::derive(typed) write=Callback::new(write)
                units=Callback::new(move |()| words().likely_units(figure))
                meant=Callback::new(move |()| plate.with(|plate| plate.likely_meant(figure)))/>
        </div>
    }
}

/// What is wrong with a typed figure, and what helps: the unit, one of its readings, else the words of the table's reader.
#[component]
pub fn Wrong(
    /// Its id, to which the field refers.
    id: String,
    problem: Memo<Option<Problem>>,
    /// What is typed.
    typed: Signal<String>,
    /// Types something else.
    write: Callback<String>,
    /// The units that may be meant where none is typed.
    units: Callback<(), Vec<&'static str>>,
    /// What may be meant where that is not clear.
    meant: Callback<(), Vec<String>>,
) -> impl IntoView {
    let app = app();
    let choose = move |texts: Vec<String>| {
        let chip = |text: String| {
            let shown = text.clone();
            view! { <button type="button" class="chip" on:click=move |_| write.run(text.clone())>{shown}</button> }
        };
        view! { <p class="actions">{texts.into_iter().map(chip).collect_view()}</p> }
    };
    let says = move |problem: Problem| {
        if matches!(problem.fault, Fault::Quantity { fault: TextFault::NoUnit, .. }) {
            let number = typed.get().trim().to_owned();
            let with_units = units.run(()).into_iter().map(|unit| format!("{number} {unit}")).collect();
            return view! { <p>"Which unit?"</p>{choose(with_units)} }.into_any();
        }
        let meant = meant.run(());
        if !meant.is_empty() {
            let words = "Commas and spaces mean thousands to one reader and decimals to another. Did you mean";
            return view! { <p>{words}</p>{choose(meant)} }.into_any();
        }
        view! { <p>{app.words().form_problem(&problem)}</p> }.into_any()
    };
    view! { <div id=id class="wrong-words" role="status">{move || problem.get().map(says)}</div> }
}
