//! The circuit on the sheet: what the brochure says against what the circuit gives, and the oil thermometer.

use super::document::Document;
use super::setting::Setting;
use super::state::app;
use drawing::thermometer;
use fit::Stage;
use leptos::prelude::*;
use quantity::{Amount, Quantity, ThermodynamicTemperature, Unit};

/// Brochure says, circuit gives: of the machine as it is.
#[component]
pub fn BrochureStrip(
    /// What the sheet is about.
    setting: StoredValue<Setting>,
) -> impl IntoView {
    let app = app();
    let brochure = setting.with_value(|setting| setting.look(Stage::AsItIs, |i| i.brochure()).flatten());
    brochure.map(|brochure| {
        let blocks = Signal::derive(move || document::brochure(&app.words(), &brochure));
        view! {
            <section aria-labelledby="brochure" class="brochure">
                <h2 id="brochure">"Brochure says, circuit gives"</h2>
                <Document name="brochure" blocks setting/>
            </section>
        }
    })
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
    // What is open goes along with slider and machine: it is a figure of what is drawn anew.
    let blocks = Signal::derive(move || {
        let (words, stage) = (app.words(), stage.get());
        reading.with(|reading| {
            reading.as_ref().map(|reading| document::at_oil(&words, reading, stage)).unwrap_or_default()
        })
    });
    let over_a_day = Signal::derive(move || {
        let (words, stage) = (app.words(), stage.get());
        warmth.with(|warmth| {
            warmth.as_ref().map(|warmth| document::over_a_day(&words, warmth, stage)).unwrap_or_default()
        })
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
                <Document name="oil" blocks setting/>
                <Document name="warmth" blocks=over_a_day setting/>
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
