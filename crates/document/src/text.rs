//! A document as text: for the command line, for who hears it, and for tests.

use super::tree::{Block, Cell, Fold, Form, Line, Slot, Span, Step};
use std::fmt::Write;

/// The document as lines of text; what is folded is written out below its name.
pub fn text(blocks: &[Block]) -> String {
    let mut to = String::new();
    write_all(&mut to, blocks, 0);
    to
}

fn write_all(to: &mut String, blocks: &[Block], depth: usize) {
    for block in blocks {
        write_one(to, block, depth);
    }
}

fn line(to: &mut String, depth: usize, text: &str) {
    // Writing to a String cannot fail.
    let _ = writeln!(to, "{:1$}{text}", "", 2 * depth);
}

fn said(spans: &[Span]) -> String {
    spans.iter().map(Span::text).collect()
}

fn slot(slot: &Slot) -> String {
    match slot {
        Slot::Says(spans) => said(spans),
        Slot::More(spans, more) if more.is_empty() => said(spans),
        Slot::More(spans, more) => format!("{} ({more})", said(spans)),
        Slot::Blank => "____".to_owned(),
        Slot::Tick => "[ ]".to_owned(),
    }
}

fn write_one(to: &mut String, block: &Block, depth: usize) {
    match block {
        Block::Heading { text, .. } => line(to, depth, &format!("## {text}")),
        Block::Text { spans, .. } => line(to, depth, &said(spans)),
        Block::Facts { facts, .. } => {
            for fact in facts {
                line(to, depth, &format!("{}: {}", fact.name, said(&fact.says)));
            }
        }
        Block::Lines { ordered, lines, .. } => {
            for (place, Line { name, figure, detail, .. }) in lines.iter().enumerate() {
                let (name, figure) = (said(name), said(figure));
                let sign = if *ordered { format!("{}.", place + 1) } else { "-".to_owned() };
                let gap = if figure.is_empty() { "" } else { ": " };
                line(to, depth, &format!("{sign} {name}{gap}{figure}"));
                if !detail.is_empty() {
                    line(to, depth + 1, &said(detail));
                }
            }
        }
        Block::List { ordered, items, .. } => {
            for (place, item) in items.iter().enumerate() {
                let mut within = String::new();
                write_all(&mut within, item, 0);
                let sign = if *ordered { format!("{}.", place + 1) } else { "-".to_owned() };
                for (row, text) in within.lines().enumerate() {
                    line(to, depth, &if row == 0 { format!("{sign} {text}") } else { format!("  {text}") });
                }
            }
        }
        Block::Fold(Fold { name, summary, figures, number, inside, .. }) => {
            let number = number.map(|number| format!("{number}. ")).unwrap_or_default();
            let rest = [summary.as_str()].into_iter().chain(figures.iter().map(String::as_str));
            let rest: Vec<_> = rest.filter(|text| !text.is_empty()).collect();
            let gap = if rest.is_empty() { "" } else { " · " };
            line(to, depth, &format!("+ {number}{name}{gap}{}", rest.join(" · ")));
            write_all(to, inside, depth + 1);
        }
        Block::Table { name, head, rows, foot } => {
            let cells = |cells: &[Cell]| -> Vec<String> {
                let cell = |cell: &Cell| cell.lines.iter().map(|line| said(line)).collect::<Vec<_>>().join("; ");
                cells.iter().map(cell).collect()
            };
            line(to, depth, &format!("{name}: {}", cells(head).join(" | ")));
            for row in rows.iter().chain(foot) {
                line(to, depth + 1, &format!("{}: {}", row.name, cells(&row.cells).join(" | ")));
            }
        }
        Block::Steps(steps) => {
            for Step { number, after, line: of } in steps {
                let (name, figure) = (said(&of.name), said(&of.figure));
                let gap = if figure.is_empty() { "" } else { ": " };
                let after = after.map(|after| format!(" (after {after})")).unwrap_or_default();
                line(to, depth, &format!("[ ] {number}. {name}{gap}{figure}{after}"));
                if !of.detail.is_empty() {
                    line(to, depth + 1, &said(&of.detail));
                }
            }
        }
        Block::Form(Form { name, head, rows, foot }) => {
            line(to, depth, &format!("{name}: {}", head.join(" | ")));
            for row in rows.iter().chain(foot) {
                let slots: Vec<_> = row.iter().map(slot).collect();
                line(to, depth + 1, &slots.join(" | "));
            }
        }
        Block::Together(inside) | Block::Page { inside, .. } => write_all(to, inside, depth),
        Block::Logo(_) => {}
        Block::Picture { said, .. } => line(to, depth, &format!("[{said}]")),
        Block::Part { title, inside, .. } => {
            let aside = if title.aside.is_empty() { String::new() } else { format!(" ({})", title.aside) };
            line(to, depth, &format!("# {}{aside}", title.text));
            write_all(to, inside, depth);
        }
    }
}
