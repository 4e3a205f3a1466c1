//! Side by side: two to six attachments on one machine, the same rows, differences marked; saved under a name.

use super::attributes::Part;
use super::hazards::Hazards;
use super::loaded::Loaded;
use super::missing::NoMachine;
use super::missing::NoTable;
use super::names::label;
use super::notice::Notice;
use super::path::PathToMachines;
use super::reasoning::{Opener, Panel};
use super::route::{Pair, Route};
use super::send::Send;
use super::setting::Setting;
use super::solved::Solved;
use super::state::{MOST_COMPARED, app};
use super::svg::{Mark, margin_line};
use super::whose_figures::WhoseFigures;
use super::{storage, time};
use explain::FigureId;
use fit::{Check, CheckId, Outcome, Pairing, Stage, Verdict};
use leptos::prelude::*;
use quantity::Named;
use record::Saved;
use std::sync::Arc;
use table::Carrier;
use wording::Part as Piece;

/// The screen.
#[component]
pub fn Compare(pairs: Vec<Pair>) -> impl IntoView {
    let app = app();
    let ids: Vec<_> = pairs.iter().map(|(carrier, _)| carrier.clone()).collect();
    // Drawn anew only when one of these very machines is another.
    let machines = Memo::new(move |_| {
        let loaded = app.table()?;
        Some(ids.iter().map(|id| app.carrier(&loaded, id)).collect::<Vec<_>>())
    });
    move || {
        let (Some(loaded), Some(machines)) = (app.table(), machines.get()) else {
            return view! { <h1 tabindex="-1">"Side by side"</h1><NoTable/> }.into_any();
        };
        let known: Vec<_> = pairs.iter().cloned().zip(machines).collect();
        match known.iter().find(|(_, machine)| machine.is_some()) {
            Some(_) => {
                let both = |((_, head), machine): &(Pair, Option<Carrier>)| {
                    Some((machine.clone()?, loaded.table.head(head)?.clone()))
                };
                let pairs = known.iter().filter_map(both).take(MOST_COMPARED).collect();
                let of = loaded.clone();
                view! {
                    <Solved loaded pairs title="Side by side"
                        show=move || view! { <Columns loaded=of.clone() known=known.clone()/> }.into_any()/>
                }
                .into_any()
            }
            None => view! { <NoMachine id=pairs.first().map(|(carrier, _)| carrier.clone()).unwrap_or_default()/> }
                .into_any(),
        }
    }
}

#[component]
fn Columns(loaded: Arc<Loaded>, known: Vec<(Pair, Option<Carrier>)>) -> impl IntoView {
    let app = app();
    let found = |(pair, machine): &(Pair, Option<Carrier>)| {
        let attachment = loaded.table.head(&pair.1)?;
        Some(app.pairing(&loaded, machine.as_ref()?, attachment))
    };
    let pairings: Vec<_> = known.iter().filter_map(found).take(MOST_COMPARED).collect();
    let gone: Vec<_> =
        known
            .iter()
            .filter_map(|((carrier, head), machine)| {
                if machine.is_none() { Some(carrier) } else { loaded.table.head(head).is_none().then_some(head) }
            })
            .cloned()
            .collect();
    let Some(first) = pairings.first().cloned() else {
        let machine = known.iter().find_map(|((carrier, _), machine)| machine.as_ref().map(|_| carrier.clone()));
        return view! {
            <h1 tabindex="-1">"Side by side"</h1>
            <p>"None of these attachments is in the table in use."</p>
            <p><a class="button" href=app.href(&Route::machine(&machine.unwrap_or_default()))>"See what fits this machine"</a></p>
        }
        .into_any();
    };
    // On one machine the machine is in the heading; else in each column.
    let one = pairings.iter().all(|pairing| pairing.carrier.id == first.carrier.id);
    let machine = label(first.carrier.maker.as_ref(), &first.carrier.model);
    let heading = if one { format!("Side by side on {machine}") } else { "Side by side".to_owned() };
    app.host.title(&heading);
    let pairs: Vec<Pair> = pairings.iter().map(|p| (p.carrier.id.to_string(), p.head.id.to_string())).collect();
    let kept = app.saved.with_untracked(|saved| {
        let of = pairs.iter().map(|(carrier, head)| (carrier.as_str(), head.as_str()));
        saved.iter().find(|saved| saved.pairs().eq(of.clone())).cloned()
    });
    let mut names: Vec<_> = pairings.iter().map(|p| p.head.model.clone()).collect();
    names.dedup();
    let proposal = if one {
        format!("{machine}: {}", names.join(", "))
    } else {
        let machines: Vec<_> = pairings.iter().map(|p| p.carrier.model.clone()).collect();
        format!("{} on {}", names.join(", "), machines.join(", "))
    };
    let of_heads = known.iter().filter_map(|((_, head), machine)| Some((machine.as_ref()?, loaded.table.head(head)?)));
    let settings = pairings.iter().zip(of_heads).map(|(pairing, (machine, attachment))| {
        StoredValue::new(Setting::new(pairing, machine, attachment, loaded.conditions.clone()))
    });
    let columns =
        Columned { settings: StoredValue::new(settings.collect()), opener: Opener::new("why-compared".to_owned()) };
    let stored = StoredValue::new(pairings.clone());
    let differing = RwSignal::new(false);
    // What is open may stand in a row that goes.
    let only = move |event| {
        columns.opener.close();
        differing.set(event_target_checked(&event));
    };
    view! {
        <p class="path"><PathToMachines/>
            {one.then(|| view! { " / "<a href=app.href(&Route::machine(first.carrier.id.as_str()))>{machine.clone()}</a> })}</p>
        <h1 tabindex="-1">{heading}</h1>
        <WhoseFigures carriers=pairs.iter().map(|(carrier, _)| carrier.clone()).collect()/>
        {(!gone.is_empty()).then(|| view! { <p class="quiet">"Not in the table in use: "{gone.join(", ")}"."</p> })}
        {(pairings.len() == 1).then(|| view! { <p>"One stands by itself. Add another to compare."</p> })}
        {(pairings.len() > 1).then(|| view! {
            <label class="check-line no-print">
                <input type="checkbox" prop:checked=differing on:change=only/>
                "Only what differs"
            </label>
        })}
        <Hazards pairings=pairings.clone()/>
        <div class="scroll" tabindex="0" role="region" aria-label="Comparison">
            <table class="compare">
                <thead>
                    <tr>
                        <td></td>
                        {pairings.iter().map(|p| {
                            let sheet = app.href(&Route::sheet(p.carrier.id.as_str(), p.head.id.as_str()));
                            let others = app.is_somebody_elses(p.carrier.id.as_str());
                            view! { <th scope="col">
                                <a href=sheet>{label(p.head.maker.as_ref(), &p.head.model)}
                                    {(!one).then(|| view! { <span class="on">" on "{label(p.carrier.maker.as_ref(), &p.carrier.model)}</span> })}</a>
                                {(!one && others).then(|| view! { <span class="on">"figures from a link"</span> })}
                            </th> }
                        }).collect_view()}
                    </tr>
                </thead>
                <tbody>
                    <tr><th scope="row">"Verdict"</th>
                        {pairings.iter().map(|p| {
                            let verdict = p.verdict;
                            view! { <td><Mark verdict/><span class="verdict">{app.words().verdict_of(p)}</span></td> }
                        }).collect_view()}
                    </tr>
                    {move || stored.with_value(|pairings| rows(pairings, columns, differing.get()))}
                </tbody>
                <tfoot>
                    <tr>
                        <th scope="row">"In all"</th>
                        {move || stored.with_value(|pairings| pairings.iter().enumerate().map(|(column, p)| {
                            view! { <td><strong>{columns.pieces(IN_ALL, column, 0, app.words().takes_in_all_parts(p))}</strong></td> }
                        }).collect_view())}
                    </tr>
                    {columns.panel_of(IN_ALL)}
                    <tr class="no-print">
                        <td></td>
                        {pairings.iter().map(|p| view! { <td><TakeOut pairing=p.clone() pairs=pairs.clone()/></td> }).collect_view()}
                    </tr>
                </tfoot>
            </table>
        </div>
        {move || stored.with_value(|pairings| {
            let pairings: Vec<&Pairing> = pairings.iter().map(AsRef::as_ref).collect();
            app.words().comparison_to_send(&pairings).totals
        }).into_iter().map(|total| view! { <p><strong>{total}</strong></p> }).collect_view()}
        <p class="quiet">"Rows that differ are marked by a bar. Checks are those of the machine as it would go to work, after the changes."</p>
        {(pairings.len() < MOST_COMPARED).then(|| view! { <AddMore pairs=pairs.clone() first=first.clone()/> })}
        {kept.as_ref().map(|saved| view! {
            <p class="quiet">"Saved as “"{saved.name.clone()}"”."</p>
            {(!saved.note.is_empty()).then(|| view! { <p class="note">{saved.note.clone()}</p> })}
        })}
        {
            let (loaded, pairings) = (loaded.clone(), pairings.clone());
            move || app.shows(Part::Saved).then(|| view! {
                <SaveForm loaded=loaded.clone() proposal=proposal.clone() pairings=pairings.clone() known=kept.clone()/>
            })
        }
        {move || app.shows(Part::Share).then(|| view! { <Send loaded=loaded.clone() pairings=pairings.clone()/> })}
    }
    .into_any()
}

/// Takes one out of the comparison.
#[component]
fn TakeOut(pairing: Arc<Pairing>, pairs: Vec<Pair>) -> impl IntoView {
    let app = app();
    let name = label(pairing.head.maker.as_ref(), &pairing.head.model);
    let this = (pairing.carrier.id.to_string(), pairing.head.id.to_string());
    let take_out = move |_| {
        let mut left = pairs.clone();
        left.retain(|pair| *pair != this);
        app.ticked.set(left.clone());
        app.go(if left.is_empty() { Route::machine(&this.0) } else { Route::compare(&left) });
    };
    view! { <button type="button" class="quiet" on:click=take_out>"Take out"<span class="unseen">" "{name}</span></button> }
}

/// Leads to where one more can be chosen; what is here stays chosen.
#[component]
fn AddMore(pairs: Vec<Pair>, first: Arc<Pairing>) -> impl IntoView {
    let app = app();
    let machine = label(first.carrier.maker.as_ref(), &first.carrier.model);
    let attachment = label(first.head.maker.as_ref(), &first.head.model);
    let pairs = StoredValue::new(pairs);
    let choose = move |route: Route| {
        move |_| {
            app.ticked.set(pairs.get_value());
            app.go(route.clone());
        }
    };
    view! {
        <p class="actions no-print">
            <button type="button" on:click=choose(Route::machine(first.carrier.id.as_str()))>"Add an attachment on "{machine}</button>
            {move || app.shows(Part::Machines).then(|| view! {
                <button type="button" on:click=choose(Route::attachment(first.head.id.as_str()))>"Add a machine for "{attachment.clone()}</button>
            })}
        </p>
    }
}

/// The number of the last row among all, for the places of its figures.
const IN_ALL: usize = 999;

/// The columns of the table with what each is about, and where their figures open: one at a time, below its row.
#[derive(Clone, Copy)]
struct Columned {
    settings: StoredValue<Vec<StoredValue<Setting>>>,
    opener: Opener,
}

impl Columned {
    /// Places of a row, of a column in it.
    const ROW: usize = 1000;
    const COLUMN: usize = 100;

    /// Pieces in a cell, whose figures open, in places of the cell from `first` on.
    fn pieces(self, row: usize, column: usize, first: usize, parts: Vec<Piece>) -> AnyView {
        match self.settings.with_value(|settings| settings.get(column).copied()) {
            Some(setting) => self.opener.pieces(setting, row * Self::ROW + column * Self::COLUMN + first, parts),
            None => ().into_any(),
        }
    }

    /// The row below a row, there only while one of its figures is open.
    fn panel_of(self, row: usize) -> impl IntoView {
        let (opener, from) = (self.opener, row * Self::ROW);
        let here = Memo::new(move |_| opener.is_within(from, from + Self::ROW));
        let columns = self.settings.with_value(Vec::len) + 1;
        move || here.get().then(|| view! { <tr class="opened"><td colspan=columns><Panel opener/></td></tr> })
    }
}

/// What stands in a cell.
#[derive(Clone, PartialEq)]
enum Cell {
    Text(String),
    Figure(Vec<Piece>),
    List(Vec<Vec<Piece>>),
    Check(Vec<Piece>, Option<Check>),
}

impl Cell {
    /// What it says, line by line: by this cells differ.
    fn said(&self) -> Vec<String> {
        let whole = |parts: &Vec<Piece>| parts.iter().map(Piece::text).collect::<String>();
        match self {
            Self::Text(text) => vec![text.clone()],
            Self::Figure(parts) | Self::Check(parts, _) => vec![whole(parts)],
            Self::List(all) => all.iter().map(whole).collect(),
        }
    }
}

/// Every row below the verdict; only those that differ, when asked.
fn rows(pairings: &[Arc<Pairing>], columns: Columned, only_differing: bool) -> impl IntoView + use<> {
    let words = app().words();
    let cells = |cell: &dyn Fn(&Pairing) -> Cell| pairings.iter().map(|p| cell(p)).collect::<Vec<_>>();
    let mut rows: Vec<(&'static str, Vec<Cell>)> = vec![
        ("Kind", cells(&|p| Cell::Text(words.head_kind(p.head.kind).to_owned()))),
        (
            "Changes",
            cells(&|p| match p.changes.as_slice() {
                [] if p.verdict == Verdict::CannotSay => Cell::Text("not known yet".to_owned()),
                [] => Cell::Text("none".to_owned()),
                changes => Cell::List(changes.iter().map(|change| words.change_title_parts(change)).collect()),
            }),
        ),
        (
            "Cost",
            cells(&|p| {
                if p.changes.is_empty() {
                    return Cell::Text("–".to_owned());
                }
                let certain = if p.verdict == Verdict::CannotSay { " for certain" } else { "" };
                let cost = Piece::Figure { text: words.cost(&p.cost), of: FigureId::Cost };
                Cell::Figure(vec![cost, Piece::Text(certain.to_owned())])
            }),
        ),
    ];
    for &id in CheckId::ALL {
        let check = |p: &Pairing| {
            let stage = if p.checks_after.is_empty() { Stage::AsItIs } else { Stage::AfterChanges };
            match p.final_check(id) {
                Some(check) => Cell::Check(words.check_line_parts(check, stage), Some(check.clone())),
                None => Cell::Text("–".to_owned()),
            }
        };
        rows.push((words.check_title(id), cells(&check)));
    }
    rows.push((
        "Left to prove",
        cells(&|p| {
            let titles: Vec<_> = p.to_prove.iter().map(|id| words.check_title(*id).to_lowercase()).collect();
            Cell::Text(if titles.is_empty() { "nothing".to_owned() } else { titles.join(", ") })
        }),
    ));
    rows.push(("Full speed from", cells(&|p| Cell::Figure(words.full_speed_from(p)))));
    rows.into_iter()
        .enumerate()
        .map(|(row, (title, cells))| (row, title, cells.windows(2).any(|pair| pair[0].said() != pair[1].said()), cells))
        .filter(|(_, _, differs, _)| *differs || !only_differing)
        .map(|(row, title, differs, cells)| {
            let shown = move |(column, cell)| view! { <td>{shown(columns, row, column, cell)}</td> };
            view! {
                <tr class:differs=differs>
                    <th scope="row">{title}{differs.then(|| view! { <span class="unseen">", differs"</span> })}</th>
                    {cells.into_iter().enumerate().map(shown).collect_view()}
                </tr>
                {columns.panel_of(row)}
            }
        })
        .collect_view()
}

fn shown(columns: Columned, row: usize, column: usize, cell: Cell) -> AnyView {
    match cell {
        Cell::Text(text) => text.into_any(),
        Cell::Figure(parts) => view! { <span>{columns.pieces(row, column, 0, parts)}</span> }.into_any(),
        Cell::List(all) => {
            let mut first = 0;
            let line = |parts: Vec<Piece>| {
                let pieces = parts.len();
                let line = columns.pieces(row, column, first, parts);
                first += pieces;
                view! { <li>{line}</li> }
            };
            view! { <ol>{all.into_iter().map(line).collect_view()}</ol> }.into_any()
        }
        Cell::Check(parts, check) => {
            let drawn = check.as_ref().filter(|check| check.outcome != Outcome::NotKnown).map(margin_line);
            let class = check.map_or("", |check| check.outcome.name());
            view! { <span class=class>{columns.pieces(row, column, 0, parts)}</span>{drawn} }.into_any()
        }
    }
}

/// Saves the comparison under a name. Under another name than it has it becomes another one; to give it another name is asked for.
#[component]
fn SaveForm(
    loaded: Arc<Loaded>,
    proposal: String,
    pairings: Vec<Arc<Pairing>>,
    /// The same comparison as it was saved before.
    known: Option<Saved>,
) -> impl IntoView {
    let app = app();
    let name = RwSignal::new(known.as_ref().map_or(proposal, |saved| saved.name.clone()));
    let done = RwSignal::new(String::new());
    let known = RwSignal::new(known);
    let pairings = StoredValue::new(pairings);
    // The one that is saved anew: that of the same name.
    let onto = move || {
        pairings.with_value(|pairings| {
            let pairs: Vec<_> = pairings.iter().map(|p| (p.carrier.id.as_str(), p.head.id.as_str())).collect();
            app.saved.with(|all| Saved::onto(all, &pairs, &name.get()).cloned())
        })
    };
    let write = StoredValue::new(move |before: Option<Saved>| {
        done.set(String::new());
        let new = pairings.with_value(|pairings| {
            let of: Vec<&Pairing> = pairings.iter().map(AsRef::as_ref).collect();
            let id = before.as_ref().map_or_else(time::fresh_id, |saved| saved.id.clone());
            Saved::new(id, &name.get_untracked(), time::now(), (&loaded.table, &loaded.mark), &of, |pairing| {
                app.made(&loaded, pairing)
            })
        });
        let Some(new) = new else {
            return app.tell(Notice::fault("Give the comparison a name, then save it.".to_owned()));
        };
        let note = before.as_ref().map(|saved| saved.note.clone()).unwrap_or_default();
        let saved = Saved { note, ..new };
        let carriers: Vec<_> = saved.carriers().into_iter().map(|carrier| carrier.id.as_str()).collect();
        if !storage::keep_visiting(app, &carriers) {
            return;
        }
        // Another tab may have written on it since.
        if let Some(saved) = storage::save_merged(app, before.as_ref().unwrap_or(&saved), &saved) {
            // Where the eye is, not at the top of the page.
            app.host.tell("saved", saved.encode());
            done.set(format!("Saved as “{}” in this browser.", saved.name));
            known.set(Some(saved));
        }
    });
    let save = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        write.with_value(|write| write(untrack(onto)));
    };
    // What has the name already is saved anew; only where none has, the one that was opened may be given it.
    let renames = move || known.get().filter(|_| onto().is_none());
    let rename = move |_| write.with_value(|write| write(known.get_untracked()));
    view! {
        <form class="save" on:submit=save>
            <label for="name">"Save under a name"</label>
            <input id="name" type="text" maxlength=record::LONGEST_NAME.to_string() prop:value=name
                on:input=move |event| name.set(event_target_value(&event))/>
            <button type="submit" class="strong">{move || match (onto(), known.get()) {
                (Some(_), _) => "Save it anew",
                (None, Some(_)) => "Save as another one",
                (None, None) => "Save",
            }}</button>
            {move || renames().map(|saved| view! {
                <button type="button" on:click=rename>{format!("Rename “{}” to this", saved.name)}</button>
            })}
            <p role="status">{done}</p>
        </form>
    }
}
