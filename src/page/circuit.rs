//! The circuit on the sheet: what the brochure says against what the circuit gives, and the oil thermometer.

use super::reasoning::{Opener, Panel, PanelWithin};
use super::setting::Setting;
use super::state::app;
use drawing::{self, thermometer};
use explain::{BrochureFigure, FigureId, OilFigure};
use fit::installation::{Gap, OilMark, OilReading};
use fit::{CheckId, Outcome, Stage};
use leptos::prelude::*;
use quantity::{Amount, Kind, Named, ThermodynamicTemperature, Unit};

/// Brochure says, circuit gives: of the machine as it is.
#[component]
pub fn BrochureStrip(
    /// What the sheet is about.
    setting: StoredValue<Setting>,
) -> impl IntoView {
    let app = app();
    let brochure = setting.with_value(|setting| setting.look(Stage::AsItIs, |i| i.brochure()).flatten());
    brochure.map(|brochure| {
        let (flow, pressure) = (brochure.flow.clone(), brochure.pressure.clone());
        let opener = Opener::new("why-brochure".to_owned());
        view! {
            <section aria-labelledby="brochure" class="brochure">
                <h2 id="brochure">"Brochure says, circuit gives"</h2>
                <p>{move || app.words().brochure(&brochure)}</p>
                {[("Flow", flow, BrochureFigure::Flow), ("Pressure", pressure, BrochureFigure::Pressure)]
                    .map(|(name, gap, figure)| view! { <GapStrip name gap figure opener setting/> }).into_iter().collect_view()}
                <Panel opener/>
                <p class="quiet">"The machine as it is, oil at working temperature, at likely figures. The checks below take the worst ones."</p>
            </section>
        }
    })
}

/// One figure as two bars, its gap dimensioned.
#[component]
fn GapStrip(
    /// What the figure is called.
    name: &'static str,
    /// The figure.
    gap: Gap,
    /// Which figure it is.
    figure: BrochureFigure,
    /// Where its reasoning opens.
    opener: Opener,
    /// What the sheet is about.
    setting: StoredValue<Setting>,
) -> impl IntoView {
    let app = app();
    let drawn = drawing::strip(&gap);
    let (says, gives) = (gap.says, gap.gives);
    view! {
        <div class="strip">
            <p class="name">{name}</p>
            {drawn.map(|strip| {
                let at = |place: f64| 1.0 + place * 238.0;
                let ends = strip.causes.iter().map(|(.., to)| at(*to)).collect::<Vec<_>>();
                let (from, to) = (at(strip.gives), at(strip.says));
                view! {
                    <svg viewBox="0 0 240 40" aria-hidden="true">
                        <path class="says" d=format!("M1 4H{to}V14H1Z")/>
                        <path class="gives" d=format!("M1 22H{from}V32H1Z")/>
                        <path class="axis" d=format!("M{to} 4V40M{from} 22V40")/>
                        {(to - from > 2.0).then(|| view! {
                            <path class="gap" d=format!("M{from} 36H{to}")/>
                            {ends.iter().map(|end| view! { <path class="gap" d=format!("M{end} 33V39")/> }).collect_view()}
                        })}
                    </svg>
                }
            })}
            <p class="figures">{move || {
                let words = app.words();
                view! {
                    <span><span class="quiet">"brochure "</span>{words.amount(says)}</span>
                    <span><span class="quiet">"circuit "</span>{opener.number(setting, figure as usize, FigureId::Brochure(figure), words.amount(gives))}</span>
                    <span class="quiet">{words.causes(&gap)}</span>
                }
            }}</p>
        </div>
    }
}

/// A line where the oil gets too hot over a day, of the machine as it would go to work.
#[component]
pub fn TooHot(
    /// What the sheet is about.
    setting: StoredValue<Setting>,
) -> impl IntoView {
    let app = app();
    let last = setting.with_value(|setting| *setting.stages().last().unwrap_or(&Stage::AsItIs));
    let warmth = setting.with_value(|setting| setting.warmth(last));
    move || warmth.as_ref().and_then(|warmth| app.words().too_hot(warmth)).map(|text| view! { <p>{text}</p> })
}

pub fn celsius(t: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::from_si(Unit::Celsius.to_si(t))
}

/// A temperature in degrees Celsius, whole.
pub fn in_celsius(temperature: ThermodynamicTemperature) -> f64 {
    Unit::Celsius.of_si(temperature.si()).round()
}

/// The oil thermometer: moves working point and marks as it is moved.
#[component]
pub fn Thermometer(
    /// What the sheet is about.
    setting: StoredValue<Setting>,
    /// Which machine is shown, here and in the operating points.
    stage: RwSignal<Stage>,
) -> impl IntoView {
    let app = app();
    let stages = setting.with_value(Setting::stages);
    let working = setting.with_value(|setting| Unit::Celsius.of_si(setting.working_temperature().si()));
    let temperature = RwSignal::new(working);
    let reading = Memo::new(move |_| {
        setting.with_value(|setting| setting.look(stage.get(), |i| i.at_oil(celsius(temperature.get()))))
    });
    let warmth = Memo::new(move |_| setting.with_value(|setting| setting.warmth(stage.get())));
    let settles = move || warmth.get().and_then(|warmth| warmth.settles);
    let moved = move |event: web_sys::Event| {
        if let Ok(value) = event_target_value(&event).parse() {
            temperature.set(value);
        }
    };
    let any = setting.with_value(|setting| setting.look(Stage::AsItIs, |_| ()).is_some());
    let (opener, over_a_day) = (Opener::new("why-oil".to_owned()), Opener::new("why-warmth".to_owned()));
    // What is open goes along with slider and machine.
    Effect::new(move |_| {
        let (stage, oil) = (stage.get(), celsius(temperature.get()));
        opener.follow(|of| match of {
            FigureId::Oil(figure, ..) => FigureId::Oil(figure, stage, oil),
            FigureId::Mark(check, ..) => FigureId::Mark(check, stage, oil),
            other => other,
        });
        over_a_day.follow(|_| FigureId::Check(CheckId::Heat, stage));
    });
    any.then(|| {
        view! {
            <section aria-labelledby="thermometer" class="thermometer">
                <h2 id="thermometer">"The oil thermometer"</h2>
                {(stages.len() > 1).then(|| view! {
                    <p class="actions" role="group" aria-label="Before or after the changes">
                        {stages.iter().map(|&one| view! {
                            <button type="button" aria-pressed=move || (stage.get() == one).to_string()
                                on:click=move |_| stage.set(one)>{app.words().stage(one)}</button>
                        }).collect_view()}
                    </p>
                })}
                <label for="oil">"Temperature of the oil"</label>
                <input id="oil" type="range" min=thermometer::RANGE.0 max=thermometer::RANGE.1 step="1"
                    prop:value=move || temperature.get().to_string() on:input=moved
                    aria-valuetext=move || {
                    let shown = app.words().amount(Amount::of(celsius(temperature.get())));
                    reading.get().map_or(shown.clone(), |reading| app.words().oil_marks(&shown, &reading))
                }/>
                {move || view! { <Scale settles=settles()/> }}
                <p class="oil" role="status">{move || reading.get().map(|reading| app.words().oil(&reading))}</p>
                {move || {
                    // Drawn anew in other units too.
                    app.units.track();
                    reading.get().map(|reading| view! { <Readings reading stage=stage.get() opener setting/> })
                }}
                <PanelWithin opener from=0 to=MARKS/>
                {move || {
                    app.units.track();
                    reading.get().map(|reading| view! { <Marks reading stage=stage.get() opener setting/> })
                }}
                <PanelWithin opener from=MARKS to=usize::MAX/>
                <p>{move || warmth.get().map(|warmth| app.words().warmth(&warmth))}</p>
                {move || warmth.get().map(|_| {
                    over_a_day.how(setting, FigureId::Check(CheckId::Heat, stage.get()), "where the oil settles")
                })}
                <Panel opener=over_a_day/>
            </section>
        }
    })
}

/// Ticks of the scale, and where the oil settles.
#[component]
fn Scale(
    /// Where the oil settles, if that can be said.
    settles: Option<Amount>,
) -> impl IntoView {
    let app = app();
    // A slider's thumb does not leave its track: the scale begins half a thumb further in.
    let place = |celsius: f64| format!("calc(8px + {:.4} * (100% - 16px))", thermometer::place(celsius));
    let named = move |celsius_value: f64| {
        let (value, _) = Amount::of(celsius(celsius_value)).in_system(app.units.get());
        app.words().numbers.decimal(value, 0)
    };
    let settles = settles.map(|amount| amount.in_system(quantity::UnitSystem::Metric).0);
    view! {
        <div class="scale" aria-hidden="true">
            {thermometer::ticks().into_iter().map(|tick| view! {
                <span class="notch" class:long=tick.named style:inset-inline-start=place(tick.celsius)>
                    {tick.named.then(|| view! { <span>{move || named(tick.celsius)}</span> })}
                </span>
            }).collect_view()}
            {settles.map(|settles| view! { <span class="settles" style:inset-inline-start=place(settles)></span> })}
        </div>
    }
}

/// The first place of the marks, behind those of the readings.
const MARKS: usize = 10;

/// What the circuit does with the oil as it is now.
#[component]
fn Readings(
    /// The circuit at this temperature.
    reading: OilReading,
    /// Of which machine.
    stage: Stage,
    /// Where its figures open.
    opener: Opener,
    /// What the sheet is about.
    setting: StoredValue<Setting>,
) -> impl IntoView {
    let words = app().words();
    if reading.flow.is_none() && !reading.stalls {
        return view! { <p>"The circuit cannot be solved: the checks above say what is missing."</p> }.into_any();
    }
    let Some(oil) = reading.temperature.quantity::<ThermodynamicTemperature>() else { return ().into_any() };
    let cell = move |figure: OilFigure, amount: Option<Amount>| match amount {
        _ if figure == OilFigure::Flow && reading.stalls => "none: it stands still".into_any(),
        Some(amount) => {
            let of = FigureId::Oil(figure, stage, oil);
            opener.number(setting, figure as usize, of, words.amount(amount)).into_any()
        }
        None => "–".into_any(),
    };
    let mut figures = vec![
        ("Flow at work", cell(OilFigure::Flow, reading.flow)),
        ("At the pump", cell(OilFigure::Pump, reading.pump)),
        ("Back pressure, free running", cell(OilFigure::BackPressure, reading.back_pressure)),
    ];
    figures.extend(reading.case_pressure.map(|case| ("In the case drain", cell(OilFigure::CasePressure, Some(case)))));
    figures.extend(reading.viscosity.map(|thick| ("The oil's viscosity", cell(OilFigure::Viscosity, Some(thick)))));
    view! {
        <dl class="readings">
            {figures.into_iter().map(|(name, shown)| view! { <div><dt>{name}</dt><dd>{shown}</dd></div> }).collect_view()}
        </dl>
    }
    .into_any()
}

/// How the checks come out with the oil as it is now.
#[component]
fn Marks(
    /// The circuit at this temperature.
    reading: OilReading,
    /// Of which machine.
    stage: Stage,
    /// Where their margins open.
    opener: Opener,
    /// What the sheet is about.
    setting: StoredValue<Setting>,
) -> impl IntoView {
    let words = app().words();
    let oil = reading.temperature.quantity::<ThermodynamicTemperature>();
    let row = move |(place, mark): (usize, OilMark)| {
        let margin = (mark.outcome != Outcome::NotKnown).then_some(mark.margin).flatten();
        let margin = margin.zip(oil).map(|(margin, oil)| {
            let of = FigureId::Mark(mark.check, stage, oil);
            (" · ", opener.number(setting, MARKS + place, of, words.margin(margin, mark.bound)))
        });
        view! {
            <li class=format!("check {}", mark.outcome.name())>
                <span>{words.check_title(mark.check)}</span>
                <span class="outcome">{words.outcome(mark.outcome)}{margin}</span>
            </li>
        }
    };
    view! { <ul class="marks">{reading.marks.into_iter().enumerate().map(row).collect_view()}</ul> }
}
