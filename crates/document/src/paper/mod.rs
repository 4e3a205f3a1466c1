//! The papers of a pairing: what a fitter works from, the parts list for the stores, the customer's quotation, the card for the cab, and
//! the record of a hand-over. All of them come from the same lists, so that no two say otherwise.

mod cab;
mod customer;
mod fitter;
mod given;
mod office;
mod record;
mod stores;

pub use customer::{Letter, quotation_of};
pub use given::{Given, RunningHead};

use super::tree::{Block, Form, Line, Look, Slot, Span, Step};
use fit::{Conditions, Pairing};
use handover::Planned;
use table::{Carrier, Head};
use wording::{Section, Words};
use workshop::Sheets;

/// What the papers of one pairing are made from.
pub struct Papers<'a> {
    /// The reader's words.
    pub words: Words<'a>,
    /// The pairing.
    pub pairing: &'a Pairing,
    /// The machine as it is.
    pub carrier: &'a Carrier,
    /// The attachment.
    pub head: &'a Head,
    /// The conditions by which it was judged.
    pub conditions: &'a Conditions,
    /// What the workshop needs.
    pub sheets: &'a Sheets,
    /// What is read at the hand-over, the same that its screen asks for.
    pub planned: &'a [Planned],
    /// What a person typed for them, and what they say of themselves.
    pub given: &'a Given,
}

/// The sections with their lines. `titled` says whether the title of each stands above it; a single section has that of the paper.
fn sections(sections: impl IntoIterator<Item = Section>, titled: bool) -> Vec<Block> {
    let mut blocks = Vec::new();
    for Section { title, in_order, lines, total } in sections {
        if titled {
            blocks.push(Block::Heading { level: 2, text: title });
        }
        let lines = lines.into_iter().map(line).collect();
        blocks.push(Block::Lines { look: Look::Paper, ordered: in_order, lines });
        blocks.extend(total.map(|total| Block::Lines { look: Look::Total, ordered: false, lines: vec![line(total)] }));
    }
    blocks
}

fn line(of: wording::Line) -> Line {
    let name =
        if of.pieces.is_empty() { vec![Span::Text(of.title)] } else { of.pieces.into_iter().map(Span::from).collect() };
    let figure = match of.of {
        _ if of.value.is_empty() => Vec::new(),
        Some(figure) => vec![Span::Figure { text: of.value, of: figure }],
        None => vec![Span::Text(of.value)],
    };
    let detail = if of.detail.is_empty() { Vec::new() } else { vec![Span::Text(of.detail)] };
    Line { sign: of.sign, name, figure, detail, outcome: None }
}

/// Lines as steps, numbered from one on.
fn steps(lines: impl IntoIterator<Item = wording::Line>) -> Block {
    let step = |(place, of)| Step { number: place + 1, after: None, line: line(of) };
    Block::Steps(lines.into_iter().enumerate().map(step).collect())
}

fn heading(text: impl Into<String>) -> Block {
    Block::Heading { level: 2, text: text.into() }
}

fn form<const N: usize>(name: &str, head: [&str; N], rows: Vec<[Slot; N]>) -> Block {
    Block::Form(Form {
        name: name.to_owned(),
        head: head.map(str::to_owned).to_vec(),
        rows: rows.into_iter().map(|row| row.to_vec()).collect(),
        foot: Vec::new(),
    })
}

fn page(inside: Vec<Block>) -> Block {
    Block::Page { look: Look::Plain, inside }
}
