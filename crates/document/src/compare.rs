//! Pairings side by side, every row as a table.

use super::tree::{Block, Cell, Row, Span};
use explain::FigureId;
use fit::{Check, CheckId, Outcome, Pairing, Stage, Verdict};
use quantity::Named;
use wording::{Part, Words};

/// A column of a comparison.
#[derive(Clone, Debug)]
pub struct Column<'a> {
    /// The pairing.
    pub pairing: &'a Pairing,
    /// What stands above it.
    pub name: String,
    /// The machine, where not all are on one.
    pub on: Option<String>,
    /// Where the name leads.
    pub to: String,
    /// Whether nobody has checked the machine's figures.
    pub is_unchecked: bool,
}

/// The table; only the rows that differ, when asked. A figure in it is of the pairing of its column.
pub fn compared(words: &Words, columns: &[Column], only_differing: bool) -> Block {
    let head = columns.iter().map(|column| head(words, column)).collect();
    let mut rows = vec![row(words.verdict_title(), columns, |p| Cell {
        mark: Some(p.verdict),
        lines: vec![vec![Span::Text(words.verdict_of(p))]],
        ..Cell::default()
    })];
    let mut others = vec![
        row("Kind", columns, |p| Cell::says(words.head_kind(p.head.kind))),
        row("Changes", columns, |p| match p.changes.as_slice() {
            [] if p.verdict == Verdict::CannotSay => Cell::says("not known yet"),
            [] => Cell::says("none"),
            changes => Cell {
                is_list: true,
                lines: changes.iter().map(|change| spans(words.change_title_parts(change))).collect(),
                ..Cell::default()
            },
        }),
        row("Cost", columns, |p| {
            if p.changes.is_empty() {
                return Cell::says("–");
            }
            let cost = Span::Figure { text: words.cost(&p.cost), of: FigureId::Cost };
            let certain = (p.verdict == Verdict::CannotSay).then(|| Span::from(" for certain"));
            Cell { lines: vec![std::iter::once(cost).chain(certain).collect()], ..Cell::default() }
        }),
    ];
    others.extend(CheckId::ALL.iter().map(|&id| row(words.check_title(id), columns, |p| check(words, p, id))));
    others.push(row("Left to prove", columns, |p| {
        let titles: Vec<_> = p.to_prove.iter().map(|id| words.check_title(*id).to_lowercase()).collect();
        Cell::says(&if titles.is_empty() { "nothing".to_owned() } else { titles.join(", ") })
    }));
    others.push(row("Full speed from", columns, |p| Cell::of(spans(words.full_speed_from(p)))));
    for row in &mut others {
        row.differs = row.cells.windows(2).any(|pair| !pair[0].says_the_same(&pair[1]));
    }
    rows.extend(others.into_iter().filter(|row| row.differs || !only_differing));
    let foot = vec![row("In all", columns, |p| Cell::of(spans(words.takes_in_all_parts(p))))];
    Block::Table { name: "Comparison".to_owned(), head, rows, foot }
}

fn head(words: &Words, column: &Column) -> Cell {
    let mut name = vec![Span::Text(column.name.clone())];
    name.extend(column.on.as_ref().map(|machine| Span::Quiet(format!(" on {machine}"))));
    let mut lines = vec![name];
    if column.on.is_some() && column.is_unchecked {
        lines.push(vec![Span::Quiet(words.not_checked().to_owned())]);
    }
    Cell { to: Some(column.to.clone()), lines, ..Cell::default() }
}

fn row(name: &str, columns: &[Column], cell: impl Fn(&Pairing) -> Cell) -> Row {
    Row { name: name.to_owned(), differs: false, cells: columns.iter().map(|column| cell(column.pairing)).collect() }
}

fn check(words: &Words, pairing: &Pairing, id: CheckId) -> Cell {
    let stage = if pairing.checks_after.is_empty() { Stage::AsItIs } else { Stage::AfterChanges };
    let Some(check) = pairing.final_check(id) else { return Cell::says("–") };
    let is_drawn = |check: &&Check| check.outcome != Outcome::NotKnown;
    Cell {
        outcome: Some(check.outcome),
        margin: Some(check).filter(is_drawn).and_then(drawing::margin_line),
        ..Cell::of(spans(words.check_line_parts(check, stage)))
    }
}

fn spans(parts: Vec<Part>) -> Vec<Span> {
    parts.into_iter().map(Span::from).collect()
}
