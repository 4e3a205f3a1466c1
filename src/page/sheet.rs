//! The sheet of one pairing: the sentence first, then checks, changes, operating points and cautions.

use super::PathToMachines;
use super::circuit::{BrochureStrip, Setting, Thermometer, TooHot};
use super::drawings::{CircuitDrawing, CurveDrawing, LiftDrawing, WarmingDrawing};
use super::enquiry::Ask;
use super::fits::NoMachine;
use super::load::Loaded;
use super::paper::Papers;
use super::place::Part;
use super::reasoning::{Opener, Panel, SettleFirst, Told, Whence};
use super::route::Route;
use super::share::Send;
use super::solved::Solved;
use super::start::NoTable;
use super::state::{app, label};
use super::svg::{Mark, margin_line};
use crate::pairing::reasoning::PointFigure;
use crate::pairing::{Assumed, Change, Check, CheckId, Load, Outcome, Pairing, Point, Stage};
use crate::quantity::{Amount, Named};
use crate::record::RecentEntry;
use crate::table::{Carrier, Head};
use leptos::prelude::*;
use std::sync::Arc;

/// The screen.
#[component]
pub fn Sheet(carrier: String, head: String) -> impl IntoView {
    of_pairing(carrier, head, "Sheet", |loaded, machine, attachment| {
        view! { <Whole loaded machine attachment/> }.into_any()
    })
}

/// A screen about one attachment on one machine; or what is to be done where the table lacks one of them, or is not there.
pub fn of_pairing(
    carrier: String,
    head: String,
    title: &'static str,
    show: impl Fn(Arc<Loaded>, Carrier, Head) -> AnyView + Send + Sync + 'static,
) -> impl IntoView {
    let app = app();
    let show = Arc::new(show);
    let machine = app.machine(carrier.clone());
    move || {
        let Some(loaded) = app.table() else {
            return view! { <h1 tabindex="-1">{title}</h1><NoTable/> }.into_any();
        };
        let Some(machine) = machine.get() else {
            return view! { <NoMachine id=carrier.clone()/> }.into_any();
        };
        match loaded.table.head(&head).cloned() {
            Some(attachment) => {
                let (show, pairs) = (show.clone(), vec![(machine.clone(), attachment.clone())]);
                let heading = label(attachment.maker.as_ref(), &attachment.model);
                let of = loaded.clone();
                view! {
                    <Solved loaded pairs title=heading show=move || show(of.clone(), machine.clone(), attachment.clone())/>
                }
                .into_any()
            }
            None => view! {
                <h1 tabindex="-1">"Not in this table"</h1>
                <p>"The table in use has no attachment “"{head.clone()}"”."</p>
                <p><a class="button" href=app.href(&Route::machine(&carrier))>"See what fits this machine"</a></p>
            }
            .into_any(),
        }
    }
}

#[component]
fn Whole(loaded: Arc<Loaded>, machine: Carrier, attachment: Head) -> impl IntoView {
    let app = app();
    let pairing = app.pairing(&loaded, &machine, &attachment);
    let machine_name = label(machine.maker.as_ref(), &machine.model);
    let head_name = label(attachment.maker.as_ref(), &attachment.model);
    app.place.title(&format!("{head_name} on {machine_name}"));
    app.note_recent(RecentEntry {
        carrier: machine.id.to_string(),
        head: Some(attachment.id.to_string()),
        name: format!("{head_name} on {machine_name}"),
    });
    let verdict = pairing.verdict;
    let circuit = machine
        .circuits
        .iter()
        .find(|circuit| pairing.circuit.as_ref() == Some(&circuit.id))
        .map(|circuit| circuit.name.clone().unwrap_or_else(|| circuit.id.to_string()));
    let several = machine.circuits.len() > 1;
    let stored = StoredValue::new(pairing.clone());
    let setting = StoredValue::new(Setting::new(&pairing, &machine, &attachment, loaded.conditions.clone()));
    let changed = pairing.changed.is_some();
    let stage = RwSignal::new(if changed { Stage::AfterChanges } else { Stage::AsItIs });
    let mountings = StoredValue::new((machine.clone(), attachment.clone()));
    let opener = Opener::new("why-sentence".to_owned());
    // For the page around an element.
    app.place.tell("verdict", pairing.to_json());
    view! {
        <p class="path"><PathToMachines/>" / "<a href=app.href(&Route::machine(machine.id.as_str()))>{machine_name.clone()}</a></p>
        <h1 tabindex="-1">{head_name}<span class="on">" on "</span>{machine_name}</h1>
        <div class="sentence" part="sentence">
            <Mark verdict/>
            <div>
                <p class="verdict">{move || app.words().verdict(verdict)}</p>
                <Told parts=Signal::derive(move || app.words().sentence_parts(&stored.get_value())) opener/>
                {move || app.words().warm_up(&stored.get_value()).map(|text| view! { <p>{text}</p> })}
                <TooHot setting/>
                {several.then(|| circuit.map(|name| view! { <p class="quiet">"By the machine's circuit “"{name}"”."</p> }))}
            </div>
        </div>
        <Panel opener setting/>
        <SettleFirst pairing=stored setting/>
        <Papers pairing=pairing.clone()/>
        {move || app.shows(Part::Circuit).then(|| view! { <BrochureStrip setting=setting/> })}
        {
            let pairing = pairing.clone();
            move || app.shows(Part::Compare).then(|| view! { <CompareThis pairing=pairing.clone()/> })
        }
        {
            let (loaded, pairing) = (loaded.clone(), pairing.clone());
            let (again, all) = (loaded.clone(), vec![pairing.clone()]);
            view! {
                {move || app.shows(Part::Enquiry).then(|| view! { <Ask loaded=loaded.clone() pairing=pairing.clone()/> })}
                {move || app.shows(Part::Share).then(|| view! { <Send loaded=again.clone() pairings=all.clone()/> })}
            }
        }
        {
            let pairing = pairing.clone();
            let changed = !pairing.changes.is_empty();
            move || (changed && app.shows(Part::Changes)).then(|| view! { <Changes pairing=pairing.clone()/> })
        }
        {move || app.shows(Part::Circuit).then(|| view! {
            <CircuitDrawing pairing=stored setting stage/>
            <CurveDrawing setting stage/>
        })}
        {
            let pairing = pairing.clone();
            move || app.shows(Part::Checks).then(|| view! { <AllChecks pairing=pairing.clone() mountings setting/> })
        }
        <ToProve pairing=pairing.clone()/>
        <Questions pairing=pairing.clone()/>
        {
            let pairing = pairing.clone();
            move || app.shows(Part::Circuit).then(|| view! {
                <Thermometer setting stage/>
                <WarmingDrawing setting stage/>
                <LiftDrawing setting stage/>
                <Points pairing=pairing.clone() stage setting/>
            })
        }
        <Remarks pairing=pairing.clone()/>
        <section aria-labelledby="cautions">
            <h2 id="cautions">"Cautions"</h2>
            <ul class="cautions">
                {app.words().cautions(&pairing).into_iter().map(|text| view! { <li>{text}</li> }).collect_view()}
            </ul>
        </section>
        <TitleBlock loaded machine attachment/>
    }
}

/// The checks of the machine as it is, and as it would go to work.
#[component]
fn AllChecks(
    pairing: Arc<Pairing>,
    mountings: StoredValue<(Carrier, Head)>,
    setting: StoredValue<Setting>,
) -> impl IntoView {
    view! {
        <Checks title="Checks today" id="checks-today" checks=pairing.checks.clone() ranges=pairing.assumptions.clone() mountings
            stage=Stage::AsItIs setting/>
        {(!pairing.checks_after.is_empty()).then(|| view! {
            <Checks title="Checks on the changed machine, solved again" id="checks-after" checks=pairing.checks_after.clone()
                ranges=pairing.assumptions.clone() mountings stage=Stage::AfterChanges setting/>
        })}
    }
}

/// Adds this attachment to the comparison.
#[component]
fn CompareThis(pairing: Arc<Pairing>) -> impl IntoView {
    let app = app();
    let pair = (pairing.carrier.id.to_string(), pairing.head.id.to_string());
    let chosen = {
        let pair = pair.clone();
        Memo::new(move |_| app.is_ticked(&pair))
    };
    let full = move || !chosen.get() && !app.may_tick();
    let add = move |_| app.turn_tick(&pair);
    let (back, only) = (app.href(&Route::machine(pairing.carrier.id.as_str())), app.place.only_head());
    view! {
        <p class="actions">
            <button type="button" aria-pressed=move || chosen.get().to_string() disabled=full on:click=add>
                {move || if chosen.get() { "Chosen for comparison" } else { "Choose for comparison" }}
            </button>
            {move || only.get().is_none().then(|| view! { <a class="button" href=back.clone()>"All attachments for this machine"</a> })}
        </p>
    }
}

#[component]
fn Changes(pairing: Arc<Pairing>) -> impl IntoView {
    let app = app();
    let (cost, runner_up) = (pairing.cost.clone(), pairing.runner_up.clone());
    let row = move |change: Change| {
        let (title, time, why) = (change.clone(), change.clone(), change);
        view! {
            <li>
                <p class="name">{move || app.words().change_title(&title)}</p>
                <p>{move || app.words().change_reason(&why)}</p>
                <p class="quiet">{move || {
                    let words = app.words();
                    let price = time.price.as_ref().map(|price| format!(" · {}", words.price(price)));
                    format!("{}{}", words.duration(time.minutes), price.unwrap_or_default())
                }}</p>
            </li>
        }
    };
    view! {
        <section aria-labelledby="changes" part="changes">
            <h2 id="changes">"What the machine must get"</h2>
            <ol class="changes">{pairing.changes.iter().cloned().map(row).collect_view()}</ol>
            <p>"Together: "<strong>{move || app.words().cost(&cost)}</strong></p>
            {runner_up.map(|second| view! { <p class="quiet">{move || app.words().runner_up(&second)}</p> })}
        </section>
    }
}

/// What the hand-over must prove: open without blocking, or met on usual figures only.
#[component]
fn ToProve(pairing: Arc<Pairing>) -> impl IntoView {
    let app = app();
    let proven: Vec<_> =
        pairing.final_checks().iter().filter(|check| pairing.to_prove.contains(&check.id)).cloned().collect();
    (!proven.is_empty()).then(|| view! {
        <section aria-labelledby="to-prove">
            <h2 id="to-prove">"To prove at the hand-over"</h2>
            <ul class="cautions">
                {proven.into_iter().map(|check| view! {
                    <li>{move || format!("{}: {}", app.words().check_title(check.id), app.words().check_line(&check))}</li>
                }).collect_view()}
            </ul>
        </section>
    })
}

/// What only a maker may decide.
#[component]
fn Questions(pairing: Arc<Pairing>) -> impl IntoView {
    let words = app().words();
    (!pairing.questions.is_empty()).then(|| {
        view! {
            <section aria-labelledby="questions">
                <h2 id="questions">"To ask the makers"</h2>
                <ul class="cautions">
                    {pairing.questions.iter().map(|question| view! { <li>{words.question(*question)}</li> }).collect_view()}
                </ul>
            </section>
        }
    })
}

/// What is told without being judged.
#[component]
fn Remarks(pairing: Arc<Pairing>) -> impl IntoView {
    let app = app();
    (!pairing.remarks.is_empty()).then(|| {
        view! {
            <section aria-labelledby="remarks">
                <h2 id="remarks">"Remarks"</h2>
                <ul class="cautions">
                    {pairing.remarks.iter().cloned().map(|remark| view! {
                        <li>{move || app.words().remark(&remark)}</li>
                    }).collect_view()}
                </ul>
            </section>
        }
    })
}

/// The checks of one stage: those that fail or are open first, then those met with their figures; those met that have none
/// are folded.
#[component]
fn Checks(
    title: &'static str,
    id: &'static str,
    checks: Vec<Check>,
    ranges: Vec<Assumed>,
    mountings: StoredValue<(Carrier, Head)>,
    stage: Stage,
    setting: StoredValue<Setting>,
) -> impl IntoView {
    let app = app();
    let mut checks = checks;
    checks.sort_by_key(|check| match check.outcome {
        Outcome::NotMet => 0,
        Outcome::NotKnown => 1,
        Outcome::Met => 2,
    });
    let has_figures = |check: &Check| check.value.is_some() || check.worst.is_some() || check.limit.is_some();
    let (shown, folded): (Vec<_>, Vec<_>) =
        checks.into_iter().partition(|check| check.outcome != Outcome::Met || has_figures(check));
    let list = move |checks: Vec<Check>| {
        let row = |check| view! { <CheckRow check ranges=ranges.clone() mountings stage setting/> };
        view! { <ul class="checks">{checks.into_iter().map(row).collect_view()}</ul> }
    };
    view! {
        <section aria-labelledby=id part="checks">
            <h2 id=id>{title}</h2>
            <p class="quiet">{move || app.words().checks_hold()}</p>
            {list(shown)}
            {(!folded.is_empty()).then(|| view! { <Folded summary=format!("{} more met", folded.len()) inside=list(folded)/> })}
        </section>
    }
}

/// A part that is folded on the screen and open on paper.
#[component]
fn Folded(summary: String, inside: impl IntoView) -> impl IntoView {
    let part = NodeRef::<leptos::html::Details>::new();
    // Whether the print opened it, so that it is folded again behind it.
    let by_print = StoredValue::new(false);
    let before = window_event_listener_untyped("beforeprint", move |_| {
        if let Some(part) = part.get_untracked().filter(|part| !part.has_attribute("open")) {
            by_print.set_value(part.set_attribute("open", "").is_ok());
        }
    });
    let after = window_event_listener_untyped("afterprint", move |_| {
        if let Some(part) = part.get_untracked().filter(|_| by_print.get_value()) {
            by_print.set_value(part.remove_attribute("open").is_err());
        }
    });
    on_cleanup(move || {
        before.remove();
        after.remove();
    });
    view! {
        <details class="more" node_ref=part>
            <summary>{summary}</summary>
            {inside}
        </details>
    }
}

#[component]
fn CheckRow(
    check: Check,
    ranges: Vec<Assumed>,
    mountings: StoredValue<(Carrier, Head)>,
    stage: Stage,
    setting: StoredValue<Setting>,
) -> impl IntoView {
    let app = app();
    let opener = Opener::new(format!("why-{}-{}", check.id.name(), stage.name()));
    let (id, outcome, class) = (check.id, check.outcome, check.class);
    let stored = StoredValue::new(check.clone());
    // The range behind each, from the pairing.
    let assumed: Vec<_> = ranges.iter().filter(|range| check.assumed.contains(&range.id)).copied().collect();
    let missing = check.missing.clone();
    view! {
        <li class=format!("check {}", outcome.name())>
            <h3>{move || app.words().check_title(id)}
                <span class="outcome">{move || app.words().outcome(outcome)}</span></h3>
            <Told parts=Signal::derive(move || app.words().reason_parts(&stored.get_value(), stage)) opener/>
            {(id == CheckId::Mounting).then(|| view! {
                <p class="quiet">{move || mountings.with_value(|(machine, attachment)| {
                    let words = app.words();
                    format!("Machine: {}. Attachment: {}.", words.mountings(&machine.mounting), words.mountings(&attachment.mounting))
                })}</p>
            })}
            {margin_line(&check)}
            <p class="figures">{move || {
                let check = stored.get_value();
                let (words, shown) = (app.words(), |amount: Option<Amount>| amount);
                let named = [("likely", shown(check.value)), ("at worst", shown(check.worst)), ("limit", shown(check.limit))];
                named
                    .into_iter()
                    .filter_map(|(name, amount)| Some((name, words.amount(amount?))))
                    .map(|(name, amount)| view! { <span><span class="quiet">{name}" "</span>{amount}</span> })
                    .collect_view()
            }}
            {move || stored.with_value(|check| check.margin.map(|margin| view! { <span>{app.words().margin(margin, check.bound)}</span> }))}</p>
            {(!missing.is_empty()).then(|| view! {
                <div class="missing">
                    <p class="name">"To find out"</p>
                    <ul>
                        {missing.into_iter().map(|fact| view! {
                            <li>{move || {
                                let text = app.words().missing(&fact);
                                let holds = text.holds.map(|holds| format!(" ({holds})")).unwrap_or_default();
                                format!("{}{holds}: {}", text.what, text.where_to_find)
                            }}</li>
                        }).collect_view()}
                    </ul>
                </div>
            })}
            {(!assumed.is_empty()).then(|| view! {
                <details class="quiet">
                    <summary>{match assumed.len() {
                        1 => "Rests on 1 usual figure that nobody stated".to_owned(),
                        count => format!("Rests on {count} usual figures that nobody stated"),
                    }}</summary>
                    <ul>{move || assumed.iter().map(|assumed| view! { <li>{app.words().assumed(assumed)}</li> }).collect_view()}</ul>
                </details>
            })}
            {(outcome != Outcome::Met).then(|| view! { <p class="quiet">"At risk: "{app.words().class(class)}"."</p> })}
            {opener.how(Whence::Check(id, stage), app.words().check_title(id))}
            <Panel opener setting/>
        </li>
    }
}

/// The solved operating points, before and after.
#[component]
fn Points(
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
        view! { <th scope="col">{move || opener.number(figure as usize, Whence::Point(figure, stage.get()), name.to_owned())}</th> }
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
            <Panel opener setting/>
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

/// What this sheet is about and what it rests on, as at the foot of a drawing.
#[component]
fn TitleBlock(loaded: Arc<Loaded>, machine: Carrier, attachment: Head) -> impl IntoView {
    let date = loaded.table.date.map(|date| format!(", {date}")).unwrap_or_default();
    let checked =
        |date: Option<crate::table::Date>| date.map_or_else(|| "not stated".to_owned(), |date| date.to_string());
    view! {
        <dl class="block">
            <div><dt>"Machine"</dt><dd>{label(machine.maker.as_ref(), &machine.model)}</dd></div>
            <div><dt>"Attachment"</dt><dd>{label(attachment.maker.as_ref(), &attachment.model)}</dd></div>
            <div><dt>"Figures checked"</dt><dd>{checked(machine.checked)}" / "{checked(attachment.checked)}</dd></div>
            <div><dt>"Table"</dt><dd>{loaded.table.title.clone()}{date}</dd></div>
        </dl>
    }
}
