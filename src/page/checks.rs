//! The checks of a pairing on its sheet: each with its reason, its margin drawn, what is missing, and how it was worked out.

use super::drawings::svg;
use super::reasoning::{Opener, Panel, Told};
use super::setting::Setting;
use super::state::app;
use drawing;
use explain::FigureId;
use fit::{Assumed, Check, CheckId, Outcome, Pairing, Stage};
use leptos::prelude::*;
use quantity::{Amount, Named};
use std::sync::Arc;
use table::{Carrier, Head};

/// The checks of the machine as it is, and as it would go to work.
#[component]
#[allow(clippy::needless_pass_by_value)] // A prop is owned.
pub fn AllChecks(
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
            <Told parts=Signal::derive(move || app.words().reason_parts(&stored.get_value(), stage)) opener setting/>
            {(id == CheckId::Mounting).then(|| view! {
                <p class="quiet">{move || mountings.with_value(|(machine, attachment)| {
                    let words = app.words();
                    format!("Machine: {}. Attachment: {}.", words.mountings(&machine.mounting), words.mountings(&attachment.mounting))
                })}</p>
            })}
            {move || stored.with_value(|check| {
                let words = app.words();
                let (picture, said) = drawing::margin_picture(check, &words).zip(words.margin_text(check))?;
                Some(view! { <div class="drawing of-check">{svg(picture, "plot-of-check", said)}</div> })
            })}
            <p class="figures">{move || {
                let check = stored.get_value();
                let (words, shown) = (app.words(), |amount: Option<Amount>| amount);
                let named = [("likely", shown(check.value)), ("at worst", shown(check.worst)), ("limit", shown(check.limit))];
                // The drawing says the others.
                let said = if drawing::margin(&check).is_some() { 1 } else { 3 };
                named
                    .into_iter()
                    .take(said)
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
            {opener.how(setting, FigureId::Check(id, stage), app.words().check_title(id))}
            <Panel opener/>
        </li>
    }
}
