//! Side by side: two to six attachments on one machine, the same rows, differences marked; saved under a name.

use super::PathToMachines;
use super::fits::NoMachine;
use super::load::Loaded;
use super::notice::{Notice, tell};
use super::place::Part;
use super::route::Route;
use super::share::Send;
use super::start::NoTable;
use super::state::{app, label};
use super::svg::Mark;
use super::{storage, when};
use crate::pairing::{CheckId, Pairing};
use crate::quantity::Named;
use crate::record::Saved;
use crate::table::Carrier;
use leptos::prelude::*;
use std::sync::Arc;

/// The screen.
#[component]
pub fn Compare(carrier: String, heads: Vec<String>) -> impl IntoView {
    let app = app();
    let known = app.machine(carrier.clone());
    move || {
        let Some(loaded) = app.table() else {
            return view! { <h1 tabindex="-1">"Side by side"</h1><NoTable/> }.into_any();
        };
        match known.get() {
            Some(machine) => view! { <Columns loaded machine heads=heads.clone()/> }.into_any(),
            None => view! { <NoMachine id=carrier.clone()/> }.into_any(),
        }
    }
}

#[component]
fn Columns(loaded: Arc<Loaded>, machine: Carrier, heads: Vec<String>) -> impl IntoView {
    let app = app();
    let name = label(machine.maker.as_ref(), &machine.model);
    app.place.title(&format!("Side by side on {name}"));
    let known = heads.iter().filter_map(|id| loaded.table.head(id));
    let pairings: Vec<_> =
        known.take(super::fits::MOST_COMPARED).map(|head| app.pairing(&loaded, &machine, head)).collect();
    let gone: Vec<_> = heads.iter().filter(|id| loaded.table.head(id).is_none()).cloned().collect();
    if pairings.is_empty() {
        return view! {
            <h1 tabindex="-1">"Side by side"</h1>
            <p>"None of these attachments is in the table in use."</p>
            <p><a class="button" href=app.href(&Route::machine(machine.id.as_str()))>"See what fits this machine"</a></p>
        }
        .into_any();
    }
    let ids: Vec<_> = pairings.iter().map(|p| p.head.id.to_string()).collect();
    let known = app.saved.with_untracked(|saved| {
        let same = |saved: &&Saved| {
            saved.carrier.id == machine.id.as_str() && saved.heads.iter().map(|head| &head.id).eq(ids.iter())
        };
        saved.iter().find(same).cloned()
    });
    let names: Vec<_> = pairings.iter().map(|p| p.head.model.clone()).collect();
    let stored = StoredValue::new(pairings.clone());
    view! {
        <p class="path"><PathToMachines/>" / "<a href=app.href(&Route::machine(machine.id.as_str()))>{name.clone()}</a></p>
        <h1 tabindex="-1">"Side by side on "{name.clone()}</h1>
        {(!gone.is_empty()).then(|| view! { <p class="quiet">"Not in the table in use: "{gone.join(", ")}"."</p> })}
        <div class="scroll" tabindex="0" role="region" aria-label="Comparison">
            <table class="compare">
                <thead><tr>
                    <td></td>
                    {pairings.iter().map(|p| {
                        let sheet = app.href(&Route::sheet(p.carrier.id.as_str(), p.head.id.as_str()));
                        view! { <th scope="col"><a href=sheet>{label(p.head.maker.as_ref(), &p.head.model)}</a></th> }
                    }).collect_view()}
                </tr></thead>
                <tbody>
                    <tr><th scope="row">"Verdict"</th>
                        {pairings.iter().map(|p| {
                            let verdict = p.verdict;
                            view! { <td><Mark verdict/><span class="verdict">{app.words().verdict(verdict)}</span></td> }
                        }).collect_view()}
                    </tr>
                    {move || stored.with_value(|pairings| rows(pairings))}
                </tbody>
            </table>
        </div>
        {move || stored.with_value(|pairings| {
            let pairings: Vec<&Pairing> = pairings.iter().map(AsRef::as_ref).collect();
            app.words().comparison_to_send(&pairings).total
        }).map(|total| view! { <p><strong>{total}</strong></p> })}
        <p class="quiet">"Rows that differ are marked by a bar. Checks are those of the machine as it would go to work, after the changes."</p>
        {known.as_ref().map(|saved| view! {
            <p class="quiet">"Saved as “"{saved.name.clone()}"”."</p>
            {(!saved.note.is_empty()).then(|| view! { <p class="note">{saved.note.clone()}</p> })}
        })}
        {
            let (loaded, pairings, proposal) = (loaded.clone(), pairings.clone(), format!("{name}: {}", names.join(", ")));
            move || app.shows(Part::Saved).then(|| view! {
                <SaveForm loaded=loaded.clone() proposal=proposal.clone() pairings=pairings.clone() known=known.clone()/>
            })
        }
        {move || app.shows(Part::Share).then(|| view! { <Send loaded=loaded.clone() pairings=pairings.clone()/> })}
    }
    .into_any()
}

/// Every row below the verdict.
fn rows(pairings: &[Arc<Pairing>]) -> impl IntoView + use<> {
    let words = app().words();
    let mut rows: Vec<(&'static str, Vec<String>)> = vec![
        ("Kind", pairings.iter().map(|p| words.head_kind(p.head.kind).to_owned()).collect()),
        (
            "Changes",
            pairings
                .iter()
                .map(|p| {
                    let titles: Vec<_> = p.changes.iter().map(|change| words.change_title(change)).collect();
                    if titles.is_empty() { "none".to_owned() } else { titles.join("; ") }
                })
                .collect(),
        ),
        (
            "Cost",
            pairings.iter().map(|p| if p.changes.is_empty() { "–".to_owned() } else { words.cost(&p.cost) }).collect(),
        ),
    ];
    for &id in CheckId::ALL {
        let line = |p: &Arc<Pairing>| {
            p.final_checks().iter().find(|check| check.id == id).map_or_else(|| "–".to_owned(), |c| words.check_line(c))
        };
        rows.push((words.check_title(id), pairings.iter().map(line).collect()));
    }
    rows.push((
        "Left to prove",
        pairings
            .iter()
            .map(|p| {
                let titles: Vec<_> = p.to_prove.iter().map(|id| words.check_title(*id).to_lowercase()).collect();
                if titles.is_empty() { "nothing".to_owned() } else { titles.join(", ") }
            })
            .collect(),
    ));
    rows.push((
        "Full speed from",
        pairings.iter().map(|p| p.warm_up.map_or_else(|| "–".to_owned(), |amount| words.amount(amount))).collect(),
    ));
    rows.into_iter()
        .map(|(title, cells)| {
            let differs = cells.windows(2).any(|pair| pair[0] != pair[1]);
            view! {
                <tr class:differs=differs>
                    <th scope="row">{title}</th>
                    {cells.into_iter().map(|cell| view! { <td>{cell}</td> }).collect_view()}
                </tr>
            }
        })
        .collect_view()
}

/// Saves the comparison under a name.
#[component]
fn SaveForm(
    loaded: Arc<Loaded>,
    proposal: String,
    pairings: Vec<Arc<Pairing>>,
    /// The same comparison as it was saved before: it is saved anew under its id, with its notes.
    known: Option<Saved>,
) -> impl IntoView {
    let app = app();
    let name = RwSignal::new(known.as_ref().map_or(proposal, |saved| saved.name.clone()));
    let done = RwSignal::new(String::new());
    let again = known.is_some();
    // What is saved a second time takes the place of the first.
    let known = StoredValue::new(known);
    let save = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        let of: Vec<&Pairing> = pairings.iter().map(AsRef::as_ref).collect();
        done.set(String::new());
        let before = known.get_value();
        let id = before.as_ref().map_or_else(when::fresh_id, |saved| saved.id.clone());
        match Saved::new(id, &name.get_untracked(), when::now(), (&loaded.table, &loaded.mark), &of) {
            Some(saved) => {
                let note = before.map(|saved| saved.note).unwrap_or_default();
                let saved = Saved { note, ..saved };
                // A machine that came in a link is kept with it: without that the comparison would be worth nothing.
                let came = app
                    .visiting
                    .with_untracked(|all| all.iter().find(|plate| plate.carrier_id() == saved.carrier.id).cloned());
                let there = came.is_none_or(|plate| {
                    app.own.with_untracked(|own| own.iter().any(|known| known.id == plate.id))
                        || storage::save(app, &plate)
                });
                if there && storage::save(app, &saved) {
                    // Where the eye is, not at the top of the page.
                    app.place.tell("saved", saved.encode());
                    done.set(format!("Saved as “{}” in this browser.", saved.name));
                    known.set_value(Some(saved));
                }
            }
            None => tell(app, Notice::fault("Give the comparison a name, then save it.".to_owned())),
        }
    };
    view! {
        <form class="save" on:submit=save>
            <label for="name">"Save under a name"</label>
            <input id="name" type="text" maxlength=crate::record::LONGEST_NAME.to_string() prop:value=name
                on:input=move |event| name.set(event_target_value(&event))/>
            <button type="submit" class="strong">{if again { "Save it anew" } else { "Save" }}</button>
            <p role="status">{done}</p>
        </form>
    }
}
