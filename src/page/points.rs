//! The solved operating points of a pairing as a table, before and after the changes.

use super::reasoning::{Opener, Panel};
use super::setting::Setting;
use super::state::app;
use explain::FigureId;
use explain::PointFigure;
use fit::{Load, Pairing, Point, Stage};
use leptos::prelude::*;
use quantity::{Amount, Named};
use std::sync::Arc;

/// The solved operating points, before and after.
#[component]
#[allow(clippy::needless_pass_by_value)] // A prop is owned.
pub fn Points(
    pairing: Arc<Pairing>,
    /// Which machine is shown, here and by the thermometer.
    stage: RwSignal<Stage>,
    setting: StoredValue<Setting>,
) -> impl IntoView {
    let opener = Opener::new("why-points".to_owned());
    // What is open belongs to the machine that was shown.
    Effect::new(move |before: Option<Stage>| {
        let now = stage.get();
        if before.is_some_and(|before| before != now) {
            opener.close();
        }
        now
    });
    let heading = move |figure: PointFigure, name: &'static str| {
        view! { <th scope="col">{move || opener.number(setting, figure as usize, FigureId::Point(figure, stage.get()), name.to_owned())}</th> }
    };
    let has = |stage: Stage| pairing.points.iter().any(|point| point.stage == stage && point.flow.is_some());
    let any = has(Stage::AsItIs) || has(Stage::AfterChanges);
    let both = has(Stage::AfterChanges);
    let points = StoredValue::new(pairing.points.clone());
    let app = app();
    // It is of the machine as it would go to work.
    let (sharing, shares_at) = (pairing.sharing, if both { Stage::AfterChanges } else { Stage::AsItIs });
    let shares = move || sharing.filter(|_| stage.get() == shares_at);
    any.then(|| view! {
        <section aria-labelledby="points">
            <h2 id="points">"What arrives, by oil and load"</h2>
            {both.then(|| view! {
                <p class="actions" role="group" aria-label="Before or after the changes">
                    {Stage::ALL.iter().map(|&one| view! {
                        <button type="button" aria-pressed=move || (stage.get() == one).to_string()
                            on:click=move |_| stage.set(one)>{app.words().stage(one)}</button>
                    }).collect_view()}
                </p>
            })}
            <div class="scroll" tabindex="0" role="region" aria-label="The points as a table">
                <table>
                    <thead><tr>
                        <th scope="col">"Oil"</th><th scope="col">"Load"</th>
                        {heading(PointFigure::Flow, "Flow")}
                        {heading(PointFigure::PumpPressure, "At pump")}
                        {heading(PointFigure::HeadInlet, "Inlet")}
                        {heading(PointFigure::HeadOutlet, "Outlet")}
                        {heading(PointFigure::CasePressure, "Case")}
                        {heading(PointFigure::RotorSpeed, "Rotor")}
                        {heading(PointFigure::ShaftPower, "Shaft")}
                        {heading(PointFigure::Heat, "Heat")}
                    </tr></thead>
                    <tbody>{move || {
                        // Drawn anew in other units too.
                        app.units.track();
                        points.get_value().into_iter()
                            .filter(|point| point.stage == stage.get() && point.flow.is_some())
                            .map(|point| view! { <PointRow point/> }).collect_view()
                    }}</tbody>
                </table>
            </div>
            <Panel opener/>
            {move || shares().map(|sharing| view! { <p>{app.words().sharing(&sharing)}</p> })}
            <p class="quiet">"At likely figures, engine at working speed, other functions idle. A dash is what the table does not let us say."</p>
        </section>
    })
}

#[component]
fn PointRow(point: Point) -> impl IntoView {
    let words = app().words();
    let cell = |amount: Option<Amount>| amount.map_or_else(|| "–".to_owned(), |amount| words.amount(amount));
    let oil = format!("{}, {}", words.oil_state(point.oil), words.amount(point.oil_temperature));
    // Stalled, no flow passes: the inlet's pressure is what counts.
    let class = if point.load == Load::Stalled { "stalled" } else { "" };
    view! {
        <tr class=class>
            <th scope="row">{oil}</th>
            <td>{words.load(point.load)}</td>
            <td>{cell(point.flow)}</td><td>{cell(point.pump_pressure)}</td><td>{cell(point.head_inlet)}</td>
            <td>{cell(point.head_outlet)}</td><td>{cell(point.case_pressure)}</td><td>{cell(point.rotor_speed)}</td>
            <td>{cell(point.shaft_power)}</td><td>{cell(point.heat)}</td>
        </tr>
    }
}
