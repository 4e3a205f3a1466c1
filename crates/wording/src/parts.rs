//! Sentences in pieces: text, and figures that know which check they belong to, so that a page can open each one's reasoning.
//! Put together again the pieces are the sentence.

use explain::FigureId;
pub use fit::Stage;

/// A piece of a sentence.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// Text.
    Text(String),
    /// A figure that has a reasoning.
    Figure {
        /// The figure as it is written.
        text: String,
        /// What it is of.
        of: FigureId,
    },
}

impl Part {
    /// What it says.
    pub fn text(&self) -> &str {
        match self {
            Self::Text(text) | Self::Figure { text, .. } => text,
        }
    }
}

/// The sentence again.
pub fn whole(parts: &[Part]) -> String {
    parts.iter().map(Part::text).collect()
}

/// A template in which the characters U+0001 and U+0002 stand for two figures, as pieces. A figure that nobody knows is text.
pub(super) fn of_template(template: &str, of: FigureId, figures: &[Option<String>; 2]) -> Vec<Part> {
    let mut told = Telling::default();
    for piece in template.split_inclusive(['\u{1}', '\u{2}']) {
        let text = piece.trim_end_matches(['\u{1}', '\u{2}']);
        told.text(text);
        let figure = match &piece[text.len()..] {
            "\u{1}" => &figures[0],
            "\u{2}" => &figures[1],
            _ => continue,
        };
        match figure {
            Some(text) => told.figure(text.clone(), of),
            // At the beginning of a sentence it is written large.
            None if told.0.is_empty() => told.text("An unknown value"),
            None => told.text("an unknown value"),
        }
    }
    told.0
}

/// A sentence that is being put together.
#[derive(Debug, Default)]
pub(super) struct Telling(pub Vec<Part>);

impl Telling {
    /// Goes on with text.
    pub fn text(&mut self, text: &str) {
        if let Some(Part::Text(last)) = self.0.last_mut() {
            last.push_str(text);
        } else if !text.is_empty() {
            self.0.push(Part::Text(text.to_owned()));
        }
    }

    /// Goes on with a figure.
    pub fn figure(&mut self, text: String, of: FigureId) {
        self.0.push(Part::Figure { text, of });
    }

    /// Goes on with pieces.
    pub fn parts(&mut self, parts: impl IntoIterator<Item = Part>) {
        for part in parts {
            match part {
                Part::Text(text) => self.text(&text),
                figure @ Part::Figure { .. } => self.0.push(figure),
            }
        }
    }
}
