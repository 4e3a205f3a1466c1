//! Why a figure is what it is.

use super::tree::{Block, Fold, Look, Span};
use wording::{FormulaText, InputText, ReasoningText};

/// The relation first, then what went into it, what speaks against other values, and what came out.
pub fn reasoning(text: ReasoningText) -> Vec<Block> {
    let ReasoningText { formulas, inputs, tried, held, result } = text;
    let mut relations = formulas.into_iter().map(relation);
    let first: Vec<_> = relations.by_ref().take(1).collect();
    let others: Vec<_> = relations.collect();
    let formulas = |items| Block::List { look: Look::Formulas, ordered: false, items };
    let mut blocks = vec![formulas(first)];
    if !others.is_empty() {
        let name = match others.len() {
            1 => "With 1 more relation".to_owned(),
            count => format!("With {count} more relations"),
        };
        blocks.push(Block::Fold(Fold::new("more-relations", Look::More, name, vec![formulas(others)])));
    }
    let list = |title: &str, items: Vec<Vec<Block>>| {
        let listed = Block::List { look: Look::Inputs, ordered: false, items };
        [Block::says(Look::Name, title), listed]
    };
    let lines = |texts: Vec<String>| texts.into_iter().map(|text| vec![Block::says(Look::Plain, text)]).collect();
    if !inputs.is_empty() {
        blocks.extend(list("What went into it", inputs.into_iter().map(input).collect()));
    }
    if !tried.is_empty() {
        blocks.extend(list("What points away from another value", lines(tried)));
    }
    if !held.is_empty() {
        blocks.extend(list("What it is compared with on the finished machine", lines(held)));
    }
    if !result.is_empty() {
        blocks.push(Block::says(Look::Name, "What came out"));
        blocks.push(Block::says(Look::Plain, result.join(" ")));
    }
    blocks
}

fn relation(FormulaText { line, symbols, holds, source }: FormulaText) -> Vec<Block> {
    // A rule is a sentence, a relation is written in figures.
    let look = if symbols.is_empty() { Look::Plain } else { Look::Formula };
    let mut blocks = vec![Block::says(look, line)];
    if !symbols.is_empty() {
        blocks.push(Block::says(Look::Quiet, format!("{symbols}.")));
    }
    if !holds.is_empty() {
        blocks.push(Block::says(Look::Quiet, holds));
    }
    blocks.push(Block::says(Look::Quiet, format!("Source: {source}")));
    blocks
}

fn input(InputText { name, value, source }: InputText) -> Vec<Block> {
    let spans = [Span::Text(format!("{name}: ")), Span::Strong(value), Span::Quiet(format!(" ({source})"))];
    vec![Block::of(Look::Plain, spans)]
}
