//! The sheet of one pairing: the sentence first, then checks, changes, operating points and cautions.

use super::attributes::Part;
use super::checks::AllChecks;
use super::circuit::{BrochureStrip, Thermometer, TooHot};
use super::drawings::{CircuitDrawing, CurveDrawing, LiftDrawing, WarmingDrawing};
use super::enquiry::Ask;
use super::handover;
use super::hazards::Hazards;
use super::loaded::Loaded;
use super::names::label;
use super::paper::Papers;
use super::path::PathToMachines;
use super::points::Points;
use super::reasoning::{Opener, Panel, PanelWithin, SettleFirst, Told};
use super::route::Route;
use super::send::Send;
use super::setting::Setting;
use super::solved::of_pairing;
use super::state::app;
use super::svg::Mark;
use super::whose_figures::WhoseFigures;
use explain::FigureId;
use fit::{Change, Pairing, Stage, Verdict};
use leptos::prelude::*;
use record::RecentEntry;
use std::sync::Arc;
use table::{Carrier, Head};

/// The screen.
#[component]
pub fn Sheet(carrier: String, head: String) -> impl IntoView {
    of_pairing(carrier, head, "Sheet", |loaded, machine, attachment| {
        view! { <Whole loaded machine attachment/> }.into_any()
    })
}

#[component]
fn Whole(loaded: Arc<Loaded>, machine: Carrier, attachment: Head) -> impl IntoView {
    let app = app();
    let pairing = app.pairing(&loaded, &machine, &attachment);
    let machine_name = label(machine.maker.as_ref(), &machine.model);
    let head_name = label(attachment.maker.as_ref(), &attachment.model);
    app.host.title(&format!("{head_name} on {machine_name}"));
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
    let (stored, told) = (StoredValue::new(pairing.clone()), RwSignal::new(pairing.clone()));
    let setting = StoredValue::new(Setting::new(&pairing, &machine, &attachment, loaded.conditions.clone()));
    let changed = pairing.changed.is_some();
    let stage = RwSignal::new(if changed { Stage::AfterChanges } else { Stage::AsItIs });
    let mountings = StoredValue::new((machine.clone(), attachment.clone()));
    let opener = Opener::new("why-sentence".to_owned());
    // For the page around an element.
    app.host.tell("verdict", pairing.to_json());
    view! {
        <p class="path">{
            let (id, name) = (machine.id.clone(), machine_name.clone());
            move || {
                // Where one attachment is asked about, its page leads nowhere else.
                let only = !app.host.is_page() && !app.shows(Part::Machines)
                    && app.host.settings.with(|settings| settings.head.is_some());
                (!only).then(|| view! {
                    {app.shows(Part::Machines).then(|| view! { <PathToMachines/>" / " })}
                    <a href=app.href(&Route::machine(id.as_str()))>{name.clone()}</a>
                })
            }
        }</p>
        <h1 tabindex="-1">{head_name}<span class="on">" on "</span>{machine_name}</h1>
        <div class="sentence" part="sentence">
            <Mark verdict/>
            <div>
                <p class="verdict">{move || app.words().verdict_of(&stored.get_value())}</p>
                <Told parts=Signal::derive(move || app.words().sentence_parts(&stored.get_value())) opener setting/>
                {pairing.warm_up.is_some().then(|| view! {
                    <Told parts=Signal::derive(move || app.words().warm_up_parts(&stored.get_value()).unwrap_or_default()) opener setting first=BEHIND/>
                })}
                <TooHot setting/>
                <WhoseFigures carriers=vec![machine.id.to_string()]/>
                {several.then(|| circuit.map(|name| view! { <p class="quiet">"By the machine's circuit “"{name}"”."</p> }))}
            </div>
        </div>
        <Panel opener/>
        <Hazards pairings=vec![pairing.clone()]/>
        <SettleFirst pairing=stored setting told/>
        {
            let pairing = pairing.clone();
            move || app.shows(Part::Papers).then(|| view! { <Papers pairing=pairing.clone()/> })
        }
        {move || app.shows(Part::Circuit).then(|| view! { <BrochureStrip setting=setting/> })}
        {
            let pairing = pairing.clone();
            move || app.shows(Part::Compare).then(|| view! { <CompareThis pairing=pairing.clone()/> })
        }
        {
            let (loaded, again) = (loaded.clone(), loaded.clone());
            view! {
                {move || app.shows(Part::Enquiry).then(|| view! { <Ask loaded=loaded.clone() pairing=told/> })}
                {move || app.shows(Part::Share).then(|| view! { <Send loaded=again.clone() pairings=vec![told.get_untracked()]/> })}
            }
        }
        {
            let pairing = pairing.clone();
            let changed = !pairing.changes.is_empty();
            move || (changed && app.shows(Part::Changes)).then(|| view! { <Changes pairing=pairing.clone() setting/> })
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
        {app.host.is_page().then(|| view! {
            <handover::OfPairing loaded=loaded.clone() machine=machine.clone() attachment=attachment.clone() pairing=pairing.clone()/>
        })}
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
                {move || app.words().cautions(&told.get()).into_iter().map(|text| view! { <li>{text}</li> }).collect_view()}
            </ul>
        </section>
        <TitleBlock loaded machine attachment/>
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
    let (back, only) = (app.href(&Route::machine(pairing.carrier.id.as_str())), app.host.only_head());
    view! {
        <p class="actions">
            <button type="button" aria-pressed=move || chosen.get().to_string() disabled=full on:click=add>
                {move || if chosen.get() { "Chosen for comparison" } else { "Choose for comparison" }}
            </button>
            {move || only.get().is_none().then(|| view! { <a class="button" href=back.clone()>"All attachments for this machine"</a> })}
        </p>
    }
}

/// The first place of what stands behind a sentence or a list.
const BEHIND: usize = 10_000;

/// What the machine must get: each change with its settings, what it is for and what it takes. A figure opens below its change.
#[component]
#[allow(clippy::needless_pass_by_value)] // A prop is owned.
fn Changes(pairing: Arc<Pairing>, setting: StoredValue<Setting>) -> impl IntoView {
    let app = app();
    let opener = Opener::new("why-changes".to_owned());
    let (cost, runner_up) = (pairing.cost.clone(), pairing.runner_up.clone());
    let certain = pairing.verdict == Verdict::CannotSay;
    let title = if certain { "What it needs, whatever else comes out" } else { "What the machine must get" };
    let (doubts, told) = (pairing.cost_without_doubts.is_some(), pairing.clone());
    let row = move |(index, change): (usize, Change)| {
        // More figures than these no change has.
        let (first, last) = (index * 10, index * 10 + 9);
        let (of, reason, change) = (FigureId::Change(change.id), change.clone(), StoredValue::new(change));
        view! {
            <li>
                <p class="name">{move || opener.pieces(setting, first, change.with_value(|change| app.words().change_title_parts(change)))}</p>
                <p>{move || app.words().change_reason(&reason)}</p>
                <p class="quiet">{move || opener.number(setting, last, of, change.with_value(|change| app.words().takes(change)))}</p>
                <PanelWithin opener from=first to=last + 1/>
            </li>
        }
    };
    view! {
        <section aria-labelledby="changes" part="changes">
            <h2 id="changes">{title}</h2>
            {doubts.then(|| view! { <p>{move || app.words().doubts(&told)}</p> })}
            <ol class="changes">{pairing.changes.iter().cloned().enumerate().map(row).collect_view()}</ol>
            <p>"Together: "<strong>{move || opener.number(setting, BEHIND, FigureId::Cost, app.words().cost(&cost))}</strong></p>
            <PanelWithin opener from=BEHIND to=BEHIND + 1/>
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

/// What this sheet is about and what it rests on, as at the foot of a drawing.
#[component]
fn TitleBlock(loaded: Arc<Loaded>, machine: Carrier, attachment: Head) -> impl IntoView {
    let date = loaded.table.date.map(|date| format!(", {date}")).unwrap_or_default();
    let checked = |date: Option<table::Date>| date.map_or_else(|| "not stated".to_owned(), |date| date.to_string());
    view! {
        <dl class="block">
            <div><dt>"Machine"</dt><dd>{label(machine.maker.as_ref(), &machine.model)}</dd></div>
            <div><dt>"Attachment"</dt><dd>{label(attachment.maker.as_ref(), &attachment.model)}</dd></div>
            <div><dt>"Figures checked"</dt><dd>{checked(machine.checked)}" / "{checked(attachment.checked)}</dd></div>
            <div><dt>"Table"</dt><dd>{loaded.table.title.clone()}{date}</dd></div>
        </dl>
    }
}
