//! The drawings on the sheet: circuit, pump curve, lift, oil over a day. What is drawn and what is said of it is the core's.

use super::setting::Setting;
use super::state::app;
use drawing::{self, Form, Picture};
use fit::installation::State;
use fit::{Load, OilState, Pairing, Stage};
use leptos::prelude::*;
use quantity::Named;
use std::sync::Arc;
use workshop::schema::Schema;

/// Pixels of a drawing for one unit of the page's text: drawings grow with the text.
const PIXELS: f64 = 16.0;

/// A picture as SVG. Its words stand beside it, so what is written in it is hidden from screen readers.
pub fn svg(picture: Picture, class: &'static str, label: String) -> impl IntoView {
    let (width, height) = (picture.width, picture.height);
    let size = format!("calc({:.3} * var(--pairwright-rem))", width / PIXELS);
    // What is wider than the screen is scrolled before its text gets too small.
    let least = 0.8 * width / PIXELS;
    let most = format!("max(100%, {least:.3} * var(--pairwright-rem))");
    view! {
        <svg class=class viewBox=format!("0 0 {width:.2} {height:.2}") role="img" aria-label=label
            style:inline-size=size style:max-inline-size=most>
            {picture.paths.into_iter().map(|path| view! { <path d=path.d class=path.stroke.name()/> }).collect_view()}
            {picture.texts.into_iter().map(|text| view! {
                <text x=text.at.x y=text.at.y text-anchor=text.anchor.name() class=text.face.name()>{text.text}</text>
            }).collect_view()}
        </svg>
    }
}

/// What the drawing says, for who cannot see it.
#[component]
fn InWords(lines: Vec<String>) -> impl IntoView {
    view! {
        <details class="in-words">
            <summary>"In words"</summary>
            {lines.into_iter().map(|line| view! { <p>{line}</p> }).collect_view()}
        </details>
    }
}

/// One of several, as buttons of which one is pressed.
#[component]
fn Either<T: Named + PartialEq + Send + Sync + 'static>(
    /// What is chosen.
    chosen: RwSignal<T>,
    /// The choices.
    all: &'static [T],
    /// What it is about.
    label: &'static str,
    /// What each is called.
    name: fn(T) -> &'static str,
) -> impl IntoView {
    view! {
        <span class="either" role="group" aria-label=label>
            {all.iter().map(|&one| view! {
                <button type="button" aria-pressed=move || (chosen.get() == one).to_string()
                    on:click=move |_| chosen.set(one)>{name(one)}</button>
            }).collect_view()}
        </span>
    }
}

/// The circuit, before or after the changes, with flows and pressures for a load and an oil.
#[component]
pub fn CircuitDrawing(
    /// The pairing.
    pairing: StoredValue<Arc<Pairing>>,
    /// What the sheet is about.
    setting: StoredValue<Setting>,
    /// Which machine is shown.
    stage: RwSignal<Stage>,
) -> impl IntoView {
    let app = app();
    let (load, oil) = (RwSignal::new(Load::Working), RwSignal::new(OilState::Working));
    let changed = setting.with_value(|setting| setting.stages().len() > 1);
    // Solved once for all that shows it.
    let standing = Memo::new(move |_| {
        let state = State { oil: oil.get(), ..State::usual(load.get()) };
        setting.with_value(|setting| setting.look(stage.get(), |installation| installation.state(state)))
    });
    let drawn = move |form: Form, class: &'static str| {
        let (words, standing) = (app.words(), standing.get());
        let sheet = setting.with_value(|setting| {
            let (machine, attachment) = setting.of();
            pairing.with_value(|pairing| {
                drawing::circuit((pairing, machine, attachment), stage.get(), standing.as_ref(), &words, form)
            })
        });
        let label = format!("Circuit, {}; told in words below", words.stage(stage.get()));
        svg(sheet.picture(), class, label)
    };
    let told = move || {
        let standing = standing.get();
        let (before, after) = setting.with_value(|setting| {
            let (machine, attachment) = setting.of();
            pairing.with_value(|pairing| Schema::of_pairing(pairing, machine, attachment))
        });
        let schema = if stage.get() == Stage::AfterChanges { after.unwrap_or(before) } else { before };
        app.words().circuit_text(&schema, standing.as_ref())
    };
    view! {
        <section aria-labelledby="circuit" class="drawing">
            <h2 id="circuit">"The circuit"</h2>
            <div class="choices-of-drawing no-print">
                {changed.then(|| view! { <Either chosen=stage all=Stage::ALL label="Before or after the changes" name=stage_name/> })}
                <Either chosen=load all=Load::ALL label="Load" name=load_name/>
                <Either chosen=oil all=OilState::ALL label="Oil" name=oil_name/>
            </div>
            <div class="board" tabindex="0" role="region" aria-label="Drawing of the circuit">
                {move || drawn(Form::Tall, "tall")}
                {move || drawn(Form::Wide, "wide")}
            </div>
            {move || view! { <InWords lines=told()/> }}
        </section>
    }
}

fn stage_name(stage: Stage) -> &'static str {
    app().words().stage(stage)
}

fn load_name(load: Load) -> &'static str {
    app().words().load(load)
}

fn oil_name(oil: OilState) -> &'static str {
    match oil {
        OilState::Cold => "oil cold",
        OilState::Working => "oil warm",
        OilState::Hot => "oil hot",
    }
}

/// A drawing of one curve with its words.
#[component]
fn Plot(
    /// Unique on the screen.
    id: &'static str,
    /// What it is called.
    title: &'static str,
    /// Draws it and says it; nothing where nothing can be drawn.
    draw: impl Fn() -> Option<(Picture, String)> + Send + Sync + 'static,
) -> impl IntoView {
    move || {
        draw().map(|(picture, said)| {
            view! {
                <section aria-labelledby=id class="drawing">
                    <h2 id=id>{title}</h2>
                    <div class="board">{svg(picture, "plot", said.clone())}</div>
                    <p class="quiet">{said}</p>
                </section>
            }
        })
    }
}

/// Flow over pressure, with what the attachment needs.
#[component]
pub fn CurveDrawing(
    /// What the sheet is about.
    setting: StoredValue<Setting>,
    /// Which machine is shown.
    stage: RwSignal<Stage>,
) -> impl IntoView {
    let app = app();
    let draw = move || {
        let found = setting.with_value(|setting| setting.look(stage.get(), |i| i.pump_curve())).flatten()?;
        let words = app.words();
        Some((drawing::curve(&found, &words), words.curve_text(&found)))
    };
    view! { <Plot id="curve" title="What the pumps give, what the attachment needs" draw/> }
}

/// What the machine carries over reach.
#[component]
pub fn LiftDrawing(
    /// What the sheet is about.
    setting: StoredValue<Setting>,
    /// Which machine is shown.
    stage: RwSignal<Stage>,
) -> impl IntoView {
    let app = app();
    let draw = move || {
        let found = setting.with_value(|setting| setting.look(stage.get(), |i| i.lift_over_reach().ok())).flatten()?;
        let words = app.words();
        Some((drawing::lift(&found, &words), words.lift_text(&found)))
    };
    view! { <Plot id="lift" title="What the machine carries, over reach" draw/> }
}

/// The oil's temperature over hours of work.
#[component]
pub fn WarmingDrawing(
    /// What the sheet is about.
    setting: StoredValue<Setting>,
    /// Which machine is shown.
    stage: RwSignal<Stage>,
) -> impl IntoView {
    let app = app();
    let draw = move || {
        let found = setting.with_value(|setting| setting.look(stage.get(), |i| i.warming().ok())).flatten()?;
        let words = app.words();
        Some((drawing::warmth(&found, &words), words.warming_text(&found)))
    };
    view! { <Plot id="warming" title="The oil over a day of work" draw/> }
}
