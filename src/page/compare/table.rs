//! Every row of a comparison as a table: the figures open their reasoning below their row.

use super::super::names::label;
use super::super::reasoning::{Opener, Panel};
use super::super::route::Route;
use super::super::setting::Setting;
use super::super::state::app;
use super::super::svg::{Mark, margin_line};
use explain::FigureId;
use fit::{Check, CheckId, Outcome, Pairing, Stage, Verdict};
use leptos::prelude::*;
use quantity::Named;
use std::sync::Arc;
use wording::Part as Piece;

/// The table.
#[component]
pub fn Table(
    pairings: Vec<Arc<Pairing>>,
    /// What each column is about.
    settings: Vec<StoredValue<Setting>>,
    /// Whether all are on one machine, which stands above.
    one: bool,
) -> impl IntoView {
    let app = app();
    let columns = Columned { settings: StoredValue::new(settings), opener: Opener::new("why-compared".to_owned()) };
    let stored = StoredValue::new(pairings);
    let differing = RwSignal::new(false);
    // What is open may stand in a row that goes.
    let only = move |event| {
        columns.opener.close();
        differing.set(event_target_checked(&event));
    };
    view! {
        {(stored.with_value(Vec::len) > 1).then(|| view! {
            <label class="check-line no-print">
                <input type="checkbox" prop:checked=differing on:change=only/>
                "Only what differs"
            </label>
        })}
        <div class="scroll" tabindex="0" role="region" aria-label="Comparison">
            <table class="compare">
                <thead>
                    <tr>
                        <td></td>
                        {stored.with_value(|pairings| pairings.iter().map(|p| {
                            let sheet = app.href(&Route::sheet(p.carrier.id.as_str(), p.head.id.as_str()));
                            let others = app.whose_figures(p.carrier.id.as_str()).is_some();
                            view! { <th scope="col">
                                <a href=sheet>{label(p.head.maker.as_ref(), &p.head.model)}
                                    {(!one).then(|| view! { <span class="on">" on "{label(p.carrier.maker.as_ref(), &p.carrier.model)}</span> })}</a>
                                {(!one && others).then(|| view! { <span class="on">"figures not checked"</span> })}
                            </th> }
                        }).collect_view())}
                    </tr>
                </thead>
                <tbody>
                    <tr><th scope="row">"Verdict"</th>
                        {stored.with_value(|pairings| pairings.iter().map(|p| {
                            let verdict = p.verdict;
                            view! { <td><Mark verdict/><span class="verdict">{app.words().verdict_of(p)}</span></td> }
                        }).collect_view())}
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
                </tfoot>
            </table>
        </div>
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
