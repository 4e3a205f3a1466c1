//! The legend below a circuit: what heavy lines and dashes mean, and the changes by their numbers.

use super::super::shape::{Anchor, Point, Stroke, Text};
use super::super::text::{Face, TEXT, wrap};
use super::block::ROUND;
use super::sheet::{Form, Line, Sheet};
use fit::Change;
use wording::Words;
use workshop::schema::{Part, Schema, State, adds, sets};

/// From one row to the next.
const LEADING: f64 = 16.0;
/// From the left edge to the words.
const INDENT: f64 = 44.0;

/// Adds the legend.
pub fn add(sheet: &mut Sheet, schema: &Schema, made: &[Change], words: &Words, form: Form) {
    if form == Form::Wide {
        sheet.width = sheet.width.max(480.0);
    }
    let columns = if form == Form::Wide && sheet.width >= 720.0 { 2 } else { 1 };
    let wide = (sheet.width - 8.0) / f64::from(columns);
    let mut rows: Vec<(Sign, Vec<String>)> = Vec::new();
    let text_wide = wide - INDENT - 8.0;
    let mut put = |sign: Sign, text: &str| rows.push((sign, wrap(text, Face::Word, text_wide)));
    let drawn: Vec<Stroke> = sheet.lines.iter().map(|line| line.stroke).collect();
    if drawn.contains(&Stroke::Drain) || drawn.contains(&Stroke::HeavyDrain) {
        put(Sign::Line(Stroke::Drain), words.legend_drain());
    }
    if schema.parts.iter().any(|fitted| fitted.state == State::NotStated) {
        put(Sign::Line(Stroke::Dotted), words.legend_not_stated());
    }
    if schema.parts.iter().any(|fitted| fitted.state == State::Added) {
        put(Sign::Line(Stroke::Heavy), words.legend_added());
    }
    for (index, change) in made.iter().enumerate() {
        if adds(change).iter().chain(&sets(change.id)).any(|part| schema.has(*part)) {
            put(Sign::Number(index + 1), &words.change_title(change));
        }
    }
    let top = sheet.height + 14.0;
    let height = |rows: &[(Sign, Vec<String>)]| -> f64 {
        rows.iter().map(|(_, lines)| LEADING * lines.len() as f64 + 5.0).sum()
    };
    let whole = height(&rows);
    let (mut left, mut y, mut deepest): (f64, f64, f64) = (4.0, top, top);
    for (sign, lines) in rows {
        let own = LEADING * lines.len() as f64 + 5.0;
        if columns == 2 && left < wide && y > top && y + own > top + whole / 2.0 + 24.0 {
            (left, y) = (left + wide, top);
        }
        let middle = y + LEADING / 2.0;
        match sign {
            Sign::Line(stroke) => {
                let points = vec![Point { x: left, y: middle }, Point { x: left + 34.0, y: middle }];
                sheet.samples.push(Line { part: Part::Tank, stroke, points });
            }
            Sign::Number(number) => sheet.rounds.push((Point { x: left + 34.0 - ROUND, y: middle }, number)),
        }
        for (row, line) in lines.into_iter().enumerate() {
            let at = Point { x: left + INDENT, y: middle + 0.3 * TEXT + LEADING * row as f64 };
            sheet.labels.push((Part::Tank, Text { at, anchor: Anchor::Start, text: line, face: Face::Word }));
        }
        y += own;
        deepest = f64::max(deepest, y);
    }
    if deepest > top {
        sheet.height = deepest + 4.0;
    }
}

/// What stands before a row.
enum Sign {
    Line(Stroke),
    Number(usize),
}
