//! A paper: its sections with their lines, in the order of work.

use super::tree::{Block, Line, Look, Span};
use wording::Section;

/// The sections. `titled` says whether the title of each stands above it; a single section has that of the paper.
pub fn paper(sections: Vec<Section>, titled: bool) -> Vec<Block> {
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
